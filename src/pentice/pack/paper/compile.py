"""Typst in, PDF bytes out: tagged for readers that speak, one type family, no clock, no system fonts.

Everything typst reads is handed over in memory: the templates of this folder, the data and the pictures.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from importlib import resources
from typing import Any

from pentice.errors import PenticeError

DOCUMENT = "document"
"""The template that makes a document from sections and blocks."""

_TEMPLATES = ("paper.typ", "document.typ")


def make_pdf(
    template: str, data: Mapping[str, Any], images: Mapping[str, bytes | str] | None = None
) -> bytes:
    """The PDF of a document.

    Parameters
    ----------
    template
        ``DOCUMENT``, or the text of a typst file of your own that imports "paper.typ" and reads "data.json".
    data
        Everything that is to be read on the paper; see `pentice.pack.paper`.
    images
        Pictures by the name that the data uses, with its ending: SVG text, or PNG bytes.

    Returns
    -------
    bytes
        PDF/UA-1; the same for the same input.

    Raises
    ------
    PenticeError
        Typst refused: a mistake in the program, with typst's own message.

    Examples
    --------
    >>> from pentice.pack.paper import meta
    >>> about = meta("Note", job="Demo", number="P-1", revision="A", issued=(2027, 3, 9), firm="Your firm")
    >>> make_pdf(DOCUMENT, {"meta": about, "sections": [{"title": "Note", "blocks": []}]})[:5]
    b'%PDF-'
    """
    import font_source_sans_pro
    import typst

    files = {name: _template(name) for name in _TEMPLATES}
    files["main"] = files["document.typ"] if template == DOCUMENT else template.encode()
    files["data.json"] = json.dumps(data, ensure_ascii=False, sort_keys=True).encode()
    files |= {name: _bytes(picture) for name, picture in (images or {}).items()}
    try:
        made = typst.compile(
            files,
            format="pdf",
            ignore_system_fonts=True,
            font_paths=[font_source_sans_pro.font_directory],
            pdf_standards=["ua-1"],
        )
    except (typst.TypstError, RuntimeError, ValueError) as fault:
        raise PenticeError(
            f"A paper could not be made, which is a mistake in Pentice. {_said(fault)}"
        ) from fault
    return bytes(made)


def _template(name: str) -> bytes:
    return (resources.files("pentice.pack.paper") / name).read_bytes()


def _bytes(picture: bytes | str) -> bytes:
    return picture.encode() if isinstance(picture, str) else picture


def _said(fault: BaseException) -> str:
    """Typst's message, its hints and where it happened, in one line."""
    parts = [str(fault), *getattr(fault, "hints", ()), *getattr(fault, "trace", ())]
    return " ".join(" ".join(str(part) for part in parts).split())
