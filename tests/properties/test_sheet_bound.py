"""Sheets against brute force over every guillotine plan, of any number of stages, with limited offcuts in hand."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from pentice.cutting import cut_sheets
from pentice.cutting.values import SheetPiece, SheetStock
from pentice.errors import NoSolution
from tests.cutting_checker import faults_of_sheets
from tests.tries import tries

KERF = 4
Boxes = list[tuple[int, int]]


def _least_boxes(pieces: list[SheetPiece], stock: SheetStock) -> list[Boxes]:
    """For each set of pieces (as bits), the smallest rectangles from which straight cuts can free it."""
    room = (stock.width_mm, stock.length_mm)
    boxes: list[Boxes] = [[]]
    for bits in range(1, 1 << len(pieces)):
        found = set()
        if bits & (bits - 1) == 0:
            found.add(_claim(pieces[bits.bit_length() - 1], room))
        one = (bits - 1) & bits
        while one:
            for w, n in boxes[one]:
                for v, m in boxes[bits ^ one]:
                    found |= {(w + v + KERF, max(n, m)), (max(w, v), n + m + KERF)}
            one = (one - 1) & bits
        boxes.append([b for b in found if b[0] <= room[0] and b[1] <= room[1]])
    return boxes


def _claim(piece: SheetPiece, room: tuple[int, int]) -> tuple[int, int]:
    uncut = (
        piece.least_width_mm <= room[0] <= piece.most_width_mm,
        piece.least_length_mm <= room[1] <= piece.most_length_mm,
    )
    return (
        room[0] if uncut[0] else piece.width_mm + piece.reserve_mm[0],
        room[1] if uncut[1] else piece.length_mm + piece.reserve_mm[1],
    )


def _least_cost(pieces: list[SheetPiece], stocks: list[SheetStock]) -> int:
    """Least cost without regard to slivers: no plan can cost less."""
    every = (1 << len(pieces)) - 1
    costs = [0, *[10**9] * every]
    sets = {s.id: [bits for bits, boxes in enumerate(_least_boxes(pieces, s)) if boxes] for s in stocks}
    for stock in stocks:
        if stock.count is not None:
            for _ in range(stock.count):
                costs = _with(costs, sets[stock.id], stock.price)
    for _ in pieces:
        for stock in stocks:
            if stock.count is None:
                costs = _with(costs, sets[stock.id], stock.price)
    return costs[every]


def _with(costs: list[int], sets: list[int], price: int) -> list[int]:
    return [
        min([costs[bits], *(costs[bits ^ s] + price for s in sets if s & bits == s)])
        for bits in range(len(costs))
    ]


@tries(40)
@given(
    st.lists(
        st.tuples(st.sampled_from([943, 610, 480, 35]), st.sampled_from([2880, 2990, 1480, 2498])),
        min_size=1,
        max_size=5,
    ),
    st.sampled_from([(0, 0), (5, 15)]),
    st.integers(1, 2),
)
def test_no_guillotine_plan_is_cheaper_than_the_bound(
    sizes: list[tuple[int, int]], reserve: tuple[int, int], in_hand: int
) -> None:
    """The bound never passes the brute-force cost, the plan never goes below it, and every plan can be cut."""
    pieces = [
        SheetPiece(
            id=f"S{i}",
            item="sheet",
            width_mm=w,
            length_mm=n,
            least_width_mm=w - 5,
            most_width_mm=w,
            least_length_mm=n - 20,
            most_length_mm=n,
            rib_at_most_mm=(float("inf"), float("inf")),
            reserve_mm=reserve,
        )
        for i, (w, n) in enumerate(sizes)
    ]
    stocks = [
        SheetStock(
            id=id,
            item="sheet",
            width_mm=w,
            length_mm=n,
            price=price,
            count=count,
            offcut=count is not None,
            rib_pitch_mm=20.0,
            first_rib_mm=10.0,
        )
        for id, w, n, price, count in (
            ("a", 980, 3000, 5900, None),
            ("b", 1250, 3500, 8600, None),
            ("c", 2100, 6000, 24000, None),
            ("rack", 620, 3000, 0, in_hand),
        )
    ]
    try:
        plans = cut_sheets(pieces, stocks, kerf_mm=KERF, any_cuts=True)
    except NoSolution as refusal:
        assert str(refusal).endswith(".")
        return
    assert faults_of_sheets(plans, pieces, stocks, KERF) == []
    assert plans.bound <= _least_cost(pieces, stocks) <= plans.cost
