"""SVG is parsed back: real text, a title and a description, clipping, the two profiles."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest

from pentice.drawing.page import bare_page
from pentice.drawing.scene import (
    Arc,
    Area,
    Box,
    Circle,
    Dimension,
    Group,
    Line,
    Polyline,
    Running,
    Scene,
    Text,
)
from pentice.drawing.svg import render_svg

NS = "{http://www.w3.org/2000/svg}"
PAGE = bare_page(100.0, 80.0)


def parsed(*primitives: object, profile: str = "print") -> ET.Element:
    """The root of a drawing of these primitives."""
    scene = Scene(primitives=primitives, title="Plan", desc="A plan of nothing.")  # type: ignore[arg-type]
    return ET.fromstring(render_svg(scene, PAGE, profile))  # type: ignore[arg-type]


def texts(root: ET.Element) -> list[str]:
    """All lettering in the order it is drawn."""
    return [t.text or "" for t in root.iter(f"{NS}text")]


def test_title_and_description_come_first_for_those_who_cannot_see() -> None:
    """A reader that speaks takes them from the first children."""
    root = parsed(Line(a=(0.0, 0.0), b=(1.0, 1.0)))
    assert [child.tag for child in root][:2] == [f"{NS}title", f"{NS}desc"]
    assert (root[0].text, root[1].text) == ("Plan", "A plan of nothing.")


def test_a_print_is_in_mm_and_a_screen_in_px() -> None:
    """4 px to the mm of paper."""
    assert parsed().get("width") == "100mm"
    assert parsed(profile="screen").get("width") == "400"


def test_every_value_of_running_sizes_is_real_text() -> None:
    """Somebody marks from each: none may be left out, and 0 stands at the origin."""
    stops = tuple((float(k), str(k)) for k in range(3, 93, 6))
    root = parsed(Running(origin=(3.0, 40.0), stops=stops, noun="marks"))
    assert sorted(texts(root)) == sorted([text for _, text in stops] + ["0", "marks"])


def test_a_dimension_draws_its_line_two_strokes_and_its_value() -> None:
    """Two extension lines, the line, two oblique strokes, one plate under the value."""
    root = parsed(Dimension(a=(10.0, 40.0), b=(60.0, 40.0), text="50"))
    assert texts(root) == ["50"]
    assert len(list(root.iter(f"{NS}path"))) == 6


def test_a_clipped_group_names_its_clip_path() -> None:
    """What lies outside is hidden by a path that exists."""
    box = Box(left=0.0, top=0.0, right=10.0, bottom=10.0)
    root = parsed(Group(content=(Line(a=(0.0, 0.0), b=(50.0, 0.0)),), clip=box, part="wall"))
    group = next(root.iter(f"{NS}g"))
    clip = next(root.iter(f"{NS}clipPath"))
    assert group.get("clip-path") == f"url(#{clip.get('id')})"
    assert group.get("data-part") == "wall"


def test_a_halo_is_a_white_plate_before_its_text() -> None:
    """Painted first, so that it hides the lines and not the letters."""
    root = parsed(Text(at=(10.0, 10.0), text="947", halo=True))
    assert [child.tag for child in root][2:] == [f"{NS}path", f"{NS}text"]
    assert root[2].get("fill") == "#ffffff"


@pytest.mark.parametrize(
    "fill", ["brick", "timber end", "timber along", "concrete", "scrap", "blockwork-turned"]
)
def test_hatches_are_drawn_out_as_lines(fill: str) -> None:
    """No patterns: every writer and printer shows the same."""
    corners = ((0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (0.0, 20.0))
    root = parsed(Area(points=corners, fill=fill, style="wide"))
    assert not list(root.iter(f"{NS}pattern"))
    assert len(list(root.iter(f"{NS}path"))) >= 4


def test_circles_arcs_and_polylines_survive() -> None:
    """Each is one element."""
    root = parsed(
        Circle(centre=(5.0, 5.0), radius=2.0),
        Arc(centre=(5.0, 5.0), radius=2.0, start_deg=0.0, end_deg=270.0),
        Polyline(points=((0.0, 0.0), (1.0, 0.0), (1.0, 1.0)), closed=True),
    )
    arc = next(p for p in root.iter(f"{NS}path") if "A" in (p.get("d") or ""))
    assert "0 1 0" in (arc.get("d") or "")  # the larger way round, anticlockwise
    assert len(list(root.iter(f"{NS}circle"))) == 1
