"""Makes each function of the engine 3 % wrong in turn, and asks whether a published or worked test notices.

    python -m tests.felt          prints what is not noticed, as JSON

The tests are collected once by pytest. A first round records which test calls which function; then, for each function,
only its own tests are called again until one of them fails. A function is made wrong by swapping its code, so that it
is wrong wherever it was imported to.
"""

from __future__ import annotations

import dataclasses
import functools
import importlib
import inspect
import json
import pkgutil
import sys
import time
import types
from collections.abc import Callable, Iterable, Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import Any

import pytest

FACTOR = 1.03
PACKAGES = ("pentice.standards", "pentice.mechanics")
FOLDERS = ("tests/published", "tests/worked")
# A function whose result is one of these gives no number, so no test here has to call it.
NO_NUMBER = frozenset({"str", "bool", "None", "tuple[str, ...]", "Duration"})
ROOT = Path(__file__).resolve().parent.parent

Case = tuple[str, Callable[[], object]]


def scaled(value: Any, factor: float = FACTOR) -> Any:
    """The value with every number in it times the factor; truths, texts and nothing stay as they are."""
    if isinstance(value, bool | str | bytes | type(None) | type):
        return value
    if isinstance(value, int | float):
        return value * factor
    if type(value).__module__ == "numpy":
        return value * factor
    if isinstance(value, dict):
        return {key: scaled(item, factor) for key, item in value.items()}
    if isinstance(value, tuple | list):
        items = [scaled(item, factor) for item in value]
        return type(value)(*items) if hasattr(value, "_fields") else type(value)(items)
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        fields = [field.name for field in dataclasses.fields(value) if field.init]
        changed = {name: scaled(getattr(value, name), factor) for name in fields}
        return type(value)(**changed)
    return value


def has_number(value: Any) -> bool:
    """Whether there is a number in the value that can be made wrong."""
    if isinstance(value, bool | str | bytes | type(None) | type):
        return False
    if isinstance(value, int | float) or type(value).__module__ == "numpy":
        return True
    if isinstance(value, dict):
        return any(has_number(item) for item in value.values())
    if isinstance(value, tuple | list):
        return any(has_number(item) for item in value)
    if dataclasses.is_dataclass(value):
        return any(has_number(getattr(value, field.name)) for field in dataclasses.fields(value))
    return False


def public_functions(packages: tuple[str, ...] = PACKAGES) -> dict[str, types.FunctionType]:
    """Every public function of the packages, by its full name; behind a cache, the function that is cached."""
    found: dict[str, types.FunctionType] = {}
    for package in packages:
        paths = importlib.import_module(package).__path__
        for module_info in pkgutil.walk_packages(paths, package + "."):
            if any(part.startswith("_") for part in module_info.name.split(".")):
                continue
            module = importlib.import_module(module_info.name)
            for name, value in vars(module).items():
                function = inspect.unwrap(value) if callable(value) else None
                own = isinstance(function, types.FunctionType) and function.__module__ == module.__name__
                if own and not name.startswith("_"):
                    assert isinstance(function, types.FunctionType)
                    found[f"{module.__name__}.{name}"] = function
    return found


@contextmanager
def swapped(function: types.FunctionType, through: Callable[[Any], Any]) -> Iterator[None]:
    """While it lasts, the function hands its result through another one, wherever it is called from."""
    kept = (function.__code__, function.__defaults__, function.__kwdefaults__)
    original = types.FunctionType(
        function.__code__,
        function.__globals__,
        function.__name__,
        function.__defaults__,
        function.__closure__,
    )
    original.__kwdefaults__ = function.__kwdefaults__
    key = f"__felt_{function.__name__}__"
    function.__globals__[key] = lambda *args, **named: through(original(*args, **named))
    stand_in: dict[str, Any] = {}
    exec(f"def stand_in(*args, **named):\n    return {key}(*args, **named)", stand_in)  # our own text
    function.__code__, function.__defaults__, function.__kwdefaults__ = (
        stand_in["stand_in"].__code__,
        None,
        None,
    )
    try:
        yield
    finally:
        function.__code__, function.__defaults__, function.__kwdefaults__ = kept
        function.__globals__.pop(key, None)


class _Collected:
    """What pytest collected, as functions that can be called by themselves."""

    def __init__(self) -> None:
        self.cases: list[Case] = []

    def pytest_collection_finish(self, session: pytest.Session) -> None:
        """Keep every test that asks for nothing but its own parameters."""
        for item in session.items:
            if isinstance(item, pytest.Function) and item.get_closest_marker("meta") is None:
                given = dict(item.callspec.params) if hasattr(item, "callspec") else {}
                if set(inspect.signature(item.obj).parameters) <= set(given):
                    self.cases.append((item.nodeid, functools.partial(item.obj, **given)))


