"""Tables printed in the standards, read from the data files beside this module.

A table file is CSV. Its first lines begin with '#' and say where the figures were printed and how they were
read. Nothing here knows what a table means; interpolation is plain and never goes beyond the ends.
"""

from __future__ import annotations

import csv
import tomllib
from collections.abc import Mapping, Sequence
from functools import cache
from importlib.resources import files
from itertools import pairwise
from typing import Any

from pentice.errors import require_within


@cache
def text_of(name: str) -> str:
    """The text of a data file.

    Parameters
    ----------
    name
        File name within the data folder.

    Returns
    -------
    str
        The whole text.

    Source
    ------
    Our own data folder; each file names its own source.
    """
    return (files("pentice.standards") / "data" / name).read_text(encoding="utf-8")


@cache
def rows_of(name: str) -> tuple[Mapping[str, str], ...]:
    """The rows of a CSV table, comment lines left out.

    Parameters
    ----------
    name
        File name within the data folder.

    Returns
    -------
    tuple
        One mapping per row, column name to text.

    Source
    ------
    Our own data folder; each file names its own source.

    Examples
    --------
    >>> rows_of("terrain.csv")[0]["category"]
    '0'
    """
    lines = [line for line in text_of(name).splitlines() if line and not line.startswith("#")]
    return tuple(csv.DictReader(lines))


@cache
def toml_of(name: str) -> Mapping[str, Any]:
    """A TOML data file as nested mappings.

    Parameters
    ----------
    name
        File name within the data folder.

    Returns
    -------
    Mapping
        What the file holds.

    Source
    ------
    Our own data folder; each file names its own source.
    """
    return tomllib.loads(text_of(name))


@cache
def data_names() -> tuple[str, ...]:
    """Names of all data files, sorted.

    Returns
    -------
    tuple
        File names within the data folder.

    Source
    ------
    Our own data folder.
    """
    return tuple(sorted(item.name for item in (files("pentice.standards") / "data").iterdir()))


def interpolate(
    place: str,
    at: float,
    points: Sequence[tuple[float, float]],
    *,
    unit: str = "",
    source: str = "",
    do: str = "",
) -> float:
    """Straight line between neighbouring points of a table; outside its ends refused.

    Parameters
    ----------
    place
        Name of the argument, for the refusal.
    at
        Where to read, in the unit named.
    points
        (argument, value) in rising order of the argument.
    unit, source, do
        What stands behind the number, the table, and the way out.

    Returns
    -------
    float
        The value there, in the unit of the table.

    Raises
    ------
    OutsideScope
        The argument lies outside the table.

    Source
    ------
    Plain arithmetic.

    Examples
    --------
    >>> interpolate("pitch_deg", 8.0, [(5.0, 2.1), (10.0, 2.4)])
    2.28
    """
    require_within(place, at, points[0][0], points[-1][0], unit=unit, source=source, do=do)
    for (x0, y0), (x1, y1) in pairwise(points):
        if at <= x1:
            # The end values come out exactly, so that a table is continuous where its pieces meet.
            return y1 if at == x1 else y0 + (y1 - y0) * (at - x0) / (x1 - x0)
    return points[-1][1]
