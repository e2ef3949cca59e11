"""A roof braced across by knee braces: printed lines, verdicts, what is refused or asked for, mirrored, more wind."""

from __future__ import annotations

import re
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.errors import InputError
from tests.designs import assessed, changed
from tests.tries import tries
from tests.worked.test_free_standing import NAME
from tests.worked.test_knees_across import KNEES, SIZES, STRONG, checks_of
from tests.worked.test_printed_lines import wrong_lines


def test_every_printed_line_gives_its_result() -> None:
    """The braced roof as it stands, weak and strong, with snow over the foot and feet at unlike levels."""
    for changes in (*SIZES, {"frame__post_feet_mm": [0.0, 120.0, 60.0], "frame__post_mm": [145.0, 195.0]}):
        assert wrong_lines(assessed(changed(NAME, **{**KNEES, **changes}))) == []


def test_what_needs_and_holds_stands_in_a_line() -> None:
    """Both numbers of each verdict are results of lines, but for what is declared."""
    declared = {"bracing-across", "knee-head", "knee-rafter-tie"}
    rules = {
        "bracing-across", "knee-head", "knee-rafter-tie", "knee-bearing", "post-across", "post-across-shear",
        "post-both-ways", "rafter-across", "rafter-across-shear", "beam-across", "head-beam-across",
        "beam-across-bearing",
    }  # fmt: skip
    found = [c for c in assessed(changed(NAME, **STRONG)).checks if c.id in rules]
    assert {c.id for c in found} == rules
    for check in found:
        assert check.demand is not None
        assert check.capacity is not None
        results = [abs(float(step.result)) for step in check.working]
        sizes = (
            [check.demand] if check.id in declared or check.unit == "of 1" else [check.demand, check.capacity]
        )
        for size in sizes:
            assert any(abs(size - result) <= 1e-9 * size for result in results), (check.id, size)


def test_a_roof_that_is_strong_enough_passes() -> None:
    """Nothing of the frame fails or is refused; what is left open in words is said."""
    found = assessed(changed(NAME, **STRONG)).checks
    assert {c.verdict for c in found if c.member in ("frame", "post", "beam", "base", "rafter")} == {"passes"}
    (braces,) = (c for c in found if c.id == "bracing-across")
    assert "Feet take up to" in braces.says
    (head,) = (c for c in found if c.id == "knee-head")
    assert "Turns the beam over between them" in [step.says for step in head.working]


@tries(3)
@given(wind=st.floats(16.0, 21.0), more=st.floats(1.02, 1.15))
def test_more_wind_is_never_less(wind: float, more: float) -> None:
    """Of every check of the frame that passes or fails."""
    less, greater = (checks_of(**{**STRONG, "site__vb0_m_s": round(v, 2)}) for v in (wind, wind * more))
    for at, check in less.items():
        if check.member in ("beam", "post", "base", "frame") and check.demand is not None and at in greater:
            assert (greater[at].demand or 0.0) >= check.demand * (1.0 - 1e-9), at


