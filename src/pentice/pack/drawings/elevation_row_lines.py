"""Lines of the front, or the back of a free-standing roof, as seen from outside: ground, roof, posts, beam, braces.

Seen from the back left and right change places: x counts from the side's own left end.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from pentice.design import Design
from pentice.drawing.scene import Area, Circle, Line, Point, Polyline, Primitive
from pentice.frame.side_places import SidePlaces, row_seen
from pentice.frame.stage import frame_of
from pentice.frame.values import EavesBeam
from pentice.pack.drawings.elevation_parts import Stood, post_lines
from pentice.pack.drawings.frame_lines import (
    beam_bottom,
    beam_top,
    floor_y,
    ground_lines,
    gutter_top,
    head_beam_outline,
)
from pentice.pack.drawings.plan import section_bay
from pentice.pack.drawings.slope import SEAT_MM, lengths_of, slope_of
from pentice.pack.drawings.values import rectangle
from pentice.setting_out.side_frames import Place


@dataclass(frozen=True, slots=True, kw_only=True)
class RowLines:
    """One row of posts with its beam, its left end at x 0."""

    design: Design
    side: Place
    n: float
    places: SidePlaces | None

    @property
    def width(self) -> float:
        """Over the outer rafters [mm]."""
        return self.design.shape.width_mm

    @property
    def known(self) -> bool:
        """Whether heights are known."""
        return self.design.shape.head_height_mm is not None

    @property
    def datum(self) -> float:
        """The datum mark, or where the drawing ends."""
        return floor_y(self.design)

    @property
    def levels(self) -> tuple[float, float]:
        """Top and underside of the beam below the roof line at the head [mm]."""
        if self.side == "front":
            return beam_top(self.design), beam_bottom(self.design)
        ys = [y for _, y in head_beam_outline(self.design)] or [0.0]
        return min(ys), max(ys)

    @property
    def beam(self) -> EavesBeam | None:
        """The beam over the posts; None where the job does not name it."""
        design = self.design
        frame = frame_of(design.job, design.shape, design.parts, design.setting_out)
        return frame.beam if self.side == "front" else frame.head_beam

    @property
    def posts(self) -> tuple[Stood, ...]:
        """From left to right."""
        size = self.design.job.frame.post_mm
        if size is None:
            return ()
        return tuple(
            Stood(
                left=x - size[0] / 2.0,
                right=x + size[0] / 2.0,
                top=self.levels[1],
                foot=self.datum - (foot if self.known else 0.0),
            )
            for x, foot in row_seen(self.design.job, self.design.shape, self.side)
        )

    def x(self, x_mm: float) -> float:
        """A place from the outer face of the left rafter as it is seen from this side."""
        return x_mm if self.side == "front" else self.width - x_mm

    def ground(self) -> tuple[Primitive, ...]:
        """Straight between the feet of the posts."""
        if not self.known:
            return ()
        feet = [(post.middle, post.foot) for post in self.posts] or [(self.width / 2.0, self.datum)]
        left, right = -10.0 * self.n, self.width + 10.0 * self.n
        return ground_lines(((left, feet[0][1]), *feet, (right, feet[-1][1])), self.n)

    def roof(self) -> tuple[Primitive, ...]:
        """From the front the whole slope with its bars, from the back its head alone; rafters' ends under it."""
        design, slope = self.design, slope_of(self.design)
        plane, over = design.setting_out.plane, SEAT_MM + design.parts.sheet.depth_mm
        top, low = self.band()
        found: list[Primitive] = [
            Area(points=rectangle(0.0, top, self.width, low), fill="white", style="wide")
        ]
        if self.side == "front":
            for rafter in plane.rafters:
                wide = design.parts.bar.seat_mm if rafter.has_bar else 0.0
                for edge in {-wide / 2.0, wide / 2.0}:
                    a = (rafter.centre_head_mm + edge, top)
                    found.append(Line(a=a, b=(rafter.centre_foot_mm + edge, low), style="narrow"))
            end = lengths_of(design, section_bay(design).number).end
            foot = slope.at(end, -2.0)[1]
            found.append(
                Area(
                    points=rectangle(0.0, slope.at(end, over)[1], self.width, foot),
                    fill="white",
                    style="wide",
                )
            )
        return (*self._rafters(), *found)

    def band(self) -> tuple[float, float]:
        """Top and foot of the sheets as seen [mm]."""
        design, slope = self.design, slope_of(self.design)
        place = lengths_of(design, section_bay(design).number)
        over = SEAT_MM + design.parts.sheet.depth_mm
        if self.side == "front":
            return -over, slope.at(place.end, over)[1]
        leg = design.parts.head_profile.leg_mm or 40.0
        return -over, leg - over

    def _rafters(self) -> Iterator[Primitive]:
        """Ends of the rafters on the beam."""
        line = self.design.shape.rise_mm if self.side == "front" else 0.0
        for rafter in self.design.setting_out.plane.rafters:
            centre = rafter.centre_foot_mm if self.side == "front" else rafter.centre_head_mm
            x = self.x(centre)
            corners = rectangle(x - rafter.width_mm / 2.0, line, x + rafter.width_mm / 2.0, self.levels[0])
            yield Area(points=corners, fill="white", style="narrow")

    def frame(self) -> tuple[Primitive, ...]:
        """Beam with its joints, and posts with their pads."""
        found = [*self.posts_drawn()]
        beam, (top, low) = self.beam, self.levels
        if beam is not None:
            found.append(Area(points=rectangle(0.0, top, self.width, low), fill="white", style="wide"))
            for x in self.joints(beam):
                found.append(Line(a=(x, top), b=(x, low), style="wide"))
        return tuple(found)

    def posts_drawn(self) -> tuple[Primitive, ...]:
        """The posts with bases and pads."""
        pad = self.design.job.frame.pad_mm
        seen = None if pad is None else (pad[0], pad[2])
        return tuple(line for post in self.posts for line in post_lines(post, seen, self.n))

    def joints(self, beam: EavesBeam) -> tuple[float, ...]:
        """Where the beam is joined."""
        return tuple(self.x(b) for _, b in beam.parts_mm[:-1])

    def fields(self) -> tuple[tuple[Stood, Stood], ...]:
        """Each two posts beside one another."""
        return tuple(pairwise(self.posts))

    def braces(self) -> tuple[Primitive, ...]:
        """Knee braces by their middle lines, two in each field, or one diagonal in the widest."""
        frame, n = self.design.job.frame, self.n
        lines: list[tuple[Point, Point]] = []
        if frame.bracing == "knee braces":
            down, along = frame.knee_mm
            low = self.levels[1]
            for a, b in self.fields():
                lines.append(((a.right, low + down), (a.right + along, low)))
                lines.append(((b.left, low + down), (b.left - along, low)))
        elif frame.bracing == "diagonal" and self.fields():
            a, b = self._widest()
            lines.append(((a.middle, a.foot), (b.middle, sum(self.levels) / 2.0)))
        found: list[Primitive] = []
        for one, other in lines:
            found.append(Line(a=one, b=other, style="extra wide"))
            found += [Circle(centre=end, radius=0.7 * n, style="", fill="ink") for end in (one, other)]
        return tuple(found)

    def _widest(self) -> tuple[Stood, Stood]:
        """The first of the widest fields, counted from the left end of the roof."""
        fields = self.fields() if self.side == "front" else self.fields()[::-1]
        return max(fields, key=lambda field: round(field[1].middle - field[0].middle, 3))

    def gutter(self) -> tuple[Primitive, ...]:
        """Its outline, with its outlets, over what is behind it."""
        gutter, design = self.design.parts.gutter, self.design
        if gutter is None or self.side == "back":
            return ()
        y = gutter_top(design, section_bay(design).number)
        deep = gutter.width_mm / 2.0 if gutter.shape == "half round" else gutter.depth_mm
        found: list[Primitive] = [
            Polyline(points=rectangle(0.0, y, self.width, y + deep), closed=True, style="wide")
        ]
        for x in design.job.gutter.outlets_at_mm:
            r = gutter.outlet_mm / 2.0
            corners = rectangle(x - r, y + deep, x + r, y + deep + 2.0 * self.n)
            found.append(Polyline(points=corners, closed=True, style="narrow"))
        return tuple(found)

    def low(self) -> float:
        """The lowest level of the ground, or where the drawing ends."""
        return max([self.datum, *(post.foot for post in self.posts)])
