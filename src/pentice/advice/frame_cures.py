"""Changes that may cure what carries the rafters: beam, posts, pads, wall plate and its fixings."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from pentice.checks.knee_bolts import BOLTS
from pentice.design import Design

Change = tuple[str, Mapping[str, Any]]
PAD_STEP_MM = 100.0
PAD_STEPS = 6
KNEE_STEP_MM = 100.0
KNEE_STEPS = 4
_BY_KNEES = (
    "bracing-across", "knee-head", "knee-rafter-tie", "knee-bearing", "post-across", "post-across-shear",
    "post-both-ways", "post-tie", "rafter-across", "rafter-across-shear", "beam-across-bearing",
)  # fmt: skip
"""Rules that ask less where knee braces across are longer."""
MOST_BOLTS = 4
"""Most bolts at an end of a brace that are proposed: more have no room, judgement, no source."""
MOST_FASTENERS = 12
"""Most fasteners of a joint that are proposed: whether more have room nobody here knows, judgement, no source."""
_JOINTS = {
    "hanger": "hanger",
    "rafter-tie": "rafter tie",
    "rafter-tie-head": "rafter tie",
    "post-tie": "post tie",
}
"""Joints whose fasteners a job may describe, by the rule that asks what they hold."""
CLOSEST_FIXINGS_MM = 200.0
"""Closest wall fixings that are proposed; closer ones need a declared spacing: judgement, no source."""


def frame_changes(design: Design, rule: str) -> Iterator[Iterator[Change]]:
    """Kinds of change for one rule of the frame, each from the smallest step up.

    Parameters
    ----------
    design
        The solved job.
    rule
        Id of the check that fails or is refused.

    Yields
    ------
    iterator of Change
        A sentence, and values by key path. None for a member that stands already, and none where a declared value is
        what is missing.
    """
    if design.job.frame.rafter_centres_mm is not None:
        return
    frame, rule, at_head = design.job.frame, rule.removeprefix("head-"), rule.startswith("head-")
    if rule.startswith("beam"):
        own = at_head and frame.head_beam_mm is not None
        yield _thicker(design, "beam", "head_beam_mm" if own else "beam_mm", "Head beam" if own else "Beam")
        yield _one_more_post(design, "head_post" if at_head and frame.head_posts_at_mm else "post")
    if frame.bracing_across == "knee braces" and rule in _BY_KNEES:
        yield _under_rafters(design)
        yield _longer_knees(design)
    if rule in (
        "post-bowing",
        "post-pulled",
        "post-racking",
        "post-across",
        "post-both-ways",
        "post-across-shear",
        "post-walls",
        "post-walls-pulled",
    ):
        yield _thicker(design, "post", "post_mm", "Posts")
        yield _one_more_post(design)
    if rule in ("sway-along", "sway-across"):
        if (frame.bracing if rule == "sway-along" else frame.bracing_across) == "knee braces":
            yield _tighter_holes(design)
            yield _more_bolts(design)
            yield _longer_knees(design, "knee_mm" if rule == "sway-along" else "knee_across_mm")
        yield _thicker(design, "post", "post_mm", "Posts")
        yield _one_more_post(design)
    if rule.startswith("pad"):
        yield _bigger_pads(design)
        yield _one_more_post(design)
    yield from _joints(design, rule)
    if rule == "wall-plate":
        yield _thicker(design, "wall plate", "wall_plate_mm", "Wall plate")
    if rule in ("wall-plate", "wall-fixings"):
        yield _closer_fixings(design)


def _under_rafters(design: Design) -> Iterator[Change]:
    """Each post moved along its row until the nearest rafter lies wholly over it; both rows alike."""
    frame, rafters = design.job.frame, design.setting_out.plane.rafters
    if frame.post_mm is None or frame.head_posts_at_mm:
        return
    room, places = (frame.post_mm[0] - rafters[0].width_mm) / 2.0, []
    for x in frame.posts_at_mm:
        near = min((rafter.centre_foot_mm for rafter in rafters), key=lambda at: abs(at - x))
        places.append(round(min(max(x, near - room), near + room), 1))
    if room >= 0.0 and places != list(frame.posts_at_mm) and len(set(places)) == len(places):
        yield (
            f"Posts under rafters, at {', '.join(f'{x:g}' for x in places)}",
            {"frame.posts_at_mm": places},
        )


def _longer_knees(design: Design, key: str = "knee_across_mm") -> Iterator[Change]:
    """Braces that meet post and rafter, or post and beam, further from where these cross."""
    down, reach = getattr(design.job.frame, key)
    across = " across" if key == "knee_across_mm" else ""
    for k in range(1, KNEE_STEPS + 1):
        longer = [down + k * KNEE_STEP_MM, reach + k * KNEE_STEP_MM]
        yield (
            f"Knee braces{across} {longer[0]:g} down and {longer[1]:g} along instead of {down:g} and {reach:g}",
            {f"frame.{key}": longer},
        )


def _tighter_holes(design: Design) -> Iterator[Change]:
    """No play of the braces' bolts: drilled through both timbers at once."""
    hole = design.job.frame.knee_hole_mm
    if hole is None or hole > 0.0:
        yield "Holes of the knee braces' bolts no wider than the bolts", {"frame.knee_hole_mm": 0.0}


