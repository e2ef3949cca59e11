"""EN 1995-1-1, 6.5: members cut at a support, such as a rafter's birdsmouth over the plate.

A notch on the side of the support starts a split along the grain; one on the other side only takes away depth. Under
uplift the force at the support turns, and the side of the notch with it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from pentice.errors import InputError, require_within
from pentice.standards.en1995 import shear_stress_n_mm2

_RULE = "EN 1995-1-1, 6.5.2"
_K_N = {"solid": 5.0, "glulam": 6.5}


@dataclass(frozen=True, slots=True, kw_only=True)
class Notch:
    """A cut at a support [mm].

    left_mm is the depth h_ef that the cut leaves; to_force_mm the distance x from the force at the support to the
    corner of the cut; slope the run over the rise of the cut's inner face: 0 is square, 2 runs 2 for each 1 it rises.
    """

    left_mm: float
    to_force_mm: float
    slope: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class NotchShear:
    """Shear at a notched support: alpha = h_ef / h [-], factor k_v [-], stress and strength [N/mm2], share used [-]."""

    alpha: float
    k_v: float
    stress_n_mm2: float
    strength_n_mm2: float
    utilisation: float


def notch_factor(
    notch: Notch, depth_mm: float, *, side: Literal["support", "other"], material: Literal["solid", "glulam"]
) -> float:
    """Factor k_v by which a notch weakens a member in shear.

    Parameters
    ----------
    notch
        Depth left, distance to the force and slope [mm].
    depth_mm
        Whole depth h of the member [mm].
    side
        "support" where the notch is cut out of the side that the force at the support presses on, "other" opposite [-].
    material
        "solid" (k_n 5) or "glulam" (k_n 6.5) [-].

    Returns
    -------
    float
        k_v [-], 1.0 for a notch on the other side.

    Raises
    ------
    InputError
        The side or the material is not one of the two.
    OutsideScope
        Less than half of the depth is left, or the force stands more than 0.4 h from the corner of the cut.

    Source
    ------
    EN 1995-1-1:2004, eq. 6.61 to 6.63 (from memory). Limits of h_ef at least h/2 and x at most 0.4 h: common practice,
    no source.

    Examples
    --------
    >>> cut = Notch(left_mm=100.0, to_force_mm=50.0)
    >>> round(notch_factor(cut, 150.0, side="support", material="solid"), 4)
    0.5477
    """
    if side not in ("support", "other"):
        raise InputError.of("side of the notch", side, "expected support or other")
    if material not in _K_N:
        raise InputError.of("material", material, "expected solid or glulam")
    alpha = notch.left_mm / depth_mm
    require_within("depth left over depth", alpha, 0.5, 1.0, source=_RULE, do="Cut less out of the member.")
    reach = 0.4 * depth_mm
    require_within("force to corner of the notch", notch.to_force_mm, 0.0, reach, unit="mm", source=_RULE)
    require_within("slope of the notch", notch.slope, 0.0, math.inf, source=_RULE)
    if side == "other" or alpha == 1.0:
        return 1.0
    sloped = 1.0 + 1.1 * notch.slope**1.5 / math.sqrt(depth_mm)
    near = math.sqrt(alpha * (1.0 - alpha))
    far = 0.8 * notch.to_force_mm / depth_mm * math.sqrt(1.0 / alpha - alpha**2)
    return float(min(1.0, _K_N[material] * sloped / (math.sqrt(depth_mm) * (near + far))))


def notched_shear(
    shear_n: float,
    notch: Notch,
    section_mm: tuple[float, float],
    *,
    strength_n_mm2: float,
    side: Literal["support", "other"] = "support",
    material: Literal["solid", "glulam"] = "solid",
    k_cr: float = 0.67,
) -> NotchShear:
    """Shear of a member over a notched support against what the notch leaves.

    Parameters
    ----------
    shear_n
        Design shear force at the support [N].
    notch
        Depth left, distance to the force and slope [mm].
    section_mm
        Width and whole depth of the member [mm].
    strength_n_mm2
        Design shear strength f_v,d [N/mm2].
    side
        Side of the notch, "support" or "other" [-].
    material
        "solid" or "glulam" [-].
    k_cr
        Share of the width that is sound; kept here, on the safe side [-].

    Returns
    -------
    NotchShear
        alpha, k_v, stress over the depth left, strength k_v f_v,d and share used.

    Raises
    ------
    InputError
        The side or the material is unknown.
    OutsideScope
        The notch lies outside the limits.

    Source
    ------
    EN 1995-1-1:2004, eq. 6.60, tau = 1.5 V / (b h_ef) at most k_v f_v,d, with b k_cr for b.

    Examples
    --------
    >>> cut = Notch(left_mm=100.0, to_force_mm=50.0)
    >>> shear = notched_shear(2000.0, cut, (50.0, 150.0), strength_n_mm2=2.77)
    >>> round(shear.stress_n_mm2, 4), round(shear.utilisation, 3)
    (0.8955, 0.59)
    """
    width, depth = section_mm
    factor = notch_factor(notch, depth, side=side, material=material)
    stress = shear_stress_n_mm2(abs(shear_n), width, notch.left_mm, k_cr)
    strength = factor * strength_n_mm2
    return NotchShear(
        alpha=notch.left_mm / depth,
        k_v=factor,
        stress_n_mm2=stress,
        strength_n_mm2=strength,
        utilisation=stress / strength,
    )
