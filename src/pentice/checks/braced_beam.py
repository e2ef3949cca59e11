"""The eaves beam, bent by the knee braces of its posts besides what it carries."""

from __future__ import annotations

from dataclasses import replace

from pentice.checks.beam import inputs
from pentice.checks.beam_shown import carried_steps
from pentice.checks.eaves import EavesForces
from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared, open_check
from pentice.checks.knee_bolts import bolt_inputs, net_section
from pentice.checks.metal import Metal, bending_carried, class_of
from pentice.checks.metal_beam import longest_free_mm
from pentice.checks.passed_on import strengths_in
from pentice.checks.racking import Racking
from pentice.checks.rafter_shown import EDITION
from pentice.checks.timber_shown import service_class, strength_in
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.errors import OutsideScope
from pentice.standards.en1995 import (
    bending_slenderness,
    critical_stress_n_mm2,
    gravity_buckling_length_mm,
    k_crit,
    size_factor,
)
from pentice.working import Step

KNEES = Rule(
    id="beam-knees",
    name="Eaves beam, bent by its knee braces too",
    member="beam",
    clause="EN 1995-1-1, 6.1.6, 6.3.3",
    unit="N/mm2",
    edition=EDITION,
)


_CURE = "A deeper beam, one more post, or a diagonal."


def braced_beam(ground: Ground, forces: EavesForces, push: Racking) -> Check:
    """Bending of the beam with what its knee braces bring into it.

    Parameters
    ----------
    ground
        The inputs of every check.
    forces
        What each combination does to the beam.
    push
        Along the wall.

    Returns
    -------
    Check
        [N/mm2]; of metal [kNm], refused where the section is not covered.

    Source
    ------
    Equilibrium: what turns a post about its foot, H h / n, is turned back by the beam, at an end post all of it on one
    side. It is added to the greatest moment anywhere, beside the holes of the brace's bolts: judgement, on the safe
    side. EN 1995-1-1:2004, 6.3.3, and 5.2, from memory.
    """
    import numpy as np

    if forces.metal is not None:
        return _metal(ground, forces, forces.metal, push)
    b, h = forces.beam.size_mm
    timber, service = forces.timber, service_class(ground)
    turned = push.push_kn * push.height_mm * 1000.0 / len(forces.beam.posts)
    windy = [
        i
        for i, case in enumerate(forces.cases)
        if case.combination.kind == "strength" and case.combination.wind > 0.0
    ]
    moments = np.stack([np.abs(part.within_n_mm[windy]).max(axis=1) for part in forces.parts], axis=1)
    of_class = timber.f_m_k_n_mm2 * size_factor(h)
    holds = np.array(strengths_in(of_class, [forces.cases[i] for i in windy], service))
    n, p = divmod(int(((moments + turned) / holds[:, None]).argmax()), len(forces.parts))
    carried, case = float(moments[n, p]), forces.cases[windy[n]]
    strength, words = strength_in(of_class, case.combination, service), case.words
    spans = (part.span_of(k)[0] for part in forces.parts for k in range(len(part.model.nodes_mm) - 1))
    longest = max(*spans, h)
    l_ef = gravity_buckling_length_mm(longest, h)
    slender = bending_slenderness(timber.f_m_k_n_mm2, critical_stress_n_mm2(b, h, l_ef, timber.e_0_05_n_mm2))
    try:
        net = net_section(ground, b, h)
    except OutsideScope as refusal:
        shown_why = Shown(says=str(refusal), rests_on=_inputs(ground, forces))
        return open_check(KNEES, Place(), "refused", shown_why)
    factor, stress = k_crit(slender), (carried + turned) / net.modulus_mm3

    def shown() -> Shown:
        working = (
            *carried_steps(forces, windy[n]),
            _turned_back(forces, push, turned),
            net.step(),
            Step(
                says="Bending stress with the greatest moment of what it carries",
                formula="sigma = (M_0 + M) / W_n",
                numbers=f"({carried / 1e6:.6f} + {turned / 1e6:.6f}) x 10^6 / {net.modulus_mm3:.1f}",
                result=stress,
                unit="N/mm2",
                clause=f"6.1.6; both at one place, {JUDGEMENT}",
            ),
            Step(
                says="Strength that is left",
                formula="k_crit f_m,d",
                numbers=f"{factor:.5f} x {strength.value:.4f}",
                result=factor * strength.value,
                unit="N/mm2",
                clause="6.3.3; see the bending of the beam",
            ),
        )
        return Shown(rests_on=_inputs(ground, forces), working=working, cure=_CURE)

    return compared(KNEES, Place(), demand=stress, capacity=factor * strength.value, case=words, shown=shown)


def _turned_back(forces: EavesForces, push: Racking, turned_n_mm: float) -> Step:
    return Step(
        says="Turned back by the beam at a post",
        formula="M = H h / n",
        numbers=f"{push.push_kn:.4f} x {push.height_mm:.1f} / 1000 / {len(forces.beam.posts)}",
        result=turned_n_mm / 1e6,
        unit="kNm",
        clause="equilibrium; all of it on one side of a post; H: see the bracing",
    )


def _inputs(ground: Ground, forces: EavesForces) -> tuple[RestsOn, ...]:
    bolts = bolt_inputs(ground) if forces.metal is None else ()
    return (*inputs(ground, forces.beam), ground.of_job("frame.bracing", ground.job.frame.bracing), *bolts)


def _metal(ground: Ground, forces: EavesForces, metal: Metal, push: Racking) -> Check:
    """A beam of metal: the same moments, held against what it carries free between its posts."""
    turned = push.push_kn * push.height_mm * 1000.0 / len(forces.beam.posts)
    windy = [
        i
        for i, case in enumerate(forces.cases)
        if case.combination.kind == "strength" and case.combination.wind > 0.0
    ]
    i = max(windy, key=lambda n: max(float(abs(part.within_n_mm[n]).max()) for part in forces.parts))
    carried = max(float(abs(part.within_n_mm[i]).max()) for part in forces.parts)
    try:
        bent = bending_carried(metal, number=class_of(metal, pushed=False), free_mm=longest_free_mm(forces))
    except OutsideScope as refusal:
        shown = Shown(says=str(refusal), rests_on=_inputs(ground, forces))
        return open_check(KNEES, Place(), "refused", shown)
    both = Step(
        says="With the greatest moment of what it carries",
        formula="M_0 + M",
        numbers=f"{carried / 1e6:.6f} + {turned / 1e6:.6f}",
        result=(carried + turned) / 1e6,
        unit="kNm",
        clause=f"both at one place, {JUDGEMENT}",
    )
    shown = Shown(
        rests_on=_inputs(ground, forces),
        working=(
            *carried_steps(forces, i),
            _turned_back(forces, push, turned),
            both,
            *bent.working,
        ),
        cure=_CURE,
    )
    return compared(
        replace(KNEES, clause=f"{metal.standard}, 6.3.2", edition=metal.edition, unit="kNm"),
        Place(),
        demand=(carried + turned) / 1e6,
        capacity=bent.value / 1e6,
        case=forces.cases[i].words,
        shown=shown,
    )
