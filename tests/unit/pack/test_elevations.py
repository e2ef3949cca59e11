"""Elevations say what the design says: sizes are what they measure, chains add up, names are those of the tickets."""

from __future__ import annotations

import io
import re
from collections import defaultdict
from functools import cache
from itertools import pairwise
from typing import Any

import pypdfium2
import pytest
from ezdxf.entities.dimension import Dimension
from ezdxf.filemanagement import read

from pentice.design import Design
from pentice.drawing.dxf import render_dxf
from pentice.drawing.placed import on_paper
from pentice.drawing.scene import Area, Group, Line, Polyline, Scene, Text
from pentice.drawing.seen import seen_along
from pentice.drawing.sketch import extent
from pentice.frame.side_places import long_mm
from pentice.pack.drawings import drawings
from pentice.pack.drawings.elevation import elevation_model, sides_drawn
from pentice.pack.drawings.elevation_sheets import elevation_scales, elevation_sheets
from pentice.pack.drawings.values import drawn
from pentice.pack.paper import A3_CAUTIONS, A3_FRAME, A3_TITLE_BLOCK
from pentice.pack.setting_out import setting_out_pdf
from tests.closed import closed_end_keys, laid_out
from tests.designs import EXAMPLES, changed, design_of
from tests.properties.test_drawings import faults, flat

ALL = (*EXAMPLES, "log-store", "plant-lobby")
THREE = [{"side": "front", "width_mm": 800, "left_mm": 1850, "right_mm": 1850}] * 2
MADE: dict[str, dict[str, Any]] = {
    "no mullion": closed_end_keys(out=1200.0, mullions=0),
    "two mullions on a low wall": closed_end_keys(out=1900.0, mullions=2, low_wall=620.0),
    "low": closed_end_keys(eaves=1150.0),
    "steep": closed_end_keys(pitch=45.0),
    "12 m of front": closed_end_keys(width=12000.0) | {"frame__posts_at_mm": [48, 3000, 6000, 9000, 11952]},
    "front of sheets and a door": {
        "frame__posts_at_mm": [48, 952, 1898, 2812],
        "side_sheets": THREE,
        "roof__openings": [
            {"wall": "front", "kind": "door", "x_mm": 1005.0, "width_mm": 840.0, "height_mm": 1880.0}
        ],
    },
    "door in an end": {
        "side_sheets": [],
        "roof__openings": [
            {"wall": "right", "kind": "door", "x_mm": 400.0, "width_mm": 840.0, "height_mm": 1880.0},
            {
                "wall": "front",
                "kind": "window",
                "x_mm": 900.0,
                "width_mm": 900.0,
                "height_mm": 700.0,
                "sill_mm": 950,
            },
        ],
    },
    "diagonal": {"frame__bracing": "diagonal"},
    "a door across a post": closed_end_keys(width=1500.0, door_at=108.0)
    | {"frame__posts_at_mm": [47.5, 750.0, 1452.5], "frame__post_feet_mm": [-80.0, 0.0, 40.0]},
    "uneven feet": {"frame__post_feet_mm": [-120.0, 80.0]},
}


@pytest.fixture(params=(*ALL, *MADE))
def design(request: pytest.FixtureRequest) -> Design:
    """Each example, and made-up ones, solved."""
    return design_of(request.param) if request.param in ALL else made_up(request.param)


@cache
def made_up(name: str) -> Design:
    """A made-up job, laid out once."""
    return laid_out(changed("plant-lobby", **MADE[name]))


def words(scene: Scene) -> list[str]:
    """All lettering."""
    return [p.text for p in flat(on_paper(scene.primitives)) if isinstance(p, Text)]


def dxf_sizes(scene: Scene) -> list[Dimension]:
    """The true linear dimensions of a drawing, as another program reads them."""
    doc = read(io.StringIO(render_dxf(scene).decode()))
    return [e for e in doc.modelspace() if isinstance(e, Dimension) and e.dimtype in (0, 1)]


