"""The independent checker of plans finds every way in which a plan can be wrong."""

from __future__ import annotations

import copy
from collections.abc import Callable
from typing import Any

import pytest

from tests.plan_checker import faults_of_plan, separable, stages_of

_Plan = dict[str, Any]

SHEETS: _Plan = {
    "kind": "2d_guillotine_oriented",
    "kerf": 4,
    "trim_edge": 10,
    "offcut_rule": {"min_w": 200, "min_h": 500, "value_fraction_of_area_price": 0.5},
    "stock": [
        {"w": 1000, "h": 2000, "cost": 9001, "qty": 1},
        {"w": 400, "h": 600, "cost": 0, "qty": 1, "offcut": True},
    ],
    "items": [{"w": 480, "h": 900, "d": 2}, {"w": 400, "h": 600, "d": 1}],
}


def _at(piece: str, x: int, y: int, w: int, h: int) -> _Plan:
    return {"piece": piece, "x_mm": x, "y_mm": y, "width_mm": w, "length_mm": h}


def _good() -> _Plan:
    """Two pieces side by side, what is below them kept, and an offcut used whole.

    By hand: 980 x 1076 kept of 1000 x 2000 at 9001: half of its share is 2372.85 (rounded down), so 6629 is left.
    """
    kept = {"x_mm": 10, "y_mm": 914, "width_mm": 980, "length_mm": 1076}
    return {
        "cost": 6629,
        "bound": 6629,
        "proven": True,
        "plan": {
            "sheets": [
                {
                    "stock": 0,
                    "placements": [_at("0.0", 10, 10, 480, 900), _at("0.1", 494, 10, 480, 900)],
                    "offcuts": [kept],
                },
                {"stock": 1, "placements": [_at("1.0", 0, 0, 400, 600)]},
            ]
        },
    }


def _change(plan: _Plan, sheet: int, place: int, **values: object) -> None:
    plan["plan"]["sheets"][sheet]["placements"][place].update(values)


def test_a_good_plan_of_sheets_has_no_fault() -> None:
    """Kerf, trims, an offcut used whole and the value of what is kept."""
    assert faults_of_plan(SHEETS, _good()) == []


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (lambda p: _change(p, 0, 1, x_mm=493), "cannot be cut edge to edge"),
        (lambda p: _change(p, 0, 0, x_mm=9), "lies outside"),
        (lambda p: _change(p, 0, 1, y_mm=1200, x_mm=494), "cannot be cut edge to edge"),
        (lambda p: _change(p, 0, 0, width_mm=900, length_mm=480), "not 480 x 900"),
        (lambda p: _change(p, 0, 1, piece="0.0"), "is cut 2 times"),
        (lambda p: _change(p, 0, 1, piece="0.2"), "is not wanted"),
        (lambda p: p["plan"]["sheets"].pop(), "pieces are not cut"),
        (lambda p: p["plan"]["sheets"][1].update(stock=0), "is used 2 times"),
        (lambda p: p["plan"]["sheets"][1].update(stock=2), "there is no stock 2"),
        (lambda p: p["plan"]["sheets"][0]["offcuts"][0].update(width_mm=199), "no offcut worth keeping"),
        (lambda p: p["plan"]["sheets"][0]["offcuts"][0].update(y_mm=913), "cannot be cut edge to edge"),
        (lambda p: p.update(cost=6628), "the cost is 6629, not 6628"),
        (lambda p: p.update(bound=6630), "above the cost"),
        (lambda p: p.update(bound=6600), "called proven"),
        (lambda p: _change(p, 0, 0, x_mm=10.5), "no whole number"),
    ],
)
def test_every_broken_plan_of_sheets_is_found(spoil: Callable[[_Plan], object], says: str) -> None:
    """One thing spoiled in a good plan is one sentence that names it."""
    plan = copy.deepcopy(_good())
    spoil(plan)
    assert any(says in fault for fault in faults_of_plan(SHEETS, plan))


