"""What side openings as they were read on site mean for the side sheets that were ordered."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from pentice.job.model import Job
from pentice.setting_out.values import SettingOut, SideFit

State = Literal["stays", "cut", "to plan"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SideNews:
    """What the opening as it stands means for one side sheet."""

    number: int
    state: State
    """ "stays": the size is as drawn. "cut": a smaller size, out of what was planned for it. "to plan": it grows."""
    read: bool
    """True where all three sizes of its opening were read."""
    says: str


def news_of_sides(job: Job, drawn: SettingOut, measured: SettingOut) -> tuple[SideNews, ...]:
    """What each side sheet is cut to now that openings were read.

    Parameters
    ----------
    job
        The job with its [measured].
    drawn, measured
        Sizes that the order was made from, and those of the openings as they stand.

    Returns
    -------
    tuple of SideNews
        In the order of their numbers; none where no opening was read.
    """
    openings = job.measured.side_openings_mm
    if not openings:
        return ()
    both = zip(drawn.side_sheets, measured.side_sheets, strict=True)
    return tuple(_news(openings[before.number - 1 : before.number], before, now) for before, now in both)


def _news(reading: tuple[tuple[float | None, ...], ...], before: SideFit, now: SideFit) -> SideNews:
    number, read = now.number, bool(reading) and None not in reading[0]
    size = f"{now.width_mm} wide, {now.left_mm} at its left edge, {now.right_mm} at its right"
    was = f"was {before.width_mm}, {before.left_mm} and {before.right_mm}"
    if _size(now) == _size(before):
        return SideNews(number=number, state="stays", read=read, says=f"Side sheet {number} stays {size}.")
    if comes_out_of(now, before):
        says = f"Cut side sheet {number} to {size}; {was}. It comes out of what was planned for it."
        return SideNews(number=number, state="cut", read=read, says=says)
    says = (
        f"Side sheet {number} must be {size}; {was}. That is more than was planned for it: solve the job anew "
        "before you cut any side sheet, and look what must be bought."
    )
    return SideNews(number=number, state="to plan", read=read, says=says)


def _size(fit: SideFit) -> tuple[int, int, int]:
    return fit.width_mm, fit.left_mm, fit.right_mm


def comes_out_of(now: SideFit, before: SideFit) -> bool:
    """Whether a side sheet lies within another one, both on their feet, at its left or at its right edge.

    Parameters
    ----------
    now, before
        The sheet that is wanted, and the one that was planned.

    Returns
    -------
    bool
        Upright flutes stay upright: it is moved sideways only.
    """
    spare = before.width_mm - now.width_mm
    return spare >= 0 and any(
        now.left_mm <= _height(before, x) + 1e-9 and now.right_mm <= _height(before, x + now.width_mm) + 1e-9
        for x in (0, spare)
    )


def _height(fit: SideFit, x_mm: float) -> float:
    """Of a sheet at a distance from its left edge [mm]."""
    return fit.left_mm + (fit.right_mm - fit.left_mm) * x_mm / fit.width_mm


def side_lines(sides: tuple[SideNews, ...]) -> Iterator[str]:
    """The news as lines of text: what changes first, then what stays, then what is not read.

    Parameters
    ----------
    sides
        Of every side sheet.

    Yields
    ------
    str
        One line each.
    """
    yield from (side.says for side in sides if side.state != "stays")
    for words, chosen in (
        ("As drawn", [side for side in sides if side.state == "stays" and side.read]),
        ("Not read in full", [side for side in sides if not side.read]),
    ):
        numbers = [str(side.number) for side in chosen]
        if numbers:
            yield f"{words}: side sheet{'s' if len(numbers) > 1 else ''} {', '.join(numbers)}."
