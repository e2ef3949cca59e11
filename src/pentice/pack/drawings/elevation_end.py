"""An end of the roof as seen from outside: wall and head at the left of the left end, at the right of the right end."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pentice.design import Design
from pentice.drawing.free import touch
from pentice.drawing.leaders import leader
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.placing import spread
from pentice.drawing.scene import Area, Dimension, Line, Pinned, Point, Polyline, Primitive, Scene
from pentice.drawing.seen import seen_along
from pentice.frame.side_places import SidePlaces, long_mm
from pentice.frame.stage import row_places
from pentice.job.called import head_called
from pentice.job.model import Opening
from pentice.pack.drawings.elevation_parts import (
    SIDE_WORDS,
    Marks,
    Stood,
    chain,
    door_labels,
    door_lines,
    marks,
    opening_box,
    openings_of,
    places_of,
    post_lines,
    sheet_labels,
    side_sheets,
    table_rows,
    text_rows,
    under,
    under_names,
    under_the_sill,
)
from pentice.pack.drawings.elevation_words import bolt_words, side_words
from pentice.pack.drawings.frame_lines import (
    WALL_MM,
    beam_bottom,
    beam_outline,
    floor_y,
    glazing_lines,
    ground_lines,
    gutter_section,
    gutter_top,
    head_beam_outline,
    metal_words,
    plate_outline,
    rafter_outline,
    wall_lines,
)
from pentice.pack.drawings.knees import knee_braces_across
from pentice.pack.drawings.slope import slope_of
from pentice.pack.drawings.values import half, part, rectangle, whole
from pentice.setting_out.side_frames import Place

KEY_MM = 92.0
"""Widest line of the key under an end [mm of paper]."""


def end_model(design: Design, side: Place, n: float, *, keyed: bool = False) -> Scene:
    """The left or the right end as seen from outside, to be printed 1:n.

    Parameters
    ----------
    design
        A solved job.
    side
        "left" or "right".
    n
        The scale it will be printed at.
    keyed
        Whether its key stands under it.
    """
    end = _end_of(design, side, n)
    title = f"Elevation, {SIDE_WORDS[side]} seen from outside"
    desc = (
        f"The {SIDE_WORDS[side]} as seen from outside, {head_called(design.job)} at the {side}: "
        f"{whole(end.long)} deep, {design.shape.pitch_deg:.1f} degrees."
    )
    knees = end.seen(knee_braces_across(design, n))
    content = (
        part("wall", *end.wall()),
        part("ground", *end.ground()),
        part("side sheets", *side_sheets(end.places, end.start, n)),
        part("frame", *end.frame()),
        part("knees", *knees),
        part("glazing", *end.seen(glazing_lines(design, end.bay))),
        part("gutter", *end.seen(gutter_section(design, end.bay))),
        part("openings", *(door_lines(design, side, end.start, end.datum) if end.known else ())),
        part("labels", *sheet_labels(end.places, end.start, n, knees)),
        part("doors", *(door_labels(design, side, end.start, end.datum, n, knees) if end.known else ())),
        part("sizes", *end.sizes()),
        part("names", *end.names()),
        *((part("key", end.key()),) if keyed else ()),
    )
    return Scene(primitives=content, title=title, desc=desc, scale=n)


def _end_of(design: Design, side: Place, n: float) -> _End:
    return _End(
        design=design, side=side, n=n, long=long_mm(design.shape, side), places=places_of(design, side)
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _End:
    """One end: its geometry is that of the section, out from the string line, turned over for the right end."""

    design: Design
    side: Place
    n: float
    long: float
    places: SidePlaces | None

    @property
    def way(self) -> float:
        """1.0 where out from the wall is to the right, -1.0 where it is to the left."""
        return 1.0 if self.side == "left" else -1.0

    @property
    def far(self) -> float:
        """The beam's outer face from the string line [mm]."""
        return self.design.shape.projection_mm

    @property
    def offset(self) -> float:
        """How far the wall's face stands proud of the string line [mm]."""
        return self.far - self.long

    @property
    def start(self) -> float:
        """x of the side's left end."""
        return self.offset if self.side == "left" else 0.0

    @property
    def bay(self) -> int:
        """Number of the end bay."""
        bays = self.design.setting_out.plane.bays
        return bays[0].number if self.side == "left" else bays[-1].number

    @property
    def known(self) -> bool:
        """Whether heights are known."""
        return self.design.shape.head_height_mm is not None

    @property
    def datum(self) -> float:
        """The datum mark, or where the drawing ends."""
        return floor_y(self.design)

    def x(self, out: float) -> float:
        """Where a place so far out from the string line is drawn."""
        return out if self.side == "left" else self.far - out

    def seen(self, primitives: tuple[Primitive, ...]) -> tuple[Primitive, ...]:
        """Lines of the section as this end shows them."""
        return seen_along(primitives, self.x(0.0), self.way)

    @property
    def posts(self) -> tuple[tuple[Stood, float], ...]:
        """Posts, each with how far out from the string line its middle stands [mm]."""
        return tuple(self._posts())

    def _posts(self) -> Iterator[tuple[Stood, float]]:
        """The post at the eaves, then the one at the head, with how far out from the string line their middles are."""
        design = self.design
        size, k = design.job.frame.post_mm, 0 if self.side == "left" else -1
        if size is None:
            return
        rows = [(False, self.far - size[1] / 2.0, beam_bottom(design))]
        head_beam = head_beam_outline(design)
        if head_beam:
            rows.append((True, size[1] / 2.0, max(y for _, y in head_beam)))
        for head, out, top in rows:
            places, feet = row_places(design.job, head=head)
            if places:
                foot = self.datum - (feet[k] if self.known else 0.0)
                x = self.x(out)
                yield Stood(left=x - size[1] / 2.0, right=x + size[1] / 2.0, top=top, foot=foot), out

    def wall(self) -> tuple[Primitive, ...]:
        """The house wall at the head, cut."""
        return seen_along(wall_lines(self.design, self.n), self.x(self.offset), self.way)

    def ground(self) -> tuple[Primitive, ...]:
        """Level with the datum between wall and post, or between both posts; beyond them as deep as their feet."""
        if not self.known:
            return ()
        near = self.offset - (WALL_MM + 3.0) * self.n if self.design.job.roof.attached else -8.0 * self.n
        beyond = self.far + 12.0 * self.n
        half = (self.design.job.frame.post_mm or (0.0, 0.0))[1] / 2.0
        points = [(near, self.datum)]
        for post, out in self.posts[::-1]:
            if out > self.far / 2.0:
                points += [(out - half, self.datum), (out - half, post.foot)]
            else:
                points = [(near, post.foot), (out + half, post.foot), (out + half, self.datum)]
        points.append((beyond, points[-1][1]))
        turned = [(self.x(out), y) for out, y in points[:: 1 if self.side == "left" else -1]]
        return ground_lines(turned, self.n)

    def frame(self) -> tuple[Primitive, ...]:
        """Wall plate or head beam, posts, eaves beam, end rafter over them, noggins hidden behind it."""
        design, frame = self.design, self.design.job.frame
        found: list[Primitive] = []
        for outline in (head_beam_outline(design), beam_outline(design)):
            if outline:
                found += self.seen((Area(points=outline, fill="white", style="wide"),))
        if frame.wall_plate_mm is not None:
            found += self.seen((Area(points=plate_outline(design), fill="white", style="wide"),))
        found += self.seen((Area(points=rafter_outline(design), fill="white", style="wide"),))
        return (*found, *self.posts_drawn(), *self.seen(tuple(self._noggins())))

    def posts_drawn(self) -> tuple[Primitive, ...]:
        """The posts with bases and pads."""
        pad = self.design.job.frame.pad_mm
        seen = None if pad is None else (pad[1], pad[2])
        return tuple(line for post, _ in self.posts for line in post_lines(post, seen, self.n))

    def _noggins(self) -> Iterator[Primitive]:
        """Under the roof line, square to it."""
        frame, slope = self.design.job.frame, slope_of(self.design)
        if frame.noggin_mm is None:
            return
        wide, deep = frame.noggin_mm
        for along in frame.noggins_at_mm:
            corners = slope.box((along - wide / 2.0, along + wide / 2.0), (-deep, 0.0))
            yield Polyline(points=corners, closed=True, style="narrow dashed")

    def low(self) -> float:
        """The lowest level of the ground, or where the drawing ends."""
        return max(self.datum, *(post.foot for post, _ in self.posts), self.datum)

    def sizes(self) -> tuple[Primitive, ...]:
        """From edge to edge, marks of the openings, overall; heights of the roof line at both its edges."""
        n, (base, found) = self.n, (self.low(), [*self._heights()])
        left, right = self.start, self.start + self.long
        edges = [left, right, *(x for post, _ in self.posts for x in (post.left, post.right))]
        shown = self.places if self.places is not None and not self.places.why else None
        opened = [] if shown is None else [(o.left_mm, o.left_mm + o.width_mm) for o in shown.openings]
        opened += [(o.x_mm, o.x_mm + o.width_mm) for o in openings_of(self.design, self.side)]
        edges += [self.start + x for pair in opened for x in pair]
        found += chain(edges, base + 6.0 * n, n, nouns=[] if opened else [(*self._clear(), "clear")])
        y = base + 12.0 * n
        ends = {self.start + x for pair in opened for x in pair}
        datum = left if self.side == "left" else right
        stops = tuple(sorted(x for x in ends if abs(x - datum) > 1.0))
        if stops:
            noun = "edges from the wall" if self.design.job.roof.attached else "edges from the head"
            run = Marks(origin=datum, way=self.way, at=stops, noun=noun)
            _, high = marks(run, y, n)
            y += (high + 2.6) * n
            found += marks(run, y, n)[0]
        face = "wall face" if self.design.job.roof.attached else "outside of head beam"
        words = (
            f"{whole(self.long)} {face} to outside of beam",
            f"{whole(self.long)} {face} to beam",
            f"{whole(self.long)} to the beam",
        )
        text = next((w for w in words if text_width_mm(w, 3.5, 600) <= self.long / n - 2.0), whole(self.long))
        found.append(Dimension(a=(left, y), b=(right, y), text=text, offset_mm=-8.0, kind="overall"))
        found += under_the_sill(self.places, self.start, self.datum, n)
        return (*found, *under_names(self.places, self.start, self.datum, self.posts_drawn(), n))

    def _clear(self) -> tuple[float, float]:
        """Between wall and post, or between both posts."""
        inner = sorted((post.left, post.right) for post, _ in self.posts)
        left, right = self.start, self.start + self.long
        if len(inner) == 2:
            return inner[0][1], inner[1][0]
        if not inner:
            return left, right
        return (left, inner[0][0]) if self.side == "left" else (inner[0][1], right)

    def _heights(self) -> Iterator[Primitive]:
        """Over the datum; nothing where they are not known."""
        shape, n = self.design.shape, self.n
        if shape.head_height_mm is None or shape.eaves_height_mm is None:
            return
        thick = WALL_MM * n if self.design.job.roof.attached else 0.0
        there = head_called(self.design.job)
        head = whole(shape.head_height_mm)
        eaves = whole(shape.eaves_height_mm)
        yield self._upright(
            self.offset - thick if thick else 0.0,
            0.0,
            8.0,
            (f"{head} roof line at {there}", f"{head} at {there}", head),
        )
        beyond = self.far + (self._outside_mm() + 4.0) * n
        yield self._upright(
            beyond, shape.rise_mm, 3.0, (f"{eaves} roof line at the beam face", f"{eaves} at the beam", eaves)
        )

    def _upright(self, out: float, top: float, off: float, words: tuple[str, ...]) -> Dimension:
        """A height over the datum, on the side away from the roof."""
        x, tall = self.x(out), (self.datum - top) / self.n
        text = next((w for w in words if text_width_mm(w, 2.5) < tall - 2.0), words[-1])
        at_left = x < self.x(self.far / 2.0)
        a, b = ((x, self.datum), (x, top)) if at_left else ((x, top), (x, self.datum))
        return Dimension(a=a, b=b, text=text, offset_mm=off)

    def _outside(self) -> tuple[tuple[str, Point], ...]:
        """What is named beyond the eaves: words, and a point in it, out from the string line."""
        design, frame = self.design, self.design.job.frame
        found: list[tuple[str, Point]] = []
        gutter, low = design.parts.gutter, beam_bottom(design)
        if gutter is not None:
            tip = (
                self.far + 4.0 + gutter.width_mm * 0.85,
                gutter_top(design, self.bay) + gutter.depth_mm * 0.3,
            )
            found.append((f"gutter {gutter.width_mm:g}", tip))
        if frame.beam_mm is not None:
            b, h = frame.beam_mm
            words = f"beam {b:g} × {h:g}{metal_words(design.parts.beam_section)}"
            found.append((words, (self.far - b * 0.3, low - h * 0.4)))
        if self.posts and frame.post_mm is not None:
            b, h = frame.post_mm
            words = f"post {b:g} × {h:g}{metal_words(design.parts.post_section)}"
            found.append((words, (self.far - h * 0.3, low + 9.0 * self.n)))
        return tuple(found)

    def _gutter_mm(self) -> float:
        """How far the gutter reaches beyond the beam's face [mm of paper]."""
        gutter = self.design.parts.gutter
        return 0.0 if gutter is None else (4.0 + gutter.width_mm) / self.n

    def _outside_mm(self) -> float:
        """How far lettering reaches beyond the beam's face [mm of paper]."""
        labels = [text_width_mm(words, 2.5) for words, _ in self._outside()]
        return self._gutter_mm() + 4.0 + max(labels, default=0.0)

    def names(self) -> tuple[Primitive, ...]:
        """Beyond the eaves gutter, beam and post; over the roof rafter and wall plate; the rest in the key."""
        design, frame, n = self.design, self.design.job.frame, self.n
        slope, rafters = slope_of(design), design.setting_out.plane.rafters
        rafter = rafters[0] if self.side == "left" else rafters[-1]
        outside = self._outside()
        rows = spread([tip[1] / n for _, tip in outside], [5.0] * len(outside), 0.0)
        found: list[Primitive] = []
        for (words, (out, y)), row in zip(outside, rows, strict=True):
            to = (self.way * (self._gutter_mm() + 4.0 + (self.far - out) / n), row - y / n)
            found.append(leader((self.x(out), y), to, words, end="dot"))
        depth = rafter.depth_mm / design.shape.cos_pitch
        pitch = f"{design.shape.pitch_deg:.1f}".removesuffix(".0")
        kind = "end bar" if design.parts.bar.carries else "end rafter"
        size = "" if design.parts.bar.carries else f" {rafter.width_mm:g} × {rafter.depth_mm:g}"
        tip = slope.level(self.far * 0.52, depth / 2.0)
        up = -(depth / 2.0 / n + 9.0)
        found.append(
            leader(
                (self.x(tip[0]), tip[1]),
                (self.way * 5.0, up),
                f"{kind} R{rafter.number}{size}, {pitch}°",
                end="dot",
            )
        )
        words, tip = "", (0.0, 0.0)
        if frame.wall_plate_mm is not None:
            b, h = frame.wall_plate_mm
            words, tip = (
                f"wall plate {b:g} × {h:g}",
                (b / 2.0, max(y for _, y in plate_outline(design)) - h * 0.4),
            )
        elif outline := head_beam_outline(design):
            (x1, y1), _, (x2, y2), _ = outline
            words, tip = f"head beam {x2 - x1:g} × {y2 - y1:g}", ((x1 + x2) / 2.0, (y1 + y2) / 2.0)
        if words:
            found.append(
                leader((self.x(tip[0]), tip[1]), (self.way * 9.0, -16.0 - tip[1] / n), words, end="dot")
            )
        return tuple(found)

    def key(self) -> Pinned:
        """Under its sizes."""
        rows = (*table_rows(self.design, self.side), *text_rows(self.words(), KEY_MM))
        return under(self.sizes(), rows, self.start, self.n)

    def words(self) -> Iterator[str]:
        """What the drawing has no room to say."""
        frame, shape, places = self.design.job.frame, self.design.shape, self.places
        if shape.head_height_mm is None:
            yield "Heights are not known: give head or eaves height."
        if places is not None:
            yield from side_words(self.design, places)
        yield from self._too_high()
        yield from (f"A brace crosses the {o.kind}: move one of them." for o in self.in_the_way())
        if shape.overhang_mm:
            yield f"The glazing reaches {whole(shape.overhang_mm)} past the beam, along the slope."
        if frame.noggin_mm is not None and frame.noggins_at_mm:
            at = ", ".join(half(x) for x in frame.noggins_at_mm)
            yield f"Noggins {frame.noggin_mm[0]:g} × {frame.noggin_mm[1]:g} (dashed) at {at} along the slope."
        if frame.barge_board_mm is not None:
            b, h = frame.barge_board_mm
            yield f"The barge board {b:g} × {h:g} in front of the end rafter is left out."
        if frame.bracing_across == "knee braces":
            down, along = frame.knee_across_mm
            yield (
                f"Knee braces across {down:g} down, {along:g} along, from where middle lines cross; "
                f"{bolt_words(self.design)}."
            )
        if frame.bracing_across == "fixed feet":
            yield "The feet of the posts are held against turning across."
        if frame.pad_mm is not None and self.posts:
            yield f"Pads {' × '.join(f'{mm:g}' for mm in frame.pad_mm)} (dashed)."

    def in_the_way(self) -> Iterator[Opening]:
        """Doors and windows that a brace across crosses."""
        drawn = self.seen(knee_braces_across(self.design, self.n))
        lines = [(p.a, p.b) for p in drawn if isinstance(p, Line)]
        for o in openings_of(self.design, self.side) if self.known else ():
            box = rectangle(*opening_box(o, self.start, self.datum))
            if any(touch(box, line, 1.0) for line in lines):
                yield o

    def _too_high(self) -> Iterator[str]:
        """Doors and windows that do not fit under the rafter."""
        depth = self.design.setting_out.plane.rafters[0].depth_mm / self.design.shape.cos_pitch
        for o in openings_of(self.design, self.side) if self.known else ():
            outs = [self.x(self.start + x) for x in (o.x_mm, o.x_mm + o.width_mm)]
            under = max(slope_of(self.design).level(out, depth)[1] for out in outs)
            over = o.sill_mm + o.height_mm - (self.datum - under)
            if over > 0.5:
                yield f"The {o.kind} reaches {whole(over)} higher than the end rafter: it does not fit."


def end_crossed(design: Design, side: Place) -> tuple[Opening, ...]:
    """Doors, windows and vents of an end that a brace across crosses as it is drawn.

    Parameters
    ----------
    design
        A solved job.
    side
        "left" or "right".
    """
    return tuple(_end_of(design, side, 1.0).in_the_way())


def end_words(design: Design, side: Place) -> tuple[str, ...]:
    """What the drawing of an end has no room to say: short sentences for its key.

    Parameters
    ----------
    design
        A solved job.
    side
        "left" or "right".
    """
    return tuple(_end_of(design, side, 1.0).words())
