"""Rafters on two bearings, one end running past the second: reactions, moments, shears and sag, exactly.

Head bearing at 0, foot bearing at the span, tip beyond it. Loads act downward positive (uplift is negative) and change
in straight pieces, with point loads anywhere. Each piece is integrated in closed form, so nothing is sampled or meshed.
Many beams and many loads are worked out at once: a row of every array is one load on one beam.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import islice
from math import inf
from typing import TYPE_CHECKING, NamedTuple

from pentice.errors import require_within
from pentice.mechanics.lines import LineLoad, require_ordered, stretches
from pentice.mechanics.powers import greatest_in_size

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

PointLoads = Sequence[tuple[float, float]]
Factors = Sequence[tuple[int, float]]
"""Which loads act, each with its factor."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beam:
    """A straight member on two bearings with one overhang.

    ei_n_mm2 is its bending stiffness; shear_n its shear stiffness, 5/6 G A for a rectangle, infinite to leave it out.
    """

    span_mm: float
    overhang_mm: float = 0.0
    ei_n_mm2: float
    shear_n: float = inf


class BeamAnswer(NamedTuple):
    """What one load does to a beam on two bearings. Downward, sagging positive; reactions upward positive.

    A row of the arrays that it is read from, field by field.
    """

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


@dataclass(frozen=True, slots=True, kw_only=True)
class BeamLoads:
    """A beam, line loads that may act on it, and the cases: which of them act, by what factor, and point loads."""

    beam: Beam
    lines: tuple[LineLoad, ...]
    cases: tuple[tuple[Factors, PointLoads], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pieces:
    """Every case cut into stretches without a break; shape (cases, pieces).

    x and length say where a piece lies, q and k its load q + k t; shear, moment, slope and sag are the state at its
    start, EI times slope and sag started from zero. Pieces of no length fill a row up.
    """

    x: Array
    length: Array
    q: Array
    k: Array
    shear: Array
    moment: Array
    slope: Array
    sag: Array

    def at_ends(self) -> tuple[Array, Array, Array]:
        """Shear, moment and EI sag at the end of each piece."""
        q, k, v, m, t = self.q, self.k, self.shear, self.moment, self.length
        shear = v - t * (q + t * k / 2.0)
        moment = m + t * (v - t * (q / 2.0 + t * k / 6.0))
        sag = self.sag + t * (self.slope - t * (m / 2.0 + t * (v / 6.0 - t * (q / 24.0 + t * k / 120.0))))
        return shear, moment, sag


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
    return overhang_beams([BeamLoads(beam=beam, lines=(load,), cases=((((0, 1.0),), points),))])[0][0]


def overhang_beams(asked: Iterable[BeamLoads]) -> list[list[BeamAnswer]]:
    """Many beams of that kind, each in many cases, at once.

    Parameters
    ----------
    asked
        Beams with their loads and cases.

    Returns
    -------
    list
        For each beam the answer to each of its cases, as `overhang_beam` gives it for one.

    Raises
    ------
    InputError
        A load lies outside its beam or out of order.
    OutsideScope
        A span, stiffness or overhang is not positive.

    Source
    ------
    As `overhang_beam`, with superposition of the line loads.

    Examples
    --------
    >>> beam, even = Beam(span_mm=3000.0, ei_n_mm2=1e11), ((0.0, 1.0), (3000.0, 1.0))
    >>> loads = BeamLoads(beam=beam, lines=(even,), cases=((((0, 1.0),), ()), (((0, 1.5),), ((1500.0, 100.0),))))
    >>> [[answer.head_reaction_n for answer in cases] for cases in overhang_beams([loads])]
    [[1500.0, 2300.0]]
    """
    import numpy as np

    beams = list(asked)
    if not any(loads.cases for loads in beams):
        return [[] for _ in beams]
    for loads in beams:
        _require_beam(loads)
    # A place that lies without end beyond its piece is no place in it: nothing to warn of.
    with np.errstate(over="ignore"):
        return _answers(beams)


def _answers(beams: Sequence[BeamLoads]) -> list[list[BeamAnswer]]:
    import numpy as np

    places = [_places(loads) for loads in beams]
    most = max(map(len, places))
    rows = [len(loads.cases) for loads in beams]
    nodes = np.repeat([xs + [xs[-1]] * (most - len(xs)) for xs in places], rows, axis=0)
    starts, ends, forces = _at_nodes(beams, places, most)
    numbers = np.array([(b.beam.span_mm, b.beam.overhang_mm, b.beam.ei_n_mm2, b.beam.shear_n) for b in beams])
    span, overhang, ei, shear_n = np.repeat(numbers, rows, axis=0).T
    pieces, head, foot = _solved(nodes, starts, ends, forces, span)
    beyond = (pieces.x >= span[:, None]) & (pieces.length > 0.0)
    last = np.sum((pieces.x < span[:, None]) & (pieces.length > 0.0), axis=1) - 1
    row = np.arange(len(span))
    far = pieces.at_ends()
    at_foot_shear, at_foot_moment, at_foot_sag = (of[row, last] for of in far)
    first = np.where(beyond.any(axis=1), beyond.argmax(axis=1), -1)
    support = np.where(first >= 0, pieces.moment[row, first], 0.0)
    shear_beyond = np.where(first >= 0, pieces.shear[row, first], 0.0)
    lean = -(at_foot_sag + ei / shear_n * at_foot_moment) / span
    sag_at, sag = _span_sags(pieces, span, lean, ei / shear_n)
    _, tip_moment, tip_bent = (of[:, -1] for of in far)
    tip_sag = np.where(overhang > 0.0, tip_bent + lean * (span + overhang) + ei / shear_n * tip_moment, 0.0)
    columns = (
        head, foot, *_extreme_moments(pieces), support, pieces.shear[:, 0], at_foot_shear, shear_beyond,
        _greatest_shear(pieces), sag / ei, sag_at, tip_sag / ei,
    )  # fmt: skip
    answers = map(BeamAnswer._make, np.transpose(columns).tolist())
    return [list(islice(answers, n)) for n in rows]


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


def _require_beam(loads: BeamLoads) -> None:
    beam = loads.beam
    total = beam.span_mm + beam.overhang_mm
    require_within("span_mm", beam.span_mm, 1e-6, 1e6, unit="mm", source="a beam has a span")
    require_within("overhang_mm", beam.overhang_mm, 0.0, 1e6, unit="mm", source="beyond the foot bearing")
    require_within("ei_n_mm2", beam.ei_n_mm2, 1e-9, inf, unit="N mm2", source="a beam is stiff")
    require_within("shear_n", beam.shear_n, 1e-9, inf, unit="N", source="a beam is stiff")
    for line in loads.lines:
        require_ordered(line, total)
    for x in {x for _, points in loads.cases for x, _ in points}:
        require_within("place of a point load", x, 0.0, total, unit="mm", source="from head bearing to tip")


def _places(loads: BeamLoads) -> list[float]:
    """Both bearings, the tip, every break of a load and every point load, in order."""
    beam = loads.beam
    total = beam.span_mm + beam.overhang_mm
    breaks = {min(max(x, 0.0), total) for line in loads.lines for x, _ in line}
    return sorted({0.0, beam.span_mm, total, *breaks, *(x for _, points in loads.cases for x, _ in points)})


def _at_nodes(
    beams: Sequence[BeamLoads], places: Sequence[list[float]], most: int
) -> tuple[Array, Array, Array]:
    """Line load at the start and at the end of every piece, and force on every node, row by row."""
    import numpy as np

    rows = sum(len(loads.cases) for loads in beams)
    lines, forces, row = np.zeros((2, rows, most - 1)), np.zeros((rows, most)), 0
    for loads, xs in zip(beams, places, strict=True):
        cases, pieces = len(loads.cases), len(xs) - 1
        of_lines = np.array([stretches(line, xs) for line in loads.lines]).reshape(-1, 2 * pieces)
        factors = np.zeros((cases, len(loads.lines)))
        for i, (acting, _) in enumerate(loads.cases):
            for line, factor in acting:
                factors[i, line] = factor
        summed = (factors @ of_lines).reshape(cases, 2, pieces)
        lines[:, row : row + cases, :pieces] = summed.transpose(1, 0, 2)
        for i, (_, points) in enumerate(loads.cases, row):
            for x, newton in points:
                forces[i, xs.index(x)] += newton
        row += cases
    return lines[0], lines[1], forces


def _solved(
    nodes: Array, starts: Array, ends: Array, forces: Array, span: Array
) -> tuple[_Pieces, Array, Array]:
    """Reactions, and shear, moment, EI slope and EI sag carried from the head to the tip, the first slope nothing."""
    import numpy as np

    x, d = nodes[:, :-1], np.diff(nodes, axis=1)
    k = np.divide(ends - starts, d, out=np.zeros_like(d), where=d > 0.0)
    each = d * (starts + k * d / 2.0)
    turns = np.sum(x * each + d * d * (starts / 2.0 + k * d / 3.0), axis=1) + np.sum(nodes * forces, axis=1)
    foot = turns / span
    head = np.sum(each, axis=1) + np.sum(forces, axis=1) - foot
    on_node = np.cumsum(forces, axis=1)[:, :-1]
    shear = head[:, None] + np.where(x >= span[:, None], foot[:, None], 0.0) - on_node - _before(each)
    moment = _before(d * (shear - d * (starts / 2.0 + d * k / 6.0)))
    slope = -_before(d * (moment + d * (shear / 2.0 - d * (starts / 6.0 + d * k / 24.0))))
    bent = d * (slope - d * (moment / 2.0 + d * (shear / 6.0 - d * (starts / 24.0 + d * k / 120.0))))
    pieces = _Pieces(x=x, length=d, q=starts, k=k, shear=shear, moment=moment, slope=slope, sag=_before(bent))
    return pieces, head, foot


def _before(each: Array) -> Array:
    """Sums of all that lies before each piece."""
    import numpy as np

    sums = np.zeros_like(each)
    np.cumsum(each[:, :-1], axis=1, out=sums[:, 1:])
    return sums


def _extreme_moments(p: _Pieces) -> tuple[Array, Array, Array, Array]:
    """Greatest sagging moment and its place, greatest hogging moment and its place; nothing where there is none.

    Moments are greatest at the ends of pieces and where q t + k t2/2 has used up the shear at the start of one.
    """
    import numpy as np

    inside = p.q * p.q + 2.0 * p.k * p.shear
    root = np.sqrt(np.maximum(inside, 0.0))
    # The stable form: no difference of nearly equal numbers when k is small.
    large = p.q + np.where(p.q >= 0.0, root, -root)
    found = [(np.zeros_like(p.q), p.moment)]
    for above, below in ((2.0 * p.shear, large), (-large, p.k)):
        t = np.divide(above, below, out=np.zeros_like(p.q), where=(below != 0.0) & (inside >= 0.0))
        t = np.where((t > 0.0) & (t <= p.length), t, 0.0)
        found.append((t, p.moment + t * (p.shear - t * (p.q / 2.0 + t * p.k / 6.0))))
    moments = np.stack([m for _, m in found], axis=2).reshape(len(p.q), -1)
    at = (p.x[:, :, None] + np.stack([t for t, _ in found], axis=2)).reshape(len(p.q), -1)
    row = np.arange(len(p.q))
    most, least = moments.argmax(axis=1), moments.argmin(axis=1)
    up, down = np.maximum(moments[row, most], 0.0), np.minimum(moments[row, least], 0.0)
    return up, np.where(up > 0.0, at[row, most], 0.0), down, np.where(down < 0.0, at[row, least], 0.0)


def _greatest_shear(p: _Pieces) -> Array:
    """In size: at both ends of every piece, and where the load changes sign within it."""
    import numpy as np

    turn = np.divide(-p.q, p.k, out=np.zeros_like(p.q), where=p.k != 0.0)
    turn = np.where((turn > 0.0) & (turn < p.length), turn, 0.0)
    shears = [np.abs(p.shear - t * (p.q + t * p.k / 2.0)) for t in (np.zeros_like(turn), p.length, turn)]
    greatest: Array = np.max(np.where(p.length > 0.0, np.max(shears, axis=0), 0.0), axis=1)
    return greatest


def _span_sags(p: _Pieces, span: Array, lean: Array, soft: Array) -> tuple[Array, Array]:
    """Place of the greatest sag between the bearings, and EI times it: where the bent beam runs level, or at a kink."""
    import numpy as np

    lean, soft, d = lean[:, None], soft[:, None], p.length
    d2 = d * d
    of_powers = (
        p.sag + lean * p.x + soft * p.moment, (p.slope + lean + soft * p.shear) * d,
        (p.moment + soft * p.q) * d2 / -2.0, (p.shear + soft * p.k) * d2 * d / -6.0,
        p.q * d2 * d2 / 24.0, p.k * d2 * d2 * d / 120.0,
    )  # fmt: skip
    place, sag = greatest_in_size(np.array(of_powers))
    within = np.where(p.x < span[:, None], np.abs(sag), -1.0)
    row, most = np.arange(len(span)), within.argmax(axis=1)
    return (p.x + place * p.length)[row, most], sag[row, most]
