"""How far wind lets the heads of posts sway that knee braces hold: by slip and play of the bolts, posts and beam bent.

EN 1990, A1.4.3 leaves the limit to client and national annex; here it is a share of the height.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from pentice.checks.eaves import EavesForces
from pentice.checks.ground import JUDGEMENT, PRACTICE, Ground, Rule, compared, open_check
from pentice.checks.knee_bolts import KneeBolts, Slip, brace_slip, knee_bolts, slip_across
from pentice.checks.knee_shown import SOLVED, Led, Spot, inputs, to_the_pair
from pentice.checks.knee_values import KneeLine, way_words
from pentice.checks.racking import Racking
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.standards.en338 import strength_class
from pentice.standards.en1995 import gamma_m
from pentice.working import Step

SWAY_LIMIT = 150.0
"""Height over sway, where the job sets none: common practice for light open roofs, no source."""
LEAST_ALPHA = 3.0
"""By the design value of stiffness; as in `pentice.checks.knee_frame`."""
_CLAUSE = "EN 1990, A1.4.3; EN 1995-1-1, 7.1; limit chosen"
ALONG = Rule(id="sway-along", name="Sway along the wall", member="frame", clause=_CLAUSE, unit="mm")
ACROSS = Rule(id="sway-across", name="Sway across", member="frame", clause=_CLAUSE, unit="mm")
_CURE = "Bolts that fit their holes tight, more or thicker ones, longer braces, or stiffer posts and beam."
_SHEETS = "How far bars and sheets can follow is not calculated: ask their makers."


def sway_along(ground: Ground, forces: EavesForces, push: Racking, rests: Sequence[RestsOn]) -> Check:
    """How far the heads of a row sway along it in wind, knee braces holding them.

    Parameters
    ----------
    ground, forces, push
        The inputs of every check, the beam with its posts, and the push along the wall.
    rests
        What the push rests on.

    Returns
    -------
    Check
        [mm]; refused where posts or beam are of metal, and where the row is too soft for its load.

    Source
    ------
    Work of the forces in equilibrium, one brace at each post and each post's moment all on one side of the beam: of
    any such forces the true ones do least, so it sways no further (least complementary work). Bolts: EN 1995-1-1, 7.1.
    """
    if forces.metal is not None or ground.parts.post_section is not None:
        why = "How far knee braces on posts or beams of metal slip and play is not calculated: ask who declares them."
        return open_check(ALONG, Place(), "refused", Shown(says=why, rests_on=tuple(rests)))
    slip, bolts, frame = brace_slip(ground, "beam"), knee_bolts(ground), ground.job.frame
    row = _row(ground, forces, push, slip)
    wind, limit = push.wind_kn, push.height_mm / (frame.sway_limit or SWAY_LIMIT)
    steps = [wind_step(push.parts, wind), *slip.working, *row.steps()]
    rests_on = (*rests, limit_input(ground))
    least = LEAST_ALPHA * stiffness_gamma(ground)
    if row.alpha < least:
        why = (
            f"The row sways away along under {row.alpha:.1f} times what presses on it; {least:.2g} or more is needed "
            "here. Take thicker posts or longer braces."
        )
        return open_check(
            ALONG, Place(), "refused", Shown(says=why, rests_on=rests_on, working=tuple(steps), cure=_CURE)
        )
    a, b = frame.knee_mm
    play = bolts.play_mm * push.height_mm / a * (a**2 + b**2) ** 0.5 / b
    sway = (wind * row.each_mm_kn + play) / (1.0 - 1.0 / row.alpha)

    def shown() -> Shown:
        working = (
            *steps,
            Step(
                says="Play of the bolts in their holes",
                formula="2 s h / a sqrt(a^2 + b^2) / b",
                numbers=f"2 x {bolts.hole_mm:g} x {push.height_mm:.1f} / {a:g} x sqrt({a:g}^2 + {b:g}^2) / {b:g}",
                result=play,
                unit="mm",
                clause=_PLAY,
            ),
            Step(
                says="Sways at the height of the beam",
                formula="(W e + play) / (1 - 1 / alpha)",
                numbers=f"({wind:.5f} x {row.each_mm_kn:.6f} + {play:.5f}) / (1 - 1 / {row.alpha:.4f})",
                result=sway,
                unit="mm",
                clause=f"EN 1995-1-1, 7.1; braces count once at each post, {JUDGEMENT}",
            ),
            limit_step(ground, push.height_mm, limit),
        )
        return Shown(says=_sheared(ground, sway), rests_on=rests_on, working=working, cure=_CURE)

    return compared(ALONG, Place(), demand=sway, capacity=limit, case="wind, characteristic", shown=shown)


def stiffness_gamma(ground: Ground) -> float:
    """What divides the mean stiffness of posts where second order is asked.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    float
        gamma_M of solid timber; 1 for metal [-].

    Source
    ------
    EN 1995-1-1:2004, 2.2.2(1), 2.4.1(2), eq. 2.15, from memory.
    """
    return gamma_m("solid") if ground.parts.post_section is None else 1.0


def alpha_along(ground: Ground, forces: EavesForces, push: Racking) -> float | None:
    """Load under which a row sways away that knee braces hold, over its load, by mean stiffness.

    Parameters
    ----------
    ground, forces, push
        As in `sway_along`.

    Returns
    -------
    float or None
        [-]; None where the row is braced otherwise, or posts or beam are of metal.

    Source
    ------
    As `sway_along`.
    """
    if ground.job.frame.bracing != "knee braces":
        return None
    if forces.metal is not None or ground.parts.post_section is not None:
        return None
    return _row(ground, forces, push, brace_slip(ground, "beam")).alpha


_PLAY = "EN 1995-1-1, Table 7.1, its footnote, from memory; s the width of a hole over its bolt, at both ends"


def _sheared(ground: Ground, sway_mm: float) -> str:
    """What the roof must follow, in words: beside a wall, which does not move, its rectangle turns."""
    if not ground.job.roof.attached:
        return _SHEETS
    slides = 1000.0 * sway_mm / ground.shape.projection_mm
    return f"The wall does not move: two bars a metre apart slide {slides:.1f} mm past each other. {_SHEETS}"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """How far a row leans for each kN [mm/kN], under how many times its load it sways away, and the lines of both."""

    each_mm_kn: float
    alpha: float
    steps: Callable[[], tuple[Step, ...]]


def _row(ground: Ground, forces: EavesForces, push: Racking, slip: Slip) -> _Row:
    (a, b), posts, h = ground.job.frame.knee_mm, forces.beam.posts, push.height_mm
    n, long = len(posts), posts[-1].x_mm - posts[0].x_mm
    wide, deep = posts[0].size_mm
    e_post = strength_class(ground.parts.timber_for("post").strength_class).e_0_mean_n_mm2
    (b_beam, h_beam), e_beam = forces.beam.size_mm, forces.timber.e_0_mean_n_mm2
    slips = 1000.0 / n * (h / a) ** 2 * (a**2 + b**2) / b**2 / slip.service_n_mm
    bends = 1000.0 / n * h * (h - a) ** 2 / (3.0 * e_post * deep * wide**3 / 12.0)
    beam = 1000.0 * (h / n) ** 2 * long / (3.0 * e_beam * b_beam * h_beam**3 / 12.0)
    each = slips + bends + beam
    alpha = h / (push.weight_kn * each) if push.weight_kn > 0.0 else 1e9
    by_work = "work of forces in equilibrium"

    def steps() -> tuple[Step, ...]:
        return (
            Step(
                says="Leans for each kN by slip of the bolts",
                formula="e_1 = (1 / n) (h / a)^2 (a^2 + b^2) / b^2 / K",
                numbers=f"1000 / {n} x ({h:.1f} / {a:g})^2 x ({a:g}^2 + {b:g}^2) / {b:g}^2 / {slip.service_n_mm:.3f}",
                result=slips,
                unit="mm",
                clause=by_work,
            ),
            Step(
                says="Leans for each kN by bending of the posts",
                formula="e_2 = (1 / n) h (h - a)^2 / (3 E d b^3 / 12)",
                numbers=f"1000 / {n} x {h:.1f} x ({h:.1f} - {a:g})^2 / (3 x {e_post:g} x {deep:g} x {wide:g}^3 / 12)",
                result=bends,
                unit="mm",
                clause=by_work,
            ),
            Step(
                says="Leans for each kN by bending of the beam",
                formula="e_3 = (h / n)^2 l / (3 E b h_b^3 / 12)",
                numbers=f"1000 x ({h:.1f} / {n})^2 x {long:.1f} / (3 x {e_beam:g} x {b_beam:g} x {h_beam:g}^3 / 12)",
                result=beam,
                unit="mm",
                clause=f"{by_work}; each post's moment all on one side of it, on the safe side",
            ),
            Step(
                says="Leans for each kN",
                formula="e = e_1 + e_2 + e_3",
                numbers=f"{slips:.6f} + {bends:.6f} + {beam:.6f}",
                result=each,
                unit="mm",
                clause="all of them",
            ),
            Step(
                says="Load under which the row sways away, over its load",
                formula="alpha = h / (N e)",
                numbers=f"{h:.1f} / ({push.weight_kn:.4f} x {each:.6f})"
                if push.weight_kn > 0.0
                else "10^9; no load",
                result=alpha,
                unit="",
                clause="as EN 1993-1-1, 5.2.1(4), from memory; N the design value",
            ),
        )

    return _Row(each_mm_kn=each, alpha=alpha, steps=steps)


def sway_across(ground: Ground, lines: Sequence[KneeLine], led: Led) -> Check:
    """How far a pair of posts sways across in wind, at its heads; of the pair that uses most of its limit.

    Parameters
    ----------
    ground, lines, led
        The inputs of every check, the braced pairs, and the push.

    Returns
    -------
    Check
        [mm].

    Source
    ------
    As `pentice.checks.knee_frame`, with the bolts' slip in service; their play by virtual work.
    """
    bolts, divisor = knee_bolts(ground), ground.job.frame.sway_limit or SWAY_LIMIT

    def of(line: KneeLine) -> tuple[float, float]:
        low = min(side.height_mm for side in line.sides)
        each, play = 1000.0 * line.sway_mm_n, bolts.play_mm * line.pulls_n_n
        return line.factor * (line.share * led.wind_kn * each + play), low / divisor

    worst = max(lines, key=lambda line: of(line)[0] / of(line)[1])
    sway, limit = of(worst)
    height = min(side.height_mm for side in worst.sides)

    def shown() -> Shown:
        working = (*_across_steps(ground, worst, led, bolts, sway), limit_step(ground, height, limit))
        rests_on = (*inputs(ground), limit_input(ground))
        return Shown(says=_SHEETS, rests_on=rests_on, working=working, cure=_CURE)

    place = Place(post=worst.sides[0].post.number)
    return compared(ACROSS, place, demand=sway, capacity=limit, case="wind, characteristic", shown=shown)


def _across_steps(
    ground: Ground, line: KneeLine, led: Led, bolts: KneeBolts, sway_mm: float
) -> Iterator[Step]:
    share, _, *stable = to_the_pair(led, Spot(line=line, way=3, load=0, place=0))
    wind = line.share * led.wind_kn
    softest = f"{SOLVED}; {way_words(3)}, or {way_words(7)}; foot pinned"
    yield wind_step(led.parts, led.wind_kn)
    yield share
    yield Step(
        says="Wind on this pair, characteristic",
        formula="s W",
        numbers=f"{line.share:.5f} x {led.wind_kn:.5f}",
        result=wind,
        unit="kN",
        clause="statics",
    )
    yield from ground.once(slip_across).working
    yield Step(
        says="Leans for each kN, in service",
        formula="e, plane frame",
        numbers=softest,
        result=1000.0 * line.sway_mm_n,
        unit="mm",
        clause="statics; the softest way",
    )
    yield Step(
        says="In both its braces for each kN, in size",
        formula="F_1 + F_2, plane frame",
        numbers=softest,
        result=line.pulls_n_n,
        unit="kN",
        clause="statics; the greatest",
    )
    play = bolts.play_mm * line.pulls_n_n
    yield Step(
        says="Play of the bolts in their holes",
        formula="2 s (F_1 + F_2)",
        numbers=f"2 x {bolts.hole_mm:g} x {line.pulls_n_n:.6f}",
        result=play,
        unit="mm",
        clause=f"virtual work; {_PLAY}",
    )
    yield from stable
    yield Step(
        says="Sways at its heads",
        formula="k (s W e + play)",
        numbers=f"{line.factor:.6f} x ({wind:.5f} x {1000.0 * line.sway_mm_n:.5f} + {play:.5f})",
        result=sway_mm,
        unit="mm",
        clause="EN 1995-1-1, 7.1",
    )


def wind_step(parts: str, wind_kn: float) -> Step:
    """The wind that pushes, as a line.

    Parameters
    ----------
    parts, wind_kn
        As a sum, and its value [kN].

    Returns
    -------
    Step
        Characteristic [kN].

    Source
    ------
    EN 1990:2002, eq. 6.14.

    Examples
    --------
    >>> wind_step("1 + 2", 3.0).numbers
    '1 + 2'
    """
    return Step(
        says="Wind that pushes, characteristic",
        formula="W = sum W",
        numbers=parts,
        result=wind_kn,
        unit="kN",
        clause="EN 1990, 6.14; see the push of the bracing",
    )


def limit_step(ground: Ground, height_mm: float, limit_mm: float) -> Step:
    """How far heads may sway, as a line.

    Parameters
    ----------
    ground, height_mm, limit_mm
        The inputs of every check, the height, and the limit [mm].

    Returns
    -------
    Step
        [mm].

    Source
    ------
    EN 1990, A1.4.3 leaves it to client and annex: the job's, or common practice, no source.
    """
    given = ground.job.frame.sway_limit
    chosen = f"typical, {PRACTICE}" if given is None else "of the job"
    return Step(
        says="Sway that is allowed",
        formula="h / limit",
        numbers=f"{height_mm:.1f} / {given or SWAY_LIMIT:g}",
        result=limit_mm,
        unit="mm",
        clause=f"EN 1990, A1.4.3 leaves it to client and annex; {chosen}",
    )


def limit_input(ground: Ground) -> RestsOn:
    """The limit of sway as an input: the job's, or a typical one.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    RestsOn
        [-].

    Source
    ------
    The job; else common practice, no source.
    """
    given = ground.job.frame.sway_limit
    return ground.of_job("frame.sway_limit", given or SWAY_LIMIT, typical=given is None)
