"""Bar screws in uplift: the worst pull on any of them, what one holds, and how far apart they may stand by zone."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared, open_check
from pentice.checks.rafter_model import rafter_models
from pentice.checks.rafter_winds import wind_lines, wind_on_bars_n
from pentice.checks.timber_shown import service_class
from pentice.checks.values import Check, LoadPicture, Place, RestsOn, Shown
from pentice.checks.worst import greatest_place
from pentice.errors import OutsideScope
from pentice.loads.combine import Combination
from pentice.loads.values import HAIR_MM
from pentice.mechanics.lines import LineLoad, stretches, summed_line
from pentice.setting_out.values import Bar, BarHole, Rafter
from pentice.standards.en338 import strength_class
from pentice.standards.en1995 import Duration, k_mod
from pentice.standards.en1995_screws import (
    declared_withdrawal_n,
    inside_screw_formula,
    least_timber_mm,
    screw_design_n,
    screw_pull_n,
    withdrawal_n,
)
from pentice.working import Step

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

_Held = tuple[float, tuple[Step, ...], tuple[RestsOn, ...]]
"""What one screw holds [N], how it is found, and what that rests on."""
_NO_UPLIFT: Duration = "short"
"""Of a pull of nothing."""
PRYING = 1.5
"""How much harder a screw beside the stem is pulled: typical, judgement, no source."""
GAMMA_CAP = 1.25
"""Partial factor on a declared hold of aluminium: as gamma_M2 of EN 1999-1-1; that a cap takes it is judgement."""

SCREW = Rule(
    id="bar-screw-uplift",
    name="Bar screw, uplift by zone",
    member="bar screw",
    clause="EN 1995-1-1, 8.7.2",
    unit="N",
    edition="EN 1995-1-1:2004+A1:2008",
)


def uplift_combinations(ground: Ground) -> tuple[Combination, ...]:
    """The combinations in which wind lifts against a weight that holds.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    tuple of Combination
        [-].

    Source
    ------
    EN 1990:2002, Table A1.2(A).
    """
    return tuple(c for c in ground.loads.combinations if c.kind == "uplift")


def screw_check(ground: Ground, bar: Bar, rafter: Rafter) -> Check:
    """Uplift on the worst screw of one bar.

    Parameters
    ----------
    ground
        The inputs of every check.
    bar, rafter
        The bar and what carries it.

    Returns
    -------
    Check
        [N]; refused where the wind is, or where the screw is outside the rules and declares nothing.

    Source
    ------
    EN 1995-1-1:2004, 8.7.2; prying by judgement.
    """
    place = Place(rafter=bar.rafter)
    if ground.loads.wind.refused:
        return open_check(SCREW, place, "refused", Shown(says=ground.loads.wind.refused))
    pull = _greatest_pull(ground, bar)
    held = ground.once(_screw_resistances)[pull.duration]
    if isinstance(held, str):

        def refusal() -> Shown:
            return Shown(says=held, rests_on=_inputs(ground), cure="A 6 mm screw with declared values.")

        return open_check(SCREW, place, "refused", refusal, demand=pull.newton, case=pull.words)
    resistance, steps, more = held

    def shown() -> Shown:
        lifts = _lifts(ground, rafter)
        return Shown(
            rests_on=(*_inputs(ground), *more),
            working=(*_pull_steps(pull), *steps, *_spacing_steps(lifts, resistance)),
            picture=_pull_picture(bar, pull, lifts),
            cure="Closer screws, a longer screw, or a bar with more hold.",
        )

    return compared(SCREW, place, demand=pull.newton, capacity=resistance, case=pull.words, shown=shown)


def _inputs(ground: Ground) -> tuple[RestsOn, ...]:
    return (
        ground.of_screw("d_mm"),
        ground.of_screw("thread_mm"),
        RestsOn(input="prying factor", value=PRYING, mark="typical"),
        ground.of_wind(),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pull:
    """The most that any one screw of a bar is pulled, and how it comes about."""

    newton: float
    hole: BarHole
    length_mm: float
    """Of bar that this screw holds."""
    words: str
    duration: Duration
    dead: tuple[float, float] = (0.0, 0.0)
    """Factor and weight along the bar [kN/m]."""
    wind: tuple[float, float] = (0.0, 0.0)
    """Factor and mean wind along the bar [kN/m], down positive."""


def _pull_steps(pull: _Pull) -> tuple[Step, ...]:
    (f_g, g), (f_w, w) = pull.dead, pull.wind
    along = -(f_g * g + f_w * w)
    return (
        Step(
            says="Uplift along the bar at the worst screw",
            formula=f"{f_w:g} w - {f_g:g} g",
            numbers=f"{f_w:g} x {-w:.4f} - {f_g:g} x {g:.4f}; w the mean over its own length, both bays",
            result=along,
            unit="kN/m",
            clause="EN 1990; wind for 1 m²",
        ),
        Step(
            says="Uplift that this screw holds",
            formula="uplift * its own length * prying",
            numbers=f"{along:.4f} x {pull.length_mm:.1f} x {PRYING:g}; the hole {pull.hole.at_mm:.0f} from the foot",
            result=pull.newton,
            unit="N",
            clause=f"each screw its own length; prying {JUDGEMENT}",
        ),
    )


def _pull_picture(bar: Bar, pull: _Pull, lifts: Sequence[_Lift]) -> LoadPicture:
    """Along the bar from the head, with its screws and what the worst one holds."""
    line = next((summed_line(((1.0, lift.line),)) for lift in lifts if lift.words == pull.words), ())
    end = max((x for x, _ in line), default=0.0)
    held = tuple(sorted(end - hole.at_mm for hole in bar.holes if hole.at_mm < end))
    force = (end - pull.hole.at_mm, pull.newton / 1000.0, "kN") if pull.newton > 0.0 else None
    return LoadPicture(
        says="Along the bar, uplift on it and its screws",
        line=line,
        unit="kN/m",
        held_mm=held,
        ends=("head", "foot"),
        force=force,
    )


class _Lift(NamedTuple):
    """One wind in one combination along a bar from the wall face."""

    combination: Combination
    name: str
    weight: float
    """Along the bar [kN/m]."""
    blown: LineLoad
    """The wind alone, characteristic [mm, kN/m]."""

    @property
    def words(self) -> str:
        """In words: the combination, and the wind in it."""
        return f"{self.combination.name}: {self.name}"

    @property
    def line(self) -> LineLoad:
        """All of it with its factors [mm, kN/m]."""
        held, factor = self.combination.dead * self.weight, self.combination.wind
        return tuple((x, held + factor * blown) for x, blown in self.blown)


def _weight_kn_m(ground: Ground, rafter: int) -> float:
    """Weight along a bar, square to it, by the place of its rafter from the left [kN/m]."""
    dead, width = ground.loads.dead, ground.once(rafter_models)[rafter].strip.width_mm
    return (dead.sheet_kn_m2 * width * 1e-3 + dead.bar_kn_m) * ground.shape.cos_pitch


def _lifting(ground: Ground) -> tuple[tuple[Combination, int], ...]:
    """Each combination for uplift with each wind that may stand in it, by its place."""
    return tuple(
        (c, n)
        for c in uplift_combinations(ground)
        for n, case in enumerate(ground.loads.wind.cases)
        if (case.situation == "accidental") == c.wind_accidental
    )


def _lifts(ground: Ground, rafter: Rafter) -> tuple[_Lift, ...]:
    """Every wind that lifts a bar somewhere, with its line."""
    k = rafter.number - 1
    weight, winds = _weight_kn_m(ground, k), wind_lines(ground, k, 1.0)
    return tuple(
        _Lift(c, winds[n][0].name, weight, winds[n][1])
        for c, n in ground.once(_lifting)
        if min(q for _, q in winds[n][1]) < 0.0
    )


def _greatest_pull(ground: Ground, bar: Bar) -> _Pull:
    """The most that any one screw of a bar is pulled, by which case, and for how long it lasts."""
    reach, forces = ground.once(_on_screws)[bar.rafter]
    if not forces.size or forces.min() >= 0.0:
        return _Pull(
            newton=0.0,
            hole=bar.holes[0],
            length_mm=reach[0][1] - reach[0][0],
            words="no uplift here",
            duration=_NO_UPLIFT,
        )
    n, k = divmod(greatest_place(-forces), len(reach))
    (c, wind), (low, high) = ground.once(_lifting)[n], reach[k]
    part, weight = float(forces[n, k]) / (high - low), _weight_kn_m(ground, bar.rafter - 1)
    return _Pull(
        newton=screw_pull_n(-part, high - low, PRYING),
        hole=bar.holes[k],
        length_mm=high - low,
        words=f"{c.name}: {ground.loads.wind.cases[wind].name}",
        duration=c.duration,
        dead=(c.dead, weight),
        wind=(c.wind, (part - c.dead * weight) / c.wind),
    )


def _spacing_steps(lifts: Sequence[_Lift], resistance: float) -> tuple[Step, ...]:
    """How far apart screws may stand along a bar, stretch by stretch from its foot, as far as the wind lifts it."""
    places = sorted({x for lift in lifts for x, _ in lift.line})
    read = [stretches(lift.line, places) for lift in lifts]
    found: list[tuple[float, float, float]] = []
    for i, (a, b) in enumerate(pairwise(places)):
        if b - a < HAIR_MM:
            continue
        most = max(max(-starts[i], -ends[i]) for starts, ends in read)
        if found and abs(found[-1][2] - most) < 1e-9:
            found[-1] = (found[-1][0], b, most)
        else:
            found.append((a, b, most))
    end = places[-1] if places else 0.0
    return tuple(
        Step(
            says=f"{SPACING_SAYS} {end - b:.0f} to {end - a:.0f} from the foot",
            formula="R_d / (prying * uplift along the bar)",
            numbers=f"{resistance:.2f} / ({PRYING:g} x {most:.6f})",
            result=resistance / (PRYING * most),
            unit="mm",
            clause="the greatest uplift of each stretch",
        )
        for a, b, most in reversed(found)
        if most > 0.0 and resistance / (PRYING * most) < SPACING_TOLD_MM
    )


SPACING_SAYS = "Holes at most so far apart,"
SPACING_TOLD_MM = 2000.0
"""Greatest spacing that is worth telling: no bar is screwed further apart."""


def zones_asked(checks: Iterable[Check], rafters: Iterable[int]) -> tuple[tuple[float, float, float], ...]:
    """What the wind allows from hole to hole along some bars, the least of them: from, to, and spacing [mm].

    Parameters
    ----------
    checks
        Every check of a design.
    rafters
        Numbers of the rafters that carry the bars.

    Returns
    -------
    tuple
        From the foot; spacings down to whole mm. Empty where nothing lifts, or the screws are refused.

    Source
    ------
    The lines of "Bar screw, uplift by zone".
    """
    wanted = set(rafters)
    found: list[tuple[float, float, float]] = []
    for check in checks:
        if check.id == SCREW.id and check.place.rafter in wanted:
            for step in check.working:
                if step.says.startswith(SPACING_SAYS):
                    words = step.says.removeprefix(SPACING_SAYS).split()
                    found.append((float(words[0]), float(words[2]), math.floor(float(step.result))))
    merged: list[tuple[float, float, float]] = []
    for a, b in pairwise(sorted({x for start, end, _ in found for x in (start, end)})):
        over = [s for start, end, s in found if start <= a and b <= end]
        if not over:
            continue
        if merged and merged[-1][1] == a and merged[-1][2] == min(over):
            merged[-1] = (merged[-1][0], b, min(over))
        else:
            merged.append((a, b, min(over)))
    return tuple(merged)


def _on_screws(ground: Ground) -> dict[int, tuple[list[tuple[float, float]], Array]]:
    """The stretches that the screws of each bar hold, from its foot [mm], and what lifts them, by its rafter's number.

    Shape of what lifts: (`_lifting`, screws), down positive [N].
    """
    import numpy as np

    bars = ground.setting_out.plane.bars
    reaches = [_own_reaches(bar) for bar in bars]
    under = np.repeat([bar.rafter - 1 for bar in bars], [len(reach) for reach in reaches])
    stretches = np.concatenate([np.array(reach) for reach in reaches])
    weights = np.array([_weight_kn_m(ground, k) for k in range(len(ground.setting_out.plane.rafters))])[under]
    lifting = ground.once(_lifting)
    held, blows = np.array([c.dead for c, _ in lifting]), np.array([c.wind for c, _ in lifting])
    blown = wind_on_bars_n(ground, under.tolist(), stretches)[[n for _, n in lifting]]
    forces = np.outer(held, weights * np.diff(stretches, axis=1)[:, 0]) + blows[:, None] * blown
    of_bars = np.split(forces, np.cumsum([len(reach) for reach in reaches])[:-1], axis=1)
    return {bar.rafter: (reach, found) for bar, reach, found in zip(bars, reaches, of_bars, strict=True)}


def _screw_resistances(ground: Ground) -> dict[Duration, _Held | str]:
    """The resistance of one screw for as long as any uplift lasts, and where nothing lifts."""
    lasting = {_NO_UPLIFT, *(c.duration for c in uplift_combinations(ground))}
    return {time: _screw_resistance(ground, k_mod(service_class(ground), time)) for time in lasting}


def _screw_resistance(ground: Ground, factor: float) -> _Held | str:
    """Design resistance of one screw: withdrawal, pull-through of the seat, tension; or what is missing."""
    screw, bar, timber = (
        ground.parts.screw,
        ground.parts.bar,
        strength_class(ground.parts.timber.strength_class),
    )
    grip = min(screw.thread_mm, screw.length_mm - (bar.seat_thickness_mm or 0.0))
    missing = [
        f"{name} ({key})"
        for name, key, value in (
            ("screw tension", f"screws.{screw.id}.f_tens_n", screw.f_tens_n),
            ("pull-through of the seat", f"bars.{bar.id}.pull_through_n", bar.pull_through_n),
        )
        if value is None
    ]
    depth = ground.setting_out.plane.rafters[0].depth_mm
    if depth < least_timber_mm(screw.d_mm):
        needed = least_timber_mm(screw.d_mm)
        return f"The rafter is {depth:g} deep; {needed:g} (12 d) is needed for these rules. A deeper rafter."
    try:
        withdrawal, numbers, more = _withdrawal(ground, grip, timber.rho_k_kg_m3)
    except OutsideScope as refusal:
        return str(refusal)
    if missing or screw.f_tens_n is None or bar.pull_through_n is None:
        return f"Refused: not declared: {', '.join(missing)}. Ask the supplier."
    timber_part = screw_design_n(timber_n=withdrawal, steel_n=screw.f_tens_n, k_mod=factor)
    seat = bar.pull_through_n / GAMMA_CAP
    steps = (
        Step(
            says="Withdrawal",
            formula="F_ax,Rk = f_ax,k d l_ef (rho_k / rho_a)^{0.8}"
            if screw.f_ax_n_mm2 is not None and screw.rho_a_kg_m3 is not None
            else "F_ax,Rk = 0.52 d^{-0.5} l_ef^{-0.1} rho_k^{0.8} d l_ef k_d",
            numbers=numbers,
            result=withdrawal,
            unit="N",
            clause="EN 1995-1-1, 8.7.2",
        ),
        Step(
            says="Design resistance of one screw",
            formula="the least of withdrawal, tension and pull-through",
            numbers=(
                f"min({factor:g} x {withdrawal:.1f} / 1.3, {screw.f_tens_n:g} x min({factor:g} / 1.3, 1 / 1.25), "
                f"{bar.pull_through_n:g} / 1.25)"
            ),
            result=min(timber_part, seat),
            unit="N",
            clause="EN 1995-1-1, 2.4.3, 8.7.2",
        ),
    )
    return (
        min(timber_part, seat),
        steps,
        (*more, ground.of_screw("f_tens_n"), ground.of_bar("pull_through_n")),
    )


def _withdrawal(ground: Ground, grip: float, rho_k: float) -> tuple[float, str, tuple[RestsOn, ...]]:
    """Characteristic withdrawal [N], its arithmetic, and what it rests on."""
    screw = ground.parts.screw
    if screw.f_ax_n_mm2 is not None and screw.rho_a_kg_m3 is not None:
        declared = declared_withdrawal_n(
            thread_mm=screw.d_mm,
            length_mm=grip,
            f_ax_n_mm2=screw.f_ax_n_mm2,
            rho_a_kg_m3=screw.rho_a_kg_m3,
            rho_k_kg_m3=rho_k,
        )
        numbers = (
            f"{screw.f_ax_n_mm2:g} x {screw.d_mm:g} x {grip:g} x ({rho_k:g} / {screw.rho_a_kg_m3:g})^0.8"
        )
        return declared, numbers, (ground.of_screw("f_ax_n_mm2"),)
    if not inside_screw_formula(screw.d_mm, screw.root_mm):
        raise OutsideScope(
            f"The screw, {screw.d_mm:g} mm with a root of {screw.root_mm:g}, is outside 6 to 12 mm and 0.6 to 0.75 "
            f"(EN 1995-1-1, 8.7.2): declare screws.{screw.id}.f_ax_n_mm2, or take a 6 mm screw."
        )
    formula = withdrawal_n(thread_mm=screw.d_mm, root_mm=screw.root_mm, length_mm=grip, rho_k_kg_m3=rho_k)
    d = screw.d_mm
    numbers = f"0.52 x {d:g}^(-0.5) x {grip:g}^(-0.1) x {rho_k:g}^0.8 x {d:g} x {grip:g} x min({d:g} / 8, 1)"
    return formula, numbers, (ground.of_screw("root_mm"),)


def _own_reaches(bar: Bar) -> list[tuple[float, float]]:
    """The bar that each screw holds, from and to: half way to its neighbours, or to the end [mm]."""
    between = [(a.at_mm + b.at_mm) / 2.0 for a, b in pairwise(bar.holes)]
    return list(pairwise((0.0, *between, bar.base_mm)))
