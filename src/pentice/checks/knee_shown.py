"""Lines of working that the checks of knee braces across have alike, from the push down to the level force at a foot.

One number of each is the plane frame's own; all else follows from it by equilibrium of the post, and is printed so.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pentice.checks.ground import JUDGEMENT, Ground
from pentice.checks.knee_bolts import bolt_inputs
from pentice.checks.knee_values import KneeLine, KneeLoad, KneeSide, hinge_mm, way_words
from pentice.checks.rests import of_beam, of_frame, of_posts, of_roof
from pentice.checks.values import RestsOn
from pentice.standards.en1995 import gamma_m
from pentice.working import Step

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

STATICS = "equilibrium"
SOLVED = "integrated by stiffness"


@dataclass(frozen=True, slots=True, kw_only=True)
class Led:
    """What leads to the frames: push across on the whole roof [kN], lean [rad], what presses on both rows [kN].

    Besides the characteristic wind in the push [kN], and the same as a sum.
    """

    push_kn: float
    lean: float
    weight_kn: float
    wind_kn: float
    parts: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A pair of posts, one way to solve it, one load, and the side or the member of its rafter."""

    line: KneeLine
    way: int
    load: int
    place: int

    @property
    def acting(self) -> KneeLoad:
        """The load."""
        return self.line.loads[self.load]

    @property
    def side(self) -> KneeSide:
        """The post, where the place is a side."""
        return self.line.sides[self.place]

    def of(self, amounts: Array) -> float:
        """One of the line's arrays there."""
        return float(amounts[self.way, self.load, self.place])

    @property
    def level_n(self) -> float:
        """At the foot of the post, in size [N]."""
        return abs(self.of(self.line.level_n))

    @property
    def words(self) -> str:
        """The load in words."""
        load = self.acting
        push = f"pushed to the {load.towards}" if load.full else f"leaning to the {load.towards}"
        return f"{load.words}; {push}"


def greatest(lines: Sequence[KneeLine], of: Callable[[KneeLine], Array]) -> tuple[float, Spot]:
    """The greatest of an amount over all pairs, ways, loads and places.

    Parameters
    ----------
    lines, of
        The pairs, and what gives the amount of one, shape (8, loads, places).

    Returns
    -------
    tuple
        The amount and where it is.

    Source
    ------
    Definition.
    """
    import numpy as np

    found = []
    for line in lines:
        amounts = of(line)
        way, load, place = (int(n) for n in np.unravel_index(int(amounts.argmax()), amounts.shape))
        found.append((float(amounts.max()), Spot(line=line, way=way, load=load, place=place)))
    return max(found, key=lambda one: one[0])


def to_the_pair(led: Led, spot: Spot) -> tuple[Step, ...]:
    """From the push across on the whole roof to that on one pair of posts, and how far it leans.

    Parameters
    ----------
    led, spot
        The push, and where.

    Returns
    -------
    tuple of Step
        [kN], [-].

    Source
    ------
    Statics; EN 1993-1-1:2005, 5.2.2(5)B, from memory.
    """
    line, load = spot.line, spot.acting
    (n, off, here, squares), (_, stiff, fields) = line.even, line.shares
    push = f"{line.share:.5f} x {led.push_kn:.4f}"
    lean = f"{line.share:.5f} x {led.lean:.5f} x {led.weight_kn:.4f}"
    presses = " and ".join(f"{force / 1000.0:.3f}" for force in line.pressed_n)
    return (
        Step(
            says="Share of the push of this pair of posts",
            formula="max(1 / n + e x / sum x^2, posts that do not give, field by field)",
            numbers=f"max(1 / {n} + {off:.2f} x {here:.1f} / {squares:.1f}, {stiff:.5f}, {fields:.5f})",
            result=line.share,
            unit="",
            clause=f"statics of beams level over the pairs; the greatest counts, {JUDGEMENT}",
        ),
        Step(
            says=f"{'Push' if load.full else 'Push of leaning posts'} on this pair",
            formula="s H" if load.full else "s phi N",
            numbers=push if load.full else lean,
            result=load.push_n / 1000.0,
            unit="kN",
            clause=f"{STATICS}; H: see the knee braces across"
            if load.full
            else "EN 1995-1-1, 5.4.4; no wind across in this case; N: see the knee braces across",
        ),
        Step(
            says="Load under which it sways away, over its load",
            formula="alpha_0, plane frame with pressed posts",
            numbers=f"{SOLVED}; {presses} kN; {way_words(3)}, or {way_words(7)}; foot pinned",
            result=line.sways_at,
            unit="",
            clause="linear stability; mean stiffness",
        ),
        Step(
            says="The same with the design value of stiffness",
            formula="alpha = alpha_0 / gamma_M",
            numbers=f"{line.sways_at:.5f} / {gamma_m('solid'):g}",
            result=line.alpha,
            unit="",
            clause="EN 1995-1-1, 2.4.1(2), from memory",
        ),
        Step(
            says="What leaning adds to all forces of the pair",
            formula="k = 1 / (1 - 1 / alpha)",
            numbers=f"1 / (1 - 1 / {line.alpha:.4f})",
            result=line.factor,
            unit="",
            clause="as EN 1993-1-1, 5.2.2(5), from memory; for timber judgement",
        ),
    )


