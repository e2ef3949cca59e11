"""What one rafter carries: its strip, its bearings, and each combination as a line load [N/mm]."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from pentice.checks.ground import Ground
from pentice.loads.combine import Combination
from pentice.loads.lines import HAIR_MM, Strip, snow_line, undominated, wind_line
from pentice.mechanics.beam import Beam, BeamAnswer, overhang_beam, rectangle_stiffness
from pentice.mechanics.lines import LineLoad, even_line, summed_line
from pentice.setting_out.values import Rafter
from pentice.standards.en338 import StrengthClass, strength_class
from pentice.standards.en1999 import E_N_MM2 as ALUMINIUM_N_MM2


@dataclass(frozen=True, slots=True, kw_only=True)
class RafterModel:
    """A rafter as a beam on two bearings with its foot running past the second."""

    rafter: Rafter
    timber: StrengthClass
    strip: Strip
    start_mm: float
    """Head bearing from the wall face along the slope [mm]."""
    span_mm: float
    overhang_mm: float
    longest_free_mm: float
    """Between places that hold the rafter upright: bearings, noggins, purlins [mm]."""
    beam: Beam

    @property
    def length_mm(self) -> float:
        """From the head bearing to the foot of the roof along the slope [mm]."""
        return self.span_mm + self.overhang_mm


Action = Literal["dead", "snow", "wind", "imposed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One action of a case: its characteristic load and the factor that the combination puts on it."""

    action: Action
    factor: float
    line: LineLoad


@dataclass(frozen=True, slots=True, kw_only=True)
class RafterCase:
    """One combination on one rafter with its answer."""

    combination: Combination
    words: str
    parts: tuple[Part, ...]
    line: LineLoad
    answer: BeamAnswer
    hanging_n: float = 0.0
    """Factored snow that hangs over the foot, at the tip, square to the slope [N]."""
    tip_mm: float = 0.0

    @property
    def point(self) -> tuple[float, float] | None:
        """What hangs over the foot as a force at its place [mm, N]; None where nothing does."""
        return (self.tip_mm, self.hanging_n) if self.hanging_n else None


@dataclass(frozen=True, slots=True, kw_only=True)
class RafterLines:
    """Characteristic line loads of a rafter by kind, only those that can govern."""

    dead: LineLoad
    snow: tuple[tuple[str, LineLoad], ...]
    snow_accidental: tuple[tuple[str, LineLoad], ...]
    down: tuple[tuple[str, LineLoad], ...]
    up: tuple[tuple[str, LineLoad], ...]
    down_accidental: tuple[tuple[str, LineLoad], ...]
    up_accidental: tuple[tuple[str, LineLoad], ...]
    imposed: LineLoad | None
    hanging_n: float = 0.0
    """Snow that hangs over the foot, at the tip, square to the slope [N]."""


def strip_of(ground: Ground, rafter: Rafter, *, area_m2: float | None = None) -> Strip:
    """The strip of roof that comes to a rafter: half of each bay beside it, or half a bay and the barge board.

    Parameters
    ----------
    ground
        The inputs of every check.
    rafter
        The rafter.
    area_m2
        Loaded area for the wind; absent: the strip's own.

    Returns
    -------
    Strip
        [mm], [m2]. Of uneven centres the widest counts.

    Source
    ------
    Statics: half a bay from each side; EN 1991-1-4, 7.2.1(1) for the area.
    """
    plane = ground.setting_out.plane
    rafters, i = plane.rafters, rafter.number - 1
    job = ground.job
    barge = job.frame.barge_board_mm[0] if job.frame.barge_board_mm is not None else 0.0
    here = (rafter.centre_head_mm, rafter.centre_foot_mm)
    if i == 0:
        left = min(here) - rafter.width_mm / 2.0 - barge
    else:
        before = (rafters[i - 1].centre_head_mm, rafters[i - 1].centre_foot_mm)
        left = min((a + b) / 2.0 for a, b in zip(before, here, strict=True))
    if i == len(rafters) - 1:
        right = max(here) + rafter.width_mm / 2.0 + barge
    else:
        after = (rafters[i + 1].centre_head_mm, rafters[i + 1].centre_foot_mm)
        right = max((a + b) / 2.0 for a, b in zip(here, after, strict=True))
    length = (
        ground.shape.projection_between(left, right)[1] / ground.shape.cos_pitch + ground.shape.overhang_mm
    )
    return Strip(
        x_mm=(left, right),
        length_mm=length,
        cos_pitch=ground.shape.cos_pitch,
        area_m2=area_m2 if area_m2 is not None else (right - left) * length * 1e-6,
    )


