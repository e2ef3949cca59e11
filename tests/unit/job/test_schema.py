"""The JSON Schema takes what the reader takes and refuses what it must."""

from __future__ import annotations

import tomllib
from datetime import date, datetime, time
from typing import Any

import jsonschema
import pytest
from hypothesis import assume, given

from pentice.errors import InputError
from pentice.job.reading import job_from_data
from pentice.job.schema import job_schema
from tests.properties.job_files import small_files

VALIDATOR = jsonschema.Draft202012Validator(job_schema())


def as_json(node: Any) -> Any:
    """TOML data as an editor hands it to a schema: dates as text."""
    if isinstance(node, dict):
        return {key: as_json(value) for key, value in node.items()}
    if isinstance(node, list):
        return [as_json(value) for value in node]
    return node.isoformat() if isinstance(node, date | time | datetime) else node


def test_the_schema_is_a_schema() -> None:
    """Against the published meta-schema."""
    jsonschema.Draft202012Validator.check_schema(job_schema())


@given(small_files())
def test_what_the_reader_takes_the_schema_takes(raw: dict[str, Any]) -> None:
    """Random jobs, marks and lengths as text included."""
    try:
        job_from_data(raw)
    except InputError:
        assume(False)
    assert list(VALIDATOR.iter_errors(as_json(raw))) == []


@pytest.mark.parametrize(
    "text",
    [
        "[roof]\nwitdh_mm = 5000",
        "[roof]\nwidth_mm = -5000",
        "[roof]\nwidth_mm = {value = 5000, mrak = 'measured'}",
        "[roof]\nwidth_mm = {value = -1, mark = 'measured'}",
        "[roof]\nwidth_mm = {mark = 'measured'}",
        "[roof]\nuse = 'shed'",
        "[frame]\nbay_count = 2.5",
        "[glazing]\ngap_residual_mm = [1]",
        "[dates]\nquoted_on = 20270302",
        "[[roof.openings]]\nkind = 'door'",
    ],
)
def test_what_the_reader_refuses_the_schema_refuses(text: str) -> None:
    """One slip of each kind: both refuse it."""
    raw = tomllib.loads(text)
    with pytest.raises(InputError, match=r"\."):
        job_from_data(raw)
    assert not VALIDATOR.is_valid(as_json(raw))


@pytest.mark.parametrize(
    ("value", "says"), [(1, "is 1; expected 40 or more"), ("3 m", "expected 2000 or less")]
)
def test_screws_a_millimetre_apart_are_a_slip_of_the_pen(value: object, says: str) -> None:
    """One screw to every millimetre once kept the checks busy for minutes. Exact: words."""
    with pytest.raises(InputError, match=rf"screws\.spacing_mm {says}" if value == 1 else says):
        job_from_data({"screws": {"spacing_mm": value}})
