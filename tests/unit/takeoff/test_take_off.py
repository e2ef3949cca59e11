"""Every part of a finished roof has its line or its reason, and each line counts by its rule."""

from __future__ import annotations

import math
from decimal import Decimal
from typing import Any

import pytest

from pentice.catalogue.model import Catalogue
from pentice.errors import NoSolution
from pentice.job.model import Offcut
from pentice.job.writing import with_keys
from pentice.pieces.cut import split_length
from pentice.pipeline import solve
from pentice.takeoff.needs import NO_PRODUCT, NOT_HERE, Need, Spare, line_of
from pentice.takeoff.values import OrderLine
from tests.unit.takeoff.orders import job_with, line_for, order_of, shipped_design

# The parts of a finished roof as the trade lists them: common practice, no source. Copied here on purpose, so that a
# part lost from the engine's own list is missed.
PARTS_OF_A_FINISHED_ROOF = """
wall plate; damp-proof strip or stand-offs; plate fixings; rafters; hangers; beam; posts; bases; straps; bracing;
barge boards; fascia; foot closure between rafters; noggin under each button;
separating or reflecting tape on rafter tops; bar base; cap; seals top; seals bottom; screws; sealant at screws;
foot end caps; head end caps; cap stops; sheets; packing strips; solid head tape; breather foot tape;
button with washer and seal; head profile; foot profile with drain holes; verge trims; screws of profiles;
flashing tape or lead; primer; chase sealant; gutter; brackets; unions; ends; outlet; downpipe; clips; shoe;
leaf guard; snow guard where it slides; not-a-walkway sign; lubricant; blades; bits; cloths
"""
EXAMPLES = ["potting-bay", "snow-carport", "cycle-shelter", "uneven-veranda"]


@pytest.mark.parametrize("example", EXAMPLES)
def test_every_part_of_a_finished_roof_has_a_line_or_a_reason(example: str) -> None:
    """No part is passed over in silence: quantity and reason, or quantity 0 and why not. Exact: a list of names."""
    order = shipped_design(example).order
    told = {part for line in order for part in line.part.split(", ")}
    wanted = {part.strip() for part in PARTS_OF_A_FINISHED_ROOF.replace("\n", " ").split(";")}
    assert wanted <= told
    for line in order:
        assert line.why
        assert (line.quantity == 0) == line.why.startswith(NOT_HERE) == (not line.in_this_roof)


@pytest.mark.parametrize("example", EXAMPLES)
def test_packs_cover_need_and_spare_and_money_adds_up(example: str) -> None:
    """Packs hold quantity and spare, one less would not, and each price is packs times the pack's. Exact: decimals."""
    for line in shipped_design(example).order:
        need = line.quantity + line.spare
        assert line.packs * line.pack >= need
        assert line.packs == 0 or (line.packs - 1) * line.pack < need
        assert line.price == line.packs * line.unit_price


@pytest.mark.parametrize("example", EXAMPLES)
def test_the_shipped_catalogue_has_a_product_and_a_price_for_all_that_an_example_needs(example: str) -> None:
    """No line to buy stands at nothing. Exact: names of the parts without a price."""
    unpriced = [line.part for line in shipped_design(example).order if line.in_this_roof and not line.price]
    assert unpriced == []


def test_every_piece_of_the_roof_is_ordered_once() -> None:
    """Each piece that is cut stands in one stock line, and in no other. Exact: names."""
    design = shipped_design()
    stock = [line for line in design.order if line.group in ("Sheets", "Timber", "Profiles", "Water", "Bars")]
    cut = [id.partition("/")[0] for line in stock if line.price for id in line.pieces if "." in line.item]
    assert sorted(set(cut)) == sorted(piece.id for piece in design.pieces)
    assert len(cut) == len(set(cut)) + 1, "the gutter alone is joined, from two lengths"


def test_numbers_without_a_check_are_marked_typical() -> None:
    """Where nothing is declared bases, straps, plate fixings and their like are marked, and said so. Exact: words."""
    keys = (
        "wall_fixing_spacing_mm",
        "pad_mm",
        "hanger_down_kn",
        "rafter_tie_kn",
        "post_base_kn",
        "post_tie_kn",
    )
    job = with_keys(
        shipped_design().job, {f"frame.{key}": None for key in (*keys, "brace_kn", "mullion_end_kn")}
    )
    order = solve(job, shipped_design().catalogue).order
    for part in ("plate fixings", "hangers", "straps", "bases", "post caps", "bracing", "pad concrete"):
        line = line_for(order, part)
        assert line.mark == "typical"
        assert "A typical number until the calculation asks for another." in line.why
    assert line_for(order, "bolts").mark == "typical"


