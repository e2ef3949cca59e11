"""What every check stands on: the job, its products, loads and sizes, and the marks of what goes in."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import Any, TypeVar, TypeVarTuple

from pentice.catalogue.model import Catalogue
from pentice.catalogue.parts import Parts
from pentice.checks.values import Check, Place, RestsOn, Shown, Told, Verdict, verdict_of
from pentice.frame.values import Frame
from pentice.job.called import along
from pentice.job.fields import WALLS, Wall
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.loads.values import Loads, Snow, SnowCase
from pentice.records import quickly_made
from pentice.setting_out.values import SettingOut
from pentice.standards.annex import Annex

Made = TypeVar("Made")
Of = TypeVarTuple("Of")
PRACTICE = "common practice, no source"
JUDGEMENT = "judgement, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """The inputs of every check."""

    job: Job
    shape: RoofShape
    parts: Parts
    catalogue: Catalogue
    annex: Annex
    loads: Loads
    setting_out: SettingOut
    frame: Frame
    _made: dict[tuple[Any, ...], Any] = field(default_factory=dict, init=False, repr=False, compare=False)

    def once(self, make: Callable[[Ground, *Of], Made], *of: *Of) -> Made:
        """What a function makes of these inputs, and of some words or sizes, made once: several members ask for it."""
        key = (make, *of)
        if key not in self._made:
            self._made[key] = make(self, *of)
        made: Made = self._made[key]
        return made

    @property
    def along(self) -> str:
        """Along the beam, in words: along the wall, or along the eaves where no wall is."""
        return along(self.job)

    def without_snow(self) -> Ground:
        """The same with no snow at all, for what lifts: it is worst on a bare roof."""
        return self.once(_bare)

    def of_job(self, path: str, value: Any, *, typical: bool = False) -> RestsOn:
        """One input from the job file with its mark; typical where it stands for a value nobody gave."""
        mark = "typical" if typical else self.job.mark_of(path).mark
        return RestsOn(input=path, value=value, mark=mark)

    def of_catalogue(self, path: str, value: Any) -> RestsOn:
        """One input from the catalogue with its mark; "given" where it stands bare."""
        given = self.catalogue.mark_of(path)
        return RestsOn(input=path, value=value, mark=given.mark if given is not None else "given")

    def of_sheet(self, key: str) -> RestsOn:
        """One value of the job's sheet with its mark."""
        return self.of_catalogue(f"sheets.{self.parts.sheet.id}.{key}", getattr(self.parts.sheet, key))

    def of_bar(self, key: str) -> RestsOn:
        """One value of the job's bar with its mark."""
        return self.of_catalogue(f"bars.{self.parts.bar.id}.{key}", getattr(self.parts.bar, key))

    def of_screw(self, key: str) -> RestsOn:
        """One value of the job's bar screw with its mark."""
        return self.of_catalogue(f"screws.{self.parts.screw.id}.{key}", getattr(self.parts.screw, key))

    def of_snow(self) -> RestsOn:
        """Where the snow comes from: given on the ground, or the zone of a map."""
        return self.once(_snow_input)

    def of_wind(self) -> RestsOn:
        """Where the wind comes from: a peak pressure that was given, or the velocity of a map."""
        return self.once(_wind_input)

    def of_side_wind(self, *walls: Wall) -> tuple[RestsOn, ...]:
        """Coefficients that the job declares for some closed sides, or for all; none where it declares none."""
        own = self.job.site.side_wind
        if own is None:
            return ()
        walls = walls or tuple(wall for wall in WALLS if getattr(self.job.roof, wall) == "closed")
        keys: list[str] = [wall for wall in walls if getattr(own, wall) is not None]
        if len(keys) < len(walls):
            keys = ["inwards", "outwards", *keys]
        return tuple(self.of_job(f"site.side_wind.{key}", getattr(own, key)) for key in keys)


def _snow_input(ground: Ground) -> RestsOn:
    site = ground.job.site
    if site.ground_snow_kn_m2 is not None:
        return ground.of_job("site.ground_snow_kn_m2", site.ground_snow_kn_m2)
    return ground.of_job("site.snow_zone", site.snow_zone)


def _wind_input(ground: Ground) -> RestsOn:
    site, typical = ground.job.site, ground.loads.wind.typical
    if site.peak_pressure_kn_m2 is not None:
        return ground.of_job("site.peak_pressure_kn_m2", site.peak_pressure_kn_m2)
    return ground.of_job("site.vb0_m_s", site.vb0_m_s, typical=typical)


