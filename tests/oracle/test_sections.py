"""Our sections against sectionproperties (finite elements over a mesh of triangles)."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from pentice.mechanics.lateral import tee_monosymmetry_mm
from pentice.mechanics.profiles import (
    Outline,
    angle_outline,
    channel_outline,
    open_torsion_mm4,
    profile,
    rectangle_outline,
    tee_outline,
)
from tests.oracle.comparing import CASES, Worst, other_program

pytestmark = pytest.mark.oracle

# Warping takes them a third of a second each.
TWISTED = 300


def _shape(chance: np.random.Generator) -> tuple[Outline, list[Outline]]:
    """A rectangle, tube, angle, tee or channel of random size."""
    width, depth = (float(x) for x in chance.uniform(30.0, 150.0, 2))
    thin, thick = (float(x) for x in chance.uniform(2.0, 12.0, 2))
    kind = int(chance.integers(5))
    if kind == 0:
        return rectangle_outline(width, depth), []
    if kind == 1:
        return rectangle_outline(width, depth), [rectangle_outline(width, depth, thin)]
    open_shapes = (
        angle_outline(width, depth, thin),
        tee_outline(width, depth, thin, thick),
        channel_outline(width, depth, thin, thick),
    )
    return open_shapes[kind - 2], []


def _their_section(section: Any, geometry: Any, outline: Outline, holes: list[Outline]) -> Any:
    from shapely import Polygon

    shape = geometry.Geometry(Polygon(outline, holes))
    shape.create_mesh(mesh_sizes=[0.0])
    theirs = section.Section(shape)
    theirs.calculate_geometric_properties()
    theirs.calculate_plastic_properties()
    return theirs


def test_random_sections(worst: Worst) -> None:
    """Area, centroid, second moments, elastic and plastic moduli. Tolerance 1e-5: their plastic axis is iterated."""
    geometry = other_program("sectionproperties.pre.geometry")
    section = other_program("sectionproperties.analysis.section")
    chance = np.random.default_rng(2)
    for _ in range(CASES):
        outline, holes = _shape(chance)
        ours = profile(outline, holes)
        theirs = _their_section(section, geometry, outline, holes)
        (cy, cz), size = theirs.get_c(), ours.area_mm2**0.5
        i_y, i_z, i_yz = theirs.get_ic()
        top, bottom, right, left = theirs.get_z()
        s_y, s_z = theirs.get_s()
        i_1, i_2 = theirs.get_ip()
        worst.compare("section area", ours.area_mm2, theirs.get_area())
        worst.compare("section centroid", ours.centroid_y_mm, cy, size=size)
        worst.compare("section centroid", ours.centroid_z_mm, cz, size=size)
        worst.compare("section second moments", ours.i_y_mm4, i_y)
        worst.compare("section second moments", ours.i_z_mm4, i_z)
        worst.compare("section second moments", ours.i_yz_mm4, i_yz, size=i_y)
        worst.compare("section principal moments", ours.i_1_mm4, i_1)
        worst.compare("section principal moments", ours.i_2_mm4, i_2)
        worst.compare("section elastic moduli", ours.w_top_mm3, top)
        worst.compare("section elastic moduli", ours.w_bottom_mm3, bottom)
        worst.compare("section elastic moduli", ours.w_right_mm3, right)
        worst.compare("section elastic moduli", ours.w_left_mm3, left)
        worst.compare("section plastic moduli", ours.w_pl_y_mm3, s_y)
        worst.compare("section plastic moduli", ours.w_pl_z_mm3, s_z)
    assert worst.is_within(1e-5, cases=300)


def test_random_tees_twisted(worst: Worst) -> None:
    """Monosymmetry and torsion of tees. Tolerance 10 %: ours take thin plates, theirs a coarse mesh."""
    geometry = other_program("sectionproperties.pre.geometry")
    section = other_program("sectionproperties.analysis.section")
    chance = np.random.default_rng(4)
    for _ in range(TWISTED):
        width, depth = (float(x) for x in chance.uniform(50.0, 100.0, 2))
        flange, stem = (float(x) for x in chance.uniform(3.0, 8.0, 2))
        theirs = _their_section(section, geometry, tee_outline(width, depth, flange, stem), [])
        theirs.calculate_warping_properties()
        z_j = tee_monosymmetry_mm(width, depth, flange, stem)
        worst.compare("tee monosymmetry", z_j, theirs.get_beta()[1] / 2.0, size=depth)
        torsion = open_torsion_mm4([(width, flange), (depth - flange / 2.0, stem)])
        worst.compare("tee torsion", torsion, theirs.get_j())
        assert torsion < theirs.get_j() * 1.02
    assert worst.is_within(0.1, cases=300)
