"""A sheet held in height along all four edges, softer across its flutes than along them, shear included.

Navier's double series, the two rotations eliminated by hand so that a very stiff or an infinite shear stiffness loses
no digits. Over purlins the sheet turns freely at each one, which is on the safe side for sag between them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pentice.errors import require_within
from pentice.mechanics.section import PlateStiffness

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    _Grid = NDArray[np.float64]

_MM_PER_M = 1000.0
_N_PER_KN = 1000.0

# A finite-element plate lying on a line without a clamp sagged 2 to 5 % more than this plate (own comparison).
PURLIN_FACTOR = 1.05


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateAnswer:
    """What a four-edge plate does at one point: sag, and bending moments per width, sagging positive."""

    sag_mm: float
    moment_along_n: float
    moment_across_n: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateExtremes:
    """The greatest sag and moments on the middle line of a four-edge plate, and where the sag is greatest."""

    sag_mm: float
    sag_at_mm: float
    moment_along_n: float
    moment_across_n: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateLoad:
    """A load even across the flutes that changes in a straight line along them [kN/m2]."""

    head_kn_m2: float
    foot_kn_m2: float


def plate_at(
    plate: PlateStiffness, along_mm: float, across_mm: float, load: PlateLoad, *, x_mm: float, y_mm: float
) -> PlateAnswer:
    """Sag and moments at one point of a sheet held along all four edges.

    Parameters
    ----------
    plate
        Stiffness along (x) and across (y) the flutes [N m, N/m].
    along_mm, across_mm
        Length of the bay along the flutes, and clear span across them [mm].
    load
        Load at x = 0 and at x = along_mm [kN/m2].
    x_mm, y_mm
        The point, from the head and from one bar [mm].

    Returns
    -------
    PlateAnswer
        Sag [mm] and moments per width [N mm/mm], downward and sagging positive.

    Raises
    ------
    OutsideScope
        A side is not positive, or the bay is more than 12 times as long as wide (use the strip).

    Source
    ------
    Navier's double series for a plate on four simple supports, with shear after Mindlin and Reissner; 61 terms along,
    31 across. Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, chapters 5 and 11.

    Examples
    --------
    >>> sheet = PlateStiffness(bx_n_m=2200.0, by_n_m=1100.0, b1_n_m=0.0, dt_n_m=777.8)
    >>> even = PlateLoad(head_kn_m2=1.0, foot_kn_m2=1.0)
    >>> round(plate_at(sheet, 3000.0, 700.0, even, x_mm=1500.0, y_mm=350.0).sag_mm, 3)
    2.766
    """
    import numpy as np

    sag, along, across = _on_line(
        plate, along_mm, across_mm, load, np.array([x_mm / along_mm]), y_mm / across_mm
    )
    return PlateAnswer(
        sag_mm=float(sag[0]) * _MM_PER_M, moment_along_n=float(along[0]), moment_across_n=float(across[0])
    )


def plate_extremes(
    plate: PlateStiffness, along_mm: float, across_mm: float, load: PlateLoad, stations: int = 60
) -> PlateExtremes:
    """Greatest sag and moments of a sheet held along all four edges, on the line midway between the bars.

    Parameters
    ----------
    plate
        Stiffness along (x) and across (y) the flutes [N m, N/m].
    along_mm, across_mm
        Length of the bay along the flutes, and clear span across them [mm].
    load
        Load at x = 0 and at x = along_mm [kN/m2].
    stations
        Steps along the line at which the series is summed [-].

    Returns
    -------
    PlateExtremes
        Sag [mm], its place from the head [mm], moments per width [N mm/mm]; the greatest in size, with their sign.

    Raises
    ------
    OutsideScope
        A side is not positive, or the bay is more than 12 times as long as wide (use the strip).

    Source
    ------
    As plate_at; the greatest of the stations, so within 0.1 % of the true peak for 60 of them.

    Examples
    --------
    >>> sheet = PlateStiffness(bx_n_m=2200.0, by_n_m=1100.0, b1_n_m=0.0, dt_n_m=777.8)
    >>> even = PlateLoad(head_kn_m2=1.0, foot_kn_m2=1.0)
    >>> round(plate_extremes(sheet, 3000.0, 700.0, even).sag_mm, 2)
    2.77
    """
    import numpy as np

    places = np.arange(1, stations) / stations
    sag, along, across = _on_line(plate, along_mm, across_mm, load, places, 0.5)
    at = int(np.argmax(np.abs(sag)))
    return PlateExtremes(
        sag_mm=float(sag[at]) * _MM_PER_M,
        sag_at_mm=float(places[at]) * along_mm,
        moment_along_n=float(along[np.argmax(np.abs(along))]),
        moment_across_n=float(across[np.argmax(np.abs(across))]),
    )


def _on_line(
    plate: PlateStiffness, along_mm: float, across_mm: float, load: PlateLoad, x_share: _Grid, y_share: float
) -> tuple[_Grid, _Grid, _Grid]:
    """Sag [m] and moments [N m/m] at shares of the length, on one line along the flutes."""
    import numpy as np

    require_within("across_mm", across_mm, 1.0, 1e5, unit="mm", source="plate")
    require_within("along over across", along_mm / across_mm, 1e-3, 12.0, source="plate", do="Use the strip.")
    m = np.arange(1.0, 62.0)[:, None]
    n = np.arange(1.0, 62.0, 2.0)[None, :]
    al, be = m * np.pi / (along_mm / _MM_PER_M), n * np.pi / (across_mm / _MM_PER_M)
    swing = load.head_kn_m2 - load.foot_kn_m2 * np.where(m % 2 == 0, 1.0, -1.0)
    pressure = (2.0 / (m * np.pi)) * swing * _N_PER_KN * (4.0 / (n * np.pi))
    w, turn_x, turn_y = _amplitudes(plate, al, be, pressure)
    along = -(plate.bx_n_m * al * turn_x + plate.b1_n_m * be * turn_y)
    across = -(plate.by_n_m * be * turn_y + plate.b1_n_m * al * turn_x)
    waves_x = np.sin(np.outer(x_share, m[:, 0] * np.pi))
    waves_y = np.sin(n[0] * np.pi * y_share)
    sag, m_along, m_across = (waves_x @ part @ waves_y for part in (w, along, across))
    return sag, m_along, m_across


def _amplitudes(plate: PlateStiffness, al: _Grid, be: _Grid, pressure: _Grid) -> tuple[_Grid, _Grid, _Grid]:
    """Amplitude of sag and of the two rotations per term, written with shear flexibility: 0 for no shear."""
    soft_x, soft_y = 1.0 / plate.sx_n_m, 1.0 / plate.sy_n_m
    a = plate.bx_n_m * al**2 + plate.dt_n_m * be**2
    c = plate.by_n_m * be**2 + plate.dt_n_m * al**2
    cross = (plate.b1_n_m + plate.dt_n_m) * al * be
    pair = (1.0 + a * soft_x) * (1.0 + c * soft_y) - cross**2 * soft_x * soft_y
    whole = (
        al**2 * (a * (1.0 + c * soft_y) - cross**2 * soft_y)
        + be**2 * (c * (1.0 + a * soft_x) - cross**2 * soft_x)
        + 2.0 * al * be * cross
    )
    w = pressure * pair / whole
    turn_x = -w * (al * (1.0 + c * soft_y) - be * cross * soft_x) / pair
    turn_y = -w * (be * (1.0 + a * soft_x) - al * cross * soft_y) / pair
    return w, turn_x, turn_y
