"""The roof as a customer sees it: an isometric picture, hidden faces painted over, three sizes.

Axes as the roof's own: x right along the wall, y out from the wall, z up; all in mm. Far things are painted first.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from pentice.design import Design
from pentice.drawing.page import View, bare_page
from pentice.drawing.placed import on_paper
from pentice.drawing.scene import Area, Group, Line, Pinned, Point, Primitive, Scene, Text
from pentice.drawing.sketch import extent
from pentice.drawing.svg import render_svg
from pentice.frame.stage import head_beam_below_mm, head_support_mm, row_places
from pentice.job.called import along

Point3 = tuple[float, float, float]
PICTURE_WIDTH_MM = 112.0
PICTURE_HEIGHT_MM = 84.0
ALONG = (0.88, 0.235)
OUT = (-0.62, 0.40)
"""How one mm along the wall and one mm out from it are drawn: from the left front, a little above."""
UNKNOWN_EAVES_MM = 2300.0


def seen(p: Point3) -> Point:
    """Where a point of the roof lies in the picture [mm, y down].

    Examples
    --------
    >>> seen((0.0, 0.0, 10.0))
    (0.0, -10.0)
    """
    x, y, z = p
    return (x * ALONG[0] + y * OUT[0], x * ALONG[1] + y * OUT[1] - z)


def picture_model(design: Design) -> Scene:
    """The picture in mm of the thing, before it is fitted to paper."""
    shape, attached = design.shape, design.job.roof.attached
    content = (
        Group(content=tuple(_ground(design)), part="ground"),
        Group(content=tuple(_wall(design)) if attached else (), part="wall"),
        Group(content=() if attached else tuple(_head_row(design)), part="head"),
        Group(content=tuple(_posts(design)), part="posts"),
        Group(content=tuple(_beam(design)), part="beam"),
        Group(content=tuple(_rafters(design)), part="rafters"),
        Group(content=tuple(_sheets(design)), part="sheets"),
        Group(content=tuple(_gutter(design)), part="gutter"),
    )
    use = design.job.roof.use or "roof"
    desc = (
        f"Picture of a {use} {'against a wall' if attached else 'that stands free'}: {metres(shape.width_mm)} "
        f"{along(design.job)}, "
        f"{metres(shape.projection_mm)} deep, "
        f"{len(design.setting_out.plane.bays)} roof sheets."
    )
    return Scene(primitives=content, title="The roof", desc=desc)


def metres(mm: float) -> str:
    """A size for a customer: metres, two digits at most.

    Examples
    --------
    >>> metres(4875.0), metres(2100.0), metres(2950.0)
    ('4.88 m', '2.1 m', '2.95 m')
    """
    return f"{round(mm / 10.0) / 100.0:g} m"


def picture_scene(
    design: Design, width_mm: float = PICTURE_WIDTH_MM, height_mm: float = PICTURE_HEIGHT_MM
) -> Scene:
    """The picture on paper with its sizes of width, depth and clear height.

    Parameters
    ----------
    design
        A solved job.
    width_mm, height_mm
        Paper it takes [mm].
    """
    model = picture_model(design)
    bounds = extent(on_paper(model.primitives))
    around = (16.0, 2.0, 15.0, 13.0)
    room = (width_mm - around[0] - around[2], height_mm - around[1] - around[3])
    n = max(bounds.width / room[0], bounds.height / room[1])
    x = around[0] + (room[0] - bounds.width / n) / 2 - bounds.left / n
    y = around[1] + (room[1] - bounds.height / n) / 2 - bounds.top / n
    view = View(scale=n, origin=(x, y))
    made = (*on_paper(model.primitives, view), *on_paper(_sizes(design, n), view))
    return Scene(primitives=made, title=model.title, desc=model.desc)


def roof_picture(design: Design) -> str:
    """The picture as SVG text for the quote, 112 by 84 mm, the size it has there.

    Parameters
    ----------
    design
        A solved job.
    """
    return render_svg(picture_scene(design), bare_page(PICTURE_WIDTH_MM, PICTURE_HEIGHT_MM))


def _eaves(design: Design) -> float:
    """Height of the roof line over the beam's face [mm]; a usual one where it is not known."""
    return design.shape.eaves_height_mm or UNKNOWN_EAVES_MM


def _roof_z(design: Design, y: float) -> float:
    """Height of the roof line at a distance from the wall [mm]."""
    return _eaves(design) + (design.shape.projection_mm - y) * math.tan(math.radians(design.shape.pitch_deg))


def _face(points: tuple[Point3, ...], fill: str = "white", style: str = "narrow") -> Area:
    return Area(points=tuple(seen(p) for p in points), fill=fill, style=style)


