"""Bays that read narrower leave the side sheets as they are: the ordered sheets still give both."""

from __future__ import annotations

import pytest

from pentice.advice.measured import FrameNews, news_of_frame
from pentice.cli.measuring import news_lines
from tests.designs import catalogue, changed


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
