"""What the elevations of ends and rows share: posts with their pads, side sheets, doors, sizes under them, key.

x from the side's left end as seen from outside, y down, 0 at the roof line at the head [mm].
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from pentice.design import Design
from pentice.drawing.free import first_free, is_free, touch
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.page import View
from pentice.drawing.placed import on_paper
from pentice.drawing.placing import DIGIT_SHARE, stand_over_marks
from pentice.drawing.scene import (
    Area,
    Dimension,
    Line,
    Pinned,
    Point,
    Polyline,
    Primitive,
    Running,
    Text,
)
from pentice.drawing.sketch import extent
from pentice.frame.side_places import SidePlaces, StoodUpright, side_places
from pentice.job.model import Opening
from pentice.pack.drawings.frame_lines import break_level
from pentice.pack.drawings.values import half, rectangle, whole
from pentice.setting_out.side_frames import Place

BASE_MM = 1.2
"""Height of a post base as drawn [mm of paper]: its maker says how high it is."""
PAD_MM = 5.0
"""How much of a pad is drawn at most [mm of paper]."""
PAD_WHITE_MM = 2.0
"""White between a pad's edge and a name beside it [mm of paper]."""
DIMS_MM = 24.0
"""An opening so wide on paper has room for both its heights and its name between them."""
ONE_MM = 13.0
"""One so wide has room for one height and its name."""
SHOWN_MM = 9.0
"""What is so high on paper has room for its own size."""
ROW_MM = 4.4
"""From row to row of the key [mm of paper]."""
SIDE_WORDS = {"left": "left end", "front": "front", "right": "right end", "back": "back"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Stood:
    """A post as it is seen: its faces, top and foot [mm]."""

    left: float
    right: float
    top: float
    foot: float

    @property
    def middle(self) -> float:
        """Half way between its faces."""
        return (self.left + self.right) / 2.0


def places_of(design: Design, side: Place) -> SidePlaces | None:
    """Where what closes a side stands; None where no sheet closes it.

    Parameters
    ----------
    design
        A solved job.
    side
        Which side.
    """
    return side_places(design.job, design.shape, design.setting_out, side)


def openings_of(design: Design, side: Place) -> tuple[Opening, ...]:
    """Doors, windows and vents of a side, from its left end as seen from outside.

    Parameters
    ----------
    design
        A solved job.
    side
        Which side.
    """
    return tuple(sorted((o for o in design.job.roof.openings if o.wall == side), key=lambda o: o.x_mm))


def post_lines(post: Stood, pad_mm: tuple[float, float] | None, n: float) -> tuple[Primitive, ...]:
    """A post with its base, and its pad dashed: how wide and how deep that is seen [mm]."""
    found: list[Primitive] = [
        Area(points=rectangle(post.left, post.top, post.right, post.foot), fill="white", style="wide"),
        Area(
            points=rectangle(post.left - 0.5 * n, post.foot - BASE_MM * n, post.right + 0.5 * n, post.foot),
            fill="ink",
        ),
    ]
    if pad_mm is not None:
        found += _pad(post, pad_mm, n)
    return tuple(found)


def _pad(post: Stood, pad_mm: tuple[float, float], n: float) -> tuple[Primitive, ...]:
    """A pad in the ground, as deep as leaves room for the sizes under it: then a break line ends it."""
    wide, deep = pad_mm
    left, right, low = post.middle - wide / 2, post.middle + wide / 2, post.foot + min(deep, PAD_MM * n)
    sides = ((left, low), (left, post.foot), (right, post.foot), (right, low))
    if deep <= PAD_MM * n:
        return (Polyline(points=sides, closed=True, style="narrow dashed"),)
    beyond = 1.2 * n
    return (
        Polyline(points=sides, style="narrow dashed"),
        break_level(left - beyond, right + beyond, low, n),
    )


def side_sheets(places: SidePlaces | None, start: float, n: float) -> tuple[Primitive, ...]:
    """Openings, mullions, transoms and sill of a side; dashed where it is not known where they stand."""
    if places is None:
        return ()
    found: list[Primitive] = []
    for o in places.openings:
        found += _outlined(_corners(o, start), bool(places.why))
        if not places.why:
            found += _flutes(o, start, n)
    for m in places.mullions:
        found += _outlined(_corners(m, start), bool(places.why))
    for t in (*places.transoms, *(() if places.sill is None else (places.sill,))):
        left = start + t.left_mm
        found += _outlined(
            rectangle(left, t.top_mm, left + t.length_mm, t.top_mm + t.deep_mm), bool(places.why)
        )
    return tuple(found)


def _outlined(corners: tuple[Point, ...], dashed: bool) -> tuple[Primitive, ...]:
    if dashed:
        return (Polyline(points=corners, closed=True, style="narrow dashed"),)
    return (Area(points=corners, fill="white", style="wide"),)


def _corners(o: StoodUpright, start: float) -> tuple[Point, ...]:
    left, right = start + o.left_mm, start + o.left_mm + o.width_mm
    return ((left, o.heads_mm[0]), (right, o.heads_mm[1]), (right, o.foot_mm), (left, o.foot_mm))


def _flutes(o: StoodUpright, start: float, n: float) -> Iterator[Primitive]:
    """Hair lines at head and foot: which way the flutes run."""
    high, low = max(o.heads_mm), o.foot_mm
    tall, count = (low - high) / n, int(o.width_mm / n / 2.5)
    if tall < 16.0:
        return
    deep = 3.0 * n
    for k in range(1, count):
        share = k / count
        x = start + o.left_mm + o.width_mm * share
        head = o.heads_mm[0] + (o.heads_mm[1] - o.heads_mm[0]) * share
        yield Line(a=(x, head + 1.0 * n), b=(x, head + deep), style="hair")
        yield Line(a=(x, low - deep), b=(x, low - 1.0 * n), style="hair")


def sheet_labels(
    places: SidePlaces | None, start: float, n: float, braces: Sequence[Primitive] = ()
) -> tuple[Primitive, ...]:
    """Name of each side sheet, as on its ticket, the heights of its opening at both edges, which way the flutes run."""
    if places is None:
        return ()
    found: list[Primitive] = []
    for o in places.openings:
        found += _sheet_label(o, start, n, braces)
    for t in places.transoms:
        at = (start + t.left_mm + t.length_mm / 2.0, t.top_mm)
        words = Text(at=(0.0, -1.3), text=f"TM{t.number}", anchor="middle", halo=True)
        found.append(Pinned(at=at, content=(words,)))
    return tuple(found)


def _sheet_label(o: StoodUpright, start: float, n: float, braces: Sequence[Primitive]) -> Iterator[Primitive]:
    left, wide = start + o.left_mm, o.width_mm / n
    right, high = left + o.width_mm, max(o.heads_mm)
    tall = (o.foot_mm - high) / n
    level = abs(o.heads_mm[0] - o.heads_mm[1]) < 0.5
    sized = tall >= 12.0 and wide >= (ONE_MM if level else 17.0)
    both = sized and (wide >= DIMS_MM or not level)
    if sized:
        # Beside the upright edges, read from the right.
        for x, head, inside in ((left, o.heads_mm[0], 4.8), (right, o.heads_mm[1], -2.2))[: 2 if both else 1]:
            at, text = x + inside * n, whole(o.foot_mm - head)
            size = Dimension(a=(at, o.foot_mm), b=(at, head), text=text, offset_mm=0.0)
            if is_free(size, braces, n):
                yield size
    a, b = (left + (6.2 * n if sized else 0.0)), (right - (6.4 * n if both else 0.0))
    yield _named(o, (a, b), tall, braces, n)


def _named(
    o: StoodUpright, between: tuple[float, float], tall: float, braces: Sequence[Primitive], n: float
) -> Primitive:
    """Name and flutes where no brace runs through them."""
    (a, b), high, name = between, max(o.heads_mm), f"SS{o.number}"
    free = (b - a) / n - 1.6
    h = next((h for h in (5.0, 3.5, 2.5) if text_width_mm(name, h, 700) <= free), 0.0)
    content: tuple[Primitive, ...] = (
        Text(at=(0.0, h / 2), text=name, h_mm=h, weight=700, anchor="middle"),
        *((_arrow((0.0, h / 2 + 11.0), free >= 9.0),) if tall >= 46.0 else ()),
    )
    if not h:
        content = (Text(at=(1.25, 0.0), text=name, weight=700, anchor="middle", turn_deg=90.0),)
    choices = [
        Pinned(at=((a + b) / 2.0, high + share * (o.foot_mm - high)), content=content)
        for share in (0.42, 0.55, 0.3, 0.66, 0.2)
    ]
    return first_free(choices, braces, n)


def _arrow(at: Point, named: bool) -> Pinned:
    """The way of the flutes, with its word where there is room for it."""
    tips = tuple(
        Area(points=((0.0, s * 7.0), (0.9, s * 4.4), (-0.9, s * 4.4)), fill="ink") for s in (-1.0, 1.0)
    )
    shaft = Line(a=(0.0, -5.0), b=(0.0, 5.0), style="wide")
    word = Text(at=(-1.8, 0.0), text="FLUTES", weight=600, anchor="middle", turn_deg=90.0, halo=True)
    return Pinned(at=at, content=(shaft, *tips, *((word,) if named else ())))


def under_the_sill(places: SidePlaces | None, start: float, datum: float, n: float) -> tuple[Primitive, ...]:
    """How high what the sheets stand on is, where that can be seen."""
    if places is None or places.over_datum_mm is None or places.why or places.over_datum_mm / n < SHOWN_MM:
        return ()
    first = places.openings[0]
    x = start + first.left_mm + first.width_mm / 2.0
    size = whole(places.over_datum_mm)
    return (Dimension(a=(x, datum), b=(x, datum - places.over_datum_mm), text=size, offset_mm=0.0),)


def under_names(
    places: SidePlaces | None, start: float, y: float, posts: Iterable[Primitive], n: float
) -> tuple[Primitive, ...]:
    """Names of mullions and sill, as on their tickets, under the ground and off the edges of pads."""
    if places is None:
        return ()
    named = [(m.left_mm + m.width_mm / 2.0, f"MU{m.number}") for m in places.mullions]
    if places.sill is not None:
        first = places.openings[0]
        named.append((first.left_mm + first.width_mm / 2.0, f"SI{places.sill.number}"))
    edges = {x for pad in posts if isinstance(pad, Polyline) and "dashed" in pad.style for x, _ in pad.points}
    return tuple(
        Pinned(
            at=(_off(start + x, text, edges, n), y),
            content=(Text(at=(0.0, 5.4), text=text, anchor="middle", halo=True),),
        )
        for x, text in named
    )


def _off(x: float, text: str, edges: Iterable[float], n: float) -> float:
    """The place nearest to x at which a name stands clear of upright edges."""
    half = (text_width_mm(text, 2.5) / 2.0 + PAD_WHITE_MM) * n
    choices = sorted(
        (x, *(edge + side * half for edge in edges for side in (-1.0, 1.0))), key=lambda at: abs(at - x)
    )
    clear = (at for at in choices if all(abs(edge - at) >= half - 1e-6 for edge in edges))
    return next(clear, x)


def door_lines(design: Design, side: Place, start: float, floor: float) -> tuple[Primitive, ...]:
    """Doors, windows and vents as openings."""
    return tuple(
        Area(points=rectangle(*opening_box(o, start, floor)), fill="white", style="wide")
        for o in openings_of(design, side)
    )


def door_labels(
    design: Design, side: Place, start: float, floor: float, n: float, braces: Sequence[Primitive] = ()
) -> tuple[Primitive, ...]:
    """Sizes of doors, windows and vents."""
    return tuple(
        label
        for o in openings_of(design, side)
        for label in _door_label(o, opening_box(o, start, floor), n, braces)
    )


def opening_box(o: Opening, start: float, floor: float) -> tuple[float, float, float, float]:
    """Left, top, right and foot of a door, window or vent."""
    left, low = start + o.x_mm, floor - o.sill_mm
    return left, low - o.height_mm, left + o.width_mm, low


def _door_label(
    o: Opening, box: tuple[float, float, float, float], n: float, braces: Sequence[Primitive]
) -> Iterator[Primitive]:
    left, high, right, low = box
    wide, tall = (right - left) / n, (low - high) / n
    if tall >= 12.0 and wide >= ONE_MM:
        # Where no brace runs through the size, at the left if both sides are alike.
        sides = (left + 4.8 * n, right - 2.2 * n)
        at = min(sides, key=lambda x: _crossed(((x, low), (x, high)), braces))
        size = Dimension(a=(at, low), b=(at, high), text=whole(o.height_mm), offset_mm=0.0)
        if is_free(size, braces, n):
            yield size
        left, right = (left + 6.2 * n, right) if at == sides[0] else (left, right - 6.2 * n)
    words = [o.kind, f"{whole(o.width_mm)} wide", *(() if not o.sill_mm else (f"sill {whole(o.sill_mm)}",))]
    free = (right - left) / n - 1.0
    if max(text_width_mm(w, 2.5, 600) for w in words) <= free and tall >= 4.2 * len(words):
        rows: tuple[Primitive, ...] = tuple(
            Text(at=(0.0, 4.2 * (k - (len(words) - 1) / 2.0) + 1.25), text=w, weight=600, anchor="middle")
            for k, w in enumerate(words)
        )
    else:
        said = f"{o.kind} {whole(o.width_mm)}"
        rows = (Text(at=(1.25, 0.0), text=said, weight=600, anchor="middle", turn_deg=90.0),)
    yield first_free(
        [
            Pinned(at=((left + right) / 2.0, high + share * (low - high)), content=rows)
            for share in (0.5, 0.35, 0.65, 0.22, 0.78)
        ],
        braces,
        n,
    )


def _crossed(line: tuple[Point, Point], braces: Sequence[Primitive]) -> int:
    """How many braces run through a line."""
    return sum(touch(line, (p.a, p.b)) for p in braces if isinstance(p, Line))


def chain(
    edges: Iterable[float], y: float, n: float, *, nouns: Iterable[tuple[float, float, str]] = ()
) -> tuple[Primitive, ...]:
    """Sizes from edge to edge along a level: a value where there is room for it, and its noun where it has one."""
    called = {(round(a, 3), round(b, 3)): noun for a, b, noun in nouns}
    found: list[Primitive] = []
    for a, b in pairwise(sorted({round(x, 6) for x in edges})):
        noun, size = called.get((round(a, 3), round(b, 3)), ""), whole(b - a)
        words = (f"{size} {noun}", size) if noun else (size,)
        text = next((w for w in words if text_width_mm(w, 2.5) <= (b - a) / n - 1.2), "")
        found.append(Dimension(a=(a, y), b=(b, y), text=text, offset_mm=-6.0))
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class Marks:
    """Running marks along a level."""

    origin: float
    """Where the tape hooks."""
    way: float
    """1.0 for a tape to the right, -1.0 to the left."""
    at: tuple[float, ...]
    noun: str


def marks(m: Marks, y: float, n: float) -> tuple[tuple[Primitive, ...], float]:
    """The marks with their line at a level, and how far they reach over it [mm of paper]."""
    distances = sorted(m.way * (x - m.origin) for x in m.at)
    stops = tuple((d, half(d)) for d in distances)
    widths = [text_width_mm(text, 3.5, 700) for _, text in stops]
    placed = stand_over_marks([d / n for d in distances], widths, DIGIT_SHARE * 3.5, least_mm=-0.6)
    high = 1.8 + (max(widths) if placed[0].turned else 4.8 * max(p.row for p in placed) + 3.5)
    line = Running(
        origin=(m.origin, y), stops=stops, ahead=(m.way, 0.0), offset_mm=0.0, noun=m.noun, weight=700
    )
    return (line,), high


Row = tuple[tuple[float, str, int], ...]
"""One row of a key: (x [mm of paper], text, weight) of each lettering in it."""


def table_rows(design: Design, side: Place) -> tuple[Row, ...]:
    """The side sheets of a side as rows of a key: opening, and sheet as cut; nothing where there is none."""
    fits = [fit for fit in design.setting_out.side_sheets if fit.side == side]
    if not fits:
        return ()
    table = [("", "opening", "sheet as cut")]
    for fit in fits:
        wide, left, right = fit.opening_mm
        opening = f"{whole(wide)} × {whole(left)} / {whole(right)}"
        sheet = f"{fit.width_mm} × {fit.left_mm} / {fit.right_mm}"
        table.append((f"SS{fit.number}", opening, sheet))
    first = max(text_width_mm(row[0], 2.5, 700) for row in table) + 3.0
    # Who opens the SVG may have a wider font than ours: columns leave room for it.
    second = first + 1.2 * max(text_width_mm(row[1], 2.5, 600) for row in table) + 4.0
    rows = [
        tuple(
            (x, text, w if k else 600)
            for x, text, w in zip((0.0, first, second), row, (700, 400, 400), strict=True)
        )
        for k, row in enumerate(table)
    ]
    return (*rows, ((0.0, "width × height at its left / at its right", 400),))


def text_rows(words: Iterable[str], wide_mm: float) -> tuple[Row, ...]:
    """Sentences as rows of a key."""
    return tuple(((0.0, line, 400),) for line in wrapped(words, wide_mm))


def block(rows: Iterable[Row], at: Point) -> Pinned:
    """Rows under each other, from their top left corner."""
    return Pinned(
        at=at,
        content=tuple(
            Text(at=(x, 2.5 + ROW_MM * k), text=text, weight=weight)
            for k, row in enumerate(rows)
            for x, text, weight in row
            if text
        ),
    )


def under(sizes: Iterable[Primitive], rows: Iterable[Row], x: float, n: float) -> Pinned:
    """The rows of a key under all sizes of a drawing."""
    low = extent(on_paper(sizes, View(scale=n, origin=(0.0, 0.0)))).bottom
    return block(rows, (x, (low + 4.0) * n))


def wrapped(words: Iterable[str], wide_mm: float) -> tuple[str, ...]:
    """Sentences in lines no wider on paper than ``wide_mm``, but for a single word.

    Examples
    --------
    >>> wrapped(["Nobody stands on a sheet."], 22.0)
    ('Nobody', 'stands on a', 'sheet.')
    """
    found: list[str] = []
    for sentence in words:
        line = ""
        for word in sentence.split(" "):
            longer = f"{line} {word}" if line else word
            if line and text_width_mm(longer, 2.5) > wide_mm:
                found.append(line)
                longer = word
            line = longer
        found.append(line)
    return tuple(found)
