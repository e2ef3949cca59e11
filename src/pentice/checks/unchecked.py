"""What nobody has checked yet: it stands in the list so that no page can look complete."""

from __future__ import annotations

from collections.abc import Iterator

from pentice.checks.ground import Ground, Rule, Shown, open_check
from pentice.checks.values import Check, Place

_MEMBERS = (("bracing", "Bracing along the wall", "frame", "Racking parallel to the wall."),)


def unchecked_members(ground: Ground) -> Iterator[Check]:
    """One line "not checked" for each requirement that no check looks at.

    Parameters
    ----------
    ground
        The inputs of every check.

    Yields
    ------
    Check
        Verdict "not checked".

    Source
    ------
    None: that is what it says.
    """
    for id, name, member, what in _MEMBERS:
        rule = Rule(id=id, name=name, member=member, clause="not checked here", unit="")
        yield open_check(
            rule, Place(), "not checked", Shown(says=f"{what} Not checked here: ask a structural engineer.")
        )