def _bare(ground: Ground) -> Ground:
    none = SnowCase(name="no snow", situation="persistent", along="y", points=((0.0, 0.0),))
    bare = replace(ground.loads.snow, cases=(none,), foot_line_kn_m=0.0)
    return replace(ground, loads=replace(ground.loads, snow=bare))


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """What a check asks, the same at each of its places."""

    id: str
    name: str
    member: str
    clause: str
    unit: str
    edition: str = ""


ToShow = Shown | Callable[[], Shown]
"""What a check shows, or how it is written out."""
NOTHING_SHOWN = Shown()


def compared(
    rule: Rule, place: Place, *, demand: float, capacity: float, case: str = "", shown: ToShow = NOTHING_SHOWN
) -> Check:
    """A check that compares what is needed with what is there.

    Parameters
    ----------
    rule, place
        What is asked, and where.
    demand, capacity
        In the rule's unit.
    case, shown
        The case that governs, and what the check shows.

    Returns
    -------
    Check
        "passes" or "fails".

    Source
    ------
    Definition.

    Examples
    --------
    >>> rule = Rule(id="r", name="R", member="sheet", clause="practice", unit="mm")
    >>> compared(rule, Place(bay=1), demand=10.0, capacity=9.0).verdict
    'fails'
    """
    return Check(
        id=rule.id,
        name=rule.name,
        member=rule.member,
        place=place,
        clause=rule.clause,
        edition=rule.edition,
        case=case,
        demand=demand,
        capacity=capacity,
        unit=rule.unit,
        verdict=verdict_of(demand, capacity),
        told=Told(shown),
    )


def open_check(
    rule: Rule,
    place: Place,
    verdict: Verdict,
    shown: ToShow,
    *,
    demand: float | None = None,
    case: str = "",
) -> Check:
    """A check that is refused or was not made, with its reason and whom to ask.

    Parameters
    ----------
    rule, place
        What is asked, and where.
    verdict
        "refused" or "not checked".
    shown
        What is missing or out of range, and the way out.
    demand, case
        What is known all the same.

    Returns
    -------
    Check
        Without a capacity.

    Source
    ------
    Definition.

    Examples
    --------
    >>> rule = Rule(id="cap-hold", name="Cap hold", member="bar", clause="declared value", unit="N/m")
    >>> open_check(rule, Place(), "refused", Shown(says="No cap hold is declared; ask the supplier.")).verdict
    'refused'
    """
    return Check(
        id=rule.id,
        name=rule.name,
        member=rule.member,
        place=place,
        clause=rule.clause,
        edition=rule.edition,
        case=case,
        demand=demand,
        unit=rule.unit,
        verdict=verdict,
        told=Told(shown),
    )


def snow_refusal(snow: Snow, x_mm: tuple[float, float], y_mm: tuple[float, float] = (0.0, math.inf)) -> str:
    """Why the snow on a part of the roof is not known: a drift that was refused, or the corner of two walls.

    Parameters
    ----------
    snow
        On the roof.
    x_mm
        The part, from left to right [mm].
    y_mm
        The part on plan, from the wall [mm]; absent: all the way from the wall to the foot.

    Returns
    -------
    str
        A sentence; empty where the snow is known.

    Source
    ------
    EN 1991-1-3:2003, 5.3.6, has one step; that two drifts are not added here is judgement, no source.

    Examples
    --------
    >>> snow = Snow(ground_kn_m2=0.8, cases=(), corners=(((0.0, 900.0), (0.0, 900.0)),))
    >>> snow_refusal(snow, (0.0, 850.0))[:20], snow_refusal(snow, (900.0, 1750.0))
    ('Corner of two walls:', '')
    >>> snow_refusal(snow, (0.0, 850.0), (2900.0, 3000.0))
    ''
    """
    for case, why in snow.refused:
        if case.startswith("drift"):
            return f"{case}: {why}."
    for xs, ys in snow.corners:
        if min(xs[1], x_mm[1]) > max(xs[0], x_mm[0]) and min(ys[1], y_mm[1]) > max(ys[0], y_mm[0]):
            return "Corner of two walls: where two drifts meet no rule says how they add; ask a structural engineer."
    return ""
