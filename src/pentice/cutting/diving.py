"""Lengths: patterns of the relaxation taken one after another, what remains priced anew each time.

What the relaxation uses whole is taken first, then what it uses most, a few at a time while there is much left. A dive
ends as soon as its bound does not promise a cheaper plan. The last pieces are chosen from all patterns (`last_pieces`).
Dives after the first take other patterns now and then.
"""

from __future__ import annotations

from collections.abc import Sequence

from pentice.cutting.columns import Relaxation
from pentice.cutting.first_plan import Chosen
from pentice.cutting.last_pieces import last_pieces
from pentice.cutting.packing import Stop

_WHOLE = 1e-6
_AT_ONCE = 12
_LAST_PATTERNS = 1500


class Chance:
    """Shares from 0 to 1 that look like chance and are the same for the same seed."""

    def __init__(self, seed: int) -> None:
        self._state = seed

    def share(self) -> float:
        """The next one [-]."""
        self._state = (self._state * 6364136223846793005 + 1442695040888963407) % (1 << 64)
        return (self._state >> 33) / (1 << 31)


def dived(
    found: Relaxation,
    counts: Sequence[int],
    numbers: Sequence[int | None],
    below: int,
    *,
    chance: Chance | None = None,
    last_at: int = 0,
    stop: Stop | None = None,
) -> list[Chosen] | None:
    """A plan that costs less than what is known.

    Parameters
    ----------
    found
        The relaxation; it is aimed at ever less.
    counts, numbers
        What is wanted of each kind, and how many there are of each room.
    below
        The cost to beat.
    chance
        Takes other patterns; None for the first dive.
    last_at
        How many pieces are left when the last of them are chosen from all patterns.
    stop
        Ends it without a plan.

    Returns
    -------
    list or None
        Room and number of each kind, once for each piece of stock.
    """
    left, have, chosen = list(counts), list(numbers), list[Chosen]()
    spent, tried = 0, 0
    while any(left):
        found.aim(left, have)
        found.improve(stop)
        if (stop is not None and stop()) or not found.done:
            return None
        if spent + float(found.bound) > below - 1 + 1e-6:
            return None
        if sum(left) <= last_at and (tried == 0 or sum(left) * 4 <= tried * 3):
            tried = sum(left)
            last = last_pieces(found, below - spent, most=_LAST_PATTERNS, effort=0.5, stop=stop)
            if last is not None and last.chosen is not None and last.cost < below - spent:
                return chosen + list(last.chosen)
            if last is not None and last.bound >= below - spent:
                return None
        before = len(chosen)
        spent += _take(found, left, have, chosen, chance)
        if len(chosen) == before:
            return None
    return chosen if spent < below else None


def _take(
    found: Relaxation,
    left: list[int],
    have: list[int | None],
    chosen: list[Chosen],
    chance: Chance | None,
) -> int:
    """The whole part of every pattern; where there is none, the few patterns that are used most. What they cost."""
    times = found.times()
    used = [j for j, n in enumerate(times) if n > _WHOLE]
    if chance is not None:
        times = [n * (0.7 + 0.3 * chance.share()) if 0.0 < n < 1.0 - _WHOLE else n for n in times]
    order = sorted(used, key=lambda j: -times[j])
    whole = [j for j in order if times[j] >= 1.0 - _WHOLE]
    few = max(1, len(used) // _AT_ONCE)
    return sum(
        _give(found, j, max(1, int(times[j] + _WHOLE)), left, have, chosen) for j in whole or order[:few]
    )


def rounded_off(found: Relaxation, left: list[int], have: list[int | None]) -> list[Chosen]:
    """The patterns that a relaxation uses whole or almost, without pricing anew.

    Parameters
    ----------
    found
        The relaxation.
    left, have
        What is wanted of each kind and how many there are of each room; less is left of them afterwards.

    Returns
    -------
    list
        Room and number of each kind, once for each piece of stock.
    """
    chosen: list[Chosen] = []
    times = found.times()
    for j in sorted((j for j, n in enumerate(times) if n > _WHOLE), key=lambda j: -times[j]):
        _give(found, j, round(times[j]), left, have, chosen)
    return chosen


def _give(
    found: Relaxation, j: int, times: int, left: list[int], have: list[int | None], chosen: list[Chosen]
) -> int:
    """A pattern so many times, as long as it gives nothing that is not wanted; what that costs."""
    room, taken = found.patterns[j]
    cost = 0
    for _ in range(times):
        if have[room] == 0 or any(n > w for n, w in zip(taken, left, strict=True)):
            break
        chosen.append((room, taken))
        cost += found.prices[j]
        for k, n in enumerate(taken):
            left[k] -= n
        if (number := have[room]) is not None:
            have[room] = number - 1
    return cost
