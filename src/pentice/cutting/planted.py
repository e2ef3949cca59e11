"""A plan at hand as trees of cuts, for the search to go on from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pentice.cutting import trees
from pentice.cutting.compiled import Table, table


@dataclass(frozen=True, slots=True, kw_only=True)
class Lies:
    """Where one piece lies on its sheet, the kerf added, and what it claims: at least as much.

    ``piece`` is its number among all pieces of the search.
    """

    piece: int
    at: tuple[int, int]
    size: tuple[int, int]
    claim: tuple[int, int]


def planted(layout: Table, sheets: Sequence[tuple[int, Sequence[Lies]]], seed: int) -> Table | None:
    """The state in which each sheet is cut as a plan has it; claims may be larger than pieces and move the others.

    Parameters
    ----------
    layout
        The fixed table of `trees`.
    sheets
        Number of the stock, and every piece on it. Each piece lies on at most one sheet.
    seed
        Where chance begins.

    Returns
    -------
    array, list or None
        None where a piece lies on no sheet, where the claims of a sheet need more than the sheet, or where its pieces
        cannot be parted by cuts from edge to edge.
    """
    if sum(len(pieces) for _, pieces in sheets) < layout[trees.PIECES]:
        return None
    state = table([0] * int(layout[trees.SIZE]))
    trees.clear(state, layout, seed)
    for stock, pieces in sheets:
        free = trees.open_sheet(state, layout, stock)
        root = int(state[layout[trees.NODE_AT] + trees.FIELDS * free + trees.PARENT])
        trees.strike(state, layout, free)
        trees.discard(state, layout, free)
        if not _fill(state, layout, root, trees.ALONG_X, pieces):
            return None
    state[trees.WAITING] = state[trees.WAITING_DUE] = state[trees.WRITES] = 0
    return state


def _fill(state: Table, layout: Table, node: int, axis: int, pieces: Sequence[Lies]) -> bool:
    """Cuts a node along an axis into what its pieces claim there, each part then the other way, and a free rest."""
    at = layout[trees.NODE_AT] + trees.FIELDS * node
    size = [int(state[at + trees.WIDTH]), int(state[at + trees.HEIGHT])]
    left = size[axis]
    for group in _groups(pieces, axis):
        need = _need(group, 1 - axis)
        if need is None or need[1 - axis] > size[1 - axis] or need[axis] > left:
            return False
        left -= need[axis]
        part = [need[0], size[1]] if axis == trees.ALONG_X else [size[0], need[1]]
        if len(group) == 1 and need == (part[0], part[1]):
            child = trees.new_node(state, layout, node, trees.PIECE, *part)
            state[layout[trees.NODE_AT] + trees.FIELDS * child + trees.EXTRA] = group[0].piece
            state[layout[trees.PIECE_AT] + group[0].piece] = child
        else:
            child = trees.new_node(state, layout, node, 1 - axis, *part)
            if not _fill(state, layout, child, 1 - axis, group):
                return False
    if left:
        size[axis] = left
        trees.new_node(state, layout, node, trees.FREE, *size)
    return True


def _groups(pieces: Sequence[Lies], axis: int) -> list[list[Lies]]:
    """Pieces that no cut across the axis parts stand together."""
    groups: list[list[Lies]] = []
    end = 0
    for piece in sorted(pieces, key=lambda p: p.at[axis]):
        if not groups or piece.at[axis] >= end:
            groups.append([])
        groups[-1].append(piece)
        end = max(end, piece.at[axis] + piece.size[axis])
    return groups


def _need(pieces: Sequence[Lies], axis: int, *, stuck: bool = False) -> tuple[int, int] | None:
    """Width and height that pieces claim together, parted along an axis first; None where no cut parts them."""
    if len(pieces) == 1:
        return pieces[0].claim
    groups = _groups(pieces, axis)
    if len(groups) == 1:
        return None if stuck else _need(pieces, 1 - axis, stuck=True)
    needs = [_need(group, 1 - axis) for group in groups]
    sizes = [need for need in needs if need is not None]
    if len(sizes) < len(needs):
        return None
    across, along = [n[axis] for n in sizes], [n[1 - axis] for n in sizes]
    both = (sum(across), max(along))
    return both if axis == trees.ALONG_X else (both[1], both[0])
