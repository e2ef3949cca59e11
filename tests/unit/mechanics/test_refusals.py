"""Mechanics refuses what is no beam, no sheet, no load, in one sentence."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from pentice.errors import InputError, OutsideScope, PenticeError
from pentice.mechanics.beam import Beam, overhang_beam
from pentice.mechanics.continuous import ContinuousBeam, continuous_beam
from pentice.mechanics.lines import drift_line, require_ordered
from pentice.mechanics.plate import PlateLoad, plate_extremes
from pentice.mechanics.section import Multiwall, PlateStiffness, plate_stiffness, shear_stiffness_across_n_m
from pentice.mechanics.temperature import sheet_temperature_c

EVEN = PlateLoad(head_kn_m2=1.0, foot_kn_m2=1.0)
PLATE = PlateStiffness(bx_n_m=1.0, by_n_m=1.0, b1_n_m=0.0, dt_n_m=0.5)
BEAM = Beam(span_mm=1000.0, overhang_mm=100.0, ei_n_mm2=1e9)


def _continuous(
    nodes: tuple[float, ...], held: tuple[int, ...], shape: tuple[int, ...], ei: float = 1e9
) -> object:
    return continuous_beam(ContinuousBeam(nodes_mm=nodes, held=held, ei_n_mm2=ei), np.ones(shape))


def _sunlit(absorptance: float, film: float) -> float:
    return sheet_temperature_c(
        absorptance=absorptance,
        sun_w_m2=1.0,
        outside_c=0.0,
        inside_c=0.0,
        outside_w_m2_k=film,
        inside_w_m2_k=0.0,
    )


REFUSALS: dict[str, tuple[Callable[[], object], type[PenticeError], str]] = {
    "no span": (lambda: overhang_beam(Beam(span_mm=0.0, ei_n_mm2=1e9), ()), OutsideScope, r"span_mm is 0 mm"),
    "no stiffness": (
        lambda: overhang_beam(Beam(span_mm=1.0, ei_n_mm2=0.0), ()),
        OutsideScope,
        r"ei_n_mm2 is 0",
    ),
    "no shear stiffness": (
        lambda: overhang_beam(Beam(span_mm=1.0, ei_n_mm2=1.0, shear_n=0.0), ()),
        OutsideScope,
        r"shear_n is 0 N",
    ),
    "short overhang": (
        lambda: overhang_beam(Beam(span_mm=1.0, overhang_mm=-1.0, ei_n_mm2=1.0), ()),
        OutsideScope,
        r"overhang_mm is -1 mm",
    ),
    "load beyond the tip": (
        lambda: overhang_beam(BEAM, ((0.0, 1.0), (1200.0, 1.0))),
        InputError,
        r"line load is 0 to 1200 mm; expected places from 0 to 1100 mm",
    ),
    "point beyond the tip": (
        lambda: overhang_beam(BEAM, (), ((1200.0, 1.0),)),
        OutsideScope,
        r"place of a point load is 1200 mm",
    ),
    "load out of order": (
        lambda: require_ordered(((500.0, 1.0), (400.0, 1.0)), 1000.0),
        InputError,
        r"line load is 400 mm after 500 mm; expected places in order",
    ),
    "drift of no length": (
        lambda: drift_line(1000.0, 1.0, 1.0, 0.0),
        OutsideScope,
        r"drift_length_mm is 0 mm",
    ),
    "member of no length": (lambda: drift_line(0.0, 1.0, 1.0, 1.0), OutsideScope, r"length_mm is 0 mm"),
    "one wall": (
        lambda: plate_stiffness(Multiwall(depth_mm=3.0, skins_mm=(3.0,), rib_mm=1.0, pitch_mm=10.0)),
        OutsideScope,
        r"walls is 1; expected 2 to 20",
    ),
    "solid sheet": (
        lambda: shear_stiffness_across_n_m(
            Multiwall(depth_mm=3.0, skins_mm=(1.5, 1.5), rib_mm=1.0, pitch_mm=10.0)
        ),
        OutsideScope,
        r"skins is 3 mm; expected 0 to 1.5 mm",
    ),
    "long plate": (
        lambda: plate_extremes(PLATE, 13000.0, 1000.0, EVEN),
        OutsideScope,
        r"along over across is 13; expected .* to 12 .*Use the strip",
    ),
    "no plate": (lambda: plate_extremes(PLATE, 1000.0, 0.0, EVEN), OutsideScope, r"across_mm is 0 mm"),
    "nodes out of order": (
        lambda: _continuous((0.0, 2.0, 1.0), (0, 1), (1, 2, 2)),
        InputError,
        r"expected at least two places in order",
    ),
    "another shape": (
        lambda: _continuous((0.0, 1.0), (0, 1), (1, 2, 2)),
        InputError,
        r"expected the shape \(cases, 1, 2\)",
    ),
    "not held": (
        lambda: _continuous((0.0, 1.0), (0,), (1, 1, 2)),
        InputError,
        r"supports is 1; expected two held nodes",
    ),
    "limp": (lambda: _continuous((0.0, 1.0), (0, 1), (1, 1, 2), 0.0), OutsideScope, r"ei_n_mm2 is 0"),
    "absorptance": (lambda: _sunlit(1.5, 10.0), OutsideScope, r"absorptance is 1.5; expected 0 to 1"),
    "no air": (lambda: _sunlit(0.5, 0.0), OutsideScope, r"surface coefficients is 0"),
}


@pytest.mark.parametrize("name", REFUSALS)
def test_what_is_no_beam_or_sheet_is_refused(name: str) -> None:
    """The message says what, its value, what was expected."""
    call, kind, says = REFUSALS[name]
    with pytest.raises(kind, match=says):
        call()
