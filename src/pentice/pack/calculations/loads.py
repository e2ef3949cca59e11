"""Loads: snow with its pictures, wind by zone, weight and people, combinations."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby, takewhile

from pentice.design import Design
from pentice.loads.lines import net_coefficient
from pentice.loads.values import SnowCase, Wind, WindCase, WindZone
from pentice.pack.calculations.figures import minus
from pentice.pack.calculations.snow_picture import picture_name, snow_words
from pentice.pack.calculations.working import steps_table
from pentice.pack.paper import blocks as b

BESIDE_MOST = 2
"""So many pressures inside stand side by side in a table of wind."""
AREAS_M2 = (10.0, 1.0)
_NET = (
    "Pressure in kN/m², square to the slope, away from the roof negative: peak pressure times the net coefficient of "
    "both faces. x along the eaves from the left, y from the head on plan, in m."
)
_OUTSIDE = (
    "Pressure in kN/m², square to the slope, away from the roof negative: peak pressure times (outside coefficient "
    "less what stands under it). Two numbers: for a loaded area of 10 m² and of 1 m², between them by the logarithm of "
    "the area (7.2.1). x along the eaves from the left, y from the head on plan, in m. Over an overhang the "
    "coefficient of the wall below stands under the roof, in place of that inside."
)


def loads_blocks(design: Design) -> Iterator[b.Block]:
    """Everything that acts on the roof, with its working.

    Parameters
    ----------
    design
        A solved job.

    Yields
    ------
    Block
        Snow, wind, weight and people, combinations.
    """
    yield from _snow(design)
    yield from _wind(design.loads.wind)
    yield from _weight(design)
    combinations = b.table(
        ("Combination", "For", "Shortest load", "Rule"),
        [
            (minus(c.name), c.kind, c.duration, c.clause)
            for c in (*design.loads.combinations, *design.loads.service)
        ],
        widths=("1fr", 32, 32, 48),
        h=2.5,
        row_mm=1.1,
    )
    yield b.keep((b.heading("Combinations"), combinations))


def _snow(design: Design) -> Iterator[b.Block]:
    snow = design.loads.snow
    yield b.heading("Snow", above_mm=2.0)
    if snow.working:
        yield steps_table(snow.working)
    pictures = [_snow_picture(i, case) for i, case in enumerate(snow.cases)]
    for i in range(0, len(pictures), 2):
        pair = [[picture] for picture in pictures[i : i + 2]]
        yield b.keep([b.columns([*pair, *[[]] * (2 - len(pair))], widths=("1fr", "1fr"), gap_mm=8)])
    for name, reason in snow.refused:
        yield b.paragraph(f"*Refused, {name}:* {reason}", h_mm=2.5)
    if snow.corners:
        yield b.paragraph("Where two drifts meet no check of snow is made: it is refused there.", h_mm=2.5)
    if snow.foot_line_kn_m > 0.0:
        yield b.paragraph(
            f"Besides the cases snow hangs over the foot: {snow.foot_line_kn_m:.3f} kN/m along the edge, "
            "at the tips of the rafters.",
            h_mm=2.5,
        )
    for case in snow.cases:
        if case.working:
            yield b.heading(case.name.capitalize(), h_mm=2.8, above_mm=3)
            yield steps_table(case.working)


def _snow_picture(place: int, case: SnowCase) -> b.Block:
    return b.picture(
        picture_name(place),
        f"{case.name.capitalize()}: {snow_words(case)}.",
        caption=f"{case.name.capitalize()} ({case.situation})",
    )


def _wind(wind: Wind) -> Iterator[b.Block]:
    yield b.heading("Wind")
    if wind.working:
        yield steps_table(wind.working)
    zones = {
        step.numbers: step
        for case in wind.cases
        if case.kind == "outside and inside"
        for step in case.working
    }
    if zones:
        yield steps_table(tuple(zones.values()))
    if wind.refused:
        yield b.paragraph(f"*Refused:* {wind.refused}", h_mm=2.5)
    for name, reason in wind.cases_refused:
        yield b.paragraph(f"*Refused, {minus(name)}:* {reason}", h_mm=2.5)
    if wind.cases and wind.peak_pressure_kn_m2 is not None:
        yield b.paragraph(_OUTSIDE if zones else _NET, h_mm=2.5)
        for cases in _alike(wind.cases):
            for part in _parts(cases):
                yield _zones(part, wind.peak_pressure_kn_m2)
    if wind.whole:
        yield from _whole(wind)


def _whole(wind: Wind) -> Iterator[b.Block]:
    """Force and drag on the whole roof by direction, with the arithmetic of both."""
    rows = [
        (
            found.name,
            *(
                ("", "", "")
                if found.force_kn is None or found.at_mm is None
                else (
                    minus(found.working[0].numbers).replace(" x ", " × "),
                    minus(f"{found.force_kn:.2f}"),
                    ", ".join(f"{place / 1000:.2f}" for place in found.at_mm),
                )
            ),
            f"{found.drag_kn:.2f} {'along' if found.drag_along == 'x' else 'square'}",
        )
        for found in wind.whole
    ]
    table = b.table(
        ("Wind", "c_f q_p A, with A of the slope", "Force, kN", "at x, y, m", "Drag, kN"),
        rows,
        widths=("1fr", 50, 20, 22, 22),
        align=("left", "left", "right", "left", "left"),
        h=2.5,
        row_mm=0.95,
        note=(
            "Force square to the slope, up negative, c_f of EN 1991-1-4, Table 7.6; x from the left, y from the head, "
            "on plan (Figure 7.16). Drag along the eaves or square to them, the way the wind blows (7.5)."
        ),
    )
    title = "Wind on the whole roof, for beam, posts, bases and bracing"
    yield b.keep((b.heading(title, h_mm=2.5, above_mm=3.5), table))
    yield steps_table(tuple(dict.fromkeys(found.working[-1] for found in wind.whole)))


def _alike(cases: Sequence[WindCase]) -> list[list[WindCase]]:
    """Cases with the same zones and situation, which differ only in the pressure inside."""
    groups: dict[tuple[str, tuple[WindZone, ...]], list[WindCase]] = {}
    for case in cases:
        groups.setdefault((case.situation, case.zones), []).append(case)
    return list(groups.values())


def _parts(cases: list[WindCase]) -> Iterator[list[WindCase]]:
    """So many side by side as fit."""
    for _, part in groupby(enumerate(cases), key=lambda found: found[0] // BESIDE_MOST):
        yield [case for _, case in part]


def _zones(cases: Sequence[WindCase], peak: float) -> b.Block:
    title = _shared([case.name for case in cases])
    net = cases[0].kind != "outside and inside"
    columns = [_pressure_head(case, title, net=net) for case in cases]
    rows = [
        (
            zone.name,
            _spans(xs),
            _spans(ys),
            _pair((zone.c_10, zone.c_1), 2),
            *(() if net else (_under(zone),)),
            *(_pair([peak * net_coefficient(zone, case.inside, m2) for m2 in AREAS_M2], 3) for case in cases),
        )
        for zone, xs, ys in _alike_zones(cases[0].zones)
    ]
    coefficients = ({"formula": "c_p,net"},) if net else ({"formula": "c_pe,10 / c_pe,1"}, "Under it")
    table = b.table(
        ("Zone", "x", "y", *coefficients, *columns),
        rows,
        widths=(27, "1fr", 46 if net else 23, *(30 if net else 25 for _ in coefficients), *[29] * len(cases)),
        align=("left", "left", "left", *["right"] * (len(coefficients) + len(cases))),
        h=2.5,
        row_mm=0.95,
    )
    situation = "" if cases[0].situation == "persistent" else f" ({cases[0].situation})"
    words = f"{title[:1].upper()}{title[1:]}{situation}"
    return b.keep((b.heading(minus(words), h_mm=2.5, above_mm=3.5), table))


def _pressure_head(case: WindCase, title: str, *, net: bool) -> str:
    """Over a column of pressures: what stands inside."""
    if net:
        return "kN/m²"
    return minus(f"{case.inside:+.2f} inside") if case.name != title or case.inside else "kN/m²"


def _under(zone: WindZone) -> str:
    """What stands under a zone: the wall's coefficient over an overhang, else the one inside."""
    if zone.under_10 is None or zone.under_1 is None:
        return "inside"
    return _pair((zone.under_10, zone.under_1), 2)


