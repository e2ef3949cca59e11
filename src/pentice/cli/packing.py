"""Writes packs: whole or not at all, never half a folder over a good one."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Mapping, Sequence
from glob import escape
from pathlib import Path
from typing import TYPE_CHECKING

from pentice.cli.loading import Loaded, solved
from pentice.errors import InputError, StoreError

if TYPE_CHECKING:
    from pentice.design import Design

SIGN = "design.json"
"""A folder that holds this file is a pack, and may be replaced by a whole new one."""


def pack_jobs(jobs: Sequence[Loaded], out: Path, *, say: Callable[[str], None]) -> tuple[Design, ...]:
    """Solve jobs and write their packs: one job into the folder itself, several each into a folder of its reference."""
    if not jobs:
        raise InputError("pack needs a job file: pentice pack JOB --out DIR.")
    from pentice.advice.stage import quick_advice
    from pentice.pack.contents import pack_files

    folders = _folders(jobs, out)
    for folder in folders:
        require_free(folder)
    designs = []
    for loaded, folder in zip(jobs, folders, strict=True):
        say(f"{loaded.path}: solving")
        design = solved(loaded)
        say("  cures and options")
        files = pack_files(quick_advice(design), progress=lambda name: say(f"  {name}"))
        write_folder(folder, files)
        say(f"The pack of {design.job.name or loaded.path.stem} lies in {folder}")
        designs.append(design)
    return tuple(designs)


def _folders(jobs: Sequence[Loaded], out: Path) -> list[Path]:
    if len(jobs) == 1:
        return [out]
    names = [loaded.job.reference or loaded.path.stem for loaded in jobs]
    for name in names:
        if names.count(name) > 1:
            raise InputError(f'Two jobs have the reference "{name}"; each needs its own.')
        if not name or name != Path(name).name or name in (".", ".."):
            raise InputError(
                f'The reference "{name}" is no name for a folder; use letters, figures and hyphens.'
            )
    return [out / name for name in names]


def require_free(folder: Path) -> None:
    """Raise unless a folder is absent, empty or a pack: nothing else is ever replaced."""
    if not folder.exists():
        return
    if not folder.is_dir():
        raise StoreError(f"{folder} is a file; give another folder with --out.")
    if any(folder.iterdir()) and not (folder / SIGN).is_file():
        raise StoreError(f"{folder} holds other files and is no pack; give another folder with --out.")


def write_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write a folder beside its place, each file closed and synced, then swap it in."""
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
        if before.exists() and not folder.exists():
            os.replace(before, folder)
        shutil.rmtree(beside, ignore_errors=True)
        raise StoreError(
            f"{folder}: cannot be written ({fault.strerror or fault}). The pack before is kept."
        ) from fault
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
    require_free(out)
    write_folder(out, pack_files(quick_advice(design)))
