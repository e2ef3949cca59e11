"""Writes packs: whole or not at all, never half a folder over a good one."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Mapping, Sequence
from glob import escape
from pathlib import Path
from typing import TYPE_CHECKING

from pentice.cli.loading import Loaded, solved, solved_together
from pentice.errors import InputError, StoreError
from pentice.pack.contents import SHARED_SIGN, SIGN, pack_files, shared_files

if TYPE_CHECKING:
    from pentice.design import Design

SIGNS = (SIGN, SHARED_SIGN)
"""A folder that holds one of these is a pack, of one job or of several, and may be replaced by a whole new one."""
Say = Callable[[str], None]


def pack_jobs(jobs: Sequence[Loaded], out: Path, *, say: Say) -> tuple[Design, ...]:
    """Solve jobs and write their pack: of one job, or of several that are cut and ordered together."""
    if not jobs:
        raise InputError("pack needs a job file: pentice pack JOB --out DIR.")
    if len(jobs) == 1:
        return (_pack_one(jobs[0], out, say),)
    return _pack_together(jobs, out, say)


def _pack_one(loaded: Loaded, out: Path, say: Say) -> Design:
    from pentice.advice.stage import quick_advice

    require_free(out, SIGN)
    say(f"{loaded.path}: solving")
    design = solved(loaded)
    say("  cures and options")
    files = pack_files(quick_advice(design), progress=lambda name: say(f"  {name}"))
    write_folder(out, files)
    say(f"The pack of {design.job.name or loaded.path.stem} lies in {out}")
    return design


def _pack_together(jobs: Sequence[Loaded], out: Path, say: Say) -> tuple[Design, ...]:
    """What the jobs share into the folder itself, the rest into a folder of each reference; all of it or nothing."""
    from pentice.advice.stage import quick_advice
    from pentice.pack.shared import saving
    from pentice.pack.words import listed

    require_free(out, SHARED_SIGN)
    shared = solved_together(jobs, say=say)
    say(f"  {saving(shared)}")
    say("  cures and options")
    advices = [quick_advice(design) for design in shared.designs]
    write_folder(out, shared_files(shared, advices, progress=lambda name: say(f"  {name}")))
    say(f"The pack of {listed(shared.references)} lies in {out}")
    return shared.designs


def require_free(folder: Path, sign: str) -> None:
    """Raise unless a folder is absent, empty or a pack of the same kind: nothing else is ever replaced."""
    if not folder.exists():
        return
    if not folder.is_dir():
        raise StoreError(f"{folder} is a file; give another folder with --out.")
    if not any(folder.iterdir()) or (folder / sign).is_file():
        return
    if any((folder / other).is_file() for other in SIGNS):
        kinds = ("one job", "several jobs") if sign == SHARED_SIGN else ("several jobs", "one job")
        raise StoreError(
            f"{folder} holds the pack of {kinds[0]}; give the pack of {kinds[1]} another folder with --out."
        )
    raise StoreError(f"{folder} holds other files and is no pack; give another folder with --out.")


def write_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write a folder beside its place, each file closed and synced, then swap it in. Whole or not at all."""
    folder = folder.absolute()
    beside = folder.with_name(f".{folder.name}.new-{os.getpid()}")
    before = folder.with_name(f".{folder.name}.before-{os.getpid()}")
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        _take_back(folder)
        for name, data in files.items():
            _write(beside / name, data)
        if folder.exists():
            os.replace(folder, before)
        os.replace(beside, folder)
    except OSError as fault:
        raise StoreError(
            f"{folder}: cannot be written ({fault.strerror or fault}). The pack before is kept."
        ) from fault
    finally:  # however it ends, Ctrl-C too: the good pack stands in its place and nothing lies beside it
        if before.exists() and not folder.exists():
            os.replace(before, folder)
        shutil.rmtree(beside, ignore_errors=True)
        shutil.rmtree(before, ignore_errors=True)


def _take_back(folder: Path) -> None:
    """Clear up after a run that was killed: between its two renames the pack before lies beside its place, whole."""
    folder = folder.absolute()
    kept = sorted(folder.parent.glob(f".{escape(folder.name)}.before-*"), key=lambda p: p.stat().st_mtime_ns)
    if kept and not folder.exists():
        os.replace(kept.pop(), folder)
    for left in (*kept, *folder.parent.glob(f".{escape(folder.name)}.new-*")):
        shutil.rmtree(left, ignore_errors=True)


def _write(file: Path, data: bytes) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    with file.open("wb") as out:
        out.write(data)
        out.flush()
        os.fsync(out.fileno())


def write_pack(design: Design, folder: str | Path) -> None:
    """Write the pack of one design, with its options, into a folder; see `write_folder`."""
    from pentice.advice.stage import quick_advice
    from pentice.pack.contents import pack_files

    out = Path(folder)
    require_free(out, SIGN)
    write_folder(out, pack_files(quick_advice(design)))
