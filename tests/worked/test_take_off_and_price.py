"""A lean-to of 4875 by 2950 taken off and a job priced by a second route: the arithmetic is written out here.

The expected values come from this file's own arithmetic and import nothing of the engine; roof and job are invented.
The spacing of screws, the spare and the beads are common practice, no source.
"""

from __future__ import annotations

import math
from decimal import Decimal

import pytest

from pentice.catalogue.model import Catalogue
from pentice.job.shape import roof_shape
from pentice.pieces.cut import cut_from_stock
from pentice.pieces.stage import pieces_of
from pentice.pricing.build import Costs, Terms, price_from
from pentice.pricing.values import LabourLine, Price
from pentice.takeoff.glazing import bead_m, seal_m, tape_m
from pentice.takeoff.stage import take_off
from pentice.takeoff.values import OrderLine
from tests.roofs import PARTS, job_of, setting_out_of

SLOPE = 2950 / math.cos(math.radians(10))
BASE = SLOPE + 50 - 3
WIDTH, LENGTH, BAYS = 947, 3025, 5


def _catalogue() -> Catalogue:
    return Catalogue(
        sheets={"sheet": PARTS.sheet},
        bars={"bar": PARTS.bar},
        profiles={"head": PARTS.head_profile, "foot": PARTS.foot_profile},
        timbers={"c24": PARTS.timber},
    )


def _order(projection: float = 2950.0) -> dict[str, OrderLine]:
    job = job_of(width=4875, rafter=47, bays=BAYS, projection=projection)
    shape, setting_out, catalogue = roof_shape(job), setting_out_of(job), _catalogue()
    pieces = pieces_of(job, shape, PARTS, setting_out)
    cutting = cut_from_stock(pieces, job, PARTS, catalogue, setting_out)
    order = take_off(job, shape, PARTS, catalogue, setting_out, pieces, cutting)
    return {part: line for line in order for part in line.part.split(", ")}


def test_bars_and_their_screws() -> None:
    """Six rafters, six bars; first 125 from the foot, last 75 inside the rafter: nine screws each, 54 in all."""
    order = _order()
    first, last = 50 + 75, 50 + SLOPE - 75
    each = math.ceil((last - first) / 400) + 1
    assert each == math.ceil((3042.5 - 150) / 400) + 1 == 9
    assert order["screws"].quantity == 6 * each == 54
    assert order["screws"].spare == math.ceil(5.4)
    assert len(order["bar base"].pieces) == 6


def test_seals_on_both_sides_of_base_and_cap() -> None:
    """Four runs on six bars of 3042.5: 73.02 m. Tolerance: half the last digit."""
    by_hand = 6 * 4 * BASE / 1000
    assert by_hand == pytest.approx(73.02, abs=0.005)
    assert seal_m([BASE] * 6, 4) == pytest.approx(73.02, abs=0.005)
    order = _order()
    both = order["seals bottom"].quantity + order["seals top"].quantity
    assert float(both) == pytest.approx(6 * 4 * BASE / 1000, abs=0.001)


def test_tape_at_each_end() -> None:
    """Five sheets of 947 and 50 each: 4.985 m; two packing strips of 23 and 50 on top. Tolerance: 1 mm."""
    assert tape_m([WIDTH] * BAYS) == pytest.approx(4.985, abs=1e-9)
    strips = 2 * (24 - 1 + 50) / 1000
    for part in ("solid head tape", "breather foot tape"):
        assert float(_order()[part].quantity) == pytest.approx(4.985 + strips, abs=0.001)


def test_what_one_tube_does() -> None:
    """310 ml at 90 % through a round bead of 6 and of 10. Tolerance: half the last digit."""
    assert 310e3 * 0.9 / (math.pi * 9) / 1e3 == pytest.approx(9.868, abs=5e-4)
    assert bead_m(310.0, 0.9, 6.0) == pytest.approx(9.868, abs=5e-4)
    assert bead_m(310.0, 0.9, 10.0) == pytest.approx(3.55, abs=5e-3)


