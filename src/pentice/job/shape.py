"""The roof's plain geometry from what was measured: width, projection at each place, pitch, heights.

Loads and setting-out both start here. A rectangular roof only; other outlines are refused by the job file's reader.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from pentice.errors import InputError, OutsideScope
from pentice.job.model import Job


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofShape:
    """Width, depth and slope of one rectangular roof."""

    width_mm: float
    projection_mm: float
    """From the string line at the wall (offset 0), or the head beam's outer face, to the eaves beam's [mm]."""
    wall_offsets_mm: tuple[tuple[float, float], ...]
    pitch_deg: float
    overhang_mm: float
    """Beam's outer face to the outside of the foot profile, along the slope [mm]."""
    head_height_mm: float | None
    eaves_height_mm: float | None

    @property
    def cos_pitch(self) -> float:
        """Cosine of the pitch [-]."""
        return math.cos(math.radians(self.pitch_deg))

    @property
    def overhang_level_mm(self) -> float:
        """The overhang on plan [mm]."""
        return self.overhang_mm * self.cos_pitch

    @property
    def depth_on_plan_mm(self) -> float:
        """Wall to the outside of the foot, on plan [mm], at the string line."""
        return self.projection_mm + self.overhang_level_mm

    @property
    def rise_mm(self) -> float:
        """How much higher the roof line is at the wall than over the beam's outer face [mm]."""
        return self.projection_mm * math.tan(math.radians(self.pitch_deg))

    def offset_at(self, x_mm: float) -> float:
        """How far the wall stands proud (+) or hollow (-) of the string line at x [mm]: straight between points."""
        points = self.wall_offsets_mm
        if not points:
            return 0.0
        if x_mm <= points[0][0]:
            return points[0][1]
        for (x0, o0), (x1, o1) in pairwise(points):
            if x_mm <= x1:
                return o0 + (o1 - o0) * (x_mm - x0) / (x1 - x0)
        return points[-1][1]

    def projection_between(self, left_mm: float, right_mm: float) -> tuple[float, float]:
        """Least and greatest level depth from wall to beam face between two places [mm].

        Examples
        --------
        >>> roof = RoofShape(width_mm=5000.0, projection_mm=3000.0, wall_offsets_mm=((1000.0, 0.0), (2000.0, 10.0)),
        ...                  pitch_deg=10.0, overhang_mm=50.0, head_height_mm=None, eaves_height_mm=None)
        >>> roof.projection_between(0.0, 1500.0)
        (2995.0, 3000.0)
        """
        inside = [x for x, _ in self.wall_offsets_mm if left_mm < x < right_mm]
        depths = [self.projection_mm - self.offset_at(x) for x in (left_mm, *inside, right_mm)]
        return min(depths), max(depths)


def roof_shape(job: Job) -> RoofShape:
    """The roof's geometry from a job that names width, projection and a pitch or two heights.

    Parameters
    ----------
    job
        A job whose blanks are filled.

    Returns
    -------
    RoofShape
        Lengths [mm], pitch [deg]. The pitch that is given counts before the one that two heights make.

    Raises
    ------
    InputError
        A size is missing.
    OutsideScope
        A wall bump is half as deep as the roof, or deeper.

    Source
    ------
    Trigonometry: tan(pitch) = (head height - eaves height) / projection.

    Examples
    --------
    >>> from pentice.job.reading import job_from_text
    >>> roof = roof_shape(job_from_text("[roof]\\nwidth_mm = 4875\\nprojection_mm = 2950\\npitch_deg = 10"))
    >>> round(roof.rise_mm, 3)
    520.165
    """
    roof = job.roof
    if roof.width_mm is None or roof.projection_mm is None:
        raise InputError("roof.width_mm and roof.projection_mm are needed; measure them at the wall.")
    if roof.wall_offsets_mm and max(abs(o) for _, o in roof.wall_offsets_mm) >= roof.projection_mm / 2.0:
        raise OutsideScope(
            "roof.wall_offsets_mm has a bump of half the projection or more; that is another outline."
        )
    pitch = roof.pitch_deg
    if pitch is None:
        if roof.head_height_mm is None or roof.eaves_height_mm is None:
            raise InputError("roof.pitch_deg is missing; give it, or head_height_mm and eaves_height_mm.")
        pitch = math.degrees(math.atan((roof.head_height_mm - roof.eaves_height_mm) / roof.projection_mm))
    rise = roof.projection_mm * math.tan(math.radians(pitch))
    head, eaves = roof.head_height_mm, roof.eaves_height_mm
    return RoofShape(
        width_mm=roof.width_mm,
        projection_mm=roof.projection_mm,
        wall_offsets_mm=roof.wall_offsets_mm,
        pitch_deg=pitch,
        overhang_mm=roof.overhang_on_slope_mm,
        head_height_mm=head if head is not None else (eaves + rise if eaves is not None else None),
        eaves_height_mm=eaves if eaves is not None else (head - rise if head is not None else None),
    )
