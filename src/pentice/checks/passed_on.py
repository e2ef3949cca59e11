"""What the rafters pass on to the eaves beam and to the wall, load by load, and each combination of it.

A rafter hangs at the wall and rests on the beam, which carries down and up but not level: so the force on the beam is
the reaction square to the rafter over cos(pitch), and what is level goes into the wall. A free-standing roof holds what
is level in either row of posts, or in both: each wind comes with all of it at the head, and with all at the eaves.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import groupby, pairwise, product
from typing import TYPE_CHECKING, NamedTuple, Protocol

from pentice.checks.ground import Ground, snow_refusal
from pentice.checks.rafter_model import RafterModel, dead_line_n_mm, rafter_models
from pentice.checks.rafter_winds import wind_at_ends_n
from pentice.checks.timber_shown import strength_in
from pentice.loads.combine import Combination
from pentice.loads.lines import Strip, snow_line
from pentice.loads.whole_roof import IN_WORDS
from pentice.mechanics.lines import LineLoad, even_line
from pentice.records import quickly_made

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

HANGING = "hanging over the foot"
"""Words for snow over the edge: EN 1991-1-3, 6.3."""


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Passed:
    """What one characteristic load passes on, rafter by rafter from the left [N]."""

    name: str
    foot_n: tuple[float, ...]
    """On the beam, down positive."""
    head_n: tuple[float, ...]
    """On the wall plate or the head beam, down positive."""
    pull_n: tuple[float, ...]
    """On the wall plate, level, away from the wall positive; of a free-standing roof whichever row holds it."""


class Combined(NamedTuple):
    """One combination of loads as it arrives."""

    combination: Combination
    words: str
    acting: tuple[tuple[int, float], ...]
    """Which loads of `PassedOn.all` act, each with its factor."""


@dataclass(frozen=True, kw_only=True)
class PassedOn:
    """Every characteristic load as it arrives under the rafters, and the combinations in which they may stand."""

    places_mm: tuple[float, ...]
    """Centres of the rafters over the beam [mm]."""
    heads_mm: tuple[float, ...]
    """Centres of the rafters at the wall [mm]."""
    dead: Passed
    snow: tuple[Passed, ...]
    snow_accidental: tuple[Passed, ...]
    wind: tuple[Passed, ...]
    wind_accidental: tuple[Passed, ...]
    imposed: Passed | None
    dead_lifts_n: tuple[float, ...]
    """What of the dead weight lifts the head of each rafter: that beyond the beam; 0 or more [N]."""
    combinations: tuple[Combination, ...]

    @cached_property
    def all(self) -> tuple[Passed, ...]:
        """Every load once, the dead weight first."""
        rest = (*self.snow, *self.snow_accidental, *self.wind, *self.wind_accidental)
        return (self.dead, *rest, *((self.imposed,) if self.imposed is not None else ()))

    def on(self, row: str) -> tuple[tuple[float, ...], tuple[tuple[float, ...], ...]]:
        """Places of the rafters over a row's beam [mm], and what each load of `all` puts there [N]."""
        if row == "head":
            return self.heads_mm, tuple(load.head_n for load in self.all)
        return self.places_mm, tuple(load.foot_n for load in self.all)

    @cached_property
    def cases(self) -> tuple[Combined, ...]:
        """Every combination, with each arrangement of snow and each wind: EN 1990, as `pentice.loads.combine`.

        Wind that presses a beam down at one place and lifts it at another stands in the combinations of both senses.
        """
        return tuple(self._cases())

    @cached_property
    def factors(self) -> Array:
        """The factors of every case, shape (cases, loads) [-]."""
        import numpy as np

        factors = np.zeros((len(self.cases), len(self.all)))
        for i, case in enumerate(self.cases):
            for load, factor in case.acting:
                factors[i, load] = factor
        return factors

    @cached_property
    def at_their_most(self) -> tuple[int, ...]:
        """Places in `cases` of those for strength, uplift and accidents: no characteristic ones."""
        return tuple(i for i, case in enumerate(self.cases) if case.combination.kind != "characteristic")

    @cached_property
    def dead_alone(self) -> int:
        """Place in `cases` of the dead weight by itself, characteristic."""
        return next(i for i, case in enumerate(self.cases) if case.combination.name == "G")

    @cached_property
    def at_their_most_by_combination(self) -> tuple[range, ...]:
        """Places in `cases` of those of each combination, characteristic ones left out."""
        kinds = groupby(range(len(self.cases)), lambda i: id(self.cases[i].combination))
        found = [list(places) for _, places in kinds]
        return tuple(
            range(places[0], places[-1] + 1)
            for places in found
            if self.cases[places[0]].combination.kind != "characteristic"
        )

    def _cases(self) -> Iterator[Combined]:
        place, by_kind = {id(load): k for k, load in enumerate(self.all)}, self._winds()

        def each(loads: Iterable[Passed], factor: float) -> list[tuple[str, tuple[tuple[int, float], ...]]]:
            """Each of some loads in words, and as it acts; nothing where it has no factor."""
            if not factor:
                return [("", ())]
            return [(load.name, ((place[id(load)], factor),)) for load in loads]

        for c in self.combinations:
            if c.imposed and self.imposed is None:
                continue
            snows = each(self.snow_accidental if c.snow_accidental else self.snow, c.snow)
            winds = each(by_kind[c.wind_accidental, c.wind_sense == "up"], c.wind)
            imposed = ((place[id(self.imposed)], c.imposed),) if c.imposed else ()
            for (snow, snow_acts), (wind, wind_acts) in product(snows, winds):
                names = f"{snow}; {wind}" if snow and wind else snow or wind
                words = f"{c.name}: {names}" if names else c.name
                yield Combined(c, words, ((0, c.dead), *snow_acts, *wind_acts, *imposed))

    def _winds(self) -> dict[tuple[bool, bool], tuple[Passed, ...]]:
        """By whether they are accidental and lift."""
        found = {}
        for accidental, winds in ((False, self.wind), (True, self.wind_accidental)):
            found[accidental, True] = tuple(w for w in winds if min(*w.foot_n, *w.head_n) < 0.0)
            found[accidental, False] = tuple(w for w in winds if max(*w.foot_n, *w.head_n) > 0.0)
        return found


