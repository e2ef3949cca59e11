"""Whoever follows the printed cuts, number by number, has exactly the pieces in hand: for random sheets and lengths.

The simulator knows the size of the stock, the kerf and what stands in cuts.csv, and nothing of how the plan was made.
"""

from __future__ import annotations

import csv
import io
import math
from dataclasses import replace
from itertools import pairwise, permutations

from hypothesis import given
from hypothesis import strategies as st

from pentice.cutting import cut_lengths, cut_sheets
from pentice.cutting.values import (
    Cut,
    LengthPiece,
    LengthPlans,
    LengthStock,
    SheetPiece,
    SheetPlan,
    SheetPlans,
    SheetStock,
    Slant,
)
from pentice.errors import NoSolution
from pentice.pack.drawings.cuts_csv import cuts_csv
from tests.designs import design_of
from tests.tries import tries

Size = tuple[int, int]


def _stock(width: int, length: int, trim: int) -> SheetStock:
    return SheetStock(
        id=f"{width}x{length}",
        item="sheets.s",
        width_mm=width,
        length_mm=length,
        price=width * length // 1000,
        count=None,
        offcut=False,
        rib_pitch_mm=16.0,
        first_rib_mm=8.0,
        trim_mm=trim,
    )


def _piece(id: str, width: int, length: int, rib: float) -> SheetPiece:
    return SheetPiece(
        id=id,
        item="sheets.s",
        width_mm=width,
        length_mm=length,
        least_width_mm=width,
        most_width_mm=width,
        least_length_mm=length,
        most_length_mm=length,
        rib_at_most_mm=(rib, rib),
    )


def _plans(sizes: list[tuple[int, int, float]], kerf: int, trim: int) -> SheetPlans | None:
    """Plans of pieces X0, X1 and so on; None where a piece cannot be cut."""
    pieces = [_piece(f"X{i}", w, n, rib) for i, (w, n, rib) in enumerate(sizes)]
    stocks = [_stock(w, n, trim) for w, n in ((1050, 3000), (2100, 3500))]
    try:
        return cut_sheets(pieces, stocks, kerf_mm=kerf, any_cuts=True)
    except NoSolution:
        return None


def _printed(plans: SheetPlans | LengthPlans) -> list[dict[str, str]]:
    """The rows of cuts.csv."""
    design = design_of("potting-bay")
    sheets, lengths = (plans.sheets, ()) if isinstance(plans, SheetPlans) else ((), plans.lengths)
    cutting = replace(design.cutting, sheets=sheets, lengths=lengths, offcuts=plans.offcuts)
    text = cuts_csv(replace(design, cutting=cutting))
    lines = text.splitlines()
    return list(csv.DictReader(io.StringIO("\n".join(lines[0 if lines[0].startswith("stock,") else 1 :]))))


def _size(text: str) -> Size:
    wide, _, long = text.rpartition(", ")[2].removesuffix(" keep").removesuffix(" scrap").partition(" × ")
    return int(wide), int(long)


def _follow(rows: list[dict[str, str]], stock: Size, kerf: int) -> dict[str, Size]:
    """The pieces in hand once every printed cut of one stock sheet is made, by name."""
    hand: dict[str, Size] = {"sheet": stock}
    got: dict[str, Size] = {}
    for number, row in enumerate(rows, 1):
        assert int(row["cut"]) == number
        wide, long = hand.pop(row["cut_from"])
        assert (wide, long) == (int(row["width_mm"]), int(row["length_mm"])), "the size in hand is printed"
        stop = int(row["stop_mm"])
        if row["tool"] == "saw across":
            assert 0 < stop < long
            both = ((wide, stop), (wide, long - stop - kerf))
        else:
            assert 0 < stop < wide
            both = ((stop, long), (wide - stop - kerf, long))
        for size, said in zip(both, (row["you_get"], row["what_remains"]), strict=True):
            if not said:
                assert min(size) <= 0
            elif said.endswith((" scrap", " keep")):
                assert _size(said) == size
            elif " × " in said:
                assert _size(said) == size
                name = said.partition(",")[0]
                assert name not in hand, "two parts have one letter"
                hand[name] = size
            else:
                got |= {name: size for name in said.split(", ")}
    assert not hand, "a part is left that is neither a piece nor a rest"
    return got


