"""Wind that bends a post between foot and beam: on the closed front that it holds, or on itself if it stands free."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from pentice.checks.eaves import EavesForces
from pentice.checks.ground import Ground
from pentice.checks.racking import EDGE_C_F, EDGES
from pentice.checks.walls import OnWall, in_any_zone, why_no_wind_on_walls
from pentice.errors import OutsideScope
from pentice.frame.values import Post
from pentice.job.fields import Wall
from pentice.loads.combine import Combination
from pentice.working import Step

Way = Literal["square", "along"]
"""To the row of posts."""
FREE_FOOT, HELD_FOOT = 0.5, 0.625
"""Share of an even load at a foot that turns freely, and at one that is held, the head borne: statics."""
_BENT_BY_BRACING = ("knee braces", "fixed feet")


@dataclass(frozen=True, slots=True, kw_only=True)
class PostWind:
    """Wind on a post all along its length, one way; characteristic, in size."""

    way: Way = "square"
    line_n_mm: float = 0.0
    """[N/mm]; 0 where none blows."""
    says: str = ""
    """What blows on what."""
    accidental: bool = False
    """A door stands open by accident."""
    before: tuple[Step, ...] = ()
    """Lines that lead to it."""

    def moment_n_mm(self, factor: float, length_mm: float) -> float:
        """In the middle of a post that is held at both ends [N mm], with the factor of wind."""
        return factor * self.line_n_mm * length_mm**2 / 8.0

    def steps(self, factor: float, length_mm: float) -> tuple[Step, ...]:
        """The line and the moment of it; none where none blows."""
        if not self.line_n_mm or not factor:
            return ()
        return (
            *self.before,
            Step(
                says=self.says,
                formula="M = gamma w l^2 / 8",
                numbers=f"{factor:g} x {self.line_n_mm:.6f} x {length_mm / 1000.0:.5f}^2 / 8",
                result=self.moment_n_mm(factor, length_mm) / 1e6,
                unit="kNm",
                clause="statics; the post held at both ends",
            ),
        )


_NONE = (PostWind(),)


def winds_on_post(ground: Ground, forces: EavesForces, k: int) -> Sequence[PostWind]:
    """Each wind that bends a post held at both ends; what its bracing bends it by is with the bracing.

    Parameters
    ----------
    ground, forces, k
        The inputs of every check, the beam with its posts, and place of the post in the row.

    Returns
    -------
    sequence of PostWind
        [N/mm]: on the front it holds, lasting and by accident; where it stands free square to its row and along it,
        but where knee braces or held feet make more of that, which their checks ask. One of nothing where none blows.

    Raises
    ------
    OutsideScope
        As `front_winds`.

    Source
    ------
    EN 1991-1-4:2005, 7.2.2 and 7.6.
    """
    fronts = front_winds(ground, forces, k)
    if fronts:
        return fronts
    frame, post = ground.job.frame, forces.beam.posts[k]
    found: list[PostWind] = []
    if getattr(ground.job.roof, _side(forces)) == "open":
        if frame.bracing_across not in _BENT_BY_BRACING:
            found.append(_on_itself(ground, post, "square"))
        if frame.bracing not in _BENT_BY_BRACING and not _in_closed_end(ground, forces, k):
            found.append(_on_itself(ground, post, "along"))
    return [wind for wind in found if wind.line_n_mm] or _NONE


def blows_in(winds: Sequence[PostWind], combination: Combination) -> Sequence[PostWind]:
    """Those of the winds on a post that blow in a combination; one of nothing where none does.

    Parameters
    ----------
    winds, combination
        On a post, and whether its wind is an accident.

    Returns
    -------
    sequence of PostWind
        [N/mm].

    Source
    ------
    EN 1991-1-4:2005, 7.2.9(3): a door open by accident is an accidental situation.
    """
    return [wind for wind in winds if wind.accidental == combination.wind_accidental] or _NONE


def _side(forces: EavesForces) -> Wall:
    return "back" if forces.beam.row == "head" else "front"


def _in_closed_end(ground: Ground, forces: EavesForces, k: int) -> bool:
    """Does the post stand in a closed end, or between two of them?"""
    ends = (ground.job.roof.left, ground.job.roof.right)
    at = {0: ends[0], len(forces.beam.posts) - 1: ends[1]}
    return "open" not in ends or at.get(k) == "closed"


def _on_itself(ground: Ground, post: Post, way: Way) -> PostWind:
    peak, wide = ground.loads.wind.peak_pressure_kn_m2 or 0.0, post.size_mm[0 if way == "square" else 1]
    line = EDGE_C_F * peak * wide / 1000.0
    step = Step(
        says="Wind on each metre of the post's height",
        formula="w = c_f q_p b",
        numbers=f"{EDGE_C_F:g} x {peak:.6f} x {wide / 1000.0:g}",
        result=line,
        unit="kN/m",
        clause=EDGES,
    )
    words = "square to its row" if way == "square" else "along its row"
    return PostWind(way=way, line_n_mm=line, says=f"Wind on the post itself, {words}", before=(step,))


def front_winds(ground: Ground, forces: EavesForces, k: int) -> Sequence[PostWind]:
    """Wind on the closed front, or back, that a post carries between foot and beam; none where that is open.

    Parameters
    ----------
    ground, forces, k
        As in `winds_on_post`.

    Returns
    -------
    sequence of PostWind
        That which lasts, and that of a door open by accident where there is one [N/mm].

    Raises
    ------
    OutsideScope
        No wind on a closed side beside an open one is declared; the roof is more than five times as high as it is deep.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.2, 7.2.9: every post takes the worst zone, judgement, on the safe side. Or the
    document that the job names beside coefficients of its closed sides.
    """
    post, wall = forces.beam.posts[k], _side(forces)
    if (
        getattr(ground.job.roof, wall) != "closed"
        or ground.loads.wind.peak_pressure_kn_m2 is None
        or post.length_mm is None
    ):
        return ()
    width = share_mm(forces.beam.posts, k, ground.shape.width_mm)
    return ground.once(_on_front, wall, width, post.length_mm)


def _on_front(ground: Ground, wall: Wall, width: float, tall: float) -> Sequence[PostWind]:
    """On so much of a closed side."""
    why = why_no_wind_on_walls(ground)
    if why:
        raise OutsideScope(why)
    most = dict[str, OnWall]()
    for on in in_any_zone(ground, wall, area_m2=width * tall * 1e-6, tallest_mm=tall):
        if on.situation not in most or abs(on.net) > abs(most[on.situation].net):
            most[on.situation] = on
    return [
        PostWind(
            line_n_mm=abs(on.net) * width * 1e-3,
            says="Wind on the front it holds",
            accidental=situation == "accidental",
            before=(
                on.step(),
                Step(
                    says="On each metre of the post's height",
                    formula="|w| b",
                    numbers=f"abs({on.net:.6f}) x {width / 1000.0:.5f}",
                    result=abs(on.net) * width * 1e-3,
                    unit="kN/m",
                    clause=f"half of each field beside it{on.worst()}",
                ),
            ),
        )
        for situation, on in most.items()
    ]


def why_no_front(ground: Ground, forces: EavesForces) -> str:
    """Why wind on the closed front that a row holds is not known; empty where it is, and where the front is open.

    Parameters
    ----------
    ground, forces
        The inputs of every check, and the row.

    Returns
    -------
    str
        A sentence with the key to give.

    Source
    ------
    As `front_winds`.
    """
    try:
        for k in range(len(forces.beam.posts)):
            front_winds(ground, forces, k)
    except OutsideScope as refusal:
        return str(refusal)
    return ""


def lasting_front(ground: Ground, forces: EavesForces, k: int) -> PostWind:
    """Of the winds on a closed front that which lasts; nothing where it is open.

    Parameters
    ----------
    ground, forces, k
        As in `winds_on_post`.

    Returns
    -------
    PostWind
        [N/mm].

    Raises
    ------
    OutsideScope
        As `front_winds`.

    Source
    ------
    As `front_winds`.
    """
    return next((wind for wind in front_winds(ground, forces, k) if not wind.accidental), _NONE[0])


def share_mm(posts: tuple[Post, ...], k: int, width_mm: float) -> float:
    """Width of the front that comes to a post: half of each field beside it.

    Parameters
    ----------
    posts, k, width_mm
        The row, place of the post in it, and width of the front [mm].

    Returns
    -------
    float
        [mm].

    Source
    ------
    Statics.
    """
    left = 0.0 if k == 0 else (posts[k - 1].x_mm + posts[k].x_mm) / 2.0
    right = width_mm if k == len(posts) - 1 else (posts[k].x_mm + posts[k + 1].x_mm) / 2.0
    return right - left
