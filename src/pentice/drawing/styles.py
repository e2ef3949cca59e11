"""One table of line widths, dashes, lettering and colours that every writer shares.

Widths stand 1 : 2 : 4 in the line group 0.5 as on building drawings (ISO 128 family, from memory); dashes
grow with the width. A dashed line means hidden or not yet there; lettering grows by root 2. Colours were
chosen by contrast on white (judgement).
"""

from __future__ import annotations

from dataclasses import dataclass

PX_PER_MM = 4.0
"""Screen pixels to one mm of paper: lettering of 2.5 mm becomes 15 px high in the em."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LineStyle:
    """A kind of line: widths, dash pattern in multiples of the width, and what it is for."""

    name: str
    width_mm: float
    width_px: float
    dash: tuple[float, ...] = ()
    used_for: str = ""

    @property
    def layer(self) -> str:
        """Name of the layer in a DXF file."""
        return f"PENTICE-{self.name.upper().replace(' ', '-')}"

    @property
    def lineweight(self) -> int:
        """Line weight of a DXF layer, in hundredths of a mm."""
        return round(self.width_mm * 100)


_DASHED = (9.0, 3.5)
_CHAIN = (20.0, 3.2, 0.8, 3.2)
_DOUBLE = (20.0, 3.2, 0.8, 3.2, 0.8, 3.2)


def _line(name: str, mm: float, px: float, dash: tuple[float, ...], use: str) -> LineStyle:
    return LineStyle(name=name, width_mm=mm, width_px=px, dash=dash, used_for=use)


_ALL = (
    _line("extra wide", 1.0, 4.0, (), "cut wall, ground, cut sheet, outline of a piece on its ticket"),
    _line("frame", 0.7, 3.0, (), "frame of an A3 sheet, rule under a page title"),
    _line("wide", 0.5, 2.0, (), "seen edges, frames of boxes, oblique strokes"),
    _line("narrow", 0.25, 1.25, (), "sizes, leaders, break lines, hatches"),
    _line("hair", 0.13, 0.8, (), "flutes, nothing else"),
    _line("wide dashed", 0.5, 2.0, _DASHED, "hidden but to be set out, kept offcut"),
    _line("narrow dashed", 0.25, 1.25, _DASHED, "hidden edge"),
    _line("chain", 0.25, 1.25, _CHAIN, "centre lines, detail circles"),
    _line("double chain", 0.25, 1.25, _DOUBLE, "diagonals to tape, a neighbour's building"),
    _line("cutting plane", 1.0, 4.0, (), "ends of a section plane"),
    _line("active", 0.7, 3.0, (), "the size that is being typed, on screen"),
)
LINES: dict[str, LineStyle] = {style.name: style for style in _ALL}
"""Line styles by name."""

COLOURS: dict[str, str] = {
    "ink": "#14171a",
    "soft": "#4a5259",
    "line": "#6e7880",
    "hair": "#c9d0d4",
    "desk": "#f1f3f4",
    "tint": "#e1e7e9",
    "white": "#ffffff",
    "chalk": "#1b4fa8",
    "stop": "#b00020",
    "stop tint": "#fbe9eb",
    "care": "#ffd23f",
}
"""Colours by name. Colour only repeats what a shape and a word already say."""

TEXT_PX: dict[float, float] = {
    1.8: 12.0, 2.5: 15.0, 2.8: 17.0, 3.5: 20.0, 5.0: 26.0, 7.0: 33.0, 10.0: 56.0, 14.0: 78.0, 20.0: 112.0,
}  # fmt: skip
"""Font size on screen [px] for each step of lettering (height of a capital [mm])."""

SMALLEST_SCREEN_PX = 14.0
"""No lettering in a drawing on a screen is smaller (judgement)."""

WEIGHTS = (400, 600, 700)
FONT = "Source Sans Pro"


def line_style(name: str) -> LineStyle:
    """The line style of that name.

    Raises
    ------
    KeyError
        No such style: a mistake in the program that draws.

    Examples
    --------
    >>> line_style("narrow").width_mm
    0.25
    """
    return LINES[name]


def text_px(h_mm: float) -> float:
    """Font size on screen for lettering ``h_mm`` high on paper, never under the floor.

    Parameters
    ----------
    h_mm
        Height of a capital [mm].

    Examples
    --------
    >>> text_px(2.5), text_px(1.8)
    (15.0, 14.0)
    """
    return max(SMALLEST_SCREEN_PX, TEXT_PX.get(h_mm, h_mm / 0.66 * PX_PER_MM))
