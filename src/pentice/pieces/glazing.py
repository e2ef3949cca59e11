"""Sheets, packing strips, bars and the profiles at head, foot and verge."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pentice.catalogue.bars import Profile
from pentice.catalogue.parts import Parts
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.pieces.values import EndCut, Hole, Piece, PieceEdge, PieceMark
from pentice.setting_out.values import Bar, Bay, EdgeFit, Plane, SettingOut

BUTTON_FROM_BEAM_FACE_MM = 25.0
"""Button up the slope from the beam's outer face: judgement, no source."""
BUTTON_ROOM_MM = 6.0
"""Hole over shank, 3 all round: common practice, no source."""
FILM_BACK_MM = 50.0
"""Film peeled back from each edge before taping: common practice, no source."""
PROFILE_EASE_MM = 2.0
"""A profile piece is this much shorter than the space between the seats: common practice, no source."""


def box(width_mm: float, length_mm: float) -> tuple[tuple[float, float], ...]:
    """Corners of a rectangle from head left, clockwise [mm].

    Examples
    --------
    >>> box(2.0, 3.0)
    ((0.0, 0.0), (2.0, 0.0), (2.0, 3.0), (0.0, 3.0))
    """
    return ((0.0, 0.0), (width_mm, 0.0), (width_mm, length_mm), (0.0, length_mm))


def glazing_pieces(job: Job, shape: RoofShape, parts: Parts, setting_out: SettingOut) -> Iterator[Piece]:
    """Every sheet, strip, bar and profile of the roof, in the order they are fitted.

    Parameters
    ----------
    job, shape, parts
        The job, its geometry and its products.
    setting_out
        True sizes.

    Yields
    ------
    Piece
        Sizes [mm].
    """
    plane = setting_out.plane
    for bar in plane.bars:
        yield from _bar_pieces(parts, plane, bar)
    yield from _head_pieces(job, shape, parts, plane)
    for bay in plane.bays:
        yield _sheet(job, shape, parts, plane, bay)
    yield from _strips(job, parts, plane)
    for bay in plane.bays:
        yield _foot_piece(parts, plane, bay)
    yield from _verge_pieces(job, parts, plane)


def _sheet(job: Job, shape: RoofShape, parts: Parts, plane: Plane, bay: Bay) -> Piece:
    width, length = bay.width_mm.cut, bay.length_mm.cut
    reserve = job.stock.order_reserve_mm
    return Piece(
        id=f"S{bay.number}",
        name=f"Sheet {bay.number}",
        plane=plane.id,
        bay=bay.number,
        item=f"sheets.{parts.sheet.id}",
        kind="sheet",
        tint=parts.tint,
        outline_mm=box(width, length),
        width_mm=width,
        length_mm=length,
        edges=(
            PieceEdge(word="head", held_by=bay.edges.head.held_by, cut="stock", tape="SOLID"),
            _side_edge("right", bay.edges.right, "stock" if bay.width_mm.uncut else "knife"),
            PieceEdge(
                word="foot",
                held_by=bay.edges.foot.held_by,
                cut="stock" if bay.length_mm.uncut else "saw",
                tape="BREATHER",
            ),
            _side_edge("left", bay.edges.left, "knife" if bay.stock_x_mm > 0.0 else "stock"),
        ),
        rib_at_mm=(bay.edges.left.rib_at_mm or 0.0, bay.edges.right.rib_at_mm or 0.0),
        marks=(
            PieceMark(at_mm=width / 2.0, edge="head", text="HEAD"),
            PieceMark(at_mm=length / 2.0, edge="left", text="FLUTES run head to foot"),
            PieceMark(at_mm=width / 2.0, edge="head", text="WEATHER FACE UP: the printed film to the sky"),
            PieceMark(at_mm=FILM_BACK_MM, edge="all", text=f"peel {FILM_BACK_MM:g} of film back, both faces"),
        ),
        holes=tuple(_button(shape, parts, bay)),
        least_mm=(bay.width_mm.least, bay.length_mm.least),
        most_mm=(bay.width_mm.most, bay.length_mm.most),
        reserve_mm=(0.0 if bay.measured else reserve[0], 0.0 if bay.length_measured else reserve[1]),
    )


def _side_edge(word: str, fit: EdgeFit, cut: str) -> PieceEdge:
    return PieceEdge(word=word, held_by=fit.held_by, cut="knife" if cut == "knife" else "stock", tape="")


def _button(shape: RoofShape, parts: Parts, bay: Bay) -> Iterator[Hole]:
    if parts.button is None or parts.bar.carries:
        return
    foot = parts.foot_profile
    up = shape.overhang_mm - foot.back_mm - foot.drain_gap_mm + BUTTON_FROM_BEAM_FACE_MM
    across = parts.button.shank_mm + BUTTON_ROOM_MM
    yield Hole(
        x_mm=bay.width_mm.cut / 2.0,
        y_mm=bay.length_mm.cut - up,
        width_mm=across,
        length_mm=across,
        for_=f"buttons.{parts.button.id}",
    )


