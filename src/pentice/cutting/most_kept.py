"""The most area worth keeping that edge-to-edge cuts can leave of a part when given pieces come out of it.

Exact, by taking every first cut that can matter: the worth of a structure of cuts is linear in the place of each cut,
so a best one has every cut pushed against pieces and least rests on one of its sides. A part is cut again the same way.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from itertools import product

from pentice.cutting.guillotine import Cell, Size

Taken = tuple[int, ...]
"""How many pieces of each kind."""
NO_ROOM = -1


class Spent(Exception):
    """The work that was allowed is done; what is known so far stays known."""


class MostKept:
    """Answers for parts and choices of pieces, remembered. All sizes have the kerf added.

    Parameters
    ----------
    sizes
        Width and height of each kind.
    kerf
        Width of a cut.
    least
        Least width and height of a rest worth keeping, without kerf; None where nothing is kept.
    longest
        Width and height that no part exceeds.
    """

    def __init__(self, sizes: Sequence[Size], kerf: int, least: Size | None, longest: Size) -> None:
        self._sizes, self._kerf, self._longest = tuple(sizes), kerf, longest
        self._least = None if least is None else (max(1, least[0]) + kerf, max(1, least[1]) + kerf)
        self._known: dict[tuple[int, int, Taken], int] = {}
        self._splits: dict[Taken, list[tuple[Taken, Taken]]] = {}
        self._places: dict[tuple[Taken, int], list[int]] = {}
        self._areas: dict[Taken, int] = {}
        self._needs: dict[Taken, tuple[int, int, int]] = {}
        self.work = 0
        """Parts that may still be looked into."""

    def area(self, taken: Taken) -> int:
        """Area of pieces, the kerf among it."""
        if taken not in self._areas:
            self._areas[taken] = sum(n * w * h for n, (w, h) in zip(taken, self._sizes, strict=True))
        return self._areas[taken]

    def rest(self, width: int, height: int) -> int:
        """What a free part counts, without its kerf."""
        least = self._least
        if least is None or width < least[0] or height < least[1]:
            return 0
        return (width - self._kerf) * (height - self._kerf)

    def at_most(self, width: int, height: int, taken: Taken) -> int:
        """What `of` cannot be above, by area alone; `NO_ROOM` where the pieces cannot lie in the part."""
        spare = width * height - self.area(taken)
        if spare < 0:
            return NO_ROOM
        beside = self._least is not None
        for n, (w, h) in zip(taken, self._sizes, strict=True):
            if n:
                if n > (width // w) * (height // h):
                    return NO_ROOM
                if self._least is not None and w + self._least[0] > width and h + self._least[1] > height:
                    beside = False
        if not any(taken):
            return self.rest(width, height)
        if not beside:
            return 0
        # Each rest loses its kerf on both sides: no less, by share, than the whole part does.
        return spare * (width - self._kerf) * (height - self._kerf) // (width * height)

    def of(self, width: int, height: int, taken: Taken) -> int:
        """The most area worth keeping; `NO_ROOM` where the pieces cannot be cut from the part.

        Raises
        ------
        Spent
            After ``work`` parts.
        """
        if not any(taken):
            return self.rest(width, height)
        key = (width, height, taken)
        known = self._known.get(key)
        if known is None:
            self.work -= 1
            if self.work < 0:
                raise Spent
            known = self._known[key] = self._found(width, height, taken)
        return known

    def _found(self, width: int, height: int, taken: Taken) -> int:
        most = self.at_most(width, height, taken)
        if most <= NO_ROOM:
            return NO_ROOM
        best = 0 if sum(taken) == 1 else NO_ROOM
        for first, second, one, two in self._cuts(width, height, taken):
            other = self.of(*second, two)
            if other <= NO_ROOM:
                continue
            if best > NO_ROOM and other + self.at_most(*first, one) <= best:
                continue
            kept = self.of(*first, one)
            if kept > NO_ROOM and kept + other > best:
                best = kept + other
                if best >= most:
                    break
        return best

    def _cuts(self, width: int, height: int, taken: Taken) -> Iterator[tuple[Size, Size, Taken, Taken]]:
        """Every first cut that can matter: two parts, and the pieces of each, which fit in it by area and width."""
        least = self._least
        for one, two in self._split(taken):
            if any(two):
                room = self._room(two)
                ends = (
                    width - max(room[0], -(-room[2] // height)),
                    height - max(room[1], -(-room[2] // width)),
                )
            elif least is not None:
                # A rest beside everything else: the narrower that is, the more is kept.
                ends = (width - least[0], height - least[1])
            else:
                continue
            area = self.area(one)
            for x in _between(self._tight(one, 0), -(-area // height), ends[0]):
                yield (x, height), (width - x, height), one, two
            for y in _between(self._tight(one, 1), -(-area // width), ends[1]):
                yield (width, y), (width, height - y), one, two

    def _room(self, taken: Taken) -> tuple[int, int, int]:
        """Width of the widest piece, height of the highest, and the area of all."""
        if taken not in self._needs:
            sizes = [size for n, size in zip(taken, self._sizes, strict=True) if n]
            self._needs[taken] = (max(w for w, _ in sizes), max(h for _, h in sizes), self.area(taken))
        return self._needs[taken]

    def _split(self, taken: Taken) -> list[tuple[Taken, Taken]]:
        """Each way to part pieces in two, the first not empty; all of them in the first comes first."""
        if taken not in self._splits:
            firsts = product(*(range(n, -1, -1) for n in taken))
            self._splits[taken] = [
                (one, tuple(a - b for a, b in zip(taken, one, strict=True))) for one in firsts if any(one)
            ]
        return self._splits[taken]

    def _tight(self, taken: Taken, axis: int) -> list[int]:
        """Sizes of a part that pieces, and rests of the least size beside them, can fill from edge to edge."""
        key = (taken, axis)
        if key not in self._places:
            sizes = [(n, size[axis]) for n, size in zip(taken, self._sizes, strict=True) if n]
            reached = {0}
            for n, size in sizes:
                reached = {at + k * size for at in reached for k in range(n + 1)}
            least = max(size for _, size in sizes)
            self._places[key] = sorted(at for at in self._with_rests(reached, axis) if at >= least)
        return self._places[key]

    def _with_rests(self, reached: set[int], axis: int) -> set[int]:
        if self._least is None:
            return reached
        step, end = self._least[axis], self._longest[axis]
        return {at for first in reached for at in range(first, end + 1, step)} | reached

    def cells(self, width: int, height: int, taken: Taken) -> list[Cell]:
        """Pieces and rests of a part as the best cuts leave them: kind (-1: free), place and size, the kerf added.

        Raises
        ------
        Spent
            Where not enough of it is known.
        """
        done: list[Cell] = []
        waiting = [(0, 0, width, height, taken)]
        while waiting:
            x, y, w, h, pieces = waiting.pop()
            waiting += self._parted(x, y, w, h, pieces, done)
        return done

    def _parted(
        self, x: int, y: int, w: int, h: int, taken: Taken, done: list[Cell]
    ) -> list[tuple[int, int, int, int, Taken]]:
        if not any(taken):
            if w and h:
                done.append((-1, x, y, w, h))
            return []
        none = (0,) * len(taken)
        worth = self.of(w, h, taken)
        if sum(taken) == 1 and worth == 0:
            kind = taken.index(1)
            wide, high = self._sizes[kind]
            done.append((kind, x, y, wide, high))
            return [(x + wide, y, w - wide, h, none), (x, y + high, wide, h - high, none)]
        for first, second, one, two in self._cuts(w, h, taken):
            kept, other = self.of(*first, one), self.of(*second, two)
            if min(kept, other) > NO_ROOM and kept + other == worth:
                corner = (x + first[0], y) if first[1] == h else (x, y + first[1])
                return [(x, y, *first, one), (*corner, *second, two)]
        raise AssertionError("a worth has a cut that it comes from")


def _between(places: Sequence[int], least: int, most: int) -> Sequence[int]:
    return places[bisect_left(places, least) : bisect_right(places, most)]
