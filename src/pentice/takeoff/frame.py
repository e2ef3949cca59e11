"""What fixes the frame: seeds that stand until a structural check says more, and so are marked typical."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pentice.takeoff.needs import Need, Roof, not_here

SEED = "by structural check; a seed until then."


def frame_needs(roof: Roof) -> Iterator[Need]:
    """Fixings of plate, rafters, beam, posts and bases, and what closes the foot.

    Parameters
    ----------
    roof
        What the take-off counts on.

    Yields
    ------
    Need
        Seeds carry the mark "typical".
    """
    yield from _wall_plate(roof)
    yield from _rafters(roof)
    yield from _posts(roof)
    yield from _boards(roof)


def _seed(part: str, quantity: float, unit: str, why: str, item: str | None, spare: float = 0.0) -> Need:
    return Need(
        part=part,
        group="Fixings",
        quantity=quantity,
        unit=unit,
        why=f"{why} {SEED[0].upper()}{SEED[1:]}",
        item=f"sundries.{item}" if item is not None else None,
        spare=spare,
        mark="typical",
    )


def _wall_plate(roof: Roof) -> Iterator[Need]:
    if not roof.pieces_like("WP"):
        because = "no wall plate in this job"
        for part in ("wall plate", "damp-proof strip or stand-offs", "plate fixings", "plate fixing resin"):
            yield not_here(part, "Wall", because)
        return
    width = roof.shape.width_mm
    yield Need(
        part="damp-proof strip or stand-offs",
        group="Wall",
        quantity=width / 1000.0,
        unit="m",
        why="Behind the whole plate, so that it dries.",
        item=_key(roof, "damp-proof strip"),
    )
    count = math.ceil((width - 200.0) / 400.0) + 1 + 2
    yield _seed(
        "plate fixings",
        count,
        "each",
        "Every 400 and two near each end.",
        roof.sundry("plate fixing"),
        math.ceil(0.1 * count),
    )
    yield _seed(
        "plate fixing resin",
        count / 12.0,
        "tube",
        "One tube for 12 holes.",
        roof.sundry("plate fixing resin"),
    )


def _rafters(roof: Roof) -> Iterator[Need]:
    rafters = roof.setting_out.plane.rafters
    width = rafters[0].width_mm
    if roof.job.frame.rafter_centres_mm is not None:
        yield not_here("hangers", "Fixings", "the rafters are there already: look at how they are held")
    else:
        hanger = roof.sundry("rafter hanger", having=f"-{width:g}")
        yield _seed("hangers", len(rafters), "each", "One at the head of each rafter.", hanger)
    yield _seed(
        "straps", len(rafters), "each", "One at the beam for each rafter: uplift.", roof.sundry("strap")
    )


def _posts(roof: Roof) -> Iterator[Need]:
    posts = len(roof.pieces_like("PO"))
    if not posts:
        because = "no posts in this job"
        for part in ("bases", "bolts", "bracing", "pad concrete"):
            yield not_here(part, "Fixings", because)
        return
    yield _seed("bases", posts, "each", "One for each post.", roof.sundry("post base"))
    yield _seed("post caps", posts, "each", "One for each post.", roof.sundry("post cap"))
    yield _seed(
        "pad concrete", posts * 12, "bag", "12 bags of 20 kg for each pad.", roof.sundry("pad concrete")
    )
    yield _seed("bolts", 2 * posts, "set", "Two for each post.", roof.sundry("bolt"), 2)
    yield _seed("bracing", 2, "each", "Two knee braces along the beam.", roof.sundry("bracing"))


def _boards(roof: Roof) -> Iterator[Need]:
    plane = roof.setting_out.plane
    open_front = roof.job.roof.front == "open"
    clear = sum(
        plane.rafters[i + 1].centre_foot_mm - plane.rafters[i].centre_foot_mm - plane.rafters[i].width_mm
        for i in range(len(plane.bays))
    )
    if open_front and roof.job.frame.beam_mm is None:
        yield not_here("foot closure between rafters", "Sundries", "nothing to close: open below")
    else:
        yield Need(
            part="foot closure between rafters",
            group="Sundries",
            quantity=clear / 1000.0,
            unit="m",
            why="Between the rafters over the beam: foam, brush or timber.",
            item=_key(roof, "foot closure"),
        )
    if not roof.pieces_like("BG"):
        yield not_here("barge boards", "Timber", "no barge board in this job")
    yield not_here("fascia", "Timber", "the gutter brackets go on the beam")


def _key(roof: Roof, part: str) -> str | None:
    id = roof.sundry(part)
    return f"sundries.{id}" if id is not None else None
