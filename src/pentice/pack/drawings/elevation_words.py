"""Sentences of the keys under elevations that ends and rows share."""

from __future__ import annotations

from collections.abc import Iterator

from pentice.checks.knee_bolts import bolts_of
from pentice.design import Design
from pentice.frame.side_places import SidePlaces
from pentice.pack.drawings.values import whole

SLACK_MM = 5.0
"""What openings and mullions leave of an end is named from here on [mm]."""


def bolt_words(design: Design) -> str:
    """The bolts at the ends of knee braces, in words.

    Parameters
    ----------
    design
        A solved job.
    """
    bolts = bolts_of(design.job.frame)
    return f"{bolts.count} bolt{'s' if bolts.count > 1 else ''} of {bolts.d_mm:g} at each end"


def side_words(design: Design, places: SidePlaces) -> Iterator[str]:
    """Sections of what stands between the sheets, where the sill lies, and what is not known.

    Parameters
    ----------
    design
        A solved job.
    places
        Where what closes a side stands.

    Yields
    ------
    str
        Short sentences for the key.
    """
    frame = design.job.frame
    if frame.mullion_mm is not None and (places.mullions or places.transoms):
        b, h = frame.mullion_mm
        which = [
            w for w, there in (("MU mullion", places.mullions), ("TM transom", places.transoms)) if there
        ]
        yield f"{' and '.join(which)} {b:g} × {h:g}."
    if places.sill is not None and frame.sill_mm is not None:
        b, h = frame.sill_mm
        over = places.over_datum_mm
        top = "" if over is None else f", its top {whole(over + h)} over the datum mark"
        yield f"SI sill {b:g} × {h:g}{top}."
    if places.over_datum_mm is not None and places.over_datum_mm > 0.5 and places.openings and not places.why:
        high = whole(places.over_datum_mm)
        yield f"By their heights the side sheets stand on {high} of kerb or low wall, which is not in this job."
    if places.why:
        yield places.why
    elif places.rest_mm >= SLACK_MM:
        yield f"Beside openings and mullions {whole(places.rest_mm)} are left."
