"""Posts that uplift pulls while wind or their bracing bends them.

Timber to EN 1995-1-1, 6.2.3; of metal the shares of pull and bending are added. What knee braces across do to a post
stands with them: `pentice.checks.knee_posts`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from pentice.checks.brought import Braced, brought_kn
from pentice.checks.eaves import EavesForces
from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared, open_check
from pentice.checks.held_down import Lift, braced, lifts_on
from pentice.checks.knee_bolts import Net, bolt_inputs
from pentice.checks.metal import Carries, Metal, class_of, metal_of
from pentice.checks.metal_bent import bent_carried
from pentice.checks.passed_on import Combined
from pentice.checks.post_sideways import Axis, Slender, k_crit_lines, slender_post
from pentice.checks.post_winds import PostWind, Way, blows_in, winds_on_post
from pentice.checks.posts import BENT_ABOUT, POST_SERVICE_CLASS, post_holds, post_strengths
from pentice.checks.rafter_shown import EDITION
from pentice.checks.rests import of_frame, of_post_material, of_posts
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.checks.worst import not_outdone
from pentice.errors import OutsideScope
from pentice.frame.values import Post
from pentice.records import quickly_made
from pentice.standards.en338 import StrengthClass, strength_class
from pentice.standards.en1995 import size_factor
from pentice.standards.en1995_members import (
    MemberShare,
    TimberForces,
    TimberSection,
    TimberStrengths,
    pulled_member,
)
from pentice.working import Step

PULLED = Rule(
    id="post-pulled",
    name="Post, pulled and bent in uplift",
    member="post",
    clause="EN 1995-1-1, 6.2.3, 6.3.3",
    unit="of 1",
    edition=EDITION,
)
_WHOLE = "The whole section counts: holes of bolts and cuts are not taken off."
_NET = "Holes of the knee brace's bolts are taken off, other holes and cuts are not."
_LINE = "EN 1993-1-1, 6.2.1(7), from memory: shares added in a straight line, on the safe side"
_CURE = "Thicker posts, or more of them."


@dataclass(frozen=True, slots=True, kw_only=True)
class Bends:
    """One thing that bends the posts of a row."""

    about: Axis
    moment_knm: Callable[[int, Combined], float]
    """In a post of the row, in a combination, in size [kNm]."""
    lifts: Sequence[Braced]
    """What it lifts at each post besides."""
    steps: Callable[[int, Combined], tuple[Step, ...]]
    """The lines that lead to the moment."""
    net: Net | None = None
    """What the bolts of knee braces leave of a timber post, bent as here."""


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class _Pulled:
    """One post in one combination: pull [N] and moment [N mm]."""

    k: int
    lift: Lift
    """Without what bracing lifts besides."""
    bends: Bends
    pull_n: float
    moment_n_mm: float


def bent_by_wind(ground: Ground, forces: EavesForces, lifts: Sequence[Braced]) -> Iterator[Bends]:
    """Wind on the front that the posts hold, or on themselves, each way by itself; no moment where none blows.

    Parameters
    ----------
    ground, forces
        The inputs of every check, and the row.
    lifts
        What the push on the row lifts at each post besides.

    Yields
    ------
    Bends
        [kNm].

    Raises
    ------
    OutsideScope
        As `pentice.checks.post_winds.front_winds`.

    Source
    ------
    As `pentice.checks.post_winds.winds_on_post`.
    """
    winds = [winds_on_post(ground, forces, k) for k in range(len(forces.beam.posts))]
    ways = {wind.way for of_post in winds for wind in of_post}
    for way in sorted(ways):
        yield _bent_one_way(forces, winds, way, lifts)


def _bent_one_way(
    forces: EavesForces, winds: Sequence[Sequence[PostWind]], way: Way, lifts: Sequence[Braced]
) -> Bends:
    def on(k: int, case: Combined) -> tuple[PostWind, float]:
        blows = [wind for wind in blows_in(winds[k], case.combination) if wind.way == way]
        return (blows[0] if blows else PostWind()), forces.beam.posts[k].length_mm or 0.0

    def moment(k: int, case: Combined) -> float:
        wind, length = on(k, case)
        return wind.moment_n_mm(case.combination.wind, length) / 1e6

    def steps(k: int, case: Combined) -> tuple[Step, ...]:
        wind, length = on(k, case)
        return wind.steps(case.combination.wind, length)

    return Bends(about=BENT_ABOUT[way], moment_knm=moment, lifts=lifts, steps=steps)


def pulled_post_checks(ground: Ground, forces: EavesForces, all_bends: Sequence[Bends]) -> Iterator[Check]:
    """The post of a row that uses most of its strength while it is pulled.

    Parameters
    ----------
    ground, forces
        The inputs of every check, and what each combination puts on the posts.
    all_bends
        What bends them, each with what it lifts besides.

    Yields
    ------
    Check
        None where no combination pulls at any post: what presses is checked by itself.

    Source
    ------
    EN 1995-1-1:2004, 6.2.3, and 6.3.3 added to it in full; EN 1993-1-1, 6.2.1(7), from memory: the shares of pull and
    bending added in a straight line, of aluminium too: judgement, on the safe side. A post's own weight is not counted
    against the pull at its head.
    """
    lifts = [lifts_on(ground, forces, k) for k in range(len(forces.beam.posts))]
    found = [pulled for bends in all_bends for pulled in _all_pulled(lifts, bends)]
    if not found:
        return
    section = ground.parts.post_section
    if section is not None:
        yield _of_metal(ground, forces, metal_of(section), found)
    else:
        yield _of_timber(ground, forces, found)


def _all_pulled(lifts: Sequence[Sequence[Lift]], bends: Bends) -> Iterator[_Pulled]:
    """Of each post and each combination for uplift, those that pull."""
    for k, of_post in enumerate(lifts):
        for lift in of_post:
            up = lift.up_kn + brought_kn(bends.lifts[k])
            pull = (up - lift.weight_kn) * 1000.0
            if pull > 0.0:
                moment = bends.moment_knm(k, lift.case) * 1e6
                yield _Pulled(k=k, lift=lift, bends=bends, pull_n=pull, moment_n_mm=moment)


def lift_steps(lift: Lift, by: Braced, pull_n: float) -> tuple[Step, ...]:
    """The lines of what pulls at the head of a post.

    Parameters
    ----------
    lift, by, pull_n
        What lifts without what bracing does, what bracing does, and the pull [N].

    Returns
    -------
    tuple of Step
        [kN].

    Source
    ------
    EN 1990:2002, 6.4.1(1)a and Table A1.2(A).
    """
    with_braces = braced(lift, by)
    return (
        *with_braces.steps(),
        *with_braces.weight_steps(),
        Step(
            says="Pulls at the head of the post",
            formula="N = what lifts - gamma G",
            numbers=f"{with_braces.up_kn:.4f} - ({with_braces.weight_kn:.4f}); its own weight not counted",
            result=pull_n / 1000.0,
            unit="kN",
            clause=f"{with_braces.case.combination.clause}; on the safe side",
        ),
    )


def _pull_steps(found: _Pulled) -> tuple[Step, ...]:
    steps = found.bends.steps(found.k, found.lift.case)
    return (*steps, *lift_steps(found.lift, found.bends.lifts[found.k], found.pull_n))


# Timber


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class _Used:
    """What a timber post uses of its strength."""

    share: MemberShare
    slender: Slender | None
    strengths: TimberStrengths
    used: float


def _used(timber: StrengthClass, post: Post, found: _Pulled) -> _Used:
    section = TimberSection(width_mm=post.size_mm[0], depth_mm=post.size_mm[1])
    about, strengths = found.bends.about, post_strengths(timber, found.lift.case)
    net = found.bends.net
    pulled, bent = (1.0, 1.0) if net is None else (net.pulled, net.bent)
    moment = found.moment_n_mm * bent
    y, z = (moment, 0.0) if about == "y" else (0.0, moment)
    acts = TimberForces(axial_n=found.pull_n * pulled, moment_y_n_mm=y, moment_z_n_mm=z)
    share = pulled_member(section, acts, strengths)
    slender = None
    if found.moment_n_mm:
        slender = slender_post(section, strengths, length_mm=post.length_mm or 0.0, about=about)
    bent, holds = _bent(share, about)
    k_crit = slender.k_crit if slender is not None else 1.0
    used = share.axial_n_mm2 / share.axial_strength_n_mm2 + bent / (k_crit * holds)
    return _Used(share=share, slender=slender, strengths=strengths, used=used)


def _bent(share: MemberShare, about: Axis) -> tuple[float, float]:
    """Bending stress and strength about the axis that is bent [N/mm2]."""
    if about == "y":
        return share.bending_y_n_mm2, share.strength_y_n_mm2
    return share.bending_z_n_mm2, share.strength_z_n_mm2


def _of_timber(ground: Ground, forces: EavesForces, all_found: Sequence[_Pulled]) -> Check:
    timber = strength_class(ground.parts.timber_for("post").strength_class)
    posts = forces.beam.posts
    asking = not_outdone(
        all_found,
        kind=lambda one: (one.k, id(one.bends), post_holds(one.lift.case)),
        amounts=lambda one: (one.pull_n, one.moment_n_mm),
    )
    found, of = max(
        ((found, _used(timber, posts[found.k], found)) for found in asking), key=lambda both: both[1].used
    )
    post = posts[found.k]

    def shown() -> Shown:
        working = (*_pull_steps(found), *_timber_steps(timber, post, found, of))
        says, net = _WHOLE if found.bends.net is None else _NET, found.bends.net
        if net is None and ground.job.frame.bracing == "knee braces":
            says += " Those of the knee braces are off where these bend it."
        rests_on = (
            *_inputs(ground, forces),
            *(() if net is None else (*of_frame(ground, "knee_mm"), *bolt_inputs(ground))),
        )
        return Shown(says=says, rests_on=rests_on, working=working, cure=_CURE)

    return compared(
        PULLED,
        Place(post=post.number),
        demand=of.used,
        capacity=1.0,
        case=found.lift.case.words,
        shown=shown,
    )


def _timber_steps(timber: StrengthClass, post: Post, found: _Pulled, of: _Used) -> tuple[Step, ...]:
    about, (b, d) = found.bends.about, post.size_mm
    thin, deep = (b, d) if about == "y" else (d, b)
    (bent, holds), share, net = _bent(of.share, about), of.share, found.bends.net
    area, of_area = "b d", f"{b:g} x {d:g}"
    square = "6 M / (b d^2)" if about == "y" else "6 M / (d b^2)"
    moment = f"6 x {found.moment_n_mm / 1e6:.6f} x 10^6 / ({thin:g} x {deep:g}^2)"
    if net is not None:
        area, of_area = (
            "d (b - n D)",
            f"{net.width_mm:g} x ({net.depth_mm:g} - {len(net.places_mm)} x {net.hole_mm:g})",
        )
        square, moment = "M / W_n", f"{found.moment_n_mm / 1e6:.6f} x 10^6 / {net.modulus_mm3:.1f}"
    factors = f"{of.strengths.k_mod:g} x {{k_h:.4f}} x {{f:g}} / {of.strengths.gamma_m:g}"
    steps = [
        Step(
            says="Stress from the pull",
            formula=f"sigma_t = N / ({area})",
            numbers=f"{found.pull_n:.1f} / ({of_area})",
            result=share.axial_n_mm2,
            unit="N/mm2",
            clause="6.1.2",
        ),
        Step(
            says="Strength in tension",
            formula="f_t,0,d = k_mod k_h f_t,0,k / gamma_M",
            numbers=factors.format(k_h=size_factor(max(b, d)), f=timber.f_t_0_k_n_mm2),
            result=share.axial_strength_n_mm2,
            unit="N/mm2",
            clause=f"2.4.1, 3.2(3) by the greater side; service class {POST_SERVICE_CLASS}",
        ),
    ]
    pulls = f"{share.axial_n_mm2:.4f} / {share.axial_strength_n_mm2:.3f}"
    if not found.moment_n_mm:
        last = ("sigma_t / f_t,0,d", pulls, "eq. 6.1; nothing bends it")
    else:
        steps += [
            *(() if net is None else (net.step(),)),
            Step(
                says="Stress from bending",
                formula=f"sigma_m = {square}",
                numbers=moment,
                result=bent,
                unit="N/mm2",
                clause="6.1.6",
            ),
            Step(
                says="Strength in bending",
                formula="f_m,d = k_mod k_h f_m,k / gamma_M",
                numbers=factors.format(k_h=size_factor(deep), f=timber.f_m_k_n_mm2),
                result=holds,
                unit="N/mm2",
                clause="2.4.1, 3.2(3)",
            ),
        ]
        slender, equation = of.slender, "6.17" if about == "y" else "6.18"
        last = (
            "sigma_t / f_t,0,d + sigma_m / f_m,d",
            f"{pulls} + {bent:.4f} / {holds:.3f}",
            f"eq. {equation}; all at its greatest at once",
        )
        if slender is not None:
            steps += k_crit_lines(slender, timber)
            last = (
                "sigma_t / f_t,0,d + sigma_m / (k_crit f_m,d)",
                f"{pulls} + {bent:.4f} / ({slender.k_crit:.4f} x {holds:.3f})",
                f"eq. {equation} with 6.33 added in full, on the safe side",
            )
    formula, numbers, clause = last
    steps.append(
        Step(
            says="Both together", formula=formula, numbers=numbers, result=of.used, unit="of 1", clause=clause
        )
    )
    return tuple(steps)


def _inputs(ground: Ground, forces: EavesForces) -> tuple[RestsOn, ...]:
    return (
        *of_posts(ground, forces.beam.row),
        of_post_material(ground),
        ground.of_wind(),
        *ground.of_side_wind(),
    )


# Metal


def _of_metal(ground: Ground, forces: EavesForces, metal: Metal, all_found: Sequence[_Pulled]) -> Check:
    rule = replace(PULLED, clause=f"{metal.standard}, 6.2, 6.3.2", edition=metal.edition)
    holds = metal.profile.area_mm2 * metal.strength_n_mm2 / metal.gamma
    try:
        number = class_of(metal, pushed=True)

        def used(found: _Pulled) -> tuple[float, Carries]:
            length = forces.beam.posts[found.k].length_mm or 0.0
            carries = bent_carried(metal, "across" if found.bends.about == "y" else "along", number, length)
            return found.pull_n / holds + found.moment_n_mm / carries.value, carries

        found = max(all_found, key=lambda one: used(one)[0])
        share, carries = used(found)
    except OutsideScope as refusal:
        return open_check(
            rule, Place(), "refused", Shown(says=str(refusal), rests_on=_inputs(ground, forces))
        )
    post = forces.beam.posts[found.k]

    def shown() -> Shown:
        area, f = metal.profile.area_mm2, metal.strength_n_mm2
        working = (
            *_pull_steps(found),
            Step(
                says="Resistance in tension",
                formula=f"N_t,Rd = A {metal.symbol} / gamma_M",
                numbers=f"{area:.2f} x {f:g} / {metal.gamma:g} / 1000",
                result=holds / 1000.0,
                unit="kN",
                clause=f"{metal.standard}, 6.2.3",
            ),
            *carries.working,
            Step(
                says="Both together",
                formula="N / N_t,Rd + M / M_Rd",
                numbers=f"{found.pull_n / 1000.0:.4f} / {holds / 1000.0:.4f} + "
                f"{found.moment_n_mm / 1e6:.6f} / {carries.value / 1e6:.5f}",
                result=share,
                unit="of 1",
                clause=_LINE if metal.is_steel else f"{_LINE}; of aluminium as of steel, {JUDGEMENT}",
            ),
        )
        return Shown(
            says=_WHOLE,
            rests_on=_inputs(ground, forces),
            working=working,
            cure="A thicker or wider section, or more posts.",
        )

    return compared(
        rule,
        Place(post=post.number),
        demand=share,
        capacity=1.0,
        case=found.lift.case.words,
        shown=shown,
    )
