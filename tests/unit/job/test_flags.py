"""Red flags of the survey: each flag has a survey that raises it and one just inside the limit that does not."""

from __future__ import annotations

import pytest

from pentice.job.flags import red_flags
from pentice.job.reading import job_from_text

SQUARE = "width_mm = 4800\nprojection_mm = 3000\npitch_deg = 10\n"


def flags_of(text: str) -> dict[str, str]:
    """Flags by the key path they are about."""
    return {flag.place: str(flag) for flag in red_flags(job_from_text(text))}


def test_a_survey_that_agrees_has_no_flag() -> None:
    """Diagonals of 4800 by 3000 are 5660.4; heights of 10 degrees over 3000 differ by 529.0."""
    text = f"[roof]\n{SQUARE}diagonals_mm = [5660, 5661]\nhead_height_mm = 2829\neaves_height_mm = 2300"
    assert flags_of(text) == {}


@pytest.mark.parametrize(
    ("inside", "outside", "place", "says"),
    [
        # closure: sqrt((d1² + d2²) / 2) against hypot(4800, 3000) = 5660.39
        (
            "[roof]\nwidth_mm = 4800\nprojection_mm = 3000\ndiagonals_mm = [5665, 5665]",
            "[roof]\nwidth_mm = 4800\nprojection_mm = 3000\ndiagonals_mm = [5666, 5666]",
            "roof.diagonals_mm",
            "make 5666, but width 4800 and projection 3000 make 5660.4: 5.6 apart, 5 at most",
        ),
        # skew: 5 mm in 5 m, so 5.66 for a diagonal of 5663
        (
            "[roof]\nwidth_mm = 4800\nprojection_mm = 3000\ndiagonals_mm = [5663, 5658]",
            "[roof]\nwidth_mm = 4800\nprojection_mm = 3000\ndiagonals_mm = [5663.5, 5657.5]",
            "roof.diagonals_mm",
            "differ by 6, 5.7 is allowed: the foot lies 3.5 to the side of the head",
        ),
        # running sizes: half a rafter in from both ends
        (
            "[roof]\nwidth_mm = 4800\n[frame]\nrafter_mm = [70, 170]\nrafter_centres_mm = [35, 2400, 4768]",
            "[roof]\nwidth_mm = 4800\n[frame]\nrafter_mm = [70, 170]\nrafter_centres_mm = [35, 2400, 4769]",
            "frame.rafter_centres_mm",
            "The last rafter's centre is 4769, but the width 4800 and half a rafter 35 put it at 4765: 4 apart",
        ),
        # without a rafter width the first centre tells it
        (
            "[roof]\nwidth_mm = 4800\n[frame]\nrafter_centres_mm = [40, 2400, 4760]",
            "[roof]\nwidth_mm = 4800\n[frame]\nrafter_centres_mm = [40, 2400, 4750]",
            "frame.rafter_centres_mm",
            "put it at 4760: 10 apart, 3 at most",
        ),
        # heights: tan 10° × 3000 = 529.0
        (
            f"[roof]\n{SQUARE}head_height_mm = 2830\neaves_height_mm = 2296.1",
            f"[roof]\n{SQUARE}head_height_mm = 2830\neaves_height_mm = 2295",
            "roof.pitch_deg",
            "The heights fall by 535, but 10.0° over 3000 falls by 529: 6 apart, 5 at most",
        ),
        (
            "[roof]\npitch_deg = 5",
            "[roof]\nprojection_mm = 3000\nhead_height_mm = 2500\neaves_height_mm = 2300",
            "roof.pitch_deg",
            "The pitch is 3.8°; 5° is the usual floor",
        ),
        (
            "[roof]\nwidth_mm = {readings = [4800, 4810]}",
            "[roof]\nwidth_mm = {readings = [4800, 4811]}",
            "roof.width_mm",
            "run from 4800 to 4811, 11 apart; 10 is usual at most. Measure again. We use 4805.5, the mean of them",
        ),
        (
            "[roof]\nprojection_mm = {readings = [3000, 3005]}",
            "[roof]\nprojection_mm = {readings = [3000, 3015]}",
            "roof.projection_mm",
            "We use 3000, the least of them",
        ),
        (
            "[roof]\nprojection_mm = 3000\nwall_offsets_mm = [[0, 0], [900, 8]]",
            "[roof]\nprojection_mm = {readings = [3000, 2992]}\nwall_offsets_mm = [[0, 0], [900, 8]]",
            "roof.wall_offsets_mm",
            "its bumps may count twice",
        ),
        (
            "[roof]\nwidth_mm = 4800\nwall_offsets_mm = [[0, 0], [4800, 8]]",
            "[roof]\nwidth_mm = 4800\nwall_offsets_mm = [[0, 0], [4900, 8]]",
            "roof.wall_offsets_mm",
            "at x 4900, outside the roof's width of 4800",
        ),
        (
            "[roof]\nwidth_mm = 4800\n[gutter]\noutlets_at_mm = [0]",
            "[roof]\nwidth_mm = 4800\n[gutter]\noutlets_at_mm = [4900]",
            "gutter.outlets_at_mm",
            "An outlet lies at x 4900",
        ),
        (
            "[roof]\nwidth_mm = 4800\n[house]\ndrains_at_mm = 900",
            "[roof]\nwidth_mm = 4800\n[house]\ndrains_at_mm = 4900",
            "house.drains_at_mm",
            "The pipe of the roof above lies at x 4900",
        ),
        # 3000 / cos 10° = 3046.3
        (
            f"[roof]\n{SQUARE}[frame]\npurlins_at_mm = [1500, 3046]",
            f"[roof]\n{SQUARE}[frame]\npurlins_at_mm = [1500, 3047]",
            "frame.purlins_at_mm",
            "A purlin lies 3047 down the slope, but the slope is 3046.3 long",
        ),
        (
            "[roof]\neaves_height_mm = 2300\n[frame]\nposts_at_mm = [100]\npost_feet_mm = [-80]",
            "[roof]\neaves_height_mm = 2300\n[frame]\nposts_at_mm = [100]\npost_feet_mm = [2400]",
            "frame.post_feet_mm",
            "A post's foot stands at 2400, not below the eaves height 2300",
        ),
        (
            "[roof]\nwidth_mm = 4800\n[[found]]\nkind = 'flue'\nx_mm = 4800",
            "[roof]\nwidth_mm = 4800\n[[found]]\nkind = 'flue'\nx_mm = -300",
            "found[0].x_mm",
            "Flue lies at x -300, outside the roof's width of 4800",
        ),
        (
            "[house]\nwall_top_above_mm = 2000\nlowest_wall_top_above_mm = 2000",
            "[house]\nwall_top_above_mm = 2000\nlowest_wall_top_above_mm = 2100",
            "house.lowest_wall_top_above_mm",
            "is 2100, more than its highest, 2000",
        ),
        (
            "[house]\ndepth_mm = 6000\nupper_slope_plan_mm = 3000",
            "[house]\ndepth_mm = 6000\nupper_slope_plan_mm = 7000",
            "house.upper_slope_plan_mm",
            "is 7000, more than the depth of the house, 6000",
        ),
    ],
)
def test_a_flag_is_raised_beyond_its_limit_and_not_before(
    inside: str, outside: str, place: str, says: str
) -> None:
    """Numbers by hand, in the comments; shown to a tenth."""
    assert place not in flags_of(inside)
    assert says in flags_of(outside)[place]


