"""Seals, tapes, buttons, screws, end caps and sealant: what goes with sheets and bars."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from pentice.pieces.values import Piece
from pentice.setting_out.side_frames import at_the_house_wall
from pentice.takeoff.needs import ONE_FOR_EACH_JOB, Need, Spare
from pentice.takeoff.roof import MASONRY, Roof

TAPE_OVER_MM = 50.0
"""Tape beyond the width of a sheet: common practice, no source."""
SEAL_SPARE = 0.06
"""Seals are cut 1 % long and lie relaxed overnight, and 5 % is spare: common practice, no source."""
SCREW_BEAD_M = 0.02
"""Bead at one screw: judgement, no source."""
SIDE_PROFILES = ("SSU", "SSH", "SSL", "SSR")
"""Letters of the profiles round a side sheet."""
CAN_M = 60.0
"""Seal that one can of lubricant does: common practice, no source."""


def seal_m(bars_mm: Iterable[float], runs: int) -> float:
    """Seal on all bars, laid in and never stretched [m].

    Examples
    --------
    >>> seal_m([3000.0] * 6, 4)
    72.0
    """
    return runs * sum(bars_mm) / 1000.0


def tape_m(widths_mm: Iterable[float]) -> float:
    """Tape over one end of each sheet, 25 round each corner [m].

    Examples
    --------
    >>> tape_m([950.0] * 5)
    5.0
    """
    return sum(width + TAPE_OVER_MM for width in widths_mm) / 1000.0


def bead_m(volume_ml: float, yield_share: float, diameter_mm: float) -> float:
    """Length of round bead that one tube gives [m].

    Examples
    --------
    >>> round(bead_m(310.0, 0.9, 6.0), 3), round(bead_m(310.0, 0.9, 10.0), 2)
    (9.868, 3.55)
    """
    return volume_ml * yield_share / (math.pi * diameter_mm**2 / 4.0)


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


def _seals(roof: Roof) -> Iterator[Need]:
    bar = roof.parts.bar
    for part, runs, id in (
        ("seals bottom", bar.base_seals, bar.base_seal),
        ("seals top", bar.cap_seals, bar.cap_seal),
    ):
        if not runs or not roof.bars or bar.seals_in_set:
            continue
        need = seal_m((b.base_mm for b in roof.bars), runs)
        yield Need(
            part=part,
            group="Tapes and seals",
            item=f"seals.{id}" if id is not None else None,
            quantity=need,
            spare=Spare(share=SEAL_SPARE),
            unit="m",
            why=f"{runs} runs on {roof.bar_m:.2f} m of bar; 1 % longer, 5 % spare. Never stretch a seal: lay it "
            "relaxed overnight.",
        )
    edges = roof.pieces_like("EL", "ER")
    if edges:
        strip = next((s.id for s in roof.catalogue.seals.values() if s.use == "profile"), None)
        need = sum(p.length_mm for p in edges) / 1000.0
        yield Need(
            part="seal under edge profiles",
            group="Tapes and seals",
            item=f"seals.{strip}" if strip is not None else None,
            quantity=need,
            spare=Spare(share=SEAL_SPARE),
            unit="m",
            why="The sheet lies on it at the verge; never stretched.",
            pieces=tuple(p.id for p in edges),
        )


def _end_mm(piece: Piece) -> tuple[float, ...]:
    """The end of each sheet that a piece gives; a sloping one is longer than the sheet is wide."""
    return tuple(math.hypot(p.width_mm, p.left_mm - p.right_mm) for p in piece.side_parts) or (
        piece.width_mm,
    )


def _tapes(roof: Roof) -> Iterator[Need]:
    sheets = tuple(p for p in roof.pieces if p.kind == "sheet")
    metres, depth = tape_m(end for p in sheets for end in _end_mm(p)), roof.parts.sheet.depth_mm
    for use, part in (("solid", "solid head tape"), ("breather", "breather foot tape")):
        fits = (
            t.id for t in roof.catalogue.tapes.values() if t.use == use and _takes(t.sheet_depths_mm, depth)
        )
        id = next(fits, None)
        yield Need(
            part=part,
            group="Tapes and seals",
            item=f"tapes.{id}" if id is not None else None,
            quantity=metres,
            spare=Spare(share=0.1),
            unit="m",
            why="Width and 50 more for each sheet and packing strip, 10 % spare.",
            pieces=tuple(p.id for p in sheets),
        )
    if roof.parts.bar.carries:
        return
    id = next((t.id for t in roof.catalogue.tapes.values() if t.use == "separating"), None)
    tops = len(roof.plane.rafters) * roof.plane.slope_length_mm / 1000.0
    yield Need(
        part="separating or reflecting tape on rafter tops",
        group="Tapes and seals",
        item=f"tapes.{id}" if id is not None else None,
        quantity=tops,
        spare=Spare(share=0.1),
        unit="m",
        why="One run on each rafter: keeps treated timber off aluminium and sheet. 10 % spare.",
    )


def _takes(depths_mm: tuple[float, ...], depth_mm: float) -> bool:
    return not depths_mm or depth_mm in depths_mm


def _screws(roof: Roof) -> Iterator[Need]:
    count = sum(len(bar.holes) for bar in roof.bars)
    if count:
        yield Need(
            part="screws",
            group="Fixings",
            item=f"screws.{roof.parts.screw.id}",
            quantity=float(count),
            spare=Spare(share=0.1),
            unit="each",
            why=f"{len(roof.bars)} bars, {len(roof.bars[0].holes)} holes in the first; 10 % spare.",
            pieces=tuple(f"{bar.id}-base" for bar in roof.bars),
        )
    profile = next((s.id for s in roof.catalogue.screws.values() if s.use == "profile"), None)
    verges = roof.pieces_like("TL", "TR", "EL", "ER")
    heads = roof.pieces_like("H")
    on_wall = _on_the_house_wall(roof)
    sides = tuple(p for p in roof.pieces_like(*SIDE_PROFILES) if p not in on_wall)
    count = 2 * len(heads) + _every_400((*verges, *sides))
    if count:
        yield Need(
            part="screws of profiles",
            group="Fixings",
            item=f"screws.{profile}" if profile is not None else None,
            quantity=float(count),
            spare=Spare(share=0.1),
            unit="each",
            why="Two in each head profile, one every 400 in verge trims and edge profiles"
            f"{', and round side sheets' if sides else ''}: common practice, no source. 10 % spare.",
            pieces=tuple(p.id for p in (*heads, *verges, *sides)),
            mark="typical",
        )
    if on_wall:
        yield _wall_screws(roof, on_wall)


def _every_400(pieces: Iterable[Piece]) -> int:
    """Screws of profiles: one at each end and every 400 between."""
    return sum(math.ceil(p.length_mm / 400.0) + 1 for p in pieces)


def _on_the_house_wall(roof: Roof) -> tuple[Piece, ...]:
    """Profiles of side sheets that lie on the house wall: nothing of our frame is behind them."""
    ends = {"left": "SSL", "right": "SSR"}
    ids = {f"{ends[side]}{number}" for side, number in at_the_house_wall(roof.job, roof.shape)}
    return tuple(p for p in roof.pieces_like(*ends.values()) if p.id in ids)


def _wall_screws(roof: Roof, profiles: tuple[Piece, ...]) -> Need:
    """What holds these: plugs and screws in masonry; in another wall nobody here knows what it holds in."""
    wall = roof.job.house.wall if roof.job.house is not None else None
    masonry = wall in MASONRY or wall is None
    into = "into brick, block or stone" if wall is None else f"into a wall of {wall}"
    fit = "with plugs" if masonry else "that reach what carries it: look first"
    known = "; the wall is not known, a test hole first" if wall is None else ""
    return Need(
        part="screws of profiles at the house wall",
        group="Fixings",
        item=roof.sundry("wall profile fixing") if masonry else None,
        quantity=float(_every_400(profiles)),
        spare=Spare(share=0.1),
        unit="each",
        why=f"Profiles of side sheets that lie on the house wall: screws {into} {fit}, one every 400{known}; common "
        "practice, not calculated. 10 % spare.",
        pieces=tuple(p.id for p in profiles),
        mark="typical",
    )


def _small(roof: Roof) -> Iterator[Need]:
    parts, bays, bars = roof.parts, len(roof.bays), len(roof.bars)
    if parts.bar.carries:
        yield from _of_carrying_bars(roof)
    else:
        yield _buttons(roof, bays)
    if bars:
        yield from _of_bars(roof, bars)
    yield from _sealant(roof)
    seals = seal_m((b.base_mm for b in roof.bars), parts.bar.base_seals + parts.bar.cap_seals)
    yield Need(
        part="lubricant",
        group="Sundries",
        item=roof.sundry("lubricant"),
        quantity=seals / CAN_M or 1.0,
        unit="can",
        why=f"One can for {CAN_M:g} m of seal; without solvent.",
    )


def _of_carrying_bars(roof: Roof) -> Iterator[Need]:
    """What the supplier of a bar that carries by itself sells to hold it and the sheets."""
    yield Need(
        part="sheet stops",
        group="Bars",
        item=roof.sundry("sheet stop"),
        quantity=float(len(roof.bays)),
        spare=Spare(more=1),
        unit="each",
        why="One at the foot of each sheet, as the bar's supplier has it, so that it cannot slide; one more.",
    )
    yield Need(
        part="bar ends",
        group="Bars",
        item=roof.sundry("bar end"),
        quantity=2.0 * len(roof.bars),
        unit="each",
        why="At both ends of each bar, as its supplier has it: for the forces in the calculations.",
    )


def _buttons(roof: Roof, bays: int) -> Need:
    parts = roof.parts
    return Need(
        part="button with washer and seal",
        group="Fixings",
        item=f"buttons.{parts.button.id}" if parts.button is not None else None,
        quantity=float(bays),
        spare=Spare(share=0.1),
        unit="each",
        why=f"One in the middle of each sheet's foot, for a sheet {parts.sheet.depth_mm:g} deep; 10 % spare.",
        pieces=roof.ids("S"),
    )


def _of_bars(roof: Roof, bars: int) -> Iterator[Need]:
    parts = roof.parts
    yield Need(
        part="foot end caps",
        group="Bars",
        item=f"sundries.{parts.bar.end_cap}" if parts.bar.end_cap is not None else None,
        quantity=float(bars),
        spare=Spare(more=1),
        unit="pair",
        why="Left and right at the foot of each bar: they close what the foot profiles leave. One pair more.",
    )
    stop = parts.bar.cap_stop
    yield Need(
        part="cap stops",
        group="Bars",
        item=f"sundries.{stop}" if stop is not None else roof.sundry("cap stop"),
        quantity=float(bars),
        spare=Spare(more=1),
        unit="each",
        why="One for each cap, so that it cannot slide; one more.",
    )


def _sealant(roof: Roof) -> Iterator[Need]:
    screws = sum(len(bar.holes) for bar in roof.bars)
    bead = roof.total_m("U", "H", *SIDE_PROFILES) + SCREW_BEAD_M * screws
    tube = next((s for s in roof.catalogue.sealants.values() if s.use == "general"), None)
    one = bead_m(tube.volume_ml, tube.yield_share, 6.0) if tube is not None else bead_m(310.0, 0.9, 6.0)
    yield Need(
        part="sealant at screws",
        group="Tapes and seals",
        item=f"sealants.{tube.id}" if tube is not None else None,
        quantity=bead / one,
        spare=ONE_FOR_EACH_JOB,
        unit="tube",
        why=f"{bead:.2f} m of 6 mm bead: at every screw, on the arm of foot and head profiles"
        f"{', all round side sheets' if roof.setting_out.side_sheets else ''}; {one:.2f} m a tube, "
        "one more. Only a sealant that does not attack polycarbonate.",
    )
