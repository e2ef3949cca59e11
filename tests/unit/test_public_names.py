"""The public names are what can really be imported."""

from __future__ import annotations

from pathlib import Path

import pytest

import pentice


@pytest.mark.parametrize("name", pentice.__all__)
def test_a_public_name_can_be_imported(name: str) -> None:
    """Each is there and can be called."""
    assert callable(getattr(pentice, name))


def test_an_unknown_name_is_refused() -> None:
    """As for any module."""
    with pytest.raises(AttributeError, match="no attribute 'nothing'"):
        _ = pentice.nothing


def test_the_four_lines_of_the_docstring_make_a_pack(tmp_path: Path) -> None:
    """Read, complete, solve, write."""
    job = pentice.read_job("examples/uneven-veranda.toml")
    catalogue = pentice.read_catalogue()
    design = pentice.solve(pentice.complete(job, catalogue), catalogue)
    pentice.write_pack(design, tmp_path / "pack")
    assert (tmp_path / "pack" / "design.json").is_file()
