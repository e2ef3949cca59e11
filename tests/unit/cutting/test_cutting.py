"""Cutting: usual jobs proven, pieces that fit nothing refused in a sentence, ribs where edges can hold them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from pentice.cutting import cut_lengths, cut_sheets
from pentice.cutting.ribs import rib_at
from pentice.cutting.values import Cut, LengthPiece, LengthStock, SheetPiece, SheetStock
from pentice.errors import NoSolution
from tests.cutting_checker import faults_of_lengths, faults_of_sheets


def piece(
    id: str, width: int, length: int, *, ribs: float = float("inf"), reserve: tuple[int, int] = (0, 0)
) -> SheetPiece:
    """A sheet piece with a window of 6 in width and 2 in length."""
    return SheetPiece(
        id=id,
        item="sheet",
        width_mm=width,
        length_mm=length,
        least_width_mm=width - 6,
        most_width_mm=width,
        least_length_mm=length - 2,
        most_length_mm=length,
        rib_at_most_mm=(ribs, ribs),
        reserve_mm=reserve,
    )


def stock(width: int, length: int, price: int, *, count: int | None = None) -> SheetStock:
    """A stock sheet, ribs every 20 from 10; with a count it is an offcut in hand."""
    return SheetStock(
        id=f"{width}x{length}" + ("" if count is None else " in hand"),
        item="sheet",
        width_mm=width,
        length_mm=length,
        price=price,
        count=count,
        offcut=count is not None,
        rib_pitch_mm=20.0,
        first_rib_mm=10.0,
    )


STOCKS = [stock(w, n, w * n // 500) for w in (980, 1050, 2100) for n in (2500, 3000, 3500, 6000)]


def test_a_usual_job_of_sheets_is_proven() -> None:
    """Twelve sheets of three widths: valid by the independent checker and proven cheapest."""
    pieces = [piece(f"S{i}", (943, 930, 610)[i % 3], 2880, ribs=14.0) for i in range(12)]
    plans = cut_sheets(pieces, STOCKS, kerf_mm=3)
    assert faults_of_sheets(plans, pieces, STOCKS, 3) == []
    assert plans.proven


def test_a_usual_job_of_bars_is_proven() -> None:
    """Thirteen bars of two lengths."""
    stocks = [
        LengthStock(id=f"{n}", item="bar", length_mm=n, price=n + 200, count=None, offcut=False)
        for n in (3000, 3500, 4000, 6000)
    ]
    pieces = [LengthPiece(id=f"R{i}", item="bar", length_mm=2980 if i % 3 else 2410) for i in range(13)]
    plans = cut_lengths(pieces, stocks, kerf_mm=4)
    assert faults_of_lengths(plans, pieces, stocks, 4) == []
    assert plans.proven


def test_an_offcut_in_hand_is_used_once_and_costs_nothing() -> None:
    """One of two pieces comes from the rack."""
    stocks = [stock(980, 3000, 5000), stock(1000, 2950, 0, count=1)]
    pieces = [piece(f"S{i}", 900, 2900) for i in range(2)]
    plans = cut_sheets(pieces, stocks, kerf_mm=3)
    assert (plans.cost, len(plans.sheets)) == (5000, 2)
    assert faults_of_sheets(plans, pieces, stocks, 3) == []


def test_a_stock_width_in_the_window_is_not_ripped() -> None:
    """A piece of 980 down to 974 takes a 980 sheet as it comes: no rip among its cuts."""
    plans = cut_sheets([piece("S1", 980, 2880)], STOCKS, kerf_mm=3)
    assert [cut.kind for cut in plans.sheets[0].cuts] == ["crosscut"]


def test_the_reserve_asks_for_more_stock() -> None:
    """With 5 and 15 in reserve a 943 by 2990 piece no longer comes from a 3000 sheet."""
    without = cut_sheets([piece("S1", 943, 2990)], STOCKS, kerf_mm=3)
    with_reserve = cut_sheets([piece("S1", 943, 2990, reserve=(5, 15))], STOCKS, kerf_mm=3)
    assert without.sheets[0].length_mm == 3000
    assert with_reserve.sheets[0].length_mm == 3500


def test_a_piece_longer_than_any_stock_is_refused_with_the_way_out() -> None:
    """The sentence names the piece, its size and what there is."""
    with pytest.raises(NoSolution, match=r"S1, 900 by 7000 mm .* the longest 6000\. Closer bars"):
        cut_sheets([piece("S1", 900, 7000)], STOCKS, kerf_mm=3)
    bar = LengthStock(id="6 m", item="bar", length_mm=6000, price=1, count=None, offcut=False)
    with pytest.raises(NoSolution, match=r"R1 needs 6100 mm of bar; the longest stock gives 6000"):
        cut_lengths([LengthPiece(id="R1", item="bar", length_mm=6100)], [bar], kerf_mm=4)


@pytest.mark.parametrize(("x", "ribs"), [(0, (10, 13)), (946, (4, 19)), (955, (15, 8))])
def test_where_ribs_stand_inside_a_piece(x: int, ribs: tuple[float, float]) -> None:
    """Source: geometry, counted by hand for a piece of 943 on ribs every 20 from 10."""
    assert rib_at(x, 943, 10.0, 20.0) == ribs


def test_ribs_are_held_wherever_a_piece_lies() -> None:
    """Two pieces side by side on one sheet, both with ribs within 14."""
    pieces = [piece(f"S{i}", 943, 2880, ribs=14.0) for i in range(2)]
    only = [stock(2100, 3000, 100)]
    plans = cut_sheets(pieces, only, kerf_mm=3)
    assert len(plans.sheets) == 1
    assert faults_of_sheets(plans, pieces, only, 3) == []


def test_the_checker_sees_broken_plans() -> None:
    """Overlap, outside, missing, wrong cost, wrong size: each is told."""
    pieces = [piece("S0", 943, 2880), piece("S1", 943, 2880)]
    only = [stock(2100, 3000, 100)]
    good = cut_sheets(pieces, only, kerf_mm=3)
    sheet = good.sheets[0]
    first, second = sheet.placements

    def broken(*placements: object, **changes: int) -> list[str]:
        plan = replace(good, sheets=(replace(sheet, placements=placements),), **changes)  # type: ignore[arg-type]  # placements only
        return faults_of_sheets(plan, pieces, only, 3)

    assert broken(first, replace(second, x_mm=first.x_mm + 944))[0].endswith("with a kerf of 3")
    assert "lies outside" in " ".join(broken(first, replace(second, x_mm=1200)))
    assert "S1 is cut 0 times" in broken(first)
    assert "S1 is 900 wide" in broken(first, replace(second, width_mm=900))
    assert broken(first, second, cost=99) != []


def test_many_different_pieces_are_still_cut() -> None:
    """Sixty sheets of thirty widths go by hand: valid, with a bound that is not above the cost."""
    pieces = [piece(f"S{i}", 600 + 7 * (i % 30), 2000 + 11 * (i % 7)) for i in range(60)]
    plans = cut_sheets(pieces, STOCKS, kerf_mm=3)
    assert faults_of_sheets(plans, pieces, STOCKS, 3) == []


def test_a_crosscut_never_leaves_a_sliver() -> None:
    """2998 from a 3000 sheet would leave 2: cut to 2995 within its window, or refused with the reason."""
    only = [stock(980, 3000, 100)]
    short = replace(piece("S1", 943, 2998), least_length_mm=2990)
    plans = cut_sheets([short], only, kerf_mm=3)
    assert plans.sheets[0].placements[0].length_mm == 2995
    assert faults_of_sheets(plans, [short], only, 3) == []
    with pytest.raises(NoSolution, match=r"no cut leaves less than 5 mm\. Another bay width"):
        cut_sheets([replace(short, least_length_mm=2998, most_length_mm=2998)], only, kerf_mm=3)


def test_ribs_that_hold_nowhere_are_refused_with_the_reason() -> None:
    """921 on ribs every 20: the two distances never both come within 10."""
    with pytest.raises(NoSolution, match=r"S1, 921 by 2880 mm, .* within 10 and 10 mm of its edges"):
        cut_sheets(
            [replace(piece("S1", 921, 2880, ribs=10.0), least_width_mm=921)],
            [stock(1050, 3000, 1)],
            kerf_mm=3,
        )


def test_trimmed_stock_is_cut_in_an_order_that_can_be_followed() -> None:
    """The kerf of a trim lies inside the trim, and rips come after the ends are off."""
    only = [replace(stock(1050, 3000, 100), trim_mm=5)]
    pieces = [piece("S1", 943, 2880)]
    plans = cut_sheets(pieces, only, kerf_mm=3)
    assert [(c.kind, c.at_mm) for c in plans.sheets[0].cuts[:4]] == [
        ("crosscut", 2),
        ("crosscut", 2995),
        ("rip", 2),
        ("rip", 1045),
    ]
    assert faults_of_sheets(plans, pieces, only, 3) == []


def test_the_checker_follows_the_cuts() -> None:
    """A cut left out, moved, or across two parts is told."""
    pieces, only = [piece("S0", 943, 2880), piece("S1", 943, 2880)], [stock(2100, 3000, 100)]
    good = cut_sheets(pieces, only, kerf_mm=3)
    sheet = good.sheets[0]

    def told(cuts: tuple[Cut, ...]) -> str:
        broken = replace(good, sheets=(replace(sheet, cuts=cuts),))
        return " ".join(faults_of_sheets(broken, pieces, only, 3))

    assert "once it is cut" in told(sheet.cuts[:-1])
    assert "once it is cut" in told((*sheet.cuts[:-1], replace(sheet.cuts[-1], at_mm=1890)))
    assert "does not go through one part" in told(
        (sheet.cuts[0], replace(sheet.cuts[1], to_mm=100), *sheet.cuts[2:])
    )


def test_more_different_lengths_than_patterns_can_be_listed_for() -> None:
    """1010 lengths, all different; the shortest and the longest fill a bar, the next two another: 505 bars, proven."""
    pieces = [LengthPiece(id=f"P{n}", item="bar", length_mm=400 + n) for n in range(1010)]
    stock = LengthStock(id="bar", item="bar", length_mm=1809, price=4000, count=None, offcut=False)
    plans = cut_lengths(pieces, [stock], kerf_mm=0)
    assert faults_of_lengths(plans, pieces, [stock], 0) == []
    assert (plans.cost, plans.proven) == (4000 * 505, True)


def test_a_dozen_bays_no_two_alike_are_proven() -> None:
    """Noggins of twelve bays from fifteen lengths of timber: two lengths, proven, never left to a limit in seconds.

    By hand: 7189 of pieces and at least ten cuts of 4 are more than 7200, and every stock is a multiple of 300, so 7500
    are bought at least; a mm costs 349 / 1800 at least, so that is 1454.2, and prices are whole: 1455. One length does
    not give 7189. Tolerance: exact.
    """
    noggins = (304, 349, 369, 370, 427, 461, 553, 619, 852, 910, 950, 1025)
    prices = (349, 408, 466, 524, 582, 641, 699, 757, 815, 873, 932, 990, 1048, 1106, 1165)
    stocks = [
        LengthStock(id=f"{n}", item="timber", length_mm=n, price=price, count=None, offcut=False)
        for n, price in zip(range(1800, 6001, 300), prices, strict=True)
    ]
    pieces = [LengthPiece(id=f"NG{n}", item="timber", length_mm=n) for n in noggins]
    plans = cut_lengths(pieces, stocks, kerf_mm=4)
    assert faults_of_lengths(plans, pieces, stocks, 4) == []
    assert (plans.cost, plans.proven, len(plans.lengths)) == (1455, True, 2)
