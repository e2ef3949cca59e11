"""Posts of steel or aluminium bent by what braces them, along their beam or across the roof."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from pentice.checks.eaves import EavesForces
from pentice.checks.ground import Rule, compared, open_check
from pentice.checks.metal import Carries, Metal, bending_carried, class_of, metal_of, push_carried
from pentice.checks.passed_on import Combined
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.errors import OutsideScope
from pentice.frame.values import Post
from pentice.standards.en1993 import steel_post_share
from pentice.standards.en1999 import aluminium_post_share
from pentice.working import Step

Way = Literal["along", "across"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BentRow:
    """One row of posts, what bends each of them and what presses on it besides its beam."""

    forces: EavesForces
    moments_knm: Sequence[float]
    pairs_kn: Sequence[float]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Worst:
    """The post that uses most, in its combination."""

    share: float
    case: Combined
    post: Post
    force_n: float
    moment_n_mm: float
    push: Carries
    bent: Carries


def bent_metal_post(
    rule: Rule,
    metal: Metal,
    rows: Sequence[BentRow],
    *,
    way: Way,
    lengths: float,
    before: tuple[Step, ...],
    rests_on: tuple[RestsOn, ...],
) -> Check:
    """The metal post that uses most of its strength, bent one way and bowing.

    Parameters
    ----------
    rule
        What is asked: along the beam, or across the roof.
    metal
        Section of the posts.
    rows
        The rows, and what bends their posts.
    way
        Along the beam, or across.
    lengths
        Buckling length about the weaker axis in lengths of the post: 2 where its head can sway [-].
    before, rests_on
        Lines that lead to the moments, and the inputs.

    Returns
    -------
    Check
        Refused where the section or its slenderness lies outside what is covered.

    Source
    ------
    EN 1993-1-1:2005, 6.3.3; EN 1999-1-1, 6.3.3: as for posts that are not braced by bending.
    """
    try:
        worst = max(_all(metal, rows, way, lengths), key=lambda found: found.share)
    except OutsideScope as refusal:
        return open_check(
            rule, Place(), "refused", Shown(says=str(refusal), working=before, rests_on=rests_on)
        )

    def shown() -> Shown:
        n = f"{worst.force_n / 1000.0:.4f} / {worst.push.value / 1000.0:.4f}"
        m = f"{worst.moment_n_mm / 1e6:.6f} / {worst.bent.value / 1e6:.4f}"
        steel = metal.is_steel
        both = Step(
            says="Both together, all at its greatest at once",
            formula=f"{'n' if steel else 'n^0.8'} + (1 + 1.4 n) m, n = N / N_b,Rd, m = M / M_Rd",
            numbers=f"{n if steel else f'({n})^0.8'} + (1 + 1.4 x {n}) x {m}",
            result=worst.share,
            unit="of 1",
            clause=f"{metal.standard}, 6.3.3, on the safe side",
        )
        return Shown(
            rests_on=rests_on,
            working=(*before, *worst.push.working, *worst.bent.working, both),
            cure="A thicker or wider section, or more posts.",
        )

    return compared(
        replace(rule, clause=f"{metal.standard}, 6.3.1, 6.3.3", edition=metal.edition),
        Place(post=worst.post.number),
        demand=worst.share,
        capacity=1.0,
        case=worst.case.words,
        shown=shown,
    )


def _all(metal: Metal, rows: Sequence[BentRow], way: Way, lengths: float) -> Iterator[_Worst]:
    number = class_of(metal, pushed=True)
    for row in rows:
        cases = row.forces.cases
        acting = [i for i, c in enumerate(cases) if c.combination.kind == "strength"]
        # The push is the wind's: it goes with the combinations in which wind blows.
        acting = [i for i in acting if cases[i].combination.wind > 0.0] or acting
        for k, post in enumerate(row.forces.beam.posts):
            length = post.length_mm or 0.0
            push, bent = push_carried(metal, lengths * length), bent_carried(metal, way, number, length)
            moment = row.moments_knm[k] * 1e6
            for i in acting:
                force = (
                    float(row.forces.reactions_n[i, k]) + cases[i].combination.dead * metal.line_n_mm * length
                )
                force = max(force, 0.0) + row.pairs_kn[k] * 1000.0
                of_push, of_bending = force / push.value, moment / bent.value
                share = (
                    steel_post_share(push_share=of_push, bending_y_share=of_bending)
                    if metal.is_steel
                    else aluminium_post_share(push_share=of_push, bending_share=of_bending)
                )
                yield _Worst(
                    share=share,
                    case=cases[i],
                    post=post,
                    force_n=force,
                    moment_n_mm=moment,
                    push=push,
                    bent=bent,
                )


def bent_carried(metal: Metal, way: Way, number: int, length_mm: float) -> Carries:
    """What the section of a post carries bent across, or along its beam.

    Parameters
    ----------
    metal, way, number
        The section, the way it is bent, and its class [-].
    length_mm
        Between foot and beam [mm].

    Returns
    -------
    Carries
        [N mm]; along the beam a tube is turned round, an I-shape bent about its weak axis.

    Raises
    ------
    OutsideScope
        The section is too slender sideways.

    Source
    ------
    EN 1993-1-1:2005, EN 1999-1-1:2007, 6.2.5, 6.3.2.
    """
    if way == "across":
        return bending_carried(metal, number=number, free_mm=length_mm)
    section = metal.section
    if section.shape != "I":
        turned = section.model_copy(update={"width_mm": section.depth_mm, "depth_mm": section.width_mm})
        return bending_carried(metal_of(turned), number=number, free_mm=length_mm)
    modulus, f = metal.profile.w_z_mm3, metal.strength_n_mm2
    value = modulus * f / metal.gamma
    b, h, t, flange = section.width_mm, section.depth_mm, section.web_mm, section.flange_mm or section.web_mm
    steps = (
        Step(
            says="Elastic modulus about the weak axis",
            formula="W_el,z of the section, without radii",
            numbers=f"(2 x {flange:g} x {b:g}^3 + {h - 2.0 * flange:g} x {t:g}^3) / (6 x {b:g})",
            result=modulus,
            unit="mm3",
            clause=f"geometry; {metal.standard}, 6.2.5",
        ),
        Step(
            says="Bending resistance about the weak axis",
            formula=f"M_z,Rd = W_el,z {metal.symbol} / gamma_M",
            numbers=f"{modulus:.2f} x {f:g} / {metal.gamma:g} / 10^6",
            result=value / 1e6,
            unit="kNm",
            clause=f"{metal.standard}, 6.2.5; it cannot give way sideways",
        ),
    )
    return Carries(value=value, working=steps)
