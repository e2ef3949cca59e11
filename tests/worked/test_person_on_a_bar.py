"""A person's weight on a bar that carries by itself, and what presses its webs: closed forms beside the engine.

EN 1991-1-1, 6.3.4: Q_k = 1.0 kN (recommended), alone with own weight: 1.35 G + 1.5 Q (EN 1990, 6.10). A beam on two
bearings with span L, overhang o, own weight w along L + o and a force P at mid-span: R_A = w (L + o) (L - o) / 2 L +
P / 2. The bar is the demo's tube, as in test_carrying_bars.py.
"""

from __future__ import annotations

from math import atan, cos, pi, sqrt
from typing import Any

import numpy as np
import pytest

from pentice.checks.point_load import HALF_SQUARE_MM
from pentice.design import worst_of_each
from pentice.mechanics.lateral import SlenderBar, critical_moment_n_mm
from pentice.pack.calculations.loads import loads_blocks
from pentice.pipeline import solve
from tests.designs import assessed, catalogue, changed
from tests.worked.test_carrying_bars import SLENDER, STRENGTH, checked, job, line, with_bar, worst
from tests.worked.test_printed_lines import wrong_lines

COS = cos(atan(268.0 / 1902.0))
SPAN = (1902.0 - (47.0 + 70.0) / 2.0) / COS
"""Between the middles of wall plate and beam, along the slope [mm]."""
HALF_BEAM = 35.0 / COS
OUT = 52.0 + HALF_BEAM
"""Past the middle of the beam [mm]."""
FORCE = 1.5 * 1000.0 * COS
"""A person square to the slope, factored [N]."""
CALM: dict[str, Any] = {"site__ground_snow_kn_m2": 0.0, "site__peak_pressure_kn_m2": 0.01}


def test_mid_span_bends_and_beside_a_bearing_shears() -> None:
    """R_A, then M = R_A L / 2 - w L^2 / 8; beside the beam V = P (L - 25) / L + w L / 2 + w o^2 / 2 L."""
    design = checked()
    bent, shear = worst(design, "bar-point"), worst(design, "bar-point-shear")
    own = line(bent, "Weight along the bar")
    reaction = own * (SPAN + OUT) * (SPAN - OUT) / 2.0 / SPAN + FORCE / 2.0
    assert bent.demand == pytest.approx((reaction * SPAN / 2.0 - own * SPAN**2 / 8.0) / 1e6, rel=1e-4)
    assert bent.capacity == pytest.approx(13900.0 * STRENGTH / 1.1 / 1e6, rel=1e-9)
    beside = FORCE * (SPAN - HALF_SQUARE_MM) / SPAN + own * (SPAN / 2.0 + OUT**2 / 2.0 / SPAN)
    assert shear.demand == pytest.approx(beside / 1e3, rel=1e-4)
    assert bent.verdict == shear.verdict == "passes"
    assert not {c.input for c in bent.rests_on} & {"site.ground_snow_kn_m2", "site.vb0_m_s"}
    assert wrong_lines(design) == []


def test_a_long_foot_bends_most_with_the_person_at_its_tip() -> None:
    """M = P r + w r^2 / 2 over the beam: the lower edge pressed, free over 5 times the reach (BS 5950-1, Table 14)."""
    slender = with_bar(**SLENDER, held_by_sheets=True)
    found = checked(slender, roof__overhang_on_slope_mm=900)
    check = worst(found, "bar-point")
    reach = 900.0 + HALF_BEAM
    own = line(check, "Weight along the bar")
    assert check.case == "G + Q at the tip, no sharing"
    assert check.demand == pytest.approx((FORCE * reach + own * reach**2 / 2.0) / 1e6, rel=1e-4)
    critical = pi / (5.0 * reach) * sqrt(70e3 * SLENDER["i_z_mm4"] * 27e3 * SLENDER["i_t_mm4"])
    slenderness = sqrt(13900.0 * STRENGTH / critical)
    phi = 0.5 * (1.0 + 0.2 * (slenderness - 0.4) + slenderness**2)
    chi = 1.0 / (phi + sqrt(phi**2 - slenderness**2))
    assert check.capacity == pytest.approx(chi * 13900.0 * STRENGTH / 1.1 / 1e6, rel=2e-3)
    assert check.verdict == "fails"
    assert wrong_lines(found) == []


def test_it_stands_higher_than_the_sheets_unless_they_hold_the_bar() -> None:
    """Over the cap, a sheet's depth above its seat: a slender bar carries less than under sheets; held it is alike."""
    free, held = checked(with_bar(**SLENDER)), checked(with_bar(**SLENDER, held_by_sheets=True))
    bent, person = worst(free, "bar-bending").capacity, worst(free, "bar-point").capacity
    assert bent is not None and person is not None
    assert person < 0.99 * bent
    assert worst(held, "bar-point").capacity == pytest.approx(13900.0 * STRENGTH / 1.1 / 1e6, rel=1e-9)
    declared = checked(with_bar(w_mm3=None, bending_down_knm=0.7, bending_up_knm=1.4))
    assert worst(declared, "bar-point").capacity == 0.7
    assert worst(declared, "bar-point").verdict == "fails"
    asked = worst(checked(with_bar(z_j_mm=None)), "bar-point")
    assert asked.verdict == "refused" and "z_j_mm" in asked.says


