"""The wall plate between its fixings, and the fixings into the wall: down, up, out, with what prying adds."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared, open_check
from pentice.checks.passed_on import Combined, PassedOn, strengths_in
from pentice.checks.racking import push_inputs, pushes_along
from pentice.checks.rafter_shown import EDITION
from pentice.checks.rests import of_roof
from pentice.checks.timber_shown import service_class
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.checks.walls import OnWall, drawn_front, why_no_drawn_front
from pentice.checks.worst import greatest_place
from pentice.errors import OutsideScope
from pentice.frame.values import WallPlate
from pentice.loads.weight import GRAVITY
from pentice.mechanics.continuous import ContinuousBeam, continuous_beam, merged_places, nearest_node
from pentice.mechanics.wall_fixings import LedgerLoad, LedgerPull, fixing_utilisation, ledger_pull
from pentice.standards.en338 import StrengthClass, strength_class
from pentice.standards.en1995 import bending_stress_n_mm2, size_factor
from pentice.standards.en1995_members import K_M
from pentice.working import Step

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

PLATE = Rule(
    id="wall-plate",
    name="Wall plate, bending between its fixings",
    member="wall plate",
    clause="EN 1995-1-1, 6.1.6",
    unit="of 1",
    edition=EDITION,
)
FIXINGS = Rule(
    id="wall-fixings",
    name="Wall fixings, shear and pull",
    member="wall",
    clause=f"statics; both together linear, {JUDGEMENT}",
    unit="of 1",
)
_ASK = "In old, hollow or soft walls only a pull test counts."


@dataclass(frozen=True, slots=True, kw_only=True)
class _Plate:
    """The plate in every combination; the first axis counts the combinations."""

    cases: tuple[Combined, ...]
    down_n: Array
    """On each fixing, down positive [N]."""
    pull_n: Array
    """On each fixing, out of the wall positive, without prying [N]."""
    upright_n_mm: Array
    """Moment from what hangs on it, at each node [N mm]."""
    level_n_mm: Array
    """Moment from what pulls at it, at each node [N mm]."""
    front: Mapping[str, OnWall]
    """What draws a closed front, and the plate with it, out; none: nothing does."""


def wall_checks(ground: Ground, plate: WallPlate, loads: PassedOn) -> Iterator[Check]:
    """The plate and its most used fixing.

    Parameters
    ----------
    ground
        The inputs of every check.
    plate
        Section and fixings.
    loads
        What the rafters pass on.

    Yields
    ------
    Check
        Refused where the fixings, or what one of them holds, are not given: with the forces they need.

    Source
    ------
    Statics of a continuous beam on its fixings; EN 1995-1-1:2004, 6.1.6. The rafters sit on the middle of the plate,
    half its thickness from the wall, and its lower edge presses against the wall: prying.
    """
    why = why_no_drawn_front(ground)
    front: Mapping[str, OnWall] = {}
    try:
        front = drawn_front(ground)
    except OutsideScope as refusal:
        why = str(refusal)
    if why:
        for rule in (PLATE, FIXINGS):
            yield open_check(rule, Place(), "refused", Shown(says=why))
        return
    if not plate.fixings_mm:
        why = "Say where the plate is fixed: frame.wall_fixings_at_mm, or frame.wall_fixing_spacing_mm."
        yield open_check(PLATE, Place(), "refused", Shown(says=why))
        says = f"{why} {_per_metre(ground, plate, loads, front)}"
        yield open_check(FIXINGS, Place(), "refused", Shown(says=says))
        return
    timber = strength_class(ground.parts.timber_for("wall plate").strength_class)
    found = _solved(ground, plate, loads, timber, front)
    yield _bending(ground, plate, timber, found)
    yield _fixings(ground, plate, found)


def _per_metre(ground: Ground, plate: WallPlate, loads: PassedOn, front: Mapping[str, OnWall]) -> str:
    """What the wall takes along its whole length, so that fixings can be chosen."""
    import numpy as np

    factors, metres = loads.factors[list(loads.at_their_most)], plate.length_mm / 1000.0
    down = factors @ np.array([sum(load.head_n) for load in loads.all]) / 1000.0 / metres
    pull = factors @ np.array([sum(pull) for pull in _pulls(loads, front)]) / 1000.0 / metres
    if front:
        acting = loads.at_their_most
        pull = pull + np.array([front_line_kn_m(ground, front, loads.cases[i]) for i in acting])
    return (
        f"In all it takes {down.max():.2f} kN/m down, {max(-down.min(), 0.0):.2f} up and "
        f"{max(pull.max(), 0.0):.2f} out of the wall, before prying."
    )


def _solved(
    ground: Ground, plate: WallPlate, loads: PassedOn, timber: StrengthClass, front: Mapping[str, OnWall]
) -> _Plate:
    import numpy as np

    thick, deep = plate.size_mm
    acting, count = list(loads.at_their_most), len(loads.all)
    factors = loads.factors[acting]
    heads = [min(max(x, 0.0), plate.length_mm) for x in loads.heads_mm]
    nodes = merged_places((0.0, plate.length_mm, *plate.fixings_mm, *heads))
    # What hangs on it and then what pulls at it: an even beam passes on both alike, however stiff it is.
    passed = np.array([*(load.head_n for load in loads.all), *_pulls(loads, front)])
    rows = 2 * count + (1 if front else 0)
    points = np.zeros((rows, len(nodes)))
    for k, x in enumerate(heads):
        points[: 2 * count, nearest_node(nodes, x)] += passed[:, k]
    if front:  # each rafter draws with the front under half of the bays beside it, here 1 N/mm
        for x, wide in zip(heads, _shares_mm(heads, plate.length_mm), strict=True):
            points[-1, nearest_node(nodes, x)] += wide
    lines = np.zeros((rows, len(nodes) - 1, 2))
    lines[0] = thick * deep * 1e-6 * timber.rho_mean_kg_m3 * GRAVITY
    held = tuple(nearest_node(nodes, x) for x in plate.fixings_mm)
    found = continuous_beam(ContinuousBeam(nodes_mm=nodes, held=held, ei_n_mm2=1.0), lines, points)
    on_fixings, moments = found.reactions_n, found.node_moments_n_mm
    cases = tuple(loads.cases[i] for i in acting)
    pull, level = factors @ on_fixings[count : 2 * count], factors @ moments[count : 2 * count]
    if front:
        drawn = np.array([[front_line_kn_m(ground, front, case)] for case in cases])
        pull, level = pull + drawn * on_fixings[-1:], level + drawn * moments[-1:]
    return _Plate(
        cases=cases,
        down_n=factors @ on_fixings[:count],
        pull_n=pull,
        upright_n_mm=factors @ moments[:count],
        level_n_mm=level,
        front=front,
    )


def _pulls(loads: PassedOn, front: Mapping[str, OnWall]) -> list[Sequence[float]]:
    """What each load pulls at the plate, rafter by rafter [N]; what presses it to the wall does not help against a
    front that draws it out, as another zone may press less."""
    return [
        load.pull_n if not front or sum(load.pull_n) > 0.0 else [0.0] * len(load.pull_n) for load in loads.all
    ]


def _shares_mm(places: Sequence[float], length_mm: float) -> list[float]:
    """Length along the wall that comes to each rafter: half of each bay beside it, to the ends [mm]."""
    ends = [0.0, *((a + b) / 2.0 for a, b in pairwise(places)), length_mm]
    return [b - a for a, b in pairwise(ends)]


def front_line_kn_m(ground: Ground, front: Mapping[str, OnWall], case: Combined) -> float:
    """What a closed front draws at the rafters in a combination, and these at the plate.

    Parameters
    ----------
    ground, front, case
        The inputs of every check, what draws the front, and the combination.

    Returns
    -------
    float
        Along the wall, outwards positive [kN/m].

    Source
    ------
    Statics: the upper half of the front.
    """
    c = case.combination
    on = front.get("accidental" if c.wind_accidental else "persistent")
    return 0.0 if on is None else c.wind * -on.net * (ground.shape.eaves_height_mm or 0.0) / 2000.0


def _bending(ground: Ground, plate: WallPlate, timber: StrengthClass, found: _Plate) -> Check:
    thick, deep = plate.size_mm
    import numpy as np

    holds = strengths_in(1.0, found.cases, service_class(ground))
    limits = np.outer(holds, [timber.f_m_k_n_mm2 * size_factor(h) for h in (deep, thick)])
    y = np.abs(found.upright_n_mm) * 6.0 / (thick * deep**2) / limits[:, :1]
    z = np.abs(found.level_n_mm) * 6.0 / (deep * thick**2) / limits[:, 1:]
    sums = np.stack((y + K_M * z, K_M * y + z))
    way, i, n = (int(at) for at in np.unravel_index(greatest_place(sums), sums.shape))
    used = float(sums[way, i, n])

    def shown() -> Shown:
        share_y, share_z = ((1.0, K_M), (K_M, 1.0))[way]
        m_y, m_z = abs(float(found.upright_n_mm[i, n])), abs(float(found.level_n_mm[i, n]))
        s_y, s_z = bending_stress_n_mm2(m_y, thick, deep), bending_stress_n_mm2(m_z, deep, thick)
        working = (
            Step(
                says="Stress from what hangs on it",
                formula="sigma_y = 6 M_y / (t h^2)",
                numbers=f"6 x {m_y / 1e6:.5f} x 10^6 / ({thick:g} x {deep:g}^2)",
                result=s_y,
                unit="N/mm2",
                clause="6.1.6",
            ),
            Step(
                says="Stress from what pulls at it",
                formula="sigma_z = 6 M_z / (h t^2)",
                numbers=f"6 x {m_z / 1e6:.5f} x 10^6 / ({deep:g} x {thick:g}^2)",
                result=s_z,
                unit="N/mm2",
                clause="6.1.6",
            ),
            Step(
                says="Both together",
                formula="k_m,y sigma_y / f_m,y,d + k_m,z sigma_z / f_m,z,d",
                numbers=f"{share_y:g} x {s_y:.4f} / {limits[i, 0]:.2f} + {share_z:g} x {s_z:.4f} / {limits[i, 1]:.2f}",
                result=used,
                unit="of 1",
                clause="eq. 6.11, 6.12",
            ),
        )
        return Shown(
            rests_on=_inputs(ground, plate), working=working, cure="Closer fixings or a deeper plate."
        )

    return compared(PLATE, Place(), demand=used, capacity=1.0, case=found.cases[i].words, shown=shown)


@dataclass(frozen=True, slots=True, kw_only=True)
class _OnFixing:
    """What one fixing feels in one combination [kN]."""

    down: float
    along: float
    level: float
    lever: LedgerPull

    @property
    def shear(self) -> float:
        return math.hypot(self.down, self.along)

    @property
    def pull(self) -> float:
        return self.lever.pull_n / 1000.0


def _along_steps(ground: Ground, plate: WallPlate) -> tuple[Step, ...]:
    """The push along the wall that the plate takes, shared evenly; none where own coefficients leave it unknown."""
    site = ground.job.site
    if site.wind_coefficients is not None and site.side_wind is None:
        return ()
    steps = list(pushes_along(ground, "wall"))
    if not steps:
        return ()
    factor = max(c.wind for c in ground.loads.combinations if c.kind in ("strength", "uplift"))
    parts = " + ".join(f"{float(step.result):.4f}" for step in steps)
    each = factor * sum(float(step.result) for step in steps) / len(plate.fixings_mm)
    last = Step(
        says="Along the wall, on each fixing",
        formula="gamma sum W / n",
        numbers=f"{factor:g} x ({parts}) / {len(plate.fixings_mm)}",
        result=each,
        unit="kN",
        clause=f"shared evenly, {JUDGEMENT}",
    )
    return (*steps, last)


def _most_loaded(found: _Plate) -> list[tuple[int, int]]:
    """Combination and fixing of each pair of forces that no other pair reaches in both; one of them governs.

    The fixings stand at half the plate's height, so shear and pull both grow with each force, up or down.
    """
    import numpy as np

    # To a millionth of a newton: of places alike but for rounding the first stands for all.
    forces = np.abs(found.down_n), np.maximum(found.pull_n, 0.0)
    down, level = (np.round(force, 6).ravel() for force in forces)
    order = np.lexsort((-level, -down))
    highest = np.maximum.accumulate(level[order])
    kept = order[np.concatenate(([True], level[order][1:] > highest[:-1]))]
    across = found.down_n.shape[1]
    return [divmod(int(at), across) for at in np.sort(kept)]


def _fixings(ground: Ground, plate: WallPlate, found: _Plate) -> Check:
    frame, (thick, deep) = ground.job.frame, plate.size_mm
    shear_d, pull_d = frame.wall_fixing_shear_kn, frame.wall_fixing_pull_kn
    places = _most_loaded(found)
    along_steps = _along_steps(ground, plate)
    along = float(along_steps[-1].result) if along_steps else 0.0

    def forces(i: int, k: int) -> _OnFixing:
        down, level = float(found.down_n[i, k]), max(float(found.pull_n[i, k]), 0.0)
        lever = ledger_pull(
            LedgerLoad(down_n=down, offset_mm=thick / 2.0, outward_n=level),
            above_heel_mm=deep / 2.0,
            below_top_mm=deep / 2.0,
        )
        return _OnFixing(down=abs(down) / 1000.0, along=along, level=level / 1000.0, lever=lever)

    try:
        on = {place: forces(*place) for place in places}
    except OutsideScope as refusal:
        return open_check(FIXINGS, Place(), "refused", Shown(says=str(refusal)))
    if shear_d is None or pull_d is None:
        shear, pull = max(f.shear for f in on.values()), max(f.pull for f in on.values())
        missing = " and ".join(
            key
            for key, value in (
                ("frame.wall_fixing_shear_kn", shear_d),
                ("frame.wall_fixing_pull_kn", pull_d),
            )
            if value is None
        )
        why = (
            f"Each fixing must take up to {shear:.2f} kN in shear, down or up and along the wall together, and "
            f"{pull:.2f} kN out of it, as design values. "
            f"Give {missing}, declared or from a pull test. {_ASK}"
        )
        return open_check(
            FIXINGS, Place(), "refused", lambda: Shown(says=why, rests_on=_inputs(ground, plate))
        )

    def used(f: _OnFixing) -> float:
        return fixing_utilisation(
            shear_n=f.shear, pull_n=f.pull, shear_resistance_n=shear_d or 0.0, pull_resistance_n=pull_d or 0.0
        )

    i, k = max(places, key=lambda p: used(on[p]))
    f, together = on[i, k], used(on[i, k])

    def shown() -> Shown:
        working = (
            *_front_steps(ground, found, i),
            Step(
                says="Down or up on this fixing",
                formula="V_z, the plate as a beam on its fixings",
                numbers=f"{f.down:.4f}",
                result=f.down,
                unit="kN",
                clause="statics",
            ),
            Step(
                says="Out of the wall on this fixing",
                formula="H, the same, before prying",
                numbers=f"{f.level:.4f}",
                result=f.level,
                unit="kN",
                clause="statics",
            ),
            *along_steps,
            Step(
                says="Shear, down or up and along",
                formula="V = sqrt(V_z^2 + V_x^2)",
                numbers=f"sqrt({f.down:.4f}^2 + {f.along:.4f}^2)",
                result=f.shear,
                unit="kN",
                clause="statics",
            ),
            Step(
                says="Pull with prying",
                formula="T = H + V_z (t / 2) / (2/3 h / 2)",
                numbers=f"{f.level:.4f} + {f.down:.4f} x {thick / 2:g} / ({deep:g} / 3)",
                result=f.pull,
                unit="kN",
                clause=f"statics; the press is a triangle, {JUDGEMENT}",
            ),
            Step(
                says="Both together",
                formula="V / V_d + T / T_d",
                numbers=f"{f.shear:.4f} / {shear_d:g} + {f.pull:.4f} / {pull_d:g}",
                result=together,
                unit="of 1",
                clause=f"linear, {JUDGEMENT}",
            ),
        )
        return Shown(
            says=_ASK,
            rests_on=(
                *_inputs(ground, plate),
                ground.of_job("frame.wall_fixing_shear_kn", shear_d),
                ground.of_job("frame.wall_fixing_pull_kn", pull_d),
            ),
            working=working,
            cure="Closer or stronger fixings.",
        )

    case = f"{found.cases[i].words}, fixing {k + 1} of {len(plate.fixings_mm)} from the left"
    return compared(
        FIXINGS,
        Place(),
        demand=together,
        capacity=1.0,
        case=case,
        shown=shown,
    )


def _front_steps(ground: Ground, found: _Plate, i: int) -> tuple[Step, ...]:
    """What the closed front draws at the plate in a combination; none where nothing does."""
    case = found.cases[i]
    line = front_line_kn_m(ground, found.front, case)
    if not line:
        return ()
    on = found.front["accidental" if case.combination.wind_accidental else "persistent"]
    high = (ground.shape.eaves_height_mm or 0.0) / 1000.0
    drawn = Step(
        says="Upper half of the closed front, drawn out through the rafters: in what pulls",
        formula="gamma |w| h / 2",
        numbers=f"{case.combination.wind:g} x {abs(on.net):.4f} x {high:.4f} / 2",
        result=line,
        unit="kN/m",
        clause="statics" if on.source else f"statics; zone A all along, {JUDGEMENT}",
    )
    return (on.step(), drawn)


def _inputs(ground: Ground, plate: WallPlate) -> tuple[RestsOn, ...]:
    timber = ground.parts.timber_for("wall plate")
    closed = ground.job.roof.front == "closed"
    key = "wall_fixings_at_mm" if ground.job.frame.wall_fixings_at_mm else "wall_fixing_spacing_mm"
    return (
        ground.of_job("frame.wall_plate_mm", plate.size_mm),
        ground.of_job(f"frame.{key}", getattr(ground.job.frame, key)),
        ground.of_catalogue(f"timbers.{timber.id}.class", timber.strength_class),
        *dict.fromkeys((*(of_roof(ground, "eaves_height_mm") if closed else ()), *push_inputs(ground, None))),
    )