class InCombination(Protocol):
    """A case of a combination."""

    @property
    def combination(self) -> Combination:
        """The combination."""


def strengths_in(value_n_mm2: float, cases: Iterable[InCombination], service: int) -> list[float]:
    """A characteristic strength as a design value in each of some cases.

    Parameters
    ----------
    value_n_mm2
        Characteristic strength, size factor included [N/mm2].
    cases
        The cases: those of one combination hold alike.
    service
        Service class, 1 to 3 [-].

    Returns
    -------
    list of float
        One for each case [N/mm2].

    Source
    ------
    As `pentice.checks.timber_shown.strength_in`.
    """
    found: list[float] = []
    for _, group in groupby(
        cases, lambda case: id(case.combination)
    ):  # one object each: to compare them takes longer
        alike = tuple(group)
        found += [strength_in(value_n_mm2, alike[0].combination, service).value] * len(alike)
    return found


def why_snow_unknown(ground: Ground) -> str:
    """Why the snow on beam and wall is not known; empty where it is.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    str
        A sentence.

    Source
    ------
    A beam carries the whole width: a refused drift anywhere refuses it.
    """
    return snow_refusal(ground.loads.snow, (0.0, ground.shape.width_mm))


def passed_on(ground: Ground) -> PassedOn:
    """Every characteristic load as it arrives at the beam and at the wall.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    PassedOn
        [N], rafter by rafter.

    Source
    ------
    Equilibrium of each rafter. Wind by the area that the beam carries, EN 1991-1-4, 7.2.1(1); an open roof also by
    the force coefficient at a quarter of the depth, 7.3(6).
    """
    models = ground.once(rafter_models)
    strips = [m.strip for m in models]
    area = sum(strip.area_m2 for strip in strips)
    loads, winds = ground.loads, wind_at_ends_n(ground, [area] * len(strips))

    def snow(situation: str) -> tuple[Passed, ...]:
        found = []
        for case in loads.snow.cases:
            if case.situation == situation:
                lines = [snow_line(case, s) for s in strips]
                found.append(_weight(case.name, lines, models))
                if loads.snow.foot_line_kn_m and situation == "persistent":
                    found.append(_weight(f"{case.name}; {HANGING}", lines, models, loads.snow.foot_line_kn_m))
        return tuple(found)

    area_load = loads.imposed.area_kn_m2
    return PassedOn(
        places_mm=tuple(m.rafter.centre_foot_mm for m in models),
        heads_mm=tuple(m.rafter.centre_head_mm for m in models),
        dead_lifts_n=tuple(
            dead_line_n_mm(ground, m) / m.strip.cos_pitch * m.overhang_mm**2 / (2.0 * m.span_mm)
            for m in models
        ),
        dead=_weight(
            "G", [even_line(s.length_mm, dead_line_n_mm(ground, m)) for s, m in _both(strips, models)], models
        ),
        snow=snow("persistent"),
        snow_accidental=snow("accidental"),
        wind=(*_wind_cases(ground, "persistent", winds), *_whole_roof(ground, strips, models)),
        wind_accidental=_wind_cases(ground, "accidental", winds),
        imposed=None
        if area_load is None
        else _weight(
            "Q",
            [even_line(s.length_mm, area_load * s.cos_pitch**2 * s.width_mm * 1e-3) for s in strips],
            models,
        ),
        combinations=loads.combinations,
    )


