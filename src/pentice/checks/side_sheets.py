"""Sheets that close the sides: whether their profiles still hold them on the coldest day, and the wind on them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from pentice.catalogue.sheets import LoadTable
from pentice.checks.fit import bite_for_rib_mm, bite_needed_step, moved_step, temperature_inputs
from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared, open_check
from pentice.checks.sheet import BEYOND
from pentice.checks.sheet_table import TableRead, read_table
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.checks.walls import OnWall, in_any_zone, in_words, why_no_wind_on_walls
from pentice.errors import OutsideScope
from pentice.mechanics.movement import BITE_LEAST_MM, movement_mm
from pentice.setting_out.values import SideFit
from pentice.working import Step


def side_sheet_checks(ground: Ground) -> Iterator[Check]:
    """Every check of the sheets at the sides.

    Parameters
    ----------
    ground
        The inputs of every check.

    Yields
    ------
    Check
        For each sheet two bites [mm], and the wind onto it and off it [kN/m2].

    Source
    ------
    Movement with temperature, limits by judgement; EN 1991-1-4:2005+A1:2010, 7.2.2, 7.2.9; the supplier's table.
    """
    for fit in ground.setting_out.side_sheets:
        yield _side_bite(ground, fit)
        yield _head_bite(ground, fit)
        yield from _wind(ground, fit)


_BITE = Rule(
    id="side-bite",
    name="Side sheet, bite, coldest day",
    member="side sheet",
    clause=f"10 mm and one rib: {JUDGEMENT}",
    unit="mm",
)
_HEAD_BITE = replace(
    _BITE, id="side-bite-head", name="Side sheet, head bite, coldest day", clause=f"10 mm: {JUDGEMENT}"
)
_WIND = {
    sign: Rule(
        id=f"side-wind-{sign}",
        name=f"Side sheet, wind {way}",
        member="side sheet",
        clause="supplier's load table",
        unit="kN/m2",
    )
    for sign, way in (("down", "inwards"), ("up", "outwards"))
}


_NEEDED = Step(
    says="Bite needed",
    formula="no rib counted",
    numbers=f"{BITE_LEAST_MM:g}",
    result=BITE_LEAST_MM,
    unit="mm",
    clause=JUDGEMENT,
)


def _shrinking(ground: Ground, size_mm: float) -> tuple[float, Step]:
    temps = ground.setting_out.temperatures
    shrink = movement_mm(size_mm, temps.alpha_per_k, temps.fit_c - temps.least_c)
    return shrink, moved_step(ground, size_mm, shrink, grows=False)


def _bite_inputs(ground: Ground) -> tuple[RestsOn, ...]:
    path = f"profiles.{ground.parts.foot_profile.id}.arm_mm"
    arm = ground.of_catalogue(path, ground.parts.foot_profile.arm_mm)
    return (*ground.once(temperature_inputs), arm)


def _side_bite(ground: Ground, fit: SideFit) -> Check:
    rib = max(fit.ribs_mm)

    def shown() -> Shown:
        between = fit.opening_mm[0] - 2.0 * ground.parts.foot_profile.back_mm
        shrink, step = _shrinking(ground, fit.width_mm)
        there = Step(
            says="Bite there",
            formula="arm - (between backs - width + shrinking)",
            numbers=f"{fit.arm_mm:g} - ({between:.2f} - {fit.width_mm:g} + {shrink:.3f})",
            result=fit.bite_side_cold_mm,
            unit="mm",
            clause="movement",
        )
        cure = "Deeper profiles at the sides, a narrower opening, or a rib nearer to the edge."
        working = (bite_needed_step(rib), step, there)
        return Shown(rests_on=ground.once(_bite_inputs), working=working, cure=cure)

    return compared(
        _BITE,
        Place(side_sheet=fit.number),
        demand=bite_for_rib_mm(rib),
        capacity=fit.bite_side_cold_mm,
        case="pushed hard to the other side",
        shown=shown,
    )


def _head_bite(ground: Ground, fit: SideFit) -> Check:
    def shown() -> Shown:
        profile = ground.parts.foot_profile
        takes = 2.0 * profile.back_mm + profile.drain_gap_mm
        shorter, short = min(fit.opening_mm[1:]), min(fit.left_mm, fit.right_mm)
        shrink, step = _shrinking(ground, max(fit.left_mm, fit.right_mm))
        there = Step(
            says="Bite there",
            formula="arm - (opening - 2 backs - drain gap - length) - shrinking",
            numbers=f"{fit.arm_mm:g} - ({shorter:.2f} - {takes:g} - {short:g}) - {shrink:.3f}",
            result=fit.bite_head_cold_mm,
            unit="mm",
            clause="movement; it stands on its foot",
        )
        cure = "A deeper profile at the head, or a bar across at half height."
        return Shown(rests_on=ground.once(_bite_inputs), working=(_NEEDED, step, there), cure=cure)

    return compared(
        _HEAD_BITE,
        Place(side_sheet=fit.number, at="head"),
        demand=BITE_LEAST_MM,
        capacity=fit.bite_head_cold_mm,
        shown=shown,
    )


class _SideWind(NamedTuple):
    """The worst wind on a sheet in a wall, as a design load."""

    on: OnWall
    factor: float

    def asked(self, sign: str, basis: str) -> float:
        """What a table must carry [kN/m2]: design, or characteristic where it has its factor in hand."""
        size = self.on.net if sign == "down" else -self.on.net
        design = self.factor * size
        if basis == "design":
            return design
        return design / BEYOND if self.on.situation == "accidental" else max(size, design / BEYOND)


def _winds(ground: Ground, fit: SideFit) -> tuple[_SideWind, ...]:
    """Every zone of a wall with every pressure inside that the roof is checked with: the worst governs."""
    width, left, right = fit.opening_mm
    area = width * (left + right) / 2.0 * 1e-6
    strength = max(c.wind for c in ground.loads.combinations if c.kind == "strength")
    return tuple(
        _SideWind(on=on, factor=1.0 if on.situation == "accidental" else strength)
        for on in in_any_zone(ground, fit.side, area_m2=area, tallest_mm=max(left, right))
    )


def _why_not(ground: Ground) -> str:
    """Why no wind on a side is known; nothing where one is."""
    why = why_no_wind_on_walls(ground) or ground.loads.wind.refused
    if why:
        return why
    if ground.parts.sheet.load_table is None:
        return "The sheet has no load table: ask its supplier what it carries as a wall, held on four edges."
    return ""


def _wind(ground: Ground, fit: SideFit) -> Iterator[Check]:
    """Wind onto a sheet, and off it."""
    table, why = ground.parts.sheet.load_table, _why_not(ground)
    winds: tuple[_SideWind, ...] = ()
    if not why:
        try:
            winds = _winds(ground, fit)
        except OutsideScope as refusal:
            why = str(refusal)
    for sign, rule in _WIND.items():
        if why or table is None:
            yield open_check(rule, Place(side_sheet=fit.number), "refused", Shown(says=why))
        else:
            yield _carried(ground, fit, table, winds, sign)


def _carried(ground: Ground, fit: SideFit, table: LoadTable, winds: Sequence[_SideWind], sign: str) -> Check:
    """The worst of some winds one way against the table."""
    rule, place = _WIND[sign], Place(side_sheet=fit.number)
    wind = max(winds, key=lambda w: w.asked(sign, table.basis))
    span = fit.opening_mm[0]
    read = read_table(table, span_mm=span, sign=sign)
    cure = "Narrower side sheets, or a sheet whose table reaches this width."
    if isinstance(read, str):
        return open_check(rule, place, "refused", Shown(says=read, cure=cure))
    cover = fit.arm_mm - (fit.opening_mm[0] - 2.0 * ground.parts.foot_profile.back_mm - fit.width_mm) / 2.0
    there = cover if table.edge_cover_is == "as fitted" else fit.bite_side_cold_mm
    if table.edge_cover_mm is not None and there < table.edge_cover_mm:
        says = (
            f"The load table asks for {table.edge_cover_mm:g} of edge cover; its profiles give {there:.1f}."
        )
        return open_check(rule, place, "refused", Shown(says=says, cure="Deeper profiles at the sides."))
    return compared(
        rule,
        place,
        demand=max(wind.asked(sign, table.basis), 0.0),
        capacity=read.load_kn_m2,
        case=in_words(wind.on),
        shown=lambda: Shown(
            rests_on=(
                RestsOn(
                    input=f"sheets.{ground.parts.sheet.id}.load_table", value=table.source, mark=table.mark
                ),
                ground.of_wind(),
                *ground.of_side_wind(fit.side),
            ),
            working=_wind_steps(wind, sign, table.basis, read, span),
            cure=cure,
        ),
    )


def _wind_steps(wind: _SideWind, sign: str, basis: str, read: TableRead, span_mm: float) -> tuple[Step, ...]:
    turn, net = ("" if sign == "down" else "-"), wind.on.net
    formula, numbers = f"{turn}gamma_Q w", f"{turn}{wind.factor:g} x ({net:.4f})"
    in_hand = ""
    if basis != "design":
        formula, numbers = f"{formula} / {BEYOND:g}", f"{numbers} / {BEYOND:g}"
        if wind.on.situation != "accidental":
            formula, numbers = f"max({turn}w, {formula})", f"max({turn}({net:.4f}), {numbers})"
        in_hand = f"; the table has {BEYOND:g} in hand"
    load = Step(
        says="Asked of the table",
        formula=formula,
        numbers=numbers,
        result=wind.asked(sign, basis),
        unit="kN/m2",
        clause=f"EN 1990, 6.10{in_hand}"
        + ("" if wind.on.source else f"; every sheet takes the worst zone: {JUDGEMENT}"),
    )
    carried = Step(
        says="Carried by the table",
        formula=f"at span {span_mm:.0f}, its edges held both ways",
        numbers=read.how,
        result=read.load_kn_m2,
        unit="kN/m2",
        clause="the table's own rows, between two edges",
    )
    return (wind.on.step(), load, carried)
