"""Bolts at the ends of knee braces: how far these give and play, and what their holes leave of post, beam and rafter.

A job that does not describe them stands on two bolts of 12 mm at each end, in holes 1 mm wider: typical.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from pentice.checks.ground import JUDGEMENT, Ground
from pentice.checks.values import RestsOn
from pentice.errors import require_within
from pentice.job.model import Frame
from pentice.standards.en338 import strength_class
from pentice.standards.en1995_slip import ULTIMATE, mean_of_two, slip_modulus_n_mm
from pentice.working import Step

BOLTS = 2
BOLT_MM = 12.0
PLANES = 1
HOLE_MM = 1.0
BRACE_MM = 47.0
"""Typical ends of a brace; the hole the widest that EN 1995-1-1, 10.4.3(1) allows, from memory."""
EDGE_D = 3.0
APART_D = 4.0
"""Least edge distance and distance across the grain, in diameters: EN 1995-1-1, Table 8.4, from memory."""
Other = Literal["beam", "rafter"]
"""What a brace is bolted to besides its post."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KneeBolts:
    """The bolts at one end of a brace: how many, how thick [mm], shear planes of each, width of a hole over it [mm].

    And the thickness of the brace that they go through [mm].
    """

    count: int
    d_mm: float
    planes: int
    hole_mm: float
    brace_mm: float

    @property
    def drilled_mm(self) -> float:
        """Diameter of a hole."""
        return self.d_mm + self.hole_mm

    @property
    def play_mm(self) -> float:
        """What both ends of a brace move before their bolts bear, each bolt from the middle of both its holes."""
        return 2.0 * self.hole_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Net:
    """What the holes of bolts leave of a section, side by side where it is bent in the direction of its depth."""

    width_mm: float
    """Along the bolts."""
    depth_mm: float
    hole_mm: float
    places_mm: tuple[float, ...]
    """Of the holes from the middle line."""

    @property
    def left_mm(self) -> float:
        """Depth less the holes."""
        return self.depth_mm - len(self.places_mm) * self.hole_mm

    @property
    def area_mm2(self) -> float:
        """Area that is left."""
        return self.width_mm * self.left_mm

    @property
    def squares_mm2(self) -> float:
        """Sum of the squares of the places."""
        return sum(place**2 for place in self.places_mm)

    @property
    def modulus_mm3(self) -> float:
        """Section modulus that is left, bent in the direction of the depth."""
        holes = self.hole_mm * (self.squares_mm2 + len(self.places_mm) * self.hole_mm**2 / 12.0)
        return self.width_mm * (self.depth_mm**3 / 12.0 - holes) / (self.depth_mm / 2.0)

    @property
    def pulled(self) -> float:
        """Whole area over what is left [-]."""
        return self.depth_mm / self.left_mm

    @property
    def bent(self) -> float:
        """Whole section modulus over what is left [-]."""
        return self.width_mm * self.depth_mm**2 / 6.0 / self.modulus_mm3

    def step(self) -> Step:
        """The line of the section modulus."""
        n, d = len(self.places_mm), self.hole_mm
        return Step(
            says="Section modulus beside the holes of the brace's bolts",
            formula="W_n = b (h^3 / 12 - D (sum e^2 + n D^2 / 12)) / (h / 2)",
            numbers=f"{self.width_mm:g} x ({self.depth_mm:g}^3 / 12 - {d:g} x "
            f"({self.squares_mm2:.2f} + {n} x {d:g}^2 / 12)) / ({self.depth_mm:g} / 2)",
            result=self.modulus_mm3,
            unit="mm3",
            clause=f"EN 1995-1-1, 5.2, from memory; as many bolts side by side as fit, 3 d from the edges, {JUDGEMENT}",
        )


def knee_bolts(ground: Ground) -> KneeBolts:
    """The bolts at one end of a brace, typical where the job does not say.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    KneeBolts
        [mm].

    Source
    ------
    The job; else common practice, no source.
    """
    return bolts_of(ground.job.frame)


def bolts_of(frame: Frame) -> KneeBolts:
    """The bolts at one end of a brace as a job's frame has them, typical where it does not say.

    Parameters
    ----------
    frame
        The job's.

    Returns
    -------
    KneeBolts
        [mm].

    Source
    ------
    The job; else common practice, no source.

    Examples
    --------
    >>> from pentice.job.reading import job_from_text
    >>> bolts = bolts_of(job_from_text("[frame]\\nknee_bolts = 1").frame)
    >>> bolts.count, bolts.d_mm, bolts.drilled_mm, bolts.brace_mm
    (1, 12.0, 13.0, 47.0)
    """
    return KneeBolts(
        count=BOLTS if frame.knee_bolts is None else frame.knee_bolts,
        d_mm=BOLT_MM if frame.knee_bolt_mm is None else frame.knee_bolt_mm,
        planes=PLANES if frame.knee_bolt_planes is None else frame.knee_bolt_planes,
        hole_mm=HOLE_MM if frame.knee_hole_mm is None else frame.knee_hole_mm,
        brace_mm=BRACE_MM if frame.knee_brace_mm is None else frame.knee_brace_mm,
    )


def bolt_inputs(ground: Ground) -> tuple[RestsOn, ...]:
    """What all that follows from the bolts rests on.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    tuple of RestsOn
        Each typical where the job does not say.

    Source
    ------
    None: a list.
    """
    bolts, frame = knee_bolts(ground), ground.job.frame
    return (
        ground.of_job("frame.knee_bolts", bolts.count, typical=frame.knee_bolts is None),
        ground.of_job("frame.knee_bolt_mm", bolts.d_mm, typical=frame.knee_bolt_mm is None),
        ground.of_job("frame.knee_bolt_planes", bolts.planes, typical=frame.knee_bolt_planes is None),
        ground.of_job("frame.knee_hole_mm", bolts.hole_mm, typical=frame.knee_hole_mm is None),
    )


