"""How much of its strength a timber uses that is pressed or pulled and bent both ways: every share added in full."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pentice.checks.knee_bolts import Net
from pentice.checks.knee_shown import Spot
from pentice.checks.knee_values import KneeLine
from pentice.checks.passed_on import strengths_in
from pentice.checks.timber_shown import slender_steps, strength_in
from pentice.standards.en338 import StrengthClass
from pentice.standards.en1995 import (
    bending_slenderness,
    column_slenderness,
    critical_stress_n_mm2,
    k_c,
    k_crit,
    size_factor,
)
from pentice.working import Step

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

_ADDED = "all added in full: the 0.7 of 6.1.6(2) and the squares of 6.19 and 6.35 left out, on the safe side"


@dataclass(frozen=True, slots=True, kw_only=True)
class Strong:
    """What a member holds for each unit of k_mod / gamma_M [N/mm2], and what bowing and giving way leave of it [-]."""

    pushed: float
    pulled: float
    bent: float
    bent_sideways: float
    k_c: float
    k_crit: float
    lines: Callable[[], tuple[Step, ...]]
    """That lead to k_c and k_crit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Used:
    """Shares of a member's strength in every case, and the forces they come from [N, N mm]."""

    axial_n: Array
    """Pull positive; of push and pull the one that uses more."""
    moment_n_mm: Array
    sideways_n_mm: Array
    share: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """How a member is held: lengths for bowing in the direction of its depth and of its width [mm]."""

    upright_mm: float
    sideways_mm: float
    effective_mm: float
    """Length for giving way sideways while it is bent."""
    how: str
    """Arithmetic that leads to that, and why."""


def strong(timber: StrengthClass, size: tuple[float, float], held: Held) -> Strong:
    """What a timber holds.

    Parameters
    ----------
    timber, size, held
        Its class, width and depth [mm], and how it is held.

    Returns
    -------
    Strong
        [N/mm2], [-].

    Source
    ------
    EN 1995-1-1:2004, 3.2, 6.3.2, 6.3.3. Deeper than wide it may give way sideways; else it cannot.
    """
    b, h = size
    f_c, e = timber.f_c_0_k_n_mm2, timber.e_0_05_n_mm2
    ways = ((held.upright_mm, h), (held.sideways_mm, b))
    long, side = max(ways, key=lambda way: way[0] / way[1])
    slender = column_slenderness(long, side, f_c, e)
    left, gives, thin = k_c(slender), 1.0, 0.0
    if h > b:
        thin = bending_slenderness(timber.f_m_k_n_mm2, critical_stress_n_mm2(b, h, held.effective_mm, e))
        gives = k_crit(thin)

    def lines() -> tuple[Step, ...]:
        k = 0.5 * (1.0 + 0.2 * (slender - 0.3) + slender**2)
        numbers = f"1 / ({k:.5f} + sqrt({k:.5f}^2 - {slender:.5f}^2))" if slender > 0.3 else "1"
        root = f"lambda = {long:.0f} sqrt(12) / ({side:g} pi) sqrt({f_c:g} / {e:g})"
        bowing = Step(
            says="Bowing factor, of both ways the lesser",
            formula="k_c = 1 / (k + sqrt(k^2 - lambda^2)), k = 0.5 (1 + 0.2 (lambda - 0.3) + lambda^2)",
            numbers=f"{numbers}; {root}",
            result=left,
            unit="",
            clause="6.3.2, eq. 6.21, 6.25",
        )
        if h <= b:
            return (bowing,)
        length = Step(
            says="Effective length",
            formula="l_ef",
            numbers=held.how,
            result=held.effective_mm,
            unit="mm",
            clause="Table 6.1",
        )
        return (bowing, length, *slender_steps(size, held.effective_mm, timber, thin, gives))

    return Strong(
        pushed=f_c,
        pulled=timber.f_t_0_k_n_mm2 * size_factor(max(b, h)),
        bent=timber.f_m_k_n_mm2 * size_factor(h),
        bent_sideways=timber.f_m_k_n_mm2 * size_factor(b),
        k_c=left,
        k_crit=gives,
        lines=lines,
    )