def _box(low: Point3, high: Point3) -> Iterator[Area]:
    """The three faces of a box that are seen: top, front, right end, painted in this order."""
    (x1, y1, z1), (x2, y2, z2) = low, high
    yield _face(((x1, y1, z2), (x2, y1, z2), (x2, y2, z2), (x1, y2, z2)))
    yield _face(((x1, y2, z1), (x2, y2, z1), (x2, y2, z2), (x1, y2, z2)))
    yield _face(((x2, y1, z1), (x2, y2, z1), (x2, y2, z2), (x2, y1, z2)), "tint")


def _ground(design: Design) -> Iterator[Primitive]:
    w, p = design.shape.width_mm, design.shape.projection_mm
    yield _face(
        ((-350.0, 0.0, 0.0), (w + 350.0, 0.0, 0.0), (w + 350.0, p + 450.0, 0.0), (-350.0, p + 450.0, 0.0)),
        "desk",
        "",
    )
    yield _face(((0.0, 0.0, 0.0), (w, 0.0, 0.0), (w, p, 0.0), (0.0, p, 0.0)), "tint", "")


def _wall(design: Design) -> Iterator[Primitive]:
    """The wall with level joints."""
    w = design.shape.width_mm
    top = _roof_z(design, 0.0) + 500.0
    left, right = -350.0, w + 350.0
    yield _face(((left, 0.0, 0.0), (right, 0.0, 0.0), (right, 0.0, top), (left, 0.0, top)), "desk", "wide")
    for k in range(1, int(top / 150.0)):
        z = 150.0 * k
        yield Line(a=seen((left, 0.0, z)), b=seen((right, 0.0, z)), style="hair", colour="hair")


def _posts(design: Design) -> Iterator[Primitive]:
    far = design.shape.projection_mm
    yield from _row(design, row_places(design.job), far, -1.0, _beam_low(design))


def _row(
    design: Design,
    row: tuple[tuple[float, ...], tuple[float, ...]],
    face: float,
    inwards: float,
    top: float,
) -> Iterator[Primitive]:
    """The posts of one row, flush with their beam's outer face."""
    if design.job.frame.post_mm is None:
        return
    b, d = design.job.frame.post_mm
    near, far = sorted((face, face + inwards * d))
    for x, foot in zip(*row, strict=False):
        yield from _box((x - b / 2, near, foot), (x + b / 2, far, top))


def _head_row(design: Design) -> Iterator[Primitive]:
    """Posts and beam under the head of a free-standing roof."""
    size = head_support_mm(design.job)
    if size is None:
        return
    left = design.setting_out.plane.rafters[0].depth_mm - design.job.frame.head_notch_mm
    over = head_beam_below_mm(design.shape, left, size)
    top = _roof_z(design, 0.0) - over
    yield from _row(design, row_places(design.job, head=True), 0.0, 1.0, top - size[1])
    yield from _box((0.0, 0.0, top - size[1]), (design.shape.width_mm, size[0], top))


def _beam_low(design: Design) -> float:
    beam = design.job.frame.beam_mm
    return _beam_high(design) - (beam[1] if beam is not None else 0.0)


def _beam_high(design: Design) -> float:
    over = design.setting_out.plane.rafters[0].depth_mm - design.job.frame.rafter_notch_mm
    return _eaves(design) - over / design.shape.cos_pitch


def _beam(design: Design) -> Iterator[Primitive]:
    beam, p = design.job.frame.beam_mm, design.shape.projection_mm
    if beam is not None:
        yield from _box((0.0, p - beam[0], _beam_low(design)), (design.shape.width_mm, p, _beam_high(design)))


def _rafters(design: Design) -> Iterator[Primitive]:
    """Their ends over the beam, and the side of the last: what is seen below the sheets."""
    p = design.shape.projection_mm
    for r in design.setting_out.plane.rafters:
        deep = r.depth_mm / design.shape.cos_pitch
        left, right = r.centre_foot_mm - r.width_mm / 2, r.centre_foot_mm + r.width_mm / 2
        z, wall = _roof_z(design, p), _roof_z(design, 0.0)
        far = r.centre_head_mm + r.width_mm / 2
        yield _face(((far, 0.0, wall - deep), (right, p, z - deep), (right, p, z), (far, 0.0, wall)), "tint")
        yield _face(((left, p, z - deep), (right, p, z - deep), (right, p, z), (left, p, z)))


