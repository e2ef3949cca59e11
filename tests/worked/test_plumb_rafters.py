"""Six rafters of 145 mm, cut plumb at 12 deg, from 4.8 m: what shared cuts save, by hand.

Second route: the triangles are drawn out here; nothing of the cutting core is used for the expected values. The sizes
are ours, no source.
"""

from __future__ import annotations

import math

import pytest

from pentice.cutting import cut_lengths
from pentice.cutting.values import LengthPiece, LengthStock, Slant

DEPTH, PITCH, BACK, KERF, STOCK = 145, 12.0, 2380, 4, 4800


def test_shared_plumb_cuts_save_three_of_six_lengths() -> None:
    """A blank with square ends holds the rafter's back and what its cuts lean over the depth: 2380 + 145 tan 12 =
    2410.8, two of them with a cut between are 4825.6 and do not fit on 4800: six lengths, each with one rafter.

    Lying one in the other two rafters and one cut of 4 / cos 12 take 2 x 2380 + 4.1 along the back, and the lean once:
    4794.9. Three lengths do, each with one shared cut.
    """
    lean, along = DEPTH * math.tan(math.radians(PITCH)), KERF / math.cos(math.radians(PITCH))
    blank = BACK + lean
    assert blank == pytest.approx(2410.82, abs=0.005)
    assert 2 * blank + KERF > STOCK
    assert 2 * BACK + along + lean == pytest.approx(4794.91, abs=0.005)
    bar = LengthStock(id="4.8 m", item="r", length_mm=STOCK, price=3000, count=None, offcut=False)
    square = [LengthPiece(id=f"R{i}", item="r", length_mm=math.ceil(blank)) for i in range(6)]
    assert len(cut_lengths(square, [bar], kerf_mm=KERF).lengths) == 6
    plumb = [
        LengthPiece(id=f"R{i}", item="r", length_mm=BACK, slant=Slant(deg=PITCH, depth_mm=DEPTH))
        for i in range(6)
    ]
    found = cut_lengths(plumb, [bar], kerf_mm=KERF)
    assert (len(found.lengths), found.cost, found.bound, found.proven) == (3, 9000, 9000, True)
    for plan in found.lengths:
        first, second = plan.pieces
        assert second.at_mm - (first.at_mm + BACK) == pytest.approx(along, abs=1.0)
        assert second.at_mm - (first.at_mm + BACK) >= along
