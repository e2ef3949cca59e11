"""A scene of paper as SVG: real text, a title and a description, the same bytes each time.

Two profiles of one scene. "print": user units are mm of paper. "screen": user units are px, 4 to the mm of
paper, with line widths and lettering from the screen columns of the style table; every element has its
style name as a class.
"""

from __future__ import annotations

import math
import zlib
from dataclasses import dataclass, replace
from typing import Literal
from xml.etree import ElementTree as ET

from pentice.drawing.lettering import font_size_mm
from pentice.drawing.page import Page
from pentice.drawing.placed import on_paper
from pentice.drawing.scene import Arc, Area, Circle, Group, Line, Point, Polyline, Primitive, Scene, Text
from pentice.drawing.sketch import halo_box
from pentice.drawing.styles import COLOURS, FONT, PX_PER_MM, line_style, text_px

Profile = Literal["print", "screen"]


@dataclass(frozen=True, slots=True)
class _Pen:
    """How lengths, widths and lettering of one profile are written."""

    screen: bool
    key: str

    def n(self, mm: float) -> str:
        """A length of paper in user units."""
        return number(mm * PX_PER_MM if self.screen else mm)

    def width(self, style: str) -> float:
        """Line width in user units."""
        line = line_style(style)
        return line.width_px if self.screen else line.width_mm

    def font(self, h_mm: float) -> float:
        """Font size in user units."""
        return text_px(h_mm) if self.screen else font_size_mm(h_mm)


def number(value: float) -> str:
    """A number as short as it can be: three decimals, no trailing zeros, no minus zero.

    Examples
    --------
    >>> number(2.50), number(-0.0001), number(3.0)
    ('2.5', '0', '3')
    """
    short = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if short in ("-0", "") else short


def render_svg(scene: Scene, page: Page, profile: Profile = "print") -> str:
    """The drawing as SVG text.

    Parameters
    ----------
    scene
        In mm of paper, from the top left corner of the page (a model is taken as 1:1).
    page
        Its size; margins are not used here.
    profile
        "print" or "screen".

    Examples
    --------
    >>> from pentice.drawing.page import bare_page
    >>> text = render_svg(Scene(primitives=(Line(a=(0, 0), b=(5, 0)),), title="Rule", desc="A line."), bare_page(10, 5))
    >>> "<title>Rule</title>" in text
    True
    """
    # The key keeps ids apart when several drawings stand in one web page.
    pen = _Pen(profile == "screen", f"p{zlib.crc32((scene.title + scene.desc).encode()):08x}")
    unit = "" if pen.screen else "mm"
    size = {"width": pen.n(page.width_mm) + unit, "height": pen.n(page.height_mm) + unit}
    root = ET.Element(
        "svg",
        {
            "xmlns": "http://www.w3.org/2000/svg",
            **size,
            "viewBox": f"0 0 {pen.n(page.width_mm)} {pen.n(page.height_mm)}",
            "role": "img",
            "font-family": f"{FONT}, sans-serif",
            "fill": "none",
        },
    )
    ET.SubElement(root, "title").text = scene.title
    ET.SubElement(root, "desc").text = scene.desc
    _add_all(root, on_paper(scene.primitives), pen)
    return ET.tostring(root, encoding="unicode", short_empty_elements=True) + "\n"


def _add_all(parent: ET.Element, primitives: tuple[Primitive, ...], pen: _Pen) -> None:
    """Each primitive as a child of ``parent``."""
    for p in primitives:
        if isinstance(p, Group):
            _group(parent, p, pen)
        elif isinstance(p, Text):
            _text(parent, p, pen)
        elif isinstance(p, Area):
            _area(parent, p, pen)
        else:
            _stroked(parent, p, pen)


def _group(parent: ET.Element, p: Group, pen: _Pen) -> None:
    """A <g>, with its part, title and clipping."""
    attributes = {"data-part": p.part} if p.part else {}
    if p.clip is not None:
        name = (
            f"{pen.key}-{pen.n(p.clip.left)}-{pen.n(p.clip.top)}-{pen.n(p.clip.right)}-{pen.n(p.clip.bottom)}"
        )
        clip = ET.SubElement(parent, "clipPath", {"id": name})
        ET.SubElement(clip, "path", {"d": _path((p.clip.corners,), pen, closed=True)})
        attributes["clip-path"] = f"url(#{name})"
    element = ET.SubElement(parent, "g", attributes)
    if p.title:
        ET.SubElement(element, "title").text = p.title
    _add_all(element, p.content, pen)


