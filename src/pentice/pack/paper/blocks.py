"""The blocks of a paper as plain data: each function gives what `make_pdf` sets. Sizes h: height of a capital.

Words in *stars* are bold, words in ~tildes~ get the dashed underline of a typical value. In formulas letters become
symbols, a_b a subscript, ^2 a superscript.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

Block = dict[str, Any]
"""One block: its kind and what it says, ready for JSON."""
Cell = str | Block
"""A cell of a table: rich text, one of `bar_cell`, `sign_cell`, `big_cell`, or {"formula": symbols}, for a head too."""


def heading(text: str, *, h_mm: float = 3.5, above_mm: float = 5.0) -> Block:
    """A heading within a page.

    Examples
    --------
    >>> heading("Working")["kind"]
    'heading'
    """
    return {"kind": "heading", "text": text, "h": h_mm, "above_mm": above_mm}


def section_head(title: str, *, number: str = "", result: str = "", ruled: bool = True) -> Block:
    """The head of a part of a page: a rule, number and title h 5, and under it the sentence that says the result."""
    return {"kind": "section", "title": title, "number": number, "result": result, "ruled": ruled}


def paragraph(words: str, *, h_mm: float = 2.8, weight: int = 400) -> Block:
    """A paragraph. 2.8 for customers and site, 2.5 for notes and calculations."""
    return {"kind": "text", "text": words, "h": h_mm, "weight": weight}


def bullets(items: Sequence[str], *, h_mm: float = 2.8) -> Block:
    """A list with dashes."""
    return {"kind": "list", "items": list(items), "h": h_mm}


def steps(items: Sequence[str], *, start: int = 1, h_mm: float = 2.8) -> Block:
    """A numbered list."""
    return {"kind": "steps", "items": list(items), "start": start, "h": h_mm}


def table(
    heads: Sequence[Cell],
    rows: Sequence[Sequence[Cell]],
    *,
    widths: Sequence[str | float] = (),
    align: Sequence[str] = (),
    **more: Any,
) -> Block:
    """A table with thin rules. The head row repeats on the next page.

    Parameters
    ----------
    heads, rows
        Texts or cells; no heads gives a plain list of pairs.
    widths
        For each column: mm, "auto", or a share such as "1fr".
    align
        For each column: "left", "right" or "center".
    more
        ``h`` (lettering, 2.5), ``bold_columns``, ``strong_rows``, ``fails_rows`` (rows from 0), ``row_mm`` (white above
        and below a row, 1.9), ``note`` (a sentence under it).

    Raises
    ------
    ValueError
        A row has another number of cells than there are columns.

    Examples
    --------
    >>> table(("Part", "mm"), (("rafter", "2950"),), align=("left", "right"))["widths"]
    ['1fr', 'auto']
    """
    columns = len(heads) or len(rows[0])
    if any(len(row) != columns for row in rows):
        raise ValueError(f"A table of {columns} columns has a row of another length.")
    tracks = list(widths) or ["1fr", *["auto"] * (columns - 1)]
    sides = list(align) or ["left"] * columns
    body = [list(row) for row in rows]
    made: Block = {"kind": "table", "heads": list(heads), "rows": body, "widths": tracks, "align": sides}
    return made | {name: list(v) if isinstance(v, (tuple, set)) else v for name, v in more.items()}


def bar_cell(used: float, *, full_mm: float = 22.0) -> Block:
    """A cell with the bar of a check: 1.0 is the limit, which stands at ``full_mm``."""
    return {"bar": used, "full_mm": full_mm}


def sign_cell(sign: str, text: str = "", *, bold: bool = False) -> Block:
    """A cell with "tick", "fails", "ask", "caution" or "box" before its text."""
    return {"sign": sign, "text": text, "bold": bold}


def big_cell(text: str, h_mm: float = 3.5) -> Block:
    """A cell in bold lettering of its own size."""
    return {"text": text, "h": h_mm, "bold": True}


def working(rows: Sequence[Block], *, says_mm: float = 33.0, rule_mm: float = 25.0) -> Block:
    """A working table. Each row: ``says``, ``formula``, ``numbers``, ``result`` (with its unit), ``clause``.

    Examples
    --------
    >>> row = working_row("Bending moment", "M = q L^2 / 8", "1.634 * 2.950^2 / 8", "1.777 kNm", "statics")
    >>> working([row])["rows"][0]["result"]
    '1.777 kNm'
    """
    return {"kind": "working", "rows": list(rows), "says_mm": says_mm, "rule_mm": rule_mm}


def working_row(says: str, formula: str, numbers: str, result: str, clause: str) -> Block:
    """One row of a working table; an empty text is left out."""
    return {"says": says, "formula": formula, "numbers": numbers, "result": result, "clause": clause}


def verdict(word: str, says: str, *, beside: str = "", fails: bool = False) -> Block:
    """The verdict box: a bold word, a sentence, and beside them the neighbour that would fail, or the cure."""
    return {"kind": "verdict", "word": word, "says": says, "beside": beside, "fails": fails}


def cautions(rows: Sequence[tuple[str, str]], *, h_mm: float = 2.5) -> Block:
    """The caution box: at most three, each a bold word and a sentence.

    Raises
    ------
    ValueError
        More than three: nobody reads a fourth.

    Examples
    --------
    >>> cautions([("Fragile.", "Nobody stands on a sheet, ever.")])["kind"]
    'cautions'
    """
    if len(rows) > 3:
        raise ValueError(f"A caution box holds three cautions at most, not {len(rows)}.")
    return {"kind": "cautions", "rows": [list(row) for row in rows], "h": h_mm}


def number(label: str, value: str, unit: str = "mm", *, h_mm: float = 20.0) -> Block:
    """The one number of a page, read from two metres."""
    return {"kind": "number", "label": label, "value": value, "unit": unit, "h": h_mm}


def acts(rows: Sequence[tuple[str, str]], *, word_mm: float = 22.0) -> Block:
    """Acts in order, each with a box to tick: a verb and what is done."""
    return {"kind": "acts", "rows": [list(row) for row in rows], "word_mm": word_mm}


def fill_boxes(
    names: Sequence[str], *, per_row: int = 0, height_mm: float = 10.0, inside: bool = False
) -> Block:
    """Empty boxes to write in, named under each box or inside it."""
    caption = "inside" if inside else "under"
    made: Block = {"kind": "fill", "boxes": list(names), "height_mm": height_mm, "caption": caption}
    return made | ({"per_row": per_row} if per_row else {})


def label(kind_word: str, name: str, size: str, says: str, small: str, *, cut_here: str) -> Block:
    """The label to cut off and stick: what it is, its number, size, one sentence, and job with revision."""
    # A long number or size steps down so that it stays in its cell.
    number_h = 20 if len(name) <= 2 else 14 if len(name) == 3 else 7
    size_h = 10 if len(size) <= 11 else 7
    return {
        "kind": "label", "kind_word": kind_word, "number": name, "size": size, "says": says, "small": small,
        "cut_here": cut_here, "number_h": number_h, "size_h": size_h,
    }  # fmt: skip


def option(letter: str, name: str, rows: Sequence[str], price: str, *, drawn: bool = False) -> Block:
    """One alternative of a quote."""
    return {"letter": letter, "name": name, "rows": list(rows), "price": price, "drawn": drawn}


def quote_columns(
    rows: Sequence[str], options: Sequence[Block], *, price_word: str = "Price with tax"
) -> Block:
    """Alternatives side by side, one difference per row, a box to tick; a heavy frame round the one that is drawn.

    Raises
    ------
    ValueError
        An option has another number of rows than there are names.

    Examples
    --------
    >>> quote_columns(("Roof",), [option("A", "Bright", ("16 mm clear",), "£1.00")])["rows"]
    ['Roof']
    """
    if any(len(o["rows"]) != len(rows) for o in options):
        raise ValueError(f"An option of the quote has another number of rows than {len(rows)}.")
    made: Block = {"kind": "quote", "rows": list(rows), "options": list(options)}
    return made | {"price_word": price_word, "tick_word": "Tick one"}


def picture(image: str, alt: str, *, width_mm: float = 0.0, caption: str = "") -> Block:
    """A picture by its name in ``images``; ``alt`` says what is to be seen and is compulsory."""
    made: Block = {"kind": "picture", "image": image, "alt": alt, "caption": caption}
    return made | ({"width_mm": width_mm} if width_mm else {})


def columns(cells: Sequence[Sequence[Block]], *, widths: Sequence[str | float], gap_mm: float = 8.0) -> Block:
    """Blocks side by side; widths as in `table`."""
    return {"kind": "columns", "cells": [list(c) for c in cells], "widths": list(widths), "gap_mm": gap_mm}


def keep(blocks: Sequence[Block]) -> Block:
    """Blocks that stay together on one page."""
    return {"kind": "keep", "blocks": list(blocks)}


def rule(w_mm: float = 0.25) -> Block:
    """A rule across."""
    return {"kind": "rule", "w_mm": w_mm}


def space(mm: float) -> Block:
    """White."""
    return {"kind": "space", "mm": mm}


def fill_space() -> Block:
    """White down to the foot of the page, so that what follows stands at the foot."""
    return {"kind": "fill-space"}


def page_break() -> Block:
    """What follows begins a new page of the same section."""
    return {"kind": "break"}
