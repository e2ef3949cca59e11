"""What fixes the frame: numbers that nobody has calculated yet are marked typical."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from pentice.frame.stage import even_places, frame_of
from pentice.job.fasteners import Fasteners, Joint
from pentice.setting_out.side_frames import side_frames
from pentice.takeoff.joints import joints_described
from pentice.takeoff.knee_braces import knee_brace_needs, shortest_bolt
from pentice.takeoff.needs import Need, Spare, fixing, not_here
from pentice.takeoff.roof import MASONRY, Roof


def frame_needs(roof: Roof) -> Iterator[Need]:
    """Fixings of plate, rafters, beam, posts and bases, and what closes the foot.

    Parameters
    ----------
    roof
        What the take-off counts on.

    Yields
    ------
    Need
        What nobody has calculated carries the mark "typical".
    """
    yield from _wall_plate(roof)
    yield from _rafters(roof)
    yield from _posts(roof)
    yield from _fasteners(roof)
    yield from _cross_timbers(roof)
    yield from _side_frames(roof)
    yield from _foot_closure(roof)


PLATE_FIXING_SPACING_MM = 400.0
"""Wall plate fixings: common practice, no source."""
CONCRETE_KG_M3, BAG_KG = 2400.0, 20.0
"""Weight of concrete in place, and of a bag: common practice, no source."""
PAD = "12 bags of 20 kg for each pad of about 450 x 450 x 500."
BASE_BOLT_MM, BASE_OVER_MM = 12.0, 30.0
"""Bolts through a post and its base, as much longer than the post for plates, washers and nut: judgement, no source."""


def plate_fixings(width_mm: float) -> int:
    """Seed number of wall plate fixings: every 400 between the ends, one more near each end.

    Examples
    --------
    >>> plate_fixings(4875.0)
    15
    """
    return math.ceil((width_mm - 200.0) / PLATE_FIXING_SPACING_MM) + 1 + 2


def _wall_plate(roof: Roof) -> Iterator[Need]:
    if not roof.pieces_like("WP"):
        return
    plate = frame_of(roof.job, roof.shape, roof.parts, roof.setting_out).plate
    placed = len(plate.fixings_mm) if plate is not None else 0
    count = placed or plate_fixings(roof.shape.width_mm)
    wall = roof.job.house.wall if roof.job.house is not None else None
    masonry = wall in MASONRY or wall is None
    yield Need(
        part="damp-proof strip or stand-offs",
        group="Wall",
        quantity=float(count) if masonry else roof.width_m,
        unit="each" if masonry else "m",
        why="A stand-off at each plate fixing, so that the plate dries."
        if masonry
        else "Behind the whole plate.",
        item=roof.sundry("stand-off" if masonry else "damp-proof strip"),
        pieces=roof.ids("WP"),
    )
    kind = f"for a wall of {wall}" if wall else "the wall is not known: a pull test first"
    anchor = roof.sundry("plate fixing") if masonry else None
    spare = Spare(share=0.1)
    if placed:
        yield Need(
            part="plate fixings",
            group="Fixings",
            quantity=float(count),
            unit="each",
            why=f"Where the job places them, {kind}; the force on each stands in the calculations.",
            item=anchor,
            spare=spare,
        )
    else:
        why = f"Every 400, two near each end; {kind}."
        yield replace(fixing("plate fixings", count, "each", why, anchor), spare=spare)
    if masonry:
        yield Need(
            part="plate fixing resin",
            group="Fixings",
            quantity=count / 12.0,
            unit="tube",
            why="One tube for 12 holes: common practice, no source.",
            item=roof.sundry("plate fixing resin"),
            mark="typical",
        )


def _rafters(roof: Roof) -> Iterator[Need]:
    rafters = roof.ids("RF")
    if not rafters:
        return
    frame, strap = roof.job.frame, roof.sundry("strap")
    tied = _all_of(frame.rafter_tie_kn, frame.rafter_tie_level_kn)
    if not roof.job.roof.attached:
        tie = "One at each beam for each rafter: the wind lifts a light roof."
        if not _direct(roof, "rafter tie"):
            yield fixing("straps", 2 * len(rafters), "each", tie, strap, tied)
        return
    width, on_plate = roof.plane.rafters[0].width_mm, frame.head_notch_mm > 0.0
    hanger = roof.sundry("rafter hanger", having=f"-{width:g}")
    if not _direct(roof, "hanger") and not on_plate:
        why = f"One at the head of each rafter, {width:g} wide."
        hangs = _all_of(frame.hanger_down_kn, frame.hanger_up_kn, frame.hanger_level_kn)
        yield fixing("hangers", len(rafters), "each", why, hanger, hangs)
    straps = (0 if _direct(roof, "rafter tie") else len(rafters)) + (len(rafters) if on_plate else 0)
    if straps:
        where = "One at the plate and one at the beam" if on_plate else "One at the beam"
        why = f"{where} for each rafter: the wind lifts a light roof."
        yield fixing("straps", straps, "each", why, strap, tied)


def _all_of(*declared: float | None) -> float | None:
    """The least that a connector is declared for, every way; None where one of them is not."""
    known = [kn for kn in declared if kn is not None]
    return min(known) if len(known) == len(declared) else None


def _posts(roof: Roof) -> Iterator[Need]:
    posts = len(roof.ids("PO"))
    if not posts:
        return
    frame, each = roof.job.frame, "One for each post."
    based = _all_of(frame.post_base_kn, frame.post_base_level_kn)
    yield fixing("bases", posts, "each", each, roof.sundry("post base"), based)
    if not _direct(roof, "post tie"):
        capped = _all_of(frame.post_tie_kn, frame.post_tie_level_kn)
        yield fixing("post caps", posts, "each", each, roof.sundry("post cap"), capped)
    yield _concrete(roof, posts)
    yield _base_bolts(roof, posts)
    yield from knee_brace_needs(roof, posts)


def _base_bolts(roof: Roof, posts: int) -> Need:
    """Bolts that hold each post in its base, long enough for its thicker side."""
    through = max(roof.job.frame.post_mm or (0.0,))
    least = through + BASE_OVER_MM
    return Need(
        part="bolts",
        group="Fixings",
        quantity=2.0 * posts,
        unit="set",
        spare=Spare(more=1),
        why=f"Two for each post, through it and its base, one set more: common practice. {BASE_BOLT_MM:g} mm thick, "
        f"{least:g} long or longer; as the base's maker says, where he does.",
        item=shortest_bolt(roof, BASE_BOLT_MM, least),
        mark="typical",
    )


def _described(roof: Roof, joint: Joint) -> Fasteners | None:
    return next((f for f in roof.job.frame.fasteners if f.joint == joint), None)


def _direct(roof: Roof, joint: Joint) -> bool:
    """Is the joint described as timber on timber, so that no strap, cap or hanger is bought for it?"""
    described = _described(roof, joint)
    return described is not None and described.plates == "none"


def _fasteners(roof: Roof) -> Iterator[Need]:
    """Nails, screws and bolts that the job describes, joint by joint; a bolt with its nut and washers."""
    for joints in joints_described(roof.job, roof.pieces):
        yield Need(
            part=f"fasteners of {joints.called}",
            group="Fixings",
            quantity=float(joints.each * joints.count),
            unit="set" if joints.fasteners.kind == "bolt" else "each",
            spare=Spare(share=0.1),
            why=f"{joints.words}: {joints.each} a joint, {joints.count} joints, as the job describes them.",
            item=_item_of(roof, joints.fasteners),
            pieces=joints.pieces,
        )


def _item_of(roof: Roof, f: Fasteners) -> str | None:
    """Key of the catalogue of what is ordered for them."""
    if f.item is None:
        return None
    return f"screws.{f.item}" if f.item in roof.catalogue.screws else f"sundries.{f.item}"


def _concrete(roof: Roof, posts: int) -> Need:
    """Bags for the pads as the job has them, else a seed."""
    item, pad = roof.sundry("pad concrete"), roof.job.frame.pad_mm
    if pad is None:
        return fixing("pad concrete", 12 * posts, "bag", PAD, item)
    each = math.ceil(pad[0] * pad[1] * pad[2] * 1e-9 * CONCRETE_KG_M3 / BAG_KG - 1e-9)
    size = " x ".join(f"{side:g}" for side in pad)
    return Need(
        part="pad concrete",
        group="Fixings",
        quantity=float(each * posts),
        unit="bag",
        why=f"{each} bags of {BAG_KG:g} kg for each pad of {size}.",
        item=item,
    )


def _cross_timbers(roof: Roof) -> Iterator[Need]:
    ends, boards = 2 * len(roof.ids("N", "Q")), roof.ids("BGL", "BGR")
    count = 2 * ends + 2 * math.ceil(roof.total_m("BGL", "BGR") / 0.6)
    if count:
        yield Need(
            part="frame screws",
            group="Fixings",
            quantity=float(count),
            spare=Spare(share=0.1),
            unit="each",
            why="Two at each end of a noggin, two every 600 in a barge board: common practice. Nails of hangers and "
            "straps as their makers say.",
            item=_screw_key(roof),
            pieces=(*roof.ids("N", "Q"), *boards),
            mark="typical",
        )


def _side_frames(roof: Roof) -> Iterator[Need]:
    """What holds mullions, transoms and sills, and a word where their section is not named."""
    frames, frame = side_frames(roof.job, roof.shape), roof.job.frame
    if frames.needs_mullion and frame.mullion_mm is None:
        yield not_here(
            "mullions",
            "Timber",
            "none is ordered, frame.mullion_mm names no section: side sheets stand beside one another.",
        )
    pieces = roof.ids("MU", "TM")
    if pieces:
        why = "One at each end of a mullion or a transom."
        bracket = roof.sundry("mullion bracket")
        yield fixing("mullion brackets", 2 * len(pieces), "each", why, bracket, frame.mullion_end_kn)
    sills = roof.pieces_like("SI")
    if sills and frame.sill_fixing_spacing_mm is not None:
        count = sum(len(even_places(sill.length_mm, frame.sill_fixing_spacing_mm)) for sill in sills)
        yield Need(
            part="sill fixings",
            group="Fixings",
            quantity=float(count),
            unit="each",
            spare=Spare(share=0.1),
            why=f"Every {frame.sill_fixing_spacing_mm:g} at most, one near each end; the force on each stands in the "
            "calculations.",
            item=roof.sundry("sill fixing"),
            pieces=tuple(sill.id for sill in sills),
        )


def _screw_key(roof: Roof) -> str | None:
    return next((f"screws.{s.id}" for s in roof.catalogue.screws.values() if s.use == "frame"), None)


def _foot_closure(roof: Roof) -> Iterator[Need]:
    if roof.job.roof.front == "open":
        return
    rafters = roof.plane.rafters
    clear = sum(
        b.centre_foot_mm - a.centre_foot_mm - (a.width_mm + b.width_mm) / 2.0 for a, b in pairwise(rafters)
    )
    yield Need(
        part="foot closure between rafters",
        group="Sundries",
        quantity=clear / 1000.0,
        spare=Spare(share=0.05),
        unit="m",
        why="Between the rafters over the beam: foam, brush or timber; it keeps wind, birds and wasps out.",
        item=roof.sundry("foot closure"),
    )
