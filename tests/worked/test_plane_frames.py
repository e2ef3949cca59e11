"""Plane frames by hand: portals, a truss, loads along members. Nothing of src/ but what is tested."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from pentice.errors import InputError, OutsideScope
from pentice.mechanics.plane_frame import (
    FrameAnswer,
    FrameMember,
    PlaneFrame,
    buckling_factor,
    buckling_factors,
    plane_frame,
    plane_frames,
)

HIGH, WIDE, STIFF = 2400.0, 3000.0, 1e12
POST, BEAM = 4.0e11, 2.0e11


def solved(
    frame: PlaneFrame, forces: dict[int, tuple[float, float]], lines: dict[int, Any] | None = None
) -> FrameAnswer:
    """One load: forces by node, lines by member."""
    at_nodes, along = np.zeros((1, len(frame.nodes_mm), 2)), np.zeros((1, len(frame.members), 2))
    for node, force in forces.items():
        at_nodes[0, node] = force
    for member, line in (lines or {}).items():
        along[0, member] = line
    return plane_frame(frame, at_nodes, along)


def portal() -> PlaneFrame:
    """Two posts on pinned feet, a beam, stiff corners; nothing stretches."""
    nodes = ((0.0, 0.0), (0.0, HIGH), (WIDE, HIGH), (WIDE, 0.0))
    members = (
        FrameMember(start=0, end=1, ea_n=STIFF, ei_n_mm2=POST),
        FrameMember(start=1, end=2, ea_n=STIFF, ei_n_mm2=BEAM),
        FrameMember(start=2, end=3, ea_n=STIFF, ei_n_mm2=POST),
    )
    return PlaneFrame(nodes_mm=nodes, members=members, pinned=(0, 3))


def test_a_portal_pushed_at_its_corner() -> None:
    """H / 2 at each foot, H h / 2 in the corners, H h / w up and down; it leans H h3 / 6 EI + H h2 w / 12 EI'.

    Tolerance 1e-4: the members stretch a little here, by hand they do not.
    """
    found = solved(portal(), {1: (1000.0, 0.0)})
    assert found.reactions_n[0, :, 0] == pytest.approx([-500.0, -500.0], rel=1e-4)
    assert found.reactions_n[0, :, 1] == pytest.approx([-800.0, 800.0], rel=1e-9)
    assert abs(found.moment_n_mm[0, 0, 1]) == pytest.approx(500.0 * HIGH, rel=1e-4)
    lean = HIGH**3 / (6.0 * POST) + HIGH**2 * WIDE / (12.0 * BEAM)
    assert found.moves_mm[0, 1, 0] == pytest.approx(1000.0 * lean, rel=1e-4)


def test_several_portals_at_once_that_differ_in_stiffness_and_hinges() -> None:
    """Hinged over one post the other takes all: it leans H h3 / 3 EI + H h2 w / 3 EI', with each its own beam.

    Tolerance 1e-4: the members stretch a little here, by hand they do not.
    """
    nodes, frames = portal().nodes_mm, []
    for stiff, hinged in ((BEAM, (False, True)), (2.0 * BEAM, (False, True)), (BEAM, (True, False))):
        left = FrameMember(start=0, end=1, ea_n=STIFF, ei_n_mm2=POST, hinge_end=hinged[0])
        beam = FrameMember(start=1, end=2, ea_n=STIFF, ei_n_mm2=stiff)
        right = FrameMember(start=2, end=3, ea_n=STIFF, ei_n_mm2=POST, hinge_start=hinged[1])
        frames.append(PlaneFrame(nodes_mm=nodes, members=(left, beam, right), pinned=(0, 3)))
    forces = np.zeros((1, 4, 2))
    forces[0, 1, 0] = 1000.0
    found = plane_frames(frames, forces, np.zeros((1, 3, 2)))
    leans = [
        1000.0 * (HIGH**3 / (3.0 * POST) + HIGH**2 * WIDE / (3.0 * beam)) for beam in (BEAM, 2.0 * BEAM, BEAM)
    ]
    assert found.moves_mm[:, 0, 1, 0] == pytest.approx(leans, rel=1e-4)
    assert found.reactions_n[:, 0, :, 0] == pytest.approx(
        np.array([[-1000.0, 0.0], [-1000.0, 0.0], [0.0, -1000.0]]), abs=0.01
    )
    assert np.abs(found.moment_n_mm[:, 0, 1, 0]) == pytest.approx(
        [1000.0 * HIGH, 1000.0 * HIGH, 0.0], abs=1.0
    )


def test_loads_that_are_sums_of_others() -> None:
    """Push and even load of the portals here and below, 3 and 0.5 times: each by its own formula, added by hand.

    Tolerance 1e-4 as above; the greatest moment of a beam bent by both is where its shear turns, in closed form.
    """
    q = 2.0
    forces, lines = np.zeros((2, 4, 2)), np.zeros((2, 3, 2))
    forces[0, 1, 0], lines[1, 1] = 1000.0, q
    found = plane_frames([portal()], forces, lines, np.array([[3.0, 0.5], [0.0, 1.0]]))
    corner = q * WIDE**3 / 24.0 / BEAM / (HIGH / (3.0 * POST) + WIDE / (2.0 * BEAM))
    assert found.reactions_n[0, :, 0, 0] == pytest.approx(
        [0.5 * corner / HIGH - 1500.0, corner / HIGH], rel=1e-4
    )
    assert found.reactions_n[0, 0, :, 1] == pytest.approx(
        [0.25 * q * WIDE - 2400.0, 0.25 * q * WIDE + 2400.0], rel=1e-4
    )
    lean = HIGH**3 / (6.0 * POST) + HIGH**2 * WIDE / (12.0 * BEAM)
    assert found.moves_mm[0, 0, 1, 0] + found.moves_mm[0, 0, 2, 0] == pytest.approx(6000.0 * lean, rel=1e-4)
    ends = (1500.0 * HIGH - 0.5 * corner, -1500.0 * HIGH - 0.5 * corner)
    shear = 0.25 * q * WIDE + (ends[1] - ends[0]) / WIDE
    assert not 0.0 < shear / (0.5 * q) < WIDE  # by the push the moment only falls: greatest at an end
    assert found.most_moment_n_mm[0, :, 1] == pytest.approx(
        [max(map(abs, ends)), max(corner, q * WIDE**2 / 8.0 - corner)], rel=1e-4
    )
    assert found.most_shear_n[0, :, 1] == pytest.approx(
        [abs(shear) + 0.5 * q * WIDE, q * WIDE / 2.0], rel=1e-4
    )
    posts = found.first(1)
    assert posts.most_moment_n_mm[0, :, 0] == pytest.approx([1500.0 * HIGH - 0.5 * corner, corner], rel=1e-4)


def test_a_portal_under_an_even_load() -> None:
    """Thrust q w2 / (4 h (2 k + 3)), k = I_b h / (I_p w): from memory, and by slopes here.

    Corner turned: the post takes 3 EI / h, the beam's end q w3 / 24 EI' - M w / 2 EI'. Tolerance 1e-4 as above.
    """
    q = 2.0
    found = solved(portal(), {}, {1: (q, q)})
    corner = q * WIDE**3 / 24.0 / BEAM / (HIGH / (3.0 * POST) + WIDE / (2.0 * BEAM))
    k = BEAM * HIGH / (POST * WIDE)
    assert corner == pytest.approx(q * WIDE**2 / (4.0 * (2.0 * k + 3.0)), rel=1e-12)
    assert found.reactions_n[0, 0, 0] == pytest.approx(corner / HIGH, rel=1e-4)
    assert found.most_moment_n_mm[0, 1] == pytest.approx(max(corner, q * WIDE**2 / 8.0 - corner), rel=1e-4)
    assert found.most_shear_n[0, 1] == pytest.approx(q * WIDE / 2.0, rel=1e-9)


def test_knee_braces_of_a_level_pair_share_evenly() -> None:
    """Alike left and right: half of H at each foot; about the pin F a b / L = H h / 2; the post: H (h - a) / 2."""
    down, reach = 600.0, 450.0
    nodes = (
        (0.0, 0.0), (0.0, HIGH - down), (0.0, HIGH), (reach, HIGH), (WIDE - reach, HIGH), (WIDE, HIGH),
        (WIDE, HIGH - down), (WIDE, 0.0),
    )  # fmt: skip
    post: dict[str, Any] = {"ea_n": STIFF, "ei_n_mm2": POST}
    hinged: dict[str, Any] = {"hinge_start": True, "hinge_end": True}
    members = (
        FrameMember(start=0, end=1, **post),
        FrameMember(start=1, end=2, hinge_end=True, **post),
        FrameMember(start=2, end=3, ea_n=STIFF, ei_n_mm2=BEAM),
        FrameMember(start=3, end=4, ea_n=STIFF, ei_n_mm2=BEAM),
        FrameMember(start=4, end=5, ea_n=STIFF, ei_n_mm2=BEAM),
        FrameMember(start=5, end=6, hinge_start=True, **post),
        FrameMember(start=6, end=7, **post),
        FrameMember(start=1, end=3, **post, **hinged),
        FrameMember(start=6, end=4, **post, **hinged),
    )
    frame = PlaneFrame(nodes_mm=nodes, members=members, pinned=(0, 7))
    found = solved(frame, {2: (1000.0, 0.0), 5: (1000.0, 0.0)})
    assert found.reactions_n[0, :, 0] == pytest.approx([-1000.0, -1000.0], rel=1e-7)
    force = 1000.0 * HIGH / down * math.hypot(down, reach) / reach
    assert found.axial_n[0, 7, 0] == pytest.approx(force, rel=1e-7)
    assert found.axial_n[0, 8, 0] == pytest.approx(-force, rel=1e-7)
    assert abs(found.moment_n_mm[0, 0, 1]) == pytest.approx(1000.0 * (HIGH - down), rel=1e-7)
    assert abs(found.shear_n[0, 1, 0]) == pytest.approx(1000.0 * (HIGH / down - 1.0), rel=1e-7)


def test_posts_that_bow_and_a_portal_that_sways_away() -> None:
    """Pinned ends pi^2 EI / h2; a portal on pinned feet: u tan u = 6 (EI' / w) / (EI / h), N = u2 EI / h2.

    Tolerance 1e-3: six pieces each, and members that stretch a little.
    """
    post = FrameMember(start=0, end=1, ea_n=STIFF, ei_n_mm2=POST)
    tie = FrameMember(start=1, end=2, ea_n=STIFF, ei_n_mm2=POST, hinge_start=True, hinge_end=True)
    held = PlaneFrame(nodes_mm=((0.0, 0.0), (0.0, HIGH), (WIDE, HIGH)), members=(post, tie), pinned=(0, 2))
    euler = math.pi**2 * POST / HIGH**2
    assert buckling_factor(held, (1000.0, 0.0)) == pytest.approx(euler / 1000.0, rel=1e-3)
    stiff = 6.0 * BEAM / WIDE / (POST / HIGH)
    low, high = 0.0, math.pi / 2.0
    for _ in range(60):
        u = (low + high) / 2.0
        low, high = (u, high) if u * math.tan(u) < stiff else (low, u)
    assert buckling_factor(portal(), (1000.0, 0.0, 1000.0)) == pytest.approx(
        low**2 * POST / HIGH**2 / 1000.0, rel=1e-3
    )
    # One post alone loaded leans on the other: the sum counts, a little more of it before the one bows by itself.
    alone = buckling_factor(portal(), (2000.0, 0.0, 0.0))
    assert 0.9 * low**2 * POST / HIGH**2 / 1000.0 < alone <= low**2 * POST / HIGH**2 / 1000.0 * 1.001


def test_several_portals_that_sway_away_at_once() -> None:
    """Hinged over one post, under a stiff beam: the other sways as a cantilever upside down, pi^2 EI / 4 h2.

    Both loaded, the hinged one leans on it with N d / h: d = H h / N (tan u / u - 1) gives tan u = 2 u, N = u2 EI / h2.
    Tolerance 1e-3 as above.
    """
    nodes, stiff = portal().nodes_mm, 1e4 * BEAM
    left = FrameMember(start=0, end=1, ea_n=STIFF, ei_n_mm2=POST)
    frames = []
    for at_post, at_beam in ((True, False), (False, True)):
        beam = FrameMember(start=1, end=2, ea_n=STIFF, ei_n_mm2=stiff, hinge_end=at_beam)
        right = FrameMember(start=2, end=3, ea_n=STIFF, ei_n_mm2=POST, hinge_start=at_post)
        frames.append(PlaneFrame(nodes_mm=nodes, members=(left, beam, right), pinned=(0, 3)))
    euler = math.pi**2 * POST / (4.0 * HIGH**2)
    alone = buckling_factors(frames, (1000.0, 0.0, 0.0))
    assert alone == pytest.approx([euler / 1000.0] * 2, rel=1e-3)
    assert alone == pytest.approx([buckling_factor(frame, (1000.0, 0.0, 0.0)) for frame in frames], rel=1e-9)
    low, high = 0.5, 1.5
    for _ in range(60):
        u = (low + high) / 2.0
        low, high = (u, high) if math.tan(u) < 2.0 * u else (low, u)
    both = buckling_factors(frames, (1000.0, 0.0, 1000.0))
    assert both == pytest.approx([low**2 * POST / HIGH**2 / 1000.0] * 2, rel=1e-3)


def test_a_load_on_a_member_that_slopes() -> None:
    """A bar hinged at both ends, 3 level and 4 up, 2 to 5 N/mm straight down: the whole, its place, by areas."""
    tie = FrameMember(start=0, end=1, ea_n=STIFF, ei_n_mm2=POST, hinge_start=True, hinge_end=True)
    frame = PlaneFrame(nodes_mm=((0.0, 0.0), (3000.0, 4000.0)), members=(tie,), pinned=(0, 1))
    found = solved(frame, {}, {0: (2.0, 5.0)})
    whole, place = 17500.0, (2.0 / 2.0 + 3.0 / 3.0) / 3.5 * 5000.0
    across = 0.6 * whole * place / 5000.0
    assert found.shear_n[0, 0] == pytest.approx([0.6 * whole - across, -across], rel=1e-9)
    assert found.reactions_n[0, :, 1].sum() == pytest.approx(whole, rel=1e-9)
    # Along it 0.8 of the load: clamped at both ends of a bar that changes its length nowhere.
    assert found.axial_n[0, 0, 0] - found.axial_n[0, 0, 1] == pytest.approx(-0.8 * whole, rel=1e-9)
    places = np.linspace(0.0, 5000.0, 200001)
    shears = found.shear_n[0, 0, 0] - 0.6 * (2.0 * places + 3.0 * places**2 / 10000.0)
    most = float(np.cumsum(shears).max()) * (places[1] - places[0])
    assert found.most_moment_n_mm[0, 0] == pytest.approx(most, rel=1e-4)


def test_frames_that_do_not_stand_or_make_no_sense_are_refused() -> None:
    """A mechanism, a load of another shape, a member of no length, a stiffness of nothing."""
    hinged = FrameMember(start=0, end=1, ea_n=1.0, ei_n_mm2=1.0, hinge_start=True, hinge_end=True)
    loose = PlaneFrame(nodes_mm=((0.0, 0.0), (0.0, 1000.0)), members=(hinged,), pinned=(0,))
    with pytest.raises(InputError, match="frame is a mechanism; expected a frame that stands"):
        solved(loose, {1: (1.0, 0.0)})
    with pytest.raises(InputError, match=r"forces_n is \(1, 3, 2\); expected the shape \(loads, 2, 2\)"):
        plane_frame(loose, np.zeros((1, 3, 2)), np.zeros((1, 1, 2)))
    with pytest.raises(InputError, match=r"lines_n_mm is \(2, 1, 2\); expected the shape \(1, 1, 2\)"):
        plane_frame(loose, np.zeros((1, 2, 2)), np.zeros((2, 1, 2)))
    short = PlaneFrame(nodes_mm=((0.0, 0.0), (0.0, 0.0)), members=(hinged,), pinned=(0,))
    with pytest.raises(InputError, match="expected every member to have a length"):
        solved(short, {})
    with pytest.raises(
        InputError, match=r"pressed_n is \(0.0,\); expected a push of 0 or more for each member"
    ):
        buckling_factor(loose, (0.0,))
    with pytest.raises(
        InputError, match="frames is 2; expected them to differ in stiffness and places of hinges"
    ):
        plane_frames((portal(), loose), np.zeros((1, 4, 2)), np.zeros((1, 3, 2)))
    weak = FrameMember(start=0, end=1, ea_n=0.0, ei_n_mm2=1.0)
    with pytest.raises(OutsideScope, match="ea_n is 0 N; expected"):
        solved(PlaneFrame(nodes_mm=((0.0, 0.0), (0.0, 1.0)), members=(weak,), pinned=(0, 1)), {})
