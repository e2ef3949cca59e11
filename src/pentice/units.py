"""Reading lengths and slopes as people write them, once, at the edge.

Inside the engine a length is a float in mm and a pitch a float in degrees. Feet and inches, metres and falls
are accepted where a length or a pitch is expected, and nowhere else.
"""

from __future__ import annotations

import math
import re
from fractions import Fraction

MM_PER_INCH = 25.4

_METRIC = re.compile(r"^([+-]?\d+(?:\.\d+)?)\s*(mm|cm|m)$")
_FEET = re.compile(r"^(\d+)\s*(?:'|ft)\s*(?:(.+?)\s*(?:\"|''|in)?)?$")
_INCHES = re.compile(r"^(.+?)\s*(?:\"|''|in)$")
_DASHED = re.compile(r"^(\d+)-(\d+)(?:-(\d+/\d+))?$")
_PER_UNIT = {"mm": 1.0, "cm": 10.0, "m": 1000.0}

LENGTH_EXAMPLES = 'a length in mm (2950), metres ("2.95 m") or feet and inches ("8\' 4 1/2\\"")'
PITCH_EXAMPLES = 'degrees (10) or a fall ("1:6", "105 mm/m")'


def _inches(text: str) -> Fraction:
    """Inches from '4', '4 1/2', '4-1/2' or '1/2'."""
    parts = text.replace("-", " ").split()
    if not parts or len(parts) > 2:
        raise ValueError(text)
    total = sum((Fraction(part) for part in parts), Fraction(0))
    if total < 0:
        raise ValueError(text)
    return total


def _imperial_mm(text: str) -> float | None:
    """Feet and inches in mm, or None where the text is not of that kind."""
    if match := _DASHED.match(text):
        feet, inches, part = match.groups()
        return float(Fraction(feet) * 12 + Fraction(inches) + Fraction(part or 0)) * MM_PER_INCH
    if match := _FEET.match(text):
        feet, inches = match.groups()
        return float(Fraction(feet) * 12 + (_inches(inches) if inches else 0)) * MM_PER_INCH
    if match := _INCHES.match(text):
        return float(_inches(match.group(1))) * MM_PER_INCH
    return None


def length_mm(value: object) -> float:
    """A length in mm from a number (mm) or from text with its unit.

    Parameters
    ----------
    value
        A number [mm], or text: "2950 mm", "2.95 m", "8' 4 1/2\\"", "3-1-1/4" (feet, inches, part of an inch).

    Returns
    -------
    float
        The length [mm].

    Raises
    ------
    ValueError
        The text is no length.

    Source
    ------
    1 inch = 25.4 mm exactly (international inch, 1959).

    Examples
    --------
    >>> length_mm(2950)
    2950.0
    >>> length_mm("8' 4 1/2\\"")
    2552.7
    >>> round(length_mm("3-1-1/4"), 2)
    946.15
    """
    if isinstance(value, bool):
        raise ValueError(f"expected {LENGTH_EXAMPLES}")
    if isinstance(value, int | float):
        if not math.isfinite(value):
            raise ValueError(f"expected {LENGTH_EXAMPLES}")
        return float(value)
    if isinstance(value, str):
        text = value.strip().replace("′", "'").replace("″", '"').replace("’", "'").replace("”", '"')
        if match := _METRIC.match(text):
            return round(float(match.group(1)) * _PER_UNIT[match.group(2)], 6)
        try:
            found = _imperial_mm(text)
        except (ValueError, ZeroDivisionError):
            found = None
        if found is not None:
            return round(found, 6)
    raise ValueError(f"expected {LENGTH_EXAMPLES}")


_FALL = re.compile(r"^(\d+(?:\.\d+)?)\s*(?::|in)\s*(\d+(?:\.\d+)?)$")
_MM_PER_M = re.compile(r"^(\d+(?:\.\d+)?)\s*mm/m$")
_DEGREES = re.compile(r"^(\d+(?:\.\d+)?)\s*(?:°|deg)?$")


def pitch_deg(value: object) -> float:
    """A pitch in degrees from a number (degrees), or from a fall: "1:6" (rise to run), "105 mm/m".

    Parameters
    ----------
    value
        A number [deg] or text.

    Returns
    -------
    float
        The pitch above the horizontal [deg].

    Raises
    ------
    ValueError
        The text is no pitch.

    Source
    ------
    Trigonometry: atan(rise / run).

    Examples
    --------
    >>> round(pitch_deg("1:6"), 3)
    9.462
    >>> pitch_deg(10)
    10.0
    """
    if isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value):
        return float(value)
    if isinstance(value, str):
        text = value.strip()
        if (match := _FALL.match(text)) and float(match.group(2)) > 0.0:
            return math.degrees(math.atan(float(match.group(1)) / float(match.group(2))))
        if match := _MM_PER_M.match(text):
            return math.degrees(math.atan(float(match.group(1)) / 1000.0))
        if match := _DEGREES.match(text):
            return float(match.group(1))
    raise ValueError(f"expected {PITCH_EXAMPLES}")


def fall_share(value: object) -> float:
    """A gutter's fall as rise over run, from "1:350" or from a number (0.00286).

    Parameters
    ----------
    value
        A number [-] or text such as "1:350" or "3 mm/m".

    Returns
    -------
    float
        Rise over run [-].

    Raises
    ------
    ValueError
        The text is no fall.

    Source
    ------
    Trigonometry: rise / run.

    Examples
    --------
    >>> round(fall_share("1:350"), 6)
    0.002857
    """
    if isinstance(value, int | float) and not isinstance(value, bool) and 0.0 <= value < 1.0:
        return float(value)
    if isinstance(value, str):
        return math.tan(math.radians(pitch_deg(value)))
    raise ValueError('expected a fall such as "1:350" or 0.003')
