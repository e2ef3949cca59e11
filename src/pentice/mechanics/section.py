"""Equivalent plate constants of a multiwall sheet with straight upright ribs, from its skins and ribs.

Along the flutes ribs and skins bend together; across them the skins bend, and the cells rack like a row of little
portal frames, which is the soft way of a thick sheet. Sloping or crossed ribs are not covered: take declared values.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import inf
from typing import TYPE_CHECKING

from pentice.errors import require_within

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_MM_PER_M = 1000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Multiwall:
    """A sheet of two or more skins joined by upright ribs; inner skins are spaced evenly.

    e_n_mm2 2350 and nu 0.37 are usual for polycarbonate at room temperature (from memory).
    """

    depth_mm: float
    skins_mm: tuple[float, ...]
    rib_mm: float
    pitch_mm: float
    e_n_mm2: float = 2350.0
    nu: float = 0.37


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateStiffness:
    """Stiffness of a plate per width: x along the flutes, y across them.

    bx, by, b1, dt bend and twist [N m]; sx, sy shear [N/m], infinite where shear does not count.
    """

    bx_n_m: float
    by_n_m: float
    b1_n_m: float
    dt_n_m: float
    sx_n_m: float = inf
    sy_n_m: float = inf


@dataclass(frozen=True, slots=True, kw_only=True)
class LocalStress:
    """Bending stress in skin and rib where the cells rack most [N/mm2]."""

    skin_n_mm2: float
    rib_n_mm2: float


def plate_stiffness(sheet: Multiwall) -> PlateStiffness:
    """Equivalent constants of the sheet for a plate or a strip.

    Parameters
    ----------
    sheet
        Depth, skins, ribs and material [mm, N/mm2].

    Returns
    -------
    PlateStiffness
        Bending and twisting stiffness [N m], shear stiffness [N/m], all per width.

    Raises
    ------
    OutsideScope
        The sheet has one skin only, or skins deeper than itself.

    Source
    ------
    Composite section by the parallel-axis rule; shear across the flutes by the unit cell below (own derivation, 1 to
    4 % under a plane frame of many cells, so on the safe side for sag).

    Examples
    --------
    >>> twin = Multiwall(depth_mm=10.0, skins_mm=(0.45, 0.45), rib_mm=0.5, pitch_mm=10.5)
    >>> round(plate_stiffness(twin).by_n_m, 1), round(plate_stiffness(twin).sy_n_m)
    (55.9, 1935)
    """
    _require_walls(sheet)
    across = second_moment_across_mm3(sheet)
    along = across + _ribs_mm3(sheet)
    poisson = sheet.nu**2 / (1.0 - sheet.nu**2)
    by = sheet.e_n_mm2 / (1.0 - sheet.nu**2) * across
    shear_modulus = sheet.e_n_mm2 / (2.0 * (1.0 + sheet.nu))
    clear = sum(top - bottom for bottom, top in _gaps_mm(sheet))
    return PlateStiffness(
        bx_n_m=sheet.e_n_mm2 * (along + poisson * across) / _MM_PER_M,
        by_n_m=by / _MM_PER_M,
        b1_n_m=sheet.nu * by / _MM_PER_M,
        dt_n_m=shear_modulus * across / _MM_PER_M,
        sx_n_m=shear_modulus * sheet.rib_mm * clear / sheet.pitch_mm * _MM_PER_M,
        sy_n_m=shear_stiffness_across_n_m(sheet),
    )


def second_moment_across_mm3(sheet: Multiwall) -> float:
    """Second moment of area per width of the skins alone, for bending across the flutes.

    Parameters
    ----------
    sheet
        Depth, skins and ribs [mm].

    Returns
    -------
    float
        I_y per width [mm3].

    Source
    ------
    Parallel-axis rule, about mid-depth.

    Examples
    --------
    >>> triple = Multiwall(depth_mm=16.0, skins_mm=(0.8, 0.15, 0.8), rib_mm=0.65, pitch_mm=20.0)
    >>> round(second_moment_across_mm3(triple), 2)
    92.5
    """
    return sum(t**3 / 12.0 + t * z**2 for t, z in zip(sheet.skins_mm, skin_heights_mm(sheet), strict=True))


def skin_heights_mm(sheet: Multiwall) -> tuple[float, ...]:
    """Height of each skin's middle over mid-depth, from the lowest up.

    Parameters
    ----------
    sheet
        Depth and skins [mm].

    Returns
    -------
    tuple[float, ...]
        Heights [mm].

    Source
    ------
    Geometry; inner skins spaced evenly between the outer ones.

    Examples
    --------
    >>> skin_heights_mm(Multiwall(depth_mm=16.0, skins_mm=(0.8, 0.15, 0.8), rib_mm=0.65, pitch_mm=20.0))
    (-7.6, 0.0, 7.6)
    """
    low = -(sheet.depth_mm - sheet.skins_mm[0]) / 2.0
    high = (sheet.depth_mm - sheet.skins_mm[-1]) / 2.0
    steps = len(sheet.skins_mm) - 1
    return tuple(low + (high - low) * i / steps for i in range(steps + 1))


def shear_stiffness_across_n_m(sheet: Multiwall) -> float:
    """Shear stiffness per width across the flutes, where the cells rack.

    Parameters
    ----------
    sheet
        Depth, skins, ribs and material [mm, N/mm2].

    Returns
    -------
    float
        S_y [N/m].

    Source
    ------
    Strain energy of one cell between mid-pitch points (own derivation). For two walls it is exactly
    1 / (p2/(24 D_skin) + p d/(12 D_rib)).

    Examples
    --------
    >>> five = Multiwall(depth_mm=25.0, skins_mm=(0.75, 0.12, 0.12, 0.12, 0.75), rib_mm=0.85, pitch_mm=20.0)
    >>> round(shear_stiffness_across_n_m(five))
    2163
    """
    load, moved = _racked_cell(sheet)
    return float(sheet.pitch_mm / (load @ moved)) * _MM_PER_M


def local_stress(sheet: Multiwall, shear_n_mm: float) -> LocalStress:
    """Greatest bending stress in a skin and in a rib from racking of the cells under a shear force.

    Parameters
    ----------
    sheet
        Depth, skins, ribs and material [mm, N/mm2].
    shear_n_mm
        Shear force per width across the flutes, load x span / 2 at a bar [N/mm].

    Returns
    -------
    LocalStress
        Stress in the worst skin and the worst rib [N/mm2].

    Source
    ------
    The same unit cell (own derivation, estimated). Two walls: skin 1.5 Q p/t2, rib 3 Q p/t_r2.

    Examples
    --------
    >>> twin = Multiwall(depth_mm=10.0, skins_mm=(0.45, 0.45), rib_mm=0.5, pitch_mm=10.5)
    >>> stress = local_stress(twin, 0.35)
    >>> round(stress.skin_n_mm2, 1), round(stress.rib_n_mm2, 1)
    (27.2, 44.1)
    """
    _, moved = _racked_cell(sheet)
    turned, slid, lean = moved[: len(sheet.skins_mm)], moved[len(sheet.skins_mm) : -1], moved[-1]
    modulus = _plane_strain_n_mm2(sheet)
    skin = max(
        abs(modulus * t**3 / 12.0 * 6.0 / sheet.pitch_mm * (theta - lean)) * 6.0 / t**2
        for t, theta in zip(sheet.skins_mm, turned, strict=True)
    )
    rib = 0.0
    for i, (low, high) in enumerate(pairwise(skin_heights_mm(sheet))):
        chord = -(slid[i + 1] - slid[i]) / (high - low)
        ends = (turned[i] - chord, turned[i + 1] - chord)
        bend = modulus * sheet.rib_mm**3 / 12.0 / (high - low)
        rib = max(rib, *(bend * abs(4.0 * near + 2.0 * (sum(ends) - near)) for near in ends))
    return LocalStress(
        skin_n_mm2=float(skin) * abs(shear_n_mm),
        rib_n_mm2=float(rib) * 6.0 / sheet.rib_mm**2 * abs(shear_n_mm),
    )


def skin_stress_n_mm2(sheet: Multiwall, moment_n: float) -> float:
    """Stress in the outermost skin from bending across the flutes.

    Parameters
    ----------
    sheet
        Depth and skins [mm].
    moment_n
        Bending moment per width [N mm/mm].

    Returns
    -------
    float
        Stress at the face [N/mm2], of the sign of the moment.

    Source
    ------
    Elementary bending, M z / I, z to the outer face.

    Examples
    --------
    >>> twin = Multiwall(depth_mm=10.0, skins_mm=(0.45, 0.45), rib_mm=0.5, pitch_mm=10.5)
    >>> round(skin_stress_n_mm2(twin, 61.25), 1)
    14.9
    """
    return moment_n * sheet.depth_mm / 2.0 / second_moment_across_mm3(sheet)


def _require_walls(sheet: Multiwall) -> None:
    require_within("walls", len(sheet.skins_mm), 2, 20, source="unit cell of a multiwall sheet")
    require_within("skins", sum(sheet.skins_mm), 0.0, 0.5 * sheet.depth_mm, unit="mm", source="thin skins")


def _plane_strain_n_mm2(sheet: Multiwall) -> float:
    return sheet.e_n_mm2 / (1.0 - sheet.nu**2)


def _gaps_mm(sheet: Multiwall) -> tuple[tuple[float, float], ...]:
    faces = tuple(zip(skin_heights_mm(sheet), sheet.skins_mm, strict=True))
    return tuple((z + t / 2.0, z_up - t_up / 2.0) for (z, t), (z_up, t_up) in pairwise(faces))


def _ribs_mm3(sheet: Multiwall) -> float:
    cubes = sum(top**3 - bottom**3 for bottom, top in _gaps_mm(sheet))
    return sheet.rib_mm / sheet.pitch_mm * cubes / 3.0


def _racked_cell(sheet: Multiwall) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Load and movement of one cell under a unit shear per width.

    Unknowns: turning of each joint of rib and skin, its slide along y, and the lean of the cell.
    The joints are pushed by what the skins' pull gains over one pitch, in proportion to t z.
    """
    import numpy as np

    _require_walls(sheet)
    walls, heights, modulus = len(sheet.skins_mm), skin_heights_mm(sheet), _plane_strain_n_mm2(sheet)
    unit = np.eye(2 * walls + 1)
    lean = unit[-1]
    stiffness = np.zeros((2 * walls + 1, 2 * walls + 1))
    for i, t in enumerate(sheet.skins_mm):
        bent = unit[i] - lean
        stiffness += modulus * t**3 / sheet.pitch_mm * np.outer(bent, bent)
    for i, (low, high) in enumerate(pairwise(heights)):
        chord = -(unit[walls + i + 1] - unit[walls + i]) / (high - low)
        a, b = unit[i] - chord, unit[i + 1] - chord
        both = np.outer(a, b)
        bend = modulus * sheet.rib_mm**3 / 12.0 / (high - low)
        stiffness += 2.0 * bend * (2.0 * np.outer(a, a) + 2.0 * np.outer(b, b) + both + both.T)
    pull = np.array([t * z for t, z in zip(sheet.skins_mm, heights, strict=True)])
    load = np.concatenate(
        (np.zeros(walls), sheet.pitch_mm * pull / (pull @ np.array(heights)), [sheet.pitch_mm])
    )
    # The cell may still float and turn as a whole, which costs nothing: take the smallest movement.
    moved = np.linalg.lstsq(stiffness, load, rcond=1e-12)[0]
    return load, np.asarray(moved, dtype=np.float64)
