"""Files that commands write: a new job, and readings merged into one, the old file kept."""

from __future__ import annotations

import os
from pathlib import Path

from pentice.errors import InputError, StoreError
from pentice.job.entries import apply_entries, entries_from_text
from pentice.texts import file_text


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


def apply_entries_to(job: Path, entries: Path) -> Path:
    """Merge what the site page saved into a job file; gives the name under which the old file is kept."""
    text = file_text(job)
    merged = apply_entries(text, entries_from_text(file_text(entries), file=str(entries)), file=str(job))
    kept = _free_name(job)
    write_whole(kept, text.encode())
    write_whole(job, merged.encode())
    return kept


def _free_name(job: Path) -> Path:
    number = 1
    while (kept := job.with_name(f"{job.stem}.before-{number}{job.suffix}")).exists():
        number += 1
    return kept
