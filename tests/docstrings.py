"""Reads the source files, without importing them, for public functions and what their docstrings leave out."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

# Here a number without its source is of no use to whoever stands under the roof.
SOURCE_COMPULSORY = frozenset({"standards", "mechanics", "loads", "checks"})
# Here every quantity that is returned is told.
RETURNS_COMPULSORY = SOURCE_COMPULSORY | {"setting_out", "cutting"}


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicFunction:
    """A function or method that others may call, and the stage whose folder it stands in."""

    name: str
    stage: str
    node: ast.FunctionDef

    @property
    def docstring(self) -> str:
        """The docstring, or nothing."""
        return ast.get_docstring(self.node) or ""


def public_functions(package: Path) -> Iterator[PublicFunction]:
    """Every module-level function below `package` whose name and whose module's names have no leading underscore."""
    for file in sorted(package.rglob("*.py")):
        parts = file.relative_to(package).with_suffix("").parts
        if any(part.startswith("_") and part != "__init__" for part in parts):
            continue
        for node in ast.parse(file.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                yield PublicFunction(name=".".join((*parts, node.name)), stage=parts[0], node=node)


def undocumented_modules(package: Path) -> list[str]:
    """Modules below `package` without a docstring; an empty file that only makes a folder a package owes none."""
    trees = {file: ast.parse(file.read_text(encoding="utf-8")) for file in sorted(package.rglob("*.py"))}
    return [
        file.relative_to(package).as_posix()
        for file, tree in trees.items()
        if tree.body and not ast.get_docstring(tree)
    ]


def missing_from(function: PublicFunction) -> list[str]:
    """What the docstring of a function owes its reader; empty when nothing is missing.

    A docstring of one sentence tells what is returned by itself. A longer one has sections, and then every parameter
    stands in them, and so does the result.
    """
    text = function.docstring
    if not text:
        return ["a docstring"]
    missing = []
    if function.stage in SOURCE_COMPULSORY and not _has_section(text, "Source"):
        missing.append("a Source section")
    if "\n" not in re.split(r"\n\nSource[:\n]", text)[0].strip():
        return missing
    owes_result = function.stage in RETURNS_COMPULSORY and _returns_something(function.node)
    if owes_result and not (_has_section(text, "Returns") or _has_section(text, "Yields")):
        missing.append("a Returns section")
    if _has_section(text, "Parameters"):
        missing += [f"the parameter {name}" for name in _parameters(function.node) if name not in text]
    return missing


def _has_section(text: str, name: str) -> bool:
    lines = [line.strip() for line in text.splitlines()]
    if name == "Source" and any(line.startswith("Source: ") for line in lines):
        return True
    return any(a == name and set(b) == {"-"} for a, b in pairwise(lines))


def _returns_something(node: ast.FunctionDef) -> bool:
    return not (isinstance(node.returns, ast.Constant) and node.returns.value is None)


def _parameters(node: ast.FunctionDef) -> list[str]:
    arguments = node.args
    return [a.arg for a in (*arguments.posonlyargs, *arguments.args, *arguments.kwonlyargs)]
