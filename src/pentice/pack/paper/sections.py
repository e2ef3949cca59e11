"""A document's data: what stands on every page, and its sections."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from datetime import date
from typing import Any

from pentice.drawing.furniture import key_strip
from pentice.drawing.page import bare_page
from pentice.drawing.scene import Box, Pinned, Scene
from pentice.drawing.svg import render_svg
from pentice.pack.paper.blocks import Block

A3_FRAME = Box(left=20.0, top=10.0, right=410.0, bottom=287.0)
"""Frame of an A3 drawing sheet [mm of paper]."""
A3_TITLE_BLOCK = Box(left=230.0, top=228.5, right=410.0, bottom=287.0)
"""The title block. A drawing leaves it free, but for `A3_MARKS`."""
A3_CAUTIONS = Box(left=230.0, top=199.0, right=410.0, bottom=227.0)
"""Three cautions and the warning band stand here when there are any, counted from the lower edge."""
A3_MARKS = Box(left=232.0, top=274.5, right=408.0, bottom=286.5)
"""The free last row of the title block: scale bar at its left (up to 80 long), north at its right end."""

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def day(issued: date | tuple[int, int, int] | None) -> str:
    """A date as papers have it; "undated" where the job gives none.

    Examples
    --------
    >>> day((2027, 3, 9))
    '9 Mar 2027'
    """
    if issued is None:
        return "undated"
    y, m, d = (issued.year, issued.month, issued.day) if isinstance(issued, date) else issued
    return f"{d} {MONTHS[m - 1]} {y}"


def meta(
    document: str,
    *,
    job: str,
    number: str,
    revision: str,
    issued: date | tuple[int, int, int] | None,
    firm: str,
    warning: str = "",
) -> Block:
    """What stands on every page of a document.

    Parameters
    ----------
    document
        Its name, for the foot ("Cutting tickets").
    job, number, revision, issued, firm
        From the job; ``issued`` is the date of the revision, never today; None where the job
        gives no date.
    warning
        One sentence on a black band at the top of every page while something is not proved; empty for none.

    Examples
    --------
    >>> meta("Quote", job="Hall", number="P-1", revision="B", issued=(2027, 3, 9), firm="Firm")["title"]
    'Quote, Hall, P-1 revision B'
    """
    if isinstance(issued, date):
        issued = (issued.year, issued.month, issued.day)
    made: dict[str, Any] = {
        "document": document,
        "title": f"{document}, {job}, {number} revision {revision}",
        "author": firm,
        "job": job,
        "number": number,
        "revision": revision,
        "date": day(issued),
        "issued": None if issued is None else dict(zip(("year", "month", "day"), issued, strict=True)),
    }
    return made | ({"warning": warning} if warning else {})


def section(
    title: str,
    blocks: Sequence[Block],
    *,
    result: str = "",
    strip: Block | None = None,
    landscape: bool = False,
    foot: str = "",
    letterhead: Block | None = None,
) -> Block:
    """A section of A4 pages: title, one line under it that says the result, key strip, blocks.

    Parameters
    ----------
    title, blocks, result
        What is read.
    strip
        From `strip_of`.
    landscape
        The page lies on its side.
    foot
        A sentence instead of check rule and job, for a customer's paper.
    letterhead
        ``firm``, ``address``, ``paper``, ``dates`` and perhaps ``for``: a customer's first page, its title h 7.

    Examples
    --------
    >>> section("Checks", [], result="All hold.")["result"]
    'All hold.'
    """
    made: Block = {"title": title, "result": result, "blocks": list(blocks), "landscape": landscape}
    if strip is not None:
        made["strip"] = strip
    if foot:
        made["foot"] = foot
    if letterhead is not None:
        made["letterhead"] = letterhead
    return made


def title_block(
    title: Sequence[str],
    *,
    firm: Sequence[str],
    drawn_by: str,
    checked_by: str,
    measured: str,
    scale: str,
    revisions: Sequence[str],
) -> Block:
    """The title block of an A3 drawing: two lines of title and of firm at most, three of revisions."""
    return {
        "title": list(title), "firm": list(firm), "drawn_by": drawn_by, "checked_by": checked_by,
        "measured": measured, "scale": scale, "revisions": list(revisions)[-3:],
    }  # fmt: skip


def drawing_section(image: str, alt: str, block: Block, *, cautions: Sequence[tuple[str, str]] = ()) -> Block:
    """An A3 drawing: a picture of the whole sheet (420 by 297), the frame and title block are set over it."""
    rows = [list(row) for row in cautions]
    title = " ".join(block["title"])
    made: Block = {"paper": "A3", "title": title, "image": image, "alt": alt}
    return made | {"title_block": block, "cautions": rows}


def strip_of(name: str, alt: str) -> Block:
    """The key strip of a section: the name of its picture, and what it shows."""
    return {"image": name, "alt": alt}


def strip_svg(
    widths: Sequence[float], active_bays: Collection[int] = (), active_bars: Collection[int] = ()
) -> str:
    """The key strip as a picture of 47 by 14 mm, for ``images``.

    Examples
    --------
    >>> "<title>Key strip</title>" in strip_svg((1.0, 1.0), active_bays=(1,))
    True
    """
    strip = Pinned(at=(0.5, 0.5), content=key_strip(widths, active_bays, active_bars))
    scene = Scene(primitives=(strip,), title="Key strip", desc="The roof from above, the wall at the top.")
    return render_svg(scene, bare_page(47.0, 14.0))