def rafter_model(ground: Ground, rafter: Rafter) -> RafterModel:
    """The rafter between the middles of its bearings.

    Parameters
    ----------
    ground
        The inputs of every check.
    rafter
        The rafter.

    Returns
    -------
    RafterModel
        Span: between the middles of wall plate (or head beam) and beam where the job names them, else projection /
        cos(pitch).

    Source
    ------
    Statics; the choice of bearings is judgement, no source.
    """
    frame, cos = ground.job.frame, ground.shape.cos_pitch
    strip = strip_of(ground, rafter)
    head = frame.wall_plate_mm if ground.job.roof.attached else frame.head_beam_mm or frame.beam_mm
    start = head[0] / 2.0 / cos if head is not None else 0.0
    half_beam = frame.beam_mm[0] / 2.0 / cos if frame.beam_mm is not None else 0.0
    end = strip.length_mm - ground.shape.overhang_mm - half_beam
    span, overhang = end - start, strip.length_mm - end
    timber = strength_class(ground.parts.timber.strength_class)
    bar = ground.parts.bar
    if bar.carries:
        ei, shear = ALUMINIUM_N_MM2 * (bar.i_mm4 or 1.0), math.inf
    else:
        ei, shear = rectangle_stiffness(
            rafter.width_mm, rafter.depth_mm, timber.e_0_mean_n_mm2, timber.g_mean_n_mm2
        )
    held = sorted({start, end, *(p for p in (*frame.noggins_at_mm, *frame.purlins_at_mm) if start < p < end)})
    return RafterModel(
        rafter=rafter,
        timber=timber,
        strip=strip,
        start_mm=start,
        span_mm=span,
        overhang_mm=overhang,
        longest_free_mm=max(b - a for a, b in pairwise(held)),
        beam=Beam(span_mm=span, overhang_mm=overhang, ei_n_mm2=ei, shear_n=shear),
    )


def rafter_lines(ground: Ground, model: RafterModel) -> RafterLines:
    """Characteristic line loads of each kind, square to the rafter, from its head bearing.

    Parameters
    ----------
    ground
        The inputs of every check.
    model
        The rafter.

    Returns
    -------
    RafterLines
        [mm, N/mm], down positive.

    Source
    ------
    Self-weight g cos, snow s cos2, wind w per slope length: geometry.
    """
    loads, strip = ground.loads, model.strip

    def snow(situation: str) -> tuple[tuple[str, LineLoad], ...]:
        lines = [
            (c.name, _from_bearing(snow_line(c, strip), model))
            for c in loads.snow.cases
            if c.situation == situation
        ]
        return undominated(lines)

    def wind(situation: str, upward: bool) -> tuple[tuple[str, LineLoad], ...]:
        peak = loads.wind.peak_pressure_kn_m2 or 0.0
        lines = [
            (c.name, _from_bearing(wind_line(c, peak, strip), model))
            for c in loads.wind.cases
            if c.situation == situation
        ]
        total = {name: _area(line) for name, line in lines}
        return undominated(((n, ln) for n, ln in lines if (total[n] < 0.0) == upward), upward=upward)

    imposed = loads.imposed.area_kn_m2
    return RafterLines(
        dead=even_line(model.length_mm, dead_line_n_mm(ground, model)),
        snow=snow("persistent"),
        snow_accidental=snow("accidental"),
        down=wind("persistent", upward=False),
        up=wind("persistent", upward=True),
        down_accidental=wind("accidental", upward=False),
        up_accidental=wind("accidental", upward=True),
        imposed=None
        if imposed is None
        else even_line(model.length_mm, imposed * strip.cos_pitch**2 * strip.width_mm * 1e-3),
        hanging_n=loads.snow.foot_line_kn_m * strip.width_mm * strip.cos_pitch,
    )


