"""Several jobs together: one cutting plan from shared stock and offcuts, one order, and what that saves."""

from pentice.together.stage import plan_together
from pentice.together.values import Lot, Shared

__all__ = ["Lot", "Shared", "plan_together"]
