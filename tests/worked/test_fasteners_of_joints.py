"""Joints held down by nails, screws and bolts that the job describes: the whole resistance by hand.

The second route writes the equations of EN 1995-1-1, 8.2 out once more with bare numbers; nothing of the engine gives
an expected value. C24: rho_k 350 kg/m3, f_c,90,k 2.5 N/mm2. Wind is short: k_mod 0.9 in service class 2, 0.7 in 3.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from itertools import pairwise
from math import pi, sqrt
from typing import Any

import pytest

from pentice.checks.values import Check
from pentice.errors import InputError
from pentice.pack.method import order_of_work
from pentice.pack.site_sheet import site_page_of
from pentice.pipeline import solve
from tests.designs import assessed, catalogue, changed
from tests.worked.test_printed_lines import wrong_lines

NAILS: Mapping[str, Any] = {
    "joint": "rafter tie", "kind": "nail", "count": 6, "d_mm": 4, "f_u_n_mm2": 600, "plates": "one", "plate_mm": 2,
    "upper_mm": 45, "lower_mm": 45, "apart_mm": 45, "end_mm": 60, "edge_mm": 40,
}  # fmt: skip
BOLTS: Mapping[str, Any] = {
    "joint": "post tie", "kind": "bolt", "count": 2, "d_mm": 10, "f_u_n_mm2": 400, "plates": "none",
    "upper_mm": 70, "lower_mm": 95, "apart_mm": 60, "end_mm": 80, "edge_mm": 45, "washer_mm": 30,
}  # fmt: skip
IDS = {"rafter tie": "rafter-tie", "post tie": "post-tie", "hanger": "hanger-up"}
KEYS = {"rafter tie": "rafter_tie_kn", "post tie": "post_tie_kn", "hanger": "hanger_up_kn"}


def joint(described: Mapping[str, Any], **other: Any) -> Check:
    """The check of a joint of the old-rafter veranda whose fasteners are described: 70 x 145, beam 70 x 170."""
    fasteners = {k: v for k, v in {**described, **other}.items() if v is not None}
    name = str(fasteners["joint"])
    job = changed(
        "uneven-veranda", **{f"frame__{KEYS[name]}": None}, frame__fasteners=[fasteners], site__vb0_m_s=24.0
    )
    design = assessed(job)
    assert wrong_lines(design) == []
    found = [c for c in design.checks if c.id == IDS[name]]
    return max(found, key=lambda c: c.demand or 0.0)


def holds(check: Check) -> float:
    """R_d of the joint: the capacity less the weight that holds too, as the last line adds them [kN]."""
    weight = float(check.working[-1].numbers.split(" + ")[0])
    assert check.capacity is not None
    return check.capacity - weight


def test_a_strap_with_six_nails() -> None:
    """Mode b of a thin plate: 1.15 sqrt(2 M_y f_h d) each; rafter and beam alike; splitting does not govern."""
    moment, embedment = 0.3 * 600 * 4**2.6, 0.082 * 350 * 4**-0.3
    one = min(0.4 * embedment * 45 * 4, 1.15 * sqrt(2 * moment * embedment * 4))
    splitting = 14 * 70 * sqrt(40 / (1 - 40 / 145))
    assert 6 * one < splitting
    assert holds(joint(NAILS)) == pytest.approx(6 * one * 0.9 / 1.3 / 1000, abs=1e-4)


def test_a_pull_along_the_nails_adds_at_most_fifteen_percent() -> None:
    """A quarter of the declared 0.4 kN is 100 N, of 4 kN no more than 0.15 of the mode."""
    one = 1.15 * sqrt(2 * 0.3 * 600 * 4**2.6 * 0.082 * 350 * 4**-0.3 * 4)
    for declared, each in ((0.4, one + 100.0), (4.0, min(1.15 * one, 0.4 * 0.082 * 350 * 4**-0.3 * 45 * 4))):
        splitting = 14 * 70 * sqrt(40 / (1 - 40 / 170))
        held = min(6 * each, splitting)
        assert holds(joint(NAILS, axial_kn=declared)) == pytest.approx(held * 0.9 / 1.3 / 1000, abs=1e-4)


def test_two_bolts_through_beam_and_post() -> None:
    """Mode f with the rope effect of 30 mm washers; the beam splits first."""
    f_1, f_2 = 0.082 * 0.9 * 350 / 1.5, 0.082 * 0.9 * 350
    ratio, moment = f_2 / f_1, 0.3 * 400 * 10**2.6
    rope = min(3 * 2.5 * pi / 4 * (30**2 - 11**2), 0.9 * 400 * 58) / 4
    bent = 1.15 * sqrt(2 * ratio / (1 + ratio)) * sqrt(2 * moment * f_1 * 10)
    one = bent + min(rope, 0.25 * bent)
    post = min(2.0, 2**0.9 * (60 / 130) ** 0.25) * one
    splitting = 14 * 70 * sqrt(45 / (1 - 45 / 170))
    check = joint(BOLTS)
    assert holds(check) == pytest.approx(min(2 * one, post, splitting) * 0.7 / 1.3 / 1000, abs=1e-3)
    said = {step.says: float(step.result) for step in check.working}
    assert said["One through both"] == pytest.approx(one, rel=1e-6)
    assert said["All in the post"] == pytest.approx(post, rel=1e-6)


@pytest.mark.parametrize(
    ("plates", "plate", "each"),
    [
        ("one", 5.0, "b"),
        ("one", 8.0, "between"),
        ("one", 12.0, "d"),
        ("two", 4.0, "k"),
        ("inside", 6.0, "g"),
    ],
)
def test_bolts_at_steel(plates: str, plate: float, each: str) -> None:
    """Thin, thick and in between, outside and inside; across the grain of the rafter, M10 4.6. By hand.

    Through 70 mm the clamped bolt bends at one place: modes d and g are less than e and h.
    """
    f_h, moment = 0.082 * 0.9 * 350 / 1.5, 0.3 * 400 * 10**2.6
    thin, thick = 1.15 * sqrt(2 * moment * f_h * 10), 2.3 * sqrt(moment * f_h * 10)
    thick = min(thick, f_h * 70 * 10 * (sqrt(2 + 4 * moment / (f_h * 10 * 70**2)) - 1))
    one = {"b": thin, "k": thin, "d": thick, "g": thick, "between": thin + (thick - thin) * (2 * 0.8 - 1)}[
        each
    ]
    check = joint(
        BOLTS, joint="rafter tie", plates=plates, plate_mm=plate, upper_mm=70, lower_mm=70, washer_mm=None
    )
    said = {step.says: float(step.result) for step in check.working}
    assert said["One in the rafter"] == pytest.approx(one, rel=1e-6)
    planes = 1 if plates == "one" else 2
    assert said["All in the rafter"] == pytest.approx(2 * planes * one, rel=1e-6)


def test_screws_count_with_their_root() -> None:
    """d = 1.1 x 4 = 4.4 mm: M_y 0.3 f_u 4.4^2.6, f_h 0.082 rho 4.4^-0.3, in a thin strap. By hand."""
    one = 1.15 * sqrt(2 * 0.3 * 800 * 4.4**2.6 * 0.082 * 350 * 4.4**-0.3 * 4.4)
    check = joint(
        NAILS, joint="hanger", kind="screw", d_mm=6, root_mm=4, f_u_n_mm2=800, count=4, upper_mm=60,
        lower_mm=40, apart_mm=80, end_mm=90, edge_mm=60,
    )  # fmt: skip
    said = {step.says: float(step.result) for step in check.working}
    assert said["One in the rafter"] == pytest.approx(one, rel=1e-6)


def test_more_or_thicker_fasteners_never_hold_less() -> None:
    """Count, strength and diameter one after the other."""
    for key, values in {
        "count": (2, 3, 4, 6),
        "f_u_n_mm2": (600, 800, 1000),
        "d_mm": (3, 3.5, 4, 4.5),
        "axial_kn": (0.1, 0.3, 0.9),
        "edge_mm": (30, 40, 50),
    }.items():
        held = [holds(joint(NAILS, **{key: value})) for value in values]
        assert all(a <= b + 1e-9 for a, b in pairwise(held)), (key, held)


@pytest.mark.parametrize(
    ("other", "says"),
    [
        ({"apart_mm": 15}, "rafter: along is 15 mm; expected 20"),
        ({"end_mm": 30}, "rafter: free end is 30 mm; expected 40"),
        ({"edge_mm": 20}, "rafter: loaded edge is 20 mm; expected 28"),
        ({"upper_mm": 30}, "nail in the rafter is 30 mm; expected 32"),
        ({"count": 1}, "two nails or more"),
        ({"plate_mm": None}, "Give plate_mm"),
        ({"plates": "two"}, "takes bolts"),
        ({"kind": "screw"}, "Give root_mm"),
        ({"apart_mm": 0}, "Give apart_mm"),
        ({"f_u_n_mm2": 500}, "declared yield moment"),
    ],
)
def test_what_the_rules_do_not_cover_is_refused(other: dict[str, Any], says: str) -> None:
    """The force that is needed stands in the sentence all the same."""
    check = joint(NAILS, **other)
    assert check.verdict == "refused"
    assert check.says.startswith("Needs ") and says in check.says, check.says


def test_bolts_of_no_standard_size_have_no_rope_effect() -> None:
    """Nobody knows the stress area of an M11."""
    assert "d_mm of the bolts is 11" in joint(BOLTS, d_mm=11, apart_mm=60).says


def test_a_joint_is_declared_or_described_once() -> None:
    """One sentence for each contradiction."""
    with pytest.raises(InputError, match=r"fasteners\[1\].joint is \"rafter tie\" a second time"):
        changed("uneven-veranda", frame__rafter_tie_kn=None, frame__fasteners=[NAILS, NAILS])
    with pytest.raises(InputError, match="rafter_tie_kn declares already; give one of the two"):
        changed("uneven-veranda", frame__fasteners=[NAILS])


def test_described_fasteners_are_ordered_with_where_they_go() -> None:
    """Cycle shelter: ten rafters, four posts. Nails into strap and both timbers; bolts through, and no cap then."""
    job = changed(
        "cycle-shelter",
        frame__rafter_tie_kn=None,
        frame__post_tie_kn=None,
        frame__fasteners=[
            {**NAILS, "joint": "rafter tie", "count": 6, "length_mm": 60.0},
            {**BOLTS, "item": "bolt-set"},
        ],
    )
    design = solve(job, catalogue())
    lines = {line.part: line for line in design.order}
    rafters, posts = len(design.setting_out.plane.rafters), 4
    nails, bolts = lines["fasteners of rafter ties"], lines["fasteners of post ties"]
    assert nails.quantity == 2 * 6 * rafters
    assert nails.price == 0
    wanted = "6 nails 4 x 60 in each of the two timbers, 60 or more from ends, 40 or more from edges, 45 or more apart"
    assert nails.why.endswith(f"{wanted}: 12 a joint, {rafters} joints, as the job describes them.")
    assert nails.pieces == tuple(f"RF{k}" for k in range(1, rafters + 1))
    assert (bolts.quantity, bolts.spare) == (Decimal(2 * posts), Decimal(1))
    assert bolts.price == bolts.unit_price * bolts.packs > 0
    assert lines["post caps"].quantity == 0.0
    assert "timber on timber" in lines["post caps"].why
    assert lines["straps"].quantity == rafters
    assert lines["fasteners of hangers"].quantity == 0.0
    steps = order_of_work(design)
    starts = (
        "Posts and bases",
        "Post ties: 2 bolts 10 with nut",
        "Rafters from",
        f"Rafter ties: {wanted}.",
        "Diagonals",
    )
    first = next(k for k, step in enumerate(steps) if step.startswith(starts[0]))
    assert all(step.startswith(start) for step, start in zip(steps[first:], starts, strict=False))
    held = {line.item: line.passes for line in site_page_of(design).holds if line.hold == "A"}
    assert held["Rafter ties, each one"] == wanted
    assert "through both timbers" in held["Post ties, each one"]


def test_a_frame_that_stands_has_no_joint_to_fix() -> None:
    """The veranda's rafters stand already: what is described there is checked and neither ordered nor fixed."""
    job = changed("uneven-veranda", frame__rafter_tie_kn=None, frame__fasteners=[NAILS])
    design = solve(job, catalogue())
    assert not any("Rafter ties" in step for step in order_of_work(design))
    assert {line.part: line.quantity for line in design.order}["fasteners of rafter ties"] == 0


