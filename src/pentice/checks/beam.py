"""The eaves beam to EN 1995-1-1: bending both ways, shear, bearing on the posts, sag."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pentice.checks.beam_shown import (
    feet_words,
    knee_step,
    load_steps,
    moment_step,
    on_post_step,
    weight_step,
)
from pentice.checks.eaves import BeamPart, EavesForces
from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared
from pentice.checks.passed_on import Combined
from pentice.checks.rafter_shown import EDITION
from pentice.checks.rests import of_beam, of_posts
from pentice.checks.timber_shown import (
    Sideways,
    bending_steps,
    crushing_step,
    limit_step,
    service_class,
    shear_steps,
    sideways_steps,
    strength_in,
)
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.checks.worst import greatest_place
from pentice.frame.values import EavesBeam
from pentice.standards.annex import snow_psi
from pentice.standards.en1995 import (
    bearing_length_mm,
    bearing_stress_n_mm2,
    bending_slenderness,
    bending_stress_n_mm2,
    critical_stress_n_mm2,
    gravity_buckling_length_mm,
    k_c_90,
    k_crit,
    k_def,
    shear_stress_n_mm2,
    size_factor,
)
from pentice.standards.en1995_deflection import final_limit_mm, instant_limit_mm
from pentice.working import Step

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

BENDING = Rule(
    id="beam-bending",
    name="Eaves beam, bending",
    member="beam",
    clause="EN 1995-1-1, 6.1.6, 6.3.3",
    unit="N/mm2",
    edition=EDITION,
)
SHEAR = Rule(
    id="beam-shear",
    name="Eaves beam, shear",
    member="beam",
    clause="EN 1995-1-1, 6.1.7",
    unit="N/mm2",
    edition=EDITION,
)
BEARING = Rule(
    id="beam-bearing",
    name="Eaves beam, bearing on a post",
    member="beam",
    clause="EN 1995-1-1, 6.1.5",
    unit="N/mm2",
    edition=EDITION,
)
SAG = Rule(
    id="beam-sag",
    name="Eaves beam, sag at once",
    member="beam",
    clause="EN 1995-1-1, 2.2.3, 7.2; limit chosen in its range",
    unit="mm",
    edition=EDITION,
)
FINAL = Rule(
    id="beam-sag-final",
    name="Eaves beam, sag in the end",
    member="beam",
    clause="EN 1995-1-1, 2.2.3, 7.2; limit chosen in its range",
    unit="mm",
    edition=EDITION,
)
RULES = (BENDING, SHEAR, BEARING, SAG, FINAL)
_CURE = "A deeper or wider beam, or one more post."


@dataclass(frozen=True, slots=True, kw_only=True)
class _Worst:
    """The most used place of the beam in the combination that governs it."""

    part: BeamPart
    stretch: int
    case: Combined
    amount: float
    """Moment [N mm] or shear [N], in size."""


def beam_checks(ground: Ground, forces: EavesForces, knee_n: float = 0.0) -> Iterator[Check]:
    """Every check of the eaves beam at its worst place.

    Parameters
    ----------
    ground
        The inputs of every check.
    forces
        What each combination does to it.
    knee_n
        What a knee brace at each post shears it and presses it on the post, as wind pushes the row [N].

    Yields
    ------
    Check
        One of each rule.

    Source
    ------
    EN 1995-1-1:2004+A1:2008. Rafters are not counted as holding the beam upright: judgement, on the safe side.
    """
    yield _bending(ground, forces)
    yield _shear(ground, forces, knee_n)
    yield _bearing(ground, forces, knee_n)
    yield from sag_checks(ground, forces)


def in_wind(case: Combined, knee_n: float) -> float:
    """What a knee brace adds in a combination: the push on the row is the wind's.

    Parameters
    ----------
    case, knee_n
        The combination, and the force of the brace's upright part [N].

    Returns
    -------
    float
        [N]; 0 where no wind blows.

    Source
    ------
    Definition.
    """
    windy = case.combination.kind == "strength" and case.combination.wind > 0.0
    return knee_n if windy else 0.0


def _worst(forces: EavesForces, what: str, knee_n: float = 0.0) -> _Worst:
    """The place and the combination in which an amount over its duration's strength is greatest."""
    import numpy as np

    acting, knees = _acting(forces, knee_n)
    sizes = [np.abs(getattr(part, what)[acting]) for part in forces.parts]
    used = np.stack([(size.max(axis=1) + knees) / forces.holds[acting] for size in sizes], axis=1)
    n, p = divmod(greatest_place(used), len(sizes))
    k = greatest_place(sizes[p][n])
    amount = float(sizes[p][n, k] + knees[n])
    return _Worst(part=forces.parts[p], stretch=k, case=forces.cases[acting[n]], amount=amount)


