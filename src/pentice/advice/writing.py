"""Advice as data and as text."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from typing import Any

from pentice.advice.proposal import Proposal
from pentice.advice.stage import Advice
from pentice.design import Design
from pentice.job.toml_text import inline_toml

WIDTH = 100


def advice_data(advice: Advice) -> dict[str, Any]:
    """Advice as plain data for JSON; it is written beside the design, not inside it.

    Parameters
    ----------
    advice
        What was found.

    Returns
    -------
    dict
        format, job, choices, moves (None where nobody looked for any), cures, options.
    """
    job = advice.design.job
    return {
        "format": 1,
        "job": job.reference or job.name,
        "choices": [
            {"what": path, "value": _plain(given.value), "why": given.note}
            for path, given in sorted(advice.design.choices.items())
        ],
        "moves": None if advice.moves is None else [_proposal(move) for move in advice.moves],
        "cures": [{"check": cure.check, **_proposal(cure)} for cure in advice.cures],
        "options": [_option(name, design) for name, design in advice.options],
    }


def advice_text(advice: Advice) -> str:
    """Advice as a page of text.

    Parameters
    ----------
    advice
        What was found.

    Returns
    -------
    str
        Choices, moves, cures, options; lines of up to 100 characters.
    """
    design = advice.design
    choices = [
        f"{path} = {_toml(given.value)}: {given.note}" for path, given in sorted(design.choices.items())
    ]
    moves = [_with_keys(move, move.summary) for move in advice.moves or ()]
    parts = [
        ("CHOSEN, because the job leaves it open", choices or ["Nothing: the job names it all."]),
        ("MOVES that save stock", moves or [_no_move(design)]),
        ("CURES for what fails or is refused", list(_cures(advice)) or [_no_cure(design)]),
    ]
    if advice.options:
        options = [_option_text(name, d) for name, d in (("As drawn", design), *advice.options)]
        parts.append(("OPTIONS side by side", options))
    return "\n\n".join("\n".join([head, *(_wrapped(text) for text in texts)]) for head, texts in parts)


def _wrapped(text: str) -> str:
    return textwrap.fill(
        text,
        WIDTH,
        initial_indent="  ",
        subsequent_indent="    ",
        break_long_words=False,
        break_on_hyphens=False,
    )


def _cures(advice: Advice) -> Iterator[str]:
    """Each change once, with every rule that it cures."""
    names = {check.id: check.name for check in advice.design.checks}
    alike: dict[str, list[Proposal]] = {}
    for cure in advice.cures:
        alike.setdefault(cure.summary, []).append(cure)
    for summary, found in alike.items():
        cured = "; ".join(names[cure.check] for cure in found)
        yield _with_keys(found[0], f"{cured}: {summary}")


def _no_move(design: Design) -> str:
    measured = design.job.measured
    if design.job.frame.rafter_centres_mm or measured.rafter_centres_mm or measured.between_stems_mm:
        return "None: the frame stands, and the cutting has chosen among the stock already."
    return "None saves more than 1 % and 10."


def _no_cure(design: Design) -> str:
    if design.summary.verdict in ("fails", "refused"):
        return "None of the changes that are tried cures it: see what each check says, pentice check."
    return "None is needed."


def _option_text(name: str, design: Design) -> str:
    counts, price = design.summary.counts, design.price
    return (
        f"{name}: {price.currency} {price.gross:,.2f} with tax. {design.parts.sheet.name}, {design.parts.tint}; "
        f"{counts['fails']} fail, {counts['refused']} refused."
    )


def _with_keys(proposal: Proposal, says: str) -> str:
    keys = ", ".join(f"{key} = {_toml(value)}" for key, value in proposal.set.items() if value is not None)
    return f"{says} ({keys})"


def _toml(value: Any) -> str:
    """A value as it is written into the job file, whole numbers without an idle point."""
    if isinstance(value, tuple | list):
        return f"[{', '.join(_toml(item) for item in value)}]"
    return f"{value:.0f}" if isinstance(value, float) and value.is_integer() else inline_toml(value)


def _proposal(proposal: Proposal) -> dict[str, Any]:
    return {
        "id": proposal.id,
        "title": proposal.title,
        "set": {key: _plain(value) for key, value in proposal.set.items()},
        "cost_change": str(proposal.cost_change),
        "verdicts_change": list(proposal.verdicts_change),
        "summary": proposal.summary,
    }


def _option(name: str, design: Design) -> dict[str, Any]:
    summary = design.summary
    return {
        "name": name,
        "price": str(design.price.gross),
        "verdict": summary.verdict,
        "counts": dict(summary.counts),
        "sheet": design.parts.sheet.id,
        "tint": design.parts.tint,
    }


def _plain(value: Any) -> Any:
    return list(value) if isinstance(value, tuple) else value