def _more_bolts(design: Design) -> Iterator[Change]:
    """More bolts at each end of a brace, one by one."""
    now = design.job.frame.knee_bolts or BOLTS
    for count in range(now + 1, MOST_BOLTS + 1):
        yield f"{count} bolts instead of {now} at each end of a knee brace", {"frame.knee_bolts": count}


def _joints(design: Design, rule: str) -> Iterator[Iterator[Change]]:
    """What a joint holds up and level, or asks less of it."""
    joint = _JOINTS.get(rule.removesuffix("-level").removesuffix("-up"))
    if joint is not None:
        yield _more_fasteners(design, joint)
    if rule in ("post-tie-level", "post-base-level"):
        if rule == "post-tie-level" and design.job.frame.bracing == "knee braces":
            yield _longer_knees(design, "knee_mm")
        yield _one_more_post(design)


def _more_fasteners(design: Design, joint: str) -> Iterator[Change]:
    """More nails, screws or bolts in a joint that the job describes, one by one, as far apart as it says."""
    described = design.job.frame.fasteners
    now = next((f for f in described if f.joint == joint), None)
    if now is None:
        return
    for count in range(now.count + 1, MOST_FASTENERS + 1):
        more = [f.model_dump(exclude_none=True) for f in described]
        more[described.index(now)]["count"] = count
        yield (
            f"{count} {now.kind}s instead of {now.count} in each {joint}, as far apart; look if they have room",
            {"frame.fasteners": more},
        )


def _thicker(design: Design, use: str, key: str, name: str) -> Iterator[Change]:
    """Sizes of the member's own timber that are nowhere smaller, the lightest first."""
    here = getattr(design.job.frame, key)
    if here is None:
        return
    b, h = here
    made = {"beam": design.parts.beam_section, "post": design.parts.post_section}.get(use)
    if made is not None:
        for other in design.catalogue.sections.values():
            alike = (other.metal, other.shape) == (made.metal, made.shape) and other.id != made.id
            if alike and other.width_mm >= b and other.depth_mm >= h and other.web_mm >= made.web_mm:
                size = [other.width_mm, other.depth_mm]
                yield f"{name}: {other.name}", {f"frame.{use}_section": other.id, f"frame.{key}": size}
        return
    for width, depth in sorted(design.parts.timber_for(use).sizes_mm, key=lambda s: s[0] * s[1]):
        if (width, depth) != (b, h) and width >= b and depth >= h:
            yield f"{name} {width:g} x {depth:g} instead of {b:g} x {h:g}", {f"frame.{key}": [width, depth]}


def _one_more_post(design: Design, row: str = "post") -> Iterator[Change]:
    """One more in a row: that of the eaves, or that of the head where it has places of its own."""
    places_key, feet_key = f"{row}s_at_mm", f"{row}_feet_mm"
    posts, feet = getattr(design.job.frame, places_key), getattr(design.job.frame, feet_key)
    if len(posts) < 2 or len(set(feet)) > 1:
        return
    count = len(posts) + 1
    places = [round(posts[0] + (posts[-1] - posts[0]) * i / (count - 1)) for i in range(count)]
    changes: dict[str, Any] = {f"frame.{places_key}": places}
    if feet:
        changes[f"frame.{feet_key}"] = [feet[0]] * count
    yield f"{count} posts instead of {len(posts)}, at {', '.join(str(x) for x in places)}", changes


def _bigger_pads(design: Design) -> Iterator[Change]:
    size = design.job.frame.pad_mm
    if size is None:
        return
    long, wide, deep = size
    for k in range(1, PAD_STEPS + 1):
        larger = [long + k * PAD_STEP_MM, wide + k * PAD_STEP_MM, deep]
        words = f"Pads {larger[0]:g} x {larger[1]:g} x {deep:g} instead of {long:g} x {wide:g} x {deep:g}"
        yield words, {"frame.pad_mm": larger}


def _closer_fixings(design: Design) -> Iterator[Change]:
    spacing = design.job.frame.wall_fixing_spacing_mm
    if spacing is None or design.job.frame.wall_fixings_at_mm:
        return
    closer = spacing - 50.0
    while closer >= CLOSEST_FIXINGS_MM:
        yield (
            f"Wall fixings every {closer:g} instead of {spacing:g}",
            {"frame.wall_fixing_spacing_mm": closer},
        )
        closer -= 50.0
