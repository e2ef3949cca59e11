"""Bolts of knee braces, and screws of side sheets at the house wall, counted by hand from the examples' own sizes.

Lengths of bolts: the timber that they go through, 47 of brace, 20 for two washers and the nut (judgement, no source).
"""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from pentice.design import Design
from pentice.errors import InputError
from pentice.pack.calculations.asked import engineer
from pentice.pipeline import solve
from pentice.setting_out.side_frames import at_the_house_wall
from pentice.takeoff.values import OrderLine
from tests.designs import catalogue, changed

BOLTS = "bolts of knee braces"
AT_WALL = "screws of profiles at the house wall"
NARROW = [
    {"side": "left", "width_mm": 717, "left_mm": 2471, "right_mm": 2279},
    {"side": "left", "width_mm": 717, "left_mm": 2260, "right_mm": 2068},
]


def design(name: str = "plant-lobby", **changes: Any) -> Design:
    """An example with other values, solved."""
    return solve(changed(name, **changes), catalogue())


def line(of: Design, part: str) -> OrderLine:
    """The one line of the order for a part."""
    (found,) = (x for x in of.order if part in x.part.split(", "))
    return found


@pytest.mark.parametrize(
    ("name", "count", "item"),
    [
        # One field, two braces, two ends, two bolts: 8; 95 + 47 + 20 = 162, the next longer is 180.
        ("plant-lobby", 8, "sundries.bolt-set-180"),
        # Three posts, two fields: 4 braces.
        ("potting-bay", 16, "sundries.bolt-set-180"),
        # Four posts, three fields: 6 braces; 120 + 67 = 187.
        ("snow-carport", 24, "sundries.bolt-set-220"),
        # Two rows of two posts: 2 braces a row along, one at each of 4 posts across, 8; 145 + 67 = 212.
        ("log-store", 32, "sundries.bolt-set-220"),
    ],
)
def test_bolts_of_braces_as_calculated(name: str, count: int, item: str) -> None:
    """Number and length by hand. The examples do not describe their bolts, so these are marked. Exact."""
    found = line(design(name), BOLTS)
    assert (found.quantity, found.item, found.mark) == (Decimal(count), item, "typical")
    assert "2 bolts of 12 mm at each end, as calculated" in found.why


def test_bolts_that_the_job_describes_are_not_marked() -> None:
    """Three at each end: 2 x 2 x 3 = 12. Exact."""
    found = line(design(frame__knee_bolts=3, frame__knee_bolt_mm=12), BOLTS)
    assert (found.quantity, found.mark) == (Decimal(12), "")
    assert found.why.startswith(
        "Knee braces: 3 bolts of 12 mm at each end, as calculated; 2 braces. 162 long or longer"
    )


def test_a_thicker_brace_has_longer_bolts_and_is_ordered_so() -> None:
    """95 + 70 + 20 = 185; the catalogue has braces of 47 alone, so one of 70 is asked for in words. Exact."""
    thick = design(frame__knee_brace_mm=70)
    bolts, brace = line(thick, BOLTS), line(thick, "bracing")
    assert "185 long or longer: 95 of timber, 70 of brace, 20 for nut and washers" in bolts.why
    assert bolts.item == "sundries.bolt-set-220"
    assert brace.why.startswith("no product in the catalogue: buy bracing.")
    assert "two in each field. 70 thick." in brace.why
    assert line(design(frame__knee_brace_mm=47), "bracing").item == line(design(), "bracing").item
    assert line(design(), "bracing").item == "sundries.knee-brace"


@pytest.mark.parametrize("thick", [19.9, 200.1])
def test_no_brace_is_as_thin_or_as_thick(thick: float) -> None:
    """20 to 200, judgement: just outside either is refused by its key."""
    with pytest.raises(InputError, match="knee_brace_mm"):
        changed("plant-lobby", frame__knee_brace_mm=thick)