def used_of(  # noqa: PLR0913 -- what acts and what it acts on, each by name
    size: tuple[float, float],
    net: Net,
    of: Strong,
    design: Array,
    pushed: Array,
    pulled: Array,
    moment: Array,
    sideways: Array,
) -> Used:
    """Shares of a member's strength in many cases.

    Parameters
    ----------
    size, net, of, design
        Width and depth [mm], what holes leave of it, what it holds, k_mod / gamma_M of each case [-].
    pushed, pulled, moment, sideways
        Push and pull, each 0 or more [N]; bending in the direction of the depth and of the width, in size [N mm].

    Returns
    -------
    Used
        [-].

    Source
    ------
    EN 1995-1-1:2004, 6.2.3, 6.2.4, 6.3.2, 6.3.3, added in full: no less than any of their equations. Holes about the
    middle line count where it is bent or pulled, not where it is pressed: 5.2(3), from memory.
    """
    import numpy as np

    b, h = size
    push = pushed / (b * h) / (of.k_c * of.pushed * design)
    pull = pulled / net.area_mm2 / (of.pulled * design)
    bent = moment / net.modulus_mm3 / (of.k_crit * of.bent * design)
    aside = 6.0 * sideways / (net.left_mm * b**2) / (of.bent_sideways * design)
    return Used(
        axial_n=np.where(pull > push, pulled, -pushed),
        moment_n_mm=moment,
        sideways_n_mm=sideways,
        share=np.maximum(push, pull) + bent + aside,
    )


def design_of(line: KneeLine, service: int) -> Array:
    """k_mod / gamma_M of each load of a pair.

    Parameters
    ----------
    line, service
        The pair, and the service class [-].

    Returns
    -------
    array
        Shape (1, loads, 1) [-].

    Source
    ------
    EN 1995-1-1:2004, 2.4.1.
    """
    import numpy as np

    return np.array(strengths_in(1.0, line.loads, service))[None, :, None]


def share_steps(
    spot: Spot, size: tuple[float, float], net: Net, of: Strong, used: Used, service: int
) -> tuple[Step, ...]:
    """Stresses of a member and the sum of their shares.

    Parameters
    ----------
    spot, size, net
        Where, width and depth [mm], and what holes leave of it.
    of, used, service
        What it holds, what it uses, and its service class.

    Returns
    -------
    tuple of Step
        The last is the sum [of 1].

    Source
    ------
    As `used_of`.
    """
    (b, h), axial = size, spot.of(used.axial_n)
    moment, aside = spot.of(used.moment_n_mm), spot.of(used.sideways_n_mm)
    strength = strength_in(1.0, spot.acting.combination, service)
    pulls, factor = axial > 0.0, f"{strength.k_mod:g} / {strength.gamma:g}"
    deep = f"({h:g} - {len(net.places_mm)} x {net.hole_mm:g})"
    area, of_area = (net.area_mm2, f"{b:g} x {deep}") if pulls else (b * h, f"{b:g} x {h:g}")
    stress, bent, side = abs(axial) / area, moment / net.modulus_mm3, 6.0 * aside / (net.left_mm * b**2)
    sigma = "sigma_t" if pulls else "sigma_c"
    holds = f"({of.pulled:.4f} x {factor})" if pulls else f"({of.k_c:.5f} x {of.pushed:g} x {factor})"
    numbers = f"{stress:.5f} / {holds} + {bent:.5f} / ({of.k_crit:.5f} x {of.bent:.4f} x {factor})"
    formula = f"{sigma} / {'f_t,0,d' if pulls else '(k_c f_c,0,d)'} + sigma_y / (k_crit f_m,y,d)"
    steps = [
        *of.lines(),
        Step(
            says=f"Stress from the {'pull' if pulls else 'push'} along it",
            formula=f"{sigma} = N / (b (h - n D))" if pulls else f"{sigma} = N / (b h)",
            numbers=f"{abs(axial):.1f} / ({of_area})",
            result=stress,
            unit="N/mm2",
            clause="6.1.2; beside the holes" if pulls else "6.1.4; the whole section, 5.2(3), from memory",
        ),
        net.step(),
        Step(
            says="Stress from bending across",
            formula="sigma_y = M / W_n",
            numbers=f"{moment / 1e6:.7f} x 10^6 / {net.modulus_mm3:.1f}",
            result=bent,
            unit="N/mm2",
            clause="6.1.6",
        ),
    ]
    if aside:
        force = abs(spot.of(spot.line.brace_n)) * spot.side.rise_mm / spot.side.brace_mm
        steps.append(
            Step(
                says="Stress from the brace beside the post's middle",
                formula="sigma_z = 6 F v / L e / ((h - n D) b^2)",
                numbers=f"6 x {force:.2f} x {abs(spot.side.aside_mm):.3f} / ({deep} x {b:g}^2)",
                result=side,
                unit="N/mm2",
                clause="6.1.6; the rafter stands out of the post's middle",
            )
        )
        formula, numbers = (
            f"{formula} + sigma_z / f_m,z,d",
            f"{numbers} + {side:.5f} / ({of.bent_sideways:.4f} x {factor})",
        )
    steps.append(
        Step(
            says="All together",
            formula=formula,
            numbers=numbers,
            result=spot.of(used.share),
            unit="of 1",
            clause=f"6.2.3, 6.2.4, 6.3.2, 6.3.3; {_ADDED}; service class {service}",
        )
    )
    return tuple(steps)
