"""What the head of a roof and the line of its eaves are called, and where boards may bear."""

from __future__ import annotations

from pentice.job.model import Job


def head_called(job: Job) -> str:
    """What stands at the head: the wall, or of a free-standing roof its head.

    Parameters
    ----------
    job
        The job.

    Returns
    -------
    str
        "the wall" or "the head".

    Examples
    --------
    >>> head_called(Job())
    'the wall'
    """
    return "the wall" if job.roof.attached else "the head"


def along(job: Job) -> str:
    """Along the roof's width, in words.

    Parameters
    ----------
    job
        The job.

    Returns
    -------
    str
        "along the wall", or "along the eaves" where no wall is.

    Examples
    --------
    >>> along(Job())
    'along the wall'
    """
    return "along the wall" if job.roof.attached else "along the eaves"


def boards_bear(*, bars_carry: bool) -> str:
    """Where people may stand while the roof is open.

    Parameters
    ----------
    bars_carry
        Do the bars carry by themselves, without rafters?

    Returns
    -------
    str
        A sentence.

    Source
    ------
    Common practice, no source. A bar is checked for a person on the finished roof, where sheets may hold it, alone.

    Examples
    --------
    >>> boards_bear(bars_carry=True)
    'No boards on bars: they are checked for one person, and on the finished roof alone.'
    """
    if bars_carry:
        return "No boards on bars: they are checked for one person, and on the finished roof alone."
    return "Boards bear on rafters, never on bars, and only before the sheets are on."