def test_numbers_that_the_calculations_count_on_are_not_marked() -> None:
    """What the job declares for each stands in a check with one at each place. Exact: words."""
    for part in ("hangers", "straps", "bases", "post caps", "bracing"):
        line = line_for(shipped_design().order, part)
        assert line.mark == ""
        assert "The force on each stands in the calculations." in line.why


def test_fixings_and_pads_of_the_job_are_ordered_as_it_has_them() -> None:
    """4310 - 150 in gaps of 600 at most: 8 fixings. 0.7 x 0.7 x 0.6 at 2400 over 20: 36 bags for each of 3 pads."""
    order = shipped_design().order
    assert (line_for(order, "plate fixings").quantity, line_for(order, "plate fixings").mark) == (
        Decimal(8),
        "",
    )
    assert (line_for(order, "pad concrete").quantity, line_for(order, "pad concrete").mark) == (
        Decimal(108),
        "",
    )


def test_counts_follow_bays_bars_and_posts() -> None:
    """Five bays, six bars, three posts: buttons, end caps and bases by number, one in ten spare. Exact: counts."""
    order = shipped_design().order
    counted = {
        p: line_for(order, p) for p in ("button with washer and seal", "foot end caps", "bases", "hangers")
    }
    assert [line.quantity for line in counted.values()] == [5, 6, 3, 6]
    assert counted["button with washer and seal"].spare == 1
    assert counted["foot end caps"].spare == 1


def test_timber_has_its_spare_and_no_more_than_it_needs() -> None:
    """Worked by hand: the plate of 4310 out of 4500 leaves 190 over, 5 % are 215.5: one short length more. Three
    posts leave enough over: none. Exact: words and counts."""
    spare = [line for line in shipped_design().order if line.part == "spare lengths"]
    plate = next(line for line in spare if line.item == "timbers.timber-c24 47x145")
    assert "leaves 0.19 m over 4.31 m, 5 % is asked" in plate.why
    assert plate.description.endswith("1800 mm")
    assert (plate.packs, plate.price) == (1, plate.unit_price)
    assert not any(line.item.startswith("timbers.timber-posts") for line in spare)


def test_the_reason_of_a_length_says_what_comes_out_of_it() -> None:
    """Six rafters, each 2456 and the plumb cuts: how many pieces, how many metres, of what. Exact: words."""
    why = line_for(shipped_design().order, "rafters").why
    assert why.startswith("Gives 6 pieces, ")
    assert "(rafters)" in why


def test_a_post_is_ordered_as_a_post_and_a_board_as_a_board() -> None:
    """Each timber comes from the product whose uses name it; a section that is not sold says what to plane."""
    order = shipped_design().order
    items = {part: line_for(order, part).item for part in ("rafters", "posts", "barge boards")}
    assert items == {
        "rafters": "timbers.timber-c24 70x120",
        "posts": "timbers.timber-posts 95x95",
        "barge boards": "timbers.timber-boards 22x145",
    }
    assert "plane it" in line_for(order, "barge boards").why
    assert "plane it" not in line_for(order, "rafters").why


def test_a_standing_frame_is_not_bought_again() -> None:
    """Rafters that are there already bring plate, beam, posts and their fixings with them. Exact: quantity 0."""
    order = shipped_design("uneven-veranda").order
    for part in ("rafters", "wall plate", "beam", "posts", "hangers", "straps", "bases", "plate fixings"):
        assert line_for(order, part).quantity == 0
    assert line_for(order, "noggin under each button").quantity > 0


def test_a_beam_longer_than_any_timber_is_joined_over_a_post() -> None:
    """6120 of beam from 6000 at most, posts at 2056 and 4064: 2056 and the rest, the shorter longest part. Exact."""
    design = shipped_design("cycle-shelter")
    assert [p.length_mm for p in design.pieces if p.id.startswith("EB")] == [2056.0, 4064.0]


