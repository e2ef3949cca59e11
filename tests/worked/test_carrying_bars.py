"""Bars that carry by themselves: resistances by hand, and a whole job without rafters.

The demo bar is a tube of 40 x 80 x 3 of 6060-T66, class 3: W 13 900 mm3, f_o 160 N/mm2 up to 3 mm (EN 1999-1-1, Table
3.2b), gamma_M1 1.1.
"""

from __future__ import annotations

from math import atan, cos, pi, sqrt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.advice.complete import complete
from pentice.catalogue.bars import Bar
from pentice.catalogue.model import Catalogue
from pentice.checks.values import Check
from pentice.errors import InputError
from pentice.job.model import Job
from pentice.job.reading import job_from_text
from pentice.job.template import example_text
from pentice.job.writing import with_keys
from pentice.pipeline import Assessed, assess, solve
from tests.designs import catalogue
from tests.tries import tries
from tests.worked.test_printed_lines import wrong_lines

ID = "bar-carrying-35"
TUBE_W, STRENGTH = 13900.0, 160.0


def job(**changes: Any) -> Job:
    """The cycle shelter on bars that carry by themselves."""
    kept = [
        line
        for line in example_text("cycle-shelter").splitlines()
        if not line.startswith(("rafter_mm", "noggin"))
    ]
    made = job_from_text("\n".join(kept).replace("[glazing]", f'[glazing]\nbar = "{ID}"'))
    made = with_keys(made, {path.replace("__", "."): value for path, value in changes.items()})
    return complete(made, catalogue())


def with_bar(**other: Any) -> Catalogue:
    """The catalogue with other values of that bar."""
    shipped = catalogue()
    raw = shipped.bars[ID].model_dump() | other
    return shipped.model_copy(update={"bars": {**shipped.bars, ID: Bar.model_validate(raw)}})


def checked(products: Catalogue | None = None, **changes: Any) -> Assessed:
    """Its checks."""
    return assess(job(**changes), products or catalogue())


def worst(design: Assessed, rule: str) -> Check:
    """The check of a rule that asks most."""
    return max((c for c in design.checks if c.id == rule), key=lambda c: c.demand or 0.0)


def line(check: Check, says: str) -> float:
    """The result of a line of working."""
    return next(float(step.result) for step in check.working if step.says.startswith(says))


def test_bending_by_hand() -> None:
    """M_o,Rd = W f_o / 1.1; the tube hardly gives way: chi 1 below the plateau of 0.4."""
    design = checked()
    check = worst(design, "bar-bending")
    whole = TUBE_W * STRENGTH / 1.1 / 1e6
    assert line(check, "Bending resistance of the section") == pytest.approx(whole, rel=1e-9)
    critical = line(check, "Critical moment") * 1e6
    assert sqrt(TUBE_W * STRENGTH / critical) < 0.4
    assert check.capacity == pytest.approx(whole, rel=1e-9)
    # Closed form under an even moment, no warping: pi / L sqrt(E I_z G I_t); a load on top takes less.
    span = 1902.0 / 0.99022 - (47.0 + 70.0) / 2.0 / 0.99022
    even = pi / span * sqrt(70e3 * 184e3 * 27e3 * 427e3)
    assert 0.5 * even < critical < 1.15 * even
    assert wrong_lines(design) == []


SLENDER = {"i_t_mm4": 15000.0, "i_z_mm4": 30000.0}


