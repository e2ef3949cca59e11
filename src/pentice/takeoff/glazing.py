"""Seals, tapes, buttons, screws, end caps and sealant: what goes with sheets and bars."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pentice.takeoff.needs import Need, Roof, not_here

TAPE_OVER_MM = 50.0
"""Tape beyond the width of a sheet: common practice, no source."""
RELAX = 1.01
"""Seals are cut 1 % long and lie relaxed overnight: common practice, no source."""
BEAD_M = 9.868
"""One 310 ml tube at 90 % in a 6 mm bead: geometry."""


def glazing_needs(roof: Roof) -> Iterator[Need]:
    """Everything that goes with sheets and bars.

    Parameters
    ----------
    roof
        What the take-off counts on.

    Yields
    ------
    Need
        Quantities with the rule that gives them.
    """
    yield from _seals(roof)
    yield from _tapes(roof)
    yield from _screws(roof)
    yield from _small(roof)


def _bar_metres(roof: Roof) -> float:
    return sum(bar.base_mm for bar in roof.setting_out.plane.bars) / 1000.0


def _seals(roof: Roof) -> Iterator[Need]:
    bar, metres = roof.parts.bar, _bar_metres(roof)
    for use, runs, id in (("base", bar.base_seals, bar.base_seal), ("cap", bar.cap_seals, bar.cap_seal)):
        part = f"seals {'bottom' if use == 'base' else 'top'}"
        if bar.seals_in_set or not runs:
            yield not_here(part, "Tapes and seals", "the bar comes with its seals")
            continue
        need = runs * metres * RELAX
        yield Need(
            part=part,
            group="Tapes and seals",
            item=f"seals.{id}" if id is not None else None,
            quantity=need,
            spare=0.05 * need,
            unit="m",
            why=f"{runs} runs on {metres:.2f} m of bar, 1 % long. Never stretch a seal: lay it relaxed overnight.",
        )


def _tapes(roof: Roof) -> Iterator[Need]:
    metres = sum(bay.width_mm.cut + TAPE_OVER_MM for bay in roof.setting_out.plane.bays) / 1000.0
    depth = roof.parts.sheet.depth_mm
    for use, part in (("solid", "solid head tape"), ("breather", "breather foot tape")):
        id = next(
            (t.id for t in roof.catalogue.tapes.values() if t.use == use and depth in t.sheet_depths_mm), None
        )
        yield Need(
            part=part,
            group="Tapes and seals",
            item=f"tapes.{id}" if id is not None else None,
            quantity=metres,
            spare=0.1 * metres,
            unit="m",
            why="Width and 50 more for each sheet, 10 % spare.",
        )
    id = next((t.id for t in roof.catalogue.tapes.values() if t.use == "separating"), None)
    top = (
        sum(r.width_mm > 0 for r in roof.setting_out.plane.rafters)
        * roof.setting_out.plane.slope_length_mm
        / 1000.0
    )
    yield Need(
        part="separating or reflecting tape on rafter tops",
        group="Tapes and seals",
        item=f"tapes.{id}" if id is not None else None,
        quantity=top,
        spare=0.1 * top,
        unit="m",
        why="One run on each rafter: parts treated timber from aluminium and sheet, 10 % spare.",
    )


def _screws(roof: Roof) -> Iterator[Need]:
    bars = roof.setting_out.plane.bars
    count = sum(len(bar.holes) for bar in bars)
    screw = roof.parts.screw
    yield Need(
        part="screws",
        group="Fixings",
        item=f"screws.{screw.id}",
        quantity=count,
        spare=math.ceil(0.1 * count),
        unit="each",
        why=f"{len(bars)} bars, {len(bars[0].holes)} holes in the first; 10 % spare.",
        pieces=tuple(f"{bar.id}-base" for bar in bars),
    )
    profile = next((s.id for s in roof.catalogue.screws.values() if s.use == "profile"), None)
    trims = sum(p.length_mm for p in roof.pieces_like("TL", "TR", "EL", "ER")) / 1000.0
    if trims:
        count = math.ceil(trims / 0.4) + 2
        yield Need(
            part="their screws",
            group="Fixings",
            item=f"screws.{profile}" if profile is not None else None,
            quantity=count,
            spare=math.ceil(0.1 * count),
            unit="each",
            why=f"{trims:.2f} m of verge trim every 400, common practice; 10 % spare.",
        )
    else:
        yield not_here("their screws", "Fixings", "no verge trim")


def _small(roof: Roof) -> Iterator[Need]:
    plane, parts = roof.setting_out.plane, roof.parts
    bays, bars = len(plane.bays), len(plane.bars)
    yield Need(
        part="button with washer and seal",
        group="Fixings",
        item=f"buttons.{parts.button.id}" if parts.button is not None else None,
        quantity=bays,
        spare=math.ceil(0.1 * bays),
        unit="each",
        why="One in the middle of each sheet's foot, 10 % spare.",
    )
    yield Need(
        part="foot end caps",
        group="Bars",
        item=f"sundries.{parts.bar.end_cap}" if parts.bar.end_cap is not None else None,
        quantity=bars,
        spare=1,
        unit="pair",
        why="Left and right at the foot of each bar: they close what the foot profile leaves. One pair more.",
    )
    yield Need(
        part="cap stops",
        group="Bars",
        item=f"sundries.{parts.bar.cap_stop}"
        if parts.bar.cap_stop is not None
        else _sundry(roof, "cap stop"),
        quantity=bars,
        spare=1,
        unit="each",
        why="One for each cap, so that it cannot slide.",
    )
    beads = (bays * (plane.bays[0].width_mm.cut / 1000.0)) + 0.05 * sum(len(b.holes) for b in plane.bars)
    tubes = beads / BEAD_M
    sealant = next((s.id for s in roof.catalogue.sealants.values() if s.use == "general"), None)
    yield Need(
        part="sealant at screws",
        group="Tapes and seals",
        item=f"sealants.{sealant}" if sealant is not None else None,
        quantity=tubes,
        spare=1,
        unit="tube",
        why=f"{beads:.2f} m of 6 mm bead on the foot profile and at every screw, {BEAD_M} m a tube; one more.",
    )
    can = _bar_metres(roof) * 4.0 / 60.0
    yield Need(
        part="lubricant",
        group="Sundries",
        item=_sundry(roof, "lubricant"),
        quantity=max(1.0, can),
        unit="can",
        why="One can for 60 m of seal.",
    )


def _sundry(roof: Roof, part: str) -> str | None:
    id = roof.sundry(part)
    return f"sundries.{id}" if id is not None else None