@pytest.mark.parametrize(
    ("whole", "parts"),
    [
        (4311, (3711, 600)),
        (9000, (4000, 4000, 1000)),
        (8000, (4000, 4000)),
        (4600, (4000, 600)),
        (600, (600,)),
    ],
)
def test_a_gutter_is_full_lengths_and_a_rest_worth_fixing(whole: int, parts: tuple[int, ...]) -> None:
    """From 4000: full lengths first, no rest below 600 where that can be. Exact: whole mm."""
    assert split_length(whole, 4000) == parts


def test_side_walls_are_flashed_too() -> None:
    """A wall at the left adds the slope and 150 at each of its ends. Tolerance: quantities go to the mm."""
    design = shipped_design()
    plain = line_for(design.order, "flashing tape or lead").quantity
    walled = line_for(
        order_of(design, job=job_with(design.job, roof={"left": "wall"})), "flashing tape or lead"
    )
    slope = design.setting_out.plane.slope_length_mm + design.shape.overhang_mm
    assert float(walled.quantity - plain) == pytest.approx((slope + 300.0) / 1000.0, abs=1.5e-3)


def test_an_open_front_needs_no_closure_at_the_foot() -> None:
    """Nothing to close where the front is open. Exact: quantity 0."""
    design = shipped_design()
    order = order_of(design, job=job_with(design.job, roof={"front": "open"}))
    assert line_for(order, "foot closure between rafters").quantity == 0
    assert line_for(design.order, "foot closure between rafters").quantity > 0


def test_snow_that_slides_is_guarded() -> None:
    """A house roof that drains onto ours asks for a guard; one that is guarded does not. Tolerance: whole mm."""
    design = shipped_design()
    sliding: dict[str, Any] = {"roof_drains_to_us": True, "slides_guarded": False}
    order = order_of(design, job=job_with(design.job, house=sliding))
    guard = float(line_for(order, "snow guard where it slides").quantity)
    assert guard == pytest.approx(design.shape.width_mm / 1000.0, abs=0.0005)
    guarded = order_of(design, job=job_with(design.job, house={**sliding, "slides_guarded": True}))
    assert line_for(guarded, "snow guard where it slides").quantity == 0


def test_a_plate_on_a_timber_frame_has_no_resin_and_no_product_for_its_fixings() -> None:
    """Anchors and resin are for masonry; what the catalogue does not hold is asked for in words. Exact: words."""
    design = shipped_design()
    order = order_of(design, job=job_with(design.job, house={"wall": "timber frame"}))
    fixings = line_for(order, "plate fixings")
    assert fixings.why.startswith(f"{NO_PRODUCT}plate fixings")
    assert (fixings.price, fixings.mark) == (Decimal(0), "")
    assert line_for(order, "plate fixing resin").quantity == 0
    assert line_for(order, "damp-proof strip or stand-offs").unit == "m"


def test_lead_needs_no_primer() -> None:
    """Without flashing tape in the catalogue lead is taken, and no primer. Exact: products."""
    design = shipped_design()
    lead = {id: f for id, f in design.catalogue.flashings.items() if f.kind == "lead"}
    order = order_of(design, catalogue=design.catalogue.model_copy(update={"flashings": lead}))
    assert line_for(order, "flashing tape or lead").item == "flashings.lead-300"
    assert line_for(order, "primer").quantity == 0


def test_an_empty_catalogue_of_goods_still_forgets_nothing() -> None:
    """Without sundries and tapes every need stays, priced 0 and asked for in words. Exact: counts."""
    design = shipped_design()
    bare = design.catalogue.model_copy(update={"sundries": {}, "tapes": {}})
    before, after = design.order, order_of(design, catalogue=bare)
    needed = {line.part for line in before if line.in_this_roof}
    assert needed == {line.part for line in after if line.in_this_roof}
    asked = [line for line in after if line.why.startswith(NO_PRODUCT)]
    assert len(asked) > 20
    assert all(line.price == 0 and line.packs > 0 for line in asked)


def test_an_offcut_in_hand_costs_nothing() -> None:
    """A sheet on the rack serves a bay: its line has no packs and no price, and says where to look. Exact: money."""
    design = shipped_design()
    size: dict[str, Any] = {
        "width_mm": 980.0,
        "length_mm": 3000.0,
        "first_rib_mm": design.parts.sheet.first_rib_mm,
    }
    offcut = Offcut(item=design.parts.sheet.id, mark="rack 7", **size)
    with_it = solve(job_with(design.job, stock={"offcuts": (offcut,)}), design.catalogue)
    line = next(o for o in with_it.order if "rack 7" in o.description)
    assert (str(line.quantity), line.packs, str(line.price)) == ("1", 0, "0.00")
    assert "In hand" in line.why
    sheets = [sum(o.price for o in d.order if o.group == "Sheets") for d in (with_it, design)]
    assert sheets[0] < sheets[1]


