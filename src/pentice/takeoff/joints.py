"""The joints whose fasteners the job describes: how many of each this roof has, and what goes into one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pentice.job.fasteners import Fasteners, Joint
from pentice.job.model import Job
from pentice.pieces.names import letters_of
from pentice.pieces.values import Piece

JOINTS: Mapping[Joint, str] = {
    "hanger": "hangers",
    "rafter tie": "rafter ties",
    "post tie": "post ties",
}
"""What a joint is called where there are several."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Described:
    """One kind of joint with its fasteners."""

    fasteners: Fasteners
    count: int
    """Joints of this kind that are made."""
    pieces: tuple[str, ...]
    """Names of the pieces, one or two joints at each."""

    @property
    def called(self) -> str:
        """The joints in words."""
        return JOINTS[self.fasteners.joint]

    @property
    def each(self) -> int:
        """Fasteners in one joint: where steel joins them each timber has its own."""
        return self.fasteners.count * (1 if self.fasteners.plates == "none" else 2)

    @property
    def words(self) -> str:
        """What goes into one joint and how far from ends and edges."""
        f = self.fasteners
        plural = "" if f.count == 1 else "s"
        long = f" x {f.length_mm:g}" if f.length_mm is not None else ""
        nut = " with nut and washers" if f.kind == "bolt" else ""
        sides = "through both timbers" if f.plates == "none" else "in each of the two timbers"
        apart = f", {f.apart_mm:g} or more apart" if f.count > 1 and f.apart_mm else ""
        drilled = ", holes drilled first" if f.predrilled and f.kind != "bolt" else ""
        return (
            f"{f.count} {f.kind}{plural} {f.d_mm:g}{long}{nut} {sides}, {f.end_mm:g} or more from ends, "
            f"{f.edge_mm:g} or more from edges{apart}{drilled}"
        )


def joints_described(job: Job, pieces: tuple[Piece, ...]) -> tuple[Described, ...]:
    """The described joints that are made in this roof; none at timbers that stand already.

    Parameters
    ----------
    job
        With the fasteners.
    pieces
        Rafters and posts among them.

    Returns
    -------
    tuple of Described
        From the wall to the posts.
    """
    rows = 1 if job.roof.attached else 2
    rafters = tuple(p.id for p in pieces if letters_of(p.id) == "RF")
    posts = tuple(p.id for p in pieces if letters_of(p.id) == "PO")
    there: Mapping[Joint, tuple[int, tuple[str, ...]]] = {
        "hanger": (len(rafters) if rows == 1 else 0, rafters),
        "rafter tie": (rows * len(rafters), rafters),
        "post tie": (len(posts), posts),
    }
    return tuple(
        Described(fasteners=f, count=there[joint][0], pieces=there[joint][1])
        for joint in JOINTS
        for f in job.frame.fasteners
        if f.joint == joint and there[joint][0]
    )
