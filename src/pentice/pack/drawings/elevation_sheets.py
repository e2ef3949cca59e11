"""The A3 sheets of the elevations: all sides on one where that leaves them large enough, else ends and rows apart.

One key for all sides of a sheet: a table of the side sheets, and what has no room in the drawings.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product

from pentice.design import Design
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.page import SCALES
from pentice.drawing.placed import on_paper
from pentice.drawing.scene import Group, Primitive, Scene
from pentice.errors import NoSolution
from pentice.pack.drawings.elevation import ENDS, elevation_model, elevation_words, sides_drawn
from pentice.pack.drawings.elevation_parts import (
    ROW_MM,
    SIDE_WORDS,
    Row,
    block,
    table_rows,
    text_rows,
)
from pentice.pack.drawings.sheet import (
    BESIDE_MM,
    LEFT,
    RIGHT,
    RIGHT_FOOT,
    TITLE_MM,
    TOP,
    Sheet,
    scale_marks,
    size_on_paper,
    titled,
)
from pentice.setting_out.side_frames import Place

GAP_MM = 8.0
"""Between two views, and between them and the key."""
FOOT = 284.0
"""Lowest line beside the title block."""
FINE = 25.0
"""A scale 1:n that is always fine enough for several sides on a sheet: judgement."""
TABLE_MM = 94.0
"""Width of a column of the table of side sheets."""
TABLE_ROWS = 17
"""Most rows in a column of it."""
ROOMS = ((BESIDE_MM - LEFT, LEFT), (RIGHT - BESIDE_MM - GAP_MM, BESIDE_MM + GAP_MM))
"""Where a key may stand: how wide, and from where; under the views, or right of them over the title block."""
Corner = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Laid:
    """Sides on one sheet: each with its scale 1:n and the top left corner of its view; and the key."""

    views: tuple[tuple[Place, float, Corner], ...]
    key: tuple[tuple[tuple[Row, ...], Corner], ...]


def elevation_sheets(design: Design) -> tuple[Sheet, ...]:
    """The sheets of the elevations; none where no side has anything to show.

    Parameters
    ----------
    design
        A solved job.

    Raises
    ------
    NoSolution
        A side is too large for A3 even at 1:100.
    """
    return tuple(_sheet(design, laid) for laid in _laid_out(design))


def elevation_scales(design: Design) -> tuple[tuple[Place, float], ...]:
    """The scale, n of 1:n, of each side that is drawn.

    Parameters
    ----------
    design
        A solved job.

    Raises
    ------
    NoSolution
        A side is too large for A3 even at 1:100.
    """
    return tuple((side, n) for laid in _laid_out(design) for side, n, _ in laid.views)


def _laid_out(design: Design) -> tuple[_Laid, ...]:
    """All on one sheet, else ends and rows on one each, else each side on its own."""
    sides = sides_drawn(design)
    if not sides:
        return ()
    fitter = _Fitter(design=design, boxes={})
    alone = [fitter.alone(side) for side in sides]
    coarse = {laid.views[0][0]: max(FINE, laid.views[0][1]) for laid in alone}
    apart = [tuple(s for s in sides if (s in ENDS) == end) for end in (True, False)]
    together = fitter.on_one(sides, coarse)
    if together is not None:
        return (together,)
    found: list[_Laid] = []
    for group in (group for group in apart if group):
        made = fitter.on_one(group, coarse)
        found += [made] if made is not None else [laid for laid in alone if laid.views[0][0] in group]
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Fitter:
    """Fits views on sheets; each is drawn once at each scale."""

    design: Design
    boxes: dict[tuple[Place, float], Corner]

    def box(self, side: Place, n: float) -> Corner:
        """Width and height of a view with its title [mm of paper]."""
        if (side, n) not in self.boxes:
            model = elevation_model(self.design, side, n)
            size, title = size_on_paper(model), text_width_mm(model.title, 5.0, 700)
            self.boxes[side, n] = (max(size.width, title), size.height + TITLE_MM)
        return self.boxes[side, n]

    def alone(self, side: Place) -> _Laid:
        """One side on a sheet of its own, as large as it can be."""
        laid = self.on_one((side,), {side: SCALES[-1]})
        if laid is None:
            raise NoSolution(
                "A side of the roof is too large to be drawn on A3 at 1:100. Make two jobs of it."
            )
        return laid

    def on_one(self, sides: tuple[Place, ...], coarse: dict[Place, float]) -> _Laid | None:
        """Sides on one sheet, ends alike and rows alike, none smaller than its coarsest scale."""
        scales = [s for s in SCALES if s >= 10.0]
        kinds = sorted({side in ENDS for side in sides})
        tried = sorted(product(scales, repeat=len(kinds)), key=lambda ns: (sum(ns), ns))
        for ns in tried:
            of = dict(zip(kinds, ns, strict=True))
            if all(of[side in ENDS] <= coarse[side] for side in sides):
                views = [(side, of[side in ENDS]) for side in sides]
                laid = next(self._placed(views), None)
                if laid is not None:
                    return laid
        return None

    def _placed(self, views: Sequence[tuple[Place, float]]) -> Iterator[_Laid]:
        """Views in a row or two, with the key where it has room."""
        for corners in _shelves([self.box(side, n) for side, n in views]):
            boxes = [
                (x, y, x + self.box(*view)[0], y + self.box(*view)[1])
                for view, (x, y) in zip(views, corners, strict=True)
            ]
            low = max(bottom for *_, bottom in boxes)
            for (wide, x), top in zip(ROOMS, (low + GAP_MM, TOP), strict=True):
                under = x == LEFT
                if not under and any(right > BESIDE_MM for _, _, right, _ in boxes):
                    continue
                columns = _key(self.design, [side for side, _ in views], wide)
                tall = max((len(rows) for rows, _ in columns), default=0) * ROW_MM
                if top + tall <= (FOOT if under else RIGHT_FOOT):
                    yield _Laid(
                        views=tuple((s, n, at) for (s, n), at in zip(views, corners, strict=True)),
                        key=tuple((rows, (x + right, top)) for rows, right in columns),
                    )


def _key(design: Design, sides: Sequence[Place], wide_mm: float) -> list[tuple[tuple[Row, ...], float]]:
    """Columns of the key, each with how far right it begins: the table of side sheets, then words."""
    table: list[Row] = []
    for side in sides:
        rows = table_rows(design, side)
        if rows and len(sides) > 1:
            table.append(((0.0, SIDE_WORDS[side].capitalize(), 700),))
        table += rows
    columns = [tuple(table[k : k + TABLE_ROWS]) for k in range(0, len(table), TABLE_ROWS)]
    found = [(rows, TABLE_MM * k) for k, rows in enumerate(columns)]
    left = TABLE_MM * len(columns)
    said = {side: elevation_words(design, side) for side in sides}
    common = [words for words in said[sides[0]] if all(words in of for of in said.values())]
    lines = list(text_rows(common, wide_mm - left))
    for side in sides:
        own = [words for words in said[side] if words not in common]
        if own:
            lines.append(((0.0, SIDE_WORDS[side].capitalize(), 700),))
            lines += text_rows(own, wide_mm - left)
    if lines:
        found.append((tuple(lines), left))
    return found


def _shelves(boxes: list[Corner]) -> Iterator[tuple[Corner, ...]]:
    """Top left corners of boxes in one row, or in two; none where they do not fit."""
    for first in range(len(boxes), 0, -1):
        rows = [(boxes[:first], TOP)]
        if first < len(boxes):
            rows.append((boxes[first:], TOP + max(h for _, h in boxes[:first]) + 5.0))
        found: list[Corner] = []
        for row, top in rows:
            found += _shelf(row, top)
        if len(found) == len(boxes):
            yield tuple(found)


def _shelf(row: Sequence[Corner], top: float) -> Iterator[Corner]:
    """Boxes side by side from a height down; none where they do not fit."""
    low = top + max(h for _, h in row)
    right = RIGHT if low <= RIGHT_FOOT else BESIDE_MM
    wide = sum(w for w, _ in row)
    if low > FOOT or wide + GAP_MM * (len(row) - 1) > right - LEFT:
        return
    # Spare room goes between the views, up to a limit, so that they stand together.
    gap = min(24.0, (right - LEFT - wide) / max(1, len(row) - 1))
    x = LEFT
    for w, _ in row:
        yield (x, top)
        x += w + gap


def _sheet(design: Design, laid: _Laid) -> Sheet:
    views: list[Primitive] = [titled(elevation_model(design, side, n), at, "") for side, n, at in laid.views]
    key = [block(rows, at) for rows, at in laid.key]
    named = ", ".join(SIDE_WORDS[side] for side, _, _ in laid.views)
    scales = sorted({n for _, n, _ in laid.views})
    words = ", ".join(f"1:{n:g}" for n in scales)
    scene = Scene(
        primitives=(
            *views,
            *((Group(content=on_paper(key), part="key"),) if key else ()),
            *scale_marks(scales[0]),
        ),
        title="Elevations",
        desc=f"The roof as seen from outside: {named}, at {words}.",
    )
    return Sheet(scene=scene, scales=words, plan_scale=scales[0])
