"""Bays that read narrower leave the side sheets as they are: the ordered sheets still give both."""

from __future__ import annotations

from dataclasses import replace

import pytest

from pentice.advice.measured import FrameNews, news_of_frame
from pentice.advice.measured_sides import comes_out_of
from pentice.cli.measuring import news_lines
from pentice.pipeline import solve
from tests.designs import assessed, catalogue, changed, design_of


def _news(first_mm: float) -> FrameNews:
    """The plant lobby, its first bay measured between the stems; the others not read."""
    bays = [[first_mm] * 3, *([["-"] * 3] * 3)]
    return news_of_frame(changed("plant-lobby", measured__between_stems_mm=bays), catalogue())


def test_a_narrower_bay_comes_out_of_its_sheet_and_the_sides_out_of_theirs() -> None:
    """680 between the stems: 680 - 6 = 674 wide, out of the sheet of 700; no word of the sides."""
    news = _news(680.0)
    said = "\n".join(news_lines(news))
    assert "Cut sheet 1 to 674, was 679" in said
    assert news.sides_without == ()


def test_a_bay_that_takes_the_sheet_of_two_sides_is_told() -> None:
    """At 760 no sheet of 700 serves; those of 980 do, of which each gives two sides: what it gave has to be bought."""
    news = _news(760.0)
    said = "\n".join(news_lines(news))
    assert news.bays[0].state == "cut"
    (name,) = news.sides_without
    assert f"{name}: no sheet you ordered is left for it. Buy one." in said


@pytest.mark.parametrize("width", [700.0, 790.0])
def test_nothing_crashes_at_other_widths(width: float) -> None:
    """Every bay has its word."""
    assert len(_news(width).bays) == 4


def _sides(*openings: list[object]) -> str:
    """What is said of the plant lobby once openings of its sides are read, in their order."""
    job = changed("plant-lobby", measured__side_openings_mm=list(openings))
    return "\n".join(news_lines(news_of_frame(job, catalogue())))


def test_an_opening_that_was_read_counts_before_the_survey() -> None:
    """7 less wide is 7 less of sheet; 5 less at the left end leaves the longer side: its length loses 5, to a mm."""
    drawn = assessed(changed("plant-lobby")).setting_out.side_sheets
    read = assessed(
        changed("plant-lobby", measured__side_openings_mm=[[760, 2466, "-"], ["-", "-", 2036]])
    ).setting_out.side_sheets
    assert read[0].opening_mm == (760.0, 2466.0, drawn[0].opening_mm[2])
    assert read[0].width_mm == pytest.approx(drawn[0].width_mm - 7, abs=1)
    assert max(read[0].left_mm, read[0].right_mm) == pytest.approx(
        max(drawn[0].left_mm, drawn[0].right_mm) - 5, abs=1
    )
    assert read[1].opening_mm == (*drawn[1].opening_mm[:2], 2036.0)
    assert [fit.opening_mm for fit in read[2:]] == [fit.opening_mm for fit in drawn[2:]]


def test_a_smaller_opening_is_cut_out_of_what_was_planned_and_a_larger_one_is_planned_anew() -> None:
    """Each side sheet has its word; those that were not read in full are named."""
    said = _sides([760, 2466, 2260], [775, 2246, 2041], [767, 2041, 2246])
    assert "Cut side sheet 1 to" in said
    assert "It comes out of what was planned for it." in said
    assert "Side sheet 2 must be" in said
    assert "solve the job anew before you cut any side sheet" in said
    assert "As drawn: side sheet 3." in said
    assert "Not read in full: side sheet 4." in said
    assert "ide sheet" not in "\n".join(news_lines(_news(680.0)))


@pytest.mark.parametrize(
    ("now", "fits"),
    [
        ((700, 2000, 1900), True),
        ((690, 1995, 1890), True),
        ((700, 2001, 1900), False),
        ((701, 1990, 1890), False),
        # Narrower and cut off its high end: 600 from the right edge, 1900 + 100 x 600 / 700 = 1985 at its left.
        ((600, 1985, 1900), True),
        ((600, 1990, 1910), True),
        ((600, 1990, 1920), False),
    ],
)
def test_a_side_sheet_lies_within_another(now: tuple[int, int, int], fits: bool) -> None:
    """By the heights of the sloped head over both ends, moved to either edge of a sheet of 700 by 2000 to 1900."""
    first = assessed(changed("plant-lobby")).setting_out.side_sheets[0]
    sizes = [
        replace(first, width_mm=w, left_mm=left, right_mm=right)
        for w, left, right in (now, (700, 2000, 1900))
    ]
    assert comes_out_of(sizes[0], sizes[1]) is fits


def test_sides_read_in_full_need_no_reserve_in_stock() -> None:
    """Surveyed or read on site, all three sizes; one alone leaves the reserve."""
    for openings, reserve in (([[767, 2471, 2265], *[[767, 2000, 2100]] * 3], 0.0), ([], 5.0)):
        design = design_of("plant-lobby") if not openings else solve(
            changed("plant-lobby", measured__side_openings_mm=openings), catalogue()
        )  # fmt: skip
        sides = [p for p in design.pieces if p.side_parts]
        assert {p.reserve_mm[0] for p in sides if all(s.id != "SS1" for s in p.side_parts)} == {reserve}