def test_sealant_in_tubes() -> None:
    """Beads on five foot and five head profiles of 903 and 20 mm at each of 54 screws. Tolerance: three decimals."""
    daylight = (4875 - 47) / BAYS - 60
    assert math.floor(daylight - 2) == 903
    bead = 10 * 0.903 + 54 * 0.02
    assert float(_order()["sealant at screws"].quantity) == pytest.approx(bead / 9.8675, abs=0.001)


def test_foot_profiles() -> None:
    """Five of 905.6 less 2: 4.515 m, from one length of 6000. Exact: one length, five pieces."""
    order = _order()
    assert 5 * 903 + 5 * 4 < 6000
    assert order["foot profile with drain holes"].quantity == 1
    assert len(order["foot profile with drain holes"].pieces) == BAYS


def test_sheet_that_is_used_and_lost() -> None:
    """14.323 m2 from five of 980 x 3500 loses 16.5 %; 25 less projection takes 3000 and loses 3.4 %."""
    net = BAYS * WIDTH * LENGTH / 1e6
    assert net == pytest.approx(14.323, abs=5e-4)
    assert 1 - net / (BAYS * 0.98 * 3.5) == pytest.approx(0.165, abs=5e-4)
    lost = 1 - BAYS * WIDTH * 3000 / (BAYS * 980 * 3000)
    assert lost == pytest.approx(0.034, abs=5e-4)
    long, short = _order()["sheets"], _order(2927.0)["sheets"]
    assert ("980 x 3500" in long.description, "980 x 3000" in short.description) == (True, True)
    assert long.quantity == short.quantity == BAYS


def _price(margin: str) -> Price:
    hours = LabourLine(task="all", amount=Decimal(31), unit="h", norm_h=Decimal(1), hours=Decimal(31))
    costs = Costs(
        materials=(("order", Decimal(1640)), ("waste", Decimal("82.00"))),
        labour=(hours,),
        rate_per_h=Decimal(24),
        overhead_per_h=Decimal("9.5"),
        extra=(("travel and hire", Decimal(180)),),
    )
    stages = (("deposit", Decimal("0.25")), ("materials", Decimal("0.50")), ("completion", Decimal("0.25")))
    return price_from(
        costs, Terms(currency="GBP", margin=Decimal(margin), tax_rate=Decimal("0.2"), stages=stages)
    )


def test_a_job_of_thirty_one_hours() -> None:
    """Cost 2940.50; 20 % margin is 25 % markup; net rounds up at the half cent before tax. Exact: cents."""
    cost = 1640 * 105 // 100 * 100 + 31 * 2400 + 31 * 950 + 180 * 100
    assert cost == 294050
    net = (cost * 10 // 8 + 1) if cost * 10 % 8 * 2 >= 8 else cost * 10 // 8
    tax = (net * 2 + 5) // 10
    price = _price("0.20")
    assert (price.cost, price.net, price.tax) == (
        Decimal(cost) / 100,
        Decimal(net) / 100,
        Decimal(tax) / 100,
    )
    assert [str(v) for v in (price.net, price.tax, price.gross)] == ["3675.63", "735.13", "4410.76"]
    assert price.markup == Decimal("0.25")


def test_the_stages_of_that_job() -> None:
    """A quarter is 1102.69, a half 2205.38, the last takes the rest. Exact: cents."""
    assert [str(amount) for _, amount in _price("0.20").stages] == ["1102.69", "2205.38", "1102.69"]
    assert 441076 - 110269 - 220538 == 110269


def test_what_a_margin_typed_as_a_markup_loses() -> None:
    """20 % on cost is 3528.60, 147.03 less than a fifth of the price: its margin is a sixth. Exact: cents."""
    typed = Decimal("2940.50") * Decimal("1.2")
    assert (typed, _price("0.20").net - typed) == (Decimal("3528.600"), Decimal("147.030"))
    sixth = _price(str(Decimal(1) / 6))
    assert sixth.net == Decimal("3528.60")
    assert sixth.markup == Decimal("0.2000")
