"""Setting-out drawings of random roofs: no lettering on other lettering, on a strong line, on a bay's ring or a tag."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from pentice.design import Design
from pentice.drawing.placed import on_paper
from pentice.drawing.scene import Area, Circle, Group, Line, Pinned, Point, Polyline, Primitive, Scene, Text
from pentice.drawing.sketch import text_box
from pentice.errors import NoSolution
from pentice.pack.drawings.sheet import setting_out_sheets
from pentice.pipeline import solve
from tests.designs import catalogue, changed
from tests.tries import tries

STRONG = ("wide", "extra wide")
TOUCH_MM = 0.2
"""Descenders may touch a line of lettering below by so much."""


def flat(primitives: Sequence[Primitive]) -> Iterator[Primitive]:
    """Every primitive, groups opened."""
    for p in primitives:
        if isinstance(p, Group | Pinned):
            yield from flat(p.content)
        else:
            yield p


def inside_by(box: Sequence[Point], other: Sequence[Point]) -> float:
    """How far two convex outlines must move to part, by the normals of both; below nothing where they are apart."""
    least = math.inf
    for outline in (box, other):
        for (x1, y1), (x2, y2) in pairwise((*outline, outline[0])):
            long = math.hypot(x2 - x1, y2 - y1)
            if long > 1e-9:
                across = ((y1 - y2) / long, (x2 - x1) / long)
                a, b = ([x * across[0] + y * across[1] for x, y in side] for side in (box, other))
                least = min(least, max(a) - min(b), max(b) - min(a))
    return least


def middle(box: Sequence[Point]) -> Point:
    """The middle of a box."""
    return sum(x for x, _ in box) / len(box), sum(y for _, y in box) / len(box)


def faults(scene: Scene) -> list[tuple[str, str]]:
    """Each lettering that lies where it should not, and on what."""
    made = list(flat(on_paper(scene.primitives)))
    texts = [(p.text, text_box(p)) for p in made if isinstance(p, Text) and p.text]
    found = [(t, u) for (t, a), (u, b) in combinations(texts, 2) if inside_by(a, b) > TOUCH_MM]
    edges = [(p.a, p.b) for p in made if isinstance(p, Line) and p.style in STRONG]
    edges += [e for p in made if isinstance(p, Polyline) and p.style in STRONG for e in pairwise(p.points)]
    # Short strokes end a size: its value stands beside them.
    edges = [e for e in edges if math.dist(*e) > 2.6]
    found += [(t, f"line {a} to {b}") for t, box in texts for a, b in edges if inside_by(box, (a, b)) > 0.0]
    for ring in (p for p in made if isinstance(p, Circle) and p.style == "wide" and p.radius > 2.0):
        around = [
            (ring.centre[0] + ring.radius * math.cos(k), ring.centre[1] + ring.radius * math.sin(k))
            for k in (math.pi * i / 12 for i in range(24))
        ]
        own = [t for t, box in texts if math.dist(middle(box), ring.centre) < 0.6]
        found += [
            (t, f"ring {own}") for t, box in texts if t not in own and inside_by(box, around) > TOUCH_MM
        ]
    tags = [p.points for p in made if isinstance(p, Area) and p.style == "narrow" and len(p.points) == 4]
    for tag in tags:
        for t, box in texts:
            if math.dist(middle(box), middle(tag)) > 0.6 and inside_by(box, tag) > TOUCH_MM:
                found.append((t, "tag"))
    return found


def row(width: float, post: float) -> list[float]:
    """Places of posts some 3 m apart, the outermost flush."""
    fields = max(1, round(width / 3000.0))
    return [post / 2.0, *(width / fields * i for i in range(1, fields)), width - post / 2.0]


def made(name: str, keys: dict[str, Any]) -> Design:
    """A changed example, solved; one that no stock gives is passed over."""
    try:
        return solve(changed(name, **keys), catalogue())
    except NoSolution:
        assume(False)
        raise


@tries(6)
@given(
    name=st.sampled_from(("potting-bay", "boat-rack", "cycle-shelter", "snow-carport", "log-store")),
    width=st.integers(1000, 33000),
    bay=st.integers(450, 1100),
    out=st.integers(900, 4800),
    pitch=st.integers(5, 40),
    knee=st.integers(500, 900),
)
def test_no_label_lies_on_another_or_on_a_line(
    name: str, width: int, bay: int, out: int, pitch: int, knee: int
) -> None:
    """Of roofs 1 to 33 m wide, 0.9 to 4.8 m deep, 5 to 40 degrees steep, with and without knee braces across."""
    keys: dict[str, Any] = {
        "roof__width_mm": float(width),
        "roof__projection_mm": float(out),
        "roof__head_height_mm": None,
        "roof__eaves_height_mm": 2300.0,
        "roof__pitch_deg": float(pitch),
        "frame__bay_count": max(1, round(width / bay)),
        "frame__posts_at_mm": row(float(width), 145.0),
        "frame__post_feet_mm": [],
        "gutter__outlets_at_mm": [60.0],
    }
    if name == "log-store":
        keys["frame__knee_across_mm"] = [float(knee), float(min(knee, out * 0.4))]
    for sheet in setting_out_sheets(made(name, keys)):
        assert faults(sheet.scene) == []


@pytest.mark.parametrize("width", [20000.0, 30000.0])
def test_a_very_wide_roof_has_its_sizes_within_its_bays(width: float) -> None:
    """At 1:100: bays of 10 mm on paper."""
    keys = {
        "roof__width_mm": width,
        "frame__bay_count": round(width / 1000.0),
        "frame__posts_at_mm": row(width, 145.0),
    }
    sheets = setting_out_sheets(made("boat-rack", keys))
    assert sheets[0].plan_scale == 100.0
    assert [faults(sheet.scene) for sheet in sheets] == [[]] * len(sheets)


def test_a_label_on_a_line_is_found() -> None:
    """The finder itself: on a line, on lettering, on a ring; and a label that stands clear."""
    words = Text(at=(0.0, 0.0), text="beam 95", h_mm=2.5)
    for other in (
        Line(a=(5.0, -8.0), b=(9.0, 6.0), style="wide"),
        Text(at=(8.0, -1.0), text="post", h_mm=2.5, turn_deg=40.0),
        Circle(centre=(14.0, -1.0), radius=4.0, style="wide"),
    ):
        assert len(faults(Scene(primitives=(words, other), title="", desc=""))) == 1
    clear = Line(a=(0.0, 1.0), b=(20.0, 1.0), style="wide")
    assert faults(Scene(primitives=(words, clear), title="", desc="")) == []
