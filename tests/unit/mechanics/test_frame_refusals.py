"""Sections, slender bars, bracing and wall fixings that make no sense are refused, in one sentence."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, cast

import pytest

from pentice.errors import InputError, OutsideScope, PenticeError
from pentice.mechanics import bracing, lateral, profiles, wall_fixings

Refusal = tuple[Callable[[], object], type[PenticeError], str]
BAR = {"length_mm": 1000.0, "e_n_mm2": 7e4, "g_n_mm2": 2.7e4, "i_z_mm4": 1e4, "i_t_mm4": 300.0}
SQUARE = profiles.rectangle_outline(50.0, 50.0)


def _critical(shape: str = "even load", **changed: float) -> object:
    return lateral.critical_moment_n_mm(lateral.SlenderBar(**(BAR | changed)), cast("Any", shape))


def _knee(**changed: float) -> object:
    sizes: dict[str, Any] = {
        "posts": 2,
        "bay_mm": 3000.0,
        "height_mm": 2400.0,
        "knee_mm": 600.0,
        "reach_mm": 600.0,
    }
    return bracing.knee_braced_post(1000.0, **(sizes | changed))


def _fixing(**changed: float) -> object:
    sizes = {"shear_n": 1.0, "pull_n": 1.0, "shear_resistance_n": 1.0, "pull_resistance_n": 1.0}
    return wall_fixings.fixing_utilisation(**(sizes | changed))


REFUSALS: dict[str, Refusal] = {
    "two corners": (
        lambda: profiles.profile(((0, 0), (1, 0))),
        InputError,
        r"outline is 2 corners; expected three",
    ),
    "all hole": (
        lambda: profiles.profile(SQUARE, [SQUARE]),
        InputError,
        r"expected an outline larger than its holes",
    ),
    "thick wall": (lambda: profiles.rectangle_outline(60.0, 60.0, 30.0), OutsideScope, r"wall_mm is 30 mm"),
    "thick angle": (lambda: profiles.angle_outline(50.0, 50.0, 50.0), OutsideScope, r"thickness_mm is 50 mm"),
    "thick flange": (
        lambda: profiles.tee_outline(60.0, 60.0, 60.0, 2.0),
        OutsideScope,
        r"flange_mm is 60 mm",
    ),
    "flanges meet": (
        lambda: profiles.channel_outline(50.0, 100.0, 50.0, 5.0),
        OutsideScope,
        r"flange_mm is 50 mm",
    ),
    "a square is no circle": (
        lambda: profiles.round_tube_outline(60.0, 4),
        OutsideScope,
        r"sides is 4; expected 24",
    ),
    "thick plate": (
        lambda: profiles.open_torsion_mm4([(10.0, 5.0)]),
        OutsideScope,
        r"plate thickness is 5 mm",
    ),
    "no tube": (lambda: profiles.tube_torsion_mm4(0.0, 1.0, 1.0), OutsideScope, r"middle_area_mm2 is 0"),
    "shape of moment": (lambda: _critical("odd"), InputError, r"is odd; expected even moment or even load"),
    "no length": (lambda: _critical(length_mm=0.0), OutsideScope, r"length_mm is 0"),
    "high load": (
        lambda: _critical(load_above_shear_centre_mm=150.0),
        OutsideScope,
        r"load above the shear centre is 150 mm; expected -100 to 100",
    ),
    "thick tee": (
        lambda: lateral.tee_monosymmetry_mm(60.0, 60.0, 60.0, 2.0),
        OutsideScope,
        r"flange_mm is 60",
    ),
    "flat diagonal": (
        lambda: bracing.braced_bay(1.0, bay_mm=6000.0, height_mm=2000.0),
        OutsideScope,
        r"height of the braced bay is 2000 mm; expected 2184.*Brace a wider bay",
    ),
    "low knee": (lambda: _knee(knee_mm=1300.0), OutsideScope, r"knee_mm is 1300 mm; expected 1 to 1200 mm"),
    "steep knee": (lambda: _knee(reach_mm=200.0), OutsideScope, r"reach_mm is 200 mm.*30 to 60 degrees"),
    "one post": (lambda: _knee(posts=1), OutsideScope, r"posts is 1; expected 2"),
    "no foot": (
        lambda: bracing.cantilever_foot_moment_n_mm(1.0, 1.0, 0),
        OutsideScope,
        r"posts is 0.*brace the row",
    ),
    "fixing at the edge": (
        lambda: wall_fixings.ledger_pull(
            wall_fixings.LedgerLoad(down_n=1.0, offset_mm=1.0), above_heel_mm=10.0, below_top_mm=45.0
        ),
        OutsideScope,
        r"above_heel_mm is 10 mm.*Move the fixings",
    ),
    "no resistance": (
        lambda: _fixing(pull_resistance_n=0.0),
        OutsideScope,
        r"pull_resistance_n is 0 N.*test a fixing",
    ),
    "power": (lambda: _fixing(power=3.0), OutsideScope, r"power is 3; expected 1 to 2"),
}


@pytest.mark.parametrize("name", REFUSALS)
def test_what_makes_no_sense_is_refused(name: str) -> None:
    """The message says what, its value, what was expected."""
    call, kind, says = REFUSALS[name]
    with pytest.raises(kind, match=says):
        call()


def test_a_section_is_the_same_whichever_way_round_it_is_drawn() -> None:
    """Corners in either order give the same section."""
    tee = profiles.tee_outline(60.0, 60.0, 2.0, 2.0)
    assert profiles.profile(tuple(reversed(tee))).i_y_mm4 == pytest.approx(profiles.profile(tee).i_y_mm4)
