"""The rain that comes to the gutter: own roof, walls above, a roof above that drains onto ours; run by run.

Water of a roof above falls all along our head, or comes through a pipe at one place and stays in that run.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, tan

from pentice.checks.ground import Ground
from pentice.standards.en12056 import effective_area_m2, runoff_l_s
from pentice.standards.en12056_gutters import GutterRun, WallAbove, gutter_runs, wall_share_m2
from pentice.working import Step

_CLAUSE = "EN 12056-3, 4.2, 4.3"


@dataclass(frozen=True, slots=True, kw_only=True)
class RunFlow:
    """One run of the gutter with the water that it leads to its outlet [l/s]."""

    run: GutterRun
    spread_l_s: float
    at_one_place_l_s: float

    @property
    def flow_l_s(self) -> float:
        """All of it [l/s]."""
        return self.spread_l_s + self.at_one_place_l_s


@dataclass(frozen=True, slots=True, kw_only=True)
class Rain:
    """What comes to the gutter, and where it goes."""

    area_m2: float
    """Area whose water comes all along the gutter [m2]."""
    spread_l_s: float
    """Along the whole of it [l/s]."""
    at_one_place_l_s: float
    """From a roof above, through a pipe at one place [l/s]."""
    runs: tuple[RunFlow, ...]
    steps: tuple[Step, ...]

    def of_outlet(self, number: int) -> float:
        """Water of all runs to one outlet [l/s]."""
        return sum(found.flow_l_s for found in self.runs if found.run.outlet == number)


def rain_on(ground: Ground, rain_l_s_m2: float) -> Rain:
    """The water that comes to the gutter.

    Parameters
    ----------
    ground
        The inputs of every check.
    rain_l_s_m2
        Rain of the place [l/s per m2].

    Returns
    -------
    Rain
        Flows [l/s]. Where no outlet is named there is one at an end.

    Source
    ------
    EN 12056-3:2000, 4.2, 4.3 and 5.1. The roof above catches driven rain by its pitch as ours does. Of walls that
    face two ways the greater counts; a level gutter parts half way.
    """
    shape = ground.shape
    width = shape.width_mm
    long, deep, rise = width / 1000.0, shape.depth_on_plan_mm / 1000.0, shape.rise_mm / 1000.0
    own = effective_area_m2(length_m=long, depth_m=deep, rise_m=rise)
    walls, said = _walls(ground)
    upper, above = _upper_roof(ground)
    at = ground.job.house.drains_at_mm if ground.job.house is not None and above else None
    spread = own + wall_share_m2(walls) + (upper if at is None else 0.0)
    steps = [
        *above,
        Step(
            says="Area that drains to the gutter",
            formula="L (B + rise / 2) + half the walls of the worst side + the roof above",
            numbers=f"{long:.3f} x ({deep:.3f} + {rise:.3f} / 2) + {said}"
            f" + {f'{upper:.3f}' if at is None else '0'}",
            result=spread,
            unit="m2",
            clause=_CLAUSE,
        ),
    ]
    from_pipe = runoff_l_s(upper, rain_l_s_m2) if at is not None else 0.0
    if at is not None:
        steps.append(
            Step(
                says=f"From the roof above, through its pipe at {at:.0f}",
                formula="Q = r A",
                numbers=f"{rain_l_s_m2:g} x {upper:.3f}",
                result=from_pipe,
                unit="l/s",
                clause=_CLAUSE,
            )
        )
    places = [min(max(x, 0.0), width) for x in ground.job.gutter.outlets_at_mm] or [0.0]
    flow = runoff_l_s(spread, rain_l_s_m2)
    runs = gutter_runs(width, places)
    struck = None if at is None else min(runs, key=lambda run: _away_mm(run, at))
    found = tuple(
        RunFlow(run=run, spread_l_s=flow * run.share, at_one_place_l_s=from_pipe if run is struck else 0.0)
        for run in runs
    )
    return Rain(area_m2=spread, spread_l_s=flow, at_one_place_l_s=from_pipe, runs=found, steps=tuple(steps))


def _away_mm(run: GutterRun, at_mm: float) -> float:
    """How far a place lies outside a run; the longer run where it lies on the edge of two [mm]."""
    low, high = min(run.from_mm, run.to_mm), max(run.from_mm, run.to_mm)
    return max(low - at_mm, at_mm - high, 0.0) - run.length_mm * 1e-9


def _walls(ground: Ground) -> tuple[list[WallAbove], str]:
    """Walls that shed driving rain onto the roof, and their sum in numbers."""
    job, shape = ground.job, ground.shape
    walls = []
    if job.house is not None and job.house.wall_top_above_mm:
        walls.append(
            WallAbove(length_m=shape.width_mm / 1000.0, height_m=job.house.wall_top_above_mm / 1000.0)
        )
    side = (job.roof.side_wall_top_above_mm or 0.0) / 1000.0
    walls += [
        WallAbove(length_m=shape.depth_on_plan_mm / 1000.0, height_m=side, facing=name)
        for name in ("left", "right")
        if getattr(job.roof, name) == "wall" and side > 0.0
    ]
    if not walls:
        return walls, "0"
    worst = max(walls, key=lambda wall: wall_share_m2([wall]))
    return walls, f"{worst.length_m:.3f} x min({worst.height_m:g}, 10) / 2"


def _upper_roof(ground: Ground) -> tuple[float, tuple[Step, ...]]:
    """Area of the roof above that drains onto ours, with the rain driven against its slope [m2], and its line."""
    house = ground.job.house
    if house is None or not house.roof_drains_to_us:
        return 0.0, ()
    # The job's reader asks for both wherever the house roof drains to us.
    assert house.upper_slope_plan_mm is not None and house.roof_pitch_deg is not None
    wide, slope = ground.shape.width_mm / 1000.0, house.upper_slope_plan_mm / 1000.0
    given, slant = house.drains_area_m2, tan(radians(house.roof_pitch_deg))
    plan = slope * wide if given is None else given
    numbers = f"{slope:.3f} x {wide:.3f}" if given is None else f"{given:g}"
    area = plan * (1.0 + slant / 2.0)
    step = Step(
        says=f"Area of the roof above, pitch {house.roof_pitch_deg:g} deg, "
        + ("its slope over our width" if given is None else "its plan area as given"),
        formula="A_plan (1 + tan(pitch) / 2)",
        numbers=f"{numbers} x (1 + {slant:.4f} / 2)",
        result=area,
        unit="m2",
        clause="EN 12056-3, 4.3",
    )
    return area, (step,)
