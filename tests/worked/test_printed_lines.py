"""Every printed line of a calculation gives its result from its own numbers, and every check rests on such lines.

The second route is `tests.printed`, which reads characters and imports nothing of the engine. A checking engineer has
the paper alone; so has it. Tolerance 0.2 %: numbers are printed with four figures, and a few are multiplied.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.design import Design
from pentice.pack.calculations.names import input_words
from pentice.pipeline import Assessed
from pentice.working import Step
from tests.designs import EXAMPLES, SEVEN, assessed, changed, design_of
from tests.printed import said_not_worked, worked_out
from tests.tries import tries

NOT_WORKED = {
    "Snow on the ground",
    "Step between the roofs that is worst at the wall",
    "Reference height",
    "Peak pressure",
    "Net coefficients, both faces; B and C are strips of a tenth",
    "Net coefficients of your own",
    "Sag at once",
    "Sag at the head",
    "Sag at the middle",
    "Sag at the foot",
    "Sag in the end",
    "Moment of the continuous beam",
    "Shear of the continuous beam",
    "Critical moment sideways",
    "On the post",
    "Pair of the frame across",
    "Rise of the beam at a knee brace across",
    "Square to the row, H",
    "Square to the row, thrust of the braces across",
    "Load under which it sways away, over its load",
    "Leans for each kN, in service",
    "In both its braces for each kN, in size",
    "One brace gives with both its ends",
    "Level at the foot, first order",
    "Down at its foot by the frame, beyond what its beam brings, first order",
    "Rafter on its beam, its load and its brace together, first order",
    "What lifts the rafter off its beam, its load and its brace together, first order",
    "What lifts the rafter there at once, first order",
    "Along the rafter, first order",
    "Moment in the rafter, first order",
    "Shear in the rafter, first order",
}
"""Lines that may say where their result was given, read or integrated; any other must be arithmetic."""
METAL = {
    "frame__post_section": "tube-steel-70",
    "frame__post_mm": [70.0, 70.0],
    "frame__beam_section": "tube-alu-60x120",
    "frame__beam_mm": [60.0, 120.0],
}
"""A steel post under an aluminium beam."""
BARE = {
    "cover-head": 1, "rafter-point": 1, "fall": 1, "bar-screw-edge": 1, "edge-cover": 2,
    "post-bowing": 1, "post-pulled": 1, "pad-pressure": 1, "hanger-down": 1, "wall-plate": 1, "wall-fixings": 1,
    "bracing": 1, "post-racking": 1, "post-walls": 1, "post-walls-pulled": 1, "rafter-sideways": 1,
    "hanger-level": 1, "rafter-tie-level": 1, "rafter-tie-head-level": 1, "post-tie-level": 1, "post-base-level": 1,
    "mullion-ends": 1, "sill-fixings": 1, "bracing-across": 1, "post-across": 1,
    "beam-sideways": 1,
}  # fmt: skip
"""So many of needs and has of a rule may be a bare input or limit that no line leads to."""


def steps_of(design: Design | Assessed) -> Iterator[Step]:
    """Every line of working that the calculations print."""
    loads = design.loads
    yield from (*loads.snow.working, *loads.wind.working, *loads.dead.working, *loads.imposed.working)
    for snow in loads.snow.cases:
        yield from snow.working
    for wind in loads.wind.cases:
        yield from wind.working
    for check in design.checks:
        yield from check.working


def wrong_lines(design: Design | Assessed) -> list[str]:
    """Lines whose numbers do not give their result."""
    found = []
    for step in steps_of(design):
        assert isinstance(step.result, float | int), step
        if said_not_worked(step.numbers):
            assert step.says in NOT_WORKED, step
            continue
        value = worked_out(step.numbers)
        if abs(value - step.result) > 0.002 * abs(step.result) + 2e-4:
            found.append(f"{step.says}: {step.numbers} is {value:.6g}, printed {step.result:.6g}")
    return found


@pytest.mark.parametrize("name", (*EXAMPLES, "plant-lobby"))
def test_every_line_gives_its_result_from_its_own_numbers(name: str) -> None:
    """All loads and all checks of an example, at every place."""
    design = design_of(name)
    assert wrong_lines(design) == []
    assert sum(not said_not_worked(step.numbers) for step in steps_of(design)) > 300


@pytest.mark.parametrize("name", (*EXAMPLES, "plant-lobby"))
def test_what_a_check_needs_and_has_stands_in_its_lines(name: str) -> None:
    """From the first line to the verdict without a gap: both numbers of the verdict are results of lines."""
    for check in design_of(name).checks:
        if check.demand is None or check.capacity is None:
            continue
        results = [abs(step.result) for step in check.working if not isinstance(step.result, str)]
        bare = [
            size
            for size in (abs(check.demand), abs(check.capacity))
            if not any(abs(size - result) <= 1e-6 * size + 1e-9 for result in results)
        ]
        assert len(bare) <= BARE.get(check.id.removeprefix("head-"), 0), (check.id, bare)


@tries(12)
@given(
    name=st.sampled_from((*EXAMPLES, "plant-lobby")),
    snow=st.floats(0.0, 3.0),
    wind=st.floats(18.0, 30.0),
    fit_c=st.floats(-5.0, 30.0),
)
def test_lines_of_random_weather_give_their_results(
    name: str, snow: float, wind: float, fit_c: float
) -> None:
    """More snow, more wind, another temperature: whatever governs then is worked out just as well."""
    weather = {
        "site__ground_snow_kn_m2": round(snow, 3),
        "site__vb0_m_s": round(wind, 2),
        "glazing__sheet_fit_c": round(fit_c, 1),
    }
    assert wrong_lines(assessed(changed(name, **weather))) == []


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        (
            {"site__annex": "UK", "site__altitude_m": 120.0, "site__distance_to_sea_km": 30.0},
            "Basic pressure",
        ),
        ({"glazing__sheet": "sheet-25-multi", "glazing__bar": "bar-60-35"}, "Sag, creep in"),
        ({"frame__noggins_at_mm": [1200.0], "frame__rafter_mm": [47.0, 170.0]}, "Slenderness"),
        ({"frame__rafter_notch_mm": 20.0}, "Factor of the cut"),
        ({**METAL, "site__vb0_m_s": 27.0}, "Bowing factor"),
        (
            {**METAL, "frame__beam_section": "i-steel-80x120", "frame__beam_mm": [80.0, 120.0]},
            "Left beside the shear",
        ),
        ({"site__altitude_m": 900.0}, "Snow that hangs over the foot, besides the snow on the roof"),
    ],
)
def test_lines_of_other_rules_give_their_results(changes: dict[str, Any], says: str) -> None:
    """The figures of the United Kingdom, another sheet, snow over the edge, a birdsmouth, metal under timber.

    Joints held by described fasteners: test_fasteners_of_joints.py.
    """
    design = assessed(changed("potting-bay", **changes))
    assert says in {step.says for step in steps_of(design)}
    assert wrong_lines(design) == []


@pytest.mark.parametrize("overhang", [250.0, 600.0, 901.0])
def test_lines_of_a_roof_that_runs_far_past_its_beam_give_their_results(overhang: float) -> None:
    """The load at the foot is the one at the very foot, whatever the last digits of its place."""
    assert wrong_lines(assessed(changed("cycle-shelter", roof__overhang_on_slope_mm=overhang))) == []


def test_a_wrong_line_is_found() -> None:
    """The reader itself: a digit changed is seen, and words behind a semicolon are not read."""
    assert worked_out("6 x 4.5085 x 10^6 / (95 x 220^2); R2") == pytest.approx(5.8832, abs=1e-4)
    assert worked_out("|−0.9 × 2 + cos(60)|") == pytest.approx(1.3)
    assert worked_out("max(0.8, min(2.1 / 2, 4)) x ln(7.05 / 0.05)") == pytest.approx(5.1962, abs=1e-4)
    with pytest.raises(ValueError, match="not arithmetic"):
        worked_out("'text'")


@pytest.mark.parametrize("name", (*EXAMPLES, "plant-lobby"))
def test_stresses_start_from_forces_that_stand_in_a_line_above(name: str) -> None:
    """The moment in 6 M / (b h^2) and the shear in 1.5 V / (k_cr b h) are results of lines of the same check."""
    for check in design_of(name).checks:
        results = [float(step.result) for step in check.working]
        for step in check.working:
            if step.says not in ("Bending stress", "Shear stress"):
                continue
            force = float(step.numbers.split(" x ")[1].split(" / ")[0])
            size = force / 1000.0 if step.says == "Shear stress" else force
            assert any(abs(size - abs(result)) < 2e-4 for result in results), (check.id, step)


@pytest.mark.parametrize("name", SEVEN)
def test_a_reaction_says_on_its_line_what_it_is(name: str) -> None:
    """R alone may be what arrives, what a beam brings, or a resistance: formula or clause says which. Exact: words."""
    found = 0
    for step in steps_of(design_of(name)):
        if re.search(r"\bR\b", step.formula):
            found += 1
            said = step.formula.startswith("R = ") or re.search(
                r"R (/ cos\(pitch\) )?of (each|the)", step.formula
            )
            assert said or re.search(r"\bR (all|of each|what)\b", step.clause), step
    assert found > 10


def test_what_is_asked_of_a_load_table_by_wind_on_a_side_follows_its_formula() -> None:
    """Signs, factor and 1.5 in hand stand in the numbers as in the formula; the table is characteristic. By hand.

    Outwards 0.6032: 1.5 x 0.6032 / 1.5, and not less than 0.6032 itself.
    """
    checks = [check for check in design_of("plant-lobby").checks if check.id == "side-wind-up"]
    step = next(
        s for s in max(checks, key=lambda c: c.demand or 0.0).working if s.says == "Asked of the table"
    )
    assert step.formula == "max(-w, -gamma_Q w / 1.5)"
    assert step.numbers == "max(-(-0.6032), -1.5 x (-0.6032) / 1.5)"
    assert step.result == pytest.approx(0.6032, abs=5e-5)


@pytest.mark.parametrize("name", SEVEN)
def test_whatever_braces_a_row_its_feet_are_told_their_level_share(name: str) -> None:
    """Braces of the job, or bracing that others have shown: the push over the number of posts. Exact: words."""
    design = design_of(name)
    for check in design.checks:
        if check.id not in ("bracing", "head-bracing") or check.verdict == "refused":
            continue
        frame, at_head = design.job.frame, check.id.startswith("head")
        count = len((at_head and frame.head_posts_at_mm) or frame.posts_at_mm)
        pushed = [
            s for s in check.working if s.says.startswith("Push along") or s.says == "Push with leaning"
        ]
        push = float(pushed[-1].result)
        assert f"Every foot also takes about {push / count:.2f} kN level from this push." in check.says


@pytest.mark.parametrize("name", SEVEN)
def test_every_check_that_a_beam_bends_or_sags_in_says_what_the_beam_itself_weighs(name: str) -> None:
    """Area by 420 kg/m3, the mean density of C24 in EN 338, by g and the factor of dead load in the case. By hand."""
    design, found = design_of(name), set()
    for check in design.checks:
        rule = check.id.removeprefix("head-")
        if rule not in (
            "beam-bending",
            "beam-shear",
            "beam-sag",
            "beam-sag-final",
            "beam-knees",
            "beam-across",
        ):
            continue
        if check.verdict == "refused":
            continue
        found.add(rule)
        frame = design.job.frame
        b, h = (check.id.startswith("head") and frame.head_beam_mm) or frame.beam_mm or (0.0, 0.0)
        factor = 0.9 if check.case.startswith("0.9 G") else 1.35 if check.case.startswith("1.35 G") else 1.0
        line = next(step for step in check.working if step.says == "The beam's own weight, along all of it")
        assert line.result == pytest.approx(factor * b * h * 1e-6 * 420.0 * 9.81e-3, rel=1e-9), check.id
    assert {"beam-bending", "beam-shear", "beam-sag", "beam-sag-final"} <= found


GIVEN = {
    "frame": (
        "rafter_mm", "beam_mm", "head_beam_mm", "post_mm", "posts_at_mm", "head_posts_at_mm", "wall_plate_mm",
        "knee_mm", "knee_across_mm", "mullion_mm", "sill_mm", "barge_board_mm", "noggin_mm", "rafter_notch_mm",
    ),
    "roof": ("width_mm", "projection_mm", "head_height_mm", "eaves_height_mm", "overhang_on_slope_mm"),
}  # fmt: skip
"""What of a job is a length that lines of working show as it was given, in mm or in m."""
NOT_GIVEN = {"Carried by the table": "spans of the table's rows", "Fall left": "a sag"}
OF_RULES = {"2.4": "c_f, EN 1991-1-4, 7.6", "150": "k_h, EN 1995-1-1, 3.2", "0.75": "1.5 psi_0, EN 1990"}
"""Numbers of rules that may be alike with a length."""


def given_lengths(design: Design) -> Iterator[tuple[str, float]]:
    """Every length of the job that `GIVEN` names, and the pitch of its roof, also where two heights give it."""
    for table, keys in GIVEN.items():
        for key in keys:
            value = getattr(getattr(design.job, table), key)
            for one in value if isinstance(value, tuple) else () if value is None else (value,):
                yield f"{table}.{key}", float(one)
    yield "roof.pitch_deg", design.shape.pitch_deg


def stands_for(token: str, path: str, value: float) -> bool:
    """Whether a printed number is this value: a length in mm, or in m with three places or more; a pitch with three."""
    number, places = float(token), len(token.partition(".")[2])
    if path == "roof.pitch_deg":
        return places >= 3 and abs(number - value) <= 0.5001 * 10.0**-places
    if value < 40.0:
        return False
    in_m = places >= 3 and abs(number - value / 1000.0) <= 0.5001 * 10.0**-places and value / 1000.0 >= 0.04
    return abs(number - value) <= max(0.5001 * 10.0**-places if places else 0.0, 1e-9) or in_m


@pytest.mark.parametrize("name", SEVEN)
def test_every_given_length_that_a_line_shows_stands_among_what_goes_in(name: str) -> None:
    """What a checking engineer reads in a line of working he finds above it, with its key and its mark. Exact: words.

    A number of a line that equals lengths of the job must equal a value of the check's inputs.
    """
    design = design_of(name)
    lengths, missing, seen = list(given_lengths(design)), set(), 0
    for check in design.checks:
        has = [
            float(one)
            for given in check.rests_on
            for one in (given.value if isinstance(given.value, tuple | list) else (given.value,))
            if isinstance(one, int | float)
        ]
        for step in check.working:
            if step.says in NOT_GIVEN:
                continue
            for token in re.findall(r"(?<![A-Za-z_\d.])\d+(?:\.\d+)?", step.numbers):
                alike = [(path, value) for path, value in lengths if stands_for(token, path, value)]
                if token in OF_RULES or not alike:
                    continue
                seen += 1
                if not any(abs(one - value) < 1e-6 for _, value in alike for one in has):
                    missing.add((check.id, step.says, token, alike[0][0]))
    assert not missing, sorted(missing)
    assert seen > 60


def test_places_of_posts_are_named_by_their_row_where_there_are_two() -> None:
    """Beside a wall there is one row and no more to say. Exact: words."""
    assert input_words("frame.posts_at_mm", two_rows=True) == "Posts at the eaves, centres from the left"
    assert input_words("frame.head_posts_at_mm", two_rows=True) == "Posts at the head, centres from the left"
    assert input_words("frame.posts_at_mm") == "Posts, centres from the left"
    for name in ("boat-rack", "log-store"):
        paths = {given.input for check in design_of(name).checks for given in check.rests_on}
        assert {"frame.posts_at_mm", "frame.head_posts_at_mm"} <= paths
        of_head = [c for c in design_of(name).checks if c.id == "head-beam-bending"]
        assert [g.input for g in of_head[0].rests_on if "posts_at" in g.input] == ["frame.head_posts_at_mm"]


SUMS = {
    "Weight that holds": 1, "Weight that holds it": 0, "On the post in all": 0, "Down on the ground": 0,
    "What lifts": 2, "Level at the foot": 0, "Turned": 0,
}  # fmt: skip
"""Sums on posts and pads, and how many of their first numbers say in formula or clause what they are."""


@pytest.mark.parametrize("name", SEVEN)
def test_what_sums_on_posts_and_pads_add_stands_on_lines_above(name: str) -> None:
    """Each number of four places and more of such a sum is a result of a line of the same check, or of the bracing.

    The push H itself stands with the bracing, to which its line points; lengths are geometry. Exact: digits.
    """
    design, seen = design_of(name), 0
    pushes = [
        float(step.result)
        for check in design.checks
        if check.id.removeprefix("head-") in ("bracing", "bracing-across")
        for step in check.working
        if step.says.startswith(("Push a", "Push with leaning"))
    ]
    for check in design.checks:
        results = list(pushes)
        for step in check.working:
            says = next(
                (word for word in ("Level at the foot", "Turned") if step.says.startswith(word)), step.says
            )
            if says in SUMS and not ("s H" in step.formula or "w l" in step.formula):
                tokens = re.findall(r"\d+\.\d{4,}", step.numbers.partition(";")[0])
                for token in tokens[SUMS[says] :]:
                    seen += 1
                    near = 0.51 * 10.0 ** -len(token.partition(".")[2])
                    assert any(abs(float(token) - abs(one)) <= near for one in results), (check.id, step)
            results.append(float(step.result))
    assert seen > 20


def test_posts_of_a_frame_braced_across_have_the_pair_of_that_frame() -> None:
    """In the log store the frames across press and lift more than the rows along. Exact: words."""
    checks = design_of("log-store").checks
    bowing = [
        step
        for c in checks
        if c.id == "post-bowing"
        for step in c.working
        if step.says == "On the post in all"
    ]
    assert bowing and all("pair of the frame across" in step.formula for step in bowing)
    beside = [step for c in design_of("cycle-shelter").checks if c.id == "post-base" for step in c.working]
    assert any("pair of the row" in step.formula for step in beside)
    assert not any("across" in step.formula for step in beside)


def test_a_held_foot_is_turned_by_the_push_with_all_the_wind_on_its_post_at_its_head() -> None:
    """Boat rack: H_p, the upper half, in the push turns it by h, as all of it at h / 2; the lower half pushes the pad.

    By hand, 7.6 with q_p 0.48814: the pad is turned by foot and by what goes level 0.8 m deeper.
    """
    checks = {(c.id, c.place.post): c for c in design_of("boat-rack").checks}
    feet = next(c for c in checks.values() if c.id == "bracing-across")
    pad = checks["pad-turning", feet.place.post]
    half = 1.5 * 2.4 * 0.48814 * 0.145 * 2.13846 / 2.0
    assert feet.demand is not None
    level = feet.demand / 2.2360  # h to the middle of the beam
    turned = next(s for s in pad.working if s.says.startswith("Turned by the push across"))
    assert turned.result == pytest.approx(feet.demand + (level + half) * 0.8, rel=1e-4)
    assert next(s for s in pad.working if s.says.startswith("At the foot of post")).result == feet.demand
    assert "Wind on the post brings more" in feet.says


@pytest.mark.parametrize(
    ("name", "rule"),
    [
        ("boat-rack", "post-bowing"),
        ("cycle-shelter", "post-bowing"),
        ("plant-lobby", "post-bowing"),
        ("boat-rack", "post-racking"),
        ("plant-lobby", "post-racking"),
        ("boat-rack", "post-across"),
    ],
)
def test_what_a_pressed_post_divides_by_stands_in_lines_above(name: str, rule: str) -> None:
    """N, stresses, strengths and bowing factor: each number of the sum is the result of a line before it."""
    found = [check for check in design_of(name).checks if check.id == rule]
    assert found
    for check in found:
        *before, last = check.working
        results = [float(step.result) for step in before if not isinstance(step.result, str)]
        for number in re.findall(r"\d+\.\d+", last.numbers):
            places = len(number.split(".")[1])
            if number != "0.7":  # k_m
                assert any(f"{result:.{places}f}" == number for result in results), (last.numbers, number)
        says = [step.says for step in before]
        assert "On the post in all" in says
        if last.clause.startswith("eq. 6.23") or last.clause.startswith("eq. 6.24"):
            assert any(line.startswith("Bowing factor") for line in says)
        assert any(rest.input.endswith(".class") for rest in check.rests_on)
