"""A line of Python in a process of its own, with a chosen hash seed: what it prints."""

from __future__ import annotations

import os
import subprocess
import sys

from tests.processes import ROOT


def printed(code: str, *, seed: int) -> str:
    """What the code prints, without its line break; fails when the process fails."""
    paths = os.pathsep.join((str(ROOT / "src"), str(ROOT)))
    environment = {**os.environ, "PYTHONPATH": paths, "PYTHONHASHSEED": str(seed)}
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, env=environment, capture_output=True, check=True, timeout=120
    )
    return done.stdout.decode().strip()
