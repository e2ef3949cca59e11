"""An invented site page for tests: bays of 1015, sheets of 997 by 2610, two sheets alike and the last one wider."""

from __future__ import annotations

from dataclasses import replace

from pentice.pack.site_page import (
    GapCard,
    GapRow,
    SiteBay,
    SiteCaution,
    SiteLine,
    SitePage,
    SiteSide,
    hold_lines,
)


def site_page(bays: int = 4) -> SitePage:
    """A page of that many bays; its gaps fall by 0.04 a side and 0.2 at the head for each degree."""
    numbers = tuple(range(1, bays + 1))
    return SitePage(
        name="Boat shed lean-to",
        reference="BS 12",
        revision="B",
        date="2027-03-01",
        bays=tuple(_bay(number) for number in numbers),
        cards=(
            GapCard(bays=numbers[:-1], rows=tuple(_row(t, 4.5, 13.0) for t in (0, 10, 20, 30, 40))),
            GapCard(bays=numbers[-1:], rows=tuple(_row(t, 5.5, 14.0) for t in (0, 10, 20, 30, 40))),
        ),
        holds=hold_lines(diagonals_mm=4912.0, pitch_deg=9.0),
        cautions=(
            SiteCaution(
                text="Stop: a flue.", why="Carbon monoxide kills.", ask="a registered heating engineer"
            ),
            SiteCaution(
                text="The roof is fragile: nobody stands on a sheet.", why="Falls through roofs kill."
            ),
            SiteCaution(text="A tree.", why="Roots.", ask="the council", answered=True),
        ),
        not_proved="Wall fixings, beam and posts are not checked. Do not build before they are.",
        lines=tuple(
            SiteLine(name=f"R{k + 1}", centre_mm=(23.5 + 1015.0 * k, 23.5 + 1015.0 * k))
            for k in range(bays + 1)
        ),
        diagonals_mm=4912.0,
    )


def with_sides() -> SitePage:
    """The same page with two side sheets at its left."""
    sides = (
        SiteSide(number=1, side="left", opening_mm=(767, 2471, 2265), sheet_mm=(757, 2454, 2248)),
        SiteSide(number=2, side="left", opening_mm=(767, 2246, 2041), sheet_mm=(757, 2229, 2024)),
    )
    return replace(site_page(), sides=sides)


def _bay(number: int) -> SiteBay:
    return SiteBay(
        number=number,
        between_stems_mm=(1003.0, 1003.0, 1003.0),
        slope_length_mm=2575.5,
        sheet_width_mm=997,
        sheet_length_mm=2610,
        side_gap_mm=3.0,
        head_gap_mm=11.4,
        bite_mm=21.0,
        bite_least_mm=14.0,
        serves_mm=(1002.4, 1009.0),
    )


def _row(temperature_c: int, side_mm: float, head_mm: float) -> GapRow:
    return GapRow(
        temperature_c=temperature_c,
        side_gap_mm=side_mm - 0.04 * temperature_c,
        head_gap_mm=head_mm - 0.2 * temperature_c,
    )
