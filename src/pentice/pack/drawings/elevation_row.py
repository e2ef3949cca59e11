"""The front, or the back of a free-standing roof, as seen from outside, with its sizes, names and key."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from pentice.design import Design
from pentice.drawing.free import first_free, touch
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.scene import (
    Dimension,
    Line,
    Pinned,
    Point,
    Primitive,
    Scene,
    Text,
)
from pentice.drawing.symbols import bay_number
from pentice.frame.stage import frame_of
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
    sheet_labels,
    side_sheets,
    table_rows,
    text_rows,
    under,
    under_names,
    under_the_sill,
)
from pentice.pack.drawings.elevation_row_lines import RowLines
from pentice.pack.drawings.elevation_words import bolt_words, side_words
from pentice.pack.drawings.frame_lines import metal_words
from pentice.pack.drawings.values import half, part, rectangle, whole
from pentice.setting_out.side_frames import Place

KEY_MM = 130.0
"""Widest line of the key under a row [mm of paper]."""
BAND_MM = 9.0
"""A roof so high on paper holds the numbers of its bays; over a lower one they stand in a row."""
LEGS_MM = 16.0
"""Legs of a knee brace so long on paper have room for their sizes under it."""
BESIDE_BRACE_MM = 5.6
"""Room beyond a brace for the size of its upright leg [mm of paper]."""
NAMED_MM = 4.6
"""A beam so high on paper holds its own name."""
LEAST_BAY_MM = 6.4
"""Bays narrower on paper are not numbered one by one."""


def row_model(design: Design, side: Place, n: float, *, keyed: bool = False) -> Scene:
    """The front or the back as seen from outside, to be printed 1:n.

    Parameters
    ----------
    design
        A solved job.
    side
        "front" or "back".
    n
        The scale it will be printed at.
    keyed
        Whether its key stands under it.
    """
    row = _Row(design=design, side=side, n=n, places=places_of(design, side))
    title = f"Elevation, {SIDE_WORDS[side]} seen from outside"
    desc = (
        f"The {SIDE_WORDS[side]} as seen from outside: {whole(row.width)} wide, "
        f"{len(row.posts)} post{'s' if len(row.posts) != 1 else ''}."
    )
    braces = row.braces()
    content = (
        part("ground", *row.ground()),
        part("roof", *row.roof()),
        part("side sheets", *side_sheets(row.places, 0.0, n)),
        part("openings", *(door_lines(design, side, 0.0, row.datum) if row.known else ())),
        part("frame", *row.frame()),
        part("braces", *braces),
        part("gutter", *row.gutter()),
        part("labels", *sheet_labels(row.places, 0.0, n, braces)),
        part("doors", *(door_labels(design, side, 0.0, row.datum, n, braces) if row.known else ())),
        part("sizes", *row.sizes()),
        part("names", *row.names()),
        *((part("key", row.key()),) if keyed else ()),
    )
    return Scene(primitives=content, title=title, desc=desc, scale=n)


def row_words(design: Design, side: Place) -> tuple[str, ...]:
    """What the drawing of a row has no room to say: short sentences for its key.

    Parameters
    ----------
    design
        A solved job.
    side
        "front" or "back".
    """
    return tuple(_Row(design=design, side=side, n=1.0, places=places_of(design, side)).words())


def row_crossed(design: Design, side: Place) -> tuple[Opening, ...]:
    """Doors, windows and vents of a row that a brace crosses as it is drawn.

    Parameters
    ----------
    design
        A solved job.
    side
        "front" or "back".
    """
    return tuple(_Row(design=design, side=side, n=1.0, places=places_of(design, side)).in_the_way())


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row(RowLines):
    """One row with its sizes and names."""

    def sizes(self) -> tuple[Primitive, ...]:
        """Widths between posts and openings, marks of posts and openings, overall; heights at both edges."""
        n, base = self.n, self.low()
        found: list[Primitive] = [*self._heights(), *self._legs()]
        opened = self._opened()
        edges = [0.0, self.width, *(x for p in self.posts for x in (p.left, p.right))]
        edges += [x for pair in opened for x in pair]
        clear = [(a.right, b.left, "clear") for a, b in self.fields()]
        found += chain(edges, base + 6.0 * n, n, nouns=clear)
        y = base + 12.0 * n
        of_posts = tuple(post.middle for post in self.posts)
        of_openings = tuple(sorted({x for pair in opened for x in pair}))
        # Posts of either row are marked from the roof's left end, which lies at the right of its back.
        origin, way = (0.0, 1.0) if self.side == "front" else (self.width, -1.0)
        for run in (
            Marks(origin=0.0, way=1.0, at=of_openings, noun="edges of openings"),
            Marks(origin=origin, way=way, at=of_posts, noun="middles of posts"),
        ):
            if run.at:
                y += (marks(run, y, n)[1] + 3.0) * n
                found += marks(run, y, n)[0]
        kind = "bars" if self.design.parts.bar.carries else "rafters"
        words = (f"{whole(self.width)} over the outer {kind}", whole(self.width))
        text = next((w for w in words if text_width_mm(w, 3.5, 600) <= self.width / n - 2.0), words[-1])
        found.append(Dimension(a=(0.0, y), b=(self.width, y), text=text, offset_mm=-8.0, kind="overall"))
        found += under_the_sill(self.places, 0.0, self.datum, n)
        return (*found, *under_names(self.places, 0.0, self.datum, self.posts_drawn(), n))

    def _opened(self) -> list[tuple[float, float]]:
        """From and to of doors, windows and the openings of sheets whose places are known [mm]."""
        found = [(o.x_mm, o.x_mm + o.width_mm) for o in openings_of(self.design, self.side)]
        if self.places is not None and not self.places.why:
            found += [(o.left_mm, o.left_mm + o.width_mm) for o in self.places.openings]
        return found

    def _heights(self) -> Iterator[Primitive]:
        """Clear under the beam and the roof line over it at the left, the roof line at the head at the right."""
        shape, n = self.design.shape, self.n
        if shape.head_height_mm is None or shape.eaves_height_mm is None:
            return
        edge, clear = -6.0 * n, self.design.setting_out.clear_height_mm
        top = shape.rise_mm if self.side == "front" else 0.0
        there = "the beam face" if self.side == "front" else head_called(self.design.job)
        line = whole(self.datum - top)
        if clear is not None and self.side == "front":
            low = self.levels[1]
            yield self._upright(
                (edge, low + clear), (edge, low), 2.0, (f"{whole(clear)} clear", whole(clear))
            )
        words = (f"{line} roof line at {there}", f"{line} roof line", line)
        yield self._upright((edge, self.datum), (edge, top), 9.0, words)
        if self.side == "front":
            head = whole(shape.head_height_mm)
            words = (f"{head} roof line at {head_called(self.design.job)}", f"{head} roof line", head)
            x = self.width + 9.0 * n
            yield self._upright((x, 0.0), (x, self.datum), 2.0, words)

    def _upright(self, a: Point, b: Point, off: float, words: tuple[str, ...]) -> Dimension:
        tall = abs(a[1] - b[1]) / self.n
        text = next((w for w in words if text_width_mm(w, 2.5) < tall - 2.0), words[-1])
        return Dimension(a=a, b=b, text=text, offset_mm=off)

    def _legs(self) -> Iterator[Primitive]:
        """How far down and along knee braces reach, in the first field that holds nothing else."""
        frame, n = self.design.job.frame, self.n
        if frame.bracing != "knee braces":
            return
        (down, along), low, opened = frame.knee_mm, self.levels[1], self._opened()
        if min(down, along) / n < LEGS_MM:
            return
        beyond = along + BESIDE_BRACE_MM * n
        for a, b in self.fields():
            free = not any(x1 < a.right + beyond and x2 > a.right for x1, x2 in opened)
            if free and along + beyond < b.left - a.right and (self.places is None or not self.places.why):
                # Beyond the brace, so that it runs through neither.
                x, y = a.right + along + 4.4 * n, low + down + 4.4 * n
                yield Dimension(a=(x, low + down), b=(x, low), text=f"{down:g}", offset_mm=0.0)
                yield Dimension(a=(a.right, y), b=(a.right + along, y), text=f"{along:g}", offset_mm=0.0)
                return

    def names(self) -> tuple[Primitive, ...]:
        """Numbers of bays and posts, the beam; the rest in the key."""
        return (*self._bays(), *self._beam_name(), *self._post_names())

    def key(self) -> Pinned:
        """Under its sizes."""
        rows = (*table_rows(self.design, self.side), *text_rows(self.words(), KEY_MM))
        return under(self.sizes(), rows, 0.0, self.n)

    def _beam_words(self) -> str:
        """What the beam is; nothing where the job does not name it."""
        beam = self.beam
        if beam is None:
            return ""
        name = "beam" if self.side == "front" else "head beam"
        return (
            f"{name} {beam.size_mm[0]:g} × {beam.size_mm[1]:g}{metal_words(self.design.parts.beam_section)}"
        )

    def _beam_name(self) -> Iterator[Primitive]:
        """In the beam, in the middle of its first field, where it is high enough on paper."""
        words, (top, low) = self._beam_words(), self.levels
        if not words or (low - top) / self.n < NAMED_MM:
            return
        edges = [0.0, *(post.middle for post in self.posts), self.width]
        for a, b in pairwise(edges):
            if (b - a) / self.n >= text_width_mm(words, 2.5) + 4.0:
                text = Text(at=(0.0, 1.25), text=words, anchor="middle")
                yield Pinned(at=((a + b) / 2.0, (top + low) / 2.0), content=(text,))
                return

    def _bays(self) -> Iterator[Primitive]:
        """A number in a circle for each bay; a line in words where they are too narrow."""
        (top, low), bays = self.band(), self.design.setting_out.plane.bays
        narrow = min(bay.outline_mm[1][0] - bay.outline_mm[0][0] for bay in bays) / self.n
        if self.side == "back":
            return
        if narrow < LEAST_BAY_MM:
            words = Text(at=(0.0, -2.0), text=f"bays 1 to {len(bays)} from the left", anchor="middle")
            yield Pinned(at=(self.width / 2.0, top), content=(words,))
            return
        inside = (low - top) / self.n >= BAND_MM
        h = 3.5 if inside and narrow >= 12.0 and (low - top) / self.n >= 11.0 else 2.5
        y = (top + low) / 2.0 if inside else top - 4.2 * self.n
        for bay in bays:
            (x1, _), (x2, _), (x3, _), (x4, _) = bay.outline_mm
            yield bay_number(((x1 + x2 + x3 + x4) / 4.0, y), str(bay.number), h)

    def _post_names(self) -> Iterator[Primitive]:
        """Number of each post, as on its ticket, beside it."""
        design = self.design
        frame = frame_of(design.job, design.shape, design.parts, design.setting_out)
        of_row = frame.posts if self.side == "front" else frame.head_posts[::-1]
        n = self.n
        stands = (*self.braces(), *self._closed(), *self.posts_drawn())
        for post, named in zip(self.posts, of_row, strict=True):
            words = f"PO{named.number}{self._foot_words(post)}"
            text = Text(at=(0.0, 0.0), text=words, turn_deg=90.0, halo=True)
            beside = (post.right + 4.1 * n, post.left - 1.6 * n)
            choices = [
                Pinned(at=(x, post.foot - up * n), content=(text,))
                for up in (2.5, 12.0, 21.0)
                for x in beside
            ]
            yield first_free(choices, stands, n)

    def _closed(self) -> tuple[Primitive, ...]:
        """Side sheets, doors and windows with their labels."""
        design, side, n, braces = self.design, self.side, self.n, self.braces()
        found = (*side_sheets(self.places, 0.0, n), *sheet_labels(self.places, 0.0, n, braces))
        if not self.known:
            return found
        doors = door_labels(design, side, 0.0, self.datum, n, braces)
        return (*found, *door_lines(design, side, 0.0, self.datum), *doors)

    def _foot_words(self, post: Stood) -> str:
        """The level of a foot that is not at the datum."""
        level = self.datum - post.foot
        if not self.known or abs(level) < 0.5:
            return ""
        return f", foot {'+' if level > 0.0 else '−'}{whole(abs(level))}"

    def words(self) -> Iterator[str]:
        """What the drawing has no room to say."""
        frame, parts = self.design.job.frame, self.design.parts
        if not self.known:
            yield "Heights are not known: give head or eaves height."
        words, beam = self._beam_words(), self.beam
        if beam is not None:
            joints = sorted(self.joints(beam))
            where = (
                f", joined over the post{'s' if len(joints) > 1 else ''} at {', '.join(map(half, joints))}"
            )
            yield f"{words[0].upper()}{words[1:]}{where if joints else ''}."
        if self.posts and frame.post_mm is not None:
            b, h = frame.post_mm
            pads = (
                ""
                if frame.pad_mm is None
                else f", pads {' × '.join(f'{mm:g}' for mm in frame.pad_mm)} (dashed)"
            )
            yield f"PO posts {b:g} × {h:g}{metal_words(parts.post_section)}{pads}."
        yield from self._brace_words()
        clear = self.datum - self.levels[1]
        for o in openings_of(self.design, self.side):
            if self.known and o.sill_mm + o.height_mm > clear + 0.5:
                over = o.sill_mm + o.height_mm - clear
                yield f"The {o.kind} reaches {whole(over)} higher than the underside of the beam: it does not fit."
        yield from (f"A brace crosses the {o.kind}: move one of them." for o in self.in_the_way())
        if self.places is not None:
            yield from side_words(self.design, self.places)
        if parts.gutter is not None and self.side == "front":
            yield f"Gutter {parts.gutter.width_mm:g} in outline."

    def in_the_way(self) -> Iterator[Opening]:
        """Doors and windows that a brace crosses."""
        lines = [(p.a, p.b) for p in self.braces() if isinstance(p, Line)]
        for o in openings_of(self.design, self.side):
            box = rectangle(*opening_box(o, 0.0, self.datum))
            if self.known and any(touch(box, line, 1.0) for line in lines):
                yield o

    def _brace_words(self) -> Iterator[str]:
        """What holds the row upright."""
        frame = self.design.job.frame
        if frame.bracing is None and frame.bracing_kn is not None and self.posts:
            yield f"The row is held upright by what is declared, {frame.bracing_kn:g} kN: it is not drawn."
        elif frame.bracing is None and self.posts:
            yield "What holds the row upright the job does not say: it is not drawn."
        if frame.bracing == "knee braces":
            down, along = frame.knee_mm
            yield (
                f"Knee braces {down:g} down the post, {along:g} along the beam, from faces, two in each field; "
                f"{bolt_words(self.design)}."
            )
        if frame.bracing == "diagonal":
            yield "One diagonal, in the widest field, either way."
        if frame.bracing == "fixed feet":
            yield "The feet of the posts are held against turning along the row."