def _acting(forces: EavesForces, knee_n: float) -> tuple[list[int], Array]:
    """The combinations for strength, uplift and accidents, and what a knee brace adds in each [N]."""
    import numpy as np

    acting = list(forces.loads.at_their_most)
    knees = np.zeros(len(acting))
    if knee_n:
        knees[:] = [in_wind(forces.cases[i], knee_n) for i in acting]
    return acting, knees


def _bending(ground: Ground, forces: EavesForces) -> Check:
    b, h = forces.beam.size_mm
    timber = forces.timber
    worst = _worst(forces, "within_n_mm")
    longest = max(max(worst.part.span_of(k)[0] for k in range(len(worst.part.model.nodes_mm) - 1)), h)
    l_ef = gravity_buckling_length_mm(longest, h)
    slender = bending_slenderness(timber.f_m_k_n_mm2, critical_stress_n_mm2(b, h, l_ef, timber.e_0_05_n_mm2))
    factor, k_h = k_crit(slender), size_factor(h)
    stress = bending_stress_n_mm2(worst.amount, b, h)
    strength = strength_in(timber.f_m_k_n_mm2 * k_h, worst.case.combination, service_class(ground))

    def shown() -> Shown:
        sideways = Sideways(
            free_mm=longest,
            upward=False,
            length_mm=l_ef,
            slenderness=slender,
            k_crit=factor,
            held="held at the posts",
            why="rafters not counted as holding it",
        )
        working = (
            *load_steps(forces, worst.part, worst.case),
            moment_step(worst.part, worst.stretch, worst.amount),
            *bending_steps(worst.amount, (b, h), stress, k_h, timber.f_m_k_n_mm2, strength),
            *sideways_steps(sideways, (b, h), timber, strength.value),
        )
        return Shown(rests_on=inputs(ground, forces.beam), working=working, cure=_CURE)

    return compared(
        BENDING,
        Place(),
        demand=stress,
        capacity=factor * strength.value,
        case=f"{worst.case.words}, {worst.part.where(worst.stretch)}",
        shown=shown,
    )


def _shear(ground: Ground, forces: EavesForces, knee_n: float) -> Check:
    b, h = forces.beam.size_mm
    worst = _worst(forces, "shears_n", knee_n)
    stress = shear_stress_n_mm2(worst.amount, b, h)
    strength = strength_in(forces.timber.f_v_k_n_mm2, worst.case.combination, service_class(ground))

    def shown() -> Shown:
        knee = in_wind(worst.case, knee_n)
        working = (
            *load_steps(forces, worst.part, worst.case),
            Step(
                says="Shear of the continuous beam",
                formula="V, over the posts as supports",
                numbers=f"integrated by stiffness; {worst.part.where(worst.stretch)}",
                result=(worst.amount - knee) / 1000.0,
                unit="kN",
                clause="statics",
            ),
            *knee_step("Shear with the knee brace", worst.amount - knee, knee),
            *shear_steps(worst.amount, (b, h), stress, forces.timber.f_v_k_n_mm2, strength),
        )
        return Shown(rests_on=inputs(ground, forces.beam), working=working, cure=_CURE)

    return compared(
        SHEAR,
        Place(),
        demand=stress,
        capacity=strength.value,
        case=f"{worst.case.words}, {worst.part.where(worst.stretch)}",
        shown=shown,
    )