def with_own_area(ground: Ground, loads: PassedOn) -> PassedOn:
    """The same loads for the ends of each rafter: wind by the rafter's own loaded area, none on the roof as a whole.

    No combinations for sags: nothing at an end of a rafter asks for them.

    Parameters
    ----------
    ground
        The inputs of every check.
    loads
        With the wind on all that the beam carries.

    Returns
    -------
    PassedOn
        [N], rafter by rafter.

    Source
    ------
    EN 1991-1-4:2005, 7.2.1(1).
    """
    winds = wind_at_ends_n(ground, [model.strip.area_m2 for model in ground.once(rafter_models)])
    return replace(
        loads,
        combinations=tuple(c for c in loads.combinations if c.kind != "characteristic"),
        wind=_wind_cases(ground, "persistent", winds),
        wind_accidental=_wind_cases(ground, "accidental", winds),
    )


def _wind_cases(ground: Ground, situation: str, ends_n: Array) -> tuple[Passed, ...]:
    """The winds of a situation, of all that stand in the array."""
    asked = [n for n, case in enumerate(ground.loads.wind.cases) if case.situation == situation]
    names = [ground.loads.wind.cases[n].name for n in asked]
    return tuple(load for loads in _square(ground, names, ends_n[asked]) for load in loads)


def _both(strips: Sequence[Strip], models: Sequence[RafterModel]) -> Iterator[tuple[Strip, RafterModel]]:
    return zip(strips, models, strict=True)


def _ends(line: LineLoad, model: RafterModel) -> tuple[float, float]:
    """Reactions square to the rafter at its head and its foot [N], of a load counted from the wall face."""
    whole = turning = 0.0
    for (a, qa), (b, qb) in pairwise(line):
        force = (b - a) * (qa + qb) / 2.0
        whole += force
        turning += (b - a) * (qa * (2.0 * a + b) + qb * (a + 2.0 * b)) / 6.0 - force * model.start_mm
    foot = turning / model.span_mm
    return whole - foot, foot


def _weight(
    name: str, lines: Iterable[LineLoad], models: Sequence[RafterModel], tip_kn_m: float = 0.0
) -> Passed:
    """A load that hangs straight down, with what hangs over the foot along the edge: nothing level."""
    cos = models[0].strip.cos_pitch
    ends = []
    for line, model in zip(lines, models, strict=True):
        head, foot = _ends(line, model)
        hanging = tip_kn_m * model.strip.width_mm * cos
        more = hanging * (model.strip.length_mm - model.start_mm) / model.span_mm
        ends.append((head + hanging - more, foot + more))
    return Passed(
        name=name,
        foot_n=tuple(foot / cos for _, foot in ends),
        head_n=tuple(head / cos for head, _ in ends),
        pull_n=(0.0,) * len(ends),
    )


