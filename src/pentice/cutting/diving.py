"""Lengths: patterns of the relaxation taken one after another, what remains priced anew each time.

What the relaxation uses whole is taken first, then what it uses most, a few at a time while there is much left. A dive
ends as soon as its bound does not promise a cheaper plan. The last pieces are chosen from all patterns (`last_pieces`).
Dives after the first take other patterns now and then.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pentice.cutting.columns import Relaxation
from pentice.cutting.first_plan import Chosen
from pentice.cutting.last_pieces import last_pieces
from pentice.cutting.packing import Stop

_WHOLE = 1e-6
_AT_ONCE = 12
_LESS = 4
_MISSES = 4
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
    now = _State(left=list(counts), have=list(numbers), chosen=[], spent=0)
    before, share, missed, tried = now, 1, 0, 0
    while any(now.left):
        found.aim(now.left, now.have)
        found.improve(stop, enough=below - now.spent)
        if stop is not None and stop():
            return None
        if now.spent + float(found.bound) > below - 1 + 1e-6:
            # What was taken last cannot be in a cheaper plan: less of it, then something else.
            missed += 1
            if missed > _MISSES or now is before:
                return None
            share *= _LESS
            now = before.copy()
            found.aim(now.left, now.have)
            found.improve(stop)
            _take(found, now, chance, share, missed)
            continue
        if not found.done:
            return None
        if sum(now.left) <= last_at and (tried == 0 or sum(now.left) * 4 <= tried * 3):
            tried = sum(now.left)
            last = last_pieces(found, below - now.spent, most=_LAST_PATTERNS, effort=0.5, stop=stop)
            if last is not None and last.chosen is not None and last.cost < below - now.spent:
                return now.chosen + list(last.chosen)
            if last is not None and last.bound >= below - now.spent:
                return None
        before = now.copy()
        if not _take(found, now, chance, share, 0):
            return None
    return now.chosen if now.spent < below else None


def _take(found: Relaxation, now: _State, chance: Chance | None, share: int, skip: int) -> bool:
    """The whole part of every pattern; where there is none, the few patterns that are used most."""
    times = found.times()
    used = [j for j, n in enumerate(times) if n > _WHOLE]
    if chance is not None:
        times = [n * (0.7 + 0.3 * chance.share()) if 0.0 < n < 1.0 - _WHOLE else n for n in times]
    order = sorted(used, key=lambda j: -times[j])
    whole = [j for j in order if times[j] >= 1.0 - _WHOLE]
    if whole and not skip:
        return sum(_give(found, j, int(times[j] + _WHOLE), now) for j in whole) > 0
    few = max(1, len(used) // (_AT_ONCE * share))
    first = 0 if few > 1 else min(max(0, skip - 1), len(order) - 1)
    return sum(_give(found, j, max(1, int(times[j] + _WHOLE)), now) for j in order[first : first + few]) > 0


def rounded_off(
    found: Relaxation, counts: Sequence[int], numbers: Sequence[int | None]
) -> tuple[list[Chosen], list[int], list[int | None]]:
    """The patterns that a relaxation uses whole or almost, without pricing anew.

    Parameters
    ----------
    found
        The relaxation.
    counts, numbers
        What is wanted of each kind, and how many there are of each room.

    Returns
    -------
    tuple
        Room and number of each kind, once for each piece of stock; what is still wanted, and what there still is.
    """
    now = _State(left=list(counts), have=list(numbers), chosen=[], spent=0)
    times = found.times()
    for j in sorted((j for j, n in enumerate(times) if n > _WHOLE), key=lambda j: -times[j]):
        _give(found, j, round(times[j]), now)
    return now.chosen, now.left, now.have


@dataclass(slots=True, kw_only=True)
class _State:
    """What is still wanted and still there, what has been chosen, and what that costs."""

    left: list[int]
    have: list[int | None]
    chosen: list[Chosen]
    spent: int

    def copy(self) -> _State:
        return _State(left=list(self.left), have=list(self.have), chosen=list(self.chosen), spent=self.spent)


def _give(found: Relaxation, j: int, times: int, now: _State) -> int:
    """A pattern so many times, as long as it gives nothing that is not wanted; how many times it was."""
    room, taken = found.patterns[j]
    for done in range(times):
        if now.have[room] == 0 or any(n > w for n, w in zip(taken, now.left, strict=True)):
            return done
        now.chosen.append((room, taken))
        now.spent += found.prices[j]
        now.left = [w - n for n, w in zip(taken, now.left, strict=True)]
        if (number := now.have[room]) is not None:
            now.have[room] = number - 1
    return times
