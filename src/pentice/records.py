"""Frozen values that are made by the thousand: the same dataclass, quicker to make."""

from __future__ import annotations

from dataclasses import MISSING, fields
from typing import Any, TypeVar

Kind = TypeVar("Kind", bound=type[Any])


def quickly_made(kind: Kind) -> Kind:
    """A frozen, slotted, keyword-only dataclass whose values are made in half the time.

    A frozen dataclass sets each field past its own refusal to be changed, by one call for each. Here a value is open
    while it is made, of a class with the same slots that refuses nothing, and closed into its own class when it has all
    its fields. Equality, hash, `replace`, pickling and the refusal stay as they were.

    Parameters
    ----------
    kind
        Derived from nothing, its fields with plain defaults or none.

    Returns
    -------
    type
        The same class.

    Examples
    --------
    >>> from dataclasses import dataclass
    >>> @quickly_made
    ... @dataclass(frozen=True, slots=True, kw_only=True)
    ... class Size:
    ...     width_mm: float
    ...     depth_mm: float = 100.0
    >>> Size(width_mm=50.0)
    Size(width_mm=50.0, depth_mm=100.0)
    """
    given = fields(kind)
    assert kind.__bases__ == (object,) and not hasattr(kind, "__post_init__"), kind
    assert all(f.init and f.kw_only and f.default_factory is MISSING for f in given), kind
    opened = type(kind.__name__, (), {"__slots__": kind.__slots__})
    names: dict[str, Any] = {"_opened": opened, "_set": object.__setattr__}
    names |= {f"_default_{f.name}": f.default for f in given if f.default is not MISSING}
    wanted = (f.name if f.default is MISSING else f"{f.name}=_default_{f.name}" for f in given)
    lines = [
        f"def __init__(self, *, {', '.join(wanted)}):",
        "_closed = self.__class__",
        "_set(self, '__class__', _opened)",
        *(f"self.{f.name} = {f.name}" for f in given),
        "self.__class__ = _closed",
    ]
    exec("\n    ".join(lines), names)  # as `dataclass` itself does: from the names of the fields alone
    made = names["__init__"]
    made.__qualname__, made.__annotations__ = kind.__init__.__qualname__, kind.__init__.__annotations__
    kind.__init__ = made
    return kind
