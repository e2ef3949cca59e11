"""What the fixings of a wall plate or ledger feel: their share of the load, and the pull from its lever.

A ledger carries the roof at a distance from the wall face, so it wants to turn: it presses on the wall at one edge and
pulls at its fixings. The wall itself is for a pull test or a declared value.
"""

from __future__ import annotations

from dataclasses import dataclass

from pentice.errors import require_within

_SOURCE = "equilibrium of a ledger"
PRESS_AT = 2.0 / 3.0
"""Where the press has its middle, in shares of the way from fixings to edge: a triangle, judgement, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LedgerLoad:
    """What hangs on a ledger [N], per fixing or per length, and where [mm].

    down_n acts along the wall (uplift negative) at offset_mm from its face; outward_n pulls away from the wall (towards
    it negative) at outward_above_mm above the row of fixings.
    """

    down_n: float
    offset_mm: float
    outward_n: float = 0.0
    outward_above_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class LedgerPull:
    """Pull in the fixings of a ledger and the press at its heel [N], per fixing or per length as the loads were.

    lever_n comes from the load standing off the wall, prying_n from an outward pull beside the fixings; pull_n is all
    of it. heel says which edge presses: "bottom", "top", or "none".
    """

    direct_n: float
    lever_n: float
    prying_n: float
    pull_n: float
    press_n: float
    heel: str


def ledger_pull(load: LedgerLoad, *, above_heel_mm: float, below_top_mm: float) -> LedgerPull:
    """Pull on a row of fixings from a load that stands off the wall, with the prying of the edge it turns about.

    Parameters
    ----------
    load
        What hangs on the ledger and where [N, mm].
    above_heel_mm
        Height of the fixings above the ledger's bottom edge [mm].
    below_top_mm
        Height of the ledger's top edge above the fixings [mm].

    Returns
    -------
    LedgerPull
        Direct pull, what the lever and the prying add, their sum, and the press at the heel [N].

    Raises
    ------
    OutsideScope
        The fixings stand nearer than 20 mm to an edge, or the load lies inside the wall or beyond the edges.

    Source
    ------
    Equilibrium about the row of fixings, the wall pressing at the edge that the load turns to: pull = N + press, press
    = (V e + N a) / z. z is two thirds of the distance from fixing to edge: the press grows from nothing at the fixings
    to its most at the edge, as under a plate on ground that gives evenly (judgement, no source).

    Examples
    --------
    >>> load = LedgerLoad(down_n=2000.0, offset_mm=45.0, outward_n=300.0)
    >>> pull = ledger_pull(load, above_heel_mm=100.0, below_top_mm=45.0)
    >>> round(pull.lever_n), round(pull.pull_n), pull.heel
    (1350, 1650, 'bottom')
    """
    require_within("offset_mm", load.offset_mm, 0.0, 1e4, unit="mm", source=_SOURCE)
    for name, height in {"above_heel_mm": above_heel_mm, "below_top_mm": below_top_mm}.items():
        require_within(
            name, height, 20.0, 1e4, unit="mm", source=_SOURCE, do="Move the fixings off the edge."
        )
    low, high = -above_heel_mm, below_top_mm
    require_within("outward_above_mm", load.outward_above_mm, low, high, unit="mm", source=_SOURCE)
    turns = load.down_n * load.offset_mm + load.outward_n * load.outward_above_mm
    side = 1.0 if turns >= 0.0 else -1.0
    arm = PRESS_AT * (above_heel_mm if turns >= 0.0 else below_top_mm)
    lever = side * load.down_n * load.offset_mm / arm
    prying = side * load.outward_n * load.outward_above_mm / arm
    pulled = load.outward_n + lever + prying
    return LedgerPull(
        direct_n=load.outward_n,
        lever_n=lever,
        prying_n=prying,
        pull_n=max(pulled, 0.0),
        press_n=lever + prying + max(-pulled, 0.0),
        heel="none" if turns == 0.0 else ("bottom" if turns > 0.0 else "top"),
    )


def fixing_utilisation(
    *, shear_n: float, pull_n: float, shear_resistance_n: float, pull_resistance_n: float, power: float = 1.0
) -> float:
    """Share of a wall fixing's strength used by shear and pull together.

    Parameters
    ----------
    shear_n, pull_n
        Design shear and pull on one fixing [N].
    shear_resistance_n, pull_resistance_n
        Design resistances, declared or from a pull test on this wall [N].
    power
        1.0 straight line (always safe); up to 2.0 only where the fixing's own papers say so [-].

    Returns
    -------
    float
        The power-th root of the sum of both shares to that power [-]; 1.0 is all of it.

    Raises
    ------
    OutsideScope
        A resistance is not positive, or the power is not between 1 and 2.

    Source
    ------
    Straight-line interaction of shear and pull: common practice on the safe side, no source.

    Examples
    --------
    >>> shares = {"shear_n": 500.0, "pull_n": 300.0, "shear_resistance_n": 1000.0, "pull_resistance_n": 1000.0}
    >>> fixing_utilisation(**shares)
    0.8
    """
    do = "Give the declared value, or test a fixing in this wall."
    require_within("shear_resistance_n", shear_resistance_n, 1e-6, 1e9, unit="N", source=_SOURCE, do=do)
    require_within("pull_resistance_n", pull_resistance_n, 1e-6, 1e9, unit="N", source=_SOURCE, do=do)
    require_within("power", power, 1.0, 2.0, source=_SOURCE)
    shear, pull = abs(shear_n) / shear_resistance_n, max(pull_n, 0.0) / pull_resistance_n
    return float((shear**power + pull**power) ** (1.0 / power))