@pytest.mark.parametrize("above", [0.0, 60.0, 115.0, 180.0])
@pytest.mark.parametrize("part", [0.5, 0.35, 0.2, 0.05])
def test_a_single_force_is_no_worse_than_an_even_load_as_high(above: float, part: float) -> None:
    """The force that makes the bar give way by finite differences, against what its mid-span moment was allowed.

    Second route: the sideways bend is left out by E I_z u'' = -M phi, so that the twist alone remains, G I_t phi'' +
    (M^2 / E I_z) phi = 0, with P a phi^2 sinking where the force stands; 200 steps, no warping, z_j 0.
    """
    length, i_z, i_t = 1862.0, SLENDER["i_z_mm4"], SLENDER["i_t_mm4"]
    steps = 200
    h, x = length / steps, np.linspace(0.0, length, steps + 1)[1:-1]
    at = round(part * steps)
    place = at * h
    per_n = np.where(x <= place, x * (length - place) / length, place * (length - x) / length)
    twist = 27e3 * i_t / h * (2.0 * np.eye(x.size) - np.eye(x.size, k=1) - np.eye(x.size, k=-1))

    def holds(force: float) -> bool:
        work = np.diag((force * per_n) ** 2 / (70e3 * i_z) * h)
        work[at - 1, at - 1] += force * above
        return float(np.linalg.eigvalsh(twist - work)[0]) > 0.0

    bar = SlenderBar(
        length_mm=length,
        e_n_mm2=70e3,
        g_n_mm2=27e3,
        i_z_mm4=i_z,
        i_t_mm4=i_t,
        load_above_shear_centre_mm=above,
    )
    allowed = min(critical_moment_n_mm(bar, shape) for shape in ("even moment", "even load"))
    assert holds(0.99 * 4.0 * allowed / length)
    if part == 0.5:
        assert not holds(1.5 * 4.0 * allowed / length)


def test_great_shear_refuses_what_a_person_bends() -> None:
    """As under snow and wind: above half of the shear resistance EN 1999-1-1, 6.2.8, is not covered."""
    force = (worst(checked(), "bar-point-shear").demand or 0.0) * 1000.0
    area = force * sqrt(3.0) * 1.1 / STRENGTH
    below, above = (checked(with_bar(shear_area_mm2=area / used)) for used in (0.49, 0.51))
    assert worst(below, "bar-point").verdict == "passes"
    refused = worst(above, "bar-point")
    assert refused.verdict == "refused"
    assert "6.2.8" in refused.says and "51 %" in refused.says


def test_no_point_load_no_verdict_and_the_wind_is_not_asked() -> None:
    """An annex without category H names the keys, also for the webs; a wind that is not known changes nothing here."""
    own = with_bar(web_kn=50.0)
    uk: dict[str, Any] = {
        "site__annex": "UK",
        "site__peak_pressure_kn_m2": 0.6,
        "roof__front": "closed",
        "roof__left": "closed",
        "roof__right": "closed",
    }
    refused = checked(own, **uk)
    for rule in ("bar-point", "bar-point-shear"):
        check = worst(refused, rule)
        assert check.verdict == "refused"
        assert "Give site.imposed_point_kn and site.imposed_kn_m2." in check.says
    given = checked(own, **uk, site__imposed_point_kn=2.0, site__imposed_kn_m2=0.6)
    assert {c.verdict for c in given.checks if c.id == "bar-bending"} == {"refused"}
    person = worst(given, "bar-point")
    assert person.verdict == "passes"
    assert line(person, "Point load") == pytest.approx(1.5 * 2.0 * COS, rel=1e-4)
    assert "site.imposed_point_kn" in {one.input for one in person.rests_on}


