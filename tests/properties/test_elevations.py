"""Elevations of random roofs with closed ends: no label on another, nothing off the sheet; in a mirror turned over."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from pentice.drawing.placed import on_paper
from pentice.drawing.scene import (
    Area,
    Circle,
    Dimension,
    Group,
    Line,
    Point,
    Polyline,
    Primitive,
    Scene,
    Text,
)
from pentice.drawing.sketch import extent, text_box
from pentice.job.model import Job
from pentice.job.writing import with_keys
from pentice.pack.drawings.elevation import elevation_model, sides_drawn
from pentice.pack.drawings.elevation_sheets import elevation_sheets
from pentice.pack.paper import A3_FRAME
from pentice.setting_out.side_frames import Place
from tests.closed import closed_end_keys, laid_out
from tests.designs import SEVEN, changed, design_of
from tests.properties.test_design import mirrored
from tests.properties.test_drawings import faults, flat, inside_by
from tests.tries import tries

DRAWN = ("wall", "side sheets", "frame", "knees", "gutter", "roof", "openings", "braces")
"""Parts whose lines a mirror turns over; lettering never is, and the strokes of the ground all lean one way."""
OTHER: dict[str, Place] = {"left": "right", "right": "left", "front": "front", "back": "back"}


@st.composite
def closed(draw: st.DrawFn) -> Job:
    """A lobby 1.5 to 9 m wide and 0.8 to 2.6 m deep, 5 to 45 degrees steep, both ends closed, posts where they fall."""
    out, mullions = draw(st.integers(800, 2600)), draw(st.integers(0, 2))
    assume(250.0 <= (out - 95.0 - 70.0 * mullions) / (mullions + 1) <= 1150.0)
    width, fields = float(draw(st.integers(1500, 9000))), draw(st.integers(1, 4))
    assume(width / fields >= 700.0)
    eaves = draw(st.integers(1500, 2900))
    low_wall = draw(st.sampled_from((0, 0, 450, 800)))
    keys: dict[str, Any] = closed_end_keys(
        width=width,
        out=float(out),
        pitch=float(draw(st.integers(5, 45))),
        eaves=float(eaves),
        mullions=mullions,
        low_wall=float(low_wall),
        door_at=draw(st.one_of(st.none(), st.integers(0, int(width) - 700).map(float))),
    )
    posts = [47.5, *(width / fields * k for k in range(1, fields)), width - 47.5]
    keys["frame__posts_at_mm"] = posts
    keys["frame__post_feet_mm"] = draw(st.sampled_from(([], [-80.0, *([0.0] * (fields - 1)), 40.0])))
    keys["frame__bracing"] = draw(st.sampled_from(("knee braces", "diagonal", "fixed feet")))
    return changed("plant-lobby", **keys)


def struck(scene: Scene) -> list[tuple[str, str]]:
    """Each lettering that a line of a size, of a leader or of a brace runs through, and which.

    Not the strokes that end a size, nor hair lines of flutes and ground.
    """
    made = list(flat(on_paper(scene.primitives)))
    texts = [(p.text, text_box(p)) for p in made if isinstance(p, Text) and p.text]
    return [
        (text, f"{p.style} {p.a} to {p.b}")
        for p in made
        if isinstance(p, Line) and p.style != "hair" and math.dist(p.a, p.b) > 2.6
        for text, box in texts
        if inside_by(box, (p.a, p.b)) > 0.05
    ]


@pytest.mark.parametrize("name", SEVEN)
def test_no_line_strikes_a_label_of_an_example_and_no_brace_runs_through_a_size(name: str) -> None:
    """The running 767 beside the line up to 837, legs of braces and a door's height beside the braces themselves."""
    design = design_of(name)
    for sheet in elevation_sheets(design):
        assert struck(sheet.scene) == []
    for side in sides_drawn(design):
        groups = {
            g.part: g.content for g in elevation_model(design, side, 25.0).primitives if isinstance(g, Group)
        }
        braces = [p for key in ("braces", "knees") for p in groups.get(key, ()) if isinstance(p, Line)]
        sized = [p for key in ("sizes", "doors") for p in groups.get(key, ()) if isinstance(p, Dimension)]
        for size in sized:
            for brace in braces:
                if size.offset_mm == 0.0:
                    assert inside_by((size.a, size.b), (brace.a, brace.b)) <= 0.0, (side, size.text)