def test_a_slender_bar_gives_way_sideways_unless_sheets_hold_it() -> None:
    """With little twisting stiffness the resistance falls; what the supplier states brings it back, down only.

    Uplift presses the lower edge and nothing stands above the shear centre: an even moment gives least, pi / L
    sqrt(E I_z G I_t). chi_LT of EN 1999-1-1, 6.3.2, class 3: alpha 0.2, plateau 0.4.
    """
    free, held = checked(with_bar(**SLENDER)), checked(with_bar(**SLENDER, held_by_sheets=True))
    whole = TUBE_W * STRENGTH / 1.1 / 1e6
    least, lifted = worst(free, "bar-bending").capacity, worst(free, "bar-uplift")
    assert least is not None and lifted.capacity is not None
    assert least < 0.6 * whole
    assert worst(held, "bar-bending").capacity == pytest.approx(whole, rel=1e-9)
    assert worst(held, "bar-uplift").capacity == lifted.capacity
    span = (worst(free, "bar-sag").capacity or 0.0) * 175.0
    assert lifted.capacity == pytest.approx(_free_knm(span), rel=1e-4)


def _free_knm(free_mm: float) -> float:
    """M_b,Rd of the slender bar under an even moment, by hand."""
    critical = pi / free_mm * sqrt(70e3 * SLENDER["i_z_mm4"] * 27e3 * SLENDER["i_t_mm4"])
    slenderness = sqrt(TUBE_W * STRENGTH / critical)
    phi = 0.5 * (1.0 + 0.2 * (slenderness - 0.4) + slenderness**2)
    return TUBE_W * STRENGTH / 1.1 / 1e6 / (phi + sqrt(phi**2 - slenderness**2))


def test_a_foot_far_past_the_beam_presses_the_lower_edge_that_no_sheet_holds() -> None:
    """Held from above by the sheets, it still gives way over the beam: free over 5 times its reach, declared or not."""
    out = {"roof__overhang_on_slope_mm": 900}
    bent = worst(checked(with_bar(**SLENDER, held_by_sheets=True), **out), "bar-bending")
    reach = 900.0 + 70.0 / 2.0 / cos(atan(268.0 / 1902.0))
    assert line(bent, "Bending moment over the beam") == pytest.approx(bent.demand)
    assert bent.capacity == pytest.approx(_free_knm(5.0 * reach), rel=2e-3)
    assert bent.verdict == "fails"
    told = with_bar(**SLENDER, held_by_sheets=True, bending_down_knm=9.0, bending_up_knm=0.9)
    declared = worst(checked(told, **out), "bar-bending")
    assert declared.demand == pytest.approx(bent.demand)
    assert declared.capacity == 0.9
    assert wrong_lines(checked(told, **out)) == []


def test_a_stubby_bar_is_no_stronger_for_being_deep() -> None:
    """Its sheets load it at its top: the deeper, the less it carries free, however short it is."""
    found = [
        worst(
            checked(with_bar(**SLENDER, below_mm=float(deep)), roof__projection_mm=1000), "bar-bending"
        ).capacity
        for deep in (40, 80, 120, 160)
    ]
    assert None not in found
    assert found == sorted(found, key=lambda knm: -(knm or 0.0))
    assert len(set(found)) == len(found)


def test_shear_and_sag_by_hand() -> None:
    """A_v f_o / (sqrt 3 gamma); sag no more than span / 175 or 20; 5 w l^4 / 384 E I bounds it from both sides."""
    design = checked()
    shear, sag = worst(design, "bar-shear"), worst(design, "bar-sag")
    assert shear.capacity == pytest.approx(444.0 * STRENGTH / sqrt(3) / 1.1 / 1e3, rel=1e-9)
    span = (sag.capacity or 0.0) * 175.0
    assert span == pytest.approx((1902.0 - 58.5) / 0.99022, rel=1e-4)
    head, foot = (line(sag, f"Load at the {end}") for end in ("head", "foot"))
    per_kn_m = 5.0 * span**4 / (384.0 * 70e3 * 558e3)
    low, high = sorted((abs(head), abs(foot)))
    assert 0.8 * low * per_kn_m < (sag.demand or 0.0) < 1.05 * high * per_kn_m


