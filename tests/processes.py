"""Pentice as a user's machine runs it: a process of its own, with a chosen hash seed, and what it left in a folder."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
_START = "import sys; from pentice.cli import main; sys.exit(main())"


def run_pentice(
    *arguments: str | Path, hash_seed: int = 0, cwd: Path = ROOT
) -> subprocess.CompletedProcess[bytes]:
    """Run one `pentice` command in a process of its own and return its exit code, stdout and stderr.

    The hash seed decides the order in which sets are walked; the same command must print the same with any seed.
    """
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "src"), "PYTHONHASHSEED": str(hash_seed)}
    return subprocess.run(
        [sys.executable, "-c", _START, *map(str, arguments)],
        cwd=cwd,
        env=environment,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        check=False,
        timeout=120,
    )


def files_in(folder: Path) -> dict[str, bytes]:
    """Every file below a folder with its bytes, by its name within the folder."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
