"""Lengths told in coarse steps: pieces rounded up, stock rounded down, so that every plan in steps is a plan.

Where stock is very long in its own unit, many pieces that differ by next to nothing become one kind, and the relaxation
ends in a small part of the time. The step is such that rounding costs a small part of a length, however many pieces
are cut from it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from pentice.cutting.first_plan import Chosen

_LONG = 20_000
_STEPS_PER_PIECE = 150
_STEPS_MOST = 5_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Coarse:
    """Length and count of each kind in steps, the kinds and counts that each stands for, and the stock in steps."""

    lengths: tuple[tuple[int, int], ...]
    members: tuple[tuple[tuple[int, int], ...], ...]
    rooms: tuple[int, ...]

    def exactly(self, chosen: Iterable[Chosen]) -> list[Chosen]:
        """A plan in steps told in the pieces themselves.

        Parameters
        ----------
        chosen
            Room and number of each kind in steps, once for each piece of stock; no more than are wanted.

        Returns
        -------
        list
            The same for the kinds themselves.

        Examples
        --------
        >>> coarse = Coarse(lengths=((2, 3),), members=(((1, 2), (0, 1)),), rooms=(4,))
        >>> coarse.exactly([(0, (2,)), (0, (1,))])
        [(0, (0, 2)), (0, (1, 0))]
        """
        kinds = sum(len(one) for one in self.members)
        waiting = [[kind for kind, n in one for _ in range(n)][::-1] for one in self.members]
        found = []
        for room, taken in chosen:
            whole = [0] * kinds
            for kind, n in enumerate(taken):
                for _ in range(n):
                    whole[waiting[kind].pop()] += 1
            found.append((room, tuple(whole)))
        return found


def coarse(lengths: Sequence[int], counts: Sequence[int], rooms: Sequence[int]) -> Coarse | None:
    """Lengths in steps.

    Parameters
    ----------
    lengths, counts
        Of each kind, the kerf added [unit of the stock, -].
    rooms
        The length of each stock, a kerf added.

    Returns
    -------
    Coarse or None
        None where no stock is so long that it would help.

    Examples
    --------
    >>> found = coarse([30_010, 30_020, 45_000], [1, 1, 2], [100_000])
    >>> found.lengths, found.rooms
    (((120, 2), (180, 2)), (398,))
    """
    longest, number = max(rooms), sum(counts)
    if longest <= _LONG or number == 0:
        return None
    whole = sum(n * c for n, c in zip(lengths, counts, strict=True))
    steps = min(_STEPS_MOST, max(1, _STEPS_PER_PIECE * longest * number // whole))
    step = -(-longest // steps)
    members: dict[int, list[tuple[int, int]]] = {}
    for kind, (length, count) in enumerate(zip(lengths, counts, strict=True)):
        members.setdefault(-(-length // step), []).append((kind, count))
    ordered = sorted(members.items())
    return Coarse(
        lengths=tuple((length, sum(n for _, n in one)) for length, one in ordered),
        members=tuple(tuple(one) for _, one in ordered),
        rooms=tuple(room // step for room in rooms),
    )
