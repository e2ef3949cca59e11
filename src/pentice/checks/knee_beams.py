"""Beams over posts that knee braces across hold: bent level between the pairs, and pressed on their posts."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from pentice.checks.beam import inputs, post_contact
from pentice.checks.beam_shown import carried_steps
from pentice.checks.eaves import EavesForces
from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared, open_check
from pentice.checks.knee_shown import Led, brace_step, greatest, level_steps, solved_step
from pentice.checks.knee_shown import inputs as knee_inputs
from pentice.checks.knee_values import KneeLine
from pentice.checks.passed_on import strengths_in
from pentice.checks.rafter_shown import EDITION
from pentice.checks.rests import of_roof
from pentice.checks.timber_shown import crushing_step, service_class, strength_in
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.standards.en1995 import (
    bending_slenderness,
    bending_stress_n_mm2,
    critical_stress_n_mm2,
    gravity_buckling_length_mm,
    k_crit,
    size_factor,
)
from pentice.working import Step

LEVEL = Rule(
    id="beam-across",
    name="Eaves beam, bent level across",
    member="beam",
    clause="EN 1995-1-1, 6.1.6, 6.3.3",
    unit="of 1",
    edition=EDITION,
)
ON_POST = Rule(
    id="beam-across-bearing",
    name="Beam, pressed by a brace across",
    member="beam",
    clause="EN 1995-1-1, 6.1.5",
    unit="N/mm2",
    edition=EDITION,
)
_CURE = "A wider beam, or one more pair of posts."


def level_beam(ground: Ground, forces: EavesForces, push_kn: float) -> Check:
    """A beam between pairs of posts, bent level while it carries the rafters.

    Parameters
    ----------
    ground
        The inputs of every check.
    forces
        The beam with its posts.
    push_kn
        Across the whole roof, design value [kN].

    Returns
    -------
    Check
        [of 1]; of metal refused.

    Source
    ------
    Statics: the push even along the beam, all of it on either one; w l^2 / 8 is no less than any moment of fields up
    to l. EN 1995-1-1:2004, 6.1.6 and 6.3.3, both ways added in full: judgement, on the safe side.
    """
    import numpy as np

    width = ground.shape.width_mm
    places = [post.x_mm for post in forces.beam.posts]
    field = max(b - a for a, b in pairwise(places))
    beyond = max(places[0], width - places[-1], 0.0)
    line = push_kn * 1000.0 / width
    moment = line * max(field**2 / 8.0, beyond**2 / 2.0)

    def rests() -> tuple[RestsOn, ...]:
        across = ground.of_job("frame.bracing_across", "knee braces")
        return (*inputs(ground, forces.beam), *of_roof(ground, "width_mm"), across)

    def level() -> Step:
        return Step(
            says="Bends the beam level, the other beam taking none",
            formula="M = H / B max(l^2 / 8, c^2 / 2)",
            numbers=f"{push_kn:.4f} / {width:.1f} x max({field:.1f}^2 / 8, {beyond:.1f}^2 / 2) / 1000",
            result=moment / 1e6,
            unit="kNm",
            clause=f"statics; see the push across; {JUDGEMENT}",
        )

    if forces.metal is not None:
        why = (
            f"The beam of metal is also bent level by {moment / 1e6:.2f} kNm between its posts: not calculated. Ask a "
            "structural engineer, or take a timber beam."
        )
        return open_check(
            LEVEL, Place(), "refused", lambda: Shown(says=why, rests_on=rests(), working=(level(),))
        )
    (b, h), timber, service = forces.beam.size_mm, forces.timber, service_class(ground)
    spans = [part.span_of(k)[0] for part in forces.parts for k in range(len(part.model.nodes_mm) - 1)]
    l_ef = gravity_buckling_length_mm(max(*spans, h), h)
    factor = k_crit(
        bending_slenderness(timber.f_m_k_n_mm2, critical_stress_n_mm2(b, h, l_ef, timber.e_0_05_n_mm2))
    )
    aside = 6.0 * moment / (h * b**2)
    upright, way, used, carried, case = 0.0, 0.0, 0.0, 0.0, forces.cases[0]
    bends = np.max([np.abs(part.within_n_mm).max(axis=1) for part in forces.parts], axis=0).tolist()
    strong, weak = factor * size_factor(h), size_factor(b)
    holds = strengths_in(timber.f_m_k_n_mm2, forces.cases, service)
    for one, most, d in zip(forces.cases, bends, holds, strict=True):
        if one.combination.kind == "characteristic" or one.combination.wind <= 0.0:
            continue
        parts = bending_stress_n_mm2(most, b, h) / (strong * d), aside / (d * weak)
        if sum(parts) > used:
            (upright, way), used, carried, case = parts, sum(parts), most, one

    def shown() -> Shown:
        strength = strength_in(timber.f_m_k_n_mm2, case.combination, service)
        f_m = f"{strength.k_mod:g} x {timber.f_m_k_n_mm2:g} / {strength.gamma:g}"
        working = (
            level(),
            *carried_steps(forces, forces.cases.index(case)),
            Step(
                says="Share of its strength that bending upright uses",
                formula="6 M_0 / (b h^2) / (k_crit k_h f_m,d)",
                numbers=f"6 x {carried / 1e6:.6f} x 10^6 / ({b:g} x {h:g}^2) / "
                f"({factor:.5f} x {size_factor(h):.4f} x {f_m})",
                result=upright,
                unit="of 1",
                clause=f"6.3.3; k_crit: see the bending of the beam; {case.combination.name}",
            ),
            Step(
                says="Share that bending level uses",
                formula="6 M / (h b^2) / (k_h f_m,d)",
                numbers=f"6 x {moment / 1e6:.6f} x 10^6 / ({h:g} x {b:g}^2) / ({size_factor(b):.4f} x {f_m})",
                result=way,
                unit="of 1",
                clause="6.1.6",
            ),
            Step(
                says="Both together",
                formula="eta_y + eta_z",
                numbers=f"{upright:.6f} + {way:.6f}",
                result=used,
                unit="of 1",
                clause="6.1.6, its factor 0.7 left out; added in full, on the safe side",
            ),
        )
        return Shown(rests_on=rests(), working=working, cure=_CURE)

    return compared(LEVEL, Place(), demand=used, capacity=1.0, case=case.words, shown=shown)


def pressed_beam(ground: Ground, rows: Sequence[EavesForces], lines: Sequence[KneeLine], led: Led) -> Check:
    """Crushing across the grain where a brace that pulls presses the beam on its post; of the worst post.

    Parameters
    ----------
    ground, rows
        The inputs of every check, and both beams with their posts.
    lines, led
        The braced pairs, and the push.

    Returns
    -------
    Check
        [N/mm2]; of a metal beam refused with the force.

    Source
    ------
    EN 1995-1-1:2004+A1, 6.1.5: what the beam brings at its greatest in a combination, with the brace's at its greatest.
    """
    import numpy as np

    def beam_n(line: KneeLine, s: int) -> list[float]:
        side = line.sides[s]
        row, k = rows[side.at[0]], side.at[1]
        on_post, most = row.on_post_n(k), float(row.reactions_n[:, k].max())
        return [on_post.get(load.combination, (0.0, most))[1] for load in line.loads]

    def force(line: KneeLine, s: int) -> np.typing.NDArray[np.float64]:
        side = line.sides[s]
        up = np.maximum(line.brace_n[:, :, s], 0.0) * side.rise_mm / side.brace_mm
        pressed: np.typing.NDArray[np.float64] = np.array(beam_n(line, s)) + line.more_n[:, :, s] + up
        return pressed

    service = service_class(ground)
    timber = rows[0].timber

    def area(line: KneeLine, s: int) -> tuple[float, float, float]:
        return post_contact(rows[line.sides[s].at[0]], line.sides[s].at[1])

    def used(line: KneeLine) -> np.typing.NDArray[np.float64]:
        holds = np.array(strengths_in(timber.f_c_90_k_n_mm2, line.loads, service))
        parts = []
        for s in (0, 1):
            width, length, k_c = area(line, s)
            parts.append(force(line, s) / (width * length * k_c * holds))
        return np.stack(parts, axis=-1)

    _, spot = greatest(lines, used)
    side, s = spot.side, spot.place
    pressed = float(force(spot.line, s)[spot.way, spot.load])

    def steps() -> tuple[Step, ...]:
        beam = beam_n(spot.line, s)[spot.load] / 1000.0
        more = spot.of(spot.line.more_n) / 1000.0
        up = max(spot.of(spot.line.brace_n), 0.0) * side.rise_mm / side.brace_mm / 1000.0
        return (
            *level_steps(led, spot),
            brace_step(spot),
            *solved_step("Down at its foot by the frame, beyond what its beam brings", "V", more, spot, "kN"),
            Step(
                says="Beam on its post",
                formula="R + V + max(F v / L, 0)",
                numbers=f"{beam:.5f} + ({more:.5f}) + {up:.5f}",
                result=pressed / 1000.0,
                unit="kN",
                clause="equilibrium; R what its beam brings; F v / L the upright part of the brace",
            ),
        )

    place = Place(post=side.post.number)
    if rows[side.at[0]].metal is not None:
        why = (
            f"The web of the metal beam is pressed on its post by {pressed / 1000.0:.2f} kN: not calculated with knee "
            "braces across. Ask a structural engineer, or take a timber beam."
        )
        return open_check(
            ON_POST,
            place,
            "refused",
            lambda: Shown(says=why, rests_on=knee_inputs(ground), working=steps()),
            demand=None,
            case=spot.words,
        )
    width, length, k_c = area(spot.line, s)
    strength = strength_in(timber.f_c_90_k_n_mm2, spot.acting.combination, service)
    stress = max(pressed, 0.0) / (width * length)

    def shown() -> Shown:
        working = (
            *steps(),
            Step(
                says="Pressure on the post",
                formula="sigma = R / (b l_ef)",
                numbers=f"max({pressed:.1f}, 0) / ({width:g} x {length:.2f})",
                result=stress,
                unit="N/mm2",
                clause="6.1.5; R what presses there",
            ),
            crushing_step(k_c, timber.f_c_90_k_n_mm2, strength),
        )
        return Shown(rests_on=knee_inputs(ground), working=working, cure="A wider post or a wider beam.")

    return compared(
        ON_POST, place, demand=stress, capacity=k_c * strength.value, case=spot.words, shown=shown
    )