def net_section(ground: Ground, width_mm: float, depth_mm: float) -> Net:
    """What the bolts of a brace leave of a timber.

    Parameters
    ----------
    ground
        The inputs of every check.
    width_mm, depth_mm
        Of the timber, along the bolts and in the plane of the braces [mm].

    Returns
    -------
    Net
        As many bolts of one end side by side as fit, out to three diameters from the edges.

    Raises
    ------
    OutsideScope
        The timber is less than six diameters deep: one bolt has no room.

    Source
    ------
    EN 1995-1-1:2004, 5.2 and Table 8.4, from memory; that the others stand in sections of their own is judgement.
    """
    bolts = knee_bolts(ground)
    least = 2.0 * EDGE_D * bolts.d_mm
    require_within(
        f"depth of the timber at a knee brace with bolts of {bolts.d_mm:g} mm",
        depth_mm,
        least,
        1e5,
        unit="mm",
        source="EN 1995-1-1, Table 8.4",
        do="Take thinner bolts in frame.knee_bolt_mm, or a deeper timber.",
    )
    beside = min(bolts.count, 1 + int((depth_mm - least) / (APART_D * bolts.d_mm) + 1e-9))
    far = depth_mm / 2.0 - EDGE_D * bolts.d_mm
    places = tuple(-far + 2.0 * far * i / (beside - 1) for i in range(beside)) if beside > 1 else (0.0,)
    return Net(width_mm=width_mm, depth_mm=depth_mm, hole_mm=bolts.drilled_mm, places_mm=places)


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """How far one brace gives with both its ends: in service, and for strength [N/mm]; the lines that lead there."""

    service_n_mm: float
    ultimate_n_mm: float
    working: tuple[Step, ...]


def brace_slip(ground: Ground, other: Other) -> Slip:
    """How far one brace gives by the slip of its bolts at both ends.

    Parameters
    ----------
    ground
        The inputs of every check.
    other
        What it is bolted to besides its post.

    Returns
    -------
    Slip
        [N/mm]; declared across where the job declares it, and then the same for both.

    Raises
    ------
    OutsideScope
        As `slip_modulus_n_mm`.

    Source
    ------
    EN 1995-1-1:2004, 2.2.2, 7.1, Table 7.1, from memory. A brace counts as of its post's timber; it gives nothing by
    itself: judgement.
    """
    declared = ground.job.frame.brace_across_n_mm if other == "rafter" else None
    if declared is not None:
        step = Step(
            says="One brace gives with both its ends",
            formula="K, declared",
            numbers="given",
            result=declared,
            unit="N/mm",
            clause="frame.brace_across_n_mm, in service and for strength",
        )
        return Slip(service_n_mm=declared, ultimate_n_mm=declared, working=(step,))
    post, there = (strength_class(ground.parts.timber_for(use).strength_class) for use in ("post", other))
    bolts = knee_bolts(ground)
    rho = mean_of_two(post.rho_mean_kg_m3, min(post.rho_mean_kg_m3, there.rho_mean_kg_m3))
    one = slip_modulus_n_mm(bolts.d_mm, rho)
    both = bolts.count * bolts.planes * one / 2.0
    return Slip(
        service_n_mm=both,
        ultimate_n_mm=ULTIMATE * both,
        working=tuple(_slip_steps(bolts, rho, one, both, other)),
    )


def slip_across(ground: Ground) -> Slip:
    """How far one brace from post to rafter gives.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    Slip
        [N/mm].

    Source
    ------
    As `brace_slip`.
    """
    return brace_slip(ground, "rafter")


def _slip_steps(bolts: KneeBolts, rho: float, one: float, both: float, other: Other) -> Iterator[Step]:
    yield Step(
        says="Slip of one bolt in one shear plane, in service",
        formula="K_ser = rho_m^1.5 d / 23",
        numbers=f"{rho:.3f}^1.5 x {bolts.d_mm:g} / 23",
        result=one,
        unit="N/mm",
        clause=f"EN 1995-1-1, 7.1, Table 7.1, from memory; rho_m of brace and {other}, the brace as the post",
    )
    yield Step(
        says="One brace gives with both its ends",
        formula="K = n m K_ser / 2",
        numbers=f"{bolts.count} x {bolts.planes} x {one:.4f} / 2; n bolts at each end, m shear planes",
        result=both,
        unit="N/mm",
        clause="both ends one behind the other; the brace itself counts as stiff, " + JUDGEMENT,
    )


def ultimate_step(slip: Slip) -> tuple[Step, ...]:
    """The line of the stiffness for strength; none where it is declared.

    Parameters
    ----------
    slip
        Of one brace.

    Returns
    -------
    tuple of Step
        [N/mm].

    Source
    ------
    EN 1995-1-1:2004, 2.2.2(2), eq. 2.1, from memory.
    """
    if slip.ultimate_n_mm == slip.service_n_mm:
        return slip.working
    last = Step(
        says="The same for strength",
        formula="K_u = 2 / 3 K",
        numbers=f"2 / 3 x {slip.service_n_mm:.4f}",
        result=slip.ultimate_n_mm,
        unit="N/mm",
        clause="EN 1995-1-1, 2.2.2(2), from memory",
    )
    return (*slip.working, last)
