"""What one rafter carries: its strip, its bearings, and each combination as a line load [N/mm]."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise, product
from typing import Literal, NamedTuple, get_args

from pentice.checks.ground import Ground
from pentice.checks.rafter_model import RafterModel, dead_line_n_mm
from pentice.checks.rafter_winds import wind_lines
from pentice.checks.timber_shown import Strength, service_class, strength_in
from pentice.loads.combine import Combination
from pentice.loads.lines import snow_line, undominated
from pentice.loads.values import HAIR_MM
from pentice.mechanics.beam import BeamAnswer, BeamLoads, Factors, PointLoads
from pentice.mechanics.lines import LineLoad, even_line, summed_line
from pentice.standards.annex import snow_psi
from pentice.standards.en1990 import Psi
from pentice.standards.en1995 import k_def
from pentice.standards.en1995_deflection import VariableSag, final_deflection_mm

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


class RafterCase(NamedTuple):
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

    @property
    def words(self) -> str:
        """In words: the combination, and what acts in it."""
        c, snow, wind, _, hanging, _ = self.acting
        over = "hanging over the foot" if hanging else ""
        names = "; ".join(n for n in (snow[0] if snow else "", over, wind[0] if wind else "") if n)
        return f"{c.name}: {names}" if names else c.name

    @property
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

    @property
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
            RafterCase(one, self.dead, tip, answer, next(ends).span_sag_mm if one.lasts else 0.0)
            for one, answer in zip(self.acting, answers, strict=False)
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
        found = [(name, line) for of, lifts, name, line in winds if of == situation and lifts == upward]
        return undominated(found, upward=upward)

    winds = []
    for case, line in wind_lines(ground, model.rafter.number - 1, strip.area_m2, from_bearing=True):
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

    def acts(one: Acting, dead: float, snow: float, wind: float, imposed: float) -> Factors:
        found = [(0, dead)]
        if one.snow is not None:
            found.append((place[id(one.snow[1])], snow))
        if one.wind is not None:
            found.append((place[id(one.wind[1])], wind))
        if one.imposed is not None:
            found.append((len(loads) - 1, imposed))
        return found

    cases: list[tuple[Factors, PointLoads]] = []
    ends: list[tuple[Factors, PointLoads]] = []
    for one in acting:
        c = one.combination
        hanging = ((model.length_mm, one.hanging_n),) if one.hanging_n else ()
        cases.append((acts(one, c.dead, c.snow, c.wind, c.imposed), hanging))
        if one.lasts:
            factors = zip(_ACTIONS, (c.dead, c.snow, c.wind, c.imposed), strict=True)
            ends.append((acts(one, *(in_the_end[action, f == 1.0] for action, f in factors)), ()))
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
