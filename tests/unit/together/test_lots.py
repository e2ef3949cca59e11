"""One lot of two or three jobs: together where it costs less, by stock that each job allows; counted by hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from pentice.cutting import cut_lengths
from pentice.cutting.values import LengthPiece, LengthStock
from pentice.pieces.names import labelled
from pentice.together.cutting import cut_family
from pentice.together.lots import Ask, Done, Wanted, best_choice, each_alone, groups_of, pieces_on

LONG = LengthStock(id="bar 6000", item="bars.b", length_mm=6000, price=1000, count=None, offcut=False)
SHORT = LengthStock(id="bar 3000", item="bars.b", length_mm=3000, price=700, count=None, offcut=False)
RACK = LengthStock(id="R-1", item="bars.b", length_mm=3000, price=0, count=1, offcut=True)


def _cut(pieces: Sequence[LengthPiece], stocks: Sequence[LengthStock]) -> Done:
    found = cut_lengths(pieces, stocks, kerf_mm=4)
    return Done(plans=found.lengths, cost=found.cost, bound=found.bound, waste_area_m2=0.0, offcuts=())


def _ask(
    reference: str, lengths: Sequence[int], stock: Sequence[LengthStock] = (LONG,), names: Sequence[str] = ()
) -> Ask[LengthPiece, LengthStock]:
    pieces = tuple(
        LengthPiece(id=labelled(reference, f"R{k}-base"), item="bars.b", length_mm=n)
        for k, n in enumerate(lengths, 1)
    )
    return Ask(reference=reference, pieces=pieces, stock=tuple(stock), names=frozenset(names))


def _wanted(
    *asks: Ask[LengthPiece, LengthStock], offcuts: Sequence[LengthStock] = ()
) -> Wanted[LengthPiece, LengthStock]:
    return Wanted(item="bars.b", kerf_mm=4, asks=asks, offcuts=tuple(offcuts), cut=_cut)


def test_two_halves_of_two_jobs_come_out_of_one_length() -> None:
    """2900 for each of two jobs from 6000: one length instead of two, proven. Exact: by hand."""
    wanted = _wanted(_ask("A", [2900]), _ask("B", [2900]))
    found = best_choice(wanted, frozenset())
    assert groups_of(wanted.jobs, found.done.plans) == (("A", "B"),)
    assert (found.done.cost, found.done.bound, len(found.done.plans)) == (1000, 1000, 1)
    assert set(pieces_on(found.done.plans[0])) == {"A R1-base", "B R1-base"}


def test_jobs_that_save_nothing_are_cut_apart_and_say_so() -> None:
    """Two of 2900 each fill a length each: together costs the same, so no job needs the other's. Exact: by hand."""
    wanted = _wanted(_ask("A", [2900, 2900]), _ask("B", [2900, 2900]))
    found = best_choice(wanted, frozenset())
    assert groups_of(wanted.jobs, found.done.plans) == (("A",), ("B",))
    assert (found.done.cost, found.done.bound) == (2000, 2000)
    assert found.why == "Each job by itself: together costs no less."


def test_the_strictest_stock_counts_where_it_is_cheapest() -> None:
    """B may only use 3000 (its gate): with three of 1400, a length of 3000 holds two. Apart 1000 + 700; from 3000 alone
    two lengths, 1400. Exact: by hand."""
    wanted = _wanted(_ask("A", [1400, 1400], (LONG, SHORT)), _ask("B", [1400], (SHORT,)))
    found = best_choice(wanted, frozenset())
    assert found.done.cost == 1400
    assert {plan.stock for plan in found.done.plans} == {"bar 3000"}


def test_a_piece_never_comes_from_stock_that_its_job_does_not_allow() -> None:
    """2900 for both: one length of 6000 would do, but B allows 3000 only, so each has a length. Exact: by hand."""
    wanted = _wanted(_ask("A", [2900], (LONG, SHORT)), _ask("B", [2900], (SHORT,)))
    found = best_choice(wanted, frozenset())
    assert (found.done.cost, found.done.bound) == (1400, 1000)
    assert {plan.stock for plan in found.done.plans} == {"bar 3000"}
    assert "stock.longest_mm differ" in found.why


