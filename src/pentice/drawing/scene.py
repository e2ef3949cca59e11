"""A drawing as frozen primitives that know no file format.

x runs right and y runs DOWN, in mm: of the thing itself (a model, drawn 1:1) or of paper. The wall is at
the top of a plan. Lettering, symbols and offsets of dimensions are always mm of paper, also in a model: a
View places them, a DXF multiplies them. Angles are degrees, turned anticlockwise as seen; lettering turned
90 reads from the right-hand side.
"""

from __future__ import annotations

from dataclasses import dataclass

Point = tuple[float, float]
"""x to the right, y down [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """An upright rectangle: its four edges [mm], y down."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """Width [mm]."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Height [mm]."""
        return self.bottom - self.top

    @property
    def centre(self) -> Point:
        """The middle."""
        return ((self.left + self.right) / 2, (self.top + self.bottom) / 2)

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Corners, clockwise as seen from the top left."""
        return (
            (self.left, self.top),
            (self.right, self.top),
            (self.right, self.bottom),
            (self.left, self.bottom),
        )

    def grown(self, by_mm: float) -> Box:
        """The box with every edge moved out by ``by_mm``."""
        return Box(
            left=self.left - by_mm, top=self.top - by_mm, right=self.right + by_mm, bottom=self.bottom + by_mm
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A straight line."""

    a: Point
    b: Point
    style: str = "wide"
    colour: str = "ink"


@dataclass(frozen=True, slots=True, kw_only=True)
class Polyline:
    """A line through points, closed or open; never filled (see Area)."""

    points: tuple[Point, ...]
    closed: bool = False
    style: str = "wide"
    colour: str = "ink"


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A circle; ``fill`` is a colour name or nothing, ``style`` may be empty for no outline."""

    centre: Point
    radius: float
    style: str = "wide"
    colour: str = "ink"
    fill: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Arc:
    """Part of a circle, anticlockwise as seen from ``start_deg`` to ``end_deg``; 0 is to the right."""

    centre: Point
    radius: float
    start_deg: float
    end_deg: float
    style: str = "wide"
    colour: str = "ink"


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """One line of lettering standing on the point ``at``. ``halo`` puts white round the letters."""

    at: Point
    text: str
    h_mm: float = 2.5
    weight: int = 400
    anchor: str = "start"
    turn_deg: float = 0.0
    halo: bool = False
    colour: str = "ink"


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """A filled outline. ``fill`` is a colour or a hatch by name; ``style`` draws the outline, empty for none."""

    points: tuple[Point, ...]
    fill: str = "white"
    holes: tuple[tuple[Point, ...], ...] = ()
    style: str = ""
    colour: str = "ink"


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """A true linear dimension from ``a`` to ``b``; the value is ``text``.

    ``offset_mm`` (of paper) is how far the line stands off, positive to the left of the way from a to b as
    seen (above, when b is to the right). ``axis`` measures "along" a to b, or only its "x" or "y" part.
    ``kind`` is "chain" (for comparing) or "overall" (outermost, larger).
    """

    a: Point
    b: Point
    text: str
    offset_mm: float = 10.0
    axis: str = "along"
    kind: str = "chain"
    colour: str = "ink"


@dataclass(frozen=True, slots=True, kw_only=True)
class Running:
    """Running dimensions: every stop is read from one origin, where the tape hooks.

    ``stops`` are (distance [mm], text). ``ahead`` is the direction of the tape, a unit vector along x or y.
    ``offset_mm`` as in Dimension. ``noun`` stands after the last stop.
    """

    origin: Point
    stops: tuple[tuple[float, str], ...]
    ahead: Point = (1.0, 0.0)
    offset_mm: float = 10.0
    h_mm: float = 3.5
    weight: int = 700
    noun: str = ""
    colour: str = "ink"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pinned:
    """A symbol in mm of paper, pinned with its own (0, 0) at a point of the drawing."""

    at: Point
    content: tuple[Primitive, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Primitives that belong together. ``part`` names the part of the roof; ``clip`` hides what is outside."""

    content: tuple[Primitive, ...]
    part: str = ""
    title: str = ""
    clip: Box | None = None


Primitive = Line | Polyline | Circle | Arc | Text | Area | Dimension | Running | Pinned | Group


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """A whole drawing: its primitives, a title, and a sentence that says what is to be seen (for those who
    cannot see).

    ``scale`` is n of 1:n for a model that will be printed so (it sizes lettering in a DXF); 1 for paper.
    """

    primitives: tuple[Primitive, ...]
    title: str
    desc: str
    scale: float = 1.0
