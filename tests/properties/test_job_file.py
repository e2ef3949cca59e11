"""Any job file is either read or refused in sentences, and what is read writes back as the same job."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest
from hypothesis import assume, event, example, given
from hypothesis import strategies as st

from pentice.errors import InputError, PenticeError
from pentice.job.model import Job
from pentice.job.paths import parts_of
from pentice.job.reading import job_from_data, job_from_text
from pentice.job.toml_text import toml_of
from pentice.job.writing import job_toml, set_keys, with_keys
from tests.properties.job_files import JOB_FILES, TEXT, small_files


def read(raw: dict[str, Any]) -> Job:
    """The job, or the example is dropped where the reader refuses it."""
    try:
        job = job_from_data(raw)
    except InputError:
        event("refused")
        assume(False)
        raise
    event("read")
    return job


@given(st.one_of(JOB_FILES, small_files()))
def test_a_job_file_is_read_or_refused_in_sentences(raw: dict[str, Any]) -> None:
    """Every refusal is an InputError whose problems each end as a sentence ends."""
    try:
        job = job_from_data(raw)
    except InputError as fault:
        assert fault.problems
        assert all(str(problem).rstrip().endswith((".", "?")) for problem in fault.problems)
    else:
        assert isinstance(job, Job)


@given(small_files())
def test_a_written_job_reads_back_with_its_marks(raw: dict[str, Any]) -> None:
    """Equality is exact: jobs compare by every value, and marks one by one."""
    job = read(raw)
    again = job_from_text(job_toml(job))
    assert again == job
    assert dict(again.marks) == dict(job.marks)


@given(small_files())
def test_a_job_without_changes_is_the_same_job(raw: dict[str, Any]) -> None:
    """with_keys walks through the raw data and back and loses nothing."""
    job = read(raw)
    assert with_keys(job, {}) == job


TOML_VALUES = st.recursive(
    st.one_of(
        st.booleans(),
        st.integers(-(2**60), 2**60),
        st.floats(allow_nan=False),
        TEXT,
        st.dates(),
        st.times(),
        st.datetimes(),
    ),
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(TEXT, inner, max_size=3)),
    max_leaves=8,
)


@given(st.dictionaries(TEXT, TOML_VALUES, max_size=4))
def test_any_table_reads_back_from_its_text(data: dict[str, Any]) -> None:
    """The standard library's own reader is the judge."""
    assert tomllib.loads(toml_of(data)) == data


@given(st.text(alphabet='[]{}="\n.#ab1,-: ', max_size=60))
def test_any_text_is_read_or_refused(text: str) -> None:
    """Whatever is typed, no other error comes out than the program's own."""
    try:
        job_from_text(text, file="x.toml")
    except InputError as fault:
        assert all(problem.file == "x.toml" for problem in fault.problems)


@given(st.text(max_size=30))
def test_any_key_path_is_taken_apart_or_refused(path: str) -> None:
    """A path either has steps or is refused; it never comes out empty."""
    try:
        assert parts_of(path)
    except PenticeError as fault:
        assert isinstance(fault, InputError)


CHANGES = st.dictionaries(
    st.sampled_from(
        [
            "roof.width_mm",
            "glazing.sheet",
            "frame.bay_count",
            "measured.between_stems_mm[2].head",
            "site.wind.x",
            "name",
        ]
    ),
    st.one_of(st.integers(1, 9), TEXT, st.just({"value": 5, "mark": "chosen", "note": "why"})),
    min_size=1,
    max_size=3,
)


@example(  # a list that carries a mark, and one of its readings set
    {"measured": {"between_stems_mm": {"value": [], "mark": "given"}}},
    {"measured.between_stems_mm[2].head": {"value": 5, "mark": "chosen", "note": "why"}},
)
@given(small_files(), CHANGES)
def test_keys_set_in_a_text_leave_its_comments_and_other_values(
    raw: dict[str, Any], changes: dict[str, Any]
) -> None:
    """The text with the new values holds what it held, the new values, and every comment."""
    text = "# the first line\n" + toml_of(raw) + "\n# the last line\n"
    try:
        changed = set_keys(text, changes)
    except InputError:
        event("refused")
        return
    assert changed.startswith("# the first line\n")
    assert "# the last line" in changed
    found: Any = tomllib.loads(changed)
    for path, value in changes.items():
        here = found
        for part in parts_of(path):
            here = here["value"] if isinstance(here, dict) and "mark" in here and "value" in here else here
            here = here[part]
        assert here == value


def test_a_place_that_no_job_has_is_refused() -> None:
    """The sentence names the path."""
    with pytest.raises(InputError, match=r'frame\.bay_cout is not a known key; did you mean "bay_count"'):
        with_keys(Job(), {"frame.bay_cout": 5})
