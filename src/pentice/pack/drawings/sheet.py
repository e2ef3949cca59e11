"""The A3 setting-out sheets: plan largest, section right, details along the foot.

Where bays would be too narrow to read beside the section, the plan has a sheet of its own.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from pentice.design import Design
from pentice.drawing.free import first_free
from pentice.drawing.furniture import north_arrow, scale_bar
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.page import SCALES, View
from pentice.drawing.placed import on_paper
from pentice.drawing.scene import Box, Group, Line, Primitive, Scene, Text
from pentice.drawing.sketch import extent
from pentice.errors import NoSolution
from pentice.pack.drawings.bar_detail import bar_detail
from pentice.pack.drawings.details import foot_detail, wall_detail
from pentice.pack.drawings.plan import plan_model, section_bay
from pentice.pack.drawings.section import section_model
from pentice.setting_out.values import Plane

LEFT, TOP, RIGHT = 26.0, 16.0, 407.0
TITLE_MM = 12.0
"""From the top of a view's title to its drawing."""
RIGHT_FOOT = 196.0
"""Lowest line over the title block and the cautions."""
BESIDE_MM = 226.0
"""Right end of what may stand beside the title block."""
LEAST_BAY_MM = 15.0
"""Narrower bays on paper get a sheet of their own: judgement."""
PLAN_NOTE = "Hook the tape once, at the left end, and mark every centre from there."
Model = Callable[[Design, float], Scene]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One A3 sheet: everything but its title block and cautions."""

    scene: Scene
    scales: str
    plan_scale: float


def setting_out_sheets(design: Design) -> tuple[Sheet, ...]:
    """The sheets of the setting-out drawing.

    Parameters
    ----------
    design
        A solved job.

    Raises
    ------
    NoSolution
        The roof is too large for A3 even at 1:100.
    """
    details, row, (n, m), one = _fitted(design)
    if one:
        return (_sheet(design, (n, m), details, row),)
    if 284.0 - row - 5.0 >= RIGHT_FOOT:
        return (_plan_sheet(design, n, details, row), _section_sheet(design, m))
    return (_plan_sheet(design, n), _section_sheet(design, m, details, row))


def scales_of(design: Design) -> tuple[float, float]:
    """The scales, n of 1:n, of plan and section.

    Parameters
    ----------
    design
        A solved job.

    Raises
    ------
    NoSolution
        The roof is too large for A3 even at 1:100.
    """
    return _fitted(design)[2]


def _fitted(design: Design) -> tuple[tuple[Scene, ...], float, tuple[float, float], bool]:
    """The details, the height of their row, the scales of plan and section, and whether all stand on one sheet."""
    details = (wall_detail(design), foot_detail(design), bar_detail(design))
    row = _row_height(details)
    together = _together(design, row)
    if together is not None:
        return details, row, together, True
    plan = _largest(plan_model, design, (RIGHT - LEFT, RIGHT_FOOT - TOP - TITLE_MM))
    # Alone on its sheet the section may go down beside the title block; over a row of details it may not.
    low = 284.0 if 284.0 - row - 5.0 >= RIGHT_FOOT else 284.0 - row - 5.0
    beside = (BESIDE_MM - LEFT, low - TOP - TITLE_MM)
    over = (RIGHT - LEFT, min(low, RIGHT_FOOT) - TOP - TITLE_MM)
    section = _largest(section_model, design, beside, over)
    return details, row, (plan, section), False


def _row_height(details: tuple[Scene, ...]) -> float:
    return max(size_on_paper(d).height for d in details) + TITLE_MM


def size_on_paper(model: Scene) -> Box:
    """Bounds of a model on paper, its own (0, 0) at (0, 0)."""
    return extent(on_paper(model.primitives, View(scale=model.scale, origin=(0.0, 0.0))))


def _narrowest(plane: Plane) -> float:
    return min(bay.outline_mm[1][0] - bay.outline_mm[0][0] for bay in plane.bays)


def _together(design: Design, row_mm: float) -> tuple[float, float] | None:
    """Scales of plan and section that go on one sheet, the plan as large as it can be."""
    bottom = 284.0 - row_mm - 5.0
    for n in (s for s in SCALES if s >= 10.0):
        if _narrowest(design.setting_out.plane) / n < LEAST_BAY_MM:
            return None
        plan = size_on_paper(plan_model(design, n))
        if plan.height > bottom - TOP - TITLE_MM or plan.width > 250.0:
            continue
        wide = plan.width > BESIDE_MM - LEFT
        if wide and plan.height > RIGHT_FOOT - TOP - TITLE_MM:
            continue
        for m in (s for s in SCALES if s >= n / 2.0 and s >= 10.0):
            section = size_on_paper(section_model(design, m))
            x = _section_left(plan.width, section.width)
            foot = bottom if x < BESIDE_MM else RIGHT_FOOT
            fits = x >= LEFT + plan.width + 7.0 and section.height <= foot - TOP - TITLE_MM
            if fits and m <= 2.0 * n:
                return n, m
    return None


def _section_left(plan_mm: float, section_mm: float) -> float:
    """Where the section begins: in the middle of what the plan leaves, right of the details where it can."""
    beside = LEFT + plan_mm + 7.0
    middle = beside + (RIGHT - beside - section_mm) / 2
    return min(RIGHT - section_mm, max(middle, BESIDE_MM + 2.0))


def _largest(model: Model, design: Design, *rooms: tuple[float, float]) -> float:
    """The largest standard scale at which a view with its sizes fits one of the rooms, each width by height."""
    for n in (s for s in SCALES if s >= 10.0):
        box = size_on_paper(model(design, n))
        if any(box.width <= width and box.height <= height for width, height in rooms):
            return n
    raise NoSolution("The roof is too large to be drawn on A3 at 1:100. Make two jobs of it.")


def titled(model: Scene, at: tuple[float, float], note: str) -> Group:
    """A view with its title and scale over it, its bounds' top left corner at ``at``."""
    x, y = at
    box = size_on_paper(model)
    view = View(scale=model.scale, origin=(x - box.left, y + TITLE_MM - box.top))
    title = Text(at=(x, y + 5.0), text=model.title, h_mm=5.0, weight=700)
    scale = f"1:{model.scale:g}" + (f". {note}" if note else "")
    words = Text(at=(x, y + 9.6), text=scale, h_mm=2.5)
    return Group(content=(*on_paper(model.primitives, view), title, words), part=model.title)