Ends = tuple[float, float]


def _alike_zones(zones: Sequence[WindZone]) -> list[tuple[WindZone, list[Ends], list[Ends]]]:
    """Zones of one name and one coefficient together, where their rectangles make a full grid of x and y."""
    groups: dict[tuple[object, ...], list[WindZone]] = {}
    for zone in zones:
        key = (zone.name, zone.c_10, zone.c_1, zone.under_10, zone.under_1)
        groups.setdefault(key, []).append(zone)
    found = []
    for alike in groups.values():
        xs = list(dict.fromkeys(zone.x_mm for zone in alike))
        ys = list(dict.fromkeys(zone.y_mm for zone in alike))
        if len(xs) * len(ys) == len(alike):
            found.append((alike[0], xs, ys))
        else:
            found += [(zone, [zone.x_mm], [zone.y_mm]) for zone in alike]
    return found


def _shared(names: Sequence[str]) -> str:
    """What names have in common, up to a comma; a single name whole."""
    if len(names) == 1:
        return names[0]
    parts = zip(*(name.split(", ") for name in names), strict=False)
    return ", ".join(part[0] for part in takewhile(lambda part: len(set(part)) == 1, parts)) or names[0]


def _spans(reaches: Sequence[Ends]) -> str:
    return ", ".join(f"{minus(f'{low / 1000:.2f}')}–{high / 1000:.2f}" for low, high in reaches)


def _pair(values: Sequence[float], places: int) -> str:
    """The value for 10 m2 and for 1 m2; once where they are alike."""
    said = [f"{value:.{places}f}" for value in values]
    return minus(" / ".join(dict.fromkeys(said)))


def _weight(design: Design) -> Iterator[b.Block]:
    people = b.table(
        (), [("Category H, people on boards", _imposed(design))], widths=(60, "1fr"), h=2.5, row_mm=1.1
    )
    yield b.keep((b.heading("Weight and people"), steps_table(design.loads.dead.working), people))


def _imposed(design: Design) -> str:
    imposed = design.loads.imposed
    if imposed.refused:
        return f"refused: {imposed.refused}"
    area = f"{imposed.area_kn_m2 or 0.0:g} kN/m²"
    point = f"{imposed.point_kn or 0.0:g} kN"
    if design.parts.bar.carries:
        return f"{area}, {point} on one bar of the finished roof; no boards on bars; never on a sheet"
    return f"{area}, {point} on one rafter; never on a sheet"
