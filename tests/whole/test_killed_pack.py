"""A pack that is killed with its folder half written: what lay there stays whole, and the next run clears up."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from pentice.cli.packing import write_folder
from tests.processes import ROOT, files_in

OLD = {"design.json": b"old", "papers/a.pdf": b"old" * 1000}
NEW = {"design.json": b"new", "papers/a.pdf": b"new" * 1000, "papers/b.pdf": b"new"}

# Kills itself, as a power cut would, at the given file (counted from 1), or at the given rename.
KILLED = """
import os, signal, sys
from pathlib import Path
from pentice.cli import packing
what, at, folder, files = sys.argv[1], int(sys.argv[2]), Path(sys.argv[3]), eval(sys.argv[4])
module, name = (packing, "_write") if what == "file" else (os, "replace")
kept, calls = getattr(module, name), [0]
def counted(*given):
    calls[0] += 1
    if calls[0] == at:
        os.kill(os.getpid(), signal.SIGKILL)
    return kept(*given)
setattr(module, name, counted)
packing.write_folder(folder, files)
"""


def killed(folder: Path, what: str, at: int) -> int:
    """Write NEW into a folder in a process that kills itself there; its exit code."""
    command = [sys.executable, "-c", KILLED, what, str(at), str(folder), repr(NEW)]
    return subprocess.run(command, env={**os.environ, "PYTHONPATH": str(ROOT / "src")}, timeout=60).returncode


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="No SIGKILL on this system.")
@pytest.mark.parametrize(
    ("what", "at"), [("file", 1), ("file", 2), ("file", 3), ("rename", 1), ("rename", 2)]
)
def test_a_killed_pack_never_leaves_half_a_folder(tmp_path: Path, what: str, at: int) -> None:
    """At every file and at both renames. Between those two the old pack lies beside its place, and the next run takes
    it back before it begins. Exact: bytes.
    """
    folder = tmp_path / "pack [1]"
    write_folder(folder, OLD)
    assert killed(folder, what, at) == -signal.SIGKILL
    if (what, at) == ("rename", 2):
        (beside,) = tmp_path.glob(".*.before-*")
        assert files_in(beside) == OLD
        assert not folder.exists()
    else:
        assert files_in(folder) == OLD
    write_folder(folder, NEW)
    assert files_in(folder) == NEW
    assert [path.name for path in tmp_path.iterdir()] == [folder.name]


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="No SIGKILL on this system.")
def test_a_pack_that_stood_aside_when_the_run_was_killed_is_back_even_if_the_next_run_fails(
    tmp_path: Path,
) -> None:
    """The next run is killed too, at its first file: by then the old pack is in its place again. Exact: bytes."""
    folder = tmp_path / "pack"
    write_folder(folder, OLD)
    assert killed(folder, "rename", 2) == -signal.SIGKILL
    assert killed(folder, "file", 1) == -signal.SIGKILL
    assert files_in(folder) == OLD
