"""Pairs of trapezoids: sizes by hand, hands and turns, exact matching, what cannot be used."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.cutting.trapezoids import Block, Trapezoid, paired
from pentice.errors import InputError
from tests.tries import tries

Point = tuple[float, float]


def _piece(name: str, width: int, left: int, right: int) -> Trapezoid:
    return Trapezoid(id=name, width_mm=width, left_mm=left, right_mm=right)


def test_two_of_one_hand_fill_a_rectangle_of_both_lengths_and_the_sloping_kerf() -> None:
    """By hand: 600 over 800 is a slope of 3 in 4, so a kerf of 4 takes 4 / 0.8 = 5 along: 1000 + 1600 + 5."""
    blocks = paired([_piece("a", 800, 1000, 1600), _piece("b", 800, 1000, 1600)], kerf_mm=4, turn_180=True)
    assert [(b.width_mm, b.length_mm) for b in blocks] == [(800, 2605)]
    assert blocks[0].polygons_mm[1] == ((800, 2605), (0, 2605), (0, 1005), (800, 1605))


def test_a_narrower_piece_lies_where_the_wider_is_shorter() -> None:
    """By hand: the wider 1000 to 1600 over 800, the narrower 500 to 800 over 400 (the same 3 in 4): 1000 + 5 + 800."""
    wide, narrow = _piece("a", 800, 1000, 1600), _piece("b", 400, 500, 800)
    (block,) = paired([narrow, wide], kerf_mm=4, turn_180=True)
    assert (block.width_mm, block.length_mm) == (800, 1805)
    assert block.pieces == (wide, narrow)
    assert {x for x, _ in block.polygons_mm[1]} == {0, 400}
    mirrored = [_piece("a", 800, 1600, 1000), _piece("b", 400, 800, 500)]
    (other,) = paired(mirrored, kerf_mm=4, turn_180=True)
    assert other.length_mm == 1805
    assert {x for x, _ in other.polygons_mm[1]} == {400, 800}


def test_slopes_that_differ_by_a_trim_pair_all_the_same() -> None:
    """By hand: both 800 wide, 1000 to 1600 and 1000 to 1603: at one end 1600 + 1000, the kerf 4 x hypot(1, 603/800)
    = 5.01 along, so 2606; at the other end 1000 + 1603 + 5.01 = 2608.01, so 2609. Five mm apart they stay alone.
    """
    near = [_piece("a", 800, 1000, 1600), _piece("b", 800, 1000, 1603)]
    (block,) = paired(near, kerf_mm=4, turn_180=True)
    assert (block.width_mm, block.length_mm) == (800, 2609)
    far = [near[0], _piece("b", 800, 1000, 1605)]
    assert [len(b.pieces) for b in paired(far, kerf_mm=4, turn_180=True)] == [1, 1]


def test_a_pair_that_fits_no_board_is_none() -> None:
    """2605 long: not from 800 x 2600 nor from 799 x 3000, from 800 x 2605 it is."""
    two = [_piece("a", 800, 1000, 1600), _piece("b", 800, 1000, 1600)]

    def blocks(*boards: tuple[int, int]) -> int:
        return len(paired(two, kerf_mm=4, turn_180=True, boards_mm=boards))

    assert (blocks((800, 2600), (799, 3000)), blocks((800, 2605)), blocks()) == (2, 1, 2)


def test_opposite_hands_other_slopes_rectangles_and_products_not_to_be_turned_stay_alone() -> None:
    """None of these pair, and each goes by the rectangle around it, in the order given."""
    pieces = [_piece("a", 800, 1000, 1600), _piece("b", 800, 1600, 1000), _piece("c", 800, 1000, 1500)]
    pieces += [_piece("d", 700, 900, 900), _piece("e", 700, 900, 900)]
    alone = [(800, 1600), (800, 1600), (800, 1500), (700, 900), (700, 900)]
    assert [(b.width_mm, b.length_mm) for b in paired(pieces, kerf_mm=3, turn_180=True)] == alone
    same = [_piece("a", 800, 1000, 1600), _piece("b", 800, 1000, 1600)]
    assert [len(b.pieces) for b in paired(same, kerf_mm=3, turn_180=False)] == [1, 1]


@pytest.mark.parametrize("sides", [(0, 5, 5), (100, 0, 0), (100, -1, 50)])
def test_a_piece_that_is_none_is_refused(sides: tuple[int, int, int]) -> None:
    """The message names the piece and what was expected."""
    with pytest.raises(InputError, match=r"X is .* expected a width of 1 or more"):
        paired([_piece("X", *sides)], kerf_mm=3, turn_180=True)


_PIECES = st.lists(
    st.tuples(
        st.integers(10, 300), st.sampled_from([-2, -1, 0, 1, 2]), st.integers(5, 400), st.integers(0, 3)
    ),
    max_size=7,
)
Drawn = list[tuple[int, int, int, int]]


def _pieces(drawn: Drawn) -> list[Trapezoid]:
    """Slopes of some 1 in 2 or 1 in 1, either hand, over an even width, up to 3 mm steeper."""
    made = []
    for n, (half, slope, short, more) in enumerate(drawn):
        rise = abs(slope) * half + (more if slope else 0)
        sides = (short, short + rise) if slope >= 0 else (short + rise, short)
        made.append(_piece(f"P{n}", 2 * half, *sides))
    return made


def _claims(blocks: tuple[Block, ...], kerf: int) -> int:
    return sum((b.width_mm + kerf) * (b.length_mm + kerf) for b in blocks)


@tries(150)
@given(_PIECES, st.integers(0, 6), st.booleans())
def test_pieces_of_a_pair_lie_inside_and_a_kerf_apart(drawn: Drawn, kerf: int, turn: bool) -> None:
    """Every piece once; corners inside the rectangle; no corner of one nearer than a kerf to the slope of the other."""
    pieces = _pieces(drawn)
    blocks = paired(pieces, kerf_mm=kerf, turn_180=turn)
    assert sorted(p.id for b in blocks for p in b.pieces) == sorted(p.id for p in pieces)
    for block in blocks:
        for piece, polygon in zip(block.pieces, block.polygons_mm, strict=True):
            assert all(0 <= x <= block.width_mm and 0 <= y <= block.length_mm for x, y in polygon)
            assert _area(polygon) == piece.width_mm * (piece.left_mm + piece.right_mm) / 2
        if len(block.pieces) == 2:
            one, two = block.polygons_mm
            for point in two:
                assert _beyond(one[3], one[2], point) >= kerf - 1e-9
            along = [p for p in one if p[0] <= max(x for x, _ in two) and p[0] >= min(x for x, _ in two)]
            for point in along:
                assert -_beyond(two[2], two[3], point) >= kerf - 1e-9


def _area(polygon: tuple[Point, ...]) -> float:
    around = zip(polygon, polygon[1:] + polygon[:1], strict=True)
    return abs(sum(x * v - u * y for (x, y), (u, v) in around)) / 2


def _beyond(begin: Point, end: Point, point: Point) -> float:
    """How far a point lies on the foot side of a line that runs from left to right."""
    across, along = end[0] - begin[0], end[1] - begin[1]
    return (across * (point[1] - begin[1]) - along * (point[0] - begin[0])) / math.hypot(across, along)


@tries(60)
@given(_PIECES, st.integers(0, 6))
def test_no_other_pairs_save_more(drawn: Drawn, kerf: int) -> None:
    """Against every order of the pieces, paired two by two as far as that saves area."""
    pieces = _pieces(drawn[:5])
    found = _claims(paired(pieces, kerf_mm=kerf, turn_180=True), kerf)
    for order in itertools.permutations(pieces):
        other = 0
        for i in range(0, len(order), 2):
            other += _claims(paired(order[i : i + 2], kerf_mm=kerf, turn_180=True), kerf)
        assert found <= other


def test_many_pieces_pair_with_the_greatest_saving_first() -> None:
    """Thirty alike make fifteen pairs, and one other stays alone."""
    pieces = [_piece(f"a{i}", 800, 1000, 1600) for i in range(30)] + [_piece("b", 300, 900, 100)]
    blocks = paired(pieces, kerf_mm=4, turn_180=True)
    assert [len(b.pieces) for b in blocks] == [2] * 15 + [1]
