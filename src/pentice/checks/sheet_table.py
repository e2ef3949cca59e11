"""A supplier's load table: interpolated between its rows, never beyond them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from pentice.catalogue.sheets import LoadRow, LoadTable
from pentice.records import quickly_made


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class TableRead:
    """What a table says at one span: load carried [kN/m2], its sag [mm] if printed, and the arithmetic of reading."""

    load_kn_m2: float
    sag_mm: float | None
    how: str


def read_table(
    table: LoadTable, *, span_mm: float, sign: str, between_mm: float | None = None
) -> TableRead | str:
    """Load carried at one span, or the sentence that says why the table does not tell.

    Parameters
    ----------
    table
        The table.
    span_mm
        Span as the table counts it [mm].
    sign
        "down" or "up".
    between_mm
        Length between cross supports along the flutes [mm]; None for rows that need none.

    Returns
    -------
    TableRead or str
        Straight lines between rows of one kind: the same sign and supports.

    Source
    ------
    The table itself; straight lines between its rows, none beyond its ends: judgement, no source.
    """
    rows = _rows_of(table, sign, purlins=between_mm is not None)
    if not rows:
        kind = "with cross supports" if between_mm is not None else "without cross supports"
        return f"The load table has no rows for {sign}ward load {kind}; ask the supplier."
    answers = [
        _of_supports([r for r in rows if r.supports == s], span_mm, between_mm)
        for s in ("two edges", "four edges")
    ]
    reads = [a for a in answers if isinstance(a, TableRead)]
    if reads:
        return min(reads, key=lambda read: read.load_kn_m2)
    return (
        next(a for a in answers if isinstance(a, str) and a)
        if any(answers)
        else "The load table has no such rows."
    )


def span_ends_mm(table: LoadTable, *, sign: str, purlins: bool) -> tuple[float, float] | None:
    """The narrowest and the widest span that a table knows for one kind of load.

    Parameters
    ----------
    table
        The table.
    sign
        "down" or "up".
    purlins
        Whether the rows between cross supports are meant.

    Returns
    -------
    tuple or None
        As the table counts its spans [mm]; None where it has no such rows.

    Source
    ------
    The table itself.
    """
    spans = [row.span_mm for row in _rows_of(table, sign, purlins=purlins)]
    return (min(spans), max(spans)) if spans else None


def _rows_of(table: LoadTable, sign: str, *, purlins: bool) -> list[LoadRow]:
    return [r for r in table.rows if r.sign == sign and (r.length_between_supports_mm is not None) == purlins]


def _of_supports(rows: Sequence[LoadRow], span_mm: float, between_mm: float | None) -> TableRead | str:
    if not rows:
        return ""
    if between_mm is None:
        return _along_span(rows, span_mm)
    lengths = sorted({r.length_between_supports_mm or 0.0 for r in rows})
    if not lengths[0] <= between_mm <= lengths[-1]:
        return (
            f"The load table ends: {between_mm:.0f} between supports, it holds {lengths[0]:.0f} to {lengths[-1]:.0f}. "
            "Move the purlins, or ask the supplier."
        )
    low = max(n for n in lengths if n <= between_mm)
    high = min(n for n in lengths if n >= between_mm)
    reads: list[TableRead] = []
    for length in (low, high):
        found = _along_span([r for r in rows if r.length_between_supports_mm == length], span_mm)
        if isinstance(found, str):
            return found
        reads.append(found)
    if low == high:
        return reads[0]
    share = (between_mm - low) / (high - low)
    return TableRead(
        load_kn_m2=reads[0].load_kn_m2 + (reads[1].load_kn_m2 - reads[0].load_kn_m2) * share,
        sag_mm=_blend(reads[0].sag_mm, reads[1].sag_mm, share),
        how=(
            f"{reads[0].load_kn_m2:.4f} + ({reads[1].load_kn_m2:.4f} - {reads[0].load_kn_m2:.4f}) x "
            f"({between_mm:.1f} - {low:.0f}) / ({high:.0f} - {low:.0f}); "
            f"{low:.0f} between supports: {_plain(reads[0].how)}; {high:.0f}: {_plain(reads[1].how)}"
        ),
    )


def _along_span(rows: Sequence[LoadRow], span_mm: float) -> TableRead | str:
    held = sorted(rows, key=lambda row: row.span_mm)
    if not held[0].span_mm <= span_mm <= held[-1].span_mm:
        return (
            f"The load table ends: the span is {span_mm:.0f}, it holds {held[0].span_mm:.0f} to "
            f"{held[-1].span_mm:.0f} mm. Bring the bars closer, or ask the supplier."
        )
    for row in held:
        if row.span_mm == span_mm:
            return TableRead(
                load_kn_m2=row.load_kn_m2, sag_mm=row.sag_mm, how=f"{row.load_kn_m2:g}; row {row.span_mm:.0f}"
            )
    low, high = next((a, b) for a, b in pairwise(held) if a.span_mm < span_mm < b.span_mm)
    share = (span_mm - low.span_mm) / (high.span_mm - low.span_mm)
    return TableRead(
        load_kn_m2=low.load_kn_m2 + (high.load_kn_m2 - low.load_kn_m2) * share,
        sag_mm=_blend(low.sag_mm, high.sag_mm, share),
        how=(
            f"{low.load_kn_m2:g} + ({high.load_kn_m2:g} - {low.load_kn_m2:g}) x "
            f"({span_mm:.1f} - {low.span_mm:.0f}) / ({high.span_mm:.0f} - {low.span_mm:.0f}); "
            f"rows {low.span_mm:.0f} and {high.span_mm:.0f}"
        ),
    )


def _plain(how: str) -> str:
    """How a row was read, without what is said behind its arithmetic."""
    return how.partition(";")[0]


def _blend(low: float | None, high: float | None, share: float) -> float | None:
    return None if low is None or high is None else low + (high - low) * share