def _strips(job: Job, parts: Parts, plane: Plane) -> Iterator[Piece]:
    """Packing in the outer rebate of an end bar, so that its cap lies level."""
    width = math.floor(parts.bar.rebate_mm - 1.0)
    for bay, side, rafter in (
        (plane.bays[0], "left", plane.rafters[0]),
        (plane.bays[-1], "right", plane.rafters[-1]),
    ):
        if not rafter.has_bar:
            continue
        length = bay.length_mm.cut
        yield Piece(
            id=f"K{side[0].upper()}",
            name=f"Packing strip {side}",
            plane=plane.id,
            bay=bay.number,
            item=f"sheets.{parts.sheet.id}",
            kind="sheet",
            tint=parts.tint,
            outline_mm=box(width, length),
            width_mm=width,
            length_mm=length,
            edges=(
                PieceEdge(word="head", held_by="bar", cut="saw", tape="SOLID"),
                PieceEdge(word="right", held_by="bar", cut="knife", tape=""),
                PieceEdge(word="foot", held_by="bar", cut="saw", tape="BREATHER"),
                PieceEdge(word="left", held_by="bar", cut="knife", tape=""),
            ),
            least_mm=(width, bay.length_mm.least),
            most_mm=(width, bay.length_mm.most),
            reserve_mm=(0.0, 0.0 if bay.length_measured else job.stock.order_reserve_mm[1]),
        )


def _bar_pieces(parts: Parts, plane: Plane, bar: Bar) -> Iterator[Piece]:
    base, cap = math.floor(bar.base_mm), math.floor(bar.cap_mm)
    seat, gauge = parts.bar.seat_mm, parts.bar.hole_gauge_mm
    across = parts.screw.d_mm + 0.5
    holes = tuple(
        Hole(
            x_mm=seat / 2.0 + (-gauge if hole.side == "L" else gauge) / 2.0,
            y_mm=base - hole.at_mm,
            width_mm=across,
            length_mm=across,
            for_=f"screws.{parts.screw.id}",
        )
        for hole in bar.holes
    )
    sets = not parts.bar.cap_lengths  # a length is then a base with its cap: both come from one cut plan
    yield Piece(
        id=f"{bar.id}-base",
        name=f"Bar base {bar.id}",
        kind="length",
        outline_mm=box(seat, base),
        width_mm=seat,
        length_mm=max(base, cap) if sets else base,
        holes=holes,
        marks=(PieceMark(at_mm=0.0, edge="foot", text="hook the tape here"),),
        plane=plane.id,
        bay=None,
        item=f"bars.{parts.bar.id}",
    )
    if sets:
        return
    yield Piece(
        id=f"{bar.id}-cap",
        name=f"Bar cap {bar.id}",
        plane=plane.id,
        bay=None,
        item=f"bars.{parts.bar.id} cap",
        kind="length",
        outline_mm=box(seat, cap),
        width_mm=seat,
        length_mm=cap,
    )


def _head_pieces(job: Job, shape: RoofShape, parts: Parts, plane: Plane) -> Iterator[Piece]:
    profile = parts.head_profile
    if job.glazing.head == "continuous":
        yield _profile(("H", "Head profile"), profile, plane, None, shape.width_mm)
        return
    for bay in plane.bays:
        length = _between_seats(parts, bay) - PROFILE_EASE_MM
        yield _profile((f"H{bay.number}", f"Head profile {bay.number}"), profile, plane, bay, length)


def _foot_piece(parts: Parts, plane: Plane, bay: Bay) -> Piece:
    profile = parts.foot_profile
    length = _between_seats(parts, bay) - PROFILE_EASE_MM
    return _profile((f"U{bay.number}", f"Foot profile {bay.number}"), profile, plane, bay, length)


def _between_seats(parts: Parts, bay: Bay) -> float:
    """Narrowest space between the flanges of the bars, or to the back of an edge profile [mm]."""
    half = {"bar": (parts.bar.seat_mm - parts.bar.stem_mm) / 2.0, "edge profile": 0.0}
    return bay.between_stems_mm.least - half[bay.edges.left.held_by] - half[bay.edges.right.held_by]


def _verge_pieces(job: Job, parts: Parts, plane: Plane) -> Iterator[Piece]:
    ends = ((plane.bays[0], "left", plane.rafters[0]), (plane.bays[-1], "right", plane.rafters[-1]))
    for bay, side, rafter in ends:
        letter = side[0].upper()
        if not rafter.has_bar and parts.edge_profile is not None:
            edge = parts.edge_profile
            yield _profile((f"E{letter}", f"Edge profile {side}"), edge, plane, bay, bay.length_mm.cut)
        elif rafter.has_bar and parts.verge_trim is not None and getattr(job.roof, side) != "wall":
            base = math.floor(next(b.base_mm for b in plane.bars if b.rafter == rafter.number))
            trim = parts.verge_trim
            yield _profile((f"T{letter}", f"Verge trim {side}"), trim, plane, bay, base)


def length_piece(
    id: str,
    name: str,
    item: str,
    plane: str,
    size_mm: tuple[float, float],
    *,
    bay: int | None = None,
    joined: bool = False,
) -> Piece:
    """A plain length with square ends.

    Parameters
    ----------
    id, name, item, plane
        What it is called, its key in the catalogue, its roof plane.
    size_mm
        Width and length [mm].
    bay
        The bay it belongs to.
    joined
        True where it may be made up of several lengths.

    Returns
    -------
    Piece
        The length.
    """
    return Piece(
        id=id,
        name=name,
        plane=plane,
        bay=bay,
        item=item,
        kind="length",
        outline_mm=box(*size_mm),
        width_mm=size_mm[0],
        length_mm=size_mm[1],
        end_cuts=(EndCut(), EndCut()),
        one_piece=not joined,
    )


def _profile(
    piece: tuple[str, str], profile: Profile, plane: Plane, bay: Bay | None, length_mm: float
) -> Piece:
    """A profile, rounded down to whole mm; one that runs along the whole roof may be joined."""
    length = float(max(1, math.floor(length_mm)))
    number = bay.number if bay is not None else None
    item = f"profiles.{profile.id}"
    return length_piece(*piece, item, plane.id, (profile.arm_mm, length), bay=number, joined=bay is None)