@tries(25)
@given(
    st.lists(
        st.tuples(st.integers(150, 1100), st.integers(300, 2900), st.sampled_from([14.0, float("inf")])),
        min_size=1,
        max_size=9,
    ),
    st.integers(0, 5),
    st.sampled_from([0, 10]),
)
def test_following_the_printed_cuts_gives_exactly_the_pieces(
    sizes: list[tuple[int, int, float]], kerf: int, trim: int
) -> None:
    """Every piece once, at its size, from the numbers on the ticket alone."""
    plans = _plans(sizes, kerf, trim)
    if plans is None:
        return
    rows = _printed(plans)
    got: dict[str, Size] = {}
    for stock in dict.fromkeys(row["stock"] for row in rows):
        first = plans.sheets[int(stock.replace("-", ",").replace(" to ", ",").split(",")[0]) - 1]
        mine = [row for row in rows if row["stock"] == stock]
        got |= _follow(mine, (first.width_mm, first.length_mm), kerf)
    whole = {
        p.piece.lower(): (s.width_mm, s.length_mm) for s in plans.sheets if not s.cuts for p in s.placements
    }
    assert got | whole == {f"x{i}": (w, n) for i, (w, n, _) in enumerate(sizes)}


Length = tuple[int, float]
"""Of a piece, and how far both its ends lean from square [mm, deg]."""


def _follow_length(rows: list[dict[str, str]], stock: int, kerf: int) -> dict[str, Length]:
    """The pieces in hand once every printed cut of one stock length is made, by name."""
    hand, leans = stock, 0.0
    got: dict[str, Length] = {}
    said = ""
    for number, row in enumerate(rows, 1):
        assert (int(row["cut"]), row["cut_from"], row["width_mm"]) == (number, "length", "")
        assert int(row["length_mm"]) == hand, "the size in hand is printed"
        stop, angle = int(row["stop_mm"]), float(row["angle_deg"] or 0.0)
        if row["tool"] == "saw left of stop":
            assert row["you_get"] == "scrap"
            assert 0 <= stop < hand
            hand, leans = hand - stop, angle
        else:
            assert row["tool"] == "saw right of stop"
            assert 0 < stop < hand
            assert angle == leans, "both ends of a piece lean alike"
            got |= dict.fromkeys(row["you_get"].split(", "), (stop, angle))
            hand = max(0, hand - stop - math.ceil(kerf / math.cos(math.radians(angle)) - 1e-9))
        said = row["what_remains"]
        if number < len(rows):
            assert said == f"length, {hand}"
    rest = said.removesuffix(" keep").removesuffix(" scrap")
    if (
        rest.isdigit()
    ):  # with a square end: less than what is left along the upper edge where the last cut leans
        assert int(rest) <= hand if leans else int(rest) == hand
    elif said in ("", "scrap"):
        assert hand == 0 or leans
    else:
        assert not leans
        got |= dict.fromkeys(said.split(", "), (hand, 0.0))
    return got


@tries(60)
@given(
    st.lists(
        st.tuples(st.integers(200, 2900), st.sampled_from([0.0, 0.0, 12.0, 30.5])), min_size=1, max_size=12
    ),
    st.integers(0, 5),
    st.sampled_from([0, 15]),
)
def test_following_the_printed_cuts_of_lengths_gives_exactly_the_pieces(
    sizes: list[Length], kerf: int, trim: int
) -> None:
    """Every piece once, at its length and with its ends, from the numbers in cuts.csv alone."""
    stocks = [
        LengthStock(
            id=f"b {n}",
            item="timbers.timber-c24 45x145",
            length_mm=n,
            price=n,
            count=None,
            offcut=False,
            end_trim_mm=trim,
        )
        for n in (3300, 4800)
    ]
    pieces = [
        LengthPiece(
            id=f"X{k}",
            item="timbers.timber-c24 45x145",
            length_mm=n,
            slant=Slant(deg=deg, depth_mm=145) if deg else None,
        )
        for k, (n, deg) in enumerate(sizes)
    ]
    plans = cut_lengths(pieces, stocks, kerf_mm=kerf)
    rows = _printed(plans)
    got: dict[str, Length] = {}
    for stock in dict.fromkeys(row["stock"] for row in rows):
        first = plans.lengths[int(stock.replace(",", " ").split()[0].removeprefix("L")) - 1]
        mine = [row for row in rows if row["stock"] == stock]
        assert {row["product"] for row in mine} == {"Treated softwood C24, 45 × 145"}
        got |= _follow_length(mine, first.length_mm, kerf)
    assert got == {f"x{k}": size for k, size in enumerate(sizes)}