def _stroke(style: str, colour: str, pen: _Pen) -> dict[str, str]:
    """Attributes of a line style; nothing for no style."""
    if not style:
        return {}
    line, width = line_style(style), pen.width(style)
    attributes = {"stroke": COLOURS[colour], "stroke-width": number(width)}
    if line.dash:
        attributes["stroke-dasharray"] = " ".join(number(part * width) for part in line.dash)
    if pen.screen:
        attributes["class"] = style.replace(" ", "-")
    return attributes


def _path(rings: tuple[tuple[Point, ...], ...], pen: _Pen, *, closed: bool) -> str:
    """Path data through the points of each ring."""
    parts = []
    for ring in rings:
        points = "L".join(f"{pen.n(x)} {pen.n(y)}" for x, y in ring)
        parts.append(f"M{points}{'Z' if closed else ''}")
    return "".join(parts)


def _area(parent: ET.Element, p: Area, pen: _Pen) -> None:
    """A filled path with its holes."""
    attributes = {"d": _path((p.points, *p.holes), pen, closed=True), **_stroke(p.style, p.colour, pen)}
    if p.fill:
        attributes["fill"] = COLOURS[p.fill]
    if p.holes:
        attributes["fill-rule"] = "evenodd"
    ET.SubElement(parent, "path", attributes)


def _stroked(parent: ET.Element, p: Primitive, pen: _Pen) -> None:
    """A line, polyline, circle or arc."""
    if isinstance(p, Circle):
        x, y = p.centre
        attributes = {"cx": pen.n(x), "cy": pen.n(y), "r": pen.n(p.radius), **_stroke(p.style, p.colour, pen)}
        if p.fill:
            attributes["fill"] = COLOURS[p.fill]
        ET.SubElement(parent, "circle", attributes)
    elif isinstance(p, Line):
        ET.SubElement(
            parent, "path", {"d": _path(((p.a, p.b),), pen, closed=False), **_stroke(p.style, p.colour, pen)}
        )
    elif isinstance(p, Polyline):
        d = _path((p.points,), pen, closed=p.closed)
        ET.SubElement(parent, "path", {"d": d, **_stroke(p.style, p.colour, pen), "stroke-linejoin": "miter"})
    elif isinstance(p, Arc):
        ET.SubElement(parent, "path", {"d": _arc(p, pen), **_stroke(p.style, p.colour, pen)})


def _arc(p: Arc, pen: _Pen) -> str:
    """Path data of an arc, anticlockwise as seen."""
    turn = (p.end_deg - p.start_deg) % 360.0
    ends = []
    for angle in (p.start_deg, p.end_deg):
        a = math.radians(angle)
        ends.append((p.centre[0] + p.radius * math.cos(a), p.centre[1] - p.radius * math.sin(a)))
    (x1, y1), (x2, y2) = ends
    r = pen.n(p.radius)
    return f"M{pen.n(x1)} {pen.n(y1)}A{r} {r} 0 {int(turn > 180.0)} 0 {pen.n(x2)} {pen.n(y2)}"


def _text(parent: ET.Element, p: Text, pen: _Pen) -> None:
    """One line of real text; a halo is a white plate under it."""
    x, y = pen.n(p.at[0]), pen.n(p.at[1])
    size = pen.font(p.h_mm)
    turn = {"transform": f"rotate({number(-p.turn_deg)} {x} {y})"} if p.turn_deg else {}
    if p.halo:
        # Not a stroke round the letters: some readers then paint each letter over its neighbour.
        plate = halo_box(replace(p, turn_deg=0.0), size / (PX_PER_MM if pen.screen else 1.0))
        ET.SubElement(
            parent, "path", {"d": _path((plate,), pen, closed=True), "fill": COLOURS["white"], **turn}
        )
    attributes = {"x": x, "y": y, "font-size": number(size), "fill": COLOURS[p.colour]}
    if p.weight != 400:
        attributes["font-weight"] = str(p.weight)
    if p.anchor != "start":
        attributes["text-anchor"] = p.anchor
    ET.SubElement(parent, "text", attributes | turn).text = p.text
