"""Over which posts a long beam is joined: by what is best, seen from either end alike."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from pentice.frame.joined import LEAST_PART_MM, beam_joints
from pentice.pipeline import solve
from tests.designs import assessed, catalogue, changed
from tests.tries import tries

LONGEST = 6000.0


def test_a_field_that_a_part_spans_by_itself_is_the_narrowest_there_is() -> None:
    """Fields 1900, 2900, 2900: of the two joints that fit the one that leaves the narrow end field alone."""
    posts = (50.0, 1950.0, 4850.0, 7750.0)
    assert beam_joints(7800.0, posts, LONGEST) == (1950.0,)
    turned = tuple(7800.0 - x for x in reversed(posts))
    assert beam_joints(7800.0, turned, LONGEST) == (7800.0 - 1950.0,)


def test_no_part_rests_on_one_post_where_another_choice_has_as_few_parts() -> None:
    """A joint over the last post but one, not over the last: 700 beyond it would rest on that post alone."""
    assert beam_joints(6600.0, (50.0, 2950.0, 5900.0), LONGEST) == (2950.0,)


def test_where_every_choice_rests_on_one_post_the_beam_is_joined_and_refused_by_its_name() -> None:
    """Two posts, one of them 700 from the end: a part on one post, said so by the check."""
    assert beam_joints(6700.0, (50.0, 6000.0), LONGEST) == (6000.0,)
    job = changed(
        "cycle-shelter", roof__width_mm=6700.0, frame__posts_at_mm=[50.0, 6000.0], frame__bay_count=8
    )
    (found,) = {c.says for c in assessed(job).checks if c.id == "beam-bending"}
    assert "from 6000 to 6700 mm does not rest on two posts" in found


def test_what_is_alike_in_size_is_told_apart_by_the_roof_around_it() -> None:
    """Even posts, closed on one side: the joint is the same one as seen from the closed side."""
    posts = [48.0, 2616.0, 5184.0, 7752.0]
    ends: dict[str, Any] = {"roof__width_mm": 7800.0, "frame__posts_at_mm": posts, "frame__bay_count": 9}
    joints = []
    for left, right in (("closed", "open"), ("open", "closed")):
        design = solve(changed("cycle-shelter", roof__left=left, roof__right=right, **ends), catalogue())
        joints += [piece.length_mm for piece in design.pieces if piece.id == "EB1"]
    assert joints[0] == 7800.0 - joints[1]


@tries(60)
@given(
    st.integers(6100, 20000),
    st.lists(st.integers(40, 19960), min_size=2, max_size=12, unique=True),
)
def test_parts_fit_and_a_mirrored_beam_has_the_mirrored_parts(width: int, places: list[int]) -> None:
    """No part longer than what is sold or shorter than a stub; lengths in reverse order where posts are unlike."""
    posts = sorted(float(x) for x in places if x < width)
    joints = beam_joints(float(width), posts, LONGEST)
    if not joints:
        return
    lengths = [b - a for a, b in pairwise((0.0, *joints, float(width)))]
    assert all(LEAST_PART_MM <= length <= LONGEST for length in lengths)
    turned = [width - x for x in reversed(posts)]
    other = beam_joints(float(width), turned, LONGEST)
    if turned != posts:
        assert sorted(width - x for x in other) == list(joints)
