"""What may cure side sheets and what holds them: mullions, transoms, deeper ones, closer fixings, longer arms."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pentice.advice.frame_cures import Change
from pentice.design import Design
from pentice.job.model import SideSheet

MULLION_MM = 70.0
"""Width of a mullion or a transom that the job has none of yet: common practice, no source."""
CLOSEST_MM = 200.0
"""Closest fixings of a sill that are proposed: judgement, no source."""
_OF_POSTS = ("post-walls", "post-walls-pulled")


def side_changes(design: Design, rule: str) -> Iterator[Iterator[Change]]:
    """Changes that may cure a rule of the side sheets, the smallest of each kind first.

    Parameters
    ----------
    design
        The job as it stands.
    rule
        Id of the check.

    Yields
    ------
    iterator
        Of a title, and key paths with their new values.
    """
    rule = rule.removeprefix("head-")
    if not design.job.side_sheets:
        return
    if rule.startswith(("mullion", "transom")):
        yield _deeper(design)
        yield _mullions(design)
    if rule.startswith("sill"):
        yield _closer(design)
        yield _wider(design)
    if rule in _OF_POSTS:
        yield _mullions(design)
    if not rule.startswith("side-"):
        return
    if rule == "side-bite-head":
        yield _transoms(design)
    yield _mullions(design)
    if rule.startswith("side-bite"):
        yield _longer_arms(design)


def _sections(design: Design) -> list[tuple[float, float]]:
    """Sections for mullions and transoms: the job's own, else those of the frame's timber in the usual width."""
    own = design.job.frame.mullion_mm
    if own is not None:
        return [own]
    sizes = design.parts.timber_for("mullion").sizes_mm
    return sorted(size for size in sizes if size[0] == MULLION_MM)


def _deeper(design: Design) -> Iterator[Change]:
    """Sections that are nowhere smaller; where none is named, one after the other."""
    own = design.job.frame.mullion_mm
    if own is None:
        for b, d in _sections(design):
            yield f"Mullions {b:g} x {d:g}", {"frame.mullion_mm": [b, d]}
        return
    for b, d in sorted(design.parts.timber_for("mullion").sizes_mm, key=lambda size: size[0] * size[1]):
        if b == own[0] and d > own[1]:
            yield (
                f"Mullions {b:g} x {d:g} instead of {own[0]:g} x {own[1]:g}",
                {"frame.mullion_mm": [b, d]},
            )


def _closer(design: Design) -> Iterator[Change]:
    spacing = design.job.frame.sill_fixing_spacing_mm
    closer = (spacing or 0.0) - 50.0
    while closer >= CLOSEST_MM:
        yield (
            f"Sill fixings every {closer:g} instead of {spacing:g}",
            {"frame.sill_fixing_spacing_mm": closer},
        )
        closer -= 50.0


def _wider(design: Design) -> Iterator[Change]:
    own = design.job.frame.sill_mm
    if own is None:
        return
    for small, large in sorted(design.parts.timber_for("sill").sizes_mm, key=lambda size: size[0] * size[1]):
        if large > own[0] and small >= own[1]:
            yield (
                f"Sill {large:g} x {small:g} instead of {own[0]:g} x {own[1]:g}",
                {"frame.sill_mm": [large, small]},
            )


def _mullions(design: Design) -> Iterator[Change]:
    """The widest openings parted across into two, else into three; none where one of them stands over another."""
    sheets = design.job.side_sheets
    widest = max(sheet.width_mm for sheet in sheets)
    if any(sheet.over for sheet in sheets) or design.job.measured.side_openings_mm:
        return  # what was read on site stands for the openings as they are
    for parts in (2, 3):
        for size in _sections(design):
            split = [
                one
                for sheet in sheets
                for one in (
                    _across(sheet, parts, size[0]) if sheet.width_mm == widest else [sheet.model_dump()]
                )
            ]
            yield _set(
                design, f"{_count(parts - 1, 'mullion')} in each side opening {widest:g} wide", split, size
            )


def _transoms(design: Design) -> Iterator[Change]:
    """The tallest openings parted at half of their shorter side: below a rectangle, above it the slope."""
    sheets = design.job.side_sheets
    if design.job.measured.side_openings_mm:
        return
    tallest = max(max(sheet.left_mm, sheet.right_mm) for sheet in sheets)
    for size in _sections(design):
        split = []
        for sheet in sheets:
            low = round((min(sheet.left_mm, sheet.right_mm) - size[0]) / 2.0)
            if max(sheet.left_mm, sheet.right_mm) < tallest:
                split.append(sheet.model_dump())
                continue
            over = low + size[0]
            split.append({**sheet.model_dump(), "left_mm": low, "right_mm": low})
            rest = {"left_mm": sheet.left_mm - over, "right_mm": sheet.right_mm - over, "over": True}
            split.append({**sheet.model_dump(), **rest})
        yield _set(design, f"A transom at half height in each side opening {tallest:g} tall", split, size)


def _across(sheet: SideSheet, parts: int, thick: float) -> list[dict[str, Any]]:
    """An opening in parts of one width, mullions between them."""
    width = (sheet.width_mm - (parts - 1) * thick) / parts
    fall = (sheet.right_mm - sheet.left_mm) / sheet.width_mm
    starts = [k * (width + thick) for k in range(parts)]
    return [
        {
            "side": sheet.side,
            "width_mm": round(width, 1),
            "left_mm": round(sheet.left_mm + fall * at, 1),
            "right_mm": round(sheet.left_mm + fall * (at + width), 1),
        }
        for at in starts
    ]


def _longer_arms(design: Design) -> Iterator[Change]:
    """Foot profiles of the same sheet that reach further: they hold the side sheets too."""
    foot = design.parts.foot_profile
    for other in sorted(design.catalogue.profiles.values(), key=lambda p: p.arm_mm):
        if other.use == "foot" and other.inside_mm == foot.inside_mm and other.arm_mm > foot.arm_mm:
            yield f"Foot profile with an arm of {other.arm_mm:g}", {"glazing.foot_profile": other.id}


def _count(number: int, word: str) -> str:
    return f"A {word}" if number == 1 else f"{number} {word}s"


def _set(design: Design, title: str, sheets: list[dict[str, Any]], size: tuple[float, float]) -> Change:
    """The openings as parted, and the section between them where the job names none."""
    changes: dict[str, Any] = {"side_sheets": sheets}
    if design.job.frame.mullion_mm is None:
        changes["frame.mullion_mm"] = list(size)
        return f"{title}, {size[0]:g} x {size[1]:g}", changes
    return f"{title}, {size[0]:g} wide", changes
