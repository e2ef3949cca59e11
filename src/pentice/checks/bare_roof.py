"""What can be said of a check where the snow is not known: it is made as on a bare roof."""

from __future__ import annotations

from dataclasses import replace

from pentice.checks.values import Check, Shown, Told


def without_the_snow(check: Check, why: str, *, lifts: bool) -> Check:
    """A check made with no snow on the roof, for a roof whose snow is not known.

    Parameters
    ----------
    check
        As made with no snow.
    why
        Why the snow is not known, a sentence.
    lifts
        True where snow can only help, so that the bare roof asks most.

    Returns
    -------
    Check
        As it was made where snow helps, where it fails already and where it was not made; else refused, with how much
        the bare roof uses, or what it lacks.

    Source
    ------
    EN 1990:2002, 6.4.3: every combination without snow stands among those with it, so that none asks less.

    Examples
    --------
    >>> from pentice.checks.values import Place
    >>> bending = Check(
    ...     id="rafter-bending", name="Rafter, bending", member="rafter", place=Place(rafter=1), clause="6.1.6",
    ...     demand=4.0, capacity=10.0, unit="N/mm2", verdict="passes",
    ... )
    >>> without_the_snow(bending, "Corner of two walls.", lifts=True).verdict
    'passes'
    >>> without_the_snow(bending, "Corner of two walls.", lifts=False).says
    'Corner of two walls. With no snow it uses 40 %.'
    >>> without_the_snow(replace(bending, demand=11.0, verdict="fails"), "Corner of two walls.", lifts=False).says
    'Fails with no snow at all. Corner of two walls.'
    """
    if lifts or check.verdict == "not checked":
        return check
    if check.verdict == "fails":
        told = Told(
            lambda: replace(check.told.shown, says=f"Fails with no snow at all. {why} {check.says}".strip())
        )
        return replace(check, told=told)
    used = check.utilisation
    bare = f"With no snow: {check.says}" if used is None else f"With no snow it uses {100.0 * used:.0f} %."
    return replace(
        check,
        verdict="refused",
        case="",
        demand=None,
        capacity=None,
        told=Told(Shown(says=f"{why} {bare}")),
    )