def solved_step(
    says: str, formula: str, value: float, spot: Spot, unit: str, where: str = ""
) -> tuple[Step, Step]:
    """A number of the plane frame as it is solved, and with what leaning adds.

    Parameters
    ----------
    says, formula, value
        What it is called, its symbol, and its size with what leaning adds.
    spot, unit, where
        Of which load and way, in what unit, and where in words.

    Returns
    -------
    tuple of Step
        In that unit.

    Source
    ------
    As `pentice.checks.knee_frame`.
    """
    load, factor = spot.acting, spot.line.factor
    pushed = f"{'pushed' if load.full else 'leaning'} to the {load.towards} at the {load.at}"
    return (
        Step(
            says=f"{says}, first order",
            formula=f"{formula}_1, plane frame",
            numbers=f"{SOLVED}; {where}{way_words(spot.way)}; {load.words}; {pushed}",
            result=value / factor,
            unit=unit,
            clause=f"statics; the worst of eight ways, {JUDGEMENT}",
        ),
        Step(
            says=f"{says}, with leaning",
            formula=f"k {formula}_1",
            numbers=f"{factor:.5f} x {value / factor:.6f}",
            result=value,
            unit=unit,
            clause="see above",
        ),
    )


def level_steps(led: Led, spot: Spot) -> tuple[Step, ...]:
    """From the push across to the level force at the foot of one post.

    Parameters
    ----------
    led, spot
        The push, and where.

    Returns
    -------
    tuple of Step
        The last is the level force [kN].

    Source
    ------
    As `pentice.checks.knee_frame`.
    """
    side, level = spot.side, spot.level_n / 1000.0
    where = f"post {side.post.number}; "
    crossing = Step(
        says="Middle lines of post and rafter cross, over the foot",
        formula="h = l + beam and half of the rafter over the post",
        numbers=f"{side.post.length_mm or 0.0:.2f} + {side.above_mm:.2f}",
        result=side.height_mm,
        unit="mm",
        clause="geometry",
    )
    solved = solved_step("Level at the foot", "X", level, spot, "kN", where)
    return (*to_the_pair(led, spot), crossing, *solved)


def brace_step(spot: Spot) -> Step:
    """The force in a brace, from the level force at the foot of its post.

    Parameters
    ----------
    spot
        Where.

    Returns
    -------
    Step
        In size [kN].

    Source
    ------
    Moments of the post about its hinge: X (h - d) = F b / L (a - d).
    """
    side, hinge = spot.side, hinge_mm(spot.side, spot.way)
    force = spot.of(spot.line.brace_n)
    long = f"sqrt({side.reach_mm:g}^2 + {side.rise_mm:.2f}^2) / {side.reach_mm:g}"
    return Step(
        says=f"In its brace, {'pulled' if force > 0.0 else 'pressed'}",
        formula="F = X (h - d) / (a - d) sqrt(b^2 + v^2) / b",
        numbers=f"{spot.level_n / 1000.0:.6f} x ({side.height_mm:.1f} - {hinge:.1f}) / "
        f"({side.down_mm:g} - {hinge:.1f}) x {long}",
        result=abs(force) / 1000.0,
        unit="kN",
        clause=f"{STATICS} of the post about its hinge, d below the crossing of the middle lines; v the brace's rise",
    )


def inputs(ground: Ground) -> tuple[RestsOn, ...]:
    """What every check of knee braces across rests on.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    tuple of RestsOn
        Posts, braces with their stiffness, sections, timber, snow and wind.

    Source
    ------
    None: a list.
    """
    frame, timber = ground.job.frame, ground.parts.timber_for("post")
    gives = frame.brace_across_n_mm
    return (
        *of_posts(ground),
        *dict.fromkeys((*of_beam(ground, "eaves"), *of_beam(ground, "head"))),
        *of_frame(ground, "rafter_mm"),
        *of_roof(ground, "width_mm", "pitch_deg", "head_height_mm"),
        ground.of_catalogue(f"timbers.{timber.id}.class", timber.strength_class),
        ground.of_job("frame.bracing_across", frame.bracing_across),
        ground.of_job("frame.knee_across_mm", frame.knee_across_mm),
        *(() if gives is None else (ground.of_job("frame.brace_across_n_mm", gives),)),
        *bolt_inputs(ground),
        ground.of_snow(),
        ground.of_wind(),
    )
