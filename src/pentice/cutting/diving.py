"""Lengths: patterns of the relaxation taken one after another, what remains priced anew each time.

After the relaxation is solved, what its patterns give whole is taken; then those it uses most, a few at a time. The
last few pieces are cut by the search over trees (`packing`), which knows no patterns.
"""

from __future__ import annotations

from collections.abc import Sequence

from pentice.cutting.columns import Relaxed, Room, Taken, relaxed
from pentice.cutting.packing import Board, Limits, Rectangle, Stop, pack

Chosen = tuple[int, Taken]
_LAST = 24
_LAST_ROUNDS = 3000
_AT_ONCE = 12
_WHOLE = 1e-6


def dived(
    lengths: Sequence[int],
    counts: Sequence[int],
    rooms: Sequence[Room],
    start: Relaxed,
    stop: Stop | None = None,
) -> list[Chosen] | None:
    """A plan from a relaxation.

    Parameters
    ----------
    lengths, counts
        Of each kind of piece, the kerf added.
    rooms
        What they can be cut from.
    start
        Their relaxation.
    stop
        Ends it without a plan.

    Returns
    -------
    list or None
        Room and number of each kind, once for each piece of stock; None where stopped, or where the stock is short.
    """
    left, have, chosen = list(counts), [room.count for room in rooms], list[Chosen]()
    found: Relaxed | None = start
    while sum(left) > _LAST:
        if found is None or (stop is not None and stop()):
            return None
        before = len(chosen)
        _take(found, left, have, chosen)
        if len(chosen) == before:
            break
        if sum(left) > _LAST:
            known = [(r, p) for r, p in found.patterns if all(n <= w for n, w in zip(p, left, strict=True))]
            usable = [k for k, n in enumerate(left) if n]
            found = _again(lengths, left, rooms, have, known, usable, stop)
    return _finished(lengths, left, rooms, have, chosen)


def _take(found: Relaxed, left: list[int], have: list[int | None], chosen: list[Chosen]) -> None:
    """The whole part of every pattern; where there is none, the few patterns that are used most."""
    order = sorted(range(len(found.patterns)), key=lambda j: -found.times[j])
    whole = [j for j in order if found.times[j] >= 1.0 - _WHOLE]
    few = max(1, sum(1 for j in order if found.times[j] > _WHOLE) // _AT_ONCE)
    for j in whole or order[:few]:
        room, taken = found.patterns[j]
        for _ in range(max(1, int(found.times[j] + _WHOLE))):
            gone = have[room] == 0 or any(n > w for n, w in zip(taken, left, strict=True))
            if gone or not any(taken):
                break
            chosen.append((room, taken))
            for k, n in enumerate(taken):
                left[k] -= n
            if (number := have[room]) is not None:
                have[room] = number - 1


def _again(
    lengths: Sequence[int],
    left: Sequence[int],
    rooms: Sequence[Room],
    have: Sequence[int | None],
    known: Sequence[Chosen],
    usable: Sequence[int],
    stop: Stop | None,
) -> Relaxed | None:
    """The relaxation of what is left, told in all kinds again."""
    fewer = [Room(length=r.length, cost=r.cost, count=n) for r, n in zip(rooms, have, strict=True)]
    start = [(r, tuple(p[k] for k in usable)) for r, p in known]
    found = relaxed([lengths[k] for k in usable], [left[k] for k in usable], fewer, known=start, stop=stop)
    if found is None:
        return None
    places = {k: i for i, k in enumerate(usable)}
    full = tuple(
        (r, tuple(p[places[k]] if k in places else 0 for k in range(len(lengths)))) for r, p in found.patterns
    )
    return Relaxed(worth=found.worth, bound=found.bound, patterns=full, times=found.times)


def _finished(
    lengths: Sequence[int],
    left: Sequence[int],
    rooms: Sequence[Room],
    have: Sequence[int | None],
    chosen: list[Chosen],
) -> list[Chosen] | None:
    """The rest by search."""
    if not any(left):
        return chosen
    pieces = [Rectangle(width=length, height=1, count=n) for length, n in zip(lengths, left, strict=True)]
    boards = [Board(width=r.length, height=1, cost=r.cost, count=n) for r, n in zip(rooms, have, strict=True)]
    rest = pack(pieces, boards, kerf=0, limits=Limits(rounds=_LAST_ROUNDS))
    if rest is None:
        return None
    for board in rest.boards:
        taken = [0] * len(lengths)
        for place in board.places:
            taken[place.kind] += 1
        chosen.append((board.board, tuple(taken)))
    return chosen
