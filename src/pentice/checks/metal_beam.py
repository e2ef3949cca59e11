"""The eaves beam of steel or aluminium: bending with sideways buckling, shear, sag; not its web over a post."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from pentice.checks.beam import BEARING, BENDING, SHEAR, in_wind, inputs, sag_checks
from pentice.checks.beam_shown import knee_step, load_steps, moment_step, on_post_step
from pentice.checks.eaves import BeamPart, EavesForces
from pentice.checks.ground import JUDGEMENT, Ground, compared, open_check
from pentice.checks.metal import Carries, Metal, bending_carried, class_of, shear_carried
from pentice.checks.passed_on import Combined
from pentice.checks.values import Check, Place, Shown
from pentice.errors import OutsideScope
from pentice.standards.en1993 import steel_bending_with_shear_n_mm
from pentice.working import Step

_CURE = "A deeper or thicker section, or one more post."
_WEB = "Close the end of a tube or weld a stiffener, and fix the beam down on both sides of the post: it must not roll."


@dataclass(frozen=True, slots=True, kw_only=True)
class _Worst:
    """The combination that asks most: greatest moment and greatest shear of it, and what is left beside that shear."""

    case: Combined
    at_moment: tuple[BeamPart, int]
    at_shear: tuple[BeamPart, int]
    moment_n_mm: float
    shear_n: float
    knee_n: float
    """Of the shear what a knee brace adds."""
    carries_n_mm: float


def metal_beam_checks(
    ground: Ground, forces: EavesForces, metal: Metal, knee_n: float = 0.0
) -> Iterator[Check]:
    """Every check of a metal eaves beam at its worst place.

    Parameters
    ----------
    ground
        The inputs of every check.
    forces, metal
        What each combination does to it, and its section.
    knee_n
        What a knee brace at each post shears it and presses it on the post, as wind pushes the row [N].

    Yields
    ------
    Check
        One of each rule; refused where the section lies outside what is covered.

    Source
    ------
    EN 1993-1-1:2005, EN 1999-1-1:2007. Rafters are not counted as holding the beam: judgement, on the safe side.
    """
    longest = longest_free_mm(forces)
    try:
        number = class_of(metal, pushed=False)
        shear, bending = shear_carried(metal), bending_carried(metal, number=number, free_mm=longest)
    except OutsideScope as refusal:
        for rule in (BENDING, SHEAR):
            yield open_check(
                rule, Place(), "refused", Shown(says=str(refusal), rests_on=inputs(ground, forces.beam))
            )
    else:
        worst = _worst(forces, shear, bending, knee_n)
        yield _bending(ground, forces, metal, worst, shear, bending)
        yield _shear(ground, forces, metal, shear, knee_n)
    yield _web(ground, forces, knee_n)
    yield from sag_checks(ground, forces)


def _web(ground: Ground, forces: EavesForces, knee_n: float) -> Check:
    """What presses the beam's web onto a post, against what its maker or a designer declares for it."""
    acting = [i for i, c in enumerate(forces.cases) if c.combination.kind != "characteristic"]
    i, k = max(
        ((i, int(forces.reactions_n[i].argmax())) for i in acting),
        key=lambda at: float(forces.reactions_n[at]) + in_wind(forces.cases[at[0]], knee_n),
    )
    case, carried = forces.cases[i], max(float(forces.reactions_n[i, k]), 0.0)
    knee = in_wind(case, knee_n)
    force = (carried + knee) / 1000.0
    declared, place = ground.job.frame.beam_web_kn, Place(post=forces.beam.posts[k].number)
    rule = replace(BEARING, clause="declared value", edition="", unit="kN")
    rests = inputs(ground, forces.beam)
    if declared is None:
        why = f"The web must hold {force:.2f} kN over a post. Give frame.beam_web_kn, declared or shown by others."
        why = f"{why} {_WEB}"
        return open_check(
            rule, place, "refused", lambda: Shown(says=why, rests_on=rests), demand=force, case=case.words
        )

    def shown() -> Shown:
        return Shown(
            says=_WEB,
            rests_on=(*rests, ground.of_job("frame.beam_web_kn", declared)),
            working=(
                on_post_step(case, carried),
                *knee_step("On the post with the knee brace", carried, knee),
            ),
            cure="A stiffener over the post, or one more post.",
        )

    return compared(rule, place, demand=force, capacity=declared, case=case.words, shown=shown)


def longest_free_mm(forces: EavesForces) -> float:
    """The longest run of a beam that nothing holds upright.

    Parameters
    ----------
    forces
        The beam with its posts.

    Returns
    -------
    float
        Between posts; past the last one twice the length: judgement, no source [mm].

    Source
    ------
    Definition.
    """
    return max(
        span * (2.0 if tip else 1.0)
        for part in forces.parts
        for span, tip in (part.span_of(k) for k in range(len(part.model.nodes_mm) - 1))
    )


