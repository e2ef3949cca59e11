"""What leaning adds to the push on posts: second order, by the load under which they sway away."""

from __future__ import annotations

from dataclasses import replace

from pentice.checks.eaves import EavesForces
from pentice.checks.foot_sway import alpha_of_feet, held_row
from pentice.checks.ground import Ground
from pentice.checks.racking import Racking
from pentice.checks.sway import LEAST_ALPHA, alpha_along, stiffness_gamma
from pentice.working import Step

COUNTS = 10.0
"""From here up leaning is left out: EN 1993-1-1, 5.2.1(3), from memory; for timber judgement."""


def leaning(ground: Ground, alpha_0: float, push_kn: float) -> tuple[float, tuple[Step, ...]]:
    """A push with what leaning adds to it.

    Parameters
    ----------
    ground
        The inputs of every check.
    alpha_0
        Load under which the posts sway away, over their load, by mean stiffness [-].
    push_kn
        Without leaning [kN].

    Returns
    -------
    tuple
        With it [kN], and its lines; as it was, and none, where so little is left out. Posts so soft that how far they
        sway is refused take what those on the edge of it do: more load is never less push.

    Source
    ------
    EN 1993-1-1:2005, 5.2.2(5), from memory; for timber judgement, by the design value of stiffness: EN 1995-1-1,
    2.2.2(1), 2.4.1(2), from memory.
    """
    gamma = stiffness_gamma(ground)
    alpha = alpha_0 / gamma
    if alpha >= COUNTS:
        return push_kn, ()
    more = 1.0 / (1.0 - 1.0 / max(alpha, LEAST_ALPHA))
    return more * push_kn, (
        Step(
            says="Load under which they sway away, over their load, by the design value of stiffness",
            formula="alpha = alpha_0 / gamma_M, alpha_0: see how far they sway",
            numbers=f"{alpha_0:.4f} / {gamma:g}",
            result=alpha,
            unit="",
            clause="EN 1995-1-1, 2.4.1(2), from memory",
        ),
        Step(
            says="What leaning adds to the push",
            formula=f"k = 1 / (1 - 1 / alpha), alpha {LEAST_ALPHA:g} or more: softer posts are refused",
            numbers=f"1 / (1 - 1 / {max(alpha, LEAST_ALPHA):.4f})",
            result=more,
            unit="",
            clause="as EN 1993-1-1, 5.2.2(5), from memory; for timber judgement",
        ),
        Step(
            says="Push with leaning",
            formula="k H",
            numbers=f"{more:.6f} x {push_kn:.6f}",
            result=more * push_kn,
            unit="kN",
            clause="H of every line below is this",
        ),
    )


def leaned_along(ground: Ground, forces: EavesForces, push: Racking) -> Racking:
    """The push along a row with what leaning adds, where knee braces or held feet hold the row.

    Parameters
    ----------
    ground, forces, push
        The inputs of every check, the beam with its posts, and the push without it.

    Returns
    -------
    Racking
        [kN].

    Source
    ------
    As `leaning`.
    """
    if ground.job.frame.bracing == "fixed feet":
        held = held_row(ground, forces.beam.posts, push.height_mm)
        alpha: float | None = alpha_of_feet(ground, held, push.weight_kn)
    else:
        alpha = alpha_along(ground, forces, push)
    if alpha is None:
        return push
    pushed, steps = leaning(ground, alpha, push.push_kn)
    if not steps:
        return push
    pair = push.pair_kn * pushed / push.push_kn
    return replace(push, push_kn=pushed, pair_kn=pair, working=(*push.working, *steps))
