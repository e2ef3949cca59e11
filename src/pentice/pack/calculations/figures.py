"""Numbers, units, marks and places as the calculations write them, so that table and working read alike."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Sequence

from pentice.checks.values import Place, RestsOn
from pentice.pack.drawings.values import runs

_POWER = str.maketrans("-234567890", "⁻²³⁴⁵⁶⁷⁸⁹⁰")
_UNITS = {"deg": "°", "of 1": ""}


def number(value: float | None) -> str:
    """Four figures, no thousands mark, a true minus, no computer's exponents.

    Examples
    --------
    >>> number(0.000065), number(-12.3456), number(2950.4), number(None)
    ('6.5 × 10⁻⁵', '−12.35', '2950', '')
    """
    if value is None:
        return ""
    if value and abs(value) < 1e-3:
        power = math.floor(math.log10(abs(value)))
        text = f"{value / 10.0**power:.3g} × 10{str(power).translate(_POWER)}"
    else:
        text = f"{value:.0f}" if abs(value) >= 1000.0 else f"{value:.4g}"
    return minus(text)


def minus(text: str) -> str:
    """A true minus before numbers.

    Examples
    --------
    >>> minus("suction, -0.3 inside; lean-to")
    'suction, −0.3 inside; lean-to'
    """
    return re.sub(r"(?<![\w)])-(?=\d)", "−", text)


def unit_words(unit: str) -> str:
    """A unit with its powers raised.

    Examples
    --------
    >>> unit_words("kN/m2"), unit_words("mm4"), unit_words("deg")
    ('kN/m²', 'mm⁴', '°')
    """
    if unit in _UNITS:
        return _UNITS[unit]
    return re.sub(r"(?<=m)[234]\b", lambda found: found.group().translate(_POWER), unit)


def with_unit(value: float | None, unit: str) -> str:
    """A number and its unit.

    Examples
    --------
    >>> with_unit(1.874, "kN/m2"), with_unit(11.26, "deg"), with_unit(0.33, "of 1")
    ('1.874 kN/m²', '11.26°', '0.33')
    """
    word = unit_words(unit)
    return f"{number(value)}{'' if word in ('', '°') else ' '}{word}"


def used_words(used: float | None, *, fails: bool) -> str:
    """The share that is used, with two decimals; a failure never reads 1.00.

    Examples
    --------
    >>> used_words(0.994, fails=False), used_words(1.004, fails=True), used_words(None, fails=True)
    ('0.99', '1.004', '')
    >>> used_words(1.0000004, fails=True)
    '1.0000004'
    """
    if used is None:
        return ""
    return _over_the_limit(used, 2, 1.0) if fails else f"{used:.2f}"


def percent_words(used: float, *, fails: bool) -> str:
    """The share that is used in whole percent; a failure never reads 100 %.

    Examples
    --------
    >>> percent_words(0.844, fails=False), percent_words(1.00002, fails=True)
    ('84 %', '100.002 %')
    """
    return f"{_over_the_limit(100.0 * used, 0, 100.0) if fails else f'{100.0 * used:.0f}'} %"


def _over_the_limit(value: float, places: int, limit: float) -> str:
    """A value with as many decimals as show that it is over its limit; past twelve in words."""
    for more in range(places, 13):
        text = f"{value:.{more}f}"
        if float(text) > limit or value <= limit:
            return text
    return f"over {limit:g}"


def pair_words(demand: float | None, capacity: float | None, *, fails: bool) -> tuple[str, str]:
    """What is needed and what is there; a failure by a hair with as many figures as tell them apart.

    Examples
    --------
    >>> pair_words(14.5, 17.25, fails=False), pair_words(6.00004, 6.0, fails=True)
    (('14.5', '17.25'), ('6.00004', '6'))
    """
    needs, has = number(demand), number(capacity)
    if not fails or needs != has or demand is None or capacity is None:
        return needs, has
    for figures in range(5, 16):
        needs, has = minus(f"{demand:.{figures}g}"), minus(f"{capacity:.{figures}g}")
        if needs != has:
            break
    return needs, has


def value_words(value: object) -> str:
    """A value of a job or catalogue; of a thousand and more with the tenth that it was given with.

    Examples
    --------
    >>> value_words((70.0, 120.0)), value_words(7e-05), value_words(None), value_words("C24")
    ('70, 120', '7 × 10⁻⁵', '', 'C24')
    >>> value_words((72.5, 2787.5)), value_words(2860.33)
    ('72.5, 2787.5', '2860.3')
    """
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float | int):
        return number(value) if abs(value) < 1000.0 else minus(f"{value:.1f}".removesuffix(".0"))
    if isinstance(value, tuple | list):
        return ", ".join(value_words(item) for item in value)
    return minus(str(value)) if value is not None else ""


def is_loose(given: RestsOn) -> bool:
    """True where no product and no clause stands behind a value yet."""
    return given.mark in ("typical", "from memory")


def mark_words(given: RestsOn) -> str:
    """The mark of a value, underlined where it has to be replaced."""
    return f"~{given.mark}~" if is_loose(given) else given.mark


def place_words(place: Place) -> str:
    """Where a check looks, in the words of the drawings.

    Parameters
    ----------
    place
        A bay, a rafter or the whole roof.

    Returns
    -------
    str
        "bay 3, head", "R2".

    Examples
    --------
    >>> place_words(Place(rafter=2, at="foot"))
    'R2, foot'
    """
    parts = [f"bay {place.bay}"] if place.bay is not None else []
    line = place.rafter if place.rafter is not None else place.bar
    parts += [f"R{line}"] if line is not None else []
    parts += [f"post {place.post}"] if place.post is not None else []
    parts += [f"side sheet {place.side_sheet}"] if place.side_sheet is not None else []
    return ", ".join([*parts, *([place.at] if place.at else [])])


def places_words(places: Iterable[Place]) -> str:
    """Several places, numbers in a row drawn together.

    Examples
    --------
    >>> places_words([Place(bay=n, at="head") for n in (2, 3, 4, 5)])
    'bays 2 to 5, head'
    >>> places_words([Place(rafter=1), Place(rafter=3), Place(rafter=3)])
    'R1, 3'
    """
    groups: dict[tuple[str, str], list[int]] = {}
    alone: dict[str, None] = {}
    for place in places:
        line = place.rafter if place.rafter is not None else place.bar
        if place.bay is not None and line is None:
            groups.setdefault(("bay", place.at), []).append(place.bay)
        elif line is not None and place.bay is None:
            groups.setdefault(("R", place.at), []).append(line)
        elif place.post is not None:
            groups.setdefault(("post", place.at), []).append(place.post)
        elif place.side_sheet is not None:
            groups.setdefault(("side sheet", place.at), []).append(place.side_sheet)
        else:
            alone[place_words(place) or "the whole roof"] = None
    said = [_group_words(kind, at, sorted(set(numbers))) for (kind, at), numbers in groups.items()]
    return "; ".join([*said, *alone])


def _group_words(kind: str, at: str, numbers: Sequence[int]) -> str:
    start = "R" if kind == "R" else f"{kind} " if len(numbers) == 1 else f"{kind}s "
    return f"{start}{runs(list(numbers))}{f', {at}' if at else ''}"
