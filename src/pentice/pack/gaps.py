"""The gap card: what the gaps of a cut sheet must be at the sheet's temperature of the day."""

from __future__ import annotations

import math

from pentice.design import Design
from pentice.mechanics.movement import movement_mm
from pentice.pack.site_page import GapCard, GapRow
from pentice.setting_out.values import Bay, Temperatures

CARD_C = tuple(range(-5, 45, 5))
"""Sheet temperatures of the card [degC]: sheets are cut and fitted between these."""


def gap_rows(bay: Bay, temps: Temperatures) -> tuple[GapRow, ...]:
    """Gaps of one bay's sheet at each temperature of the card.

    Parameters
    ----------
    bay
        The bay; its sheet is cut for its size at the cutting temperature.
    temps
        Sheet temperatures and expansion.

    Returns
    -------
    tuple of GapRow
        Gap at each side and at the head [mm], by rising temperature.

    Source
    ------
    Movement: the sheet grows from both sides of its middle in width, and from the button up in length.
    """
    return tuple(_row(bay, temps, float(c)) for c in CARD_C)


def gap_card(design: Design, bay: Bay) -> GapCard:
    """The card of one bay.

    Parameters
    ----------
    design
        A solved job.
    bay
        One of its bays.

    Returns
    -------
    GapCard
        Gaps [mm] at each sheet temperature [degC] from -5 to 40.

    Source
    ------
    Movement: see `gap_rows`.
    """
    return GapCard(bays=(bay.number,), rows=gap_rows(bay, design.setting_out.temperatures))


def safe_until_c(bay: Bay, temps: Temperatures) -> int:
    """Hottest sheet at which the sheet still lies free: the first gap, at a side or at the head, closes there.

    Parameters
    ----------
    bay
        The bay, with its gaps at the cutting temperature [mm].
    temps
        Sheet temperatures and expansion.

    Returns
    -------
    int
        Temperature of the sheet, rounded down [degC].

    Source
    ------
    gap = alpha L dT: the whole length towards the head, half the width towards each side.
    """
    side = 2.0 * min(bay.edges.left.gap_mm, bay.edges.right.gap_mm) / bay.width_mm.cut
    head = bay.edges.head.gap_mm / bay.length_mm.cut
    return math.floor(temps.fit_c + min(side, head) / temps.alpha_per_k + 1e-9)


def _row(bay: Bay, temps: Temperatures, at_c: float) -> GapRow:
    rise = at_c - temps.fit_c
    return GapRow(
        temperature_c=at_c,
        side_gap_mm=min(bay.edges.left.gap_mm, bay.edges.right.gap_mm)
        - movement_mm(bay.width_mm.cut, temps.alpha_per_k, rise) / 2.0,
        head_gap_mm=bay.edges.head.gap_mm - movement_mm(bay.length_mm.cut, temps.alpha_per_k, rise),
    )


def gap_cards(design: Design) -> tuple[GapCard, ...]:
    """One card for each group of bays whose sheets and gaps are alike.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    tuple of GapCard
        In the order of the bays.
    """
    groups: dict[tuple[float, ...], list[Bay]] = {}
    for bay in design.setting_out.plane.bays:
        key = (
            bay.width_mm.cut,
            bay.length_mm.cut,
            round(bay.edges.left.gap_mm, 1),
            round(bay.edges.head.gap_mm, 1),
        )
        groups.setdefault(key, []).append(bay)
    temps = design.setting_out.temperatures
    return tuple(
        GapCard(bays=tuple(bay.number for bay in bays), rows=gap_rows(bays[0], temps))
        for bays in groups.values()
    )
