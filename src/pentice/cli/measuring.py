"""What `pentice measure` does: the readings into the job file, the old file kept, and what they mean for the order."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from pentice.cli.files import free_name, write_whole
from pentice.cli.loading import load
from pentice.job.entries import apply_entries, entries_from_text
from pentice.texts import file_text

if TYPE_CHECKING:
    from pentice.advice.measured import BayNews, FrameNews


def merge_entries(job: Path, entries: Path, *, use_file: bool = False) -> Path:
    """Merge what the site page saved into a job file; gives the name under which the old file is kept beside it."""
    text = file_text(job)
    saved = entries_from_text(file_text(entries), file=str(entries))
    merged = apply_entries(text, saved, file=str(job), use_file=use_file)
    kept = free_name(job)
    write_whole(kept, text.encode())
    write_whole(job, merged.encode())
    return kept


def frame_news(job: Path, catalogues: Sequence[Path] = ()) -> FrameNews:
    """What the ordered sheets still serve by the readings that a job file holds now."""
    from pentice.advice.measured import news_of_frame

    loaded = load(job, catalogues)
    return news_of_frame(loaded.job, loaded.catalogue)


def news_lines(news: FrameNews) -> Iterator[str]:
    """The news as lines of text: what changes first, then what stays, what is not read, and what else got worse.

    Yields
    ------
    str
        One line each.
    """
    from pentice.advice.measured_sides import side_lines

    yield from (bay.says for bay in news.bays if bay.state != "stays")
    for name in news.sides_without:
        yield f"{name}: no sheet you ordered is left for it. Buy one."
    yield from side_lines(news.sides)
    yield from _staying(news.bays)
    unread = [str(bay.bay) for bay in news.bays if not bay.read]
    if unread:
        yield f"Not read: {_bays(unread)}. Measure before you cut there."
    for words in news.worse:
        yield f"Worse than as drawn: {words}. See pentice check."
    yield f"Sizes hold at {news.cut_at_c:g} °C of sheet."


def _staying(bays: Iterable[BayNews]) -> Iterator[str]:
    """Sheets that stay as they are, alike ones in one line."""
    alike: dict[str, list[str]] = {}
    for bay in bays:
        if bay.state == "stays":
            alike.setdefault(bay.says.partition(" stays ")[2], []).append(str(bay.bay))
    for size, numbers in alike.items():
        if len(numbers) == 1:
            yield f"Sheet {numbers[0]} stays {size}"
        else:
            yield f"Sheets {', '.join(numbers)} stay {size}"


def _bays(numbers: list[str]) -> str:
    return f"bay {numbers[0]}" if len(numbers) == 1 else f"bays {', '.join(numbers)}"
