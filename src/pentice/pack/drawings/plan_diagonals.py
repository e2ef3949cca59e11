"""The diagonals of the plan, with their length and by how much they may differ."""

from __future__ import annotations

import math

from pentice.design import Design
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.scene import Line, Pinned, Point, Primitive, Text
from pentice.pack.drawings.values import whole


def foot_y(design: Design) -> float:
    """Outside of the foot profile, level from the string line [mm]."""
    return design.shape.projection_mm + design.shape.overhang_level_mm


def diagonals(design: Design, n: float) -> tuple[Primitive, ...]:
    """Both diagonals, with their length and by how much they may differ."""
    shape, setting_out = design.shape, design.setting_out
    w, p = shape.width_mm, shape.projection_mm
    lines = (
        Line(a=(0.0, 0.0), b=(w, p), style="double chain"),
        Line(a=(w, 0.0), b=(0.0, p), style="double chain"),
    )
    apart = max(half_up(setting_out.diagonals_mm / 1000.0), 1.0)
    texts = (f"diagonals {whole(setting_out.diagonals_mm)} both ways", f"differ by {apart:g} or less")
    turn = -math.degrees(math.atan2(p, w))
    start = _start(turn)
    if _reach(texts[0], turn) > 0.36 * foot_y(design) / n - 6.0 or start > w / n / 3.0:
        # No room above the bay numbers: beside the roof, read from the right; past the words of the rows of marks
        # where the roof is shallower than the label is long.
        shallow = p / n < text_width_mm(texts[0], 2.5, 600) - 22.0
        return (*lines, _turned_words((w + (21.0 if shallow else 11.0) * n, p / 2), texts))
    return (*lines, _along_words(texts, turn))


def _reach(text: str, turn_deg: float) -> float:
    """How far down the plan a label along the diagonal reaches [mm of paper]."""
    return (_start(turn_deg) + text_width_mm(text, 2.5, 600)) * math.sin(math.radians(-turn_deg)) + 2.0


def _start(turn_deg: float) -> float:
    """How far along the diagonal its label begins: with its capitals below the line of the head [mm of paper]."""
    return max(12.0, 4.6 / max(math.sin(math.radians(-turn_deg)), 1e-3))


def _turned_words(at: Point, texts: tuple[str, str]) -> Pinned:
    rows = ((texts[0], 600, 0.0), (texts[1], 400, 4.6))
    return Pinned(
        at=at,
        content=tuple(
            Text(at=(x, 0.0), text=text, weight=weight, anchor="middle", turn_deg=90.0)
            for text, weight, x in rows
        ),
    )


def _along_words(texts: tuple[str, str], turn: float) -> Pinned:
    along = (math.cos(math.radians(turn)), -math.sin(math.radians(turn)))
    up = (along[1], -along[0])
    start = _start(turn)
    words = tuple(
        Text(
            at=(along[0] * start + up[0] * lift, along[1] * start + up[1] * lift),
            text=text, weight=weight, turn_deg=turn, halo=True,
        )
        for text, weight, lift in ((texts[0], 600, 1.2), (texts[1], 400, -3.7))
    )  # fmt: skip
    return Pinned(at=(0.0, 0.0), content=words)


def half_up(value: float) -> float:
    """Nearest half.

    Examples
    --------
    >>> half_up(5.7)
    5.5
    """
    return round(value * 2.0) / 2.0