def _sheet(design: Design, scales: tuple[float, float], details: tuple[Scene, ...], row_mm: float) -> Sheet:
    n, m = scales
    plan, section = plan_model(design, n), section_model(design, m)
    beside = LEFT + size_on_paper(plan).width + 7.0
    x = _section_left(size_on_paper(plan).width, size_on_paper(section).width)
    content: list[Primitive] = [
        titled(plan, (LEFT, TOP), PLAN_NOTE),
        titled(section, (x, TOP), _section_note(design)),
        *_row(details, 284.0 - row_mm, BESIDE_MM),
        *scale_marks(n),
    ]
    content += _north(design, max(beside - 16.0, _note_end(LEFT, n)), content)
    return Sheet(scene=_scene(design, content), scales=_words(n, m), plan_scale=n)


def _plan_sheet(design: Design, n: float, details: tuple[Scene, ...] = (), row_mm: float = 0.0) -> Sheet:
    plan = plan_model(design, n)
    spare = RIGHT - LEFT - size_on_paper(plan).width
    content: list[Primitive] = [
        titled(plan, (LEFT + spare / 2, TOP), PLAN_NOTE),
        *(_row(details, 284.0 - row_mm, BESIDE_MM) if details else ()),
        *scale_marks(n),
    ]
    content += _north(design, max(RIGHT - spare / 2 - 14.0, _note_end(LEFT + spare / 2, n)), content)
    return Sheet(scene=_scene(design, content), scales=_words(n, details=bool(details)), plan_scale=n)


def _section_sheet(design: Design, m: float, details: tuple[Scene, ...] = (), row_mm: float = 0.0) -> Sheet:
    section = section_model(design, m)
    narrow = size_on_paper(section).width <= BESIDE_MM - LEFT
    spare = (BESIDE_MM if narrow else RIGHT) - LEFT - size_on_paper(section).width
    content = [
        titled(section, (LEFT if details else LEFT + spare / 2, TOP), _section_note(design)),
        *(_row(details, 284.0 - row_mm, BESIDE_MM) if details else ()),
        *scale_marks(m),
    ]
    return Sheet(scene=_scene(design, content), scales=_words(m, details=bool(details)), plan_scale=m)


def _section_note(design: Design) -> str:
    return f"Through bay {section_bay(design).number}, looking right."


def _words(*scales: float, details: bool = True) -> str:
    sizes = dict.fromkeys((*scales, *((5.0, 2.0) if details else ())))
    return ", ".join(f"1:{s:g}" for s in sizes) if len(sizes) < 4 else "see each view"


def _row(details: tuple[Scene, ...], top: float, right: float) -> tuple[Primitive, ...]:
    """The details side by side along the foot, under a rule."""
    widths = [size_on_paper(d).width for d in details]
    gap = max(1.0, (right - LEFT - sum(widths)) / (len(details) - 1))
    notes = ("", "", "Cut across the bar.")
    found: list[Primitive] = [Line(a=(20.0, top - 2.5), b=(right + 2.0, top - 2.5), style="narrow")]
    x = LEFT
    for detail, width, note in zip(details, widths, notes, strict=True):
        found.append(titled(detail, (x, top), note))
        x += width + gap
    return tuple(found)


def scale_marks(n: float) -> tuple[Primitive, ...]:
    """Scale bar in the title block's last row."""
    found: list[Primitive] = [
        scale_bar((234.0, 275.4), n, 20.0 * n),
        Text(at=(234.0, 285.0), text="Print at 100 %: this bar is 80 mm long.", h_mm=1.8),
    ]
    return tuple(found)


def _north(design: Design, x: float, stands: Sequence[Primitive]) -> tuple[Primitive, ...]:
    """North beside the plan's title, where the job says which way the roof falls."""
    fall = design.job.site.orientation_deg
    if fall is None:
        return ()
    places = [(x + right, TOP + 5.0) for right in (0.0, 5.0, 10.0, 15.0, 20.0) if x + right < RIGHT - 6.0]
    arrows = [north_arrow(at, (180.0 - fall) % 360.0, 3.5) for at in places or [(x, TOP + 5.0)]]
    return (first_free(arrows, stands, 1.0),)


def _note_end(left: float, n: float) -> float:
    """Right of the plan's note, with room for the ring and its letter."""
    return left + text_width_mm(f"1:{n:g}. {PLAN_NOTE}", 2.5) + 10.0


def _scene(design: Design, content: list[Primitive]) -> Scene:
    shape = design.shape
    desc = (
        f"Setting-out drawing of a roof {shape.width_mm:.0f} wide and {shape.projection_mm:.0f} out from the wall, "
        f"{len(design.setting_out.plane.bays)} bays, {shape.pitch_deg:.1f} degrees."
    )
    return Scene(primitives=tuple(content), title="Setting-out", desc=desc)
