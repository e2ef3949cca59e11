"""Members that nobody has checked yet: they stand in the list so that no page can look complete."""

from __future__ import annotations

from collections.abc import Iterator

from pentice.checks.ground import Ground, Rule, Shown, open_check
from pentice.checks.values import Check, Place

_MEMBERS = (
    ("beam", "Eaves beam", "beam", "Bending, shear and sag between the posts, up and down."),
    ("posts", "Posts", "post", "Buckling, and the pull of the wind."),
    (
        "bases",
        "Post bases and pads",
        "base",
        "Uplift and overturning: a light roof is held down by its pads.",
    ),
    ("wall-plate", "Wall plate", "wall plate", "Bending between its fixings."),
    (
        "wall-fixings",
        "Wall fixings",
        "wall",
        "Shear and pull in the wall; pull-test when the wall is not known.",
    ),
    ("connections", "Hangers, straps and bolts", "frame", "Each joint, up and down."),
    ("bracing", "Bracing along the wall", "frame", "Racking parallel to the wall."),
)


def unchecked_members(ground: Ground) -> Iterator[Check]:
    """One line "not checked" for each member from the beam to the ground and the wall.

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
