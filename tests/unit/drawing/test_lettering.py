"""Widths of lettering against the fonts themselves, and the table of styles."""

from __future__ import annotations

from pathlib import Path

import font_source_sans_pro
import pytest
from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

from pentice.drawing.lettering import CAPITAL_EM, font_size_mm, text_width_mm, wrap
from pentice.drawing.lettering_widths import WIDTHS
from pentice.drawing.styles import COLOURS, LINES, TEXT_PX, text_px

FACES = {400: "Regular", 600: "Semibold", 700: "Bold"}
DXF_WEIGHTS = (13, 25, 50, 70, 100)
"""Line weights that DXF knows and we use, in hundredths of a mm (the format's list, from memory)."""


def face(weight: int) -> TTFont:
    """The font of a weight, as the package brings it."""
    return TTFont(Path(font_source_sans_pro.font_directory) / f"SourceSansPro-{FACES[weight]}.otf")


@pytest.mark.parametrize("weight", sorted(WIDTHS))
def test_every_width_is_the_fonts_own(weight: int) -> None:
    """Exact: widths are whole thousandths of an em in both."""
    font = face(weight)
    cmap, metrics = font.getBestCmap(), font["hmtx"]
    wrong = {
        character: (width, metrics[cmap[ord(character)]][0])
        for width, characters in WIDTHS[weight].items()
        for character in characters
        if metrics[cmap[ord(character)]][0] != width
    }
    assert wrong == {}
    assert font["OS/2"].sCapHeight == round(CAPITAL_EM * font["head"].unitsPerEm)


def test_digits_are_all_one_width_so_that_columns_line_up() -> None:
    """In each weight."""
    for weight in WIDTHS:
        assert len({text_width_mm(digit, 2.5, weight) for digit in "0123456789"}) == 1


def test_bold_is_wider_than_plain_and_width_grows_with_height() -> None:
    """Twice the height is twice the width."""
    assert text_width_mm("rafter", 2.5, 700) > text_width_mm("rafter", 2.5, 400)
    assert text_width_mm("rafter", 5.0) == pytest.approx(2 * text_width_mm("rafter", 2.5), rel=1e-12)


def test_a_character_that_is_not_in_the_table_counts_something() -> None:
    """A foreign letter still takes room."""
    assert text_width_mm("ж", 6.6) == pytest.approx(6.0, rel=1e-12)


def test_wrapped_lines_fit_and_lose_no_word() -> None:
    """Except a word that is longer than the line by itself."""
    words = "flashing 150 up the wall, chased in and sealed"
    lines = wrap(words, 22.0, 2.5)
    assert " ".join(lines) == words
    assert all(text_width_mm(line, 2.5) <= 22.0 for line in lines)
    assert wrap("unverbesserlicherweise ja", 5.0, 2.5) == ("unverbesserlicherweise", "ja")


def test_line_widths_are_those_a_dxf_layer_can_have() -> None:
    """An odd width would be refused or rounded by the reader."""
    assert {style.lineweight for style in LINES.values()} <= set(DXF_WEIGHTS)


def luminance(colour: str) -> float:
    """Relative luminance by the formula of WCAG 2.2."""
    parts = [int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5)]
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


@pytest.mark.parametrize(
    ("name", "floor"), [("ink", 7.0), ("soft", 4.5), ("chalk", 4.5), ("stop", 4.5), ("line", 3.0)]
)
def test_colours_of_text_and_marks_stand_out_from_white(name: str, floor: float) -> None:
    """Floors of WCAG 2.2, 1.4.3 and 1.4.11: 4.5 for text, 3 for marks."""
    assert 1.05 / (luminance(COLOURS[name]) + 0.05) >= floor


def test_no_lettering_on_screen_is_under_14_px_and_it_grows_with_the_steps() -> None:
    """Smaller is not read on a phone in the rain."""
    sizes = [text_px(h) for h in sorted(TEXT_PX)]
    assert min(sizes) >= 14.0
    assert sizes == sorted(sizes)
    assert text_px(4.0) == pytest.approx(font_size_mm(4.0) * 4.0, rel=1e-3)