def test_webs_are_asked_for_with_the_greatest_force_on_a_bearing() -> None:
    """Snow and wind: the greater reaction. In a calm place P stands at the tip: P (L + o) / L + w (L + o)^2 / 2 L."""
    design = checked()
    asked = worst(design, "bar-web")
    assert asked.verdict == "refused"
    assert asked.demand == pytest.approx(line(asked, "The beam takes"))
    assert (asked.demand or 0.0) >= max(
        line(worst(design, "bar-bending"), s) for s in ("Head bearing takes", "The beam")
    )
    assert f"{asked.demand:.2f} kN" in asked.says and "bars.bar-carrying-35.web_kn" in asked.says
    everywhere = [check for check in design.checks if check.id == "bar-web"]
    (told,) = (check for check in worst_of_each(design.checks) if check.id == "bar-web")
    needs = [check.demand or 0.0 for check in everywhere]
    assert told.demand == max(needs) > needs[0]
    for overhang in (52.0, 900.0):
        calm = worst(checked(**CALM, roof__overhang_on_slope_mm=overhang), "bar-web")
        reach, own = overhang + HALF_BEAM, line(calm, "Weight along the bar")
        assert calm.case == "G + Q at the tip, no sharing"
        assert calm.place.at == "foot"
        by_hand = FORCE * (1.0 + reach / SPAN) + own * (SPAN + reach) ** 2 / 2.0 / SPAN
        assert calm.demand == pytest.approx(by_hand / 1e3, rel=1e-4)


@pytest.mark.parametrize(("declared", "verdict"), [(1.66, "passes"), (1.65, "fails")])
def test_declared_webs_are_compared(declared: float, verdict: str) -> None:
    """The demo's greatest force is 1.658 kN, as its own lines add up."""
    found = checked(with_bar(web_kn=declared))
    check = worst(found, "bar-web")
    assert check.demand == pytest.approx(1.658, abs=5e-4)
    assert check.verdict == verdict
    assert check.capacity == declared
    assert wrong_lines(found) == []


def test_the_papers_say_what_a_bar_was_checked_for() -> None:
    """The table of loads has the point load; no board on a bar all the same."""
    design = solve(job(), catalogue())
    said = str(list(loads_blocks(design)))
    assert "1 kN on one bar of the finished roof; no boards on bars; never on a sheet" in said


def test_a_person_over_the_seat_of_a_rafter_counts_where_snow_and_wind_ask_less() -> None:
    """1.5 Q and 1.35 G, w from the rafter's own line, from the wall face to its foot; deep snow asks more."""
    design = assessed(changed("cycle-shelter"))
    (seat,) = (c for c in design.checks if c.id == "hanger-down")
    (point,) = (c for c in design.checks if c.id == "rafter-point" and c.place.rafter == seat.place.rafter)
    start = 47.0 / 2.0 / COS
    whole = start + SPAN + OUT
    lever = SPAN + start - whole / 2.0
    own = line(point, "Weight along the rafter") * whole * lever / SPAN / COS / 1e3
    assert seat.demand == pytest.approx(own + 1.5, rel=1e-4)
    assert seat.case == "G + Q over the seat, no sharing"
    heavier = assessed(changed("cycle-shelter", site__imposed_point_kn=2.0))
    assert worst(heavier, "hanger-down").demand == pytest.approx(own + 3.0, rel=1e-4)
    deep = assessed(changed("cycle-shelter", site__ground_snow_kn_m2=1.5))
    assert "S" in worst(deep, "hanger-down").case
    asked = worst(assessed(changed("cycle-shelter", frame__hanger_down_kn=None)), "hanger-down")
    assert asked.verdict == "refused"
    assert f"Needs {seat.demand:.2f} kN" in asked.says


@pytest.mark.parametrize("overhang", [52.0, 700.0])
def test_a_person_presses_a_rafter_onto_its_beam_from_the_tip(overhang: float) -> None:
    """P (L + o) / L + w (L + o)^2 / 2 L, the most that stands on the beam where it is calm; of short duration."""
    design = assessed(changed("cycle-shelter", **CALM, roof__overhang_on_slope_mm=overhang))
    check = worst(design, "rafter-bearing")
    reach, own = overhang + HALF_BEAM, line(check, "Weight along the rafter")
    by_hand = FORCE * (1.0 + reach / SPAN) + own * (SPAN + reach) ** 2 / 2.0 / SPAN
    assert check.case == "G + Q at the tip, no sharing"
    assert line(check, "The beam takes") == pytest.approx(by_hand / 1e3, rel=1e-4)
    (step,) = (s for s in check.working if s.says == "Strength across the grain")
    assert " x 0.9 x " in step.numbers  # Table 3.1: short, service class 2, as Annex to EN 1991-1-1 gives it
    assert wrong_lines(design) == []


def test_a_person_at_the_tip_of_a_long_foot_lifts_the_head() -> None:
    """1.5 Q o / L against 0.9 of what the head holds, less 0.2 of what the foot lifts; a calm wind asks less."""
    design = assessed(changed("cycle-shelter", **CALM, roof__overhang_on_slope_mm=900))
    check, reach = worst(design, "hanger-up"), 900.0 + HALF_BEAM
    assert check.case == "0.9 G + 1.5 Q at the tip, no sharing"
    assert check.demand == pytest.approx(1.5 * reach / SPAN, rel=1e-9)
    assert check.place.at == "head"
    windy = worst(assessed(changed("cycle-shelter", site__peak_pressure_kn_m2=1.5)), "hanger-up")
    assert "W up" in windy.case
