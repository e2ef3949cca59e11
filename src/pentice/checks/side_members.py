"""Mullions, transoms and sills between the side sheets of closed ends: bent by wind, held at their ends.

Timber to EN 1995-1-1, in the weather as posts are. A mullion bears no roof: its head must leave the rafter room to sag.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial

from pentice.checks.ground import Ground, Rule, compared, open_check
from pentice.checks.posts import POST_SERVICE_CLASS
from pentice.checks.rafter_shown import EDITION
from pentice.checks.side_members_model import Bent, asked, inputs_of, of_mullion, of_transom, timber_of
from pentice.checks.side_members_shown import (
    Answer,
    at_ends,
    bending_lines,
    both_ways_lines,
    sag_lines,
    shear_lines,
)
from pentice.checks.sills import BENDING, sill_checks
from pentice.checks.values import Check, Place, Shown
from pentice.checks.walls import OnWall, why_no_wind_on_walls
from pentice.errors import OutsideScope
from pentice.loads.combine import Combination
from pentice.setting_out.side_frames import SideFrames, side_frames
from pentice.standards.en1995 import k_def
from pentice.standards.en1995_deflection import final_limit_mm, instant_limit_mm

_LIMIT = "EN 1995-1-1, 2.2.3, 7.2; limit chosen in its range"


def _rules(id: str, name: str, bending: str, unit: str) -> Mapping[str, Rule]:
    return {
        "bending": Rule(id=f"{id}-bending", name=f"{name}, bending by wind", member=id, clause=bending, unit=unit,
                        edition=EDITION),
        "shear": Rule(id=f"{id}-shear", name=f"{name}, shear", member=id, clause="EN 1995-1-1, 6.1.7", unit="N/mm2",
                      edition=EDITION),
        "sag": Rule(id=f"{id}-sag", name=f"{name}, sag at once", member=id, clause=_LIMIT, unit="mm", edition=EDITION),
        "final": Rule(id=f"{id}-sag-final", name=f"{name}, sag in the end", member=id, clause=_LIMIT, unit="mm",
                      edition=EDITION),
        "ends": Rule(id=f"{id}-ends", name=f"{name}, each end held level", member=id, clause="EN 1990, 6.10",
                     unit="kN"),
    }  # fmt: skip


MULLION = _rules("mullion", "Mullion", "EN 1995-1-1, 6.1.6, 6.3.3", "N/mm2")
TRANSOM = _rules("transom", "Transom", "EN 1995-1-1, 6.1.6", "of 1")
DECLARED = ("mullion-ends", "transom-ends")
"""Joints whose resistance is declared."""
_CURE = "A deeper mullion, or one more."


def side_member_checks(ground: Ground) -> Iterator[Check]:
    """Every check of what stands and lies between the side sheets, each at the piece that uses most.

    Parameters
    ----------
    ground
        The inputs of every check.

    Yields
    ------
    Check
        None where no side sheet stands beside another one and no sill is named; refused where a section is missing,
        where what stands between two sheets is not known, or no wind on a wall is.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.2, 7.2.9; EN 1995-1-1:2004+A1:2008, 6.1.6, 6.1.7, 6.3.3, 7.2. Each piece takes the
    worst zone of a wall: judgement, on the safe side.
    """
    if not ground.job.side_sheets:
        return
    frames = side_frames(ground.job, ground.shape)
    for number, why in frames.unknown:
        yield open_check(MULLION["bending"], Place(side_sheet=number), "refused", Shown(says=why))
    if frames.needs_mullion and ground.job.frame.mullion_mm is None:
        why = "The mullions' section is not named: give frame.mullion_mm. None is ordered."
        yield open_check(MULLION["bending"], Place(), "refused", Shown(says=why))
    why = why_no_wind_on_walls(ground) or ground.loads.wind.refused
    kinds = (
        (MULLION["bending"], bool(frames.mullions)),
        (TRANSOM["bending"], bool(frames.transoms)),
        (BENDING, bool(frames.sills)),
    )
    if not why:
        try:
            yield from _checks(ground, frames)
        except OutsideScope as refusal:
            why = str(refusal)
    if why:
        for rule, there in kinds:
            if there:
                yield open_check(rule, Place(), "refused", Shown(says=why, rests_on=inputs_of(ground, rule)))


def _checks(ground: Ground, frames: SideFrames) -> Iterator[Check]:
    size = ground.job.frame.mullion_mm
    if size is not None:
        yield from _kind(ground, MULLION, [of_mullion(ground, m, size) for m in frames.mullions])
        yield from _kind(ground, TRANSOM, [of_transom(ground, t, size) for t in frames.transoms])
    if frames.sills and ground.job.frame.sill_mm is not None:
        yield from sill_checks(ground, frames.sills, ground.job.frame.sill_mm)


def _kind(ground: Ground, rules: Mapping[str, Rule], members: Sequence[Bent]) -> Iterator[Check]:
    """Bending, shear, sag and ends of the mullions, or of the transoms."""
    if not members:
        return
    timber, each = timber_of(ground), [(m, on, c) for m in members for on, c in m.lines]
    bends = bending_lines if rules is MULLION else both_ways_lines
    for name, lines_of in (("bending", bends), ("shear", shear_lines)):
        found = [(m, on, lines_of(timber, m, on, c)) for m, on, c in each]
        yield _worst(ground, rules[name], found)
    lasting = [(m, on) for m, on, c in each if not c.wind_accidental]
    psi_2, kdef = ground.annex.psi_wind.psi_2, k_def(POST_SERVICE_CLASS)
    for name, limit_of, divisor, creep in (
        ("sag", instant_limit_mm, ground.annex.limit_w_inst, (0.0, 0.0)),
        ("final", final_limit_mm, ground.annex.limit_w_fin, (psi_2 * kdef, kdef)),
    ):
        sags = [
            (m, on, sag_lines(timber, m, on, limit_of(m.span_mm, divisor=divisor), creep))
            for m, on in lasting
        ]
        yield _worst(ground, rules[name], sags)
    yield _ends(ground, rules["ends"], each)


def _worst(ground: Ground, rule: Rule, found: Sequence[tuple[Bent, OnWall, Answer]]) -> Check:
    """The piece that uses most."""
    member, on, answer = max(found, key=lambda f: f[2].demand / f[2].capacity)
    return compared(
        rule,
        Place(side_sheet=member.sheet),
        demand=answer.demand,
        capacity=answer.capacity,
        case=f"{member.words}; {on.in_short()}",
        shown=_told(ground, rule, member, answer),
    )


def _told(ground: Ground, rule: Rule, member: Bent, answer: Answer) -> Callable[[], Shown]:
    def shown() -> Shown:
        says = f"Service class {POST_SERVICE_CLASS}, as of posts."
        return Shown(
            says=says, rests_on=inputs_of(ground, rule, member.sheet), working=answer.steps(), cure=_CURE
        )

    return shown


def _ends(ground: Ground, rule: Rule, each: Sequence[tuple[Bent, OnWall, Combination]]) -> Check:
    """What holds each end: declared, or asked for with the force it needs."""
    found = [(m, on, at_ends(m, on, c)) for m, on, c in each]
    member, on, ends = max(found, key=lambda f: f[2].demand)
    declared, place = ground.job.frame.mullion_end_kn, Place(side_sheet=member.sheet)
    case = f"{member.words}; {on.in_short()}"
    if declared is None:
        why = (
            f"Needs {ends.demand:.2f} kN, in and out. Give frame.mullion_end_kn, declared or shown by others."
        )
        shown = partial(asked, partial(inputs_of, ground, rule, member.sheet), ends.steps, why)
        return open_check(rule, place, "refused", shown, demand=ends.demand, case=case)

    def told() -> Shown:
        rests = (*inputs_of(ground, rule, member.sheet), ground.of_job("frame.mullion_end_kn", declared))
        return Shown(rests_on=rests, working=ends.steps(), cure="A stronger joint, or one more mullion.")

    return compared(rule, place, demand=ends.demand, capacity=declared, case=case, shown=told)
