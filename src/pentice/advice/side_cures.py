"""What may cure a side sheet: a mullion, a transom, or profiles with longer arms."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pentice.advice.frame_cures import Change
from pentice.design import Design
from pentice.job.model import SideSheet

MULLION_MM = 70.0
"""Width of a mullion or a transom between two side sheets: common practice, no source."""


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
    if not rule.startswith("side-"):
        return
    if rule == "side-bite-head":
        yield _transoms(design)
    yield _mullions(design)
    if rule.startswith("side-bite"):
        yield _longer_arms(design)


def _mullions(design: Design) -> Iterator[Change]:
    """The widest openings parted across into two, else into three."""
    sheets = design.job.side_sheets
    widest = max(sheet.width_mm for sheet in sheets)
    for parts in (2, 3):
        split = [
            one
            for sheet in sheets
            for one in (_across(sheet, parts) if sheet.width_mm == widest else [sheet.model_dump()])
        ]
        yield _set(f"{_count(parts - 1, 'mullion')} in each side opening {widest:g} wide", split)


def _transoms(design: Design) -> Iterator[Change]:
    """The tallest openings parted at half of their shorter side: below a rectangle, above it the slope."""
    sheets = design.job.side_sheets
    tallest = max(max(sheet.left_mm, sheet.right_mm) for sheet in sheets)
    split = []
    for sheet in sheets:
        low = round((min(sheet.left_mm, sheet.right_mm) - MULLION_MM) / 2.0)
        if max(sheet.left_mm, sheet.right_mm) < tallest:
            split.append(sheet.model_dump())
            continue
        over = low + MULLION_MM
        split.append({**sheet.model_dump(), "left_mm": low, "right_mm": low})
        split.append(
            {**sheet.model_dump(), "left_mm": sheet.left_mm - over, "right_mm": sheet.right_mm - over}
        )
    yield _set(f"A transom at half height in each side opening {tallest:g} tall", split)


def _across(sheet: SideSheet, parts: int) -> list[dict[str, Any]]:
    """An opening in parts of one width, mullions between them."""
    width = (sheet.width_mm - (parts - 1) * MULLION_MM) / parts
    fall = (sheet.right_mm - sheet.left_mm) / sheet.width_mm
    starts = [k * (width + MULLION_MM) for k in range(parts)]
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


def _set(title: str, sheets: list[dict[str, Any]]) -> Change:
    return f"{title}, {MULLION_MM:g} wide", {"side_sheets": sheets}
