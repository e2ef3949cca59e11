"""Hours of work: the firm's norms times what this roof has of each task."""

from __future__ import annotations

import math
from collections.abc import Mapping
from decimal import ROUND_CEILING, Decimal

from pentice.catalogue.firm import LABOUR_TASKS, Firm
from pentice.job.model import Job
from pentice.pieces.names import letters_of
from pentice.pieces.values import Piece
from pentice.pricing.values import LabourLine
from pentice.setting_out.values import SettingOut

OFF_SITE = ("survey", "quote_and_order")
"""Tasks that are done before anybody goes to the site."""


def labour_lines(
    firm: Firm, job: Job, setting_out: SettingOut, pieces: tuple[Piece, ...]
) -> tuple[LabourLine, ...]:
    """Hours of each task, in the order of the work; a task that this roof has nothing of is left out.

    Parameters
    ----------
    firm
        Norms [h for one unit], people, hours in a day.
    job, setting_out, pieces
        What there is to do.

    Returns
    -------
    tuple of LabourLine
        The last is loading and travel, by the days that the rest takes.
    """
    amounts = dict(amounts_of(job, setting_out, pieces))
    lines = [_line(firm, task, amount) for task, amount in amounts.items() if amount]
    on_site = sum(
        (
            line.hours
            for task, line in zip((t for t, a in amounts.items() if a), lines, strict=True)
            if task not in OFF_SITE
        ),
        Decimal(0),
    )
    days = person_days(firm, job, on_site)
    return (*lines, _line(firm, "set_up", days))


def amounts_of(job: Job, setting_out: SettingOut, pieces: tuple[Piece, ...]) -> Mapping[str, Decimal]:
    """How much of each task this roof has, by key of the norms; loading and travel apart.

    Parameters
    ----------
    job, setting_out, pieces
        The roof.

    Returns
    -------
    Mapping of str to Decimal
        Metres to the cm, or numbers.
    """
    plane = setting_out.plane
    width_m = _metres(plane.outline_mm[1][0])
    ids = [p.id for p in pieces]
    posts = sum(1 for id in ids if _is(id, "PO"))
    sheets = Decimal(len(plane.bays) + len(setting_out.side_sheets))
    outlets = max(1, len(job.gutter.outlets_at_mm)) if "G" in ids else 0
    return {
        "survey": Decimal(1),
        "quote_and_order": Decimal(1),
        "wall_plate": width_m if "WP" in ids else Decimal(0),
        "post": Decimal(posts),
        "post_base": Decimal(posts),
        "beam": width_m * len({letters_of(id) for id in ids} & {"EB", "HB"}),
        "rafter": Decimal(sum(1 for id in ids if _is(id, "RF"))),
        "side_frame": Decimal(sum(1 for id in ids if letters_of(id) in ("MU", "TM", "SI"))),
        "bar": Decimal(len(plane.bars)),
        "sheet_cut": sheets,
        "sheet_fix": sheets,
        "foot": Decimal(len(plane.bays)),
        "head_flashing": width_m,
        "gutter": width_m if "G" in ids else Decimal(0),
        "downpipe": Decimal(outlets),
        "clean_up": Decimal(1),
    }


def days_on_site(firm: Firm, job: Job, hours: Decimal) -> int:
    """Days on site: as the job says, else what the hours come to with the firm's people.

    Parameters
    ----------
    firm, job
        People and hours in a day; the job's own working days count first.
    hours
        Person-hours on site [h].

    Returns
    -------
    int
        At least 1.
    """
    if job.dates.working_days is not None:
        return job.dates.working_days
    return max(1, math.ceil(hours / (Decimal(firm.people) * Decimal(str(firm.hours_per_day)))))


def person_days(firm: Firm, job: Job, hours: Decimal) -> Decimal:
    """Days on site times people: each of them loads and travels.

    Parameters
    ----------
    firm, job
        People and hours in a day; the job's own working days count first.
    hours
        Person-hours on site [h].

    Returns
    -------
    Decimal
        Whole person-days.
    """
    return Decimal(days_on_site(firm, job, hours) * firm.people)


def _line(firm: Firm, task: str, amount: Decimal) -> LabourLine:
    words, unit = LABOUR_TASKS[task]
    norm = Decimal(str(getattr(firm.labour, task)))
    return LabourLine(task=words, amount=amount, unit=unit, norm_h=norm, hours=amount * norm)


def _is(id: str, letters: str) -> bool:
    return id.startswith(letters) and id[len(letters) :].isdigit()


def _metres(length_mm: float) -> Decimal:
    return (Decimal(str(length_mm)) / 1000).quantize(Decimal("0.01"), ROUND_CEILING)
