"""Key paths as people write them: roof.openings[0].x_mm, measured.between_stems_mm[2].head.

The places of a reading (head, middle, foot) are names for the positions in its list.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from pentice.errors import InputError

Parts = tuple[str | int, ...]

PLACES: Mapping[str, tuple[str, ...]] = {
    "measured.between_stems_mm": ("head", "middle", "foot"),
    "measured.rafter_centres_mm": ("head", "foot"),
    "measured.side_openings_mm": ("width", "left", "right"),
}
"""By list: the names of the positions in each of its items."""

_STEP = re.compile(r"(?:^|\.)([A-Za-z0-9_-]+)|\[(\d{1,6})\]")


def parts_of(path: str) -> Parts:
    """The steps of a key path: names, and positions in lists.

    Parameters
    ----------
    path
        For example "glazing.sheet" or "measured.between_stems_mm[2].head".

    Returns
    -------
    tuple of str or int
        One part for each step; a place of a reading is its position.

    Raises
    ------
    InputError
        The text is no key path, or names a place the reading does not have.

    Examples
    --------
    >>> parts_of("measured.between_stems_mm[2].foot")
    ('measured', 'between_stems_mm', 2, 2)
    """
    parts: list[str | int] = []
    at = 0
    while at < len(path):
        match = _STEP.match(path, at)
        if match is None:
            break
        name, position = match.groups()
        parts.append(name if position is None else int(position))
        at = match.end()
    if not parts or at < len(path) or isinstance(parts[0], int):
        raise InputError.of(
            path or "The key path", f'"{path}"', 'expected a key path such as "glazing.sheet"'
        )
    return _with_positions(path, tuple(parts))


def _with_positions(path: str, parts: Parts) -> Parts:
    if len(parts) != 4 or not isinstance(parts[2], int) or isinstance(parts[3], int):
        return parts
    places = PLACES.get(f"{parts[0]}.{parts[1]}")
    if places is None:
        return parts
    if parts[3] not in places:
        raise InputError.of(path, f'"{parts[3]}" at its end', f"expected one of {', '.join(places)}")
    return (*parts[:3], places.index(parts[3]))
