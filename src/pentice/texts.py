"""Reads a text file from disk, and TOML from its text; what is wrong is said in one sentence with the file's name."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from pentice.errors import InputError, Problem, StoreError


def file_text(path: str | Path) -> str:
    """The text of a file.

    Parameters
    ----------
    path
        The file, in UTF-8.

    Returns
    -------
    str
        What it holds.

    Raises
    ------
    StoreError
        The file cannot be read.
    InputError
        It is not UTF-8 text.

    Examples
    --------
    >>> file_text("no/such/file.toml")
    Traceback (most recent call last):
    pentice.errors.StoreError: no/such/file.toml: cannot be read (No such file or directory). Is the path right?
    """
    file = Path(path)
    try:
        return file.read_text(encoding="utf-8")
    except OSError as fault:
        raise StoreError(f"{file}: cannot be read ({fault.strerror or fault}). Is the path right?") from fault
    except UnicodeDecodeError as fault:
        raise InputError(f"{file}: is not UTF-8 text. Save it as UTF-8.") from fault


def toml_data(text: str, *, file: str = "") -> dict[str, Any]:
    """The data of a TOML text.

    Parameters
    ----------
    text
        TOML.
    file
        Name of the file, for the sentence.

    Returns
    -------
    dict
        Its tables and values.

    Raises
    ------
    InputError
        The text is not TOML.

    Examples
    --------
    >>> toml_data("width_mm = 4310")
    {'width_mm': 4310}
    """
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        says = f"is not TOML: {fault}. Look at that line: text needs quotes, a list needs [ ]."
        raise InputError((Problem("", says, file),)) from fault
