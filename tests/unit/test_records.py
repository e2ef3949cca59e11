"""Values that are quicker to make are the same values."""

from __future__ import annotations

import pickle
from dataclasses import FrozenInstanceError, dataclass, field, fields, replace

import pytest

from pentice.records import quickly_made


@dataclass(frozen=True, slots=True, kw_only=True)
class Plain:
    """As Python makes it."""

    width_mm: float
    depth_mm: float = 100.0
    name: str = "rafter"


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Quick:
    """The same, quickly made."""

    width_mm: float
    depth_mm: float = 100.0
    name: str = "rafter"


def test_it_has_the_fields_and_defaults_that_it_was_given() -> None:
    """One given, one of its defaults given, one left."""
    made, plain = Quick(width_mm=50.0, name="post"), Plain(width_mm=50.0, name="post")
    assert [getattr(made, f.name) for f in fields(made)] == [getattr(plain, f.name) for f in fields(plain)]
    assert repr(made) == repr(plain).replace("Plain", "Quick")
    assert type(made) is Quick


def test_it_cannot_be_changed() -> None:
    """Neither a field of it nor anything else, once it is made."""
    made = Quick(width_mm=50.0)
    for name in ("width_mm", "colour"):
        with pytest.raises((FrozenInstanceError, TypeError, AttributeError)):
            setattr(made, name, 60.0)
    with pytest.raises(FrozenInstanceError, match="cannot delete field"):
        del made.width_mm
    assert made == Quick(width_mm=50.0)


def test_equal_values_are_equal_and_stand_for_each_other() -> None:
    """In a set, after a change and back, and after a way through another process."""
    made = Quick(width_mm=50.0)
    assert made == Quick(width_mm=50.0, depth_mm=100.0) and made != Quick(width_mm=51.0)
    assert len({made, Quick(width_mm=50.0)}) == 1
    assert replace(made, width_mm=60.0) == Quick(width_mm=60.0)
    assert pickle.loads(pickle.dumps(made)) == made


def test_what_is_missing_unknown_or_not_named_is_refused() -> None:
    """As of any dataclass of keywords."""
    with pytest.raises(TypeError, match="missing 1 required keyword-only argument: 'width_mm'"):
        Quick()  # type: ignore[call-arg]  # that is the question
    with pytest.raises(TypeError, match="unexpected keyword argument 'colour'"):
        Quick(width_mm=50.0, colour="red")  # type: ignore[call-arg]  # that is the question
    with pytest.raises(TypeError, match="takes 1 positional argument"):
        Quick(50.0)  # type: ignore[call-arg]  # that is the question


def test_a_class_that_makes_more_of_itself_is_not_taken() -> None:
    """A list of its own for each value would be shared by all of them."""
    with pytest.raises(AssertionError, match="Many"):

        @quickly_made
        @dataclass(frozen=True, slots=True, kw_only=True)
        class Many:
            """Has a list of its own."""

            names: list[str] = field(default_factory=list)