def _cases() -> list[Case]:
    collected = _Collected()
    options = ["--collect-only", "-qq", "--no-summary", "-p", "no:cacheprovider"]
    pytest.main([*(str(ROOT / folder) for folder in FOLDERS), "--rootdir", str(ROOT), *options], [collected])
    return collected.cases


def _passes(call: Callable[[], object]) -> bool:
    # Catalogue and job stand below standards and mechanics (see pyproject.toml): nothing wrong can be kept in them.
    kept = ("pentice.catalogue", "pentice.job")
    for module in [m for n, m in sys.modules.items() if n.startswith("pentice") and not n.startswith(kept)]:
        for value in vars(module).values():
            if isinstance(value, functools._lru_cache_wrapper):
                value.cache_clear()
    try:
        call()
    except KeyboardInterrupt:
        raise
    except BaseException:  # a failed test may raise anything, and all of it means: noticed
        return False
    return True


def _callers(
    functions: dict[str, types.FunctionType], cases: list[Case]
) -> tuple[dict[str, list[Case]], set[str]]:
    """For each function the tests that call it, quickest first, and the functions that gave a number."""
    called: set[str] = set()
    numeric: set[str] = set()

    def recorder(name: str) -> Callable[[Any], Any]:
        def record(value: Any) -> Any:
            called.add(name)
            if name not in numeric and has_number(value):
                numeric.add(name)
            return value

        return record

    timed: dict[str, list[tuple[float, Case]]] = {name: [] for name in functions}
    with _all_swapped(functions, recorder):
        for case in cases:
            called.clear()
            start = time.perf_counter()
            if _passes(case[1]):
                for name in called:
                    timed[name].append((time.perf_counter() - start, case))
    quickest = {
        name: [case for _, case in sorted(rows, key=lambda row: row[0])] for name, rows in timed.items()
    }
    return quickest, numeric


@contextmanager
def _all_swapped(
    functions: dict[str, types.FunctionType], through: Callable[[str], Callable[[Any], Any]]
) -> Iterator[None]:
    with ExitStack() as stack:
        for name, function in functions.items():
            stack.enter_context(swapped(function, through(name)))
        yield


def _may_give_a_number(function: types.FunctionType) -> bool:
    return str(function.__annotations__.get("return")) not in NO_NUMBER


def _by_module(cases: list[Case]) -> dict[str, list[Case]]:
    modules: dict[str, list[Case]] = {}
    for case in cases:
        modules.setdefault(case[0].partition("::")[0], []).append(case)
    return modules


def _next(modules: dict[str, list[Case]], left: Iterable[str]) -> str:
    """Which module to ask next: one that solves no whole job, which is quick; then one that names what is left."""
    names = {name.rpartition(".")[2] for name in left}

    def order(path: str) -> tuple[bool, int, str]:
        text = (ROOT / path).read_text(encoding="utf-8")
        return "tests.designs" in text, -sum(name in text for name in names), path

    return min(modules, key=order)


def report() -> dict[str, list[str]]:
    """Functions that no test calls, functions whose error no test notices, functions that give no number.

    Module by module, until every error was noticed: the later ones are asked only of what is left.
    """
    functions, cases = public_functions(), _cases()
    left, called, numeric = dict(functions), set[str](), set[str]()
    modules = _by_module(cases)
    while modules:
        asked = [name for name, function in left.items() if _may_give_a_number(function)]
        if not asked:
            break
        callers, gave = _callers(left, modules.pop(_next(modules, asked)))
        numeric |= gave
        called |= {name for name, of in callers.items() if of}
        for name in sorted(gave):
            with swapped(functions[name], scaled):
                if not all(_passes(call) for _, call in callers[name]):
                    del left[name]
    return {
        "cases": [str(len(cases))],
        "not called": sorted(n for n in left.keys() - called if _may_give_a_number(left[n])),
        "not noticed": sorted(left.keys() & numeric),
        "no number": sorted((left.keys() & called) - numeric),
    }


if __name__ == "__main__":
    answer = json.dumps(report(), indent=2)
    if len(sys.argv) > 1:
        Path(sys.argv[1]).write_text(answer, encoding="utf-8")
    else:
        sys.stdout.write(answer + "\n")