LENGTHS: _Plan = {
    "kind": "1d",
    "kerf": 3,
    "end_trim": 5,
    "offcut_rule": {"min_l": 300, "value_fraction_of_length_price": 0.5},
    "stock": [{"l": 3000, "cost": 3000, "qty": None}, {"l": 700, "cost": 0, "qty": 1, "offcut": True}],
    "items": [{"l": 1200, "d": 2}, {"l": 700, "d": 1}],
}


def _good_lengths() -> _Plan:
    """By hand: 5 + 1200 + 3 + 1200 + 3 = 2411, so 584 of 2995 are kept, worth 292."""
    first = [
        {"piece": "0.0", "at_mm": 5, "length_mm": 1200},
        {"piece": "0.1", "at_mm": 1208, "length_mm": 1200},
    ]
    return {
        "cost": 2708,
        "bound": 2000,
        "proven": False,
        "plan": {
            "lengths": [
                {"stock": 0, "pieces": first, "offcuts": [{"at_mm": 2411, "length_mm": 584}]},
                {"stock": 1, "pieces": [{"piece": "1.0", "at_mm": 0, "length_mm": 700}]},
            ]
        },
    }


def test_a_good_plan_of_lengths_has_no_fault() -> None:
    """Ends trimmed of new stock only, kerf between, value of what is kept."""
    assert faults_of_plan(LENGTHS, _good_lengths()) == []


@pytest.mark.parametrize(
    ("place", "values", "says"),
    [
        (1, {"at_mm": 1207}, "overlaps or leaves no kerf"),
        (0, {"at_mm": 4}, "overlaps or leaves no kerf"),
        (0, {"length_mm": 1199}, "not 1200"),
        (1, {"at_mm": 1800}, "the stock gives 2995"),
    ],
)
def test_every_broken_plan_of_lengths_is_found(place: int, values: dict[str, int], says: str) -> None:
    """A place or a length changed is found."""
    plan = _good_lengths()
    plan["plan"]["lengths"][0]["pieces"][place].update(values)
    assert any(says in fault for fault in faults_of_plan(LENGTHS, plan))


def test_a_pinwheel_cannot_be_cut_edge_to_edge() -> None:
    """Four pieces round a hole fit without overlap, and no straight cut goes through."""
    wheel = [(0, 0, 2, 1), (2, 0, 3, 2), (1, 2, 3, 3), (0, 1, 1, 3)]
    assert not separable(wheel, 0)
    assert separable(wheel[:3], 0)
    assert not separable(wheel[:2], 1)


@pytest.mark.parametrize(
    ("boxes", "stages"),
    [
        ([(0, 0, 10, 10)], 0),
        ([(0, 0, 4, 10), (5, 0, 10, 10)], 1),
        ([(0, 0, 4, 10)], 1),
        ([(0, 0, 4, 4)], 2),
        ([(0, 0, 4, 10), (5, 0, 10, 4), (5, 5, 10, 10)], 2),
        ([(0, 0, 4, 10), (5, 0, 10, 4), (5, 5, 7, 10), (8, 5, 10, 10)], 3),
        ([(0, 0, 4, 10), (5, 0, 10, 4), (5, 5, 7, 8), (8, 5, 10, 10)], 4),
    ],
)
def test_stages_are_changes_of_direction(boxes: list[tuple[int, int, int, int]], stages: int) -> None:
    """By hand, on 10 x 10 with a kerf of 1: whole, one rip, a corner piece, and one more change with each part."""
    assert stages_of(boxes, (0, 0, 10, 10), 1) == stages
    turned = [(y, x, v, u) for x, y, u, v in boxes]
    assert stages_of(turned, (0, 0, 10, 10), 1) == stages


def test_a_pinwheel_has_no_number_of_stages_and_too_many_are_a_fault() -> None:
    """A plan that says two stages and needs three is found."""
    assert stages_of([(0, 0, 2, 1), (2, 0, 3, 2), (1, 2, 3, 3), (0, 1, 1, 3)], (0, 0, 3, 3), 0) is None
    plan = _good()
    assert faults_of_plan(SHEETS, {**plan, "stages": 9}) == []
    assert any("stages of cuts, not 1" in fault for fault in faults_of_plan(SHEETS, {**plan, "stages": 1}))
