"""Files that commands write: a new one, one swapped in whole, a free name for what was there before."""

from __future__ import annotations

import os
from pathlib import Path

from pentice.errors import InputError, StoreError


def write_new(file: Path, text: str) -> None:
    """Write a file that must not be there yet; raises InputError where it is."""
    try:
        with file.open("x", encoding="utf-8") as out:
            out.write(text)
    except FileExistsError as fault:
        raise InputError(f"{file} is there already; give another name, or move it away first.") from fault
    except OSError as fault:
        raise StoreError(f"{file}: cannot be written ({fault.strerror or fault}).") from fault


def write_whole(file: Path, data: bytes) -> None:
    """Write a file whole or not at all: beside its place, closed and synced, then swapped in."""
    beside = file.with_name(f".{file.name}.new")
    try:
        with beside.open("wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
        os.replace(beside, file)
    except OSError as fault:
        beside.unlink(missing_ok=True)
        raise StoreError(f"{file}: cannot be written ({fault.strerror or fault}).") from fault


def free_name(job: Path) -> Path:
    """A name beside a job file under which it can be kept before it changes."""
    number = 1
    while (kept := job.with_name(f"{job.stem}.before-{number}{job.suffix}")).exists():
        number += 1
    return kept
