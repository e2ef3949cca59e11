"""The project's own promises: pinned lists, the layers, documented functions, a changelog, scripts that work alone."""

from __future__ import annotations

import ast
import os
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path
from typing import Any

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from tests.docstrings import PublicFunction, missing_from, public_functions, undocumented_modules
from tests.processes import ROOT

PACKAGE = ROOT / "src" / "pentice"
LOCKS = ("run.txt", "test.txt", "oracle.txt", "oracle-alone.txt", "lock.txt")
PUBLIC = tuple(public_functions(PACKAGE))


def project() -> dict[str, Any]:
    """The project file."""
    return tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def pinned(lock: str) -> dict[str, set[str]]:
    """Name to versions pinned in a lock; more than one where the version depends on the Python."""
    text = (ROOT / "requirements" / lock).read_text(encoding="utf-8")
    found: dict[str, set[str]] = {}
    for name, version in re.findall(r"^([A-Za-z0-9._-]+)==([^\s;\\]+)", text, flags=re.MULTILINE):
        found.setdefault(canonicalize_name(name), set()).add(version)
    return found


@pytest.mark.parametrize("lock", LOCKS)
def test_a_lock_holds_no_address(lock: str) -> None:
    """Where packages come from is the user's choice, so a lock names none."""
    text = (ROOT / "requirements" / lock).read_text(encoding="utf-8")
    assert "://" not in text
    assert not re.search(r"index-url|find-links|trusted-host", text)


@pytest.mark.parametrize("lock", LOCKS)
def test_every_line_of_a_lock_is_pinned_by_hash(lock: str) -> None:
    """Each package has one version and at least one hash, else pip could take another file."""
    text = (ROOT / "requirements" / lock).read_text(encoding="utf-8").replace("\\\n", " ")
    lines = [
        line for line in text.splitlines() if line and not line.lstrip().startswith(("#", "--only-binary"))
    ]
    assert lines
    unpinned = [line for line in lines if not re.match(r"\S+==\S+.*--hash=sha256:[0-9a-f]{64}", line)]
    assert unpinned == []


@pytest.mark.parametrize(("lock", "extra"), [("run.txt", ""), ("test.txt", "test"), ("oracle.txt", "oracle")])
def test_a_lock_is_as_new_as_the_project_file(lock: str, extra: str) -> None:
    """A dependency that was added or narrowed but not locked would be missing on a fresh machine: scripts/lock."""
    wanted = project()["project"]["dependencies"] + project()["build-system"]["requires"]
    if extra:
        wanted = wanted + project()["project"]["optional-dependencies"][extra]
    locked = pinned(lock)
    stale = [
        text
        for text in wanted
        if not (versions := locked.get(canonicalize_name((need := Requirement(text)).name)))
        or not all(need.specifier.contains(version) for version in versions)
    ]
    assert stale == []


def test_who_can_test_can_also_run() -> None:
    """Each longer lock holds every pin of the shorter ones, so all can share one .venv."""
    test, oracle = pinned("test.txt"), pinned("oracle.txt")
    assert {name: test.get(name) for name in pinned("run.txt")} == pinned("run.txt")
    assert {name: oracle.get(name) for name in test} == test


def lint_imports(folder: Path) -> subprocess.CompletedProcess[str]:
    """Run the architecture contract over a folder that holds a package and a project file."""
    return subprocess.run(
        [
            sys.executable,
            "-c",
            "import sys; from importlinter.cli import lint_imports_command as c; sys.exit(c())",
        ],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(folder)},
        capture_output=True,
        text=True,
        check=False,
    )


