"""Mullions and transoms as members: what wind and weight bring to each, and what that rests on."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from pentice.checks.ground import Ground, Rule
from pentice.checks.values import RestsOn, Shown
from pentice.checks.walls import CALLED, OnWall, in_any_zone
from pentice.job.fields import Wall
from pentice.loads.combine import Combination
from pentice.loads.weight import GRAVITY
from pentice.records import quickly_made
from pentice.setting_out.side_frames import Mullion, Transom
from pentice.setting_out.side_sheets import as_read
from pentice.standards.en338 import StrengthClass, strength_class
from pentice.working import Step

Lines = tuple[tuple[OnWall, Combination], ...]
"""The worst wind that lasts, and the worst by accident, each with its combination."""


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Bent:
    """A mullion or a transom: what it is, where it is, and what comes to it."""

    words: str
    sheet: int
    """The side sheet beside it that names its place."""
    size_mm: tuple[float, float]
    """Width as seen from outside, and depth in the direction of the wind [mm]."""
    span_mm: float
    strip_mm: float
    down_n_mm: float
    """Weight that it carries level, its own counted, characteristic [N/mm]."""
    lines: Lines
    weighs: str = ""
    """Arithmetic of that weight."""

    def level_n_mm(self, on: OnWall) -> float:
        """Wind along it, characteristic, in size [N/mm]."""
        return abs(on.net) * self.strip_mm * 1e-3


def timber_of(ground: Ground) -> StrengthClass:
    """Strength class of mullions, transoms and sills: that of the frame.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    StrengthClass
        [N/mm2].

    Source
    ------
    Definition.
    """
    return strength_class(ground.parts.timber_for("mullion").strength_class)


def of_mullion(ground: Ground, mullion: Mullion, size: tuple[float, float]) -> Bent:
    """A mullion with the wind on it.

    Parameters
    ----------
    ground, mullion, size
        The inputs of every check, the mullion, its width and depth [mm].

    Returns
    -------
    Bent
        [N/mm].

    Source
    ------
    As `worst_winds`.
    """
    return Bent(
        words=f"mullion {mullion.number}, {CALLED[mullion.side]}",
        sheet=mullion.between[0],
        size_mm=size,
        span_mm=mullion.length_mm,
        strip_mm=mullion.strip_mm,
        down_n_mm=0.0,
        lines=worst_winds(ground, mullion.side, mullion.strip_mm, mullion.length_mm),
    )


def of_transom(ground: Ground, transom: Transom, size: tuple[float, float]) -> Bent:
    """A transom with the wind on it, and the sheet that stands on it.

    Parameters
    ----------
    ground, transom, size
        The inputs of every check, the transom, its width and depth [mm].

    Returns
    -------
    Bent
        [N/mm].

    Source
    ------
    As `worst_winds`; mean density of the class.
    """
    timber = timber_of(ground)
    own = size[0] * size[1] * 1e-6 * timber.rho_mean_kg_m3 * GRAVITY
    sheet = ground.parts.sheet.mass_kg_m2 * GRAVITY * transom.above_mm / 1000.0
    return Bent(
        words=f"transom {transom.number}, {CALLED[transom.side]}",
        sheet=transom.between[0],
        size_mm=size,
        span_mm=transom.length_mm,
        strip_mm=transom.strip_mm,
        down_n_mm=own + sheet,
        lines=worst_winds(ground, transom.side, transom.strip_mm, transom.length_mm),
        weighs=f"{ground.parts.sheet.mass_kg_m2:g} x 9.81 / 1000 x {transom.above_mm / 1000.0:.4f} + "
        f"{size[0] / 1000.0:g} x {size[1] / 1000.0:g} x {timber.rho_mean_kg_m3:g} x 9.81 / 1000",
    )


def worst_winds(ground: Ground, wall: Wall, strip_mm: float, long_mm: float) -> Lines:
    """The worst wind on a strip of a wall, lasting and by accident, with the combination each stands in.

    Parameters
    ----------
    ground, wall, strip_mm, long_mm
        The inputs of every check, the wall, width and length of the strip [mm].

    Returns
    -------
    tuple
        The wind and its combination.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.1(1), 7.2.2, 7.2.9: of every zone of a wall, or as the job declares; EN 1990, 6.10,
    6.11b.
    """
    winds = in_any_zone(ground, wall, area_m2=strip_mm * long_mm * 1e-6, tallest_mm=long_mm)
    found: dict[str, OnWall] = {}
    for wind in winds:
        if wind.situation not in found or abs(wind.net) > abs(found[wind.situation].net):
            found[wind.situation] = wind
    every = ground.loads.combinations
    strength = max((c for c in every if c.kind == "strength"), key=lambda c: (c.wind, c.dead))
    acting = [(found["persistent"], strength)] if "persistent" in found else []
    accident = [c for c in every if c.wind_accidental]
    if "accidental" in found and accident:
        acting.append((found["accidental"], accident[0]))
    return tuple(acting)


def inputs_of(ground: Ground, rule: Rule, sheet: int | None = None) -> tuple[RestsOn, ...]:
    """Sections, timber, wind, and the opening of the side sheet that names the place.

    Parameters
    ----------
    ground, rule, sheet
        The inputs of every check, what is asked, and the number of that sheet.

    Returns
    -------
    tuple of RestsOn
        With their marks.

    Source
    ------
    Definition.
    """
    timber, frame = ground.parts.timber_for("mullion"), ground.job.frame
    openings: tuple[RestsOn, ...] = ()
    walls: tuple[Wall, ...] = ()
    if sheet is not None:
        path, opening = f"side_sheets[{sheet - 1}]", as_read(ground.job, sheet)
        walls = (opening.side,)
        openings = tuple(
            ground.of_job(f"{path}.{key}", getattr(opening, key))
            for key in ("width_mm", "left_mm", "right_mm")
        )
    sizes = [ground.of_job("frame.mullion_mm", frame.mullion_mm)]
    if rule.member == "sill":
        sizes = [
            ground.of_job("frame.sill_mm", frame.sill_mm),
            ground.of_job("frame.sill_fixing_spacing_mm", frame.sill_fixing_spacing_mm),
        ]
    return (
        *sizes,
        ground.of_catalogue(f"timbers.{timber.id}.class", timber.strength_class),
        *openings,
        ground.of_wind(),
        *ground.of_side_wind(*walls),
    )


def asked(rests: Callable[[], tuple[RestsOn, ...]], steps: Callable[[], tuple[Step, ...]], why: str) -> Shown:
    """What a check shows that asks for a declared value.

    Parameters
    ----------
    rests, steps, why
        Its inputs, the lines that lead to the force, and the sentence.

    Returns
    -------
    Shown
        Written out.

    Source
    ------
    Definition.
    """
    return Shown(says=why, rests_on=rests(), working=steps())