def _bearing(ground: Ground, forces: EavesForces, knee_n: float) -> Check:
    """Crushing across the grain where the beam lies on the top of a post: the beam's width, or the post's if less."""

    contacts = [post_contact(forces, k) for k in range(len(forces.beam.posts))]
    acting, knees = _acting(forces, knee_n)
    pressed = forces.reactions_n[acting] + knees[:, None]
    used = pressed / forces.holds[acting][:, None] / [width * length * k_c for width, length, k_c in contacts]
    k, n = divmod(greatest_place(used.T), len(acting))
    post, case, force = forces.beam.posts[k], forces.cases[acting[n]], float(pressed[n, k])
    width, length, k_c = contacts[k]
    strength = strength_in(forces.timber.f_c_90_k_n_mm2, case.combination, service_class(ground))
    stress = bearing_stress_n_mm2(force, width, length)

    def shown() -> Shown:
        knee = in_wind(case, knee_n)
        working = (
            on_post_step(case, force - knee),
            *knee_step("On the post with the knee brace", force - knee, knee),
            Step(
                says="Pressure on the post",
                formula="sigma = R / (b l_ef)",
                numbers=f"{force:.0f} / ({width:g} x {length:.5g})",
                result=stress,
                unit="N/mm2",
                clause="6.1.5; R what presses there",
            ),
            crushing_step(k_c, forces.timber.f_c_90_k_n_mm2, strength),
        )
        return Shown(
            says="The beam lies on top of its posts.",
            rests_on=inputs(ground, forces.beam),
            working=working,
            cure="A wider post or a wider beam.",
        )

    place = Place(post=post.number)
    return compared(
        BEARING, place, demand=max(stress, 0.0), capacity=k_c * strength.value, case=case.words, shown=shown
    )


def post_contact(forces: EavesForces, k: int) -> tuple[float, float, float]:
    """Where the beam lies on a post.

    Parameters
    ----------
    forces, k
        The beam with its posts, and the place of the post in the row.

    Returns
    -------
    tuple
        Width and effective length of the contact [mm], and k_c,90 [-].

    Source
    ------
    EN 1995-1-1:2004+A1, 6.1.5.
    """
    beam, post = forces.beam, forces.beam.posts[k]
    contact = post.size_mm[0]
    before = max(post.x_mm - contact / 2.0, 0.0)
    after = max(beam.parts_mm[-1][1] - post.x_mm - contact / 2.0, 0.0)
    clear = min(abs(p.x_mm - post.x_mm) - contact for p in beam.posts if p is not post)
    joined = any(abs(post.x_mm - part[0]) < 1.0 for part in beam.parts_mm[1:])
    length = (
        contact
        if joined
        else bearing_length_mm(contact, free_before_mm=before, free_after_mm=after, to_next_mm=clear)
    )
    k_c = k_c_90("solid", to_next_mm=clear, depth_mm=beam.size_mm[1], contact_mm=contact)
    return min(beam.size_mm[0], post.size_mm[1]), length, k_c


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sag:
    """Sag of one stretch in one combination, with its limits."""

    part: BeamPart
    stretch: int
    case: Combined
    now_mm: float
    dead_mm: float
    snow_mm: float
    """Of the snow, where what it leaves behind adds to the rest; else 0."""
    final_mm: float
    """In the end, in size."""
    instant_limit_mm: float
    final_limit_mm: float


def sag_checks(ground: Ground, forces: EavesForces) -> Iterator[Check]:
    """Each combination's worst place, at once and in the end; limits by the distance between the posts around it.

    Parameters
    ----------
    ground, forces
        The inputs of every check, and what each combination does to the beam.

    Yields
    ------
    Check
        Metal does not creep: its sag in the end is that at once.

    Source
    ------
    EN 1995-1-1:2004, 2.2.3, 7.2; the same limits for metal, judgement.
    """
    found = [sag for part in forces.parts for sag in _worst_sags(ground, forces, part)]
    now = max(found, key=lambda s: abs(s.now_mm) / s.instant_limit_mm)
    end = max(found, key=lambda s: s.final_mm / s.final_limit_mm)
    kdef, psi_2 = _creep(ground, forces)

    def last() -> Step:
        return Step(
            says="Sag in the end",
            formula="w_inst + k_def w_G + psi_2 k_def w_S",
            numbers=f"|{end.now_mm:z.4f} + {kdef:g} x ({end.dead_mm:z.4f}) "
            f"+ {psi_2:g} x {kdef:g} x ({end.snow_mm:z.4f})|",
            result=end.final_mm,
            unit="mm",
            clause="EN 1995-1-1, 2.2.3",
        )

    def check(rule: Rule, sag: _Sag, demand: float, limit: float) -> Check:
        def shown() -> Shown:
            span, tip = sag.part.span_of(sag.stretch)
            more = (last(),) if rule.id == FINAL.id else ()
            steps = (
                weight_step(forces, sag.case),
                _sag_step(forces, sag),
                *more,
                limit_step(span, limit, tip=tip),
            )
            return Shown(rests_on=inputs(ground, forces.beam), working=steps, cure=_CURE)

        words = f"{sag.case.words}, {sag.part.where(sag.stretch)}"
        if forces.metal is None:
            of = rule
        else:
            of = replace(rule, clause=f"limit of EN 1995-1-1, 7.2, {JUDGEMENT}", edition="")
        return compared(of, Place(), demand=demand, capacity=limit, case=words, shown=shown)

    yield check(SAG, now, abs(now.now_mm), now.instant_limit_mm)
    yield check(FINAL, end, end.final_mm, end.final_limit_mm)


