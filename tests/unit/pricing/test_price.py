"""The price of a job: what counts before what, and that every amount on paper adds up."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from pentice.catalogue.firm import Firm, read_firm
from pentice.errors import InputError
from pentice.pricing.build import Costs, Terms, price_from, stages_of
from pentice.pricing.labour import amounts_of, labour_lines
from pentice.pricing.stage import material_lines, price_of, terms_of
from tests.unit.takeoff.orders import job_with, shipped_design

D = Decimal


def _firm(**changes: object) -> Firm:
    return read_firm().model_copy(update=changes)


def _terms(**changes: object) -> Terms:
    base = Terms(currency="GBP", margin=D("0.2"), tax_rate=D("0.2"), stages=(("all", D(1)),))
    return Terms(**{**{name: getattr(base, name) for name in base.__slots__}, **changes})


def test_amounts_on_paper_add_up() -> None:
    """Lines to totals, totals to cost, net and tax to gross, stages to gross. Exact: cents."""
    price = shipped_design().price
    assert sum(amount for _, amount in price.material_lines) == price.materials
    assert sum(line.hours for line in price.labour_lines) == price.labour_hours
    assert sum(amount for _, amount in price.extra_lines) == price.extra
    assert price.materials + price.labour + price.overhead + price.extra == price.cost
    assert price.net + price.tax == price.gross == sum(amount for _, amount in price.stages)


def test_materials_start_from_the_order() -> None:
    """The first line is the sum of the order at list prices. Exact: cents."""
    design = shipped_design()
    assert design.price.material_lines[0][1] == sum(line.price for line in design.order)


def test_discount_waste_minimum_and_delivery_in_their_order() -> None:
    """1000 less 10 %, 5 % waste on 900, 45 delivery: 990; a small order is raised to its minimum first. Exact."""
    firm = _firm(discount=D("0.1"))
    assert sum(a for _, a in material_lines(D(1000), firm)) == D("990.00")
    assert dict(material_lines(D(100), firm))["Up to the minimum order"] == D("60.00")
    assert material_lines(D(0), firm) == (("The order at list prices", D("0.00")),)


def test_what_the_job_says_counts_before_the_firm() -> None:
    """Margin, tax, currency and stages of [price] stand; the rest is the firm's. Exact: as written."""
    job = job_with(
        shipped_design().job,
        price={"margin": 0.3, "tax_rate": 0.07, "currency": "EUR", "stages": (("a", 0.4), ("b", 0.6))},
    )
    terms = terms_of(job, read_firm())
    assert (terms.margin, terms.tax_rate, terms.currency) == (D("0.3"), D("0.07"), "EUR")
    assert terms.stages == (("a", D("0.4")), ("b", D("0.6")))
    assert terms.valid_days == read_firm().valid_days


def test_extras_of_the_job_and_the_firm_are_told_apart() -> None:
    """Travel by the day, hire and the job's own cranes each have a line; nothing is no line. Exact: money."""
    design = shipped_design()
    job = job_with(design.job, price={"extra": (("Crane", D("250.00")),)})
    price = price_of(job, design.firm, design.order, design.setting_out, design.pieces)
    assert dict(price.extra_lines) == {
        "Travel, 4 days": D("100.00"),
        "Access, tower or staging": D("90.00"),
        "Crane": D("250.00"),
    }


def test_contingency_is_taken_on_all_the_rest() -> None:
    """Ten per cent of 100 + 30 + 20 is 15. Exact: cents."""
    costs = Costs(
        materials=(("m", D(100)),),
        labour=(),
        rate_per_h=D(0),
        overhead_per_h=D(0),
        extra=(("a", D(30)), ("b", D(20))),
        contingency_share=D("0.1"),
    )
    price = price_from(costs, _terms(margin=D(0)))
    assert price.extra_lines[-1] == ("Contingency", D("15.00"))
    assert price.net == D("165.00")


@pytest.mark.parametrize("margin", ["1", "1.2", "-0.1"])
def test_a_margin_that_no_price_can_carry_is_refused(margin: str) -> None:
    """At a margin of one the price has no end."""
    costs = Costs(materials=(), labour=(), rate_per_h=D(0), overhead_per_h=D(0))
    with pytest.raises(InputError, match=r"price\.margin is .* 0.2 is 20 % of the net price"):
        price_from(costs, _terms(margin=D(margin)))


def test_the_last_stage_takes_the_rest() -> None:
    """Three thirds of 100: 33.33, 33.33 and 33.34; no stages, no payments. Exact: cents."""
    third = D(1) / 3
    amounts = [amount for _, amount in stages_of(D("100.00"), (("a", third), ("b", third), ("c", third)))]
    assert amounts == [D("33.33"), D("33.33"), D("33.34")]
    assert stages_of(D("100.00"), ()) == ()


def test_validity_counts_from_the_day_of_the_quote() -> None:
    """1 March and 30 days is 31 March, over a leap day too; without a day there is none. Exact: dates."""
    costs = Costs(materials=(), labour=(), rate_per_h=D(0), overhead_per_h=D(0))
    for day, until in ((date(2027, 3, 1), "2027-03-31"), (date(2028, 2, 10), "2028-03-11"), (None, "")):
        assert price_from(costs, _terms(quoted_on=day, valid_days=30)).valid_until == until


def test_hours_are_norms_times_what_there_is() -> None:
    """Five bays, six bars and rafters, three posts of the potting bay. Exact: decimals."""
    design = shipped_design()
    amounts = amounts_of(design.job, design.setting_out, design.pieces)
    assert [int(amounts[task]) for task in ("sheet_cut", "bar", "rafter", "post")] == [5, 6, 6, 3]
    lines = {line.task: line for line in design.price.labour_lines}
    assert lines["Rafter"].hours == D("3.0")
    assert lines["Load, travel, set up"].amount == 8, "four days of two"


def test_days_follow_from_the_hours_where_the_job_names_none() -> None:
    """26.6 h on site by two people of eight hours: two days, four person-days. Exact: counts."""
    design = shipped_design()
    job = job_with(design.job, dates={"working_days": None})
    lines = labour_lines(design.firm, job, design.setting_out, design.pieces)
    on_site = sum(line.hours for line in lines[2:-1])
    assert 16 < on_site <= 32
    assert lines[-1].amount == 4


def test_a_standing_frame_has_no_hours() -> None:
    """Rafters, posts and beam that are there cost no labour. Exact: no lines."""
    tasks = {line.task for line in shipped_design("uneven-veranda").price.labour_lines}
    assert not tasks & {"Rafter", "Post", "Post base", "Beam", "Set out, fix wall plate"}
    assert "Glazing bar" in tasks
