"""Fall that is left when the rafters have sagged."""

from __future__ import annotations

from collections.abc import Iterator

from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared, open_check
from pentice.checks.rafter import RafterResult
from pentice.checks.values import Check, Place, Shown
from pentice.checks.worst import greatest_place
from pentice.working import Step

LEAST_FALL_DEG = 3.0
"""Least fall after sag where the supplier names none: judgement, no source."""
BUILT_OFF_DEG = 0.3
"""How much flatter a roof may be built than drawn: judgement, no source."""
_END_SLOPE_DEG = 57.29577951308232 * 3.2

_FALL = Rule(
    id="fall",
    name="Fall after sag",
    member="roof",
    clause=f"end slope 3.2 w / L; limits {JUDGEMENT}",
    unit="deg",
)


def fall_checks(ground: Ground, results: tuple[RafterResult, ...]) -> Iterator[Check]:
    """The fall that is left at each rafter's foot when it has sagged.

    Parameters
    ----------
    ground
        The inputs of every check.
    results
        Each rafter's sag in the end.

    Yields
    ------
    Check
        Angles [deg]; the flattest rafter.

    Source
    ------
    theta = 3.2 w / L at the ends of an evenly loaded simple span; limits are judgement, no source.
    """
    import numpy as np

    known = [r for r in results if r.final_sag_mm is not None]
    if len(known) < len(results) or not known:
        yield open_check(
            _FALL, Place(), "refused", Shown(says="The sag of the rafters is not known: see the rafters.")
        )
        return
    place = greatest_place(np.array([(r.final_sag_mm or 0.0) / r.span_mm for r in known]))
    worst, number = known[place], place + 1
    sag = worst.final_sag_mm or 0.0
    lost = _END_SLOPE_DEG * sag / worst.span_mm
    pitch = ground.shape.pitch_deg
    sheet, bar = ground.parts.sheet, ground.parts.bar
    declared = [d for d in (sheet.fall_least_deg, bar.fall_least_deg) if d is not None]
    inputs = [ground.of_job("roof.pitch_deg", pitch)]
    if sheet.fall_least_deg is not None:
        inputs.append(ground.of_sheet("fall_least_deg"))

    def shown() -> Shown:
        note = (
            "Below 5 deg as built: water and dirt lie longer, ask the supplier."
            if pitch - BUILT_OFF_DEG < 5.0
            else ""
        )
        working = (
            Step(
                says="Fall left",
                formula="pitch - 0.3 - 57.3 * 3.2 w_fin / L",
                numbers=f"{pitch:.3f} - {BUILT_OFF_DEG:g} - 57.3 x 3.2 x {sag:.3f} / {worst.span_mm:.1f}",
                result=pitch - BUILT_OFF_DEG - lost,
                unit="deg",
                clause="statics",
            ),
        )
        return Shown(
            says=note, rests_on=tuple(inputs), working=working, cure="More pitch or stiffer rafters."
        )

    yield compared(
        _FALL,
        Place(bar=number, at="foot") if ground.parts.bar.carries else Place(rafter=number, at="foot"),
        demand=max(declared, default=LEAST_FALL_DEG),
        capacity=pitch - BUILT_OFF_DEG - lost,
        case="built 0.3 deg flat, sagged for good",
        shown=shown,
    )
