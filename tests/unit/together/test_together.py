"""Several jobs: what they must agree on, what is cut apart, and one order with each line's reason."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from functools import cache
from typing import Any

import pytest

from pentice.catalogue.model import Catalogue
from pentice.design import Design
from pentice.errors import InputError
from pentice.pieces.names import job_of, own_name
from pentice.together import Shared, plan_together
from pentice.together.agree import require_references
from pentice.together.offcuts import rack_of
from tests.designs import design_of
from tests.jobs import faults_of_shared, solved_job


@cache
def two() -> Shared:
    """The potting bay and the cycle shelter."""
    return plan_together((design_of("potting-bay"), design_of("cycle-shelter")))


def potting(reference: str, **changes: Any) -> Design:
    """The potting bay once more, under another reference."""
    return solved_job("potting-bay", reference, **changes)


def test_two_jobs_cost_less_together_and_the_checker_finds_no_fault() -> None:
    """Cost is the sum of the lots, below each alone; each piece of each job stands once, with its reference."""
    shared = two()
    assert shared.saves == shared.alone - shared.cutting.cost > 0
    assert shared.alone == sum(design.cutting.cost for design in shared.designs)
    assert shared.cutting.proven == (shared.cutting.cost == shared.cutting.bound)
    assert faults_of_shared(shared) == []
    assert any(len({job_of(p.piece) for p in plan.pieces}) == 2 for plan in shared.cutting.lengths)


def test_a_view_holds_the_shared_plan_under_the_job_s_own_names() -> None:
    """Stock sheets keep their numbers; the job's own pieces are found by their own names."""
    shared = two()
    for design, view in zip(shared.designs, shared.views, strict=True):
        placed = Counter(
            p.piece for plan in view.cutting.sheets for p in plan.placements if not job_of(p.piece)
        )
        assert placed == Counter(piece.id for piece in design.pieces if piece.kind == "sheet")
        assert len(view.cutting.sheets) == len(shared.cutting.sheets)


def test_every_line_says_for_whom_and_packs_are_shared() -> None:
    """Cap stops: 6 and 10, one more for the order, packs of ten: two. Exact: counts."""
    lines = {line.part: line for line in two().order}
    stop = lines["cap stops"]
    assert (stop.quantity, stop.spare, stop.packs) == (Decimal(16), Decimal(1), 2)
    assert stop.why.startswith("PB-0311 6, CS-0427 10: One for each cap")
    assert all("PB-0311" in line.why or "CS-0427" in line.why for line in two().order)


def test_spare_is_once_for_the_order_or_once_for_each_job_as_its_rule_says() -> None:
    """End caps: one pair more in the order. Sealant: an opened tube sets, one more for each job. A tenth of all screws,
    rounded up once. Exact: counts."""
    lines = {line.part: line for line in two().order}
    assert lines["foot end caps"].spare == 1
    assert lines["sealant at screws"].spare == 2
    screws = lines["screws"]
    assert screws.spare == math.ceil(screws.quantity / 10)
    assert lines["not-a-walkway sign"].quantity == 2


def test_a_shared_length_is_bought_once() -> None:
    """Stock lines count what the plan holds, and their money is the plan's. Exact."""
    shared = two()
    cut = [line for line in shared.order if line.item.partition(".")[0] in _CUT]
    bought = [line for line in cut if line.part != "spare lengths"]
    assert sum(line.price for line in bought) * 100 == shared.cutting.cost
    assert sum(line.quantity for line in bought) == len(shared.cutting.sheets) + len(shared.cutting.lengths)


@pytest.mark.parametrize("jobs", [two, lambda: plan_together((potting("A"), potting("B"), potting("C")))])
def test_spare_lengths_are_a_share_of_what_all_jobs_cut(jobs: Callable[[], Shared]) -> None:
    """Of timber 5 % and of foot profiles 3 % are over in the whole order, and a line is there only where it must be.

    Worked: the pieces' lengths and the lines of the order, added up here. Offcuts in hand: none.
    """
    shared = jobs()
    feet = {f"profiles.{design.parts.foot_profile.id}" for design in shared.designs}
    spare = {line.item: line for line in shared.order if line.part == "spare lengths"}
    assert len(spare) == sum(line.part == "spare lengths" for line in shared.order)
    for item in {plan.item for plan in shared.cutting.lengths}:
        plans = [plan for plan in shared.cutting.lengths if plan.item == item]
        net = sum(p.length_mm for plan in plans for p in plan.pieces)
        over = sum(plan.length_mm for plan in plans) - net
        asked = (0.03 if item in feet else 0.05 if item.startswith("timbers.") else 0.0) * net
        assert (item in spare) == (over < asked), item
        if item in spare:
            line = spare[item]
            each = int(re.search(r"(\d+) mm$", line.description)[1])  # type: ignore[index]
            assert over + each * line.packs >= asked
            assert line.price == line.unit_price * line.packs > 0
            users = [
                d.job.reference for d in shared.designs if any(p.item == item for p in d.cutting.lengths)
            ]
            assert line.why.startswith(f"{', '.join(users)}: Spare: the plan leaves")
    assert spare


