"""Rafters that knee braces across bend, press, pull and shear, anywhere along them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared
from pentice.checks.knee_shown import Led, Spot, greatest, inputs, solved_step, to_the_pair
from pentice.checks.knee_strength import Held, Strong, Used, design_of, share_steps, strong, used_of
from pentice.checks.knee_values import KneeLine
from pentice.checks.rafter_shown import EDITION
from pentice.checks.timber_shown import service_class, strength_in
from pentice.checks.values import Check, Place, Shown
from pentice.standards.en1995 import gravity_buckling_length_mm, shear_stress_n_mm2
from pentice.working import Step

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

RAFTER = Rule(
    id="rafter-across",
    name="Rafter, bent by its knee braces",
    member="rafter",
    clause="EN 1995-1-1, 6.2.3, 6.2.4, 6.3.2, 6.3.3",
    unit="of 1",
    edition=EDITION,
)
RAFTER_SHEAR = Rule(
    id="rafter-across-shear",
    name="Rafter, sheared by its knee braces",
    member="rafter",
    clause="EN 1995-1-1, 6.1.7",
    unit="N/mm2",
    edition=EDITION,
)
_CURE = "A deeper or wider rafter over the posts, or one more pair of posts."


def _rafter_strong(line: KneeLine) -> Strong:
    model = line.rafter
    b, h = model.rafter.width_mm, model.rafter.depth_mm
    free = max(model.longest_free_mm, h)
    held = Held(
        upright_mm=model.span_mm,
        sideways_mm=free,
        effective_mm=gravity_buckling_length_mm(free, h),
        how=f"0.9 x {free:.1f} + 2 x {h:g}; 0.9 l + 2 h, for loads down and up; sheets slide and hold nothing",
    )
    return strong(model.timber, (b, h), held)


def bent_rafter(ground: Ground, lines: Sequence[KneeLine], led: Led) -> Check:
    """The braced rafter that uses most of its strength, anywhere along it.

    Parameters
    ----------
    ground
        The inputs of every check.
    lines, led
        The braced pairs, and the push.

    Returns
    -------
    Check
        [of 1].

    Source
    ------
    EN 1995-1-1:2004, 6.2.3, 6.2.4, 6.3.2, 6.3.3: bowing between the posts upright, between what holds it sideways; the
    longer effective length, of loads that press, for both senses. Holes count everywhere along it.
    """
    import numpy as np

    def used(line: KneeLine) -> Used:
        size = (line.rafter.rafter.width_mm, line.rafter.rafter.depth_mm)
        pushed, pulled = np.maximum(-line.axial_n, 0.0), np.maximum(line.axial_n, 0.0)
        none = np.zeros_like(line.moment_n_mm)
        design = design_of(line, service_class(ground))
        return used_of(
            size, line.nets[1], _rafter_strong(line), design, pushed, pulled, line.moment_n_mm, none
        )

    found = {id(line): used(line) for line in lines}
    share, spot = greatest(lines, lambda line: found[id(line)].share)
    rafter = spot.line.rafter.rafter

    def shown() -> Shown:
        of, service = found[id(spot.line)], service_class(ground)
        axial, moment = spot.of(of.axial_n) / 1000.0, spot.of(of.moment_n_mm) / 1e6
        size, pulled = (rafter.width_mm, rafter.depth_mm), "pull" if axial > 0.0 else "push"
        working = (
            *to_the_pair(led, spot),
            *solved_step("Along the rafter", "N", abs(axial), spot, "kN", f"{pulled}; "),
            *solved_step("Moment in the rafter", "M", moment, spot, "kNm", f"{_where(spot)}; "),
            *share_steps(spot, size, spot.line.nets[1], _rafter_strong(spot.line), of, service),
        )
        return Shown(rests_on=inputs(ground), working=working, cure=_CURE)

    place = Place(rafter=rafter.number)
    return compared(RAFTER, place, demand=share, capacity=1.0, case=spot.words, shown=shown)


def _where(spot: Spot) -> str:
    """The stretch of the rafter in words."""
    start, end = (spot.line.along_mm[spot.place + n] / 1000.0 for n in (0, 1))
    return f"{start:.3f} to {end:.3f} m from its head bearing"


def sheared_rafter(ground: Ground, lines: Sequence[KneeLine], led: Led) -> Check:
    """The braced rafter that is sheared most.

    Parameters
    ----------
    ground
        The inputs of every check.
    lines, led
        The braced pairs, and the push.

    Returns
    -------
    Check
        [N/mm2].

    Source
    ------
    EN 1995-1-1:2004+A1, 6.1.7; nothing near a bearing or a brace left out; holes off everywhere.
    """

    def stress(line: KneeLine) -> Array:
        rafter = line.rafter.rafter
        return shear_stress_n_mm2(1.0, rafter.width_mm, line.nets[1].left_mm) * line.shear_n

    service = service_class(ground)
    _, spot = greatest(lines, lambda line: stress(line) / design_of(line, service))
    model, found, net = spot.line.rafter, spot.of(stress(spot.line)), spot.line.nets[1]
    b, h, f_v = model.rafter.width_mm, model.rafter.depth_mm, model.timber.f_v_k_n_mm2
    strength = strength_in(f_v, spot.acting.combination, service)

    def shown() -> Shown:
        shear = spot.of(spot.line.shear_n) / 1000.0
        working = (
            *to_the_pair(led, spot),
            *solved_step("Shear in the rafter", "V", shear, spot, "kN", f"{_where(spot)}; "),
            Step(
                says="Stress from shear",
                formula="tau = 1.5 V / (k_cr b (h - n D))",
                numbers=f"1.5 x {shear * 1000.0:.1f} / "
                f"(0.67 x {b:g} x ({h:g} - {len(net.places_mm)} x {net.hole_mm:g}))",
                result=found,
                unit="N/mm2",
                clause="6.1.7; beside the holes, " + JUDGEMENT,
            ),
            Step(
                says="Design strength",
                formula="f_v,d = k_mod f_v,k / gamma_M",
                numbers=f"{strength.k_mod:g} x {f_v:g} / {strength.gamma:g}",
                result=strength.value,
                unit="N/mm2",
                clause="2.4.1",
            ),
        )
        return Shown(rests_on=inputs(ground), working=working, cure=_CURE)

    place = Place(rafter=model.rafter.number)
    return compared(RAFTER_SHEAR, place, demand=found, capacity=strength.value, case=spot.words, shown=shown)
