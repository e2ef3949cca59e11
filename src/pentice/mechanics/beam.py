"""A rafter on two bearings, one end running past the second: reactions, moments, shears and sag, exactly.

Head bearing at 0, foot bearing at the span, tip beyond it. Loads act downward positive (uplift is negative) and change
in straight pieces, with point loads anywhere. Each piece is integrated in closed form, so nothing is sampled or meshed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import inf, sqrt

from pentice.errors import require_within
from pentice.mechanics.lines import LineLoad, require_ordered

PointLoads = Sequence[tuple[float, float]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Beam:
    """A straight member on two bearings with one overhang.

    ei_n_mm2 is its bending stiffness; shear_n its shear stiffness, 5/6 G A for a rectangle, infinite to leave it out.
    """

    span_mm: float
    overhang_mm: float = 0.0
    ei_n_mm2: float
    shear_n: float = inf


@dataclass(frozen=True, slots=True, kw_only=True)
class BeamAnswer:
    """What one load does to a beam on two bearings. Downward, sagging positive; reactions upward positive."""

    head_reaction_n: float
    foot_reaction_n: float
    sagging_n_mm: float
    sagging_at_mm: float
    hogging_n_mm: float
    hogging_at_mm: float
    support_moment_n_mm: float
    shear_head_n: float
    shear_before_foot_n: float
    shear_beyond_foot_n: float
    greatest_shear_n: float
    span_sag_mm: float
    span_sag_at_mm: float
    tip_sag_mm: float


@dataclass(slots=True)
class _Piece:
    """One stretch without a break: state at its start, load q + k t. EI times slope and sag, started from zero."""

    x: float
    length: float
    q: float
    k: float
    shear: float = 0.0
    moment: float = 0.0
    slope: float = 0.0
    sag: float = 0.0

    def at(self, t: float) -> tuple[float, float, float, float]:
        """Shear, moment, EI slope and EI sag at t beyond the start."""
        q, k, v, m = self.q, self.k, self.shear, self.moment
        shear = v - t * (q + t * k / 2.0)
        moment = m + t * (v - t * (q / 2.0 + t * k / 6.0))
        slope = self.slope - t * (m + t * (v / 2.0 - t * (q / 6.0 + t * k / 24.0)))
        sag = self.sag + t * (self.slope - t * (m / 2.0 + t * (v / 6.0 - t * (q / 24.0 + t * k / 120.0))))
        return shear, moment, slope, sag


def overhang_beam(beam: Beam, load: LineLoad, points: PointLoads = ()) -> BeamAnswer:
    """Reactions, extreme moments and shears, and sag of a beam on two bearings with one overhang.

    Parameters
    ----------
    beam
        Span, overhang [mm], bending stiffness [N mm2], shear stiffness [N].
    load
        Breakpoints of the line load, place from the head bearing and load per length [mm, N/mm].
    points
        Point loads, place and force [mm, N].

    Returns
    -------
    BeamAnswer
        Forces [N], moments [N mm] with their places [mm], sag between the bearings (the greatest, with its sign and
        place) and at the tip [mm].

    Raises
    ------
    InputError
        A load lies outside the beam or out of order.
    OutsideScope
        Span, stiffness or overhang is not positive.

    Source
    ------
    Equilibrium and EI w'' = -M, integrated piece by piece; sag from shear as M / (5/6 G A), less what tilts the chord.

    Examples
    --------
    >>> answer = overhang_beam(Beam(span_mm=3000.0, overhang_mm=500.0, ei_n_mm2=1e11), ((0.0, 1.0), (3500.0, 1.0)))
    >>> round(answer.head_reaction_n, 2), round(answer.sagging_n_mm), round(answer.support_moment_n_mm)
    (1458.33, 1063368, -125000)
    """
    _require_beam(beam, load, points)
    pieces = _pieces(beam, load, points)
    head, foot = _reactions(beam.span_mm, pieces, points)
    _walk(beam.span_mm, pieces, points, head, foot)
    sagging, hogging = _extreme_moments(pieces)
    place, span_sag, tip_sag = _sags(beam, pieces)
    before, beyond = _shears_at_foot(beam.span_mm, pieces)
    support = next((p.moment for p in pieces if p.x >= beam.span_mm), 0.0)
    return BeamAnswer(
        head_reaction_n=head,
        foot_reaction_n=foot,
        sagging_n_mm=sagging[0],
        sagging_at_mm=sagging[1],
        hogging_n_mm=hogging[0],
        hogging_at_mm=hogging[1],
        support_moment_n_mm=support,
        shear_head_n=pieces[0].shear,
        shear_before_foot_n=before,
        shear_beyond_foot_n=beyond,
        greatest_shear_n=max(abs(v) for v in _shears(pieces)),
        span_sag_mm=span_sag,
        span_sag_at_mm=place,
        tip_sag_mm=tip_sag,
    )


def rectangle_stiffness(
    width_mm: float, depth_mm: float, e_n_mm2: float, g_n_mm2: float
) -> tuple[float, float]:
    """Bending and shear stiffness of a rectangular section.

    Parameters
    ----------
    width_mm, depth_mm
        Section across and along the load [mm].
    e_n_mm2, g_n_mm2
        Stiffness in bending and in shear [N/mm2].

    Returns
    -------
    tuple[float, float]
        E I [N mm2] and 5/6 G A [N].

    Source
    ------
    Elementary bending; shear factor 6/5 of a rectangle.

    Examples
    --------
    >>> ei, ga = rectangle_stiffness(75.0, 200.0, 11000.0, 690.0)
    >>> round(ei / 1e9), round(ga / 1e3)
    (550, 8625)
    """
    return e_n_mm2 * width_mm * depth_mm**3 / 12.0, g_n_mm2 * width_mm * depth_mm / 1.2


def _require_beam(beam: Beam, load: LineLoad, points: PointLoads) -> None:
    total = beam.span_mm + beam.overhang_mm
    require_within("span_mm", beam.span_mm, 1e-6, 1e6, unit="mm", source="a beam has a span")
    require_within("overhang_mm", beam.overhang_mm, 0.0, 1e6, unit="mm", source="beyond the foot bearing")
    require_within("ei_n_mm2", beam.ei_n_mm2, 1e-9, inf, unit="N mm2", source="a beam is stiff")
    require_within("shear_n", beam.shear_n, 1e-9, inf, unit="N", source="a beam is stiff")
    require_ordered(load, total)
    for x, _ in points:
        require_within("place of a point load", x, 0.0, total, unit="mm", source="from head bearing to tip")


def _pieces(beam: Beam, load: LineLoad, points: PointLoads) -> list[_Piece]:
    """The beam cut at every break of the load, at every point load and at the foot bearing."""
    total = beam.span_mm + beam.overhang_mm
    cuts = sorted({0.0, beam.span_mm, total, *(min(x, total) for x, _ in load), *(x for x, _ in points)})
    stretches = [(x0, q0, x1, (q1 - q0) / (x1 - x0)) for (x0, q0), (x1, q1) in pairwise(load) if x1 > x0]
    pieces = []
    for x, further in pairwise(cuts):
        q = k = 0.0
        for x0, q0, x1, rise in stretches:
            if x0 <= x < x1:
                q, k = q0 + rise * (x - x0), rise
                break
        pieces.append(_Piece(x, further - x, q, k))
    return pieces


def _reactions(span: float, pieces: list[_Piece], points: PointLoads) -> tuple[float, float]:
    force = moment = 0.0
    for p in pieces:
        d = p.length
        force += d * (p.q + p.k * d / 2.0)
        moment += p.x * d * (p.q + p.k * d / 2.0) + d * d * (p.q / 2.0 + p.k * d / 3.0)
    for x, n in points:
        force += n
        moment += x * n
    return force - moment / span, moment / span


def _walk(span: float, pieces: list[_Piece], points: PointLoads, head: float, foot: float) -> None:
    """Carry shear, moment, EI slope and EI sag from the head to the tip, the first slope taken as nothing."""
    shear, moment, slope, sag = head, 0.0, 0.0, 0.0
    for p in pieces:
        shear += foot if p.x == span else 0.0
        shear -= sum(n for x, n in points if x == p.x)
        p.shear, p.moment, p.slope, p.sag = shear, moment, slope, sag
        shear, moment, slope, sag = p.at(p.length)


def _extreme_moments(pieces: list[_Piece]) -> tuple[tuple[float, float], tuple[float, float]]:
    """Greatest sagging and hogging moment, each with its place; nothing at the head where there is none."""
    most = least = (0.0, 0.0)
    for p in pieces:
        for t in (0.0, *_where_no_shear(p)):
            moment = p.at(t)[1]
            if moment > most[0]:
                most = (moment, p.x + t)
            if moment < least[0]:
                least = (moment, p.x + t)
    return most, least


def _where_no_shear(p: _Piece) -> Iterator[float]:
    """Places within a piece where q t + k t2/2 has used up the shear at its start."""
    roots: tuple[float, ...] = ()
    if p.k == 0.0:
        roots = (p.shear / p.q,) if p.q else ()
    else:
        inside = p.q * p.q + 2.0 * p.k * p.shear
        if inside < 0.0:
            return
        # The stable form: no difference of nearly equal numbers when k is small.
        large = p.q + (sqrt(inside) if p.q >= 0.0 else -sqrt(inside))
        roots = (2.0 * p.shear / large, -large / p.k) if large else (0.0,)
    yield from (t for t in roots if 0.0 < t <= p.length)


def _shears(pieces: list[_Piece]) -> Iterator[float]:
    """Shear at both ends of every piece, and where the load changes sign within it."""
    for p in pieces:
        yield p.shear
        yield p.at(p.length)[0]
        if p.k and 0.0 < -p.q / p.k < p.length:
            yield p.at(-p.q / p.k)[0]


def _shears_at_foot(span: float, pieces: list[_Piece]) -> tuple[float, float]:
    before = next(p for p in reversed(pieces) if p.x < span)
    beyond = next((p.shear for p in pieces if p.x >= span), 0.0)
    return before.at(before.length)[0], beyond


def _sags(beam: Beam, pieces: list[_Piece]) -> tuple[float, float, float]:
    """Place and size of the greatest sag between the bearings, and the sag at the tip."""
    soft = beam.ei_n_mm2 / beam.shear_n
    last = next(p for p in reversed(pieces) if p.x < beam.span_mm)
    _, moment, _, sag = last.at(last.length)
    # The head's slope is what brings the foot bearing back to its height.
    lean = -(sag + soft * moment) / beam.span_mm
    best_x, best = 0.0, 0.0
    for p in pieces:
        if p.x >= beam.span_mm:
            break
        for t in _level_places(p, lean, soft):
            _, moment, _, sag = p.at(t)
            total = sag + lean * (p.x + t) + soft * moment
            if abs(total) > abs(best):
                best_x, best = p.x + t, total
    tip = pieces[-1]
    _, moment, _, sag = tip.at(tip.length)
    end = sag + lean * (tip.x + tip.length) + soft * moment if beam.overhang_mm else 0.0
    return best_x, best / beam.ei_n_mm2, end / beam.ei_n_mm2


def _level_places(p: _Piece, lean: float, soft: float) -> Iterator[float]:
    """Places within a piece where the bent beam runs level, and the piece's end, where a point load may make a kink."""
    yield p.length
    t0, g0 = 0.0, p.slope + lean + soft * p.shear
    for i in range(1, 5):
        t1 = p.length * i / 4.0
        shear, _, slope, _ = p.at(t1)
        g1 = slope + lean + soft * shear
        if g1 == 0.0:
            yield t1
        elif g0 * g1 < 0.0:
            yield _level_place(p, lean, soft, (t0, t1), g0)
        t0, g0 = t1, g1


def _level_place(p: _Piece, lean: float, soft: float, within: tuple[float, float], g_low: float) -> float:
    """Newton's steps, halved whenever one would leave the stretch."""
    low, high = within
    t = (low + high) / 2.0
    for _ in range(30):
        shear, moment, slope, _ = p.at(t)
        g = slope + lean + soft * shear
        low, high = (t, high) if (g > 0.0) == (g_low > 0.0) else (low, t)
        change = -moment - soft * (p.q + p.k * t)
        step = t - g / change if change else low
        new = step if low < step < high else (low + high) / 2.0
        moved, t = abs(new - t), new
        if moved < 1e-7 * p.length:
            break
    return t
