"""Lengths with sloping ends: by hand, by an own checker of the geometry, and against trying everything."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import permutations, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.cutting.mitred import MitredPlan, MitredPlans, cut_mitred
from pentice.cutting.mitres import MitredPiece, MitredPlacement
from pentice.cutting.values import LengthStock
from pentice.errors import InputError, NoSolution
from tests.tries import tries

KERF, DEPTH = 4, 100


def _bar(length: int, price: int = 500, count: int | None = None, trim: int = 0) -> LengthStock:
    return LengthStock(
        id=str(length), item="bar", length_mm=length, price=price, count=count, offcut=False, end_trim_mm=trim
    )


def _piece(id: str, length: int, left: float, right: float, turn: bool = False) -> MitredPiece:
    return MitredPiece(id=id, item="bar", length_mm=length, left_deg=left, right_deg=right, may_turn=turn)


def _faults(plans: MitredPlans, pieces: Sequence[MitredPiece], stocks: Sequence[LengthStock]) -> list[str]:
    """Everything wrong: each piece once, as long and sloping as wanted, a kerf apart square to the cut, in the bar."""
    wanted = {p.id: p for p in pieces}
    known = {s.id: s for s in stocks}
    faults = []
    if Counter(p.piece for plan in plans.lengths for p in plan.pieces) != Counter(list(wanted)):
        faults.append("not every piece once")
    for id, times in Counter(plan.stock for plan in plans.lengths).items():
        if (limit := known[id].count) is not None and times > limit:
            faults.append(f"{id} is used {times} times")
    for plan in plans.lengths:
        faults += [fault for p in plan.pieces for fault in _faults_of_piece(p, wanted[p.piece])]
        faults += _faults_of_bar(plan, known[plan.stock].trim_mm)
    cost = sum(known[plan.stock].price for plan in plans.lengths)
    if cost != plans.cost or plans.bound > cost or plans.proven != (plans.bound == cost):
        faults.append("cost, bound and proof do not agree")
    return faults


def _faults_of_piece(placed: MitredPlacement, piece: MitredPiece) -> Iterator[str]:
    angles = [piece.right_deg, piece.left_deg] if placed.turned else [piece.left_deg, piece.right_deg]
    if placed.over:
        angles = [-a for a in angles]
    if (placed.over or placed.turned) and not piece.may_turn:
        yield f"{placed.piece} may not be turned"
    if [round(a, 6) for a in angles] != [round(placed.left_deg, 6), round(placed.right_deg, 6)]:
        yield f"{placed.piece} has other ends"
    if abs(placed.head_mm - placed.foot_mm - DEPTH * math.tan(math.radians(angles[0]))) > 1e-6:
        yield f"{placed.piece} does not begin along a straight cut"
    if placed.length_mm != piece.length_mm:
        yield f"{placed.piece} is not as long as wanted"


def _faults_of_bar(plan: MitredPlan, trim: int) -> Iterator[str]:
    """Along both edges: the long side is as given, the other one is what the two slopes make of it."""
    last: tuple[float, float, float] | None = None
    for p in plan.pieces:
        left, right = (DEPTH * math.tan(math.radians(a)) for a in (p.left_deg, p.right_deg))
        foot = p.foot_mm + p.length_mm - max(0.0, right - left)
        head = p.head_mm + p.length_mm - max(0.0, left - right)
        if min(p.foot_mm, p.head_mm) < trim - 1e-6 or max(foot, head) > plan.length_mm - trim + 1e-6:
            yield f"{p.piece} lies outside the bar"
        if last is not None:
            slope = max(1 / math.cos(math.radians(a)) for a in (last[2], p.left_deg))
            if min(p.foot_mm - last[0], p.head_mm - last[1]) < KERF * slope - 1e-6:
                yield f"{p.piece} is nearer than the cut is wide"
        if p.shares_cut != (last is not None and abs(last[2] - p.left_deg) < 1e-9):
            yield f"{p.piece} is said wrongly to share a cut, or not to"
        last = (foot, head, p.right_deg)


def test_plumb_cuts_lie_one_in_the_other() -> None:
    """Two rafters, 45 deg at both ends, 990 long: 990 + 4/cos 45 + 990 along the lower edge, and the lean of 100 once.

    By hand: 990 + 5.657 + 990 + 100 = 2085.657. A bar of 2086 does, one of 2085 does not; with a square cut of its own
    at each end they would need 2 x 1090 + 4 = 2184.
    """
    pieces = [_piece("A", 990, 45.0, 45.0), _piece("B", 990, 45.0, 45.0)]
    one = cut_mitred(pieces, [_bar(2086)], kerf_mm=KERF, depth_mm=DEPTH)
    assert (len(one.lengths), one.shared_cuts, one.proven) == (1, 1, True)
    assert _faults(one, pieces, [_bar(2086)]) == []
    two = cut_mitred(pieces, [_bar(2085)], kerf_mm=KERF, depth_mm=DEPTH)
    assert len(two.lengths) == 2


def test_mitres_of_a_frame_share_cuts_where_they_may_be_turned() -> None:
    """Long side 500, 45 deg leaning together at the top: only every other one upside down lets them share a cut.

    By hand, three: middle lengths 3 x 400, two shared cuts of 5.657, half a lean of 50 at both ends: 1311.3.
    """
    lying = [_piece(n, 500, 45.0, -45.0) for n in "ABC"]
    turning = [_piece(n, 500, 45.0, -45.0, turn=True) for n in "ABC"]
    bar = [_bar(1312)]
    assert len(cut_mitred(turning, bar, kerf_mm=KERF, depth_mm=DEPTH).lengths) == 1
    found = cut_mitred(turning, bar, kerf_mm=KERF, depth_mm=DEPTH)
    assert (found.shared_cuts, _faults(found, turning, bar)) == (2, [])
    assert len(cut_mitred(lying, bar, kerf_mm=KERF, depth_mm=DEPTH).lengths) == 2


def test_square_ends_cost_what_lengths_cost() -> None:
    """1000 + 4 + 1000 in 2004, with 5 mm trimmed off each end of the bar."""
    pieces = [_piece("A", 1000, 0.0, 0.0), _piece("B", 1000, 0.0, 0.0)]
    assert len(cut_mitred(pieces, [_bar(2014, trim=5)], kerf_mm=KERF, depth_mm=DEPTH).lengths) == 1
    assert len(cut_mitred(pieces, [_bar(2013, trim=5)], kerf_mm=KERF, depth_mm=DEPTH).lengths) == 2


def test_what_cannot_be_cut_is_refused_in_one_go() -> None:
    with pytest.raises(InputError) as refusal:
        cut_mitred(
            [_piece("A", 500, 61.0, 0.0), _piece("B", 150, 45.0, -45.0)],
            [_bar(2000)],
            kerf_mm=KERF,
            depth_mm=DEPTH,
        )
    said = str(refusal.value)
    assert "A has an end at 61 deg from square; expected 60 at most either way." in said
    assert "B is 150 mm on its long side; its ends meet before the short side." in said
    with pytest.raises(NoSolution, match="A is 1950 mm on its long side and does not fit"):
        cut_mitred([_piece("A", 1950, 45.0, 45.0)], [_bar(2000)], kerf_mm=KERF, depth_mm=DEPTH)
    with pytest.raises(NoSolution, match="do not fit on the stock that there is"):
        cut_mitred(
            [_piece("A", 1500, 0.0, 0.0), _piece("B", 1500, 0.0, 0.0)],
            [_bar(2000, count=1)],
            kerf_mm=KERF,
            depth_mm=DEPTH,
        )


def _ends(piece: MitredPiece) -> list[tuple[float, float]]:
    """Left and right lean of every way a piece may lie."""
    left, right = (DEPTH * math.tan(math.radians(a)) for a in (piece.left_deg, piece.right_deg))
    ways = [(left, right), (right, left), (-left, -right), (-right, -left)]
    return ways if piece.may_turn else ways[:1]


def _needs(pieces: Sequence[MitredPiece]) -> float:
    """The least bar for these pieces, by trying every order and every way to lie."""
    least = math.inf
    for order in permutations(pieces):
        for leans in product(*(_ends(p) for p in order)):
            foot = head = -math.inf
            last = 0.0
            for n, (piece, (left, right)) in enumerate(zip(order, leans, strict=True)):
                if n == 0:
                    at = max(0.0, -left)
                else:
                    gap = KERF * max(math.hypot(1, last / DEPTH), math.hypot(1, left / DEPTH))
                    at = max(foot + gap, head + gap - left)
                foot = at + piece.length_mm - max(0.0, right - left)
                head = at + left + piece.length_mm - max(0.0, left - right)
                last = right
            least = min(least, max(foot, head))
    return least


@tries(25)
@given(
    st.lists(
        st.tuples(
            st.integers(260, 900), st.sampled_from([-45.0, 0.0, 30.0]), st.sampled_from([0.0, 30.0, 45.0])
        ),
        min_size=1,
        max_size=4,
    ),
    st.booleans(),
    st.integers(0, 1),
)
def test_plans_are_sound_and_bounds_are_not_above_what_trying_everything_finds(
    sizes: list[tuple[int, float, float]], turn: bool, in_hand: int
) -> None:
    """Every way to share the pieces out over two kinds of bar and an offcut, each bar in every order."""
    pieces = [_piece(f"P{i}", n, a, b, turn) for i, (n, a, b) in enumerate(sizes)]
    stocks = [_bar(1300, 300), _bar(2000, 430), _bar(1000, 0, count=in_hand)]
    found = cut_mitred(pieces, stocks, kerf_mm=KERF, depth_mm=DEPTH)
    assert _faults(found, pieces, stocks) == []
    every = (1 << len(pieces)) - 1
    needs = [0.0] + [
        _needs([p for i, p in enumerate(pieces) if bits >> i & 1]) for bits in range(1, every + 1)
    ]
    best: dict[tuple[int, int], float] = {(0, 0): 0.0}
    for bits in range(1, every + 1):
        for left in (0, 1):
            tried = []
            one = bits
            while one:
                for stock in stocks:
                    if needs[one] <= stock.length_mm + 1e-6:
                        before = left - (stock.count is not None)
                        if before >= 0:
                            tried.append(best.get((bits ^ one, before), math.inf) + stock.price)
                one = (one - 1) & bits
            best[bits, left] = min(tried, default=math.inf)
        best[0, 1] = 0.0
    least = best[every, in_hand]
    assert found.bound <= least + 1e-6 <= found.cost + 2e-6
