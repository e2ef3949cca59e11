"""What one rafter carries: its strip, its bearings, and each combination as a line load [N/mm]."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise, product
from typing import Literal, NamedTuple, get_args

from pentice.checks.ground import Ground
from pentice.checks.timber_shown import Strength, service_class, strength_in
from pentice.frame.stage import head_support_mm
from pentice.loads.combine import Combination
from pentice.loads.lines import (
    Strip,
    ZonesOver,
    snow_line,
    undominated,
    wind_line,
    zone_pressures,
    zones_over,
)
from pentice.loads.values import HAIR_MM, WindCase
from pentice.mechanics.beam import Beam, BeamAnswer, BeamLoads, PointLoads, rectangle_stiffness
from pentice.mechanics.lines import LineLoad, even_line, summed_line
from pentice.setting_out.values import Rafter
from pentice.standards.annex import snow_psi
from pentice.standards.en338 import StrengthClass, strength_class
from pentice.standards.en1990 import Psi
from pentice.standards.en1995 import k_def
from pentice.standards.en1995_deflection import VariableSag, final_deflection_mm
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
_ACTIONS: tuple[Action, ...] = get_args(Action)


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One action of a case: its characteristic load and the factor that the combination puts on it."""

    action: Action
    factor: float
    line: LineLoad


Named = tuple[str, LineLoad]
"""A load by its name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RafterLines:
    """Characteristic line loads of a rafter by kind, only those that can govern."""

    dead: LineLoad
    snow: tuple[Named, ...]
    snow_accidental: tuple[Named, ...]
    down: tuple[Named, ...]
    up: tuple[Named, ...]
    down_accidental: tuple[Named, ...]
    up_accidental: tuple[Named, ...]
    imposed: LineLoad | None
    hanging_n: float = 0.0
    """Snow that hangs over the foot, at the tip, square to the slope [N]."""


class Acting(NamedTuple):
    """One combination on one rafter: with which snow, with which wind."""

    combination: Combination
    snow: Named | None
    wind: Named | None
    imposed: LineLoad | None
    hanging_n: float
    """Factored snow that hangs over the foot, at the tip, square to the slope [N]."""
    holds: Strength
    """What timber of strength 1 holds for so long."""

    @property
    def lasts(self) -> bool:
        """Is its sag asked? Snow that hangs over the foot lifts the span, so it is left out of the sag."""
        return self.combination.kind == "characteristic" and not self.hanging_n


@dataclass(frozen=True, kw_only=True)
class RafterCase:
    """One combination on one rafter with its answer."""

    acting: Acting
    dead: LineLoad
    tip_mm: float
    answer: BeamAnswer
    final_sag_mm: float
    """Between the bearings, in the end; 0 where no sag is asked [mm]."""

    @property
    def combination(self) -> Combination:
        """The combination."""
        return self.acting.combination

    @property
    def holds(self) -> Strength:
        """What timber of strength 1 holds for so long."""
        return self.acting.holds

    @cached_property
    def words(self) -> str:
        """In words: the combination, and what acts in it."""
        c, snow, wind, _, hanging, _ = self.acting
        over = "hanging over the foot" if hanging else ""
        names = "; ".join(n for n in (snow[0] if snow else "", over, wind[0] if wind else "") if n)
        return f"{c.name}: {names}" if names else c.name

    @cached_property
    def parts(self) -> tuple[Part, ...]:
        """Each load with its factor."""
        c, snow, wind, imposed, *_ = self.acting
        loads: tuple[tuple[Action, float, LineLoad | None], ...] = (
            ("dead", c.dead, self.dead),
            ("snow", c.snow, snow and snow[1]),
            ("wind", c.wind, wind and wind[1]),
            ("imposed", c.imposed, imposed),
        )
        return tuple(Part(action=a, factor=f, line=ln) for a, f, ln in loads if ln is not None)

    @cached_property
    def line(self) -> LineLoad:
        """All parts together [mm, N/mm]."""
        return summed_line([(part.factor, part.line) for part in self.parts])

    @property
    def point(self) -> tuple[float, float] | None:
        """What hangs over the foot as a force at its place [mm, N]; None where nothing does."""
        return (self.tip_mm, self.acting.hanging_n) if self.acting.hanging_n else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Combinations:
    """Every combination on one rafter, and what its beam is asked: each case, and then those that last."""

    acting: tuple[Acting, ...]
    dead: LineLoad
    loads: BeamLoads

    def answered(self, answers: Sequence[BeamAnswer]) -> tuple[RafterCase, ...]:
        """Each combination with its answer. Forces [N], moments [N mm], sag [mm]."""
        ends = iter(answers[len(self.acting) :])
        tip = self.loads.beam.span_mm + self.loads.beam.overhang_mm
        return tuple(
            RafterCase(
                acting=one,
                dead=self.dead,
                tip_mm=tip,
                answer=answer,
                final_sag_mm=next(ends).span_sag_mm if one.lasts else 0.0,
            )
            for one, answer in zip(self.acting, answers, strict=False)
        )


def strip_of(ground: Ground, rafter: Rafter) -> Strip:
    """The strip of roof that comes to a rafter: half of each bay beside it, or half a bay and the barge board.

    Parameters
    ----------
    ground
        The inputs of every check.
    rafter
        The rafter.

    Returns
    -------
    Strip
        [mm]. Of uneven centres the widest counts.

    Source
    ------
    Statics: half a bay from each side.
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
    return Strip(x_mm=(left, right), length_mm=length, cos_pitch=ground.shape.cos_pitch)


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
    head = head_support_mm(ground.job)
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


