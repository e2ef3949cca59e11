"""The cuts of one sheet in an order that can be followed: crosscuts by saw, rips along the flutes by knife.

A part is cut across into rows, each row along into columns, each column across again, until every piece is free. Any
plan of edge-to-edge cuts is made of such turns. The stop is always set to the size of what comes off, so that nobody
subtracts. Among the orders in which that can be done the one with the fewest changes of the stop is taken, then the one
with the fewest changes of tool.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pentice.cutting.ribs import leaves_well
from pentice.cutting.values import Cut, Placement, SheetStock

Part = tuple[int, int, int, int]
"""Left, head, right and foot [mm]."""
ORDERS_KEPT = 200
"""Beginnings of an order that are followed at a time: all of them for the sheets of a usual job."""


def cuts_of(
    placements: Sequence[Placement], stock: SheetStock, kerf: int, *, rips_first: bool = False
) -> tuple[Cut, ...]:
    """Numbered cuts that free every piece of a sheet.

    Parameters
    ----------
    placements
        Pieces on the sheet, which can be parted by cuts from edge to edge.
    stock
        The sheet.
    kerf
        Width of a cut [mm].
    rips_first
        Whether the sheet is parted along the flutes before it is parted across them.

    Returns
    -------
    tuple of Cut
        Positions in stock coordinates [mm]; at_mm is the near side of the kerf.
    """
    made = [*_trims(stock, kerf)]
    _free(made, placements, room_of(stock), 0 if rips_first else 1, kerf)
    return _numbered(made)


def fewest_cuts_of(
    placements: Sequence[Placement],
    stock: SheetStock,
    kerf: int,
    least_mm: tuple[int, int],
    *,
    rests_first: bool,
) -> tuple[Cut, ...] | None:
    """As few numbered cuts as free every piece of a sheet where it lies: all ways to part it are tried.

    Parameters
    ----------
    placements
        Pieces on the sheet, which can be parted by cuts from edge to edge.
    stock
        The sheet.
    kerf
        Width of a cut [mm].
    least_mm
        Least width and length of a rest that is kept [mm].
    rests_first
        Whether the area of kept rests counts before the number of cuts, or after it.

    Returns
    -------
    tuple of Cut or None
        Positions in stock coordinates [mm]; None where every way leaves less than can be sawn off.
    """
    best = _Parting(tuple(map(_box, placements)), kerf, least_mm, rests_first)
    if best.value(room_of(stock)) is None:
        return None
    made = [*_trims(stock, kerf)]
    best.add(made, room_of(stock), len(made) - 1 if made else None)
    return _numbered(made)


def turns_of(cuts: Sequence[Cut], room: Part, kerf: int) -> int:
    """How many stages the cuts of a sheet have: each is as many cuts of one direction as follow each other in a part.

    Parameters
    ----------
    cuts, room, kerf
        As for `parts_of`.

    Returns
    -------
    int
        The most that any part goes through [-]; trims of the stock are not counted.

    Examples
    --------
    >>> across = Cut(number=1, kind="crosscut", at_mm=400, from_mm=0, to_mm=100)
    >>> along = Cut(number=2, kind="rip", at_mm=40, from_mm=0, to_mm=400)
    >>> turns_of([across, along], (0, 0, 100, 1000), 3)
    2
    """
    parts: list[tuple[Part, int, str]] = [(room, 0, "")]
    for cut in cuts:
        found = next((p for p in parts if goes_through(cut, p[0])), None)
        if found is not None:
            parts.remove(found)
            part, stages, kind = found
            more = stages + (cut.kind != kind)
            parts += [(half, more, cut.kind) for half in cut_in_two(part, cut, kerf)]
    return max(stages for _, stages, _ in parts)


def room_of(stock: SheetStock) -> Part:
    """What is left of a sheet once it is trimmed.

    Parameters
    ----------
    stock
        The sheet.

    Returns
    -------
    tuple
        Left, head, right and foot [mm].
    """
    trim = stock.edge_trim_mm
    return (trim, trim, stock.width_mm - trim, stock.length_mm - trim)


def parts_of(room: Part, cuts: Sequence[Cut], kerf: int) -> list[Part]:
    """What is in hand once every cut is made.

    Parameters
    ----------
    room
        Left, head, right and foot of the sheet once it is trimmed [mm].
    cuts
        Its cuts; those that trim it go through nothing of the room.
    kerf
        Width of a cut [mm].

    Returns
    -------
    list of tuple
        Left, head, right and foot of each part [mm].
    """
    parts = [room]
    for cut in cuts:
        part = next((p for p in parts if goes_through(cut, p)), None)
        if part is not None:
            parts.remove(part)
            parts += cut_in_two(part, cut, kerf)
    return parts


def goes_through(cut: Cut, part: Part) -> bool:
    """Whether a cut parts a part, from edge to edge.

    Parameters
    ----------
    cut
        The cut.
    part
        Left, head, right and foot [mm].

    Returns
    -------
    bool
        True where it does.
    """
    axis = 0 if cut.kind == "rip" else 1
    inside = part[axis] <= cut.at_mm < part[axis + 2]
    return inside and cut.from_mm <= part[1 - axis] and part[3 - axis] <= cut.to_mm


def cut_in_two(part: Part, cut: Cut, kerf: int) -> tuple[Part, Part]:
    """What a cut makes of a part.

    Parameters
    ----------
    part
        Left, head, right and foot [mm].
    cut
        A cut through it.
    kerf
        Width of the cut [mm].

    Returns
    -------
    tuple
        The part between the edge that the stop lies at and the cut, and the part beyond.
    """
    at, beyond = cut.at_mm, cut.at_mm + kerf
    if cut.kind == "rip":
        return (part[0], part[1], at, part[3]), (min(beyond, part[2]), part[1], part[2], part[3])
    return (part[0], part[1], part[2], at), (part[0], min(beyond, part[3]), part[2], part[3])


@dataclass(frozen=True, slots=True, kw_only=True)
class _Made:
    """A cut before it has its number: where it lies, where its stop is set, and the cut that must come before it."""

    kind: str
    at: int
    start: int
    end: int
    stop: int
    after: int | None


def _made(axis: int, at: int, part: Part, after: int | None) -> _Made:
    across = 1 - axis
    kind = "rip" if axis == 0 else "crosscut"
    start, end = part[across], part[across + 2]
    return _Made(kind=kind, at=at, start=start, end=end, stop=at - part[axis], after=after)


def _trims(stock: SheetStock, kerf: int) -> Iterator[_Made]:
    """The edges of new stock that are cut off before anything else; the kerf lies inside the trim."""
    trim = stock.edge_trim_mm
    if not trim:
        return
    part = [0, 0, stock.width_mm, stock.length_mm]
    near = max(0, trim - kerf)
    for n, (axis, far) in enumerate(((1, False), (1, True), (0, False), (0, True))):
        at = part[axis + 2] - trim if far else near
        yield _made(axis, at, (part[0], part[1], part[2], part[3]), n - 1 if n else None)
        if far:
            part[axis + 2] = at
        else:
            part[axis] = trim


def _free(
    made: list[_Made],
    boxes: Sequence[Placement],
    part: Part,
    axis: int,
    kerf: int,
    after: int | None = None,
    *,
    stuck: bool = False,
) -> None:
    """Adds the cuts that free every piece of a part, parted along y (axis 1: crosscuts) or x (axis 0: rips) first.

    stuck: no cut the other way goes through.
    """
    if after is None and made:
        after = len(made) - 1
    so_far = len(made)
    groups = _groups(boxes, axis, kerf)
    left, inner = list(part), []
    for group in groups:
        start, end = min(_side(b, axis)[0] for b in group), max(_side(b, axis)[1] for b in group)
        if start > left[axis]:
            made.append(_made(axis, start - kerf, _part(left), after))
            after, left[axis] = len(made) - 1, start
        child = list(left)
        keeps = group is groups[-1] and not all(leaves_well(end - _side(b, axis)[1], kerf) for b in group)
        if end < left[axis + 2] and not keeps:
            made.append(_made(axis, end, _part(left), after))
            after, child[axis + 2], left[axis] = len(made) - 1, end, end + kerf
        inner.append((group, _part(child), after))
    for group, room, freed_by in inner:
        if len(group) > 1 or _box(group[0]) != room:
            nothing = len(groups) == 1 and len(made) == so_far
            if nothing and stuck:
                raise AssertionError("pieces that no cut from edge to edge parts")
            _free(made, group, room, 1 - axis, kerf, freed_by, stuck=nothing)


def _part(sides: Sequence[int]) -> Part:
    return (sides[0], sides[1], sides[2], sides[3])


def _box(p: Placement) -> Part:
    return (p.x_mm, p.y_mm, p.x_mm + p.width_mm, p.y_mm + p.length_mm)


def _side(p: Placement, axis: int) -> tuple[int, int]:
    box = _box(p)
    return (box[axis], box[axis + 2])


def _groups(boxes: Sequence[Placement], axis: int, kerf: int) -> list[list[Placement]]:
    """Pieces that no cut across the axis parts stand together."""
    groups: list[list[Placement]] = []
    end = 0
    for box in sorted(boxes, key=lambda b: (_side(b, axis)[0], _side(b, 1 - axis)[0])):
        start, ends = _side(box, axis)
        if not groups or start >= end + kerf:
            groups.append([])
        groups[-1].append(box)
        end = max(end, ends)
    return groups


class _Parting:
    """The best way to part each part: what it counts for, and its first cut."""

    def __init__(
        self, boxes: tuple[Part, ...], kerf: int, least_mm: tuple[int, int], rests_first: bool
    ) -> None:
        self._boxes, self._kerf, self._least, self._rests_first = boxes, kerf, least_mm, rests_first
        self._known: dict[Part, tuple[tuple[int, int], tuple[int, int] | None] | None] = {}

    def value(self, part: Part) -> tuple[int, int] | None:
        """Cuts and kept area taken off, in the order in which they count; None where no cuts free its pieces."""
        if part not in self._known:
            self._known[part] = self._best(part)
        known = self._known[part]
        return None if known is None else known[0]

    def add(self, made: list[_Made], part: Part, after: int | None) -> None:
        """Adds the cuts of a part."""
        known = self._known[part]
        if known is None or known[1] is None:
            return
        axis, at = known[1]
        made.append(_made(axis, at, part, after))
        after = len(made) - 1
        for half in self._halves(part, axis, at):
            self.add(made, half, after)

    def _best(self, part: Part) -> tuple[tuple[int, int], tuple[int, int] | None] | None:
        inside = [b for b in self._boxes if _within(b, part)]
        if not inside:
            wide, long = part[2] - part[0], part[3] - part[1]
            kept = wide * long if wide >= self._least[0] and long >= self._least[1] else 0
            return self._counted(0, kept), None
        if inside == [part]:
            return (0, 0), None
        best: tuple[tuple[int, int], tuple[int, int] | None] | None = None
        for axis, at in self._cuts(part, inside):
            halves = self._halves(part, axis, at)
            if sum(_within(b, half) for b in inside for half in halves) < len(inside):
                continue  # it goes through a piece
            values = [self.value(half) for half in halves]
            if values[0] is None or values[1] is None:
                continue
            one = self._counted(1, 0)
            value = (one[0] + values[0][0] + values[1][0], one[1] + values[0][1] + values[1][1])
            if best is None or value < best[0]:
                best = (value, (axis, at))
        return best

    def _counted(self, cuts: int, kept: int) -> tuple[int, int]:
        return (-kept, cuts) if self._rests_first else (cuts, -kept)

    def _cuts(self, part: Part, inside: Sequence[Part]) -> Iterator[tuple[int, int]]:
        """Cuts along the far or the near side of a piece that leave enough to hold; crosscuts first, from the head."""
        for axis in (1, 0):
            sides = {b[axis + 2] for b in inside} | {b[axis] - self._kerf for b in inside}
            for at in sorted(sides):
                near, far = at - part[axis], part[axis + 2] - at
                if (
                    near > 0
                    and far >= self._kerf + 2
                    and (near >= 2 or any(b[axis + 2] == at for b in inside))
                ):
                    yield axis, at

    def _halves(self, part: Part, axis: int, at: int) -> tuple[Part, Part]:
        near, far = list(part), list(part)
        near[axis + 2], far[axis] = at, at + self._kerf
        return _part(near), _part(far)


def _within(box: Part, part: Part) -> bool:
    return part[0] <= box[0] and part[1] <= box[1] and box[2] <= part[2] and box[3] <= part[3]


# The order


def _numbered(made: Sequence[_Made]) -> tuple[Cut, ...]:
    return tuple(
        Cut(number=n, kind=cut.kind, at_mm=cut.at, from_mm=cut.start, to_mm=cut.end)
        for n, cut in enumerate((made[i] for i in _in_order(made)), 1)
    )


_Done = frozenset[int]


def _in_order(made: Sequence[_Made]) -> tuple[int, ...]:
    """The cuts in an order with the fewest changes of the stop; each comes after the one that makes its part.

    As long as a cut can be made with the stop as it is, making it is never wrong. So only the next setting is chosen.
    """
    ways: dict[tuple[_Done, str], tuple[int, tuple[int, ...]]] = {(frozenset(), ""): (0, ())}
    while True:
        whole = [way for (done, _), way in ways.items() if len(done) == len(made)]
        if whole:
            return min(whole, key=lambda way: way[0])[1]
        further: dict[tuple[_Done, str], tuple[int, tuple[int, ...]]] = {}
        for (done, tool), (changes, order) in ways.items():
            for kind, stop in dict.fromkeys((made[i].kind, made[i].stop) for i in _next(made, done)):
                more = _all_with(made, done, (kind, stop))
                key, now = (done | set(more), kind), changes + (kind != tool)
                if key not in further or now < further[key][0]:
                    further[key] = (now, order + more)
        ways = dict(sorted(further.items(), key=lambda way: (-len(way[0][0]), way[1][0]))[:ORDERS_KEPT])


def _next(made: Sequence[_Made], done: _Done) -> list[int]:
    """Cuts that can be made now."""
    return [i for i, cut in enumerate(made) if i not in done and (cut.after is None or cut.after in done)]


def _all_with(made: Sequence[_Made], done: _Done, setting: tuple[str, int]) -> tuple[int, ...]:
    """Every cut that can be made with one setting, those that only come up by making others too."""
    found: list[int] = []
    while more := [i for i in _next(made, done | set(found)) if (made[i].kind, made[i].stop) == setting]:
        found += more
    return tuple(found)
