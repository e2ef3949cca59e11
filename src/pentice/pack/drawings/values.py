"""What a drawing of the pack is, and how its numbers are written.

Sheets whole mm down, marks to the nearest half mm with ties down, gaps and bites to 0.1: no digit that
nobody can act on.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from pentice.design import CutAndOrdered
from pentice.drawing.page import Page, View, bare_page, bounds
from pentice.drawing.placed import on_paper
from pentice.drawing.scene import Box, Group, Point, Primitive, Scene
from pentice.drawing.sketch import extent


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """One drawing: on paper for SVG, and as a model 1:1 for DXF."""

    name: str
    """File name without its ending."""
    title: str
    scale: float
    """n of 1:n on paper; 0 where it is not to scale."""
    page: Page
    scene: Scene
    """In mm of paper."""
    model: Scene
    """In mm of the thing itself."""


def drawn(name: str, model: Scene, *, margin_mm: float = 6.0) -> Drawing:
    """A drawing of a model alone, on a page just large enough for it.

    Parameters
    ----------
    name
        File name without its ending.
    model
        The model; its scale is the drawing's.
    margin_mm
        White round it [mm of paper].
    """
    placed = on_paper(model.primitives, View(scale=model.scale, origin=(0.0, 0.0)))
    box = extent(placed)
    shift = (margin_mm - box.left, margin_mm - box.top)
    moved = on_paper(model.primitives, View(scale=model.scale, origin=shift))
    page = bare_page(math.ceil(box.width + 2 * margin_mm), math.ceil(box.height + 2 * margin_mm))
    scene = Scene(primitives=moved, title=model.title, desc=model.desc)
    return Drawing(name=name, title=model.title, scale=model.scale, page=page, scene=scene, model=model)


def part(name: str, *content: Primitive) -> Group:
    """A named group."""
    return Group(content=content, part=name)


def rectangle(left: float, top: float, right: float, bottom: float) -> tuple[Point, ...]:
    """Corners of an upright rectangle."""
    return Box(left=left, top=top, right=right, bottom=bottom).corners


def down(mm: float) -> str:
    """Whole mm, down: the size of a sheet.

    Examples
    --------
    >>> down(947.9)
    '947'
    """
    return str(math.floor(mm + 1e-9))


def whole(mm: float) -> str:
    """Nearest whole mm.

    Examples
    --------
    >>> whole(2950.4)
    '2950'
    """
    return f"{mm:.0f}"


def half(mm: float) -> str:
    """Nearest half mm, ties down: a mark.

    Examples
    --------
    >>> half(1954.75), half(989.1)
    ('1954.5', '989')
    """
    return f"{half_mm(mm):g}"


def half_mm(mm: float) -> float:
    """Nearest half mm, ties down, as a number [mm].

    Examples
    --------
    >>> half_mm(1954.75)
    1954.5
    """
    return math.ceil(2.0 * mm - 0.5 - 1e-9) / 2.0


def tenth(mm: float) -> str:
    """Nearest 0.1 mm: a gap or a bite.

    Examples
    --------
    >>> tenth(3.0333), tenth(14.66)
    ('3.0', '14.7')
    """
    return f"{mm:.1f}"


def runs(numbers: list[int]) -> str:
    """Numbers as a list in which three or more in a row are drawn together.

    Examples
    --------
    >>> runs([1, 2, 3, 5]), runs([2, 3])
    ('1 to 3, 5', '2, 3')
    """
    found: list[list[int]] = []
    for n in sorted(numbers):
        if found and n == found[-1][-1] + 1:
            found[-1].append(n)
        else:
            found.append([n])
    words = [f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(str(n) for n in run) for run in found]
    return ", ".join(words)


def not_proved(design: CutAndOrdered) -> str:
    """The band that every page carries while something is not proved, or proved for no product; else empty."""
    counts = design.summary.counts
    if design.proved:
        typical = sum(check.typical for check in design.checks)
        if not typical:
            return ""
        share = f"{typical} of {len(design.checks)} checks"
        return f"Holds on typical values: {share}. Put your products in before you order."
    words = {"fails": "fail", "refused": "refused", "not_checked": "not checked"}
    said = ", ".join(f"{counts[key]} {word}" for key, word in words.items() if counts[key])
    return f"Not proved: of {len(design.checks)} checks {said}. Do not order or build before they are."


__all__ = [
    "Drawing", "bounds", "down", "drawn", "half", "half_mm", "not_proved", "part", "rectangle", "runs", "tenth",
    "whole",
]  # fmt: skip
