"""Side sheets on paper: one ticket for each blank, marks from the foot, labels, drawings, order, quote, handover."""

from __future__ import annotations

from functools import cache

import pytest

from pentice.advice.complete import complete
from pentice.advice.recut import recut
from pentice.design import Design
from pentice.errors import InputError, NoSolution
from pentice.job.model import Job
from pentice.job.reading import job_from_text
from pentice.pack.cutting import cutting_pdf, side_acts
from pentice.pack.drawings import drawings
from pentice.pack.drawings.cut_rows import alike_sheets
from pentice.pack.drawings.side_tickets import blanks_of, slope_marks
from pentice.pack.handover import handover_pdf
from pentice.pack.quote import quote_pdf
from pentice.pipeline import solve
from tests.designs import catalogue, changed, design_of
from tests.unit.pack.test_cutting import pages

STEEP = [
    {"side": "left", "width_mm": 740, "left_mm": 1700, "right_mm": 1200},
    {"side": "left", "width_mm": 740, "left_mm": 1700, "right_mm": 1200},
    {"side": "right", "width_mm": 740, "left_mm": 1200, "right_mm": 1700},
]


@cache
def paired() -> Design:
    """The potting bay from sheets of 3000 only, with two steep side sheets of one hand and one of the other."""
    only = [{"item": "sheet-35-multi", "length_mm": 3000}]
    return solve(changed("potting-bay", side_sheets=STEEP, stock__only=only), catalogue())


def test_two_of_one_hand_share_a_blank_where_that_buys_fewer_sheets() -> None:
    """By hand: 730 wide, 1682 and 1182 long; 1182 + 1682 + 3 x hypot(1, 500/730) = 2867.6, so one sheet of 3000."""
    blanks = {p.id: (p.width_mm, p.length_mm, len(p.side_parts)) for p in blanks_of(paired())}
    assert blanks == {"SS1-2": (730.0, 2868.0, 2), "SS3": (730.0, 1682.0, 1)}


def test_where_the_supplier_says_no_nothing_is_turned() -> None:
    """The same job from a sheet that may not be turned: three blanks, and it costs more."""
    sheets = catalogue().sheets
    fixed = sheets["sheet-35-multi"].model_copy(update={"may_turn": False})
    other = catalogue().model_copy(update={"sheets": {**sheets, "sheet-35-multi": fixed}})
    design = solve(paired().job, other)
    assert [len(p.side_parts) for p in blanks_of(design)] == [1, 1, 1]
    assert design.cutting.cost > paired().cutting.cost
    assert paired().cutting.bound <= paired().cutting.cost


def test_each_blank_has_a_ticket_with_its_marks_and_a_label_for_each_sheet() -> None:
    """The turned one is marked from its own foot, at the blank's head: what lies left there is its right side."""
    design = paired()
    pair = blanks_of(design)[0]
    assert slope_marks(pair) == (("Side sheet 1", 1682, 1182), ("Side sheet 2", 1182, 1682))
    assert ("Mark", "2 from foot 1182 left, 1682 right") in side_acts(design, pair)
    assert side_acts(design, pair)[1] == ("Lay", "weather face UP, as drawn")
    read = pages(cutting_pdf(design))
    (ticket,) = [text for text in read if "Side sheets 1 and 2" in text and "Vacuum" in text]
    assert ticket.count("SIDE SHEET") == 2
    for word in ("730", "2868", "1682", "1182", "FOOT", "HEAD", "this face out"):
        assert word in ticket
    assert sum("SIDE SHEET" in text for text in read) == len(blanks_of(design))


def test_blanks_of_other_slopes_are_not_drawn_as_alike() -> None:
    """Two stock sheets with one blank each of the same size are alike only where their slopes are."""
    design = design_of("plant-lobby")
    for group in alike_sheets(design):
        shapes = set()
        for plan in group.plans:
            held = [p for p in blanks_of(design) if p.id in {q.piece for q in plan.placements}]
            shapes.add(tuple(part.outline_mm for p in held for part in p.side_parts))
        assert len(shapes) == 1


def test_every_paper_knows_of_them() -> None:
    """Four in the plant lobby: quote, handover, order, drawings."""
    design = design_of("plant-lobby")
    assert "4 side sheets of the same" in " ".join(pages(quote_pdf(design)))
    assert "sides, 4" in pages(handover_pdf(design))[0]
    assert any("profiles of side sheets" in line.part for line in design.order)
    names = [drawing.name for drawing in drawings(design)]
    assert [name for name in names if name.startswith("side-")] == ["side-1-2", "side-3-4"]


def test_a_side_that_is_not_closed_has_none() -> None:
    """One sentence with the key and the way out."""
    text = '[roof]\nleft = "open"\n[[side_sheets]]\nside = "left"\nwidth_mm = 700\nleft_mm = 2000\nright_mm = 2100'
    with pytest.raises(InputError, match=r'side_sheets\[0\]\.side is "left" but roof\.left is "open"; set'):
        job_from_text(text)


def test_an_opening_that_no_sheet_closes_is_refused() -> None:
    """A pointed one: its short side is named."""
    text = '[roof]\nleft = "closed"\n[[side_sheets]]\nside = "left"\nwidth_mm = 700\nleft_mm = 10\nright_mm = 500'
    with pytest.raises(InputError, match=r"side_sheets\[0\]\.left_mm is 10 mm; expected 100 or more"):
        job_from_text(text)


def test_a_side_sheet_that_fits_no_stock_is_named() -> None:
    """A blank wider than any sheet: which, how large, what there is."""
    wide: Job = changed(
        "potting-bay", side_sheets=[{"side": "front", "width_mm": 3000, "left_mm": 1000, "right_mm": 1000}]
    )
    with pytest.raises(NoSolution, match="SS1"):
        solve(complete(wide, catalogue()), catalogue())


def test_one_of_a_pair_that_is_spoiled_is_made_again_alone() -> None:
    """Side sheet 2 by name: a blank of 1682 in place of 2868, out of what a sheet of 3000 gives; the pair by its id."""
    design = paired()
    alone = recut(design, ["side sheet 2"])
    assert [p.length_mm for s in alone.plan.sheets for p in s.placements if p.piece == "SS1-2"] == [1682]
    whole = recut(design, ["SS1-2"])
    assert [p.length_mm for s in whole.plan.sheets for p in s.placements if p.piece == "SS1-2"] == [2868]
    both = recut(design, ["SS1", "SS2"])
    assert both.plan.cost == whole.plan.cost
