"""Continuous beams by the stiffness method: many load cases of one beam at once, bending only.

Nodes stand wherever a support, a point load or a break of the line load is; between nodes a line load changes in a
straight line. Downward and sagging positive, reactions upward positive.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pentice.errors import InputError, require_within
from pentice.mechanics.powers import greatest_in_size

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

_HAIR_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class ContinuousBeam:
    """Nodes along a beam, which of them are held in height or clamped, and the stiffness between them."""

    nodes_mm: tuple[float, ...]
    held: tuple[int, ...]
    clamped: tuple[int, ...] = ()
    ei_n_mm2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stretches:
    """Lengths, line loads, and forces and movements at the two ends of every stretch."""

    lengths: Array
    lines: Array
    forces: Array
    ends: Array
    ei: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ContinuousAnswer:
    """What each load case does; the first axis of every array counts the cases.

    reactions_n stands per held node, node_moments_n_mm and node_sags_mm per node. What happens between two nodes is
    worked out when it is asked for: most only want reactions.
    """

    reactions_n: Array
    node_moments_n_mm: Array
    node_sags_mm: Array
    stretches: _Stretches

    @property
    def stretch_moments_n_mm(self) -> Array:
        """Greatest sagging moment of each stretch; least hogging, if it never sags [N mm]."""
        return _stretch_moments(self.stretches)

    @property
    def stretch_sags_mm(self) -> Array:
        """Greatest sag in size of each stretch, with its sign [mm]."""
        return greatest_in_size(_sag_terms(self.stretches))[1]

    def combined_sags_mm(self, factors: Array) -> Array:
        """The same of sums of the first cases: each row holds a factor for each of them."""

        return greatest_in_size(factors @ _sag_terms(self.stretches)[:, : factors.shape[1]])[1]


def continuous_beam(
    beam: ContinuousBeam, lines_n_mm: Array, points_n: Array | None = None
) -> ContinuousAnswer:
    """Reactions, moments and sag of a continuous beam in any number of load cases.

    Parameters
    ----------
    beam
        Nodes [mm], supports and bending stiffness [N mm2].
    lines_n_mm
        Line load at the two ends of each stretch, shape (cases, stretches, 2) [N/mm].
    points_n
        Point load on each node, shape (cases, nodes) [N]; none when left out.

    Returns
    -------
    ContinuousAnswer
        Reactions [N], moments [N mm], sag [mm].

    Raises
    ------
    InputError
        Nodes out of order, loads of another shape, or a beam that is not held.

    Source
    ------
    Stiffness method for straight beams in bending (Euler), exact at the nodes and within the stretches.

    Examples
    --------
    >>> import numpy as np
    >>> two_spans = ContinuousBeam(nodes_mm=(0.0, 3000.0, 6000.0), held=(0, 1, 2), ei_n_mm2=3.5e9)
    >>> answer = continuous_beam(two_spans, np.ones((1, 2, 2)))
    >>> answer.reactions_n.round(1).tolist()
    [[1125.0, 3750.0, 1125.0]]
    """
    import numpy as np

    lengths = _lengths(beam, lines_n_mm)
    nodes, cases = len(beam.nodes_mm), lines_n_mm.shape[0]
    at_nodes = np.zeros((cases, nodes)) if points_n is None else np.asarray(points_n, dtype=float)
    fixed = _held_loads(lengths, lines_n_mm)
    element = beam.ei_n_mm2 * _element_stiffness(lengths)
    stiffness, on_nodes = _assembled(element), np.zeros((cases, nodes, 2))
    on_nodes[:, :, 0] = at_nodes
    on_nodes[:, 1:] += fixed[:, :, 2:]
    on_nodes[:, :-1] += fixed[:, :, :2]
    load = on_nodes.reshape(cases, 2 * nodes)
    free = _free(beam)
    moved = np.zeros((cases, 2 * nodes))
    moved[:, free] = np.linalg.solve(stiffness[np.ix_(free, free)], load[:, free].T).T
    at_node = moved.reshape(cases, nodes, 2)
    ends = np.concatenate((at_node[:, :-1], at_node[:, 1:]), axis=2)
    # Stretch by stretch, many cases at once; a stiffness is the same from either side.
    forces = (ends.transpose(1, 0, 2) @ element).transpose(1, 0, 2) - fixed
    moments = np.concatenate((forces[:, :, 1], -forces[:, -1:, 3]), axis=1)
    return ContinuousAnswer(
        reactions_n=(load - moved @ stiffness)[:, [2 * i for i in beam.held]],
        node_moments_n_mm=moments,
        node_sags_mm=moved[:, 0::2],
        stretches=_Stretches(lengths=lengths, lines=lines_n_mm, forces=forces, ends=ends, ei=beam.ei_n_mm2),
    )


def merged_places(places_mm: Iterable[float], near_mm: float = 0.5) -> tuple[float, ...]:
    """Places in order, those nearer than a little taken as one: a stretch of nothing would stiffen the beam.

    Parameters
    ----------
    places_mm
        Places along a beam [mm].
    near_mm
        How near is the same [mm].

    Returns
    -------
    tuple of float
        Rising [mm]: both ends where they are, between them the middle of what is one, from either end alike.

    Source
    ------
    Judgement, no source.

    Examples
    --------
    >>> merged_places((900.0, 0.0, 0.3, 900.2, 1800.0, 1799.6))
    (0.0, 900.1, 1800.0)
    """
    groups: list[list[float]] = []
    for x in sorted(places_mm):
        if groups and x - groups[-1][-1] <= near_mm + _HAIR_MM:
            groups[-1].append(x)
        else:
            groups.append([x])
    inner = [(group[0] + group[-1]) / 2.0 for group in groups[1:-1]]
    return (groups[0][0], *inner, *(group[-1] for group in groups[1:][-1:]))


def nearest_node(nodes_mm: Sequence[float], place_mm: float) -> int:
    """The node at a place.

    Parameters
    ----------
    nodes_mm
        Nodes of a beam, rising [mm].
    place_mm
        A place that is one of them, or near one [mm].

    Returns
    -------
    int
        Its position in the row.

    Source
    ------
    Definition.

    Examples
    --------
    >>> nearest_node((0.0, 900.0), 900.2)
    1
    """
    after = bisect_left(nodes_mm, place_mm)
    if after == 0:
        return 0
    if after == len(nodes_mm) or place_mm - nodes_mm[after - 1] <= nodes_mm[after] - place_mm:
        return after - 1
    return after


def _lengths(beam: ContinuousBeam, lines: Array) -> Array:
    import numpy as np

    lengths = np.diff(np.array(beam.nodes_mm, dtype=float))
    if len(lengths) < 1 or not bool((lengths > 0.0).all()):
        raise InputError.of("nodes_mm", beam.nodes_mm, "expected at least two places in order")
    if lines.ndim != 3 or lines.shape[1:] != (len(lengths), 2):
        raise InputError.of("lines_n_mm", lines.shape, f"expected the shape (cases, {len(lengths)}, 2)")
    if len(beam.held) + len(beam.clamped) < 2:
        raise InputError.of("supports", len(beam.held), "expected two held nodes, or one held and clamped")
    require_within("ei_n_mm2", beam.ei_n_mm2, 1e-9, 1e30, unit="N mm2", source="a beam is stiff")
    return lengths


def _free(beam: ContinuousBeam) -> list[int]:
    bound = {2 * i for i in beam.held} | {2 * i + 1 for i in beam.clamped}
    return [i for i in range(2 * len(beam.nodes_mm)) if i not in bound]


def _element_stiffness(lengths: Array) -> Array:
    import numpy as np

    turns = np.array([0, 1, 0, 1])
    rows = [[12.0, 6.0, -12.0, 6.0], [6.0, 4.0, -6.0, 2.0], [-12.0, -6.0, 12.0, -6.0], [6.0, 2.0, -6.0, 4.0]]
    stiffness: Array = rows / lengths[:, None, None] ** (3 - turns[:, None] - turns)
    return stiffness


def _assembled(element: Array) -> Array:
    """The stiffness of the whole beam: height and slope of each node in turn."""
    import numpy as np

    nodes = len(element) + 1
    whole, left, right = np.zeros((nodes, 2, nodes, 2)), np.arange(nodes - 1), np.arange(1, nodes)
    whole[right, :, right, :] += element[:, 2:, 2:]
    whole[left, :, left, :] += element[:, :2, :2]
    whole[left, :, right, :] = element[:, :2, 2:]
    whole[right, :, left, :] = element[:, 2:, :2]
    return whole.reshape(2 * nodes, 2 * nodes)


def _held_loads(lengths: Array, lines: Array) -> Array:
    """What a line load puts on the two ends of a stretch that is clamped at both: force, turning, force, turning."""
    import numpy as np

    by_end = np.array([[7.0, 3.0, 3.0, -2.0], [3.0, 2.0, 7.0, -3.0]]) / (20.0, 60.0, 20.0, 60.0)
    near, far = by_end[:, None, :] * lengths[:, None] ** (1, 2, 1, 2)
    held: Array = lines[..., :1] * near + lines[..., 1:] * far
    return held


def _moment_at(t: Array, over: _Stretches) -> Array:
    """Moment at a place t within each stretch."""
    a, rise, forces = over.lines[..., 0], _rise(over), over.forces
    moment: Array = forces[..., 1] - t * (forces[..., 0] + t * (a / 2.0 + t * rise / 6.0))
    return moment


def _rise(over: _Stretches) -> Array:
    rise: Array = (over.lines[..., 1] - over.lines[..., 0]) / over.lengths
    return rise


def _stretch_moments(over: _Stretches) -> Array:
    """Greatest moment of each stretch: at an end, or where the shear passes through nothing."""
    import numpy as np

    a, rise, shear, lengths = over.lines[..., 0], _rise(over), -over.forces[..., 0], over.lengths
    root = np.sqrt(np.maximum(a**2 + 2.0 * rise * shear, 0.0))
    # The two roots of a t + rise t2/2 = shear, each in the form that takes no difference of near numbers: by a free end
    # the shear is nothing, and a load that turns its sign has its greatest moment further in.
    large = a + np.where(a < 0.0, -root, root)
    found = [np.zeros_like(a), np.broadcast_to(lengths, a.shape)]
    for above, below in ((2.0 * shear, large), (-large, rise)):
        # Where there is no such place the division is kept from happening.
        found.append(np.clip(above / np.where(below == 0.0, np.inf, below), 0.0, lengths))
    most: Array = np.max([_moment_at(t, over) for t in found], axis=0)
    return most


def _sag_terms(over: _Stretches) -> Array:
    """Sag of each stretch as a sum of the powers, none to the fifth, of the place over its length: the first axis."""
    import numpy as np

    a, rise, forces, ends, long = over.lines[..., 0], _rise(over), over.forces, over.ends, over.lengths
    moment, shear = forces[..., 1], -forces[..., 0]
    bent = (-moment / 2.0, -shear * long / 6.0, a * long**2 / 24.0, rise * long**3 / 120.0)
    return np.array((ends[..., 0], ends[..., 1] * long, *(of * long**2 / over.ei for of in bent)))
