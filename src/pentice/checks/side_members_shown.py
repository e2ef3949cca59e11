"""Strength, sag and ends of mullions, transoms and sills: each figure with the lines that lead to it."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import NamedTuple

from pentice.checks.posts import POST_SERVICE_CLASS
from pentice.checks.side_members_model import Bent
from pentice.checks.timber_shown import (
    Sideways,
    bending_steps,
    figures,
    limit_step,
    shear_steps,
    sideways_steps,
    strength_in,
)
from pentice.checks.walls import OnWall
from pentice.loads.combine import Combination
from pentice.standards.en338 import StrengthClass
from pentice.standards.en1995 import (
    bending_slenderness,
    bending_stress_n_mm2,
    critical_stress_n_mm2,
    gravity_buckling_length_mm,
    k_crit,
    shear_stress_n_mm2,
    size_factor,
)
from pentice.standards.en1995_members import K_M
from pentice.working import Step

_STATICS = "statics"


class Answer(NamedTuple):
    """What is needed, what is there, and the lines, written when they are read."""

    demand: float
    capacity: float
    steps: Callable[[], tuple[Step, ...]]


def wind_steps(strip_mm: float, on: OnWall, c: Combination) -> tuple[Step, ...]:
    """The wind along a piece.

    Parameters
    ----------
    strip_mm, on, c
        Strip of the wall that comes to it [mm], the wind and the combination.

    Returns
    -------
    tuple of Step
        [kN/m2, kN/m].

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.2, 7.2.9.
    """
    line = c.wind * abs(on.net) * strip_mm / 1000.0
    return (
        on.step(),
        Step(
            says="Wind along it, either way",
            formula="w = gamma_Q |w| b",
            numbers=f"{c.wind:g} x {abs(on.net):.4f} x {strip_mm / 1000.0:.4f}",
            result=line,
            unit="kN/m",
            clause=f"{c.clause}{on.worst()}",
        ),
    )


def _moment(says: str, line: float, span_mm: float) -> Step:
    return Step(
        says=says,
        formula="M = w l^2 / 8",
        numbers=f"{line:.5f} x {span_mm / 1000.0:.4f}^2 / 8",
        result=line * span_mm**2 / 8e6,
        unit="kNm",
        clause=_STATICS,
    )


def bending_lines(timber: StrengthClass, member: Bent, on: OnWall, c: Combination) -> Answer:
    """A mullion bent by wind: stress and strength.

    Parameters
    ----------
    timber, member, on, c
        Its class, the mullion, the wind and the combination.

    Returns
    -------
    Answer
        [N/mm2].

    Source
    ------
    EN 1995-1-1:2004, 6.1.6, 6.3.3; the profiles beside it are not counted as holding it.
    """
    (b, h), span = member.size_mm, member.span_mm
    line = c.wind * member.level_n_mm(on)
    moment, k_h = line * span**2 / 8.0, size_factor(h)
    stress = bending_stress_n_mm2(moment, b, h)
    strength = strength_in(timber.f_m_k_n_mm2 * k_h, c, POST_SERVICE_CLASS)
    l_ef = gravity_buckling_length_mm(span, h)
    slender = bending_slenderness(timber.f_m_k_n_mm2, critical_stress_n_mm2(b, h, l_ef, timber.e_0_05_n_mm2))
    left = k_crit(slender) if h > b else 1.0

    def steps() -> tuple[Step, ...]:
        sideways = Sideways(
            free_mm=span,
            upward=False,
            length_mm=l_ef,
            slenderness=slender,
            k_crit=left,
            held="held at its ends",
            why="the profiles beside it not counted as holding it",
        )
        lines = (
            *wind_steps(member.strip_mm, on, c),
            _moment("Moment in it", line, span),
            *bending_steps(moment, (b, h), stress, k_h, timber.f_m_k_n_mm2, strength),
        )
        return (*lines, *sideways_steps(sideways, (b, h), timber, strength.value)) if h > b else lines

    return Answer(stress, left * strength.value, steps)


def both_ways_lines(timber: StrengthClass, member: Bent, on: OnWall, c: Combination) -> Answer:
    """A transom bent level by wind and down by the sheet that stands on it.

    Parameters
    ----------
    timber, member, on, c
        Its class, the transom, the wind and the combination.

    Returns
    -------
    Answer
        [of 1].

    Source
    ------
    EN 1995-1-1:2004, 6.1.6, eq. 6.11 and 6.12 with k_m 0.7.
    """
    (b, h), span = member.size_mm, member.span_mm
    level, down = c.wind * member.level_n_mm(on), c.dead * member.down_n_mm
    s_y, s_z = (
        bending_stress_n_mm2(level * span**2 / 8.0, b, h),
        bending_stress_n_mm2(down * span**2 / 8.0, h, b),
    )
    f_y, f_z = (
        strength_in(timber.f_m_k_n_mm2 * size_factor(side), c, POST_SERVICE_CLASS).value for side in (h, b)
    )
    sums = (s_y / f_y + K_M * s_z / f_z, K_M * s_y / f_y + s_z / f_z)
    way = 0 if sums[0] >= sums[1] else 1

    def steps() -> tuple[Step, ...]:
        strength = strength_in(1.0, c, POST_SERVICE_CLASS)
        y, z = ((1.0, K_M), (K_M, 1.0))[way]
        parts = []
        for says, line, s, f, sides, axis in (
            ("level", level, s_y, f_y, (b, h), "y"),
            ("down", down, s_z, f_z, (h, b), "z"),
        ):
            parts += [
                _moment(f"Moment {says}", line, span),
                Step(
                    says=f"Stress from bending {says}",
                    formula=f"sigma_{axis} = 6 M / (b h^2)",
                    numbers=f"6 x {figures(line * span**2 / 8e6)} x 10^6 / ({sides[0]:g} x {sides[1]:g}^2)",
                    result=s,
                    unit="N/mm2",
                    clause="6.1.6",
                ),
                Step(
                    says=f"Strength in bending {says}",
                    formula=f"f_m,{axis},d = k_mod k_h f_m,k / gamma_M",
                    numbers=f"{strength.k_mod:g} x {size_factor(sides[1]):.4f} x {timber.f_m_k_n_mm2:g} / "
                    f"{strength.gamma:g}",
                    result=f,
                    unit="N/mm2",
                    clause="2.4.1, 3.2",
                ),
            ]
        return (
            *wind_steps(member.strip_mm, on, c),
            _down_step(member, c),
            *parts,
            Step(
                says="Both together",
                formula="k_m,y sigma_y / f_m,y,d + k_m,z sigma_z / f_m,z,d",
                numbers=f"{y:g} x {s_y:.5f} / {f_y:.4f} + {z:g} x {s_z:.5f} / {f_z:.4f}",
                result=sums[way],
                unit="of 1",
                clause=f"eq. 6.11, 6.12; service class {POST_SERVICE_CLASS}",
            ),
        )

    return Answer(sums[way], 1.0, steps)


def _down_step(member: Bent, c: Combination) -> Step:
    return Step(
        says="Down, the sheet on it and its own weight",
        formula="g = gamma_G (g_sheet h + b h rho)",
        numbers=f"{c.dead:g} x ({member.weighs})",
        result=c.dead * member.down_n_mm,
        unit="kN/m",
        clause=c.clause,
    )


def shear_lines(timber: StrengthClass, member: Bent, on: OnWall, c: Combination) -> Answer:
    """Shear at the end of a mullion or a transom.

    Parameters
    ----------
    timber, member, on, c
        Its class, the piece, the wind and the combination.

    Returns
    -------
    Answer
        [N/mm2].

    Source
    ------
    EN 1995-1-1:2004+A1, 6.1.7 with k_cr 0.67; of a transom what it carries level and down together.
    """
    ends = at_ends(member, on, c)
    force = ends.demand * 1000.0
    stress = shear_stress_n_mm2(force, *member.size_mm)
    strength = strength_in(timber.f_v_k_n_mm2, c, POST_SERVICE_CLASS)

    def steps() -> tuple[Step, ...]:
        return (*ends.steps(), *shear_steps(force, member.size_mm, stress, timber.f_v_k_n_mm2, strength))

    return Answer(stress, strength.value, steps)


def at_ends(member: Bent, on: OnWall, c: Combination) -> Answer:
    """What a mullion or a transom brings to each of its ends.

    Parameters
    ----------
    member, on, c
        The piece, the wind and the combination.

    Returns
    -------
    Answer
        [kN]; no capacity.

    Source
    ------
    Statics.
    """
    level, down = c.wind * member.level_n_mm(on), c.dead * member.down_n_mm
    half = member.span_mm / 2000.0
    force = math.hypot(level, down) * half

    def steps() -> tuple[Step, ...]:
        formula, numbers = "R = w l / 2", f"{level:.5f} x {member.span_mm / 1000.0:.4f} / 2"
        more: tuple[Step, ...] = ()
        if member.down_n_mm:
            formula = "R = sqrt(w^2 + g^2) l / 2"
            numbers = f"sqrt({level:.5f}^2 + {down:.5f}^2) x {member.span_mm / 1000.0:.4f} / 2"
            more = (_down_step(member, c),)
        last = Step(
            says="At each end", formula=formula, numbers=numbers, result=force, unit="kN", clause=_STATICS
        )
        return (*wind_steps(member.strip_mm, on, c), *more, last)

    return Answer(force, 0.0, steps)


def sag_lines(
    timber: StrengthClass, member: Bent, on: OnWall, limit_mm: float, creep: tuple[float, float]
) -> Answer:
    """How far a mullion or a transom bends.

    Parameters
    ----------
    timber, member, on
        Its class, the piece, and the wind.
    limit_mm
        Most sag [mm].
    creep
        What is added to wind and to weight in the end [-].

    Returns
    -------
    Answer
        [mm].

    Source
    ------
    EN 1995-1-1:2004, 2.2.3, 7.2; bending and shear.
    """
    (b, h), span = member.size_mm, member.span_mm
    e, g = timber.e_0_mean_n_mm2, timber.g_mean_n_mm2
    level, down = member.level_n_mm(on) * (1.0 + creep[0]), member.down_n_mm * (1.0 + creep[1])

    def soft(wide: float, deep: float) -> float:
        second = wide * deep**3 / 12.0
        return 5.0 * span**4 / (384.0 * e * second) + 1.2 * span**2 / (8.0 * g * b * h)

    ways = (level * soft(b, h), down * soft(h, b))
    sag = math.hypot(*ways)

    def line(says: str, w: float, wide: float, deep: float, value: float) -> Step:
        return Step(
            says=says,
            formula="5 w l^4 / (384 E I) + 1.2 w l^2 / (8 G A)",
            numbers=f"5 x {w:.5f} x {span:.1f}^4 / (384 x {e:g} x {wide:g} x {deep:g}^3 / 12)"
            f" + 1.2 x {w:.5f} x {span:.1f}^2 / (8 x {g:g} x {b:g} x {h:g})",
            result=value,
            unit="mm",
            clause=_STATICS,
        )

    def steps() -> tuple[Step, ...]:
        known = Step(
            says="Wind along it, characteristic, and in the end",
            formula="w = |w| b (1 + psi_2 k_def)",
            numbers=f"{abs(on.net):.4f} x {member.strip_mm / 1000.0:.4f} x (1 + {creep[0]:g})",
            result=level,
            unit="kN/m",
            clause="EN 1990, 6.14b; EN 1995-1-1, 2.2.3",
        )
        found = [on.step(), known, line("Sag, bending and shear", level, b, h, ways[0])]
        if member.down_n_mm:
            found += [
                Step(
                    says="Down, the sheet on it and its own weight",
                    formula="g = (g_sheet h + b h rho) (1 + k_def)",
                    numbers=f"({member.weighs}) x (1 + {creep[1]:g})",
                    result=down,
                    unit="kN/m",
                    clause="EN 1995-1-1, 2.2.3",
                ),
                line("Sag down", down, h, b, ways[1]),
                Step(
                    says="Both ways",
                    formula="sqrt(u^2 + v^2)",
                    numbers=f"sqrt({ways[0]:.5f}^2 + {ways[1]:.5f}^2)",
                    result=sag,
                    unit="mm",
                    clause=_STATICS,
                ),
            ]
        return (*found, limit_step(span, limit_mm))

    return Answer(sag, limit_mm, steps)
