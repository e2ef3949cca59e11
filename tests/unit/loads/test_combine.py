"""Combinations: factors, leading and accompanying, what never stands together, and for how long.

Expected factors: EN 1990, Tables A1.1 and A1.2, as the annex files hold them, multiplied by hand.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from pentice.loads.combine import Combination, combinations_of
from pentice.standards.annex import load_annex
from pentice.standards.en1990 import (
    characteristic_6_14b,
    combination_6_10,
    combination_6_10a,
    combination_6_10b,
    equilibrium,
)

EN = load_annex("EN")
DEAD, SNOW, WIND_DOWN, WIND_UP = 0.25, 0.60, 0.20, -0.80
EXACT = 1e-12
"""The same few products in another order."""


def value(c: Combination, *, wind: float = WIND_DOWN) -> float:
    """The combination of one square metre."""
    return c.dead * DEAD + c.snow * SNOW + c.wind * wind


def the(kind: str, *, altitude_m: float = 100.0, **has: object) -> Combination:
    """The one combination of a kind with these fields."""
    found = [
        c
        for c in combinations_of(EN, altitude_m)
        if c.kind == kind and all(getattr(c, key) == wanted for key, wanted in has.items())
    ]
    assert len(found) == 1, [c.name for c in found]
    return found[0]


def test_snow_leads_and_wind_goes_along() -> None:
    """1.35 x 0.25 + 1.5 x 0.6 + 0.9 x 0.2 = 1.4175, as expression 6.10 itself gives it."""
    c = the("strength", snow=1.5, wind_sense="down")
    assert value(c) == pytest.approx(1.4175, rel=EXACT)
    expected = combination_6_10(
        factors=EN.factors, unfavourable=DEAD, leading=SNOW, accompanying=((WIND_DOWN, 0.6),)
    )
    assert value(c) == pytest.approx(expected, rel=EXACT)


def test_wind_leads_and_snow_goes_along() -> None:
    """1.3375 x ... : 0.3375 + 0.3 + 0.75 x 0.6 = 1.0875."""
    assert value(the("strength", wind=1.5, snow=0.75)) == pytest.approx(1.0875, rel=EXACT)


def test_wind_that_presses_stands_alone_too() -> None:
    """Snow that helps is left out (EN 1990, 6.4.3.1): 0.3375 + 0.3 = 0.6375, and 0.25 + 0.2 = 0.45 for sags."""
    assert value(the("strength", wind=1.5, snow=0.0)) == pytest.approx(0.6375, rel=EXACT)
    assert value(the("characteristic", wind_sense="down", snow=0.0)) == pytest.approx(0.45, rel=EXACT)


def test_the_own_weight_stands_alone_for_good() -> None:
    """G alone is permanent: the lowest k_mod may govern."""
    c = the("strength", snow=0.0, wind=0.0, imposed=0.0)
    assert (c.dead, c.duration) == (1.35, "permanent")


def test_uplift_takes_nine_tenths_of_the_weight() -> None:
    """0.9 x 0.25 - 1.5 x 0.8 = -0.975, by the equilibrium expression."""
    c = the("uplift", dead=0.9, wind_accidental=False)
    assert value(c, wind=WIND_UP) == pytest.approx(-0.975, rel=EXACT)
    expected = equilibrium(factors=EN.factors, stabilising=DEAD, leading=WIND_UP)
    assert value(c, wind=WIND_UP) == pytest.approx(expected, rel=EXACT)


def test_strength_uplift_is_shown_and_never_the_worse() -> None:
    """1.0 G + 1.5 W = -0.95 lifts less than 0.9 G + 1.5 W at any weight."""
    shown = the("uplift", dead=1.0)
    assert value(shown, wind=WIND_UP) == pytest.approx(-0.95, rel=EXACT)
    assert shown.wind == the("uplift", dead=0.9, wind_accidental=False).wind


def test_no_uplift_is_eased_by_snow() -> None:
    """Snow may have gone when the gale comes."""
    assert all(c.snow == 0.0 for c in combinations_of(EN, 100.0) if c.wind_sense == "up")


def test_imposed_load_never_stands_with_snow_or_wind() -> None:
    """EN 1991-1-1, 3.3.2(1)."""
    imposed = [c for c in combinations_of(EN, 100.0) if c.imposed]
    assert imposed
    assert all(c.snow == c.wind == 0.0 for c in imposed)


def test_the_shortest_action_rules_a_combination() -> None:
    """Above 1000 m snow is medium: alone it has medium, with wind it has the wind's short duration."""
    assert the("strength", altitude_m=1200.0, snow=1.5, wind=0.0).duration == "medium"
    assert the("strength", altitude_m=1200.0, snow=1.5, wind_sense="down").duration == "short"


