"""Our continuous beams against PyNiteFEA (frames by finite elements, straight beams exact at the nodes)."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from pentice.mechanics.continuous import ContinuousBeam, continuous_beam
from tests.oracle.comparing import CASES, Worst, other_program

pytestmark = pytest.mark.oracle

_E, _G = 11000.0, 690.0


def _model(program: Any, nodes: list[float], held: list[int], second: float, lines: Any, points: Any) -> Any:
    """The same beam in the other program, upward positive there."""
    model = program.FEModel3D()
    model.add_material("timber", _E, _G, 0.3, 1.0)
    model.add_section("section", 1e4, second, second, second)
    for i, x in enumerate(nodes):
        model.add_node(f"N{i}", x, 0.0, 0.0)
        # The first node takes the torsion and the pull, every held one the two directions across.
        model.def_support(f"N{i}", i == 0, i in held, True, True, True, False)
        if points[i]:
            model.add_node_load(f"N{i}", "FY", -float(points[i]))
    for i in range(len(nodes) - 1):
        model.add_member(f"M{i}", f"N{i}", f"N{i + 1}", "timber", "section")
        model.add_member_dist_load(f"M{i}", "FY", -float(lines[i, 0]), -float(lines[i, 1]))
    model.analyze(check_statics=False)
    return model


def test_random_beams_on_two_to_five_supports(worst: Worst) -> None:
    """Overhangs, loads that change in straight lines, point loads, uplift. Tolerance 1e-6: both are exact at the nodes.

    Sag and sagging moment are sampled by the other program: tolerance 0.5 %, related to the greatest of the beam.
    """
    program, chance = other_program("Pynite"), np.random.default_rng(1)
    sampled = Worst(record=worst.record)
    for _ in range(CASES):
        count = int(chance.integers(3, 8))
        nodes = [0.0, *np.cumsum(chance.uniform(300.0, 3000.0, count - 1)).tolist()]
        supports = int(chance.integers(2, min(5, count) + 1))
        held = sorted(chance.choice(count, supports, replace=False).tolist())
        second = float(chance.uniform(1e6, 1e8))
        lines = chance.uniform(-2.0, 4.0, (count - 1, 2))
        points = chance.uniform(-2000.0, 3000.0, count) * (chance.random(count) < 0.5)
        beam = ContinuousBeam(nodes_mm=tuple(nodes), held=tuple(held), ei_n_mm2=_E * second)
        ours = continuous_beam(beam, lines[None], points[None])
        model = _model(program, nodes, held, second, lines, points)
        reactions = [model.nodes[f"N{i}"].RxnFY["Combo 1"] for i in held]
        for mine, other in zip(ours.reactions_n[0], reactions, strict=True):
            worst.compare("beam reactions", float(mine), other, size=max(abs(r) for r in reactions))
        members = [model.members[f"M{i}"] for i in range(count - 1)]
        ends = [member.moment("Mz", 0.0, "Combo 1") for member in members]
        moments = (ours.node_moments_n_mm[0], ours.stretch_moments_n_mm[0])
        greatest = max(float(np.abs(m).max()) for m in moments)
        for mine, other in zip(ours.node_moments_n_mm[0], ends, strict=False):
            worst.compare("beam moments at nodes", float(mine), -other, size=greatest)
        for i, member in enumerate(members):
            most = float(np.max(-member.moment_array("Mz", 101, "Combo 1")[1]))
            sampled.compare(
                "beam sagging moments", float(ours.stretch_moments_n_mm[0, i]), most, size=greatest
            )
            sag = member.deflection_array("dy", 101, "Combo 1")[1]
            deepest = float(np.abs(ours.stretch_sags_mm[0]).max())
            sampled.compare(
                "beam sag", abs(float(ours.stretch_sags_mm[0, i])), float(np.abs(sag).max()), size=deepest
            )
    assert worst.is_within(1e-6, cases=300)
    assert sampled.is_within(5e-3, cases=300)
