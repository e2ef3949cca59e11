"""How many examples a property test tries: as many as fit a test run, or as many times more as PENTICE_TRIES says."""

from __future__ import annotations

import os

from hypothesis import settings

TIMES = int(os.environ.get("PENTICE_TRIES", "1"))


def tries(count: int) -> settings:
    """Settings of a property test that tries so many examples; "make hunt" tries ten times as many."""
    return settings(max_examples=count * TIMES)
