"""How wide and how high a piece of lettering will be, before anything is drawn.

Size is named by the height of a capital in mm (h), as lettering on drawings is; the font size is h / 0.66.
"""

from __future__ import annotations

from pentice.drawing.lettering_widths import WIDTHS

CAPITAL_EM = 0.660
"""Height of a capital in em (read from the fonts, see lettering_widths)."""

_UNKNOWN = 600
_BY_CHARACTER = {
    weight: {character: width for width, characters in table.items() for character in characters}
    for weight, table in WIDTHS.items()
}


def font_size_mm(h_mm: float) -> float:
    """Font size (the em) whose capitals are ``h_mm`` high.

    Parameters
    ----------
    h_mm
        Height of a capital [mm].

    Examples
    --------
    >>> round(font_size_mm(2.5), 2)
    3.79
    """
    return h_mm / CAPITAL_EM


def text_width_mm(text: str, h_mm: float, weight: int = 400) -> float:
    """Width that ``text`` takes, without kerning. A character that is not in the table counts 0.6 em.

    Parameters
    ----------
    text
        One line.
    h_mm
        Height of a capital [mm].
    weight
        400, 600 or 700.

    Examples
    --------
    >>> round(text_width_mm("3025", 3.5, 700), 1)
    11.2
    """
    table = _BY_CHARACTER[weight]
    return sum(table.get(character, _UNKNOWN) for character in text) / 1000.0 * font_size_mm(h_mm)


def wrap(text: str, width_mm: float, h_mm: float, weight: int = 400) -> tuple[str, ...]:
    """Break ``text`` at its spaces so that each line is at most ``width_mm`` wide (a longer word stands
    alone).

    Examples
    --------
    >>> wrap("flashing, 150 up the wall", 25.0, 2.5)
    ('flashing, 150 up', 'the wall')
    """
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width_mm(longer, h_mm, weight) <= width_mm:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)
