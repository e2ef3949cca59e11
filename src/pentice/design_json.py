"""Writes a design as JSON data in the shape of `design_model`: fixed order of keys, numbers to 1e-6, no NaN."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import fields, is_dataclass
from datetime import date
from decimal import Decimal
from functools import cache
from types import NoneType
from typing import Any, TypeVar

from pydantic import BaseModel

from pentice import design_model as model
from pentice.cutting.followed import followed
from pentice.cutting.values import CutPlan, SheetPlan
from pentice.design import Design, Summary
from pentice.faults import model_in
from pentice.job.found import cautions
from pentice.job.writing import job_data
from pentice.loads.lines import net_coefficient
from pentice.loads.values import Loads, SnowCase, WindCase, WindZone
from pentice.setting_out.values import Plane
from pentice.takeoff.values import OrderLine

M = TypeVar("M", bound=BaseModel)

DRAWINGS: tuple[tuple[str, str, str], ...] = (
    ("setting-out", "A3", "as fits"),
    ("cutting", "A4", "as fits"),
)


def design_data(design: Design, *, shared: str = "") -> dict[str, Any]:
    """The design as plain data for JSON.

    Parameters
    ----------
    design
        A solved job.
    shared
        Where cutting and order lie, if it shares them with other jobs: then they are left out here.

    Returns
    -------
    dict
        In the order of the contract; money as text, numbers rounded to 1e-6.
    """
    found: dict[str, Any] = _plain(design_model_of(design, shared=shared).model_dump(mode="python"))
    return found


def cutting_data(plan: CutPlan) -> dict[str, Any]:
    """A cutting plan as plain data, in the shape that it has in a design.

    Parameters
    ----------
    plan
        Of one job or of several.

    Returns
    -------
    dict
        Money as text.
    """
    found: dict[str, Any] = _plain(_cutting(plan).model_dump(mode="python"))
    return found


def order_data(lines: Sequence[OrderLine]) -> list[Any]:
    """An order as plain data, in the shape that it has in a design.

    Parameters
    ----------
    lines
        Of one job or of several.

    Returns
    -------
    list
        Money as text.
    """
    found: list[Any] = _plain([_like(model.OrderLine, line).model_dump(mode="python") for line in lines])
    return found


def design_schema() -> dict[str, Any]:
    """JSON Schema of the design."""
    return model.DesignModel.model_json_schema()


def design_model_of(design: Design, *, shared: str = "") -> model.DesignModel:
    """The design in the shape of the contract.

    Parameters
    ----------
    design
        A solved job.
    shared
        Where cutting and order lie, if it shares them with other jobs: then they are left out here.

    Returns
    -------
    DesignModel
        Validated against the contract.
    """
    return model.DesignModel(
        format=1,
        engine=design.engine,
        job=_plain(job_data(design.job)),
        choices=[
            model.Choice(what=path, value=_plain(given.value), why=given.note)
            for path, given in sorted(design.choices.items())
        ],
        summary=_summary(design.summary),
        loads=_loads(design),
        setting_out=model.SettingOut(
            planes=[_like(model.Plane, plane) for plane in design.setting_out.planes]
        ),
        checks=[
            _like(model.Check, check, utilisation=check.utilisation, typical=check.typical)
            for check in design.checks
        ],
        pieces=[_like(model.Piece, piece, end_cuts=_end_cuts(piece.end_cuts)) for piece in design.pieces],
        cutting=None if shared else _cutting(design.cutting),
        order=None if shared else [_like(model.OrderLine, line) for line in design.order],
        shared=shared,
        price=_like(model.Price, design.price),
        cautions=[
            model.Caution(text=c.text, why=c.why, ask=c.ask) for c in cautions(design.job) if c.is_open
        ],
        drawings=[model.Drawing(name=n, page=p, scale=s) for n, p, s in DRAWINGS],
    )


def _like(kind: type[M], value: Any, **more: Any) -> M:
    """A model filled from a value of the same names, its parts likewise; what it does not know stays behind."""
    return kind.model_validate(_only(kind, value, more))


def _only(kind: type[BaseModel], value: Any, more: dict[str, Any]) -> dict[str, Any]:
    """The fields that a model knows, with the models of its parts applied to theirs."""
    found: dict[str, Any] = {}
    for name, annotation, inner in _fields_of(kind):
        part = more[name] if name in more else getattr(value, name)
        found[name] = part if isinstance(part, _BARE) else _part(annotation, inner, part)
    return found


_BARE = (str, int, float, NoneType)
"""Values that JSON knows as they stand."""


@cache
def _fields_of(kind: type[BaseModel]) -> tuple[tuple[str, Any, type[BaseModel] | None], ...]:
    """The fields of a model: their names, what they take, and the model within that."""
    return tuple(
        (name, field.annotation, model_in(field.annotation)) for name, field in kind.model_fields.items()
    )


def _part(annotation: Any, inner: type[BaseModel] | None, value: Any) -> Any:
    """A part of a model: nested models take only what they know; amounts become text where text is asked for."""
    if inner is not None and is_dataclass(value):
        return _only(inner, value, {})
    if isinstance(value, tuple | list):
        if inner is not None:
            return [_only(inner, item, {}) if is_dataclass(item) else item for item in value]
        return [_part(None, None, item) for item in value]
    if isinstance(value, Decimal):
        return str(value) if annotation is str or annotation is None else float(value)
    return value


def _end_cuts(cuts: Sequence[Any] | None) -> list[Any]:
    return list(cuts) if cuts is not None else []


def _summary(summary: Summary) -> model.Summary:
    return model.Summary(
        verdict=summary.verdict,
        counts=dict(summary.counts),
        complete=summary.complete,
        governing=[check.id for check in summary.governing],
    )


def _loads(design: Design) -> model.Loads:
    loads, plane = design.loads, design.setting_out.plane
    return model.Loads(
        snow=model.Snow(
            ground_kn_m2=loads.snow.ground_kn_m2,
            cases=[_snow_case(case, plane) for case in loads.snow.cases],
        ),
        wind=_wind(loads, plane),
        dead=model.Dead(
            sheet_kn_m2=loads.dead.sheet_kn_m2,
            bar_kn_m=loads.dead.bar_kn_m,
            rafter_kn_m=loads.dead.rafter_kn_m,
        ),
        imposed=model.Imposed(
            area_kn_m2=loads.imposed.area_kn_m2,
            point_kn=loads.imposed.point_kn,
            refused=loads.imposed.refused,
        ),
        combinations=[
            model.Combination(name=c.name, clause=c.clause, kind=c.kind)
            for c in (*loads.combinations, *loads.service)
        ],
    )


def _snow_case(case: SnowCase, plane: Plane) -> model.SnowCase:
    points = [
        model.SnowPoint(
            plane=plane.id,
            x_mm=at if case.along == "x" else 0.0,
            y_mm=at if case.along == "y" else 0.0,
            kn_m2=load,
        )
        for at, load in case.points
    ]
    return model.SnowCase(name=case.name, situation=case.situation, points=points)


def _wind(loads: Loads, plane: Plane) -> model.Wind:
    peak = loads.wind.peak_pressure_kn_m2
    zones: dict[tuple[Any, ...], model.Zone] = {}
    for case in loads.wind.cases:
        for zone in case.zones:
            key = (zone.name, zone.x_mm, zone.y_mm)
            (x0, x1), (y0, y1) = zone.x_mm, zone.y_mm
            held = zones.setdefault(
                key,
                model.Zone(
                    name=zone.name,
                    plane=plane.id,
                    outline_mm=[(x0, y0), (x1, y0), (x1, y1), (x0, y1)],
                    cases=[],
                ),
            )
            held.cases.append(_zone_case(case, zone, peak or 0.0))
    return model.Wind(
        peak_pressure_kn_m2=peak,
        reference_height_m=loads.wind.reference_height_m,
        refused=loads.wind.refused,
        zones=list(zones.values()),
        whole=[
            model.WholeRoofWind(
                name=found.name,
                force_kn=found.force_kn,
                at_mm=found.at_mm,
                drag_kn=found.drag_kn,
                drag_along=found.drag_along,
            )
            for found in loads.wind.whole
        ],
    )


def _zone_case(case: WindCase, zone: WindZone, peak: float) -> model.ZoneCase:
    ten, one = (net_coefficient(zone, case.inside, area_m2) for area_m2 in (10.0, 1.0))
    return model.ZoneCase(
        name=case.name, situation=case.situation, c_10=ten, c_1=one, kn_m2_10=ten * peak, kn_m2_1=one * peak
    )


def _cutting(plan: CutPlan) -> model.Cutting:
    return model.Cutting(
        sheets=[
            _like(model.SheetPlan, sheet, price=_money(sheet.price), cuts=_cuts(sheet))
            for sheet in plan.sheets
        ],
        lengths=[_like(model.LengthPlan, length, price=_money(length.price)) for length in plan.lengths],
        aim=plan.aim,
        cost=_money(plan.cost),
        credit=_money(plan.credit),
        bound=_money(plan.bound),
        proven=plan.proven,
        waste_area_m2=plan.waste_area_m2,
        offcuts=[_like(model.Offcut, offcut) for offcut in plan.offcuts],
    )


def _cuts(plan: SheetPlan) -> list[model.Cut]:
    return [
        _like(
            model.Cut,
            turn.cut,
            part=turn.part.name,
            part_width_mm=turn.part.width_mm,
            part_length_mm=turn.part.length_mm,
            stop_mm=turn.stop_mm,
            gets=turn.gets.name if turn.gets is not None else "",
            leaves=turn.leaves.name if turn.leaves is not None else "",
        )
        for turn in followed(plan)
    ]


def _money(pence: int) -> str:
    return str((Decimal(pence) / 100).quantize(Decimal("0.01")))


def _plain(value: Any) -> Any:
    """Data that JSON knows: floats rounded to 1e-6, no NaN, tuples as lists, dates and amounts as text."""
    if isinstance(value, float):
        return (round(value, 6) + 0.0) if math.isfinite(value) else None
    if isinstance(value, _BARE):
        return value
    if isinstance(value, Decimal):
        return str(value)
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, dict):
        return {str(key): _plain(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(item) for item in value]
    if isinstance(value, BaseModel):
        return _plain(value.model_dump(mode="python"))
    if is_dataclass(value) and not isinstance(value, type):
        return {f.name: _plain(getattr(value, f.name)) for f in fields(value)}
    return str(value)