def _greatest(forces: EavesForces, i: int, what: str, knee_n: float = 0.0) -> tuple[float, BeamPart, int]:
    """The greatest of one combination, in size, and where [N, N mm]."""
    found = []
    for part in forces.parts:
        row = abs(getattr(part, what)[i])
        k = int(row.argmax())
        found.append((float(row[k]), part, k))
    amount, part, k = max(found, key=lambda f: f[0])
    return amount + in_wind(forces.cases[i], knee_n), part, k


def _worst(forces: EavesForces, shear: Carries, bending: Carries, knee_n: float) -> _Worst:
    best: tuple[float, _Worst] | None = None
    for i, case in enumerate(forces.cases):
        if case.combination.kind == "characteristic":
            continue
        moment, part, k = _greatest(forces, i, "within_n_mm")
        force, shear_part, n = _greatest(forces, i, "shears_n", knee_n)
        left = 0.0
        if force <= shear.value:
            left = steel_bending_with_shear_n_mm(bending.value, force, shear.value)
        used = moment / left if left > 0.0 else float("inf")
        if best is None or used > best[0]:
            found = _Worst(
                case=case,
                at_moment=(part, k),
                at_shear=(shear_part, n),
                moment_n_mm=moment,
                shear_n=force,
                knee_n=in_wind(case, knee_n),
                carries_n_mm=left,
            )
            best = (used, found)
    assert best is not None  # every annex has a strength combination
    return best[1]


def _shear_steps(part: BeamPart, stretch: int, shear_n: float, knee_n: float) -> tuple[Step, ...]:
    step = Step(
        says="Shear of the continuous beam",
        formula="V, over the posts as supports",
        numbers=f"integrated by stiffness; {part.where(stretch)}",
        result=(shear_n - knee_n) / 1000.0,
        unit="kN",
        clause="statics",
    )
    return (step, *knee_step("Shear with the knee brace", shear_n - knee_n, knee_n))


def _bending(
    ground: Ground, forces: EavesForces, metal: Metal, worst: _Worst, shear: Carries, bending: Carries
) -> Check:
    part, k = worst.at_moment
    # The clause for aluminium was not seen: its beams take that of steel, on the whole section.
    clause, beside = "6.2.5, 6.3.2", f"as for steel, EN 1993-1-1, 6.2.8, {JUDGEMENT}"
    if metal.is_steel:
        clause, beside = "6.2.5, 6.2.8, 6.3.2", f"{metal.standard}, 6.2.8"
    share = worst.shear_n / shear.value
    left = Step(
        says="Left beside the shear",
        formula="M_b,Rd (1 - (2 V / V_Rd - 1)^2) where V is over half of V_Rd",
        numbers=f"{bending.value / 1e6:.5f} x (1 - max(2 x {worst.shear_n / 1000:.4f} / "
        f"{shear.value / 1000:.4f} - 1, 0)^2)"
        if share <= 1.0
        else "0; the shear alone is more than the webs carry",
        result=worst.carries_n_mm / 1e6,
        unit="kNm",
        clause=beside,
    )
    working = (
        *load_steps(forces, part, worst.case),
        moment_step(part, k, worst.moment_n_mm),
        *_shear_steps(*worst.at_shear, worst.shear_n, worst.knee_n),
        *bending.working,
        *shear.working,
        left,
    )
    rule = replace(BENDING, clause=f"{metal.standard}, {clause}", edition=metal.edition, unit="kNm")
    return compared(
        rule,
        Place(),
        demand=worst.moment_n_mm / 1e6,
        capacity=worst.carries_n_mm / 1e6,
        case=f"{worst.case.words}, {part.where(k)}",
        shown=lambda: Shown(rests_on=inputs(ground, forces.beam), working=working, cure=_CURE),
    )


def _shear(ground: Ground, forces: EavesForces, metal: Metal, shear: Carries, knee_n: float) -> Check:
    acting = [i for i, c in enumerate(forces.cases) if c.combination.kind != "characteristic"]
    i = max(acting, key=lambda n: _greatest(forces, n, "shears_n", knee_n)[0])
    force, part, k = _greatest(forces, i, "shears_n", knee_n)
    working = (
        *load_steps(forces, part, forces.cases[i]),
        *_shear_steps(part, k, force, in_wind(forces.cases[i], knee_n)),
        *shear.working,
    )
    rule = replace(SHEAR, clause=f"{metal.standard}, 6.2.6", edition=metal.edition, unit="kN")
    return compared(
        rule,
        Place(),
        demand=force / 1000.0,
        capacity=shear.value / 1000.0,
        case=f"{forces.cases[i].words}, {part.where(k)}",
        shown=lambda: Shown(rests_on=inputs(ground, forces.beam), working=working, cure=_CURE),
    )
