"""What the fixings of a wall plate or ledger feel: their share of the load, and the pull from its lever.

A ledger carries the roof at a distance from the wall face, so it wants to turn: it presses on the wall at one edge and
pulls at its fixings. A plate between fixings is a continuous beam. The wall itself is for a pull test or a declared
value.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pentice.errors import InputError, require_within
from pentice.mechanics.continuous import ContinuousBeam, continuous_beam, merged_places, nearest_node

if TYPE_CHECKING:
    from collections.abc import Sequence

_SOURCE = "equilibrium of a ledger"


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


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateAnswer:
    """A wall plate between its fixings: force in each fixing [N], greatest moment [N mm] and shear [N] and sag [mm].

    Downward loads give positive forces; negative is uplift.
    """

    fixings_n: tuple[float, ...]
    sagging_n_mm: float
    hogging_n_mm: float
    shear_n: float
    sag_mm: float


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
    = (V e + N a) / z. z is 0.9 of the distance from fixing to edge, since the press needs a length (judgement, no
    source). A wall that gives under the press makes the arm shorter still: stiff masonry or a full backing is meant.

    Examples
    --------
    >>> load = LedgerLoad(down_n=2000.0, offset_mm=45.0, outward_n=300.0)
    >>> pull = ledger_pull(load, above_heel_mm=100.0, below_top_mm=45.0)
    >>> round(pull.lever_n), round(pull.pull_n), pull.heel
    (1000, 1300, 'bottom')
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
    arm = 0.9 * (above_heel_mm if turns >= 0.0 else below_top_mm)
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


def plate_between_fixings(
    fixings_mm: Sequence[float], loads: Sequence[tuple[float, float]], *, length_mm: float, ei_n_mm2: float
) -> PlateAnswer:
    """A wall plate as a continuous beam over its fixings, under the rafters that stand on it or pull at it.

    Parameters
    ----------
    fixings_mm
        Places of the fixings along the plate, from its left end [mm].
    loads
        Place and force of each rafter, downward positive [mm, N].
    length_mm
        Length of the plate [mm].
    ei_n_mm2
        Bending stiffness of the plate in the direction of the loads [N mm2].

    Returns
    -------
    PlateAnswer
        Force in each fixing in the order of their places, moments, shear and sag.

    Raises
    ------
    InputError
        There are fewer than two fixings, or one or a load lies beyond the plate.

    Source
    ------
    Continuous beam on unyielding supports. Fixings that give share more evenly; joints in the plate are not looked at.

    Examples
    --------
    >>> plate = plate_between_fixings((0.0, 600.0, 1200.0), [(300.0, 1000.0)], length_mm=1200.0, ei_n_mm2=1e10)
    >>> [round(n, 2) for n in plate.fixings_n], round(plate.sagging_n_mm)
    ([406.25, 687.5, -93.75], 121875)
    """
    places = sorted(fixings_mm)
    if len(places) < 2:
        raise InputError.of("fixings_mm", f"{len(places)} fixing", "expected two or more")
    for name, place in [("fixing", x) for x in places] + [("load", x) for x, _ in loads]:
        if not 0.0 <= place <= length_mm:
            raise InputError.of(name, f"at {place:g} mm", f"expected 0 to {length_mm:g} mm along the plate")
    import numpy as np

    nodes = merged_places([0.0, length_mm, *places, *(x for x, _ in loads)])
    held = tuple(nearest_node(nodes, x) for x in places)
    at_nodes = np.zeros((1, len(nodes)))
    for x, force in loads:
        at_nodes[0, nearest_node(nodes, x)] += force
    beam = ContinuousBeam(nodes_mm=nodes, held=held, ei_n_mm2=ei_n_mm2)
    answer = continuous_beam(beam, np.zeros((1, len(nodes) - 1, 2)), at_nodes)
    moments = answer.node_moments_n_mm[0]
    # Between point loads the moment is straight, so its slope is the shear.
    shears = np.diff(moments) / np.diff(np.array(nodes))
    sags = answer.stretch_sags_mm[0]
    return PlateAnswer(
        fixings_n=tuple(float(r) for r in answer.reactions_n[0]),
        sagging_n_mm=max(0.0, float(moments.max())),
        hogging_n_mm=min(0.0, float(moments.min())),
        shear_n=float(np.abs(shears).max()),
        sag_mm=float(sags[np.argmax(np.abs(sags))]),
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