def test_fasteners_that_the_catalogue_does_not_hold_are_named() -> None:
    """The place, and the nearest name."""
    other = [{**NAILS, "item": "bolt-sett"}]
    job = changed("cycle-shelter", frame__rafter_tie_kn=None, frame__fasteners=other)
    with pytest.raises(InputError, match=r"fasteners\[0\].item is \"bolt-sett\".*bolt-set"):
        solve(job, catalogue())


def test_a_screw_of_another_size_or_kind_is_not_ordered_for_a_joint() -> None:
    """What is ordered is what is calculated: both sizes are named at once; a nail is no screw."""
    name, screw = next(iter(catalogue().screws.items()))
    same = {"item": name, "d_mm": screw.d_mm, "length_mm": screw.length_mm}

    def refused(**other: Any) -> str:
        fasteners = [{**NAILS, **same, "kind": "screw", **other}]
        with pytest.raises(InputError) as caught:
            solve(
                changed("cycle-shelter", frame__rafter_tie_kn=None, frame__fasteners=fasteners), catalogue()
            )
        return str(caught.value)

    both = refused(d_mm=screw.d_mm + 1.0, length_mm=screw.length_mm + 10.0)
    assert f'fasteners[0].d_mm is {screw.d_mm + 1.0:g}, but "{name}" has {screw.d_mm:g}' in both
    assert f"fasteners[0].length_mm is {screw.length_mm + 10.0:g}" in both
    assert 'kind is "nail"' in refused(kind="nail")
    held = [{**NAILS, **same, "kind": "screw"}]
    design = solve(changed("cycle-shelter", frame__rafter_tie_kn=None, frame__fasteners=held), catalogue())
    assert {line.part: line.item for line in design.order}["fasteners of rafter ties"] == f"screws.{name}"
