"""Lines of the four hold points with their usual limits: judgement, no source; a firm may give its own."""

from __future__ import annotations

from collections.abc import Sequence

from pentice.pack.site_page.values import HoldLine


def hold_lines(
    *,
    diagonals_mm: float | None,
    pitch_deg: float,
    bars_carry: bool = False,
    joints: Sequence[tuple[str, str]] = (),
) -> tuple[HoldLine, ...]:
    """The usual lines of holds A (frame), B (bars), C (sheet) and D (water).

    Parameters
    ----------
    diagonals_mm
        Diagonal of the frame as drawn [mm]; None where it is not known, then 5 mm are allowed.
    pitch_deg
        Pitch as drawn [deg].
    bars_carry
        True where bars stand in the place of rafters.
    joints
        Joints whose fasteners the job describes, and what goes into each.

    Returns
    -------
    tuple of HoldLine
        In the order of the work.

    Source
    ------
    Judgement, no source.

    Examples
    --------
    >>> hold_lines(diagonals_mm=6000.0, pitch_deg=10.0)[0].passes
    '6 mm or less'
    """
    frame = _frame(diagonals_mm, pitch_deg, bars_carry=bars_carry)
    return (*frame, *_joints(joints), *_bars(), *_sheet(), *_water())


def _joints(joints: Sequence[tuple[str, str]]) -> tuple[HoldLine, ...]:
    return tuple(
        HoldLine(
            hold="A",
            item=f"{called[0].upper()}{called[1:]}, each one",
            passes=words,
            if_not="Stop. Fix what is missing; where one has split the timber or stands too near, ask.",
        )
        for called, words in joints
    )


def _frame(diagonals_mm: float | None, pitch_deg: float, *, bars_carry: bool) -> tuple[HoldLine, ...]:
    line = "Bar" if bars_carry else "Rafter"
    apart = 5.0 if diagonals_mm is None else max(round(diagonals_mm / 500.0) / 2.0, 1.0)
    fall = max(round(pitch_deg - 0.3, 1), 0.0)
    return (
        HoldLine(
            hold="A",
            item="Diagonals differ by",
            passes=f"{apart:g} mm or less",
            if_not="Rack the frame square, or stop: the roof is not a rectangle.",
            unit="mm",
            least=0.0,
            most=apart,
            made_of="diagonals",
        ),
        HoldLine(
            hold="A",
            item=f"{line} centres off the drawing, worst",
            passes="2 mm or less",
            if_not="Read every bay: the sheets are cut to the bays as built.",
            unit="mm",
            least=0.0,
            most=2.0,
        ),
        HoldLine(
            hold="A",
            item=f"{line} tops off a taut line, worst",
            passes="2 mm or less, no twist over 1 mm across the seat",
            if_not="Pack its ends. A twisted bar leaks."
            if bars_carry
            else "Pack or plane. A bar on a twisted rafter leaks.",
            unit="mm",
            least=0.0,
            most=2.0,
        ),
        HoldLine(
            hold="A",
            item="Fall",
            passes=f"{fall:g}° or more, no back-fall at the eaves",
            if_not="Lift the head or drop the beam.",
            unit="°",
            least=fall,
        ),
        HoldLine(
            hold="A",
            item="Frame braced and fixed",
            passes="every joint has its fixings",
            if_not="Stop. No bar and no sheet goes up before it is.",
        ),
    )


def _bars() -> tuple[HoldLine, ...]:
    return (
        HoldLine(
            hold="B",
            item="Stem to stem, widest less tightest",
            passes="2 mm or less at head, middle and foot",
            if_not="Screw one bar anew. The tightest place counts for the sheet.",
            unit="mm",
            least=0.0,
            most=2.0,
            made_of="stems",
            per_bay=True,
        ),
        HoldLine(
            hold="B",
            item="Seals",
            passes="full length, not stretched, corners closed",
            if_not="Fit them anew.",
            per_bay=True,
        ),
    )


def _sheet() -> tuple[HoldLine, ...]:
    return (
        HoldLine(
            hold="C",
            item="Label to the sky, flutes down the slope",
            passes="film side up, solid tape at the head, breather at the foot, flutes clear of swarf",
            if_not="Do not lift.",
            per_bay=True,
        ),
        HoldLine(
            hold="C",
            item="Gap each side",
            passes="the card's value, 1 mm more or less",
            if_not="Shift the sheet, or cut it anew.",
            unit="mm",
            least=-1.0,
            most=1.0,
            gap="side",
            per_bay=True,
        ),
        HoldLine(
            hold="C",
            item="Gap at the head",
            passes="the card's value, up to 3 mm more",
            if_not="Trim at the foot only, and only if the foot profile still closes.",
            unit="mm",
            least=0.0,
            most=3.0,
            gap="head",
            per_bay=True,
        ),
        HoldLine(
            hold="C",
            item="Button or stop, caps and trims on",
            passes="before work stops, on every sheet that is up",
            if_not="Take the sheet down again. Wind takes a loose one.",
            per_bay=True,
        ),
    )


def _water() -> tuple[HoldLine, ...]:
    return (
        HoldLine(
            hold="D",
            item="Hose test, foot first, then up to the head",
            passes="10 minutes each zone, dry inside",
            if_not="Find the leak, mend it, test again.",
        ),
    )