def rafter_models(ground: Ground) -> tuple[RafterModel, ...]:
    """Every rafter as a beam, from the left.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    tuple of RafterModel
        As `rafter_model`.

    Source
    ------
    As `rafter_model`.
    """
    return tuple(rafter_model(ground, rafter) for rafter in ground.setting_out.plane.rafters)


WindLines = tuple[tuple[WindCase, tuple[LineLoad, ...]], ...]
"""Each wind, and its line on each rafter from the left, counted from the wall face [mm, N/mm]."""


def own_winds(ground: Ground) -> WindLines:
    """Each wind on every rafter, by the rafter's own loaded area.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    WindLines
        [mm, N/mm].

    Source
    ------
    EN 1991-1-4:2005, 7.2.1(1).
    """
    return winds_by(ground, [model.strip.area_m2 for model in ground.once(rafter_models)])


def winds_by(ground: Ground, areas_m2: Sequence[float]) -> WindLines:
    """Each wind on every rafter, by some loaded area.

    Parameters
    ----------
    ground
        The inputs of every check.
    areas_m2
        One for each rafter [m2].

    Returns
    -------
    WindLines
        [mm, N/mm].

    Source
    ------
    EN 1991-1-4:2005, 7.2.1(1).
    """
    peak = ground.loads.wind.peak_pressure_kn_m2 or 0.0
    found = []
    for case, strips in ground.once(_zones_over_rafters):
        pressures = {area: zone_pressures(case, peak, area) for area in set(areas_m2)}
        lines = (wind_line(over, pressures[area]) for over, area in zip(strips, areas_m2, strict=True))
        found.append((case, tuple(lines)))
    return tuple(found)


def _zones_over_rafters(ground: Ground) -> tuple[tuple[WindCase, tuple[ZonesOver, ...]], ...]:
    models, cases = ground.once(rafter_models), ground.loads.wind.cases
    over = {
        reaches: tuple(zones_over(reaches, m.strip) for m in models)
        for reaches in {case.reaches for case in cases}
    }
    return tuple((case, over[case.reaches]) for case in cases)


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
        found = [(name, line) for of, lifts, name, line in winds if of == situation and lifts == upward]
        return undominated(found, upward=upward)

    winds = []
    for case, lines in ground.once(own_winds):
        line = _from_bearing(lines[model.rafter.number - 1], model)
        winds.append((case.situation, _area(line) < 0.0, case.name, line))
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