def test_wind_is_instantaneous_only_when_the_user_says_so() -> None:
    """UK practice, asked for by the job."""
    assert {c.duration for c in combinations_of(EN, 100.0) if c.wind} == {"short", "permanent"}
    said = combinations_of(EN, 100.0, wind_instantaneous=True)
    assert {c.duration for c in said if c.kind == "uplift"} == {"instantaneous"}


def test_psi_of_snow_follows_the_altitude() -> None:
    """psi_0 0.5 up to 1000 m and 0.7 above: 0.75 and 1.05 beside leading wind."""
    assert the("strength", altitude_m=1000.0, wind=1.5, snow=pytest.approx(0.75)).wind == 1.5
    assert the("strength", altitude_m=1001.0, wind=1.5, snow=pytest.approx(1.05)).wind == 1.5


def test_accidents_take_no_partial_factor() -> None:
    """Exceptional snow: G + A, with nothing else of the snow; a door open by accident: wind times 1."""
    snow = the("accidental", snow_accidental=True)
    assert (snow.dead, snow.snow, snow.wind) == (1.0, 1.0, 0.0)
    assert the("accidental", wind_accidental=True).wind == 1.0
    assert the("uplift", wind_accidental=True).wind == 1.0


def test_the_characteristic_combination_is_that_of_the_standard() -> None:
    """0.25 + 0.6 + 0.6 x 0.2 = 0.97, as expression 6.14b gives it."""
    c = the("characteristic", snow=1.0, wind_sense="down")
    expected = characteristic_6_14b(permanent=DEAD, leading=SNOW, accompanying=((WIND_DOWN, 0.6),))
    assert value(c) == pytest.approx(0.97, rel=EXACT)
    assert value(c) == pytest.approx(expected, rel=EXACT)


def test_an_annex_that_says_so_runs_6_10a_and_6_10b() -> None:
    """Each value of either expression is among the combinations, and none is above 6.10."""
    annex = replace(load_annex("UK"), combination="6.10a/b")
    found = [c for c in combinations_of(annex, 100.0) if c.kind == "strength"]
    values = [value(c) for c in found if not c.imposed]
    a = combination_6_10a(factors=annex.factors, unfavourable=DEAD, variable=((SNOW, 0.5), (WIND_DOWN, 0.5)))
    b = combination_6_10b(
        factors=annex.factors, unfavourable=DEAD, leading=SNOW, accompanying=((WIND_DOWN, 0.5),)
    )
    assert any(v == pytest.approx(a, rel=EXACT) for v in values)
    assert max(values) == pytest.approx(b, rel=EXACT) == pytest.approx(1.3622, abs=0.00005)
    assert {c.clause for c in found} == {"EN 1990, 6.10a", "EN 1990, 6.10b"}


def test_6_10_is_what_an_annex_that_says_nothing_else_runs() -> None:
    """One clause, and no name twice."""
    found = [c for c in combinations_of(EN, 100.0) if c.kind == "strength"]
    assert {c.clause for c in found} == {"EN 1990, 6.10"}
    names = [c.name for c in combinations_of(EN, 100.0)]
    assert len(names) == len(set(names))
