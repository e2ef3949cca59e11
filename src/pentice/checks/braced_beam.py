"""The eaves beam, bent by the knee braces of its posts besides what it carries."""

from __future__ import annotations

from pentice.checks.eaves import EavesForces
from pentice.checks.ground import JUDGEMENT, Ground, Rule, Shown, compared, open_check
from pentice.checks.racking import Racking
from pentice.checks.rafter_shown import EDITION, service_class
from pentice.checks.timber_shown import strength_in
from pentice.checks.values import Check, Place
from pentice.standards.en1995 import (
    bending_slenderness,
    bending_stress_n_mm2,
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
        [N/mm2]; refused for a beam of metal.

    Source
    ------
    Equilibrium: what turns a post about its foot, H h / n, is turned back by the beam, at an end post all of it on one
    side. It is added to the greatest moment anywhere: judgement, on the safe side. EN 1995-1-1:2004, 6.3.3.
    """
    if forces.metal is not None:
        why = "A beam of metal bent by knee braces is not calculated: brace with a diagonal, or ask."
        return open_check(KNEES, Place(), "refused", Shown(says=why))
    b, h = forces.beam.size_mm
    timber, service = forces.timber, service_class(ground)
    turned = push.push_kn * push.height_mm * 1000.0 / len(forces.beam.posts)
    carried, strength, words = max(
        (
            (
                float(abs(part.within_n_mm[i]).max()),
                strength_in(timber.f_m_k_n_mm2 * size_factor(h), case.combination, service),
                case.words,
            )
            for i, case in enumerate(forces.cases)
            if case.combination.kind == "strength" and case.combination.wind > 0.0
            for part in forces.parts
        ),
        key=lambda found: (found[0] + turned) / found[1].value,
    )
    spans = (part.span_of(k)[0] for part in forces.parts for k in range(len(part.model.nodes_mm) - 1))
    longest = max(*spans, h)
    l_ef = gravity_buckling_length_mm(longest, h)
    slender = bending_slenderness(timber.f_m_k_n_mm2, critical_stress_n_mm2(b, h, l_ef, timber.e_0_05_n_mm2))
    factor, stress = k_crit(slender), bending_stress_n_mm2(carried + turned, b, h)
    working = (
        Step(
            says="Turned back by the beam at a post",
            formula="M = H h / n",
            numbers=f"{push.push_kn:.4f} x {push.height_mm:.1f} / 1000 / {len(forces.beam.posts)}",
            result=turned / 1e6,
            unit="kNm",
            clause="equilibrium; all of it on one side of a post",
        ),
        Step(
            says="Bending stress with the greatest moment of what it carries",
            formula="sigma = 6 (M_0 + M) / (b h^2)",
            numbers=f"6 x ({carried / 1e6:.6f} + {turned / 1e6:.6f}) x 10^6 / ({b:g} x {h:g}^2)",
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
    shown = Shown(
        rests_on=(
            ground.of_job("frame.beam_mm", forces.beam.size_mm),
            ground.of_job("frame.bracing", ground.job.frame.bracing),
            ground.of_snow(),
            ground.of_wind(),
        ),
        working=working,
        cure="A deeper beam, one more post, or a diagonal.",
    )
    return compared(KNEES, Place(), demand=stress, capacity=factor * strength.value, case=words, shown=shown)
