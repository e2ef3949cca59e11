"""Advice as data and as text."""

from __future__ import annotations

from typing import Any

from pentice.advice.proposal import Proposal
from pentice.advice.stage import Advice
from pentice.design import Design


def advice_data(advice: Advice) -> dict[str, Any]:
    """Advice as plain data for JSON; it is written beside the design, not inside it.

    Parameters
    ----------
    advice
        What was found.

    Returns
    -------
    dict
        format, job, choices, moves, cures, options.
    """
    job = advice.design.job
    return {
        "format": 1,
        "job": job.reference or job.name,
        "choices": [
            {"what": path, "value": _plain(given.value), "why": given.note}
            for path, given in sorted(advice.design.choices.items())
        ],
        "moves": [_proposal(move) for move in advice.moves],
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
        Choices, moves, cures, options.
    """
    lines = ["CHOSEN, because the job leaves it open"]
    lines += [
        f"  {path} = {_plain(given.value)}: {given.note}"
        for path, given in sorted(advice.design.choices.items())
    ]
    lines += ["", "MOVES that save stock"]
    lines += [f"  {_with_keys(move)}" for move in advice.moves] or ["  None saves more than 1 % and 10."]
    lines += ["", "CURES for what fails or is refused"]
    lines += [f"  {cure.check}: {_with_keys(cure)}" for cure in advice.cures] or [
        "  None was found, or none is needed."
    ]
    if advice.options:
        lines += ["", "OPTIONS side by side"]
        for name, design in (("As drawn", advice.design), *advice.options):
            counts, price = design.summary.counts, design.price
            lines.append(
                f"  {name:24} {price.currency} {price.gross:>12,.2f}   {design.parts.sheet.name}, {design.parts.tint};"
                f" {counts['fails']} fail, {counts['refused']} refused"
            )
    return "\n".join(lines)


def _with_keys(proposal: Proposal) -> str:
    keys = ", ".join(f"{key} = {value}" for key, value in proposal.set.items() if value is not None)
    return f"{proposal.summary} ({keys})"


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
