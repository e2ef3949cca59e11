"""What the push along a row brings to its posts, each force with the line it comes from."""

from __future__ import annotations

from pentice.checks.bracing import knee_n, pairs_kn, widest_bay_mm
from pentice.checks.brought import KNEE, PAIR, Brought
from pentice.checks.eaves import EavesForces
from pentice.checks.ground import Ground
from pentice.checks.pads_values import AtFoot
from pentice.checks.racking import Racking
from pentice.working import Step


def pairs_along(ground: Ground, forces: EavesForces, push: Racking) -> list[Brought]:
    """What the push lifts or presses at each post, as `pairs_kn`, with the line that it comes from.

    Parameters
    ----------
    ground, forces, push
        As in `pairs_kn`.

    Returns
    -------
    list of Brought
        For each post [kN].

    Source
    ------
    As `pairs_kn`.
    """
    posts = forces.beam.posts
    apart = (
        widest_bay_mm(forces) if ground.job.frame.bracing == "diagonal" else posts[-1].x_mm - posts[0].x_mm
    )
    numbers = f"{push.push_kn:.4f} x {push.height_mm:.1f} / {max(apart, 1.0):.1f}"
    return [
        Brought(says=PAIR, kn=kn, formula="H h / L", numbers=numbers) for kn in pairs_kn(ground, forces, push)
    ]


def knee_lift(ground: Ground, forces: EavesForces, push: Racking) -> Brought:
    """What a knee brace lifts its beam off the post by, as `knee_n`, with the line it comes from.

    Parameters
    ----------
    ground, forces, push
        As in `knee_n`.

    Returns
    -------
    Brought
        [kN].

    Source
    ------
    As `knee_n`.
    """
    reach = ground.job.frame.knee_mm[1]
    return Brought(
        says=KNEE,
        kn=knee_n(ground, forces, push) / 1000.0,
        formula="H h / n b",
        numbers=f"{push.push_kn:.4f} x {push.height_mm:.1f} / {len(forces.beam.posts)} / {reach:g}",
    )


def feet_along(ground: Ground, forces: EavesForces, push: Racking) -> list[AtFoot]:
    """What the push along the wall brings to each foot: level, and as a moment where the foot is held.

    Parameters
    ----------
    ground
        The inputs of every check.
    forces
        The beam with its posts.
    push
        Along the wall.

    Returns
    -------
    list of AtFoot
        For each post [kN, kNm]: an even share; with a diagonal all of it at each post that may hold its foot.

    Source
    ------
    Equilibrium. Where others have shown the bracing, and where none is named, the feet share evenly: judgement.
    """
    posts, kind = forces.beam.posts, ground.job.frame.bracing
    each = push.push_kn / len(posts)
    levels = [each] * len(posts)
    if kind == "diagonal":
        levels = [push.push_kn if pair else 0.0 for pair in pairs_kn(ground, forces, push)]
    moment = each * push.height_mm / 1000.0 if kind == "fixed feet" else 0.0
    turned = Step(
        says="At its foot",
        formula="M = H h / n",
        numbers=f"{push.push_kn:.4f} x {push.height_mm:.1f} / 1000 / {len(posts)}",
        result=moment,
        unit="kNm",
        clause="equilibrium; H: see the bracing",
    )
    return [
        AtFoot(
            says=f"the push {ground.along}",
            along_kn=level,
            along_knm=moment,
            formula="H / n",
            numbers=f"{push.push_kn:.5f} / {push.push_kn / level:g}" if level else "",
            before=(turned,) if moment else (),
        )
        for level in levels
    ]
