"""EN 1995-1-1, 8.2: how much one fastener carries across its axis, by the ways in which timber and steel can give.

All results are characteristic, per fastener and per shear plane. Each mode keeps the letter of the standard's figures,
its Johansen part and its rope part, so that the whole table can be printed; the least of them governs.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import Literal

from pentice.errors import InputError, require_within

Rope = Literal["none", "round nail", "square nail", "other nail", "screw", "bolt", "dowel"]

_RULE = "EN 1995-1-1, 8.2"
ROPE_SHARE: dict[str, float] = {
    "none": 0.0,
    "round nail": 0.15,
    "square nail": 0.25,
    "other nail": 0.50,
    "screw": 1.0,
    "bolt": 0.25,
    "dowel": 0.0,
}
"""Most that the rope effect may add to the Johansen part, by kind of fastener: 8.2.2(2) [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fastener:
    """A fastener in shear: diameter [mm], yield moment [N mm] and what its pull along the axis adds.

    rope names the kind that sets the limit of the rope effect; withdrawal_n is its characteristic resistance along the
    axis, 0 where it is not known or not wanted.
    """

    d_mm: float
    yield_moment_n_mm: float
    rope: Rope = "none"
    withdrawal_n: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Mode:
    """One way of giving: the letter of the figure, the Johansen part and the rope part [N] per shear plane."""

    letter: str
    johansen_n: float
    rope_n: float = 0.0

    @property
    def resistance_n(self) -> float:
        """Both parts together [N]."""
        return self.johansen_n + self.rope_n


@dataclass(frozen=True, slots=True, kw_only=True)
class ShearPlane:
    """Every mode of one shear plane, and the least of them with its letter [N]."""

    modes: tuple[Mode, ...]
    governing: str
    resistance_n: float

    def mode(self, letter: str) -> Mode:
        """The mode with this letter."""
        return next(mode for mode in self.modes if mode.letter == letter)


def rope_effect_n(johansen_n: float, fastener: Fastener) -> float:
    """What the fastener's pull along its axis adds to a mode in which it bends.

    Parameters
    ----------
    johansen_n
        Johansen part of the mode [N].
    fastener
        The fastener, its kind and its withdrawal resistance [mm, N].

    Returns
    -------
    float
        F_ax,Rk / 4, at most 15 % of the Johansen part for round nails, 25 % for square nails and bolts, 50 % for other
        nails, 100 % for screws, nothing for dowels [N].

    Raises
    ------
    InputError
        The kind of fastener is unknown.

    Source
    ------
    EN 1995-1-1:2004, 8.2.2(2).

    Examples
    --------
    >>> bolt = Fastener(d_mm=12.0, yield_moment_n_mm=76745.0, rope="bolt", withdrawal_n=9600.0)
    >>> rope_effect_n(8000.0, bolt)
    2000.0
    """
    if fastener.rope not in ROPE_SHARE:
        raise InputError.of("rope", fastener.rope, f"expected one of {', '.join(ROPE_SHARE)}")
    return min(fastener.withdrawal_n / 4.0, ROPE_SHARE[fastener.rope] * johansen_n)


def timber_single_shear(
    fastener: Fastener, *, t_1_mm: float, f_h_1_n_mm2: float, t_2_mm: float, f_h_2_n_mm2: float
) -> ShearPlane:
    """Timber or panel on timber, one shear plane: modes a to f.

    Parameters
    ----------
    fastener
        Diameter, yield moment and rope effect [mm, N mm].
    t_1_mm
        Thickness of the member with the head [mm].
    f_h_1_n_mm2
        Its embedment strength [N/mm2].
    t_2_mm
        Penetration in the member with the point [mm].
    f_h_2_n_mm2
        Its embedment strength [N/mm2].

    Returns
    -------
    ShearPlane
        All six modes and the least, per shear plane [N].

    Raises
    ------
    OutsideScope
        A thickness, strength or the fastener's size is not positive.

    Source
    ------
    EN 1995-1-1:2004, eq. 8.6.

    Examples
    --------
    >>> nail = Fastener(d_mm=5.0, yield_moment_n_mm=11819.4)
    >>> plane = timber_single_shear(nail, t_1_mm=45.0, f_h_1_n_mm2=17.7089, t_2_mm=50.0, f_h_2_n_mm2=17.7089)
    >>> plane.governing, round(plane.resistance_n)
    ('d', 1658)
    """
    _require(fastener, {"t_1": t_1_mm, "f_h,1": f_h_1_n_mm2, "t_2": t_2_mm, "f_h,2": f_h_2_n_mm2})
    ratio = f_h_2_n_mm2 / f_h_1_n_mm2
    thick = t_2_mm / t_1_mm
    one = f_h_1_n_mm2 * t_1_mm * fastener.d_mm
    root = sqrt(ratio + 2.0 * ratio**2 * (1.0 + thick + thick**2) + ratio**3 * thick**2)
    both = one / (1.0 + ratio) * (root - ratio * (1.0 + thick))
    return _least(
        Mode(letter="a", johansen_n=one),
        Mode(letter="b", johansen_n=f_h_2_n_mm2 * t_2_mm * fastener.d_mm),
        _roped("c", both, fastener),
        _roped("d", _outer_hinge(fastener, f_h_1_n_mm2, t_1_mm, ratio), fastener),
        _roped("e", _inner_hinge(fastener, f_h_1_n_mm2, t_2_mm, ratio), fastener),
        _roped("f", _two_hinges(fastener, f_h_1_n_mm2, ratio), fastener),
    )


def timber_double_shear(
    fastener: Fastener, *, t_1_mm: float, f_h_1_n_mm2: float, t_2_mm: float, f_h_2_n_mm2: float
) -> ShearPlane:
    """Timber between two alike outer timbers or panels, two shear planes: modes g, h, j, k.

    Parameters
    ----------
    fastener
        Diameter, yield moment and rope effect [mm, N mm].
    t_1_mm
        Thickness of the thinner outer member, or penetration in the one with the point if less [mm].
    f_h_1_n_mm2
        Its embedment strength [N/mm2].
    t_2_mm
        Thickness of the middle member [mm].
    f_h_2_n_mm2
        Its embedment strength [N/mm2].

    Returns
    -------
    ShearPlane
        All four modes and the least, per shear plane: twice that per fastener [N].

    Raises
    ------
    OutsideScope
        A thickness, strength or the fastener's size is not positive.

    Source
    ------
    EN 1995-1-1:2004, eq. 8.7.

    Examples
    --------
    >>> dowel = Fastener(d_mm=12.0, yield_moment_n_mm=115118.0)
    >>> plane = timber_double_shear(dowel, t_1_mm=36.0, f_h_1_n_mm2=25.256, t_2_mm=48.0, f_h_2_n_mm2=25.256)
    >>> plane.governing, round(plane.resistance_n)
    ('j', 6651)
    """
    _require(fastener, {"t_1": t_1_mm, "f_h,1": f_h_1_n_mm2, "t_2": t_2_mm, "f_h,2": f_h_2_n_mm2})
    ratio = f_h_2_n_mm2 / f_h_1_n_mm2
    return _least(
        Mode(letter="g", johansen_n=f_h_1_n_mm2 * t_1_mm * fastener.d_mm),
        Mode(letter="h", johansen_n=0.5 * f_h_2_n_mm2 * t_2_mm * fastener.d_mm),
        _roped("j", _outer_hinge(fastener, f_h_1_n_mm2, t_1_mm, ratio), fastener),
        _roped("k", _two_hinges(fastener, f_h_1_n_mm2, ratio), fastener),
    )


def steel_single_shear(
    fastener: Fastener, *, t_mm: float, f_h_n_mm2: float, plate_mm: float, tight: bool = True
) -> ShearPlane:
    """A steel plate on timber, one shear plane: modes a and b for a thin plate, c to e for a thick one.

    Parameters
    ----------
    fastener
        Diameter, yield moment and rope effect [mm, N mm].
    t_mm
        Thickness of the timber, or penetration in it if less [mm].
    f_h_n_mm2
        Its embedment strength [N/mm2].
    plate_mm
        Thickness of the steel [mm].
    tight
        Whether the hole in the steel is less than 0.1 d wider than the fastener: else no plate is thick [-].

    Returns
    -------
    ShearPlane
        The modes that apply and the least; between thin (0.5 d) and thick (d) a mode "thin to thick" stands for the
        straight line between the two [N].

    Raises
    ------
    OutsideScope
        A thickness, strength or the fastener's size is not positive.

    Source
    ------
    EN 1995-1-1:2004, 8.2.3(1) to (3), eq. 8.9 and 8.10. The plate itself is checked as steel.

    Examples
    --------
    >>> nail = Fastener(d_mm=5.0, yield_moment_n_mm=11819.4)
    >>> plane = steel_single_shear(nail, t_mm=50.0, f_h_n_mm2=17.7089, plate_mm=2.0)
    >>> plane.governing, round(plane.resistance_n)
    ('b', 1664)
    """
    _require(fastener, {"t": t_mm, "f_h": f_h_n_mm2, "plate": plate_mm})
    pressed = f_h_n_mm2 * t_mm * fastener.d_mm
    thin = (
        Mode(letter="a", johansen_n=0.4 * pressed),
        _roped("b", _two_hinges(fastener, f_h_n_mm2, 1.0), fastener),
    )
    thick = (
        Mode(letter="c", johansen_n=pressed),
        _roped("d", _clamped(fastener, f_h_n_mm2, t_mm), fastener),
        _roped("e", _clamped_hinges(fastener, f_h_n_mm2), fastener),
    )
    return _by_plate(thin, thick, plate_mm / fastener.d_mm, tight=tight)


def steel_inside_double_shear(fastener: Fastener, *, t_mm: float, f_h_n_mm2: float) -> ShearPlane:
    """A steel plate of any thickness between two timbers, two shear planes: modes f, g, h.

    Parameters
    ----------
    fastener
        Diameter, yield moment and rope effect [mm, N mm].
    t_mm
        Thickness of the thinner outer timber, or penetration in it if less [mm].
    f_h_n_mm2
        Its embedment strength [N/mm2].

    Returns
    -------
    ShearPlane
        All three modes and the least, per shear plane: twice that per fastener [N].

    Raises
    ------
    OutsideScope
        A thickness, strength or the fastener's size is not positive.

    Source
    ------
    EN 1995-1-1:2004, eq. 8.11.

    Examples
    --------
    >>> bolt = Fastener(d_mm=12.0, yield_moment_n_mm=76745.4)
    >>> plane = steel_inside_double_shear(bolt, t_mm=100.0, f_h_n_mm2=27.782)
    >>> plane.governing, round(plane.resistance_n)
    ('h', 11634)
    """
    _require(fastener, {"t": t_mm, "f_h": f_h_n_mm2})
    return _least(
        Mode(letter="f", johansen_n=f_h_n_mm2 * t_mm * fastener.d_mm),
        _roped("g", _clamped(fastener, f_h_n_mm2, t_mm), fastener),
        _roped("h", _clamped_hinges(fastener, f_h_n_mm2), fastener),
    )


def steel_outside_double_shear(
    fastener: Fastener, *, t_mm: float, f_h_n_mm2: float, plate_mm: float, tight: bool = True
) -> ShearPlane:
    """A timber between two steel plates, two shear planes: modes j and k for thin plates, l and m for thick ones.

    Parameters
    ----------
    fastener
        Diameter, yield moment and rope effect [mm, N mm].
    t_mm
        Thickness of the timber in the middle [mm].
    f_h_n_mm2
        Its embedment strength [N/mm2].
    plate_mm
        Thickness of the thinner plate [mm].
    tight
        Whether the holes in the steel are less than 0.1 d wider than the fastener [-].

    Returns
    -------
    ShearPlane
        The modes that apply and the least, per shear plane: twice that per fastener [N].

    Raises
    ------
    OutsideScope
        A thickness, strength or the fastener's size is not positive.

    Source
    ------
    EN 1995-1-1:2004, 8.2.3(3), eq. 8.12 and 8.13.

    Examples
    --------
    >>> bolt = Fastener(d_mm=12.0, yield_moment_n_mm=76745.4)
    >>> plane = steel_outside_double_shear(bolt, t_mm=100.0, f_h_n_mm2=27.782, plate_mm=12.0)
    >>> plane.governing, round(plane.resistance_n)
    ('m', 11634)
    """
    _require(fastener, {"t": t_mm, "f_h": f_h_n_mm2, "plate": plate_mm})
    half = 0.5 * f_h_n_mm2 * t_mm * fastener.d_mm
    thin = (Mode(letter="j", johansen_n=half), _roped("k", _two_hinges(fastener, f_h_n_mm2, 1.0), fastener))
    thick = (
        Mode(letter="l", johansen_n=half),
        _roped("m", _clamped_hinges(fastener, f_h_n_mm2), fastener),
    )
    return _by_plate(thin, thick, plate_mm / fastener.d_mm, tight=tight)


def _outer_hinge(fastener: Fastener, f_h_1: float, t_1: float, ratio: float) -> float:
    """One hinge, in the other member: modes d and j."""
    pressed = f_h_1 * t_1 * fastener.d_mm
    bent = 4.0 * ratio * (2.0 + ratio) * fastener.yield_moment_n_mm / (pressed * t_1)
    return 1.05 * pressed / (2.0 + ratio) * (sqrt(2.0 * ratio * (1.0 + ratio) + bent) - ratio)


def _inner_hinge(fastener: Fastener, f_h_1: float, t_2: float, ratio: float) -> float:
    """One hinge, in the member with the head: mode e."""
    pressed = f_h_1 * t_2 * fastener.d_mm
    bent = 4.0 * ratio * (1.0 + 2.0 * ratio) * fastener.yield_moment_n_mm / (pressed * t_2)
    return 1.05 * pressed / (1.0 + 2.0 * ratio) * (sqrt(2.0 * ratio**2 * (1.0 + ratio) + bent) - ratio)


def _two_hinges(fastener: Fastener, f_h_1: float, ratio: float) -> float:
    """A hinge on either side of the shear plane: modes f and k; by a thin plate (ratio 1) one hinge: b and k."""
    share = sqrt(2.0 * ratio / (1.0 + ratio))
    return 1.15 * share * sqrt(2.0 * fastener.yield_moment_n_mm * f_h_1 * fastener.d_mm)


def _clamped(fastener: Fastener, f_h: float, t: float) -> float:
    """One hinge at a plate that holds the fastener upright: modes d and g."""
    pressed = f_h * t * fastener.d_mm
    return pressed * (sqrt(2.0 + 4.0 * fastener.yield_moment_n_mm / (pressed * t)) - 1.0)


def _clamped_hinges(fastener: Fastener, f_h: float) -> float:
    """Two hinges at a plate that holds the fastener upright: modes e, h and m."""
    return 2.3 * sqrt(fastener.yield_moment_n_mm * f_h * fastener.d_mm)


def _roped(letter: str, johansen_n: float, fastener: Fastener) -> Mode:
    return Mode(letter=letter, johansen_n=johansen_n, rope_n=rope_effect_n(johansen_n, fastener))


def _least(*modes: Mode) -> ShearPlane:
    least = min(modes, key=lambda mode: mode.resistance_n)
    return ShearPlane(modes=modes, governing=least.letter, resistance_n=least.resistance_n)


def _by_plate(
    thin: tuple[Mode, ...], thick: tuple[Mode, ...], plate_over_d: float, *, tight: bool
) -> ShearPlane:
    """Thin up to half a diameter, thick from a whole one, in between the straight line of the two least."""
    if plate_over_d <= 0.5 or not tight:
        return _least(*thin)
    if plate_over_d >= 1.0:
        return _least(*thick)
    low, high = _least(*thin), _least(*thick)
    between = low.resistance_n + (high.resistance_n - low.resistance_n) * (2.0 * plate_over_d - 1.0)
    return ShearPlane(modes=(*thin, *thick), governing="thin to thick", resistance_n=between)


def _require(fastener: Fastener, sizes: dict[str, float]) -> None:
    whole = {"d": fastener.d_mm, "M_y": fastener.yield_moment_n_mm, **sizes}
    for name, value in whole.items():
        require_within(name, value, 1e-9, 1e12, source=_RULE)
    require_within("withdrawal", fastener.withdrawal_n, 0.0, 1e12, unit="N", source=_RULE)
