"""Cutting: pieces from stock at least cost, with a bound that no plan can go below. Knows nothing of jobs."""

from pentice.cutting.lengths import cut_lengths
from pentice.cutting.sheets import cut_sheets

__all__ = ["cut_lengths", "cut_sheets"]