def test_bolts_that_the_catalogue_does_not_have_are_asked_for_in_words() -> None:
    """One of 16 at each end: 4, no price; between two timbers nobody here knows the length. Exact: words."""
    found = line(design(frame__knee_bolts=1, frame__knee_bolt_mm=16), BOLTS)
    assert (found.quantity, found.packs, found.price) == (Decimal(4), 4, Decimal(0))
    assert found.why.startswith(
        "no product in the catalogue: buy bolts of knee braces. Knee braces: 1 bolt of 16 mm"
    )
    between = line(design(frame__knee_bolt_planes=2), BOLTS)
    assert (between.quantity, between.price) == (Decimal(8), Decimal(0))
    assert "three timbers: measure how long" in between.why


@pytest.mark.parametrize(
    ("name", "item"),
    # 95 + 30 = 125, 120 + 30 = 150, 145 + 30 = 175.
    [
        ("plant-lobby", "sundries.bolt-set"),
        ("snow-carport", "sundries.bolt-set"),
        ("log-store", "sundries.bolt-set-180"),
    ],
)
def test_bolts_of_bases_say_what_they_are_for(name: str, item: str) -> None:
    """Long enough for post, plates, washers and nut. Exact."""
    found = line(design(name), "bolts")
    assert (found.item, "through it and its base" in found.why) == (item, True)


def test_the_edge_at_the_house_wall_has_plugs_and_the_rest_its_screws() -> None:
    """Two openings of 767, a mullion of 70 and a post of 95 fill 1699 of 1701: the profiles of 2471 lie on the wall.

    Screws at both ends and every 400 between: 2471 has 8, so 16. The rest: 2 in each of 4 head profiles, 6 in each
    verge trim of 1811, 3 in 4 feet of 705 and 4 heads of 729, 7 in 6 uprights of 2265, 2246 and 2041: 86. Exact.
    """
    of = design()
    assert at_the_house_wall(of.job, of.shape) == (("left", 1), ("right", 4))
    found = line(of, AT_WALL)
    assert (found.quantity, found.item) == (Decimal(16), "sundries.wall-profile-fixing")
    assert sorted(found.pieces) == ["SSL1", "SSR4"]
    assert line(of, "screws of profiles").quantity == 2 * 4 + 2 * 6 + 4 * 3 + 4 * 3 + 6 * 7 == 86
    assert "at the house wall, screws and plugs, was not calculated" in "".join(
        str(x) for x in engineer(of, ())
    )


def test_a_wall_of_another_kind_is_asked_for_in_words() -> None:
    """Plugs hold in masonry alone. Exact: words."""
    found = line(design(house__wall="timber frame"), AT_WALL)
    assert (found.quantity, found.price) == (Decimal(16), Decimal(0))
    assert "into a wall of timber frame that reach what carries it: look first" in found.why


def test_openings_that_do_not_reach_the_wall_change_nothing() -> None:
    """2 x 717 + 70 + 95 = 1599 of 1701: something of 102 stands at the wall, and the profile is screwed to that."""
    of = design(side_sheets=NARROW)
    assert at_the_house_wall(of.job, of.shape) == ()
    assert not [x for x in of.order if x.part == AT_WALL]
    assert "at the house wall, screws" not in "".join(str(x) for x in engineer(of, ()))


def test_a_frame_braced_otherwise_buys_no_knee_braces() -> None:
    """Held feet need none; diagonals are asked for in words, a set for the one row. Exact: words."""
    held, tied = design(frame__bracing="fixed feet"), design(frame__bracing="diagonal")
    for of in (held, tied):
        for part in ("bracing", BOLTS):
            assert line(of, part).quantity == 0
            assert "no knee braces, frame.bracing is" in line(of, part).why
    assert not [x for x in held.order if x.part == "diagonals"]
    found = line(tied, "diagonals")
    assert (found.quantity, found.why.startswith("no product in the catalogue: buy diagonals.")) == (
        Decimal(1),
        True,
    )