def _square(ground: Ground, names: Sequence[str], ends_n: Array) -> Iterator[tuple[Passed, ...]]:
    """Winds stand square to the slope: what is level goes to the wall, away from it in suction.

    What each brings to head and foot of every rafter, shape (winds, rafters, 2) [N]; of a free-standing roof its level
    force at the head, and then at the eaves.
    """
    cos = ground.shape.cos_pitch
    sin, whole = (1.0 - cos**2) ** 0.5, ends_n.sum(axis=2)
    heads, feet = ends_n[..., 0] / cos, ends_n[..., 1] / cos
    of_each = (feet, whole * cos - feet, whole * cos - heads, heads, -whole * sin)
    rows = zip(names, *(of.tolist() for of in of_each), strict=True)
    for name, foot, head_with_level, foot_with_level, head, pull in rows:
        at_head = Passed(name=name, foot_n=tuple(foot), head_n=tuple(head_with_level), pull_n=tuple(pull))
        if ground.job.roof.attached:
            yield (at_head,)
            continue
        yield (
            replace(at_head, name=f"{name}, level force at the head"),
            Passed(
                name=f"{name}, level force at the eaves",
                foot_n=tuple(foot_with_level),
                head_n=tuple(head),
                pull_n=at_head.pull_n,
            ),
        )


def _whole_roof(ground: Ground, strips: Sequence[Strip], models: Sequence[RafterModel]) -> Iterator[Passed]:
    """Each force on the whole roof at its place; its drag down the slope pulls at the wall, each rafter its share."""
    import numpy as np

    winds, width = ground.loads.wind.whole, strips[-1].x_mm[1] - strips[0].x_mm[0]
    ends = np.zeros((len(winds), len(strips), 2))
    for n, wind in enumerate(winds):
        if wind.force_kn is not None and wind.at_mm is not None:
            ends[n] = _force_at(ground, wind.force_kn, wind.at_mm, wind.drag_along, strips, models)
    names = [f"whole roof, {wind.name}" for wind in winds]
    for wind, loads in zip(winds, _square(ground, names, ends), strict=True):
        if wind.drag_along != "y" or not wind.name.startswith(IN_WORDS["onto head"]):
            yield from loads
            continue
        dragged = [wind.drag_kn * 1000.0 * strip.width_mm / width for strip in strips]
        for found in loads:
            yield replace(found, pull_n=tuple(p + d for p, d in zip(found.pull_n, dragged, strict=True)))


def _force_at(
    ground: Ground,
    force_kn: float,
    at_mm: tuple[float, float],
    along: str,
    strips: Sequence[Strip],
    models: Sequence[RafterModel],
) -> list[tuple[float, float]]:
    """Reactions square to each rafter [N] of a force on the whole roof at a place on plan.

    Along the slope the place is all that counts. Along the wall the force is shared out as a triangle that ends three
    quarters of the width from the windward edge: its middle lies at the quarter (judgement, no source).
    """
    left, right = strips[0].x_mm[0], strips[-1].x_mm[1]
    width, found = right - left, []
    for strip, model in _both(strips, models):
        share = strip.width_mm
        if along == "x":
            near, far = strip.x_mm[0] - left, strip.x_mm[1] - left
            if at_mm[0] > ground.shape.width_mm / 2.0:
                near, far = width - far, width - near
            share = _triangle(near, far, width)
        force = force_kn * 1000.0 * share / width
        foot = force * (at_mm[1] / strip.cos_pitch - model.start_mm) / model.span_mm
        found.append((force - foot, foot))
    return found


def _triangle(near_mm: float, far_mm: float, width_mm: float) -> float:
    """Width that counts between two distances from the windward edge [mm], so that all of it sums to the width."""
    reach = 0.75 * width_mm
    a, b = min(near_mm, reach), min(far_mm, reach)
    return 2.0 * width_mm / reach * ((b - a) - (b**2 - a**2) / (2.0 * reach))