def test_a_length_of_timber_in_hand_is_not_bought() -> None:
    """An offcut is named by its timber and section, as the cutting names it: no packs, no price. Exact: money."""
    design = shipped_design()
    rafter = next(p for p in design.pieces if p.id == "RF1")
    name = rafter.item.partition(".")[2]
    offcut = Offcut(item=name, mark="rack 8", length_mm=math.ceil(rafter.length_mm) + 20)
    order = solve(job_with(design.job, stock={"offcuts": (offcut,)}), design.catalogue).order
    line = next(o for o in order if "rack 8" in o.description)
    assert (str(line.quantity), line.packs, str(line.price)) == ("1", 0, "0.00")


def _need(**changes: Any) -> Need:
    given: dict[str, Any] = {
        "part": "end cap",
        "group": "Bars",
        "quantity": 6.0,
        "spare": Spare(more=1.0),
        "unit": "pair",
    }
    return Need(**{**given, "why": "Because.", "item": "sundries.cap", **changes})


def _sundry(**keys: Any) -> Catalogue:
    product = {"id": "cap", "name": "Cap", "unit": "each", "price": "2", "part": "end cap", **keys}
    return Catalogue.model_validate({"sundries": {"cap": product}})


def test_a_pair_is_two_where_the_product_is_sold_one_by_one() -> None:
    """Six pairs and one spare: twelve and two, fourteen packs of one. Exact: counts."""
    line = line_of(_need(), _sundry())
    assert [str(v) for v in (line.quantity, line.spare, line.packs, line.price)] == ["12", "2", "14", "28"]


def test_a_products_own_spare_counts_before_the_rule() -> None:
    """A quarter of 10 m is 2.5 m, in packs of 5: three. Exact: decimals."""
    line = line_of(_need(quantity=10.0, unit="m"), _sundry(unit="m", pack=5.0, spare_share=0.25))
    assert (line.spare, line.packs) == (Decimal("2.5"), 3)


def test_a_unit_that_does_not_fit_is_never_multiplied() -> None:
    """Metres are not pieces: no price, and the sentence names both units. Exact: words."""
    line = line_of(_need(unit="m"), _sundry())
    assert line.price == 0
    assert "sells cap by the each, this counts m" in line.why


def test_the_take_off_is_the_same_each_time() -> None:
    """Same input, same lines, in the same order. Exact."""
    design = shipped_design()
    assert order_of(design) == order_of(design) == design.order


def _beams(posts_at_mm: tuple[float, ...]) -> tuple[OrderLine, ...]:
    """Lines of the beam of a roof 7500 wide; its timber is sold up to 6000."""
    job = with_keys(
        shipped_design().job,
        {"roof.width_mm": 7500, "frame.bay_count": 8, "frame.posts_at_mm": list(posts_at_mm)},
    )
    order = solve(job, shipped_design().catalogue).order
    return tuple(line for line in order if "beam" in line.part.split(", "))


def test_a_beam_longer_than_its_timber_is_joined_over_a_post() -> None:
    """Posts at 48, 3750 and 7452: two parts of 3750, no warning. Exact: names."""
    lines = _beams((48.0, 3750.0, 7452.0))
    assert sorted(p for line in lines for p in line.pieces if p.startswith("EB")) == ["EB1", "EB2"]
    assert not any("STOP" in line.why for line in lines)


def test_a_beam_longer_than_its_timber_without_posts_is_stopped() -> None:
    """Nobody has said where posts stand: the line says stop, and what to name. Exact: words."""
    lines = _beams(())
    assert lines
    assert all("STOP" in line.why and "frame.posts_at_mm" in line.why for line in lines)


def test_a_beam_that_no_post_can_join_is_refused() -> None:
    """Posts at the two ends only: 7500 in one length is not sold. The sentence names it."""
    with pytest.raises(NoSolution, match="EB needs 7500 mm"):
        _beams((48.0, 7452.0))