def combinations_on(ground: Ground, model: RafterModel, lines: RafterLines) -> Combinations:
    """Every combination that can govern on a rafter, to be worked out.

    Parameters
    ----------
    ground, model, lines
        The inputs of every check, the rafter and its loads.

    Returns
    -------
    Combinations
        Line loads [mm, N/mm].

    Source
    ------
    EN 1990 combinations on a beam on two bearings; snow over the foot at its edge, EN 1991-1-3, 6.3.
    """
    acting = tuple(_acting(ground, lines))
    return Combinations(acting=acting, dead=lines.dead, loads=_asked(ground, model, lines, acting))


def _acting(ground: Ground, lines: RafterLines) -> Iterator[Acting]:
    for c in ground.loads.combinations:
        if c.imposed and lines.imposed is None:
            continue
        snows = (lines.snow_accidental if c.snow_accidental else lines.snow) if c.snow else (None,)
        winds = _wind_of(lines, c) if c.wind else (None,)
        imposed = lines.imposed if c.imposed else None
        # What hangs over the foot eases the span, so each snow comes without it too.
        over = lines.hanging_n and c.snow and not c.snow_accidental
        hangs = (0.0, c.snow * lines.hanging_n) if over else (0.0,)
        holds = strength_in(1.0, c, service_class(ground))
        for snow, wind, hanging in product(snows, winds, hangs):
            yield Acting(c, snow, wind, imposed, hanging, holds)


def _asked(ground: Ground, model: RafterModel, lines: RafterLines, acting: Sequence[Acting]) -> BeamLoads:
    """Every case of a rafter, and then those that last with the factors that bring each load to its sag in the end."""
    kinds = (
        lines.snow,
        lines.snow_accidental,
        lines.down,
        lines.up,
        lines.down_accidental,
        lines.up_accidental,
    )
    named = [line for kind in kinds for _, line in kind]
    loads = (lines.dead, *named, *(() if lines.imposed is None else (lines.imposed,)))
    place, in_the_end = {id(line): n for n, line in enumerate(loads)}, ground.once(lasting_factors)

    def row(one: Acting, dead: float, snow: float, wind: float, imposed: float) -> tuple[float, ...]:
        found = [dead, *[0.0] * (len(loads) - 1)]
        if one.snow is not None:
            found[place[id(one.snow[1])]] = snow
        if one.wind is not None:
            found[place[id(one.wind[1])]] = wind
        if one.imposed is not None:
            found[-1] = imposed
        return tuple(found)

    cases: list[tuple[tuple[float, ...], PointLoads]] = []
    ends: list[tuple[tuple[float, ...], PointLoads]] = []
    for one in acting:
        c = one.combination
        hanging = ((model.length_mm, one.hanging_n),) if one.hanging_n else ()
        cases.append((row(one, c.dead, c.snow, c.wind, c.imposed), hanging))
        if one.lasts:
            factors = zip(_ACTIONS, (c.dead, c.snow, c.wind, c.imposed), strict=True)
            ends.append((row(one, *(in_the_end[action, f == 1.0] for action, f in factors)), ()))
    return BeamLoads(beam=model.beam, lines=loads, cases=(*cases, *ends))


def lasting_factors(ground: Ground) -> dict[tuple[Action, bool], float]:
    """The factor that brings a load to its sag in the end.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    dict
        By action, and whether it leads [-].

    Source
    ------
    EN 1995-1-1:2004, 2.2.3: sag is a sum, so the factor is what the expression gives for one load alone, of size 1.
    """
    creep = k_def(service_class(ground))
    annex, nothing = ground.annex, VariableSag(sag_mm=0.0, psi_0=0.0, psi_2=0.0)
    psi: Mapping[Action, Psi] = {
        "snow": snow_psi(annex, ground.job.site.altitude_m or 0.0),
        "wind": annex.psi_wind,
        "imposed": annex.psi_imposed,
    }
    dead = final_deflection_mm(1.0, nothing, k_def=creep)
    found: dict[tuple[Action, bool], float] = {("dead", True): dead, ("dead", False): dead}
    for action, own in psi.items():
        one = VariableSag(sag_mm=1.0, psi_0=own.psi_0, psi_2=own.psi_2)
        found[action, True] = final_deflection_mm(0.0, one, k_def=creep)
        found[action, False] = final_deflection_mm(0.0, nothing, (one,), k_def=creep)
    return found


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