_CUT = ("sheets", "bars", "profiles", "timbers", "gutters")


def test_a_part_that_one_job_lacks_is_ordered_for_the_other() -> None:
    """What neither has is one line of quantity 0 that names both."""
    absent = [line for line in two().order if not line.quantity]
    assert absent
    assert all(re.match(r"not in this roof: PB-0311", line.why) for line in absent)
    assert not {line.part for line in absent} & {line.part for line in two().order if line.quantity}


def test_other_tints_and_other_kerfs_are_cut_apart() -> None:
    """Opal never comes out of clear; a saw of 4 mm never cuts with one of 3."""
    shared = plan_together(
        (potting("A"), potting("B", glazing__tint="clear"), potting("C", stock__sheet_kerf_mm=4))
    )
    lots = {(lot.item.rpartition(" ")[2], lot.kerf_mm): lot for lot in shared.lots if "sheets." in lot.item}
    assert {key: lot.jobs for key, lot in lots.items()} == {
        ("opal", 3): ("A",),
        ("clear", 3): ("B",),
        ("opal", 4): ("C",),
    }
    assert lots["opal", 3].why == lots["opal", 4].why == "Kerfs differ: cut apart from jobs with another one."
    assert lots["clear", 3].why == ""
    assert faults_of_shared(shared) == []
    sheets = [line.description for line in shared.order if line.group == "Sheets" and line.quantity]
    assert any(", opal, " in said for said in sheets)
    assert any(", clear, " in said for said in sheets)


def _offcut(design: Design, **keys: Any) -> dict[str, Any]:
    sheet = design.parts.sheet
    return {"item": sheet.id, "width_mm": 980, "length_mm": 6000, "first_rib_mm": sheet.first_rib_mm, **keys}


def test_an_offcut_with_a_mark_is_one_offcut_whoever_names_it() -> None:
    """Both jobs name R-12; the plan uses it once, and so does the sum of each alone."""
    mine = _offcut(design_of("potting-bay"), mark="R-12")
    designs = (potting("A", stock__offcuts=[mine]), potting("B", stock__offcuts=[mine]))
    assert len(rack_of(designs).offcuts) == 1
    shared = plan_together(designs)
    assert [plan.stock for plan in shared.cutting.sheets].count("R-12") == 1
    assert shared.alone > sum(design.cutting.cost for design in designs)
    assert shared.saves >= 0
    line = next(line for line in shared.order if "R-12" in line.description)
    assert (str(line.quantity), line.packs, str(line.price)) == ("1", 0, "0.00")
    assert faults_of_shared(shared) == []


def test_offcuts_without_a_mark_are_told_apart_within_one_job_only() -> None:
    """A has two alike, B one: two are in hand. One of another size is its own."""
    alike, other = _offcut(design_of("potting-bay")), _offcut(design_of("potting-bay"), length_mm=3000)
    rack = rack_of((potting("A", stock__offcuts=[alike, alike]), potting("B", stock__offcuts=[alike, other])))
    assert [o.length_mm for o in rack.offcuts] == [6000, 6000, 3000]
    assert rack.names("B") == {(alike["item"], "offcut 1"), (alike["item"], "offcut 3")}


def test_one_mark_on_two_sizes_is_refused() -> None:
    """A sentence with both sizes."""
    one = _offcut(design_of("potting-bay"), mark="R-12")
    other = _offcut(design_of("potting-bay"), mark="R-12", length_mm=3000)
    with pytest.raises(InputError, match=r'A and B both name the offcut "R-12".*980 x 6000.*980 x 3000'):
        plan_together((potting("A", stock__offcuts=[one]), potting("B", stock__offcuts=[other])))


def test_the_gate_of_one_job_counts_for_its_pieces() -> None:
    """B takes nothing longer than 3000; none of its pieces comes from longer stock."""
    shared = plan_together((potting("A"), potting("B", stock__longest_mm=3000)))
    plans = [(plan.length_mm, [p.piece for p in plan.pieces]) for plan in shared.cutting.lengths]
    plans += [(plan.length_mm, [p.piece for p in plan.placements]) for plan in shared.cutting.sheets]
    assert max(n for n, ids in plans if any(job_of(id) == "B" for id in ids)) <= 3000
    assert max(n for n, _ in plans) > 3000
    assert faults_of_shared(shared) == []


@pytest.mark.parametrize(
    ("named", "says"),
    [
        ([("a.toml", ""), ("b.toml", "B")], "a.toml has no reference; jobs packed together need one each"),
        (
            [("a.toml", "A"), ("b.toml", "a")],
            'a.toml and b.toml have one reference, "A"; each job needs its own.',
        ),
        ([("a.toml", "A"), ("a.toml", "A")], 'a.toml is given twice, "A"; each job needs its own.'),
        ([("a.toml", "A/B"), ("b.toml", "B")], 'a.toml: reference is "A/B"; it names the job\'s folder'),
        ([("a.toml", ".."), ("b.toml", "B")], 'a.toml: reference is ".."; it names the job\'s folder'),
        ([("a.toml", "Drawings"), ("b.toml", "B")], 'reference is "Drawings"; it names the job\'s folder'),
    ],
)
def test_references_must_be_there_apart_and_fit_for_a_folder(named: list[tuple[str, str]], says: str) -> None:
    """One sentence for each fault."""
    with pytest.raises(InputError, match=re.escape(says)) as refused:
        require_references(named)
    assert len(refused.value.problems) == 1