@pytest.mark.parametrize(
    ("module", "line"),
    [
        ("standards/planted.py", "import pentice.job"),
        ("cutting/planted.py", "import pentice.job"),
        ("drawing/planted.py", "import pentice.loads"),
        ("loads/planted.py", "import pentice.setting_out"),
        ("checks/planted.py", "import pathlib"),
        ("errors.py", "import pentice.job"),
        ("utils.py", ""),
    ],
)
def test_the_architecture_contract_catches_a_planted_breach(tmp_path: Path, module: str, line: str) -> None:
    """A contract that cannot fail guards nothing: each kind of breach, planted in a copy, is found and named."""
    shutil.copytree(PACKAGE, tmp_path / "pentice", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    with (tmp_path / "pentice" / module).open("a", encoding="utf-8") as file:
        file.write(f"\n{line}\n")
    result = lint_imports(tmp_path)
    assert result.returncode == 1, result.stdout + result.stderr
    assert module.removesuffix(".py").replace("/", ".") in result.stdout


def test_every_module_says_what_it_is_for() -> None:
    """Each module begins with a docstring."""
    assert undocumented_modules(PACKAGE) == []


def test_public_functions_are_found() -> None:
    """The walk below would pass over nothing at all if the folder moved."""
    assert len(PUBLIC) > 20


@pytest.mark.parametrize("function", PUBLIC, ids=lambda function: function.name)
def test_a_public_function_is_documented(function: PublicFunction) -> None:
    """A docstring; in the engine its result, its parameters and, where a number is claimed, its source."""
    assert missing_from(function) == []


@pytest.mark.parametrize(
    ("stage", "docstring", "missing"),
    [
        ("pack", "", ["a docstring"]),
        ("pack", "One sentence.", []),
        ("checks", "One sentence.", ["a Source section"]),
        ("checks", "One sentence.\n\nSource: common practice, no source.", []),
        ("cutting", "One.\n\nTwo.", ["a Returns section"]),
        (
            "cutting",
            "One.\n\nParameters\n----------\nspan_mm\n    [mm]\n\nReturns\n-------\nfloat",
            ["the parameter load"],
        ),
    ],
)
def test_the_docstring_check_finds_what_is_missing(stage: str, docstring: str, missing: list[str]) -> None:
    """The check is tried on functions with something left out, so that it is known to be able to fail."""
    node = ast.parse(f"def f(span_mm: float, load: float) -> float:\n    {docstring!r}").body[0]
    assert isinstance(node, ast.FunctionDef)
    assert missing_from(PublicFunction(name="f", stage=stage, node=node)) == missing


def test_the_changelog_says_first_whether_results_change() -> None:
    """Each release opens with 'Results change': roofs may stand that were built to the old numbers."""
    text = (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")
    releases = re.split(r"^## .*$", text, flags=re.MULTILINE)[1:]
    assert releases
    assert all(re.match(r"\s*### Results change\n\n- ", release) for release in releases)


def test_make_test_and_the_build_machine_call_the_same_script() -> None:
    """What passes here is what passes there."""
    makefile = (ROOT / "Makefile").read_text(encoding="utf-8")
    assert re.search(r"^test:\n\t@sh scripts/check$", makefile, flags=re.MULTILINE)
    assert (ROOT / ".ci" / "run").read_text(encoding="utf-8").rstrip().endswith("exec sh scripts/check")


@pytest.mark.parametrize("script", ["lib.sh", "setup", "run", "check", "oracles", "lock"])
def test_a_script_is_valid_for_a_plain_shell(script: str) -> None:
    """sh reads each script without a syntax error; nothing more than a plain shell is asked for."""
    shell = shutil.which("sh")
    if shell is None:
        pytest.skip("No sh on this machine; docs/windows.md tells how to do without the scripts.")
    result = subprocess.run(
        [shell, "-n", ROOT / "scripts" / script], capture_output=True, text=True, check=False
    )
    assert result.returncode == 0, result.stderr


def test_a_python_that_is_too_old_is_refused_in_a_sentence(tmp_path: Path) -> None:
    """The stand-in answers like an old Python; the script names what is needed and makes no .venv."""
    shell = shutil.which("sh")
    if shell is None:
        pytest.skip("No sh on this machine; docs/windows.md tells how to do without the scripts.")
    for folder in ("scripts", "requirements"):
        shutil.copytree(ROOT / folder, tmp_path / folder)
    old = tmp_path / "old-python"
    old.write_text("#!/bin/sh\nexit 1\n", encoding="utf-8")
    old.chmod(0o755)
    result = subprocess.run(
        [shell, "scripts/setup"],
        cwd=tmp_path,
        env={**os.environ, "PYTHON": str(old)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert result.returncode == 1
    assert "that is no Python 3.11 or newer" in result.stderr
    assert not (tmp_path / ".venv").exists()


def test_starting_up_loads_neither_numbers_nor_the_search() -> None:
    """What only long work needs is imported when it is asked for, so that a command answers soon."""
    asks = "import sys, pentice.pipeline; print(*({'numpy', 'highspy', 'pentice.cutting.packing'} & set(sys.modules)))"
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "src")}
    found = subprocess.run(
        [sys.executable, "-c", asks], env=environment, capture_output=True, check=True, text=True
    )
    assert found.stdout.strip() == ""
