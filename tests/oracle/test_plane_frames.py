"""Our plane frames against PyNiteFEA: posts with knee braces to a rafter, in every way that they are solved here."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from pentice.mechanics.plane_frame import FrameMember, PlaneFrame, plane_frame
from tests.oracle.comparing import CASES, Worst, other_program

pytestmark = pytest.mark.oracle

_E, _G = 11000.0, 690.0


def _frame(chance: Any) -> PlaneFrame:
    """Two posts of unlike height, a rafter that slopes and runs on, a brace at each post; hinged in either way."""
    depth, pitch = chance.uniform(1800.0, 4500.0), np.tan(np.radians(chance.uniform(2.0, 25.0)))
    low, reach = chance.uniform(1900.0, 2800.0), chance.uniform(400.0, 0.45 * depth)
    above, more, down = (
        chance.uniform(150.0, 350.0),
        chance.uniform(50.0, 600.0),
        chance.uniform(500.0, 900.0),
    )
    on_rafter = [
        0.0,
        reach,
        *np.sort(chance.uniform(reach + 60.0, depth - reach - 60.0, 1)),
        depth - reach,
        depth,
    ]
    on_rafter.append(depth + more)
    high = low + depth * pitch
    nodes = [(float(x), float(high - x * pitch)) for x in on_rafter]
    rafter = (_E * 70.0 * 145.0, _E * 70.0 * 145.0**3 / 12.0)
    members = [FrameMember(start=i, end=i + 1, ea_n=rafter[0], ei_n_mm2=rafter[1]) for i in range(5)]
    below, pinned = bool(chance.random() < 0.5), []
    for top, at in ((0, 1), (4, 3)):
        side = float(chance.uniform(95.0, 195.0))
        ea, ei = _E * side**2, _E * side**4 / 12.0
        foot = len(nodes)
        x, z = nodes[top]
        nodes += [(x, float(chance.uniform(-200.0, 200.0))), (x, z - down - above), (x, z - above)]
        pinned.append(foot)
        give = float(10.0 ** chance.uniform(3.0, 6.0)) * 1000.0
        members += [
            FrameMember(start=foot, end=foot + 1, ea_n=ea, ei_n_mm2=ei),
            FrameMember(start=foot + 1, end=foot + 2, ea_n=ea, ei_n_mm2=ei, hinge_end=below),
            FrameMember(start=foot + 2, end=top, ea_n=100 * ea, ei_n_mm2=100 * ei, hinge_end=not below),
            FrameMember(start=foot + 1, end=at, ea_n=give, ei_n_mm2=ei, hinge_start=True, hinge_end=True),
        ]
    return PlaneFrame(nodes_mm=tuple(nodes), members=tuple(members), pinned=(pinned[0], pinned[1]))


def _model(program: Any, frame: PlaneFrame, forces: Any, lines: Any) -> Any:
    """The same frame in the other program, its third direction held."""
    model = program.FEModel3D()
    model.add_material("timber", _E, _G, 0.3, 1.0)
    for i, (x, z) in enumerate(frame.nodes_mm):
        model.add_node(f"N{i}", x, z, 0.0)
        held = i in frame.pinned
        model.def_support(f"N{i}", held, held, True, True, True, False)
        for direction, force in zip(("FX", "FY"), forces[i], strict=True):
            if force:
                model.add_node_load(f"N{i}", direction, float(force))
    for m, member in enumerate(frame.members):
        second = member.ei_n_mm2 / _E
        model.add_section(f"S{m}", member.ea_n / _E, second, second, second)
        model.add_member(f"M{m}", f"N{member.start}", f"N{member.end}", "timber", f"S{m}")
        model.def_releases(f"M{m}", Rzi=member.hinge_start, Rzj=member.hinge_end)
        if lines[m].any():
            model.add_member_dist_load(f"M{m}", "FY", -float(lines[m, 0]), -float(lines[m, 1]))
    model.analyze(check_statics=False)
    return model


def test_random_pairs_of_braced_posts(worst: Worst) -> None:
    """Loads down that change in straight lines, a force at the tip, a push at either end of the rafter.

    Tolerance 1e-6 at the nodes, where both are exact, related to the greatest of its kind in the frame; 0.5 % within a
    member, where the other program samples.
    """
    program, chance = other_program("Pynite"), np.random.default_rng(4)
    sampled = Worst(record=worst.record)
    for _ in range(CASES):
        frame = _frame(chance)
        forces = np.zeros((len(frame.nodes_mm), 2))
        forces[int(chance.choice([0, 4])), 0] = chance.uniform(-8000.0, 8000.0)
        forces[5, 1] = -chance.uniform(0.0, 500.0)
        lines = np.zeros((len(frame.members), 2))
        lines[:5] = chance.uniform(-1.5, 2.5, (5, 2))
        ours = plane_frame(frame, forces[None], lines[None])
        model = _model(program, frame, forces, lines)
        members = [model.members[f"M{m}"] for m in range(len(frame.members))]
        axial = np.array([[-one.axial(x, "Combo 1") for x in (0.0, one.L())] for one in members])
        moment = np.array([[-one.moment("Mz", x, "Combo 1") for x in (0.0, one.L())] for one in members])
        moves = [
            [model.nodes[f"N{i}"].DX["Combo 1"], model.nodes[f"N{i}"].DY["Combo 1"]]
            for i in range(len(frame.nodes_mm))
        ]
        feet = [
            [model.nodes[f"N{i}"].RxnFX["Combo 1"], model.nodes[f"N{i}"].RxnFY["Combo 1"]]
            for i in frame.pinned
        ]
        for name, mine, theirs in (
            ("frame: along members", ours.axial_n[0], axial),
            ("frame: moments at nodes", ours.moment_n_mm[0], moment),
            ("frame: moves", ours.moves_mm[0], np.array(moves)),
            ("frame: reactions", ours.reactions_n[0], np.array(feet)),
        ):
            off = float(np.abs(mine - theirs).max())
            worst.compare(name, off, 0.0, size=float(np.abs(theirs).max()))
        for m in range(5):
            most = float(np.abs(members[m].moment_array("Mz", 101, "Combo 1")[1]).max())
            shear = float(np.abs(members[m].shear_array("Fy", 101, "Combo 1")[1]).max())
            for name, mine, other, size in (
                ("frame: greatest moments", ours.most_moment_n_mm[0, m], most, np.abs(moment).max()),
                (
                    "frame: greatest shears",
                    ours.most_shear_n[0, m],
                    shear,
                    np.abs(ours.most_shear_n[0, :5]).max(),
                ),
            ):
                sampled.compare(name, float(mine), other, size=float(size))
    assert worst.is_within(1e-6, cases=300)
    assert sampled.is_within(5e-3, cases=300)