def test_all_faults_of_references_are_told_at_once() -> None:
    """No reference, and two alike: two sentences."""
    with pytest.raises(InputError, match="no reference") as refused:
        require_references([("a.toml", ""), ("b.toml", "B"), ("c.toml", "B")])
    assert len(refused.value.problems) == 2


def test_one_product_with_two_prices_is_refused() -> None:
    """The sentence names product, key and both jobs."""
    first, other = design_of("potting-bay"), design_of("cycle-shelter")
    sheet = first.parts.sheet
    dearer = sheet.model_copy(update={"mass_kg_m2": sheet.mass_kg_m2 + 1.0})
    changed: Catalogue = other.catalogue.model_copy(
        update={"sheets": {**other.catalogue.sheets, sheet.id: dearer}}
    )
    with pytest.raises(
        InputError, match=rf"sheets.{sheet.id} is not the same in PB-0311 and CS-0427: mass_kg_m2"
    ):
        plan_together((first, replace(other, catalogue=changed)))


def test_a_product_that_only_one_job_uses_may_differ() -> None:
    """Nobody buys the other one."""
    first, other = design_of("potting-bay"), design_of("uneven-veranda")
    head = other.parts.head_profile
    assert head.id != first.parts.head_profile.id
    renamed = head.model_copy(update={"name": "Another head"})
    changed = first.catalogue.model_copy(update={"profiles": {**first.catalogue.profiles, head.id: renamed}})
    assert plan_together((replace(first, catalogue=changed), other)).cutting.lengths


def test_two_firms_or_two_currencies_are_refused() -> None:
    """One order has one buyer and one currency: a sentence for each."""
    first, other = design_of("potting-bay"), design_of("cycle-shelter")
    firm = other.firm.model_copy(update={"delivery": Decimal(99)})
    price = replace(other.price, currency="EUR")
    with pytest.raises(InputError, match=r"two firms: delivery is 45\.00 and 99") as refused:
        plan_together((first, replace(other, firm=firm, price=price)))
    assert "priced in GBP and EUR" in str(refused.value)


def test_the_head_names_the_jobs() -> None:
    """As many references as there is room for, the rest counted; each revision once."""
    shared = two()
    assert (shared.job.name, shared.job.reference, shared.job.revision) == (
        "2 jobs together",
        "PB-0311 + CS-0427",
        "A",
    )
    four = plan_together(tuple(potting(f"ROOF-{name}-77") for name in "ABCD"))
    assert four.job.reference == "ROOF-A-77 + ROOF-B-77 + 2 more"
    assert own_name(four.pieces[0].id) in {piece.id for piece in four.designs[0].pieces}


def test_jobs_cut_by_two_rules_are_refused() -> None:
    """What one shop aims at and keeps is one rule: a sentence for each key that differs."""
    first, other = potting("A", stock__aim="fewest sheets"), potting("B", stock__keep_share=0.5)
    with pytest.raises(
        InputError, match=r'A and B are cut by two rules: stock\.aim is "fewest sheets"'
    ) as refused:
        plan_together((first, other))
    assert "stock.keep_share is 0.0 and 0.5" in str(refused.value)


def test_rests_count_in_what_is_saved_together() -> None:
    """Cost less credit is below that of the jobs alone; lots add up to it, and their bounds to the plan's."""
    jobs = tuple(solved_job(name, name, stock__keep_share=0.5) for name in ("potting-bay", "cycle-shelter"))
    shared = plan_together(jobs)
    plan = shared.cutting
    assert plan.credit > 0
    assert sum(lot.cost for lot in shared.lots) == plan.cost - plan.credit
    assert shared.alone == sum(design.cutting.net for design in jobs)
    assert shared.saves == shared.alone - plan.net > 0
    assert plan.bound <= plan.net
    assert plan.proven == (plan.bound == plan.net)


def test_fewest_sheets_together_are_no_more_than_job_by_job() -> None:
    """What is bought for both is counted: never more pieces of stock than for each alone, whatever the cost."""
    jobs = tuple(
        solved_job(name, name, stock__aim="fewest sheets") for name in ("potting-bay", "cycle-shelter")
    )
    shared = plan_together(jobs)
    counts = [
        sum(p.price > 0 for p in cutting.sheets) + sum(p.price > 0 for p in cutting.lengths)
        for cutting in (shared.cutting, *(job.cutting for job in jobs))
    ]
    assert counts[0] <= counts[1] + counts[2]
    assert shared.cutting.aim == "fewest sheets"
