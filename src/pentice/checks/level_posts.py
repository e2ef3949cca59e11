"""What pushes the head and the foot of a post level, along its row and square to it, against cap and base.

A foot that is held against turning takes moment, level force and uplift at once.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from pentice.checks.eaves import EavesForces
from pentice.checks.ground import Ground, Rule, open_check
from pentice.checks.level import (
    STATICS,
    Holds,
    Keys,
    Pushed,
    holds,
    level_check,
    level_line,
    share,
    up_line,
    why_unknown,
)
from pentice.checks.onto_posts import blown
from pentice.checks.pads_values import AtFoot
from pentice.checks.post_winds import Way
from pentice.checks.rests import Row, of_frame, of_posts
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.checks.worst import greatest_place
from pentice.frame.values import Post
from pentice.records import quickly_made
from pentice.working import Step

TIE = Rule(
    id="post-tie-level", name="Beam on the post, held level", member="post", clause=STATICS, unit="of 1"
)
BASE = Rule(
    id="post-base-level", name="Post on its base, held level", member="base", clause=STATICS, unit="of 1"
)
LEVEL_RULES = (TIE, BASE)
_TURNED = "Post on its base, level and turned"
_KEYS = {
    TIE: Keys(level="frame.post_tie_level_kn", up="frame.post_tie_kn", joint="post tie"),
    BASE: Keys(level="frame.post_base_level_kn", up="frame.post_base_kn", turn="frame.post_foot_knm"),
}
_UNKNOWN = "What pushes it level is not known."


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Lifted:
    """What lifts a joint most, beyond the weight that holds it [kN]."""

    up_kn: float
    weight_kn: float
    case: str
    clause: str

    @property
    def need_kn(self) -> float:
        """What has to hold it down."""
        return max(self.up_kn - self.weight_kn, 0.0)


def post_level_checks(
    ground: Ground,
    forces: EavesForces,
    heads: Sequence[Sequence[AtFoot]] | None,
    feet: Sequence[Sequence[AtFoot]] | None,
    lifted: Sequence[tuple[Lifted, Lifted]],
    unknown: str = "",
) -> Iterator[Check]:
    """The joint of a row's posts with their beam, and that with their bases, each at the post that asks most.

    Parameters
    ----------
    ground, forces
        The inputs of every check, and the beam with its posts.
    heads, feet
        What each push brings to each head and to each foot; None where it is not known.
    lifted
        What lifts most at the head and at the foot of each post.
    unknown
        Why what closed walls bring is not known; empty where it is.

    Yields
    ------
    Check
        [of 1]; refused, with the force that is needed, where nothing is declared for it.

    Source
    ------
    Statics; the greatest push and the greatest lift at once: on the safe side. EN 1991-1-4:2005, 7.6 for posts.
    """
    for rule, pushes, end in ((TIE, heads, 0), (BASE, feet, 1)):
        if pushes is None or unknown:
            yield open_check(rule, Place(), "refused", Shown(says=unknown or _UNKNOWN))
            continue
        by = holds(ground, _KEYS[rule])
        on, post = _at_its_most(ground, forces, pushes, [both[end] for both in lifted], by)
        on = replace(on, rests_on=_inputs(ground, forces.beam.row))
        asked = replace(rule, name=_TURNED) if on.turned_knm else rule
        yield level_check(ground, asked, Place(post=post.number), on, by)


def _inputs(ground: Ground, row: Row) -> tuple[RestsOn, ...]:
    knees = ground.job.frame.bracing == "knee braces"
    more = (*of_frame(ground, "bracing"), *(of_frame(ground, "knee_mm") if knees else ()))
    if not ground.job.roof.attached:
        more += of_frame(ground, "bracing_across")
    return (*of_posts(ground, row), *more, *ground.of_side_wind())


def _at_its_most(
    ground: Ground,
    forces: EavesForces,
    pushes: Sequence[Sequence[AtFoot]],
    lifted: Sequence[Lifted],
    by: Holds,
) -> tuple[Pushed, Post]:
    """The push that uses most of what holds a post, of every push on every post of the row."""
    import numpy as np

    found = []
    for k, post in enumerate(forces.beam.posts):
        of_foot = bool(by.keys.turn)
        acting = (*pushes[k], *blown(ground, forces, k, of_foot=of_foot))
        found += [(_pushed(push, lifted[k], of_foot=of_foot), post) for push in acting]
    unknown = [(on, post) for on, post in found if why_unknown(on, by)]
    if unknown:
        return max(unknown, key=lambda one: (round(one[0].level_kn, 6), one[0].up_kn))
    used = np.array([share(on, by) for on, _ in found])
    return found[greatest_place(used)]


def _pushed(push: AtFoot, lift: Lifted, *, of_foot: bool) -> Pushed:
    """At a foot what turns it too: at a head the post turns freely."""
    turns = push if of_foot else replace(push, along_knm=0.0, square_knm=0.0)
    both = bool(push.along_kn and push.square_kn)
    brought: dict[Way, float] = {"along": push.along_kn, "square": push.square_kn}

    def steps() -> tuple[Step, ...]:
        lines = list(push.before)
        for way, force in brought.items():
            if not force:
                continue
            if any(line.says == f"Level here, {way}" for line in lines):
                continue
            plain = both or not push.numbers
            formula, numbers = ("H", f"{force:.5f}") if plain else (push.formula, push.numbers)
            lines.append(level_line(way, formula, f"{numbers}; {push.says}", force))
        return (*lines, *_turn_lines(turns), *_lift_lines(lift))

    return Pushed(
        along_kn=push.along_kn,
        square_kn=push.square_kn,
        up_kn=lift.need_kn,
        down_kn=0.0,
        case=f"{push.says}; {lift.case}" if lift.need_kn else push.says,
        steps=steps,
        along_knm=turns.along_knm,
        square_knm=turns.square_knm,
    )


def _turn_lines(push: AtFoot) -> tuple[Step, ...]:
    """What turns the foot, where that comes both ways."""
    if not push.along_knm or not push.square_knm:
        return ()
    return (
        Step(
            says="Turned here at once",
            formula="M_along + M_square",
            numbers=f"{push.along_knm:.5f} + {push.square_knm:.5f}; {push.says}",
            result=push.along_knm + push.square_knm,
            unit="kNm",
            clause="statics",
        ),
    )


def _lift_lines(lift: Lifted) -> tuple[Step, ...]:
    if not lift.need_kn:
        return ()
    numbers = f"{lift.up_kn:.5f} - {lift.weight_kn:.5f}"
    return (
        up_line("U = what lifts - gamma G", numbers, lift.need_kn, f"{lift.clause}; both: see it held down"),
    )
