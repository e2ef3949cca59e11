"""Posts of steel or aluminium: bowing under load with the wind on a closed front."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from pentice.checks.eaves import EavesForces
from pentice.checks.ground import Ground, compared, open_check
from pentice.checks.metal import Carries, Metal, bending_carried, class_of, push_carried
from pentice.checks.passed_on import Combined
from pentice.checks.posts import (
    BOWING,
    LENGTH_UNKNOWN,
    beside_a_drive,
    front_line_n_mm,
    push_step,
    wind_step,
)
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.errors import OutsideScope
from pentice.standards.en1993 import steel_post_share
from pentice.standards.en1999 import aluminium_post_share
from pentice.working import Step


@dataclass(frozen=True, slots=True, kw_only=True)
class _Used:
    """One post in one combination: what its beam brings and the push in all [N], moment [N mm]."""

    case: Combined
    beam_n: float
    force_n: float
    moment_n_mm: float
    share: float


def metal_post_checks(
    ground: Ground, forces: EavesForces, metal: Metal, pairs_kn: Sequence[float]
) -> Iterator[Check]:
    """Bowing of every post.

    Parameters
    ----------
    ground
        The inputs of every check.
    forces, metal
        What each combination puts on the posts, and their section.
    pairs_kn
        What the push along the wall presses on each post besides [kN].

    Yields
    ------
    Check
        One for each post; refused where its length is not known or its section lies outside what is covered.

    Source
    ------
    EN 1993-1-1:2005, 6.3.3; EN 1999-1-1, 6.3.3; both ends pinned. Wind on a closed front bends the post.
    """
    for k, post in enumerate(forces.beam.posts):
        place = Place(post=post.number)
        if post.length_mm is None:
            yield open_check(BOWING, place, "refused", Shown(says=LENGTH_UNKNOWN))
            continue
        try:
            number = class_of(metal, pushed=True)
            push = push_carried(metal, post.length_mm)
            bent = bending_carried(metal, number=number, free_mm=post.length_mm)
        except OutsideScope as refusal:
            shown = Shown(says=str(refusal), rests_on=_inputs(ground))
            yield open_check(BOWING, place, "refused", shown)
            continue
        yield _bowing(ground, forces, metal, k, push, bent, pairs_kn[k])


def _bowing(
    ground: Ground,
    forces: EavesForces,
    metal: Metal,
    k: int,
    push: Carries,
    bent: Carries,
    pair_kn: float,
) -> Check:
    post, wind = forces.beam.posts[k], front_line_n_mm(ground, forces, k)
    length = post.length_mm or 0.0
    weight = metal.line_n_mm * length

    def used(i: int) -> _Used:
        case = forces.cases[i]
        racked = pair_kn * 1000.0 if case.combination.kind == "strength" else 0.0
        force = max(float(forces.reactions_n[i, k]) + case.combination.dead * weight + racked, 0.0)
        moment = case.combination.wind * wind * length**2 / 8.0
        if metal.is_steel:
            share = steel_post_share(push_share=force / push.value, bending_y_share=moment / bent.value)
        else:
            share = aluminium_post_share(push_share=force / push.value, bending_share=moment / bent.value)
        return _Used(
            case=case, beam_n=float(forces.reactions_n[i, k]), force_n=force, moment_n_mm=moment, share=share
        )

    acting = [i for i, c in enumerate(forces.cases) if c.combination.kind != "characteristic"]
    worst = max((used(i) for i in acting), key=lambda w: w.share)
    rule = replace(BOWING, clause=f"{metal.standard}, 6.3.1, 6.3.3", edition=metal.edition)

    def shown() -> Shown:
        working = (
            push_step(worst.case, worst.beam_n, weight, pair_kn),
            wind_step(ground, worst.case, wind, length, worst.moment_n_mm),
            *push.working,
            *bent.working,
            _both_step(metal, worst, push.value, bent.value),
        )
        return Shown(
            says=beside_a_drive(ground),
            rests_on=_inputs(ground),
            working=working,
            cure="A thicker or wider section, or one more post.",
        )

    return compared(
        rule,
        Place(post=post.number),
        demand=worst.share,
        capacity=1.0,
        case=worst.case.words,
        shown=shown,
    )


def _both_step(metal: Metal, worst: _Used, carries_n: float, bent_n_mm: float) -> Step:
    n = f"{abs(worst.force_n) / 1000.0:.4f} / {carries_n / 1000.0:.4f}"
    m = f"{worst.moment_n_mm / 1e6:.4f} / {bent_n_mm / 1e6:.4f}"
    if metal.is_steel:
        formula = "n + (1 + 1.4 n) m, n = N / N_b,Rd, m = M / M_b,Rd"
        numbers = f"{n} + (1 + 1.4 x {n}) x {m}"
    else:
        formula = "n^0.8 + (1 + 1.4 n) m, n = N / N_b,Rd, m = M / M_b,Rd"
        numbers = f"({n})^0.8 + (1 + 1.4 x {n}) x {m}"
    return Step(
        says="Both together",
        formula=formula,
        numbers=numbers,
        result=worst.share,
        unit="of 1",
        clause=f"{metal.standard}, 6.3.3, on the safe side",
    )


def _inputs(ground: Ground) -> tuple[RestsOn, ...]:
    section = ground.parts.post_section
    assert section is not None  # asked only of metal posts
    return (
        ground.of_job("frame.post_section", section.id),
        ground.of_job("frame.posts_at_mm", ground.job.frame.posts_at_mm),
        ground.of_catalogue(f"sections.{section.id}.metal", section.metal),
        ground.of_catalogue(f"sections.{section.id}.web_mm", section.web_mm),
        ground.of_snow(),
        ground.of_wind(),
        *ground.of_side_wind(),
    )