def _sheets(design: Design) -> Iterator[Primitive]:
    """The sheets as they lie, a few flutes as hair lines, caps over their edges."""
    shape, plane = design.shape, design.setting_out.plane
    low = shape.projection_mm + shape.overhang_level_mm
    up = design.parts.sheet.depth_mm + 8.0
    z1, z2 = _roof_z(design, 0.0) + up, _roof_z(design, low) + up
    for bay in plane.bays:
        (a, _), (b, _), (c, _), (d, _) = bay.outline_mm
        yield _face(((a, 0.0, z1), (b, 0.0, z1), (c, low, z2), (d, low, z2)))
        for k in range(1, 10):
            top, foot = a + (b - a) * k / 10, d + (c - d) * k / 10
            yield Line(a=seen((top, 0.0, z1)), b=seen((foot, low, z2)), style="hair", colour="hair")
        deep = design.parts.sheet.depth_mm
        yield _face(((d, low, z2 - deep), (c, low, z2 - deep), (c, low, z2), (d, low, z2)), "tint")
    half = design.parts.bar.seat_mm / 2
    for r in plane.rafters:
        wide = half if r.has_bar else r.width_mm / 2
        h, f = r.centre_head_mm, r.centre_foot_mm
        yield _face(
            (
                (h - wide, 0.0, z1 + 8),
                (h + wide, 0.0, z1 + 8),
                (f + wide, low, z2 + 8),
                (f - wide, low, z2 + 8),
            )
        )
    board = design.job.frame.barge_board_mm
    last = plane.rafters[-1]
    if board is not None and design.job.roof.right != "wall":
        x = last.centre_foot_mm + last.width_mm / 2 + board[0]
        drop = board[1] / shape.cos_pitch
        yield _face(((x, 0.0, z1 - drop), (x, low, z2 - drop), (x, low, z2), (x, 0.0, z1)), "tint")
    w = shape.width_mm
    if design.job.roof.attached:
        yield _face(((0.0, 0.0, z1), (w, 0.0, z1), (w, 0.0, z1 + 150.0), (0.0, 0.0, z1 + 150.0)), "tint")


def _gutter(design: Design) -> Iterator[Primitive]:
    gutter, p, w = design.parts.gutter, design.shape.projection_mm, design.shape.width_mm
    if gutter is None:
        return
    top = _roof_z(design, p + design.shape.overhang_level_mm) - 14.0
    yield from _box((0.0, p + 4.0, top - gutter.depth_mm), (w, p + 4.0 + gutter.width_mm, top))


def _sizes(design: Design, n: float) -> tuple[Primitive, ...]:
    """Three sizes: along the wall, out from it, and the height to walk under where it is known."""
    shape = design.shape
    w, p = shape.width_mm, shape.projection_mm
    out = 4.5 * n
    front = (seen((0.0, p + 450.0, 0.0)), seen((w, p + 450.0, 0.0)))
    side = (seen((w + 350.0, 0.0, 0.0)), seen((w + 350.0, p, 0.0)))
    found = [
        *_size(
            (_moved(front[0], -out * 0.3, out), _moved(front[1], -out * 0.3, out)),
            f"{metres(w)} {along(design.job)}",
            5.6,
        ),
        *_size((_moved(side[1], out * 0.7, out), _moved(side[0], out * 0.7, out)), f"{metres(p)} deep", 5.6),
    ]
    clear = design.setting_out.clear_height_mm
    if clear is not None:
        foot = max(design.job.frame.post_feet_mm, default=0.0)
        a, b = seen((0.0, p, foot)), seen((0.0, p, foot + clear))
        found += _size(
            (_moved(a, -out, 0.0), _moved(b, -out, 0.0)), f"{metres(math.floor(clear / 10) * 10)} clear", -1.8
        )
    return tuple(found)


def _moved(p: Point, dx: float, dy: float) -> Point:
    return (p[0] + dx, p[1] + dy)


def _size(line: tuple[Point, Point], text: str, below_mm: float) -> tuple[Primitive, ...]:
    """A size on a line that need not be level: strokes at its ends, the words along it."""
    a, b = line
    dx, dy = b[0] - a[0], b[1] - a[1]
    length = math.hypot(dx, dy)
    along = (dx / length, dy / length)
    turn = -math.degrees(math.atan2(dy, dx))
    across = (-along[1] * 1.5, along[0] * 1.5)
    ends = tuple(
        Pinned(at=end, content=(Line(a=across, b=(-across[0], -across[1]), style="wide"),)) for end in (a, b)
    )
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    at = (-along[1] * below_mm, along[0] * below_mm)
    words = Text(at=at, text=text, h_mm=3.5, weight=600, anchor="middle", turn_deg=turn)
    return (Line(a=a, b=b, style="narrow"), *ends, Pinned(at=middle, content=(words,)))