def test_what_one_job_needs_and_another_does_not_allow_is_cut_apart() -> None:
    """A needs 5900, B allows 3000 only. Exact: by hand."""
    wanted = _wanted(_ask("A", [5900], (LONG, SHORT)), _ask("B", [2900], (SHORT,)))
    found = best_choice(wanted, frozenset())
    assert groups_of(wanted.jobs, found.done.plans) == (("A",), ("B",))
    assert found.done.cost == 1700


def test_of_three_jobs_those_that_allow_the_same_are_cut_together() -> None:
    """A and C share a length of 6000 (1000), B has its 3000 (700). Exact: by hand."""
    wanted = _wanted(_ask("A", [3500], (LONG,)), _ask("B", [2900], (SHORT,)), _ask("C", [2400], (LONG,)))
    found = best_choice(wanted, frozenset())
    assert groups_of(wanted.jobs, found.done.plans) == (("A", "C"), ("B",))
    assert found.done.cost == 1700


def test_an_offcut_that_two_jobs_name_is_used_once() -> None:
    """Each job alone would take it; only the first can. Exact: by hand."""
    wanted = _wanted(_ask("A", [2900], names=["R-1"]), _ask("B", [2900], names=["R-1"]), offcuts=[RACK])
    alone = each_alone(wanted, frozenset())
    assert (alone.done.cost, [plan.stock for plan in alone.done.plans]) == (1000, ["R-1", "bar 6000"])
    assert best_choice(wanted, frozenset()).done.cost == 1000
    assert each_alone(wanted, frozenset({"R-1"})).done.cost == 2000


def test_an_offcut_of_one_job_serves_the_other_where_it_saves() -> None:
    """A names it and cannot use it; B can. Exact: by hand."""
    wanted = _wanted(_ask("A", [5900], names=["R-1"]), _ask("B", [2900]), offcuts=[RACK])
    assert each_alone(wanted, frozenset()).done.cost == 2000
    assert best_choice(wanted, frozenset()).done.cost == 1000


def test_a_lot_of_one_job_is_its_own_plan() -> None:
    """Nothing to share, nothing to say."""
    one = _wanted(_ask("A", [2900]))
    assert best_choice(one, frozenset()) == replace(each_alone(one, frozenset()), why="")


def test_an_offcut_taken_by_one_lot_never_makes_the_whole_dearer() -> None:
    """Kerfs differ, so there are two lots. B could take the offcut that C names and save 700, then C pays 1000:
    each job by itself costs 1000 + 700 + 0. Exact: by hand."""
    first = _wanted(_ask("A", [5900], (LONG, SHORT)), _ask("B", [2900], (LONG, SHORT)), offcuts=[RACK])
    second = replace(_wanted(_ask("C", [2900], (LONG,), ["R-1"]), offcuts=[RACK]), kerf_mm=3)
    cut = cut_family([first, second])
    assert [lot.cost for _, lot in cut] == [lot.alone for _, lot in cut] == [1700, 0]
    assert all("an offcut can be used once only" in lot.why for _, lot in cut)
    assert [lot.bound for _, lot in cut] == [1000, 0]


def test_the_same_cost_from_fewer_lengths_is_taken_and_said() -> None:
    """Two lengths of 3000 at 500 or one of 6000 at 1000: together one length. Exact: by hand."""
    half = replace(SHORT, price=500)
    wanted = _wanted(_ask("A", [2900], (LONG, half)), _ask("B", [2900], (LONG, half)))
    found = best_choice(wanted, frozenset())
    assert (found.done.cost, len(found.done.plans)) == (1000, 1)
    assert found.why == "The same cost from fewer pieces of stock."