@tries(12)
@given(closed())
def test_no_label_lies_on_another_and_nothing_leaves_the_sheet(job: Job) -> None:
    """With doors, knee braces or a diagonal, feet off the datum, sills on floor or on a low wall."""
    for sheet in elevation_sheets(laid_out(job)):
        assert faults(sheet.scene) == []
        assert struck(sheet.scene) == []
        box = extent(sheet.scene.primitives)
        assert A3_FRAME.left <= box.left + 0.01
        assert A3_FRAME.top <= box.top
        assert box.right <= A3_FRAME.right
        assert box.bottom <= A3_FRAME.bottom


def seen_in_a_mirror(job: Job) -> Job:
    """The job turned over, its doors too."""
    width = job.roof.width_mm or 0.0
    turned = mirrored(job)
    openings = [
        {**o.model_dump(exclude_none=True), "x_mm": width - o.x_mm - o.width_mm} for o in turned.roof.openings
    ]
    return with_keys(turned, {"roof.openings": openings})


def lines(scene: Scene, turn_at: float | None) -> list[tuple[str, tuple[Point, ...]]]:
    """Points of everything drawn, part by part, to 0.01 mm; x counted back from a place where one is given.

    Not a beam's joints: on a roof alike at both its ends one of two places is taken.
    """

    def at(p: Point) -> Point:
        return (round(p[0] if turn_at is None else turn_at - p[0], 2) + 0.0, round(p[1], 2) + 0.0)

    def points(p: Primitive) -> tuple[Point, ...]:
        if isinstance(p, Line):
            return (p.a, p.b)
        if isinstance(p, Polyline) and p.style == "narrow" and len(p.points) == 6:
            return ()  # a break line, whose zigzag leans the same way everywhere
        if isinstance(p, Polyline | Area):
            return p.points
        return (p.centre,) if isinstance(p, Circle) else ()

    found: list[tuple[str, tuple[Point, ...]]] = []
    for group in scene.primitives:
        if isinstance(group, Group) and group.part in DRAWN:
            found += [
                (group.part, tuple(sorted(at(q) for q in points(p))))
                for p in group.content
                if points(p) and not (group.part == "frame" and isinstance(p, Line))
            ]
    return sorted(found)


def sizes(scene: Scene) -> list[str]:
    """What the sizes say."""
    groups = [p for p in scene.primitives if isinstance(p, Group)]
    return sorted(p.text for g in groups for p in g.content if isinstance(p, Dimension))


@tries(15)
@given(closed())
def test_a_mirrored_roof_has_the_mirrored_elevations(job: Job) -> None:
    """Its left end is the right end in a mirror, the front its own mirror image; sizes of ends say the same.

    The first of several widest fields has the diagonal, so posts stand where one field is the widest.
    """
    assume(job.frame.bracing != "diagonal" or len(job.frame.posts_at_mm) == 2)
    one, two = laid_out(job), laid_out(seen_in_a_mirror(job))
    assert {OTHER[side] for side in sides_drawn(one)} == set(sides_drawn(two))
    for side in sides_drawn(one):
        if side == "front" and job.frame.bracing == "diagonal":
            continue  # it may lean either way, and is drawn leaning one way
        here, there = elevation_model(one, side, 25.0), elevation_model(two, OTHER[side], 25.0)
        turn_at = one.shape.width_mm if side == "front" else one.shape.projection_mm
        assert lines(here, None) == lines(there, turn_at), side
        if side != "front":  # where sizes of braces and doors have room depends on the side they are put to
            assert sizes(here) == sizes(there), side