def test_every_side_that_has_posts_is_drawn(design: Design) -> None:
    """All ends and the front, the back of a free-standing roof; each has a file of its own and a title."""
    sides = ["left", "front", "right", *(["back"] if not design.job.roof.attached else [])]
    assert list(sides_drawn(design)) == sides
    assert sorted(side for side, _ in elevation_scales(design)) == sorted(sides)


def test_each_elevation_is_a_drawing_of_the_pack() -> None:
    """With a name that is fit for a file, and its key under it."""
    titles = {d.name: d.title for d in drawings(design_of("log-store")) if d.name.startswith("elevation-")}
    assert sorted(titles) == [f"elevation-{side}" for side in ("back", "front", "left", "right")]
    assert titles["elevation-left"] == "Elevation, left end seen from outside"
    assert titles["elevation-front"] == "Elevation, front seen from outside"


def test_a_side_at_a_house_wall_is_not_drawn() -> None:
    """Nobody sees it from outside."""
    walled = {"roof__left": "wall", "glazing__left_edge": "wall", "roof__side_wall_top_above_mm": 900.0}
    job = changed("potting-bay", **walled, roof__side_wall_depth_mm=4000.0)
    assert sides_drawn(laid_out(job)) == ("front", "right")


def test_each_size_measures_what_it_says(design: Design) -> None:
    """Read back from DXF: the number that a size begins with is the length between its points, to half a mm."""
    for side, n in elevation_scales(design):
        for size in dxf_sizes(elevation_model(design, side, n)):
            number = re.match(r"\d+(\.\d+)?", size.dxf.text)
            if number is not None:
                assert size.get_measurement() == pytest.approx(float(number[0]), abs=0.5), (
                    side,
                    size.dxf.text,
                )


def test_widths_add_up_to_the_overall(design: Design) -> None:
    """The chain under each side, from DXF: end to end without a gap, in all as long as the side."""
    for side, n in elevation_scales(design):
        rows: dict[float, list[tuple[float, float, float]]] = defaultdict(list)
        overall: list[tuple[float, float, float]] = []
        for size in dxf_sizes(elevation_model(design, side, n)):
            a, b = size.dxf.defpoint2, size.dxf.defpoint3
            if abs(a.y - b.y) < 1e-6:
                whole = "rafters" in size.dxf.text or " to " in size.dxf.text
                (overall if whole else rows[round(a.y, 3)]).append(
                    (min(a.x, b.x), max(a.x, b.x), size.get_measurement())
                )
        long = long_mm(design.shape, side)
        assert [size[2] for size in overall] == pytest.approx([long], abs=1e-4), side
        chain = sorted(max(rows.values(), key=lambda row: sum(m for *_, m in row)))
        assert all(one[1] == pytest.approx(two[0], abs=1e-4) for one, two in pairwise(chain)), side
        assert sum(m for *_, m in chain) == pytest.approx(long, abs=1e-4), side


def test_sheets_and_timbers_bear_the_names_of_their_tickets(design: Design) -> None:
    """Every side sheet, mullion, transom, sill and post that is cut stands in the elevation of its side."""
    said = {side: words(elevation_model(design, side, 20.0, keyed=True)) for side in sides_drawn(design)}
    for fit in design.setting_out.side_sheets:
        assert f"SS{fit.number}" in said[fit.side]
        assert f"{fit.width_mm} × {fit.left_mm} / {fit.right_mm}" in said[fit.side]
    everywhere = {word.partition(",")[0] for texts in said.values() for word in texts}
    named = {p.id for p in design.pieces if re.fullmatch(r"(MU|TM|SI|PO)\d+", p.id)}
    assert named <= everywhere


def test_nothing_leaves_the_frame_or_enters_the_title_block(design: Design) -> None:
    """Views and key keep to the room that frame, cautions and title block leave, and to their own part of it."""
    for sheet in elevation_sheets(design):
        box = extent(sheet.scene.primitives)
        assert box.left >= A3_FRAME.left - 0.01
        assert box.top >= A3_FRAME.top
        assert box.right <= A3_FRAME.right
        assert box.bottom <= A3_FRAME.bottom
        views = [(p.part, extent([p])) for p in sheet.scene.primitives if isinstance(p, Group)]
        for name, view in views:
            over = view.right > A3_TITLE_BLOCK.left and view.bottom > A3_CAUTIONS.top
            assert view.top >= A3_TITLE_BLOCK.top or not over, name
        for k, (name, a) in enumerate(views):
            for other, b in views[k + 1 :]:
                across = min(a.right, b.right) - max(a.left, b.left)
                down = min(a.bottom, b.bottom) - max(a.top, b.top)
                assert not (across > 0.0 and down > 0.0), (name, other)


