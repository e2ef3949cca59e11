"""A new job file explains every key of the model and reads as it stands."""

from __future__ import annotations

import re
from typing import Any

import pytest
from pydantic import BaseModel

from pentice.errors import InputError
from pentice.job.model import Job, Opening
from pentice.job.reading import job_from_text
from pentice.job.template import NEEDED, example_names, example_text, new_job_text


def models(model: type[BaseModel]) -> dict[str, type[BaseModel]]:
    """The model and every table within it, by name."""
    found = {model.__name__: model}
    for field in model.model_fields.values():
        for inner in tables_in(field.annotation):
            found |= models(inner)
    return found


def tables_in(annotation: Any) -> list[type[BaseModel]]:
    """Tables named in a type."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [found for part in getattr(annotation, "__args__", ()) for found in tables_in(part)]


TEXT = new_job_text()


def test_a_new_file_reads_as_a_job_without_anything() -> None:
    """Every key waits behind a #, so nothing is claimed."""
    assert job_from_text(TEXT) == Job()


@pytest.mark.parametrize("model", models(Job).values(), ids=models(Job))
def test_every_key_stands_in_a_new_file_with_its_words(model: type[BaseModel]) -> None:
    """Key and explanation come from the model, so a key added there cannot be missing here."""
    flat = re.sub(r"\n## ", " ", TEXT)
    for name, field in model.model_fields.items():
        if not tables_in(field.annotation) and name != "format":
            assert re.search(rf"^# {name} = ", TEXT, flags=re.MULTILINE), name
            assert field.description is not None
            assert field.description in flat, name


def test_needed_keys_are_keys_of_the_model_and_come_first() -> None:
    """The first key below [roof] is one of the needed ones; each can be set by its path."""
    for path in NEEDED:
        place, _, key = path.rpartition(".")
        model = models(Job)[place.capitalize() or "Job"]
        assert key in model.model_fields
    after = TEXT.split("\n[roof]\n")[1]
    assert re.findall(r"^# (\w+) = ", after, flags=re.MULTILINE)[:3] == ["use", "width_mm", "projection_mm"]


def test_a_key_taken_from_behind_its_mark_counts() -> None:
    """What a user does: take the # away and type a value."""
    text = TEXT.replace("# width_mm =    # (needed)", "width_mm = 4800", 1)
    assert job_from_text(text).roof.width_mm == 4800.0


def test_an_unknown_example_is_refused() -> None:
    """The sentence names what there is."""
    with pytest.raises(InputError, match='The example is "no such roof"; there is'):
        new_job_text("no such roof")


@pytest.mark.parametrize("name", example_names())
def test_an_example_reads(name: str) -> None:
    """Examples that come with the program are jobs, with or without .toml behind the name."""
    assert job_from_text(example_text(f"{name}.toml")) == job_from_text(new_job_text(name))


def test_an_opening_of_the_template_has_every_needed_key() -> None:
    """A required key of a list is marked as needed."""
    part = TEXT.split("# [[roof.openings]]")[1].split("[site]")[0]
    needed = [name for name, field in Opening.model_fields.items() if field.is_required()]
    assert re.findall(r"^# (\w+) = .*\(needed\)$", part, flags=re.MULTILINE) == needed
