"""Exceptional snow drifts: an accidental action where the national annex says so (EN 1991-1-3, Annex B).

All other snow is taken as gone: the drift stands alone, falls to nothing at its end and takes no partial factor.
A roof that falls away from the wall gets the full coefficient at any pitch; the reductions by pitch in this annex
belong to a lower duopitch whose ridge is at right angles to the wall.
"""

from __future__ import annotations

from dataclasses import dataclass

from pentice.errors import require_within

_SOURCE = "EN 1991-1-3, Annex B"


@dataclass(frozen=True, slots=True, kw_only=True)
class ExceptionalDrift:
    """A drift that falls from its peak at the wall to nothing at its end."""

    mu: float  # at the wall [-]
    length_m: float
    ground_kn_m2: float

    @property
    def peak_kn_m2(self) -> float:
        """Load at the wall on plan [kN/m2]."""
        return self.mu * self.ground_kn_m2

    def at_kn_m2(self, distance_m: float) -> float:
        """Load at a distance from the wall.

        Parameters
        ----------
        distance_m
            Distance from the wall on plan [m].

        Returns
        -------
        float
            Load on plan [kN/m2].

        Raises
        ------
        OutsideScope
            The distance is negative.

        Source
        ------
        EN 1991-1-3:2003, Annex B, Figures B.2 and B.3.

        Examples
        --------
        >>> ExceptionalDrift(mu=4.0, length_m=5.0, ground_kn_m2=0.5).at_kn_m2(2.5)
        1.0
        """
        require_within("distance_m", distance_m, 0.0, 1000.0, unit="m", source=_SOURCE)
        return self.peak_kn_m2 * max(1.0 - distance_m / self.length_m, 0.0)


def drift_at_taller_wall(
    *, upper_m: float, lower_m: float, step_m: float, ground_kn_m2: float
) -> ExceptionalDrift:
    """Exceptional drift on a roof that abuts a taller building.

    Parameters
    ----------
    upper_m, lower_m
        Widths of the taller building and of the lower roof, across the wall [m].
    step_m
        h: height of the wall above the lower roof [m].
    ground_kn_m2
        s_k, characteristic snow on the ground [kN/m2].

    Returns
    -------
    ExceptionalDrift
        mu_3 = min(2h/s_k; 2b/l_s; 8) with b the greater width, over l_s = min(5h; lower roof; 15 m).

    Raises
    ------
    OutsideScope
        There is no step, no snow or no roof.

    Source
    ------
    EN 1991-1-3:2003, Annex B, B.3, Figure B.2 and Table B.1; second-hand, read in a public implementation.

    Examples
    --------
    >>> found = drift_at_taller_wall(upper_m=8.0, lower_m=3.5, step_m=2.5, ground_kn_m2=0.6)
    >>> round(found.mu, 3), found.length_m, round(found.peak_kn_m2, 3)
    (4.571, 3.5, 2.743)
    """
    return _drift(lower_m, max(upper_m, lower_m), step_m, ground_kn_m2, longest_m=15.0, most=8.0)


def drift_at_obstruction(
    *, along_m: float, beyond_m: float, step_m: float, ground_kn_m2: float
) -> ExceptionalDrift:
    """Exceptional drift at an obstruction on a roof, or on a canopy of at most 5 m over a door.

    Parameters
    ----------
    along_m, beyond_m
        b_1 and b_2: lengths of the roof on the side of the drift and on the other side [m].
    step_m
        h: height of the obstruction, or of the wall above the canopy [m].
    ground_kn_m2
        s_k, characteristic snow on the ground [kN/m2].

    Returns
    -------
    ExceptionalDrift
        mu = min(2h/s_k; 2b/l_s; 5) with b the greater length, over l_s = min(5h; b_1; 5 m).

    Raises
    ------
    OutsideScope
        There is no step, no snow or no roof.

    Source
    ------
    EN 1991-1-3:2003, Annex B, B.4, Figure B.3; second-hand, read in a published set of example calculations.

    Examples
    --------
    >>> canopy = drift_at_obstruction(along_m=2.0, beyond_m=75.0, step_m=3.0, ground_kn_m2=0.6)
    >>> canopy.mu, round(canopy.peak_kn_m2, 3)
    (5.0, 3.0)
    """
    return _drift(along_m, max(along_m, beyond_m), step_m, ground_kn_m2, longest_m=5.0, most=5.0)


def drift_behind_parapet(
    *, along_m: float, beyond_m: float, step_m: float, ground_kn_m2: float
) -> ExceptionalDrift:
    """Exceptional drift behind a parapet.

    Parameters
    ----------
    along_m, beyond_m
        b_1 and b_2: lengths of the roof along which the drift lies and on which the wind gathers it [m].
    step_m
        h: height of the parapet above the roof [m].
    ground_kn_m2
        s_k, characteristic snow on the ground [kN/m2].

    Returns
    -------
    ExceptionalDrift
        mu = min(2h/s_k; 2b/l_s; 8) with b the greater length, over l_s = min(5h; b_1; 15 m).

    Raises
    ------
    OutsideScope
        There is no step, no snow or no roof.

    Source
    ------
    EN 1991-1-3:2003, Annex B, B.4, Figure B.4; RFCS handbook Steel Buildings in Europe, Part 3, App. A.

    Examples
    --------
    >>> eaves = drift_behind_parapet(along_m=12.5, beyond_m=25.0, step_m=3.0, ground_kn_m2=0.65)
    >>> eaves.mu, eaves.length_m
    (4.0, 12.5)
    """
    return _drift(along_m, max(along_m, beyond_m), step_m, ground_kn_m2, longest_m=15.0, most=8.0)


def _drift(
    along_m: float, greater_m: float, step_m: float, ground_kn_m2: float, *, longest_m: float, most: float
) -> ExceptionalDrift:
    require_within("along_m", along_m, 0.1, 1000.0, unit="m", source=_SOURCE)
    require_within("step_m", step_m, 0.001, 1000.0, unit="m", source=_SOURCE)
    require_within("ground_kn_m2", ground_kn_m2, 0.01, 25.0, unit="kN/m2", source=_SOURCE)
    length_m = min(5.0 * step_m, along_m, longest_m)
    mu = min(2.0 * step_m / ground_kn_m2, 2.0 * greater_m / length_m, most)
    return ExceptionalDrift(mu=mu, length_m=length_m, ground_kn_m2=ground_kn_m2)
