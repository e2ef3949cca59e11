"""Beam, posts, bases, wall plate, wall fixings and the ends of the rafters, from one set of forces."""

from __future__ import annotations

from collections.abc import Iterator

from pentice.checks.beam import RULES as BEAM_RULES
from pentice.checks.beam import beam_checks
from pentice.checks.bracing import BRACING, bracing_checks, level_at_feet, pairs_kn
from pentice.checks.eaves import EavesForces, eaves_forces, why_not_solved
from pentice.checks.ground import Ground, Rule, Shown, open_check
from pentice.checks.held_down import RULES as HELD_RULES
from pentice.checks.held_down import held_down_checks
from pentice.checks.joints import RULES as JOINT_RULES
from pentice.checks.joints import joint_checks
from pentice.checks.metal import metal_of
from pentice.checks.metal_beam import metal_beam_checks
from pentice.checks.metal_posts import metal_post_checks
from pentice.checks.passed_on import passed_on, why_unknown
from pentice.checks.posts import BOWING, post_checks
from pentice.checks.racking import racking, why_no_racking
from pentice.checks.values import Check, Place
from pentice.checks.wall import FIXINGS, PLATE, wall_checks

_EAVES_RULES = (*BEAM_RULES, BRACING, BOWING, *HELD_RULES)


def frame_checks(ground: Ground) -> Iterator[Check]:
    """Every check from the ends of the rafters down to the ground and into the wall.

    Parameters
    ----------
    ground
        The inputs of every check.

    Yields
    ------
    Check
        Refused, with the key to give, where the job does not name the member.

    Source
    ------
    Each check names its own.
    """
    why, frame = why_unknown(ground), ground.frame
    if why:
        yield from _refused((*_EAVES_RULES, PLATE, FIXINGS, *JOINT_RULES), why)
        return
    loads = passed_on(ground)
    yield from joint_checks(ground, loads)
    if frame.beam is None:
        yield from _refused(_EAVES_RULES, "The beam is not named: give frame.beam_mm.")
    else:
        missing = why_not_solved(frame.beam)
        if missing:
            yield from _refused(_EAVES_RULES, missing)
        else:
            forces = eaves_forces(ground, frame.beam, loads)
            if forces.metal is None:
                yield from beam_checks(ground, forces)
            else:
                yield from metal_beam_checks(ground, forces, forces.metal)
            yield from _row_checks(ground, forces)
    if frame.plate is None:
        yield from _refused((PLATE, FIXINGS), "The wall plate is not named: give frame.wall_plate_mm.")
    else:
        yield from wall_checks(ground, frame.plate, loads)


def _row_checks(ground: Ground, forces: EavesForces) -> Iterator[Check]:
    """The row of posts: what holds it upright along the wall, what presses on it and what lifts it."""
    pairs, level = [0.0] * len(forces.beam.posts), None
    why = why_no_racking(ground, forces)
    if why:
        yield from _refused((BRACING,), why)
    else:
        push = racking(ground, forces)
        yield from bracing_checks(ground, forces, push)
        pairs, level = pairs_kn(ground, forces, push), level_at_feet(ground, forces, push)
    section = ground.parts.post_section
    if section is None:
        yield from post_checks(ground, forces, pairs)
    else:
        yield from metal_post_checks(ground, forces, metal_of(section), pairs)
    yield from held_down_checks(ground, forces, pairs, level)


def _refused(rules: tuple[Rule, ...], why: str) -> Iterator[Check]:
    for rule in rules:
        yield open_check(rule, Place(), "refused", Shown(says=why))
