"""The general search behind the public call: never dearer than strips, and the trade's rules asked of what it gives."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from pentice.cutting import cut_lengths, cut_sheets
from pentice.cutting.best import best_sheets
from pentice.cutting.free_cuts import can_be_held, placed
from pentice.cutting.general import Terms, better_sheets, boards_of, rectangles_of
from pentice.cutting.packing import Board, Limits, Place, Rectangle, Search
from pentice.cutting.planted import Lies, planted
from pentice.cutting.strips import SheetKind
from pentice.cutting.values import Cut, LengthPiece, LengthStock, SheetPiece, SheetStock
from tests.cutting_checker import faults_of_lengths, faults_of_sheets

KERF = 4
STOCK = SheetStock(
    id="a",
    item="sheet",
    width_mm=2100,
    length_mm=3000,
    price=9000,
    count=None,
    offcut=False,
    rib_pitch_mm=20.0,
    first_rib_mm=10.0,
)


def _piece(name: str, width: int, length: int, rib: float = math.inf) -> SheetPiece:
    return SheetPiece(
        id=name,
        item="sheet",
        width_mm=width,
        length_mm=length,
        least_width_mm=width,
        most_width_mm=width,
        least_length_mm=length,
        most_length_mm=length,
        rib_at_most_mm=(rib, rib),
    )


def _nested() -> list[SheetPiece]:
    """One long piece, and beside it two columns of others: strips need two sheets, cuts in any order one.

    By hand: the long one takes 1000 x 2990. Beside it 1096 x 2990 are left: 1090 x 1490 and, below it, 500 x 1490 and
    580 x 1490 (1490 + 4 + 1490 = 2984, 500 + 4 + 580 = 1084).
    """
    return [_piece("L", 1000, 2990), _piece("A", 1090, 1490), _piece("B", 500, 1490), _piece("C", 580, 1490)]


def test_cuts_in_any_order_save_a_sheet_that_strips_cannot() -> None:
    """The plan of one sheet is found, proven, can be cut, and has cuts that free every piece; only where asked for."""
    found = cut_sheets(_nested(), [STOCK], kerf_mm=KERF, any_cuts=True)
    assert faults_of_sheets(found, _nested(), [STOCK], KERF) == []
    assert (found.cost, found.bound) == (9000, 9000)
    strips = cut_sheets(_nested(), [STOCK], kerf_mm=KERF)
    assert faults_of_sheets(strips, _nested(), [STOCK], KERF) == []
    assert (strips.cost, strips.bound) == (18000, 9000)


def test_a_plan_that_breaks_a_rule_of_the_trade_is_refused() -> None:
    """A rib too far from an edge wherever it lies, or a cut that leaves less than can be held: nothing is given."""
    kinds = (SheetKind(piece=_piece("A", 943, 1480, 14.0), ids=("A",)),)
    at_edge = Place(kind=0, x=0, y=0, width=943, height=1480)
    assert placed([at_edge], kinds, ["A"], STOCK, KERF) is not None
    strict = (replace(kinds[0], piece=_piece("A", 943, 1480, 1.5)),)
    assert placed([at_edge], strict, ["A"], STOCK, KERF) is None
    sliver = (SheetKind(piece=_piece("A", 943, 2997), ids=("A",)),)
    assert placed([replace(at_edge, height=2997)], sliver, ["A"], STOCK, KERF) is None


def test_a_strip_is_ripped_off_first_where_no_rib_holds_at_the_edge() -> None:
    """Ribs at 10 + 20 k, within 5 of both edges of 943: begun at 8 they stand 2 and 951 - 950 = 1 inside. By hand."""
    kinds = (SheetKind(piece=_piece("A", 943, 1480, 5.0), ids=("A",)),)
    found = placed([Place(kind=0, x=0, y=0, width=943, height=1480)], kinds, ["A"], STOCK, KERF)
    assert found is not None
    assert (found[0][0].x_mm, found[0][0].rib_at_mm) == (8, (2.0, 1.0))


def test_many_lengths_are_cut_better_than_one_after_the_other() -> None:
    """Forty different lengths: a valid plan with a bound near it, the same plan again."""
    pieces = [LengthPiece(id=f"R{i}", item="bar", length_mm=400 + 53 * i) for i in range(40)]
    stocks = [
        LengthStock(id="6", item="bar", length_mm=6000, price=600, count=None, offcut=False, end_trim_mm=5),
        LengthStock(id="4", item="bar", length_mm=4000, price=430, count=None, offcut=False, end_trim_mm=5),
        LengthStock(id="rack", item="bar", length_mm=1900, price=0, count=1, offcut=True),
    ]
    found = cut_lengths(pieces, stocks, kerf_mm=3)
    assert faults_of_lengths(found, pieces, stocks, 3) == []
    assert found.cost <= 1.02 * found.bound
    assert cut_lengths(pieces, stocks, kerf_mm=3) == found


def test_progress_is_told_and_a_stop_ends_the_search_with_a_plan() -> None:
    """Each better plan costs less than the one before; a stop at once still gives the first plan."""
    pieces = [Rectangle(width=7 + k % 5, height=9 + k % 7, count=2) for k in range(14)]
    boards = [Board(width=30, height=30, cost=3), Board(width=20, height=40, cost=2)]
    told: list[int] = []
    found = best_sheets(
        pieces, boards, kerf=1, limits=Limits(rounds=400, progress=lambda cost, bound: told.append(cost))
    )
    first = best_sheets(pieces, boards, kerf=1, limits=Limits(stop=lambda: True))
    assert found is not None and first is not None
    assert told == sorted(told, reverse=True)
    assert found.cost == (told[-1] if told else first.cost) <= first.cost


def test_too_few_boards_give_no_plan() -> None:
    """A search within the boards at hand that cannot succeed says so."""
    assert (
        best_sheets(
            [Rectangle(width=9, height=9, count=2)],
            [Board(width=10, height=10, cost=1, count=1)],
            kerf=0,
            limits=Limits(rounds=5),
        )
        is None
    )


def test_a_limit_of_stages_is_held_and_stated() -> None:
    """The nested pieces need three stages on one sheet: two take a second sheet."""
    pieces = [Rectangle(width=w, height=h, count=1) for w, h in ((1000, 3000), (1090, 1490), (500, 1490))]
    pieces.append(Rectangle(width=580, height=1490, count=1))
    board = [Board(width=2100, height=3000, cost=1)]
    costs = []
    for stages in (2, 3, None):
        found = best_sheets(pieces, board, kerf=4, limits=Limits(rounds=400, stages=stages))
        assert found is not None
        assert found.stages == stages
        costs.append(found.cost)
    assert costs == [2, 1, 1]


def test_a_cut_that_parts_nothing_cannot_be_held() -> None:
    """A piece that stands 2 mm from the edge of the part in hand would need a cut outside of it."""
    across = Cut(number=1, kind="crosscut", at_mm=900, from_mm=0, to_mm=2100)
    outside = Cut(number=2, kind="rip", at_mm=-2, from_mm=0, to_mm=900)
    assert can_be_held([across], STOCK, KERF)
    assert not can_be_held([across, outside], STOCK, KERF)


def test_the_search_goes_on_from_the_plan_at_hand() -> None:
    """Planted, a plan of strips is the state of the search, piece for piece; what claims more than its sheet is not."""
    pieces = [_piece("L", 1000, 1990), _piece("A", 1090, 990), _piece("B", 500, 1490), _piece("C", 580, 1490)]
    kinds = [SheetKind(piece=p, ids=(p.id,)) for p in pieces]
    plans = cut_sheets(pieces, [STOCK], kerf_mm=KERF).sheets
    claims = rectangles_of(kinds, reserve=True)
    for more, known in ((0, True), (5000, False)):
        search = Search.begun(claims, boards_of([STOCK]), KERF, Limits(rounds=1))
        assert search is not None
        sheets = [
            (
                0,
                [
                    Lies(
                        piece=[p.id for p in pieces].index(p.piece),
                        at=(p.x_mm, p.y_mm),
                        size=(p.width_mm + KERF, p.length_mm + KERF),
                        claim=(p.width_mm + KERF + more, p.length_mm + KERF),
                    )
                    for p in plan.placements
                ],
            )
            for plan in plans
        ]
        state = planted(search.layout, sheets, 1)
        assert (state is not None) is known
        if state is not None:
            search.best = state
            found = search.packing(0)
            assert found.cost == sum(plan.price for plan in plans)
            assert sorted(place.kind for packed in found.boards for place in packed.places) == [0, 1, 2, 3]


def test_a_job_of_the_trade_is_cut_for_less_than_by_strips() -> None:
    """Two dozen pieces of three lengths: cuts in any order, begun from the strips, save."""
    pieces = [_piece(f"P{n}", 640 + 17 * (n % 7), (1230, 1780, 940)[n % 3], 14.0) for n in range(24)]
    stocks = [
        replace(STOCK, id=f"{w}x{n}", width_mm=w, length_mm=n, price=w * n // 1000)
        for w in (980, 1250, 2100)
        for n in (2000, 3000, 4000)
    ]
    by_strips = cut_sheets(pieces, stocks, kerf_mm=KERF)
    in_any_order = cut_sheets(pieces, stocks, kerf_mm=KERF, any_cuts=True)
    assert in_any_order.cost < by_strips.cost
    assert faults_of_sheets(in_any_order, pieces, stocks, KERF) == []


def test_pieces_of_a_sheet_that_breaks_a_rule_are_cut_by_strips() -> None:
    """Of two sheets that the search gives one holds a piece that finds no rib: it alone is cut again."""
    kinds = [
        SheetKind(piece=_piece("A", 2100, 3000, 14.0), ids=("A",)),
        SheetKind(piece=_piece("B", 2100, 2900, 1.0), ids=("B",)),
    ]
    asked: list[tuple[list[str], list[int | None]]] = []

    def by_strips(ids: Sequence[str], left: Sequence[SheetStock]) -> None:
        asked.append((list(ids), [s.count for s in left]))

    stocks = [replace(STOCK, count=3)]
    assert better_sheets((), kinds, stocks, KERF, 0, Terms(by_strips=by_strips)) is None
    assert asked == [(["B"], [2])]
    assert better_sheets((), kinds, stocks, KERF, 0, Terms()) is None