def dead_line_n_mm(ground: Ground, model: RafterModel) -> float:
    """Self-weight along a rafter, square to it [N/mm]: sheet, bar, rafter, and the barge board at an end.

    Parameters
    ----------
    ground
        The inputs of every check.
    model
        The rafter.

    Returns
    -------
    float
        [N/mm].

    Source
    ------
    Mass times 9.81, times cos(pitch).
    """
    dead = ground.loads.dead
    barge = dead.barge_kn_m if model.rafter.end else 0.0
    line = dead.sheet_kn_m2 * model.strip.width_mm * 1e-3 + dead.bar_kn_m + dead.rafter_kn_m + barge
    return line * ground.shape.cos_pitch


def rafter_cases(ground: Ground, model: RafterModel, lines: RafterLines) -> Iterator[RafterCase]:
    """Every combination that can govern, with its answer.

    Parameters
    ----------
    ground
        The inputs of every check.
    model, lines
        The rafter and its loads.

    Yields
    ------
    RafterCase
        Forces [N], moments [N mm], sag [mm].

    Source
    ------
    EN 1990 combinations on a beam on two bearings; snow over the foot at its edge, EN 1991-1-3, 6.3.
    """
    nothing: tuple[tuple[str, LineLoad | None], ...] = (("", None),)
    for c in ground.loads.combinations:
        if c.imposed and lines.imposed is None:
            continue
        snow = (lines.snow_accidental if c.snow_accidental else lines.snow) if c.snow else nothing
        wind = _wind_of(lines, c) if c.wind else nothing
        # What hangs over the foot eases the span, so each snow comes without it too.
        hangs = (
            (0.0, c.snow * lines.hanging_n)
            if lines.hanging_n and c.snow and not c.snow_accidental
            else (0.0,)
        )
        for snow_name, snow_load in snow:
            for wind_name, wind_load in wind:
                acting: tuple[tuple[Action, float, LineLoad | None], ...] = (
                    ("dead", c.dead, lines.dead),
                    ("snow", c.snow, snow_load),
                    ("wind", c.wind, wind_load),
                    ("imposed", c.imposed, lines.imposed if c.imposed else None),
                )
                parts = tuple(Part(action=a, factor=f, line=ln) for a, f, ln in acting if ln is not None)
                line = summed_line([(part.factor, part.line) for part in parts])
                for hanging in hangs:
                    over = "hanging over the foot" if hanging else ""
                    names = "; ".join(name for name in (snow_name, over, wind_name) if name)
                    tip = ((model.length_mm, hanging),) if hanging else ()
                    yield RafterCase(
                        combination=c,
                        words=f"{c.name}: {names}" if names else c.name,
                        parts=parts,
                        line=line,
                        answer=overhang_beam(model.beam, line, tip),
                        hanging_n=hanging,
                        tip_mm=model.length_mm,
                    )


def _wind_of(lines: RafterLines, c: Combination) -> tuple[tuple[str, LineLoad], ...]:
    if c.wind_sense == "up":
        return lines.up_accidental if c.wind_accidental else lines.up
    return lines.down_accidental if c.wind_accidental else lines.down


def _area(line: LineLoad) -> float:
    return sum((b - a) * (qa + qb) / 2.0 for (a, qa), (b, qb) in pairwise(line))


def _from_bearing(line: LineLoad, model: RafterModel) -> LineLoad:
    """A load counted from the wall face, counted from the head bearing; what lies before the bearing is dropped."""
    start, end = model.start_mm, model.length_mm
    # Every load ends at the very foot: dust of floating point would leave the last of them alone there.
    points = [(end if abs(x - start - end) < HAIR_MM else x - start, q) for x, q in line if x > start]
    if start <= 0.0:
        return (line[0], *points)
    (x0, q0), (x1, q1) = next((a, b) for a, b in pairwise(line) if a[0] <= start < b[0])
    return ((0.0, q0 + (q1 - q0) * (start - x0) / (x1 - x0)), *points)
