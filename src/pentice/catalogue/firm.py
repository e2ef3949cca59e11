"""The firm that quotes: who it is, its rates and labour norms, its terms. Every number is the user's to change."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Annotated, Any

from pydantic import BeforeValidator, Field, SkipValidation, ValidationError, model_validator

from pentice.catalogue._base import Count, Entry, Money, money
from pentice.catalogue._paths import value_at
from pentice.errors import InputError, Problem
from pentice.faults import problems_of
from pentice.marks import Given, take_marks
from pentice.texts import file_text, toml_data

Hours = Annotated[float, Field(ge=0, le=200, strict=True)]
"""Person-hours for one unit of a task."""
PartOfOne = Annotated[Money, BeforeValidator(money), Field(ge=0, lt=1)]
"""A share as an exact decimal [-], below one: 0.2, not 20."""

LABOUR_TASKS: Mapping[str, tuple[str, str]] = {
    "survey": ("Survey and sketch", "job"),
    "quote_and_order": ("Quote and order", "job"),
    "wall_plate": ("Set out, fix wall plate", "m"),
    "post": ("Post", "each"),
    "post_base": ("Post base", "each"),
    "beam": ("Beam", "m"),
    "rafter": ("Rafter", "each"),
    "side_frame": ("Mullion, transom or sill", "each"),
    "bar": ("Glazing bar", "each"),
    "sheet_cut": ("Cut, vacuum and tape a sheet", "each"),
    "sheet_fix": ("Lift a sheet, cap and button", "each"),
    "foot": ("Foot profile and end caps", "bay"),
    "head_flashing": ("Head flashing", "m"),
    "gutter": ("Gutter", "m"),
    "downpipe": ("Downpipe", "each"),
    "clean_up": ("Clean, take off film, hand over", "job"),
    "set_up": ("Load, travel, set up", "person-day"),
}
"""By key of [labour]: the task in words and the unit of its norm, in the order of the work."""


class Labour(Entry):
    """Person-hours for one unit of each task, as LABOUR_TASKS names them."""

    survey: Hours
    quote_and_order: Hours
    wall_plate: Hours
    post: Hours
    post_base: Hours
    beam: Hours
    rafter: Hours
    side_frame: Hours = 0.5
    """0.5 for firms whose file is older than mullions: common practice, no source."""
    bar: Hours
    sheet_cut: Hours
    sheet_fix: Hours
    foot: Hours
    head_flashing: Hours
    gutter: Hours
    downpipe: Hours
    clean_up: Hours
    set_up: Hours


class Extras(Entry):
    """Costs that are neither material nor labour."""

    travel_per_day: Money = money(0)
    access_hire: Money = money(0)
    """Tower, staging, for the whole job."""
    skip: Money = money(0)
    permits: Money = money(0)
    structural_check: Money = money(0)


class Firm(Entry):
    """Who quotes, at which rates, on which terms."""

    name: str = Field(min_length=1)
    address: tuple[str, ...] = ()
    """One text for each line."""
    telephone: str = ""
    email: str = ""
    numbers: Mapping[str, str] = {}
    """Registration and tax numbers, by their name."""
    currency: str = Field(min_length=1)
    rate_per_h: Money
    """What an hour of one person costs the firm."""
    overhead_per_h: Money
    """Overhead carried by an hour."""
    labour: Labour
    people: Annotated[int, Field(ge=1, le=20, strict=True)] = 2
    """People on site."""
    hours_per_day: Annotated[float, Field(gt=0, le=16, strict=True)] = 8.0
    extras: Extras = Extras()
    waste_share: PartOfOne = money(0)
    """Added to materials for waste [-]."""
    contingency_share: PartOfOne = money(0)
    """Added to cost for what a survey cannot see [-]."""
    discount: PartOfOne = money(0)
    """Off the list prices of materials [-]."""
    delivery: Money = money(0)
    """For one order."""
    minimum_order: Money = money(0)
    """Least value of one order after discount."""
    margin: PartOfOne
    """Profit as a share of the net price [-]; a markup is another number."""
    tax_rate: PartOfOne
    stages: tuple[tuple[str, PartOfOne], ...] = Field(min_length=1)
    """When what share of the gross price falls due; together one."""
    valid_days: Count = 30
    lead_days: Count = 0
    """Working days from order to delivery."""
    workmanship_years: Count = 0
    terms: tuple[str, ...] = ()
    """Sentences that stand on the quote."""
    exclusions: tuple[str, ...] = ()
    """What the price does not hold."""
    marks: SkipValidation[Mapping[str, Given[Any]]] = Field(default_factory=dict)

    @model_validator(mode="after")
    def _whole(self) -> Firm:
        total = sum((share for _, share in self.stages), money(0))
        if total != 1:
            raise ValueError(f"expected shares of stages that add up to 1, found {total}")
        return self


def read_firm(path: str | Path | None = None) -> Firm:
    """The firm of a file, or the demo firm that is shipped.

    Parameters
    ----------
    path
        The firm's TOML file; None for the demo firm.

    Returns
    -------
    Firm
        Rates [currency], norms [h], shares [-], with the marks of its values by key path.

    Raises
    ------
    InputError
        Every problem found, one sentence each.
    StoreError
        The file cannot be read.

    Examples
    --------
    >>> read_firm().labour.rafter
    0.5
    """
    if path is None:
        return _shipped()
    return firm_from_text(file_text(path), file=str(path))


@cache
def _shipped() -> Firm:
    data = resources.files("pentice.catalogue").joinpath("data/firm.toml")
    return firm_from_text(data.read_text(encoding="utf-8"), file="the shipped firm")


def shipped_firm_text() -> str:
    """The demo firm's file as it is shipped, for a user to copy and fill in."""
    return resources.files("pentice.catalogue").joinpath("data/firm.toml").read_text(encoding="utf-8")


def firm_from_text(text: str, *, file: str = "") -> Firm:
    """A firm from the text of its file.

    Parameters
    ----------
    text
        TOML.
    file
        Name of the file, for the sentences.

    Returns
    -------
    Firm
        Plain values, with their marks beside them.

    Raises
    ------
    InputError
        Every problem found, one sentence each.

    Examples
    --------
    >>> text = shipped_firm_text().replace("margin = 0.20", "margin = 20")
    >>> firm_from_text(text)
    Traceback (most recent call last):
    pentice.errors.InputError: margin is 20; expected less than 1.
    """
    raw = toml_data(text, file=file)
    taken = take_marks({key: value for key, value in raw.items() if key != "format"}, file=file)
    problems = list(taken.problems)
    if "marks" in raw:
        problems.append(Problem("marks", "marks is not a known key; write a mark beside its value.", file))
    try:
        firm = Firm.model_validate(taken.plain)
    except ValidationError as fault:
        known = {p.place for p in problems}
        problems += [_whole(p, fault) for p in problems_of(fault, Firm, file=file) if p.place not in known]
        raise InputError(problems) from fault
    if problems:
        raise InputError(problems)
    marks = {path: replace(given, value=value_at(firm, path)) for path, given in sorted(taken.marks.items())}
    return firm.model_copy(update={"marks": marks})


def _whole(problem: Problem, fault: ValidationError) -> Problem:
    """A fault of the file as a whole names the stages, not the whole file."""
    if problem.place:
        return problem
    said = re.sub(r"^Value error, ", "", str(fault.errors()[0]["msg"]))
    return Problem("stages", f"stages do not add up; {said}.", problem.file)
