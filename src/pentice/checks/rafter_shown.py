"""What the checks of a rafter show alike: the load on it, and the inputs they rest on."""

from __future__ import annotations

from typing import cast

from pentice.checks.ground import Ground
from pentice.checks.rafter_loads import RafterCase, RafterModel
from pentice.checks.values import RestsOn
from pentice.standards.en1995 import ServiceClass
from pentice.working import Step

EDITION = "EN 1995-1-1:2004+A1:2008"


def service_class(ground: Ground) -> ServiceClass:
    """Service class of the rafters: given, or 2 under a roof [-].

    Source
    ------
    EN 1995-1-1:2004, 2.3.1.3; an open carport rafter under sheet is class 2.
    """
    return cast(ServiceClass, ground.job.frame.service_class or 2)


def line_steps(ground: Ground, model: RafterModel, case: RafterCase) -> tuple[Step, ...]:
    """The load that a case puts on a rafter, as steps.

    Parameters
    ----------
    ground, model, case
        The inputs of every check, the rafter, one combination on it.

    Returns
    -------
    tuple of Step
        Line load at head and foot [kN/m], and what hangs over the foot [kN] where snow does.

    Source
    ------
    The clause of the combination; EN 1991-1-3:2003, 6.3, for snow over the foot.
    """
    ends = (case.line[0][1], case.line[-1][1])
    hanging = (
        Step(
            says="Snow that hangs over the foot, at the tip",
            formula="s_e x strip x cos(pitch), factored",
            numbers=f"{case.combination.snow:g} x {ground.loads.snow.foot_line_kn_m:.3f} kN/m x "
            f"{model.strip.width_mm:.0f} mm x {ground.shape.cos_pitch:.4f}",
            result=case.hanging_n / 1000.0,
            unit="kN",
            clause="EN 1991-1-3, 6.3",
        ),
    )
    return (
        Step(
            says="Load along the rafter, at head and foot",
            formula=f"{case.combination.name}, square to the slope",
            numbers=f"strip {model.strip.width_mm:.0f} mm: {ends[0]:.3f} to {ends[1]:.3f} kN/m",
            result=ends[0],
            unit="kN/m",
            clause=case.combination.clause,
        ),
        *(hanging if case.hanging_n else ()),
    )


def inputs_of(ground: Ground) -> tuple[RestsOn, ...]:
    """What every check of a rafter rests on, each with its mark.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    tuple of RestsOn
        Section, strength class, snow, wind and service class.

    Source
    ------
    Definition.
    """
    job, timber = ground.job, ground.parts.timber
    return (
        ground.of_job("frame.rafter_mm", job.frame.rafter_mm),
        ground.of_catalogue(f"timbers.{timber.id}.class", timber.strength_class),
        ground.of_snow(),
        ground.of_wind(),
        ground.of_job("frame.service_class", service_class(ground)),
    )