def _creep(ground: Ground, forces: EavesForces) -> tuple[float, float]:
    """k_def and psi_2 of snow [-]; metal does not creep."""
    psi = snow_psi(ground.annex, ground.job.site.altitude_m or 0.0)
    return k_def(service_class(ground)) if forces.metal is None else 0.0, psi.psi_2


def _worst_sags(ground: Ground, forces: EavesForces, part: BeamPart) -> Iterator[_Sag]:
    """The sags of a part that are greatest for their limits, at once and in the end."""
    import numpy as np

    annex, (kdef, psi_2) = ground.annex, _creep(ground, forces)
    asked = [i for i, c in enumerate(forces.cases) if c.combination.kind == "characteristic"]
    cases = [forces.cases[i] for i in asked]
    found = part.each.combined_sags_mm(forces.loads.factors[asked])
    dead = next(row for row, c in zip(found, cases, strict=True) if c.combination.name == "G")
    snow = np.zeros_like(dead)
    for row, case in zip(found, cases, strict=True):
        if case.combination.name == "G + S":
            snow = np.where(np.abs(row - dead) > np.abs(snow), row - dead, snow)
    spans = [part.span_of(k) for k in range(len(dead))]
    instant = [instant_limit_mm(span, overhang=tip, divisor=annex.limit_w_inst) for span, tip in spans]
    final = [final_limit_mm(span, overhang=tip, divisor=annex.limit_w_fin) for span, tip in spans]
    # What variable loads leave behind counts only where it makes the sag more (EN 1990, 6.4.3.1): snow that lay
    # there last winter is no help against the wind that lifts today.
    lasting = found + kdef * dead
    counted = np.where(lasting * snow > 0.0, snow, 0.0)
    ends = lasting + psi_2 * kdef * counted
    for used in (np.abs(found) / instant, np.abs(ends) / final):
        i, k = divmod(greatest_place(used), len(dead))
        yield _Sag(
            part=part,
            stretch=k,
            case=cases[i],
            now_mm=float(found[i, k]),
            dead_mm=float(dead[k]),
            snow_mm=float(counted[i, k]),
            final_mm=abs(float(ends[i, k])),
            instant_limit_mm=instant[k],
            final_limit_mm=final[k],
        )


def _sag_step(forces: EavesForces, sag: _Sag) -> Step:
    span, tip = sag.part.span_of(sag.stretch)
    where = f"{'past the post' if tip else 'span'} {span:.0f} mm"
    e = forces.timber.e_0_mean_n_mm2 if forces.metal is None else forces.metal.e_n_mm2
    return Step(
        says="Sag at once",
        formula="w_inst, continuous over the posts",
        numbers=f"integrated by stiffness; {where}, E {e:g} N/mm2, {feet_words(sag.part, sag.case)[1]}",
        result=abs(sag.now_mm),
        unit="mm",
        clause="statics; EN 1995-1-1, 2.2.3",
    )


def inputs(ground: Ground, beam: EavesBeam) -> tuple[RestsOn, ...]:
    """What the beam's checks rest on.

    Parameters
    ----------
    ground, beam
        The inputs of every check, and the beam.

    Returns
    -------
    tuple of RestsOn
        Section, posts, timber, snow and wind.

    Source
    ------
    None: a list.
    """
    section = ground.parts.beam_section
    made: tuple[RestsOn, ...]
    if section is None:
        timber = ground.parts.timber_for("beam")
        made = (
            *of_beam(ground, beam.row),
            ground.of_catalogue(f"timbers.{timber.id}.class", timber.strength_class),
        )
    else:
        made = (
            ground.of_job("frame.beam_section", section.id),
            ground.of_catalogue(f"sections.{section.id}.metal", section.metal),
            ground.of_catalogue(f"sections.{section.id}.web_mm", section.web_mm),
        )
    return (
        *made,
        *of_posts(ground, beam.row),
        ground.of_snow(),
        ground.of_wind(),
    )