def test_a_length_that_is_used_as_it_comes_has_no_cut_and_a_trimmed_one_a_first_end() -> None:
    """By hand: 3300 from 3300 needs no cut; trimmed by 15 at either end it gives 3270, its left end cut left of 15, its
    right end at 3270 of the 3285 in hand, and with a kerf of 4 the last 11 are scrap."""
    stock = LengthStock(id="b", item="bars.b", length_mm=3300, price=1, count=None, offcut=False)
    whole = [LengthPiece(id="X0", item="bars.b", length_mm=3300)]
    assert _printed(cut_lengths(whole, [stock], kerf_mm=4)) == []
    short = [LengthPiece(id="X0", item="bars.b", length_mm=3270)]
    rows = _printed(cut_lengths(short, [replace(stock, end_trim_mm=15)], kerf_mm=4))
    assert [(r["stock"], r["tool"], r["length_mm"], r["stop_mm"]) for r in rows] == [
        ("L1", "saw left of stop", "3300", "15"),
        ("L1", "saw right of stop", "3285", "3270"),
    ]
    assert [(r["you_get"], r["what_remains"]) for r in rows] == [
        ("scrap", "length, 3285"),
        ("x0", "11 scrap"),
    ]


def _settings_of(plan: SheetPlan, order: tuple[Cut, ...]) -> list[tuple[str, int]] | None:
    """Kind and stop of each cut in an order; None where one does not go from edge to edge of a part in hand."""
    hand, found = [(0, 0, plan.width_mm, plan.length_mm)], []
    for cut in order:
        axis = 0 if cut.kind == "rip" else 1
        through = [
            p
            for p in hand
            if p[axis] <= cut.at_mm < p[axis + 2] and (cut.from_mm, cut.to_mm) == (p[1 - axis], p[3 - axis])
        ]
        if not through:
            return None
        part = through[0]
        hand.remove(part)
        near, far = list(part), list(part)
        near[axis + 2], far[axis] = cut.at_mm, cut.at_mm + plan.kerf_mm
        hand += [(p[0], p[1], p[2], p[3]) for p in (near, far)]
        found.append((cut.kind, cut.at_mm - part[axis]))
    return found


def _changes(settings: list[tuple[str, int]]) -> int:
    return sum(a != b for a, b in pairwise(settings))


@tries(30)
@given(
    st.lists(
        st.tuples(st.sampled_from([300, 420, 610]), st.sampled_from([700, 950, 1400])), min_size=2, max_size=5
    )
)
def test_no_order_with_the_same_stops_changes_them_less_often(sizes: list[tuple[int, int]]) -> None:
    """Tried: every order of the cuts of small sheets in which each stop is the size of what comes off."""
    plans = _plans([(w, n, float("inf")) for w, n in sizes], 3, 0)
    assert plans is not None
    for plan in plans.sheets:
        ours = _settings_of(plan, plan.cuts)
        assert ours is not None
        if len(plan.cuts) > 7:
            continue
        stops = dict(zip(plan.cuts, ours, strict=True))
        tried = (
            found
            for order in permutations(plan.cuts)
            if (found := _settings_of(plan, order)) is not None and found == [stops[cut] for cut in order]
        )
        assert _changes(ours) == min(_changes(found) for found in tried)
