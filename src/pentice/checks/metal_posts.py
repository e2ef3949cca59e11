"""Posts of steel or aluminium: bowing under load with the wind that blows on them, or on the front that they hold."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from pentice.checks.brought import Brought
from pentice.checks.eaves import EavesForces
from pentice.checks.ground import Ground, compared, open_check
from pentice.checks.metal import Carries, Metal, class_of, push_carried
from pentice.checks.metal_bent import bent_carried
from pentice.checks.passed_on import Combined
from pentice.checks.post_winds import PostWind, Way, blows_in, winds_on_post
from pentice.checks.posts import (
    BOWING,
    LENGTH_UNKNOWN,
    beside_a_drive,
    push_steps,
)
from pentice.checks.rests import of_posts
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.errors import OutsideScope
from pentice.standards.en1993 import steel_post_share
from pentice.standards.en1999 import aluminium_post_share
from pentice.working import Step


@dataclass(frozen=True, slots=True, kw_only=True)
class _Used:
    """One post in one combination: what its beam brings and the push in all [N], and the wind on it."""

    case: Combined
    beam_n: float
    force_n: float
    wind: PostWind
    share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Holds:
    """One post of the row: what it holds pushed [N] and bent either way [N mm], and the winds on it."""

    k: int
    push: Carries
    bent: Mapping[Way, Carries]
    winds: Sequence[PostWind]


def metal_post_checks(
    ground: Ground, forces: EavesForces, metal: Metal, pairs: Sequence[Brought]
) -> Iterator[Check]:
    """Bowing of every post.

    Parameters
    ----------
    ground
        The inputs of every check.
    forces, metal
        What each combination puts on the posts, and their section.
    pairs
        What the push along the wall presses on each post besides [kN].

    Yields
    ------
    Check
        One for each post; refused where its length is not known or its section lies outside what is covered.

    Source
    ------
    EN 1993-1-1:2005, 6.3.3; EN 1999-1-1, 6.3.3; both ends pinned. Wind on a closed front, or on a post that stands
    free, bends it one way at a time.
    """
    for k, post in enumerate(forces.beam.posts):
        place = Place(post=post.number)
        if post.length_mm is None:
            yield open_check(BOWING, place, "refused", Shown(says=LENGTH_UNKNOWN))
            continue
        try:
            number = class_of(metal, pushed=True)
            push = push_carried(metal, post.length_mm)
            winds = winds_on_post(ground, forces, k)
            bent: dict[Way, Carries] = {
                wind.way: bent_carried(
                    metal, "across" if wind.way == "square" else "along", number, post.length_mm
                )
                for wind in winds
            }
            bent.setdefault("square", bent_carried(metal, "across", number, post.length_mm))
        except OutsideScope as refusal:
            shown = Shown(says=str(refusal), rests_on=_inputs(ground, forces))
            yield open_check(BOWING, place, "refused", shown)
            continue
        yield _bowing(ground, forces, metal, _Holds(k=k, push=push, bent=bent, winds=winds), pairs[k])


def _bowing(
    ground: Ground,
    forces: EavesForces,
    metal: Metal,
    of: _Holds,
    pair: Brought,
) -> Check:
    k, push, bent = of.k, of.push, of.bent
    post = forces.beam.posts[k]
    length = post.length_mm or 0.0
    weight = metal.line_n_mm * length

    def used(i: int, wind: PostWind) -> _Used:
        case = forces.cases[i]
        racked = pair.kn * 1000.0 if case.combination.kind == "strength" else 0.0
        force = max(float(forces.reactions_n[i, k]) + case.combination.dead * weight + racked, 0.0)
        moment = wind.moment_n_mm(case.combination.wind, length)
        of_push, of_bending = force / push.value, moment / bent[wind.way].value
        if metal.is_steel:
            share = steel_post_share(push_share=of_push, bending_y_share=of_bending)
        else:
            share = aluminium_post_share(push_share=of_push, bending_share=of_bending)
        return _Used(case=case, beam_n=float(forces.reactions_n[i, k]), force_n=force, wind=wind, share=share)

    acting = [i for i, c in enumerate(forces.cases) if c.combination.kind != "characteristic"]
    worst = max(
        (used(i, wind) for i in acting for wind in blows_in(of.winds, forces.cases[i].combination)),
        key=lambda w: w.share,
    )
    rule = replace(BOWING, clause=f"{metal.standard}, 6.3.1, 6.3.3", edition=metal.edition)

    def shown() -> Shown:
        carries, factor = bent[worst.wind.way], worst.case.combination.wind
        working = (
            *push_steps(ground, post, worst.case, worst.beam_n, pair),
            *worst.wind.steps(factor, length),
            *push.working,
            *carries.working,
            _both_step(metal, worst, push.value, worst.wind.moment_n_mm(factor, length), carries.value),
        )
        return Shown(
            says=beside_a_drive(ground),
            rests_on=_inputs(ground, forces),
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


def _both_step(metal: Metal, worst: _Used, carries_n: float, moment_n_mm: float, bent_n_mm: float) -> Step:
    n = f"{abs(worst.force_n) / 1000.0:.4f} / {carries_n / 1000.0:.4f}"
    m = f"{moment_n_mm / 1e6:.4f} / {bent_n_mm / 1e6:.4f}"
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


def _inputs(ground: Ground, forces: EavesForces) -> tuple[RestsOn, ...]:
    section = ground.parts.post_section
    assert section is not None  # asked only of metal posts
    return (
        ground.of_job("frame.post_section", section.id),
        *of_posts(ground, forces.beam.row),
        ground.of_catalogue(f"sections.{section.id}.metal", section.metal),
        ground.of_catalogue(f"sections.{section.id}.web_mm", section.web_mm),
        ground.of_snow(),
        ground.of_wind(),
        *ground.of_side_wind(),
    )