def opening(wall: str, x_mm: float, height_mm: float, side: str = "closed") -> str:
    """A roof 10 degrees over 3000 from 2829 down to 2300, with a window 900 wide in one wall."""
    return (
        f"[roof]\n{SQUARE}head_height_mm = 2829\neaves_height_mm = 2300\nleft = '{side}'\nright = 'closed'\n"
        f"front = 'closed'\n[[roof.openings]]\nwall = '{wall}'\nkind = 'window'\nx_mm = {x_mm}\nwidth_mm = 900\n"
        f"height_mm = {height_mm}\n[house]\n"
    )


@pytest.mark.parametrize(
    ("wall", "x_mm", "line_mm"),
    [
        ("front", 100, 2300.0),
        ("house", 100, 2829.0),
        # The left wall's left end, seen from outside, is at the house: 529 × 1000 / 3000 lower at 1000.
        ("left", 100, 2652.7),
        # The right wall's left end is at the foot: the low corner is at 100 from the foot.
        ("right", 100, 2317.6),
    ],
)
def test_a_window_may_not_stand_above_the_roof_line_at_its_place(
    wall: str, x_mm: float, line_mm: float
) -> None:
    """By proportion between the two heights; a millimetre below passes, one above is flagged."""
    assert flags_of(opening(wall, x_mm, line_mm - 1.0)) == {}
    assert (
        "above the roof line there"
        in flags_of(opening(wall, x_mm, line_mm + 1.0))["roof.openings[0].height_mm"]
    )


@pytest.mark.parametrize(("wall", "inside", "outside"), [("left", 2100, 2101), ("front", 3900, 3901)])
def test_a_window_may_not_stand_beside_its_wall(wall: str, inside: float, outside: float) -> None:
    """900 wide: in the end wall it must end within 3000, in the front within 4800."""
    assert "roof.openings[0].x_mm" not in flags_of(opening(wall, inside, 500))
    assert "outside the" in flags_of(opening(wall, outside, 500))["roof.openings[0].x_mm"]


def test_a_window_in_an_open_side_is_flagged() -> None:
    """There is no wall to hold it."""
    assert (
        "left side, which is open"
        in flags_of(opening("left", 100, 500, side="open"))["roof.openings[0].wall"]
    )


def test_what_may_lie_beside_the_roof_is_not_flagged() -> None:
    """A boundary or a tree stands beside it."""
    assert flags_of("[roof]\nwidth_mm = 4800\n[[found]]\nkind = 'tree'\nx_mm = 9000") == {}
