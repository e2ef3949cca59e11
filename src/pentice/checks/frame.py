"""Beam, posts, bases, wall plate, wall fixings and the ends of the rafters, from one set of forces."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from pentice.checks.across import Across, across, at_feet, why_no_across
from pentice.checks.across_checks import RULES as ACROSS_RULES
from pentice.checks.across_checks import across_checks, bent_across
from pentice.checks.bare_roof import without_the_snow
from pentice.checks.beam import RULES as BEAM_RULES
from pentice.checks.beam import beam_checks
from pentice.checks.bracing import BRACING, bends_along, bent_along, bracing_checks, knee_n
from pentice.checks.bracing_brings import feet_along, knee_lift, pairs_along
from pentice.checks.bracing_posts import BENT as RACKED
from pentice.checks.brought import PAIR, Braced, Brought, brought_kn, of_frames
from pentice.checks.eaves import EavesForces, eaves_forces, why_not_solved
from pentice.checks.front_beam import front_beam_checks
from pentice.checks.ground import Ground, Rule, open_check
from pentice.checks.held_down import RULES as HELD_RULES
from pentice.checks.held_down import held_down_checks
from pentice.checks.joints import FREE_RULES, HEAD_TIE, TIE, UP, joint_checks
from pentice.checks.joints import RULES as JOINT_RULES
from pentice.checks.knees_across import KneesAcross
from pentice.checks.leaning import leaned_along
from pentice.checks.level_heads import at_heads, with_square
from pentice.checks.level_posts import LEVEL_RULES as POST_LEVEL_RULES
from pentice.checks.level_rafters import FREE_LEVEL_RULES, LEVEL_RULES, Pushes, rafter_level_checks
from pentice.checks.metal import metal_of
from pentice.checks.metal_beam import metal_beam_checks
from pentice.checks.metal_posts import metal_post_checks
from pentice.checks.onto_posts import with_lower_half
from pentice.checks.pads import PRESSURE
from pentice.checks.pads_values import AtFoot
from pentice.checks.passed_on import passed_on, why_snow_unknown, with_own_area
from pentice.checks.post_winds import why_no_front
from pentice.checks.posts import BOWING, post_checks
from pentice.checks.pulled_posts import PULLED, bent_by_wind, pulled_post_checks
from pentice.checks.racking import Racking, racking, why_no_racking
from pentice.checks.values import Check, Place, Shown
from pentice.checks.wall import FIXINGS, PLATE, wall_checks
from pentice.checks.wall_posts import PRESSED as WALLS_PRESSED
from pentice.checks.wall_posts import PULLED as WALLS_PULLED
from pentice.checks.wall_posts import acting_on_posts, feet_in_walls, has_closed_end, wall_post_checks
from pentice.checks.wall_posts_values import Braces
from pentice.errors import OutsideScope
from pentice.frame.values import EavesBeam

_ACROSS = "rise of the beam at a knee brace across"
_EAVES_RULES = (*BEAM_RULES, BRACING, BOWING, PULLED, *HELD_RULES)
_BY_SNOW_TOO = {rule.id for rule in (PRESSURE, *POST_LEVEL_RULES)}
_LIFTED = {rule.id for rule in (UP, TIE, HEAD_TIE, PULLED, WALLS_PULLED, *HELD_RULES)} - _BY_SNOW_TOO
"""What asks most on a bare roof: snow makes a row of posts lean more, and presses it down by far more than that."""


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
    wind, snow = ground.loads.wind.refused, why_snow_unknown(ground)
    attached = ground.job.roof.attached
    if wind:
        yield from _refused(_eaves_rules(ground), wind)
        rest = (PLATE, FIXINGS, *JOINT_RULES, *LEVEL_RULES)
        yield from _refused(rest if attached else (*FREE_RULES, *FREE_LEVEL_RULES, *ACROSS_RULES), wind)
        return
    if not snow:
        yield from _checks(ground)
        return
    for check in _checks(ground.without_snow()):
        yield without_the_snow(check, snow, lifts=check.id.removeprefix("head-") in _LIFTED)


def _checks(ground: Ground) -> Iterator[Check]:
    """All of them, wind and snow known."""
    frame, attached = ground.frame, ground.job.roof.attached
    loads = passed_on(ground)
    own = with_own_area(ground, loads)
    yield from _named(ground, joint_checks(ground, own))
    beams = (frame.beam,) if attached else (frame.beam, frame.head_beam)
    missing = [_missing(beam) for beam in beams]
    rows = [
        eaves_forces(ground, beam, loads)
        for beam, lacks in zip(beams, missing, strict=True)
        if beam is not None and not lacks
    ]
    for beam, lacks in zip(beams, missing, strict=True):
        if lacks:
            checks = _refused(_eaves_rules(ground), lacks)
            row = "eaves" if beam is frame.beam else "head"
            yield from checks if attached else _of_row(checks, row)
    pushed, why = None, ""
    if not attached:
        why = why_no_across(ground, rows)
        pushed = None if why else across(ground, rows)
    pushes = None if attached else Pushes(push_kn=0.0 if pushed is None else pushed.push_kn, refused=why)
    yield from _named(ground, rafter_level_checks(ground, own, pushes))
    racked: list[float] = []
    for forces in rows:
        of_row = list(_row_checks(ground, forces, rows, pushed))
        of_row += front_beam_checks(ground, forces, of_row)
        along = (RACKED.id, PULLED.id)
        racked += [check.demand for check in of_row if check.id in along and check.demand is not None]
        yield from of_row if attached else _of_row(of_row, forces.beam.row)
    if pushed is not None:
        yield from across_checks(ground, rows, pushed, max(racked, default=None))
    elif not attached:
        yield from _refused(ACROSS_RULES, why)
    elif frame.plate is None:
        yield from _refused((PLATE, FIXINGS), "The wall plate is not named: give frame.wall_plate_mm.")
    else:
        yield from wall_checks(ground, frame.plate, loads)


def _eaves_rules(ground: Ground) -> tuple[Rule, ...]:
    return (*_EAVES_RULES, WALLS_PRESSED) if has_closed_end(ground) else _EAVES_RULES


def _named(ground: Ground, checks: Iterable[Check]) -> Iterator[Check]:
    """Ends of rafters, or of the bars that stand in their place."""
    for check in checks:
        if not ground.parts.bar.carries:
            yield check
            continue
        place = replace(check.place, rafter=None, bar=check.place.rafter)
        yield replace(check, name=check.name.replace("Rafter", "Bar"), place=place)


def _missing(beam: EavesBeam | None) -> str:
    return "The beam is not named: give frame.beam_mm." if beam is None else why_not_solved(beam)


def _of_row(checks: Iterable[Check], row: str) -> Iterator[Check]:
    """The same rules for a row of a free-standing roof, that at its head named apart; its posts have own numbers."""
    for check in checks:
        name = check.name.replace("along the wall", f"along the {row}")
        if row == "eaves" or (check.place.post is not None and check.member != "beam"):
            yield check if name == check.name else replace(check, name=name)
        else:
            yield replace(check, id=f"head-{check.id}", name=name.replace("Eaves beam", "Head beam"))


def _row_checks(
    ground: Ground, forces: EavesForces, rows: Sequence[EavesForces], pushed: Across | None
) -> Iterator[Check]:
    """One row of posts under its beam: the beam, what holds the row upright, what presses on it and what lifts it."""
    count = len(forces.beam.posts)
    pairs = [Brought(says=PAIR, kn=0.0)] * count
    feet: list[list[AtFoot]] | None = None
    heads: list[list[AtFoot]] | None = None
    why = why_no_racking(ground, forces)
    push = None if why else leaned_along(ground, forces, racking(ground, forces))
    knee = 0.0 if push is None else knee_n(ground, forces, push)
    knees: KneesAcross | None = None
    if forces.metal is None:
        yield from beam_checks(ground, forces, knee)
    else:
        yield from metal_beam_checks(ground, forces, forces.metal, knee)
    if push is None:
        closed = (WALLS_PRESSED,) if has_closed_end(ground) else ()
        yield from _refused((BRACING, PULLED, *closed), why)
    else:
        yield from bracing_checks(ground, forces, push)
        pairs = pairs_along(ground, forces, push)
        feet = [[one] for one in feet_along(ground, forces, push)]
        heads = with_square(at_heads(ground, forces, push), _across_at_heads(rows, forces, pushed))
    if pushed is not None and feet is not None:
        row = 1 if forces.beam.row == "head" else 0
        along = pairs
        pairs = [max(both, key=lambda pair: pair.kn) for both in zip(pairs, pushed.pairs(row), strict=True)]
        feet = [list(at_feet(rows, pushed, row, k, found[0])) for k, found in enumerate(feet)]
        knees = pushed.knees
    elif not ground.job.roof.attached:
        feet = heads = None
    unknown = why_no_front(ground, forces)
    feet = None if unknown else _with_wind(ground, forces, feet)
    heads = None if unknown else heads
    section = ground.parts.post_section
    if section is None:
        yield from post_checks(ground, forces, pairs)
    else:
        yield from metal_post_checks(ground, forces, metal_of(section), pairs)
    brace = Brought(says="", kn=0.0) if push is None else knee_lift(ground, forces, push)
    ties: list[Braced] = [(pair, brace) for pair in pairs]
    if knees is not None:
        ties = _ties_by_knees(forces, knees, along, brace)
    in_walls: Iterable[Check] = ()
    if push is not None and has_closed_end(ground):
        by = _beside_walls(ground, forces, rows, push, pushed, pairs, ties)
        acting, why = acting_on_posts(ground, forces, by)
        unknown = unknown or why
        more = feet_in_walls(ground, forces, by, acting)
        feet = None if feet is None else [[*a, *b] for a, b in zip(feet, more, strict=True)]
        if heads is not None:
            by_heads = replace(by, level=at_heads(ground, forces, push))
            more = feet_in_walls(ground, forces, by_heads, acting)
            heads = [[*a, *b] for a, b in zip(heads, more, strict=True)]
        in_walls = wall_post_checks(ground, forces, by, acting, why)
    yield from held_down_checks(ground, forces, pairs, feet, ties, heads, unknown)
    if push is not None:
        yield from _pulled(ground, forces, push, pushed, pairs, rows)
    yield from in_walls


def _ties_by_knees(
    forces: EavesForces, knees: KneesAcross, along: Sequence[Brought], brace: Brought
) -> list[Braced]:
    """What lifts at the joint of each post with its beam: wind along the row, or across it."""
    row = 1 if forces.beam.row == "head" else 0
    rest = zip(along, knees.lift_kn[row], knees.lift_always_kn[row], strict=True)
    return [
        max(
            (pair, brace, of_frames(_ACROSS, always)),
            (of_frames(_ACROSS, lift),),
            key=brought_kn,
        )
        for pair, lift, always in rest
    ]


def _with_wind(
    ground: Ground, forces: EavesForces, feet: list[list[AtFoot]] | None
) -> list[list[AtFoot]] | None:
    """What pushes bring to each foot, with wind on the lower half of its post where that stands free."""
    if feet is None:
        return None
    each = zip(forces.beam.posts, feet, strict=True)
    return [[with_lower_half(ground, post, push) for push in pushes] for post, pushes in each]


def _across_at_heads(rows: Sequence[EavesForces], forces: EavesForces, pushed: Across | None) -> list[AtFoot]:
    """What the push across brings to the joint of each post with its beam; with knee braces their own check asks."""
    if pushed is None or pushed.knees is not None:
        return []
    row = 1 if forces.beam.row == "head" else 0
    return [
        replace(at_feet(rows, pushed, row, k, AtFoot(says=""))[1], square_knm=0.0, before=())
        for k in range(len(forces.beam.posts))
    ]


def _beside_walls(
    ground: Ground,
    forces: EavesForces,
    rows: Sequence[EavesForces],
    push: Racking,
    pushed: Across | None,
    pairs: Sequence[Brought],
    ties: Sequence[Braced],
) -> Braces:
    """What bracing does to the posts of a row beside wind on the walls they hold."""
    row = 1 if forces.beam.row == "head" else 0
    try:
        bent = bends_along(ground, forces, push)
    except OutsideScope as refusal:
        return Braces(refused=str(refusal))
    if ground.job.frame.bracing_across == "knee braces":
        return Braces(
            refused="Wind on closed walls also presses on knee braces across, which is not calculated. Hold the feet "
            "against turning instead, or give frame.bracing_across_kn where others have shown what braces it."
        )
    held = pushed is not None and any(pushed.moments_knm[row])
    braces = Braces(
        across_knm=pushed.moments_knm[row] if pushed is not None and held else (),
        lengths_across=2.0 if held else 1.0,
        pairs=pairs,
        lifts=ties,
        held=(ground.job.frame.bracing_across == "fixed feet", ground.job.frame.bracing == "fixed feet"),
        level=feet_along(ground, forces, push),
        level_across=[
            at_feet(rows, pushed, row, k, AtFoot(says=""))[1] for k in range(len(forces.beam.posts))
        ]
        if pushed is not None
        else (),
    )
    if bent is None:
        return braces
    return replace(braces, along_knm=bent.moment_knm, along=(bent.step,), lengths=bent.bowing, net=bent.net)


def _pulled(
    ground: Ground,
    forces: EavesForces,
    push: Racking,
    pushed: Across | None,
    pairs: Sequence[Brought],
    rows: Sequence[EavesForces],
) -> Iterator[Check]:
    """Posts that uplift pulls while the front, the push along or held feet bend them."""
    row = 1 if forces.beam.row == "head" else 0
    always = (0.0,) * len(pairs)
    if pushed is not None and pushed.knees is not None:
        always = pushed.knees.lift_always_kn[row]
    brace, along = (
        knee_lift(ground, forces, push),
        zip(pairs_along(ground, forces, push), always, strict=True),
    )
    lifts = [(pair, brace, of_frames(_ACROSS, lift)) for pair, lift in along]
    try:
        found = [
            *bent_by_wind(ground, forces, [(pair,) for pair in pairs]),
            bent_along(ground, forces, push, lifts),
            None if pushed is None else bent_across(rows, pushed, row),
        ]
    except OutsideScope as refusal:
        yield from _refused((PULLED,), str(refusal))
        return
    yield from pulled_post_checks(ground, forces, [bends for bends in found if bends is not None])


def _refused(rules: tuple[Rule, ...], why: str) -> Iterator[Check]:
    for rule in rules:
        yield open_check(rule, Place(), "refused", Shown(says=why))
