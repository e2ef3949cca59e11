"""Stock that is cut in part: what is free, which parts are stock, and the plan of the rest from them."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.cutting import cut_lengths, cut_sheets
from pentice.cutting.half_cut import half_cut
from pentice.cutting.recut import CutSoFar, begun_sheets, recut_lengths, recut_sheets
from pentice.cutting.shop import Shop
from pentice.cutting.values import (
    Cut,
    LengthPiece,
    LengthPlacement,
    LengthPlan,
    LengthPlans,
    LengthStock,
    Placement,
    SheetPiece,
    SheetPlan,
    SheetPlans,
    SheetStock,
    Slant,
)
from pentice.errors import NoSolution
from tests.tries import tries
from tests.unit.cutting.fixed import fixed_piece

KERF = 4
SHEET = SheetStock(
    id="s 1000x3000",
    item="sheet",
    width_mm=1000,
    length_mm=3000,
    price=9000,
    count=None,
    offcut=False,
    rib_pitch_mm=20.0,
    first_rib_mm=10.0,
)

BAR = LengthStock(id="bar 6000", item="bar", length_mm=6000, price=4000, count=None, offcut=False)


def _piece(id: str, width: int, length: int) -> SheetPiece:
    return fixed_piece(id, width, length, reserve=(5, 15))


def _placed(id: str, x: int, y: int, width: int, length: int) -> Placement:
    return Placement(
        piece=id, x_mm=x, y_mm=y, width_mm=width, length_mm=length, turned_180=False, rib_at_mm=(0.0, 0.0)
    )


ROWS = SheetPlan(
    stock=SHEET.id,
    item="sheet",
    width_mm=1000,
    length_mm=3000,
    kerf_mm=KERF,
    price=9000,
    placements=(_placed("A", 0, 0, 480, 1200), _placed("B", 484, 0, 516, 1200), _placed("C", 0, 1204, 700, 1500)),
    cuts=(
        Cut(number=1, kind="crosscut", at_mm=1200, from_mm=0, to_mm=1000),
        Cut(number=2, kind="crosscut", at_mm=2704, from_mm=0, to_mm=1000),
        Cut(number=3, kind="rip", at_mm=480, from_mm=0, to_mm=1200),
        Cut(number=4, kind="rip", at_mm=700, from_mm=1204, to_mm=2704),
    ),
)  # fmt: skip
"""By hand: a row of A and B at the head, C below it, 292 left at the foot and 296 beside C."""


def test_the_parts_of_a_sheet_after_its_first_cut_are_those_on_the_bench() -> None:
    """By hand: cut 1 gives a row of 1200 ("part A") and, a kerf of 4 beyond, 3000 - 1204 = 1796 of the sheet."""
    there = half_cut(2, ROWS, SHEET, made=1, spoiled=(), least_mm=(300, 300))
    assert [(s.id, s.width_mm, s.length_mm) for s in there.stock] == [
        ("sheet of stock 2", 1000, 1796),
        ("part A of stock 2", 1000, 1200),
    ]
    rest, row = there.parts
    assert [(p.piece, p.x_mm, p.y_mm) for p in rest.placements] == [("C", 0, 0)]
    assert [(c.number, c.kind, c.at_mm, c.from_mm, c.to_mm) for c in rest.cuts] == [
        (2, "crosscut", 1500, 0, 1000),
        (4, "rip", 700, 0, 1500),
    ]
    assert [(p.piece, p.x_mm) for p in row.placements] == [("A", 0), ("B", 484)]
    assert [c.number for c in row.cuts] == [3]
    assert (there.free, there.first, there.rests) == ((), (), ())


def test_a_free_piece_is_in_hand_and_what_holds_none_is_kept_by_the_rule() -> None:
    """By hand: cuts 1 to 3 free A and B and leave 1000 x 292 at the foot, and 1000 x 1500 that still holds C."""
    there = half_cut(1, ROWS, SHEET, made=3, spoiled=(), least_mm=(300, 290))
    assert there.free == ("A", "B")
    assert [(s.width_mm, s.length_mm) for s in there.stock] == [(1000, 1500)]
    assert [(r.id, r.width_mm, r.length_mm) for r in there.rests] == [("rest 1 of stock 1", 1000, 292)]
    assert half_cut(1, ROWS, SHEET, made=3, spoiled=(), least_mm=(300, 293)).rests == ()


def test_a_part_knows_where_its_first_rib_stands() -> None:
    """By hand: ribs at 10, 30, ... 490: the first beyond 484 stands 6 inside the part that begins there."""
    three = replace(ROWS, placements=(*ROWS.placements[:1], _placed("B", 484, 0, 516, 1100), ROWS.placements[2]),
                    cuts=(*ROWS.cuts, Cut(number=5, kind="crosscut", at_mm=1100, from_mm=484, to_mm=1000)))  # fmt: skip
    there = half_cut(1, three, SHEET, made=4, spoiled=(), least_mm=(1, 1))
    assert [(s.id, s.width_mm, s.length_mm, s.first_rib_mm) for s in there.stock] == [
        ("part A of stock 1", 516, 1200, 6.0)
    ]
    nobody = half_cut(1, three, replace(SHEET, first_rib_mm=math.nan), made=4, spoiled=(), least_mm=(1, 1))
    assert math.isnan(nobody.stock[0].first_rib_mm)


def test_a_spoiled_piece_that_is_not_free_is_cut_out_first() -> None:
    """B spoiled after cut 1: cut 3 parts it from A, so the rest is planned from 1796 of sheet alone; A is then free."""
    there = half_cut(1, ROWS, SHEET, made=1, spoiled=("B",), least_mm=(300, 300))
    assert (there.first, there.free) == ((3,), ("A", "B"))
    assert [s.id for s in there.stock] == ["sheet of stock 1"]


def test_a_sheet_that_is_begun_is_trimmed_on_all_sides_first() -> None:
    """New stock trimmed 10 all round: after one of its four trims the other three are made before it is stock."""
    trimmed = replace(SHEET, trim_mm=10)
    plan = cut_sheets([_piece("A", 480, 1200), _piece("B", 480, 1200)], [trimmed], kerf_mm=KERF).sheets[0]
    there = half_cut(1, plan, trimmed, made=1, spoiled=(), least_mm=(300, 300))
    assert there.first == (2, 3, 4)
    assert [(s.width_mm, s.length_mm, s.offcut) for s in there.stock] == [(980, 2980, True)]


def _whole(found: SheetPlans) -> list[tuple[str, list[str]]]:
    return [(s.stock, sorted(p.piece for p in s.placements)) for s in found.sheets]


def test_parts_keep_their_ticket_where_a_rest_gives_the_piece_again() -> None:
    """A spoiled once it is free: 296 x 1500 will be left beside C and holds 250 x 1190, so C keeps its cuts 2 and 4."""
    pieces = [_piece("A", 250, 1190), _piece("B", 516, 1200), _piece("C", 700, 1500)]
    so_far = CutSoFar(cut=frozenset(), spoiled=frozenset({"A"}), begun={0: 3})
    keeps = Shop(keep_sheet_mm=(250, 300))
    found = recut_sheets([ROWS], so_far, pieces, [SHEET], shop=keeps)
    assert (found.cost, found.proven) == (0, True)
    assert _whole(found) == [("sheet of stock 1", ["C"]), ("rest 1 of sheet of stock 1", ["A"])]
    assert [c.number for c in found.sheets[0].cuts] == [4]


def test_a_part_is_cut_anew_where_that_saves_a_sheet() -> None:
    """By hand: 296 beside C is less than the 300 that are kept, so the ticket of 1000 x 1500 gives no rest; cut anew
    it gives C and A again (700 + 4 + 290). Once C is free too, A costs a sheet."""
    pieces = [_piece("A", 290, 1200), _piece("B", 706, 1200), _piece("C", 700, 1500)]
    row = (_placed("A", 0, 0, 290, 1200), _placed("B", 294, 0, 706, 1200))
    cuts = (*ROWS.cuts[:2], replace(ROWS.cuts[2], at_mm=290), ROWS.cuts[3])
    plan = replace(ROWS, placements=(*row, ROWS.placements[2]), cuts=cuts)
    so_far = CutSoFar(cut=frozenset(), spoiled=frozenset({"A"}), begun={0: 3})
    found = recut_sheets([plan], so_far, pieces, [SHEET])
    assert (found.cost, found.proven) == (0, True)
    assert _whole(found) == [("sheet of stock 1", ["A", "C"])]
    later = recut_sheets([plan], replace(so_far, begun={0: 4}), pieces, [SHEET])
    assert later.cost == 9000


def _length(*pieces: tuple[str, int]) -> LengthPlan:
    at, placed = 0, []
    for id, n in pieces:
        placed.append(LengthPlacement(piece=id, at_mm=at, length_mm=n))
        at += n + KERF
    return LengthPlan(
        stock=BAR.id, item="bar", length_mm=6000, kerf_mm=KERF, price=4000, pieces=tuple(placed)
    )


def test_what_lies_beyond_the_last_cut_of_a_length_is_stock() -> None:
    """By hand: 2000, 1500 and 1000 on 6000; 2000 spoiled: 6000 - 2004 = 3996 is left, holds the other two (2504 and a
    kerf) and 1488 beyond; 1480 more fits there, 2000 only where the others go: nothing does, one is bought."""
    plan = _length(("A", 2000), ("B", 1500), ("C", 1000))
    pieces = [LengthPiece(id=p.piece, item="bar", length_mm=p.length_mm) for p in plan.pieces]
    so_far = CutSoFar(cut=frozenset(), spoiled=frozenset({"A"}), begun={0: 1})
    bought = recut_lengths([plan], so_far, pieces, [BAR])
    assert (bought.cost, bought.proven) == (4000, True)
    assert [(n.stock, n.length_mm) for n in bought.lengths] == [
        ("what is left of length 1", 3996),
        (BAR.id, 6000),
    ]
    small = [replace(pieces[0], length_mm=1480), *pieces[1:]]
    rest = recut_lengths([plan], so_far, small, [BAR])
    assert rest.cost == 0
    assert [(n.stock, n.length_mm, [p.piece for p in n.pieces]) for n in rest.lengths] == [
        ("what is left of length 1", 3996, ["B", "C"]),
        ("rest of length 1", 1488, ["A"]),
    ]


def test_a_length_cut_in_part_is_cut_anew_where_that_saves_a_purchase() -> None:
    """By hand: A is cut from 6000 and spoiled, 4996 is left; A again of 4900 goes there, and B that was to come from it
    beside D (3500 + 4 + 2400), which leaves 2496 of its length."""
    plan = [_length(("A", 1000), ("B", 2400)), _length(("D", 3500))]
    sizes = {"A": 4900, "B": 2400, "D": 3500}
    pieces = [LengthPiece(id=id, item="bar", length_mm=n) for id, n in sizes.items()]
    so_far = CutSoFar(cut=frozenset(), spoiled=frozenset({"A"}), begun={0: 1})
    found = recut_lengths(plan, so_far, pieces, [BAR])
    assert (found.cost, found.proven) == (0, True)
    assert sorted((n.stock, n.length_mm, [p.piece for p in n.pieces]) for n in found.lengths) == [
        ("length 2", 6000, ["D"]),
        ("rest of length 2", 2496, ["B"]),
        ("what is left of length 1", 4996, ["A"]),
    ]


sizes = st.lists(st.tuples(st.integers(250, 950), st.integers(400, 1900)), min_size=2, max_size=6)


@tries(20)
@given(sizes, st.sampled_from([0, 12]), st.data())
def test_after_any_cut_every_missing_piece_is_planned_once_from_parts_that_do_not_overlap(
    wanted: list[tuple[int, int]], trim: int, data: st.DataObject
) -> None:
    """Random plans, stopped at every cut of a sheet in turn, a piece of it spoiled.

    Fewer cuts made never make the rest dearer: whatever can be planned after cut k can be planned before it, by making
    it. The search need not find it, but its bound must allow it, and where both are proven the costs show it. With all
    cuts made the plan is that of the whole sheet.
    """
    stock = replace(SHEET, trim_mm=trim)
    pieces = [replace(_piece(f"P{i}", w, n), least_length_mm=n - 10) for i, (w, n) in enumerate(wanted)]
    plan = cut_sheets(pieces, [stock], kerf_mm=KERF).sheets
    place = data.draw(st.integers(0, len(plan) - 1))
    spoiled = frozenset({data.draw(st.sampled_from([p.piece for p in plan[place].placements]))})
    before: SheetPlans | None = None
    count = len(plan[place].cuts)
    for made in range(1, count + 1):
        so_far = CutSoFar(cut=frozenset(), spoiled=spoiled, begun={place: made})
        there = begun_sheets(plan, so_far, [stock])[place + 1]
        _apart(
            plan[place], made, there.free, [(s.width_mm, s.length_mm) for s in (*there.stock, *there.rests)]
        )
        found = recut_sheets(plan, so_far, pieces, [stock])
        planned = sorted(p.piece for s in found.sheets for p in s.placements)
        assert planned == sorted(({p.id for p in pieces} - {*there.free}) | spoiled)
        room = {s.id: (s.width_mm, s.length_mm) for s in there.stock}
        for sheet in found.sheets:
            assert room.get(sheet.stock, (sheet.width_mm, sheet.length_mm)) == (
                sheet.width_mm,
                sheet.length_mm,
            )
            for p in sheet.placements:
                assert p.x_mm >= 0 <= p.y_mm
                assert p.x_mm + p.width_mm <= sheet.width_mm
                assert p.y_mm + p.length_mm <= sheet.length_mm
        assert found.bound <= found.cost
        if before is not None:
            assert before.bound <= found.cost
            assert before.cost <= found.cost or not (before.proven and found.proven)
        before = found
    to_the_end = CutSoFar(cut=frozenset({place}), spoiled=spoiled)
    assert before in (None, recut_sheets(plan, to_the_end, pieces, [stock]))


def _apart(plan: SheetPlan, made: int, free: tuple[str, ...], sizes: list[tuple[int, int]]) -> None:
    """Free pieces, parts and rests come to no more area than the sheet less the kerf of the cuts made."""
    pieces = sum(p.width_mm * p.length_mm for p in plan.placements if p.piece in free)
    ends = {"rip": plan.width_mm, "crosscut": plan.length_mm}
    lost = [(c.to_mm - c.from_mm) * min(plan.kerf_mm, ends[c.kind] - c.at_mm) for c in plan.cuts[:made]]
    assert pieces + sum(w * n for w, n in sizes) <= plan.width_mm * plan.length_mm - sum(lost)


def test_a_cut_in_part_that_no_stock_can_make_good_is_refused() -> None:
    """Nothing left and nothing to buy: the piece is named."""
    pieces = [_piece("A", 480, 1200), _piece("B", 516, 1200), _piece("C", 700, 1500)]
    so_far = CutSoFar(cut=frozenset(), spoiled=frozenset({"C"}), begun={0: 4})
    rack = replace(SHEET, price=0, count=1, offcut=True)
    with pytest.raises(NoSolution, match="C, 700 by 1500 mm"):
        recut_sheets([ROWS], so_far, pieces, [rack])


@tries(25)
@given(
    st.lists(st.tuples(st.integers(300, 2900), st.booleans()), min_size=2, max_size=7),
    st.sampled_from([None, Slant(deg=20.0, depth_mm=145)]),
    st.data(),
)
def test_after_any_piece_of_a_length_the_rest_is_planned_once_and_never_dearer_for_stopping_earlier(
    wanted: list[tuple[int, bool]], slant: Slant | None, data: st.DataObject
) -> None:
    """The same for lengths, some pieces with leaning ends: stopped after each piece in turn, the first one spoiled."""
    pieces = [
        LengthPiece(id=f"P{i}", item="bar", length_mm=n, slant=slant if leans else None)
        for i, (n, leans) in enumerate(wanted)
    ]
    plan = cut_lengths(pieces, [BAR], kerf_mm=KERF).lengths
    place = data.draw(st.integers(0, len(plan) - 1))
    order = [p.piece for p in plan[place].pieces]
    spoiled = frozenset({order[0]})
    before: LengthPlans | None = None
    for made in range(1, len(order) + 1):
        so_far = CutSoFar(cut=frozenset(), spoiled=spoiled, begun={place: made})
        found = recut_lengths(plan, so_far, pieces, [BAR])
        planned = sorted(p.piece for n in found.lengths for p in n.pieces)
        assert planned == sorted(({p.id for p in pieces} - {*order[:made]}) | spoiled)
        for length in found.lengths:
            assert max(p.at_mm + p.length_mm + p.lean_mm for p in length.pieces) <= length.length_mm
            assert all(
                a.at_mm + a.length_mm + KERF <= b.at_mm
                for a, b in pairwise(sorted(length.pieces, key=lambda p: p.at_mm))
            )
        assert found.bound <= found.cost
        if before is not None:
            assert before.bound <= found.cost
            assert before.cost <= found.cost or not (before.proven and found.proven)
        before = found
    to_the_end = CutSoFar(cut=frozenset({place}), spoiled=spoiled)
    assert before == recut_lengths(plan, to_the_end, pieces, [BAR])