def test_no_label_lies_on_another_or_on_a_strong_line(design: Design) -> None:
    """On the sheets, and in each drawing with its own key."""
    for sheet in elevation_sheets(design):
        assert faults(sheet.scene) == []
    for side, n in elevation_scales(design):
        assert faults(drawn(side, elevation_model(design, side, n, keyed=True)).scene) == [], side


def test_the_setting_out_holds_the_elevations() -> None:
    """On sheets of their own after plan and section; each page says how many there are."""
    pages = [
        page.get_textpage().get_text_range()
        for page in pypdfium2.PdfDocument(setting_out_pdf(design_of("plant-lobby")))
    ]
    text = "\n".join(pages[1:])
    for side in ("left end", "front", "right end"):
        assert f"Elevation, {side} seen from outside" in text
    assert "SS1" in text and "767 × 2471 / 2265" in text and "757 × 2450 / 2244" in text
    assert "Section A–A" in pages[0]


def test_a_brace_or_beam_in_the_way_of_a_door_is_said() -> None:
    """The potting bay's door stands where its middle post's brace is; a door higher than the beam does not fit."""
    said = " ".join(words(elevation_model(design_of("potting-bay"), "front", 25.0, keyed=True)))
    assert "A brace crosses the door: move one of them." in said
    tall = MADE["front of sheets and a door"] | {
        "roof__openings": [
            {"wall": "front", "kind": "door", "x_mm": 1005.0, "width_mm": 840.0, "height_mm": 2000.0}
        ]
    }
    said = " ".join(
        words(elevation_model(laid_out(changed("plant-lobby", **tall)), "front", 25.0, keyed=True))
    )
    end = {
        "side_sheets": [],
        "roof__openings": [{**tall["roof__openings"][0], "wall": "left", "height_mm": 2200.0}],
    }
    scene = elevation_model(laid_out(changed("plant-lobby", **end)), "left", 25.0, keyed=True)
    # Its right edge stands 1845 from the wall: 145 past the beam's face, where the rafter would be 38.9 lower.
    assert "higher than the end rafter: it does not fit." in " ".join(words(scene))
    assert "The door reaches 94 higher than the underside of the beam: it does not fit." in said


def test_openings_whose_places_are_not_known_are_dashed_or_left_out() -> None:
    """At an end without named mullions dashed, in a front with more than one way left out; each says why."""
    keys = closed_end_keys() | {"frame__mullion_mm": None, "frame__mullion_end_kn": None}
    end = elevation_model(laid_out(changed("plant-lobby", **keys)), "left", 25.0, keyed=True)
    sheets = next(p for p in end.primitives if isinstance(p, Group) and p.part == "side sheets")
    assert {p.style for p in sheets.content if isinstance(p, Polyline)} == {"narrow dashed"}
    assert not [p for p in sheets.content if isinstance(p, Area)]
    assert "Where the dashed openings stand the job does not say" in " ".join(words(end))
    two = [{"side": "front", "width_mm": 300, "left_mm": 1850, "right_mm": 1850}] * 2
    front = elevation_model(laid_out(changed("plant-lobby", side_sheets=two)), "front", 25.0, keyed=True)
    assert "Where the side sheets of this side stand the job does not say" in " ".join(words(front))
    assert "SS2" in words(front)


def test_lettering_is_never_seen_from_the_other_side() -> None:
    """Lines change sides, lettering would read backwards: a mistake in the program."""
    with pytest.raises(TypeError, match="Text"):
        seen_along([Text(at=(0.0, 0.0), text="beam")], 0.0, -1.0)
    line = Line(a=(1.0, 2.0), b=(3.0, 4.0))
    assert seen_along(seen_along([line], 9.0, -1.0), 9.0, -1.0) == (line,)
