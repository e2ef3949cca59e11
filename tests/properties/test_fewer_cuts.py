"""Fewer cuts for the same money: ways to lay a board against trying every cut, and plans that lose nothing."""

from __future__ import annotations

import itertools
import math
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.cutting import sheets as module
from pentice.cutting.arranged import Wanted, Work, arranged
from pentice.cutting.sheets import cut_sheets
from pentice.cutting.shop import Shop
from pentice.cutting.values import SheetPiece, SheetPlans, SheetStock
from tests.tries import tries

_Sizes = tuple[tuple[int, int], ...]
_MANY = 10**9


def _fewest_by_trying(sizes: _Sizes, room: tuple[int, int], kerf: int) -> float:
    """The fewest cuts that free every piece of a board: each first cut at each mm, each way to share the pieces out.

    What is waste beside a cut measures at least 2, as in the plans; infinite where the pieces do not fit.
    """

    @cache
    def fewest(left: _Sizes, wide: int, high: int) -> float:
        if not left:
            return 0
        if len(left) == 1 and left[0] == (wide, high):
            return 0
        best = math.inf
        for axis, long in ((0, wide), (1, high)):
            for at, mine in itertools.product(range(1, long - kerf), range(2 ** len(left))):
                beyond = long - at - kerf
                one = tuple(p for i, p in enumerate(left) if mine >> i & 1)
                two = tuple(p for i, p in enumerate(left) if not mine >> i & 1)
                if (not one and at < 2) or (not two and beyond < 2):
                    continue
                halves = [(at, high), (beyond, high)] if axis == 0 else [(wide, at), (wide, beyond)]
                if any(
                    p[0] > w or p[1] > h
                    for part, (w, h) in zip((one, two), halves, strict=True)
                    for p in part
                ):
                    continue
                best = min(
                    best, 1 + sum(fewest(part, *half) for part, half in zip((one, two), halves, strict=True))
                )
        return best

    return fewest(tuple(sorted(sizes)), *room)


def _apart(one: tuple[int, int, int, int], two: tuple[int, int, int, int], kerf: int) -> bool:
    return any(one[a] + one[a + 2] + kerf <= two[a] or two[a] + two[a + 2] + kerf <= one[a] for a in (0, 1))


@tries(60)
@given(
    st.lists(st.tuples(st.integers(1, 3), st.integers(1, 3)), min_size=1, max_size=4),
    st.tuples(st.integers(2, 5), st.integers(2, 5)),
)
def test_no_way_to_lay_a_board_takes_fewer_cuts(
    halves: list[tuple[int, int]], half_room: tuple[int, int]
) -> None:
    """As many cuts as trying every one gives; none where nothing fits. Even sizes: every waste can be sawn off."""
    sizes, room = [(2 * w, 2 * h) for w, h in halves], (2 * half_room[0], 2 * half_room[1])
    wanted = [Wanted(k, w, h, sizes.count((w, h))) for k, (w, h) in enumerate(dict.fromkeys(sizes))]
    fewest = _fewest_by_trying(tuple(sizes), room, 0)
    if fewest == math.inf:
        assert list(arranged(wanted, room, 0, 99, Work(_MANY))) == []
        return
    # A way with one strip of waste fewer would be given where that number is asked for: there is none.
    assert list(arranged(wanted, room, 0, int(fewest) - len(sizes) + 1, Work(_MANY))) == []
    assert list(arranged(wanted, room, 0, int(fewest) - len(sizes) + 2, Work(_MANY)))


@tries(60)
@given(
    st.lists(st.tuples(st.integers(1, 30), st.integers(1, 30)), min_size=1, max_size=5),
    st.integers(0, 3),
)
def test_ways_to_lay_a_board_lie_apart_and_inside(sizes: list[tuple[int, int]], kerf: int) -> None:
    """Every piece once, a kerf between every two, nothing beyond the board."""
    wanted = [Wanted(k, w, h, sizes.count((w, h))) for k, (w, h) in enumerate(dict.fromkeys(sizes))]
    for way in itertools.islice(arranged(wanted, (60, 70), kerf, 6, Work(_MANY)), 20):
        laid = [(p.x, p.y, p.width, p.height) for p in way]
        assert sorted(box[2:] for box in laid) == sorted(sizes)
        assert all(x + w <= 60 and y + h <= 70 for x, y, w, h in laid)
        assert all(_apart(one, two, kerf) for one, two in itertools.combinations(laid, 2))


_PIECES = st.lists(
    st.tuples(st.integers(4, 9), st.integers(6, 20), st.integers(1, 4)), min_size=1, max_size=4
)


def _cut(pieces: list[tuple[int, int, int]], rib: float, shop: Shop) -> SheetPlans:
    wanted = [
        SheetPiece(
            id=f"S{k}.{i}",
            item="sheet",
            width_mm=50 * w,
            length_mm=100 * h,
            least_width_mm=50 * w - 4,
            most_width_mm=50 * w,
            least_length_mm=100 * h - 10,
            most_length_mm=100 * h,
            rib_at_most_mm=(rib, rib),
        )
        for k, (w, h, n) in enumerate(pieces)
        for i in range(n)
    ]
    stocks = [
        SheetStock(
            id=f"{w} x {h}",
            item="sheet",
            width_mm=w,
            length_mm=h,
            price=w * h // 1000,
            count=None,
            offcut=False,
            rib_pitch_mm=20.0,
            first_rib_mm=10.0,
        )
        for w, h in ((1250, 3000), (980, 2500))
    ]
    return cut_sheets(wanted, stocks, kerf_mm=4, any_cuts=True, shop=shop)


def _kept(plans: SheetPlans) -> int:
    return sum((o.width_mm or 0) * o.length_mm for o in plans.offcuts)


@tries(10)
@given(_PIECES, st.sampled_from((14.0, math.inf)), st.sampled_from((None, 3)))
def test_nothing_is_lost_for_fewer_cuts(
    pieces: list[tuple[int, int, int]], rib: float, stages: int | None
) -> None:
    """The same stock, money and bound, every piece once, no less kept, and no more cuts on all sheets together."""
    shop = Shop(stages=stages)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(module, "with_fewer_cuts", lambda plans, *_: list(plans))
        before = _cut(pieces, rib, shop)
    after = _cut(pieces, rib, shop)
    assert [p.stock for p in after.sheets] == [p.stock for p in before.sheets]
    assert (after.cost, after.bound, after.proven) == (before.cost, before.bound, before.proven)
    names = sorted(p.piece for sheet in after.sheets for p in sheet.placements)
    assert names == sorted(p.piece for sheet in before.sheets for p in sheet.placements)
    assert _kept(after) >= _kept(before)
    assert sum(len(p.cuts) for p in after.sheets) <= sum(len(p.cuts) for p in before.sheets)


def test_waste_beside_several_rows_is_ripped_off_once() -> None:
    """By hand: three pieces of 900 x 900 from 980 x 3000 leave 292 at the foot and 80 beside them.

    Row by row that is three crosscuts and three rips; ripped first, one rip and three crosscuts.
    """
    plans = _cut([(18, 9, 3)], math.inf, Shop())
    assert [len(p.cuts) for p in plans.sheets] == [4]
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(module, "with_fewer_cuts", lambda plans, *_: list(plans))
        assert [len(p.cuts) for p in _cut([(18, 9, 3)], math.inf, Shop()).sheets] == [6]
