"""Blanks of the sheets that close the sides, two of one hand from one blank, and the profiles that hold them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Literal

from pentice.catalogue.parts import Parts
from pentice.cutting.trapezoids import Block, Trapezoid, paired
from pentice.job.model import Job
from pentice.pieces.glazing import FILM_BACK_MM, PROFILE_EASE_MM, box, length_piece
from pentice.pieces.values import Piece, PieceEdge, PieceMark, SidePart
from pentice.setting_out.sheets import sheet_stock
from pentice.setting_out.side_sheets import opening_measured
from pentice.setting_out.values import Plane, SettingOut, SideFit

OVER_MM = (50.0, 100.0)
"""More than two kerfs, a sliver and the slant of a cut: so much wider and longer stock is taken uncut for a least."""
Blanks = Literal["alone", "in pairs", "least"]
"""One for each side sheet; two of one hand from one where that fits a board; or the rectangle up to the shorter side of
each, which is no blank but what the blanks of every way must hold."""


def side_sheet_pieces(job: Job, parts: Parts, setting_out: SettingOut, *, sides: Blanks) -> Iterator[Piece]:
    """What is cut for the sides: each blank a rectangle, its sloping ends cut after; four profiles round each sheet.

    Parameters
    ----------
    job, parts
        The saw's kerf, the stock, whether the sheet may be turned.
    setting_out
        The side sheets with their cut sizes.
    sides
        How their blanks are made.

    Yields
    ------
    Piece
        Sizes [mm]; a blank has the outline of each of its sheets within it.
    """
    fits = {f"SS{fit.number}": fit for fit in setting_out.side_sheets}
    if not fits:
        return
    shapes = [_upside_down(id, fit, whole=sides != "least") for id, fit in fits.items()]
    blocks = paired(
        shapes,
        kerf_mm=job.stock.sheet_kerf_mm,
        turn_180=sides == "in pairs" and parts.sheet.may_turn,
        boards_mm=_boards(job, parts),
        may_join=lambda one, two: _ribs_go_together(parts, fits[one.id], fits[two.id]),
    )
    order = {id: k for k, id in enumerate(fits)}
    for block in sorted(blocks, key=lambda block: min(order[p.id] for p in block.pieces)):
        blank = _blank(job, parts, setting_out.plane, block, fits)
        yield _eased(blank, fits[blank.side_parts[0].id]) if sides == "least" else blank
    for fit in fits.values():
        yield from _profiles(parts, setting_out.plane, fit)


def _ribs_go_together(parts: Parts, one: SideFit, two: SideFit) -> bool:
    """Whether two sheets from one blank can both have a rib in each bite: any place holds, or what holds for one holds
    for the other. The narrower of two has an edge within the blank, where ribs stand otherwise than at its edges."""
    anywhere = parts.sheet.rib_pitch_mm + 2.0
    if min(one.bite_side_cold_mm, two.bite_side_cold_mm) >= anywhere:
        return True
    return (one.width_mm, one.bite_side_cold_mm) == (two.width_mm, two.bite_side_cold_mm)


def blank_of_one(blank: Piece, part: SidePart) -> Piece:
    """The blank of one sheet of a pair by itself, for when only that one is made again.

    Parameters
    ----------
    blank
        The blank of two.
    part
        One of them.

    Returns
    -------
    Piece
        Under the same id: the place of the pair on its ticket.
    """
    width, length = part.width_mm, max(part.left_mm, part.right_mm)
    corners = ((width, length), (0.0, length), (0.0, length - part.left_mm), (width, length - part.right_mm))
    stands = replace(part, outline_mm=corners, turned=False)
    return replace(
        blank, name=part.name, width_mm=width, length_mm=length, outline_mm=corners, side_parts=(stands,)
    )


def _upside_down(id: str, fit: SideFit, *, whole: bool) -> Trapezoid:
    """A sheet with its level foot at the head of the blank: turned by half a turn its sides change places."""
    left, right = fit.right_mm, fit.left_mm
    if not whole:
        left = right = min(left, right)
    return Trapezoid(id=id, width_mm=fit.width_mm, left_mm=left, right_mm=right)


def _boards(job: Job, parts: Parts) -> tuple[tuple[int, int], ...]:
    """What a new sheet or one on the rack gives, its edges trimmed and something left to saw off [mm]."""
    trim, over = 2.0 * parts.sheet.trim_mm, job.stock.order_reserve_mm
    new = [(s.width_mm - trim, s.length_mm - trim) for s in sheet_stock(job, parts)]
    racked = [
        (o.width_mm, o.length_mm)
        for o in job.stock.offcuts
        if o.item == parts.sheet.id and o.width_mm is not None and o.tint in (None, parts.tint)
    ]
    return tuple((math.floor(w - over[0]), math.floor(n - over[1])) for w, n in (*new, *racked))


def _blank(job: Job, parts: Parts, plane: Plane, block: Block, fits: dict[str, SideFit]) -> Piece:
    width, length = float(block.width_mm), float(block.length_mm)
    held = [fits[p.id] for p in block.pieces]
    numbers = [fit.number for fit in held]
    outlines = [
        tuple((width - x, length - y) for x, y in polygon) for polygon in block.polygons_mm
    ]  # turned back: the first stands on its foot
    many = len(held) > 1
    return Piece(
        id="SS" + "-".join(str(n) for n in sorted(numbers)),
        name=f"Side sheet{'s' if many else ''} {' and '.join(str(n) for n in sorted(numbers))}",
        plane=plane.id,
        bay=None,
        item=f"sheets.{parts.sheet.id}",
        kind="sheet",
        tint=parts.tint,
        outline_mm=box(width, length) if many else outlines[0],
        width_mm=width,
        length_mm=length,
        edges=(
            PieceEdge(word="head", held_by="foot profile", cut="saw", tape="SOLID"),
            PieceEdge(word="right", held_by="foot profile", cut="knife", tape=""),
            PieceEdge(word="foot", held_by="foot profile", cut="saw", tape="BREATHER"),
            PieceEdge(word="left", held_by="foot profile", cut="knife", tape=""),
        ),
        marks=(
            PieceMark(at_mm=length / 2.0, edge="left", text="FLUTES run upright"),
            PieceMark(at_mm=width / 2.0, edge="head", text="WEATHER FACE OUT: the printed film outside"),
            PieceMark(at_mm=FILM_BACK_MM, edge="all", text=f"peel {FILM_BACK_MM:g} of film back, both faces"),
        ),
        reserve_mm=(0.0, 0.0)
        if all(opening_measured(job, n) for n in numbers)
        else job.stock.order_reserve_mm,
        rib_at_mm=held[0].ribs_mm,
        side_parts=tuple(
            SidePart(
                id=f"SS{fit.number}",
                name=f"Side sheet {fit.number}",
                side=fit.side,
                outline_mm=outline,
                turned=k > 0,
                width_mm=fit.width_mm,
                left_mm=fit.left_mm,
                right_mm=fit.right_mm,
            )
            for k, (fit, outline) in enumerate(zip(held, outlines, strict=True))
        ),
    )


def _eased(blank: Piece, fit: SideFit) -> Piece:
    """The least of a blank, with no rule left that a larger one might keep and this one break."""
    most = (fit.width_mm + OVER_MM[0], max(fit.left_mm, fit.right_mm) + OVER_MM[1])
    return replace(blank, reserve_mm=(0.0, 0.0), most_mm=most, rib_at_mm=None)


def _profiles(parts: Parts, plane: Plane, fit: SideFit) -> Iterator[Piece]:
    """All round: foot and head between the sides, the sides over the whole height of the opening."""
    profile, n = parts.foot_profile, fit.number
    width, left, right = fit.opening_mm
    across = width - 2.0 * profile.arm_mm - PROFILE_EASE_MM
    head = math.hypot(across, (right - left) * across / width)
    for id, name, length in (
        (f"SSU{n}", f"Foot, side sheet {n}", across),
        (f"SSH{n}", f"Head, side sheet {n}", head),
        (f"SSL{n}", f"Left, side sheet {n}", left),
        (f"SSR{n}", f"Right, side sheet {n}", right),
    ):
        size = (profile.arm_mm, float(max(1, math.floor(length))))
        yield length_piece(id, name, f"profiles.{profile.id}", plane.id, size)