def test_great_shear_refuses_what_bends_and_half_of_the_resistance_does_not() -> None:
    """V_Rd = A_v f_o / (sqrt 3 x 1.1): with A_v for 49 % used bending holds, with A_v for 51 % it is refused."""
    force = (worst(checked(), "bar-shear").demand or 0.0) * 1000.0
    area = force * sqrt(3.0) * 1.1 / STRENGTH
    below, above = (checked(with_bar(shear_area_mm2=area / used)) for used in (0.49, 0.51))
    assert worst(below, "bar-shear").verdict == worst(above, "bar-shear").verdict == "passes"
    assert worst(below, "bar-bending").verdict == "passes"
    refused = worst(above, "bar-bending")
    assert refused.verdict == "refused"
    assert "6.2.8" in refused.says and "51 %" in refused.says


def test_a_declared_resistance_stands_in_its_place() -> None:
    """Both ways; without section values and without it the check asks the supplier."""
    found = checked(with_bar(w_mm3=None, bending_down_knm=1.9, bending_up_knm=1.4))
    assert worst(found, "bar-bending").capacity == 1.9
    assert worst(found, "bar-uplift").capacity == 1.4
    asked = worst(checked(with_bar(w_mm3=None)), "bar-bending")
    assert asked.verdict == "refused"
    assert "w_mm3" in asked.says and "bending_down_knm" in asked.says
    unheld = worst(checked(with_bar(z_j_mm=None)), "bar-bending")
    assert unheld.verdict == "refused" and "z_j_mm" in unheld.says
    bare = checked(with_bar(i_mm4=None))
    assert {c.verdict for c in bare.checks if c.id.startswith("bar-") and c.member == "bar"} == {"refused"}


def test_a_whole_job_without_rafters() -> None:
    """No rafter, hanger, screw along the bar, noggin or button; stops and ends instead; joints named for bars."""
    design = solve(job(), catalogue())
    lines = {order.part: order for order in design.order}
    bars = len(design.setting_out.plane.rafters)
    assert lines["bar ends"].quantity == 2 * bars
    assert lines["sheet stops"].quantity == len(design.setting_out.plane.bays)
    for part in (
        "rafters",
        "hangers",
        "straps",
        "screws",
        "button with washer and seal",
        "noggin under each button",
    ):
        assert lines[part].quantity == 0, part
    assert not [piece for piece in design.pieces if piece.id.startswith(("RF", "N"))]
    assert not [piece for piece in design.pieces if piece.holes]
    names = {c.name for c in design.checks}
    assert "Bar held down to the beam" in names
    assert not [name for name in names if name.startswith("Rafter")]
    assert not [c for c in design.checks if c.place.rafter is not None]


@pytest.mark.parametrize(
    ("key", "value"),
    [("rafter_mm", [70, 145]), ("purlins_at_mm", [900]), ("noggins_at_mm", [900]), ("rafter_notch_mm", 20)],
)
def test_keys_of_rafters_beside_such_a_bar_are_named(key: str, value: Any) -> None:
    """One sentence with the place."""
    with pytest.raises(InputError, match=f"frame.{key} needs rafters"):
        assess(job(**{f"frame__{key}": value}), catalogue())


@tries(8)
@given(snow=st.floats(0.2, 2.0), more=st.floats(1.05, 2.0))
def test_more_snow_is_never_less(snow: float, more: float) -> None:
    """Bending, shear and sag of the worst bar."""
    less, greater = (checked(site__ground_snow_kn_m2=round(s, 3)) for s in (snow, snow * more))
    for rule in ("bar-bending", "bar-shear", "bar-sag", "hanger-down"):
        assert (worst(greater, rule).demand or 0.0) >= (worst(less, rule).demand or 0.0) - 1e-12, rule


def test_a_closed_front_under_bars_that_carry_is_left_to_an_engineer() -> None:
    """What its posts push into the beam between two bars: refused in a sentence."""
    closed: dict[str, Any] = {f"roof__{side}": "closed" for side in ("left", "right", "front")}
    check = worst(checked(**closed), "beam-sideways")
    assert check.verdict == "refused"
    assert "bars that carry by themselves" in check.says
