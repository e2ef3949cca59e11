"""The last pages: what an engineer is asked, with the forces that arrive, and what to ask the authorities."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pentice.checks.values import Check
from pentice.checks.walls import CALLED
from pentice.design import Design
from pentice.job.called import along, head_called
from pentice.job.fields import WALLS
from pentice.job.found import cautions
from pentice.loads.wind import open_sides
from pentice.pack.calculations.figures import minus, place_words, with_unit
from pentice.pack.drawings.elevation import crossed_by_braces
from pentice.pack.paper import blocks as b
from pentice.pack.words import listed
from pentice.setting_out.side_frames import at_the_house_wall, side_frames

ENGINEER = "For the engineer"
ENQUIRY = "Enquiry"

_PASSED_ON = (
    "wall-fixings", "hanger-down", "hanger-up", "rafter-tie", "post-tie", "post-base", "pad-uplift", "pad-pressure",
    "pad-turning", "pad-sliding", "hanger-level", "rafter-tie-level", "rafter-tie-head-level", "post-tie-level",
    "post-base-level",
    "bracing", "purlin-ends", "rafter-tie-head", "head-bracing", "bracing-across", "knee-head", "knee-rafter-tie",
    "bar-web", "mullion-ends", "transom-ends", "sill-fixings", "rafter-sideways",
)  # fmt: skip
"""Checks whose demand somebody needs who designs a joint, a base or the ground."""
_ON_A_WALL = (
    "The wall carries what its fixings bring: its masonry or studs were not calculated.",
    "The roof plane is no diaphragm: of what pushes along the wall the plate takes half, the row of posts half.",
    "Rafters, or bars in their place, hang at the wall and rest on the beam.",
    "Supports do not give; a joint of the beam carries no moment.",
    "Every post has the same share of the push along the wall.",
)
_BARS = "What the bars' webs bear over their bearings is their supplier's to state: it was not calculated."
_ENDS = (
    "End rafters give sideways in wind on a closed end: what bite the sheet beside them loses was not calculated.",
)
_FRONT = "What else stands between the posts of a closed front was not calculated."
_MULLIONS = "Mullions bear no roof: heads held level, room for the rafter to sag."
_UNDER_BEAM = (
    "Mullions of a front leave the beam over them room to sag; what they bring to it level goes on through the rafters "
    "beside them."
)
_FOOT_OF_FRONT = "What side sheets and mullions of a front stand on was not calculated."
_NO_MULLIONS = "Mullions are not named: none is calculated or ordered. Give frame.mullion_mm."
_SILLS = "Sills lie on floor, kerb or wall all along."
_AT_THE_WALL = "What holds a side sheet's profile at the house wall, screws and plugs, was not calculated."
_NO_SILLS = "What the side sheets stand on is not named and was not calculated: frame.sill_mm names a sill."
_FREE = (
    "The roof plane is no diaphragm: of what pushes along the eaves each row of posts takes half.",
    "Rafters, or bars in their place, rest on both beams.",
    "Supports do not give; a joint of a beam carries no moment.",
    "What wind pushes level across is held by either row of posts or by both: beams and ties take the worse.",
    "Every post of a row has the same share of the push along the eaves.",
)
_KNEES = (
    "Knee braces across: feet turn freely; middle lines of post, brace and rafter cross.",
    "Of the push across a pair of posts takes the most that stiff beams, stiff posts or its own fields would give it.",
)
_BOLTS = (
    "Knee braces: what they hold is declared, their own holes with it. Holes of their bolts are taken off posts, beams "
    "and rafters that they bend or pull, as many side by side as fit, and off posts and rafters that are sheared "
    "across; braces both ways have no holes at one height.",
    "Knee braces: bolts that slip and play let the frame sway; sheets brace nothing, and how far these follow is open.",
)
_WHY_ASKED = {
    True: "EN 1991-1-4 has none for closed sides beside an open one.",
    False: "The roof's own wind coefficients leave its walls out.",
}
"""Why the wind on closed walls is asked for: beside an open side, or not."""
TAKEN = (
    "Joints pushed level and lifted at once: both shares are added, all at its greatest; no noggin passes anything on.",
    "Joints within a beam or a plate were not calculated for what goes level along it.",
    "How far a row sways is calculated for knee braces and for feet held against turning, not for a diagonal.",
    "What leaning adds to the push along a row, or at held feet, is left out where it is less than a ninth of it.",
    "Declared resistances are taken as design values, as their papers say: load duration and timber included.",
    "Ground beside a pad is not counted. Frost depth, trees, drains and fill were not looked at.",
)
"""What every calculation here takes for granted: judgement, no source."""


def engineer(design: Design, rules: Sequence[Check]) -> Iterator[b.Block]:
    """What is open, what is taken for granted, and what arrives at joints, bases and ground.

    Parameters
    ----------
    design
        A solved job.
    rules
        The worst check of each rule.

    Yields
    ------
    Block
        A page to send with the rest, with boxes for the answer.
    """
    open_ = [
        (c.name, place_words(c.place) or "the whole roof", _known(c))
        for c in rules
        if c.verdict in ("fails", "refused", "not checked")
    ]
    open_ += [(f"A brace crosses the {o.kind}", o.wall, _CROSSED) for o in crossed_by_braces(design)]
    yield b.heading("Open questions", above_mm=0.0)
    if open_:
        yield b.table(
            ("Question", "Where", "What is known"),
            open_,
            widths=(50.0, 28.0, "1fr"),
            bold_columns=(0,),
        )
    else:
        yield b.paragraph(
            "None: every requirement holds. Values marked typical on page 1 are still to be replaced; joints must hold "
            "what arrives below."
        )
    arrives = [c for c in rules if c.id in _PASSED_ON and c.demand is not None]
    if arrives:
        yield b.heading("What arrives, at its worst place, design values")
        yield b.table(
            ("At", "Where", "Force", "Case"),
            [(c.name, place_words(c.place) or "each", _force(c), minus(c.case)) for c in arrives],
            widths=(50.0, 22.0, 34.0, "1fr"),
            row_mm=1.2,
        )
    yield b.heading("Taken for granted")
    bars = (_BARS,) if design.parts.bar.carries else ()
    frame = design.job.frame
    braced = "knee braces" in (frame.bracing, frame.bracing_across)
    knees = (*(_KNEES if frame.bracing_across == "knee braces" else ()), *(_BOLTS if braced else ()))
    yield b.bullets(
        (*(_ON_A_WALL if design.job.roof.attached else _FREE), *bars, *knees, *_closed(design), *TAKEN),
        h_mm=2.5,
    )
    yield b.keep(
        (
            b.heading("Answer"),
            b.fill_boxes(("checked by", "signature", "date", "remarks"), per_row=4, height_mm=14.0),
        )
    )


def _closed(design: Design) -> Iterator[str]:
    """What is taken for granted of closed ends, and of what holds their sheets."""
    job = design.job
    has_end = "closed" in (job.roof.left, job.roof.right)
    if has_end:
        yield from _ENDS
    if job.roof.front == "closed" and (has_end or job.site.side_wind is not None):
        yield _FRONT
    if job.side_sheets:
        yield from _of_sheets(design)


def _of_sheets(design: Design) -> Iterator[str]:
    """What is taken for granted of mullions and sills."""
    job, frames = design.job, side_frames(design.job, design.shape)
    sides = {sheet.side for sheet in job.side_sheets}
    if at_the_house_wall(job, design.shape):
        yield _AT_THE_WALL
    said = [_MULLIONS if frames.mullions else _NO_MULLIONS] if frames.needs_mullion else []
    if sides & {"left", "right"}:
        said.append(_SILLS if frames.sills else _NO_SILLS)
    if said:
        yield " ".join(said)
    if any(mullion.side in ("front", "back") for mullion in frames.mullions):
        yield _UNDER_BEAM
    if sides & {"front", "back"}:
        yield _FOOT_OF_FRONT


_CROSSED = (
    "As drawn it stands in the opening, and whoever fits the opening will want it gone. No check sees that. Move one "
    "of them, or say what braces the row instead."
)
_SPLIT = {
    "Shear, down or up and along": "down or up and along",
    "Pull with prying": "out of the wall",
    "Passes to plate and beam, sideways": "along the wall",
    "Level here, along": "along",
    "Level here, square": "square",
    "Lifts here at once": "up",
    "Presses here at once": "down",
    "At its foot": "turning it",
    "At the foot of post": "turning it",
    "Turns the foot": "turning it",
    "Level between post, beam and rafter": "level",
    "Turns the beam over between them": "turning the beam over",
    "What lifts the rafter there at once, with leaning": "up",
}
"""How lines of the working of a share begin that hold a force or a moment that is passed on."""


def _force(check: Check) -> str:
    """The demand; of a share the forces that make it. What slides or turns a pad is its demand."""
    if check.id.startswith("pad-"):
        return with_unit(check.demand, check.unit)
    if check.unit in ("kN", "kNm") and check.verdict != "refused":
        return with_unit(check.demand, check.unit)
    parts = [
        f"{step.result:.2f} {step.unit} {words}"
        for step in check.working
        for begins, words in _SPLIT.items()
        if step.says.startswith(begins)
    ]
    return ", ".join(parts) or with_unit(check.demand, check.unit)


def _known(check: Check) -> str:
    if check.verdict == "fails" and check.demand is not None and check.capacity is not None:
        needs, has = with_unit(check.demand, check.unit), with_unit(check.capacity, check.unit)
        return f"Fails: needs {needs}, has {has}. {check.cure}"
    return check.says


def enquiry(design: Design) -> Iterator[b.Block]:
    """Questions to planning, building control and others before work starts, with room for day and answer.

    Parameters
    ----------
    design
        A solved job.

    Yields
    ------
    Block
        One table for each of those who are asked. The questions are common practice, no source.
    """
    yield b.paragraph(
        "Rules differ from place to place. Ask in writing, with the setting-out drawing, and keep the answers."
    )
    for who, questions in _questions(design):
        yield b.heading(who)
        yield b.table(
            ("Question", "Asked on", "Answered by, and what"),
            [(question, "", "") for question in questions],
            widths=("1fr", 22.0, 58.0),
            row_mm=2.6,
        )


def _questions(design: Design) -> Iterator[tuple[str, tuple[str, ...]]]:
    job, shape, site = design.job, design.shape, design.job.site
    size = f"{shape.width_mm / 1000.0:.2f} m {along(job)}, {shape.projection_mm / 1000.0:.2f} m out"
    high = (
        f", {shape.head_height_mm / 1000.0:.2f} m high at {head_called(job)}"
        if shape.head_height_mm is not None
        else ""
    )
    enclosed = job.roof.use == "lean-to"
    yield (
        "Planning",
        (
            f"A {job.roof.use} of {size}{high}: permission, or exempt? From which size on?",
            "How near to the boundary, and how high there? Is the building listed, or the place protected?",
            "Does it take light or a way out from any window, ours or the neighbour's?",
        ),
    )
    snow = design.loads.snow.ground_kn_m2
    peak = design.loads.wind.peak_pressure_kn_m2
    wind = f"peak wind pressure {peak:.2f} kN/m2" if peak is not None else "wind still open"
    control = [
        f"Ground snow {snow:.2f} kN/m2 and {wind} ({site.annex} rules): the values here? Who checks the sums?",
        "Is multiwall polycarbonate allowed as a roof so near to the boundary (fire from outside, burning drops)?",
        "Pads: which depth for frost, near trees and drains?"
        + (" May the house wall carry this roof?" if job.roof.attached else ""),
        "Rainwater: where may the downpipe run to?",
    ]
    if enclosed:
        control.append(
            "An enclosed room: heated or not, thermal door to the house, ventilation, safe glass below?"
        )
    yield "Building control", tuple(control)
    closed = _without_wind(design)
    if closed:
        yield (
            "A structural engineer",
            (
                f"Wind on the {closed}: which net pressure coefficients, inwards and outwards, at the worst place, "
                f"with {wind}? {_WHY_ASKED[site.wind_coefficients is None]} They go into the job file as "
                "site.side_wind.",
            ),
        )
    others = [f"{c.text} Ask {c.ask}." for c in cautions(job) if c.is_open]
    others += [
        "Owner, landlord, neighbour at a shared wall: consent in writing? The house insurance told?",
        "Cables and pipes in the wall and in the ground where pads go: shown by whom?",
    ]
    yield "Others", tuple(others)


def _without_wind(design: Design) -> str:
    """The closed walls whose wind nobody has given, in words."""
    job = design.job
    walls = [CALLED[wall] for wall in WALLS if getattr(job.roof, wall) == "closed"]
    asks = open_sides(job) or job.site.wind_coefficients is not None
    return listed(walls) if asks and job.site.side_wind is None else ""
