"""Winds worked out together against their lines one by one: bearings, screws, and which rafters are alike."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from pentice.checks.ground import Ground
from pentice.checks.rafter_loads import rafter_lines
from pentice.checks.rafter_model import rafter_models
from pentice.checks.rafter_winds import wind_at_ends_n, wind_lines, wind_on_bars_n, zones_on_rafters
from pentice.mechanics.lines import LineLoad
from tests.designs import EXAMPLES
from tests.worked.test_frame import ground_of


def force_and_turning(line: LineLoad, low: float, high: float) -> tuple[float, float]:
    """Of a line load in steps between two places: force [N], and its turning about the wall face [N mm]."""
    parts = [
        (max(a, low), min(b, high), q) for (a, q), (b, _) in pairwise(line) if min(b, high) > max(a, low)
    ]
    return sum((b - a) * q for a, b, q in parts), sum((b * b - a * a) / 2.0 * q for a, b, q in parts)


@pytest.fixture(params=EXAMPLES)
def ground(request: pytest.FixtureRequest) -> Ground:
    """What the checks of an example stand on."""
    return ground_of(request.param)


def test_each_wind_brings_to_the_bearings_what_its_line_comes_to(ground: Ground) -> None:
    """Zones as rectangles against steps along the slope: the same force, and the same turning. Tolerance: rounding."""
    models = ground.once(rafter_models)
    areas = [0.5 + k for k in range(len(models))]
    ends = wind_at_ends_n(ground, areas)
    for k, model in enumerate(models):
        for n, (_, line) in enumerate(wind_lines(ground, k, areas[k])):
            force, turning = force_and_turning(line, 0.0, model.strip.length_mm)
            foot = (turning - force * model.start_mm) / model.span_mm
            assert ends[n, k].tolist() == pytest.approx([force - foot, foot], rel=1e-9, abs=1e-6)


def test_each_wind_lifts_a_stretch_of_a_bar_by_its_line(ground: Ground) -> None:
    """Two stretches of each bar, counted from its foot, one past its end. Tolerance: rounding."""
    models = ground.once(rafter_models)
    for k, model in enumerate(models):
        end = model.strip.length_mm
        stretches = np.array([(0.0, end / 3.0), (end / 4.0, end + 50.0)])
        found = wind_on_bars_n(ground, [k, k], stretches)
        for n, (_, line) in enumerate(wind_lines(ground, k, 1.0)):
            for place, (low, high) in enumerate(stretches.tolist()):
                force, _ = force_and_turning(line, end - high, end - low)
                assert found[n, place] == pytest.approx(force, rel=1e-9, abs=1e-6)


def test_rafters_of_one_key_feel_the_same_winds(ground: Ground) -> None:
    """Rafters under the same zones: the same names, places and loads, to rounding; of those of one width."""
    first: dict[tuple[bytes, float], list[tuple[str, LineLoad]]] = {}
    for model, zones in zip(ground.once(rafter_models), zones_on_rafters(ground), strict=True):
        lines = rafter_lines(ground, model)
        winds = [*lines.down, *lines.up, *lines.down_accidental, *lines.up_accidental]
        alike = first.setdefault((zones, round(model.strip.length_mm, 6)), winds)
        assert [name for name, _ in winds] == [name for name, _ in alike]
        for (_, ours), (_, theirs) in zip(winds, alike, strict=True):
            assert np.array(ours) == pytest.approx(np.array(theirs), rel=1e-9, abs=1e-6)


def test_rafters_at_both_verges_of_an_open_roof_are_alike() -> None:
    """The canoe rack stands free and even: its first rafter is as its last, its second as its last but one."""
    zones = zones_on_rafters(ground_of("boat-rack"))
    assert zones == zones[::-1]
    assert len(set(zones)) == 3