def test_the_mirrored_roof_is_the_same() -> None:
    """Posts and rafters mirrored: the same demands, post by post from the other end."""
    there = checks_of(frame__posts_at_mm=[72.5, 1876.25, 4907.5])
    back = checks_of(frame__posts_at_mm=[72.5, 3103.75, 4907.5])
    for post in (1, 2, 3):
        for rule in ("post-tie", "pad-turning", "pad-sliding"):
            assert there[rule, post].demand == pytest.approx(back[rule, 4 - post].demand, rel=1e-6), rule
    for rule in (
        "bracing-across",
        "knee-head",
        "post-across",
        "rafter-across",
        "knee-bearing",
        "beam-across",
    ):
        here, mirrored = ([c.demand for (r, _), c in of.items() if r == rule] for of in (there, back))
        assert here == pytest.approx(mirrored, rel=1e-6), rule


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        (
            {"frame__posts_at_mm": [110.0, 2490.0, 4870.0]},
            r"a rafter over every post, within its width: at post 1, 145 wide at 110 mm, the nearest rafter, 70 wide, "
            r"stands 75 mm from its middle. Move the post in frame.posts_at_mm, to 35,",
        ),
        (
            {"frame__head_posts_at_mm": [72.5, 2000.0, 4907.5]},
            r"posts opposite each other: post 2 at 2490 mm has post 5 at 2000 mm nearest",
        ),
        (
            {"frame__post_mm": [60.0, 145.0]},
            r"as wide as the rafters over them: post 1 is 60 wide, the rafter 70",
        ),
        (
            {"frame__knee_across_mm": [350.0, 350.0]},
            r"at post 1 would run into the beam: its middle line passes \d+ mm below it; 50 or more .* Take more down",
        ),
        (
            {"frame__knee_across_mm": [1400.0, 1100.0]},
            r"post \d: (down|along) .* Take less in frame.knee_across_mm",
        ),
        ({"frame__knee_across_mm": [500.0, 1100.0]}, r"its rise .* 30 to 60 degrees"),
        (
            {"frame__post_section": "tube-steel-70", "frame__post_mm": [70.0, 70.0]},
            r"for timber posts, not for posts of metal. Give frame.bracing_across_kn",
        ),
        (
            {f"roof__{side}": "closed" for side in ("left", "right", "front", "back")}
            | {"roof__use": "lean-to"},
            r"a roof with open sides; walls bend its posts too. Give frame.bracing_across_kn",
        ),
        (
            {"frame__knee_across_mm": [400.0, 400.0]},
            r"sway away under \d.\d times their load; 3 or more is needed here",
        ),
    ],
)
def test_what_is_not_calculated_is_refused_with_the_push(changes: dict[str, Any], says: str) -> None:
    """One check, one sentence, the force, and the way out; the feet count as shared evenly."""
    found = assessed(changed(NAME, **{**KNEES, **changes})).checks
    (check,) = (c for c in found if c.id == "bracing-across")
    assert check.verdict == "refused"
    assert check.demand is not None
    assert check.demand > 5.0
    assert re.search(says, check.says), check.says
    assert not [c for c in found if c.id in ("post-across", "knee-head", "rafter-across")]


def test_a_beam_of_metal_is_refused_where_it_is_bent_level() -> None:
    """The moment is said; so is the force on its web."""
    found = checks_of(frame__beam_section="tube-alu-60x120", frame__beam_mm=[60.0, 120.0])
    for rule in ("beam-across", "head-beam-across"):
        assert found[rule, None].verdict == "refused"
        assert "bent level by" in found[rule, None].says
    (web,) = (c for (rule, _), c in found.items() if rule == "beam-across-bearing")
    assert web.verdict == "refused"


def test_what_is_not_declared_is_asked_for_by_its_key() -> None:
    """Brace, joint against level force and rolling, and tie: each with its force."""
    bare = {
        f"frame__{key}": None for key in ("brace_across_kn", "knee_head_kn", "knee_head_knm", "knee_tie_kn")
    }
    found = [c for c in assessed(changed(NAME, **{**STRONG, **bare, "frame__rafter_tie_kn": None})).checks]
    for rule, key in (
        ("bracing-across", "brace_across_kn"),
        ("knee-head", "knee_head_kn and frame.knee_head_knm"),
        ("knee-rafter-tie", "knee_tie_kn"),
    ):
        (check,) = (c for c in found if c.id == rule)
        assert check.verdict == "refused"
        assert f"frame.{key}" in check.says
        assert f"{check.demand:.2f} kN" in check.says


def test_keys_of_braces_across_are_for_a_free_standing_roof() -> None:
    """On a wall they are named."""
    keys = {"knee_across_mm": [700.0, 700.0], "brace_across_kn": 5.0, "brace_across_n_mm": 4000.0, "knee_tie_kn": 5.0,
            "knee_head_kn": 5.0, "knee_head_knm": 5.0}  # fmt: skip
    with pytest.raises(InputError, match="is for a free-standing roof") as fault:
        changed("potting-bay", **{f"frame__{key}": value for key, value in keys.items()})
    assert {problem.place for problem in fault.value.problems} == {f"frame.{key}" for key in keys}


def test_closed_walls_beside_knee_braces_across_are_refused_with_the_way_out() -> None:
    """Held feet, or bracing that others have shown, are calculated with them."""
    closed = {f"roof__{side}": "closed" for side in ("left", "right", "front", "back")}

    def posts(**changes: Any) -> set[str]:
        checks = assessed(changed("boat-rack", **closed, **changes)).checks
        return {c.says if c.verdict == "refused" else "" for c in checks if c.id == "post-walls"}

    (says,) = posts(frame__bracing_across="knee braces")
    assert "Hold the feet against turning instead, or give frame.bracing_across_kn" in says
    assert posts(frame__bracing_across="fixed feet") == {""}
    assert posts(frame__bracing_across=None, frame__bracing_across_kn=20.0) == {""}
