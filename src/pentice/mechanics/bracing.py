"""What holds a row of posts upright: a diagonal in one bay, knee braces at the heads, or the feet alone.

Plain equilibrium of pin-jointed bays along the wall or across it. The horizontal force is taken at the level of the
beam. Nothing here leans on the sheets: they slide in their bars and brace nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

from pentice.errors import require_within

_SOURCE = "equilibrium of a braced bay"


@dataclass(frozen=True, slots=True, kw_only=True)
class BracedBay:
    """Forces in a bay with one diagonal [N]: tension when it leans one way, compression when it leans the other.

    post_pair_n pulls the post on the side the force comes from upward and presses the other by as much; each
    foot that takes the horizontal force carries foot_horizontal_n.
    """

    diagonal_length_mm: float
    diagonal_n: float
    post_pair_n: float
    foot_horizontal_n: float


@dataclass(frozen=True, slots=True, kw_only=True)
class KneeBracedPost:
    """Forces in one post of a row with a knee brace at its head: force in the brace, moment and head shear of the post.

    brace_n acts along the brace, pulling when the force blows towards the post and pressing when away; the pin at
    the head of the post carries head_horizontal_n, against the direction of the force.
    """

    brace_length_mm: float
    brace_n: float
    post_moment_n_mm: float
    head_horizontal_n: float
    post_pair_n: float


def braced_bay(horizontal_n: float, *, bay_mm: float, height_mm: float) -> BracedBay:
    """Forces in a bay of two pinned posts and a beam, braced by one diagonal from head to foot.

    Parameters
    ----------
    horizontal_n
        Force along the beam that this bay has to hold, all of the row's if it is the only one braced [N].
    bay_mm
        Distance between the two posts [mm].
    height_mm
        Height of the beam over the feet [mm].

    Returns
    -------
    BracedBay
        H / cos of the slope in the diagonal, H h / b up and down in the posts, H at the foot of the diagonal [N].

    Raises
    ------
    OutsideScope
        The diagonal would stand steeper than 70 or flatter than 20 degrees, where small errors turn into large forces.

    Source
    ------
    Equilibrium of a pin-jointed bay. The range of 20 to 70 degrees is common practice, no source.

    Examples
    --------
    >>> bay = braced_bay(3000.0, bay_mm=3000.0, height_mm=2250.0)
    >>> round(bay.diagonal_n), round(bay.post_pair_n)
    (3750, 2250)
    """
    require_within("bay_mm", bay_mm, 1.0, 1e6, unit="mm", source=_SOURCE)
    low, high = 0.364 * bay_mm, 2.747 * bay_mm
    do = "Brace a wider bay, or use two diagonals one over the other."
    require_within("height of the braced bay", height_mm, low, high, unit="mm", source=_SOURCE, do=do)
    length = hypot(bay_mm, height_mm)
    return BracedBay(
        diagonal_length_mm=length,
        diagonal_n=horizontal_n * length / bay_mm,
        post_pair_n=horizontal_n * height_mm / bay_mm,
        foot_horizontal_n=horizontal_n,
    )


def knee_braced_post(
    horizontal_n: float, *, posts: int, bay_mm: float, height_mm: float, knee_mm: float, reach_mm: float
) -> KneeBracedPost:
    """Forces in each post of a row that is held by knee braces between posts and beam, feet pinned.

    Parameters
    ----------
    horizontal_n
        Force along the beam on the whole row [N].
    posts
        Posts with a knee brace, which share the force evenly [-].
    bay_mm
        Distance between the outermost braced posts [mm].
    height_mm
        Height of the beam over the feet [mm].
    knee_mm
        How far down the post, below the beam, the brace meets it [mm].
    reach_mm
        How far along the beam, from the post, the brace meets it [mm].

    Returns
    -------
    KneeBracedPost
        Brace [N], bending of the post where the brace meets it [N mm], shear at its head [N], and the push and pull
        of the outermost posts from the whole row turning over [N].

    Raises
    ------
    OutsideScope
        There are fewer than two posts, the knee lies outside the upper half of the post, or the brace stands steeper
        than 60 or flatter than 30 degrees.

    Source
    ------
    Equilibrium of a post with a pinned foot and a pinned head: the brace's horizontal part times its depth equals the
    foot's share times the height. The ranges are common practice, no source.

    Examples
    --------
    >>> post = knee_braced_post(
    ...     2000.0, posts=2, bay_mm=3000.0, height_mm=2400.0, knee_mm=600.0, reach_mm=600.0
    ... )
    >>> round(post.brace_n), round(post.post_moment_n_mm), round(post.head_horizontal_n), round(post.post_pair_n)
    (5657, 1800000, 3000, 1600)
    """
    require_within("posts", posts, 2, 1000, source=_SOURCE)
    require_within("bay_mm", bay_mm, 1.0, 1e6, unit="mm", source=_SOURCE)
    require_within("knee_mm", knee_mm, 1.0, height_mm / 2.0, unit="mm", source=_SOURCE)
    slope = "Let the brace stand at 30 to 60 degrees."
    require_within(
        "reach_mm", reach_mm, knee_mm * 0.577, knee_mm * 1.733, unit="mm", source=_SOURCE, do=slope
    )
    share = horizontal_n / posts
    along = share * height_mm / knee_mm
    length = hypot(knee_mm, reach_mm)
    return KneeBracedPost(
        brace_length_mm=length,
        brace_n=along * length / reach_mm,
        post_moment_n_mm=share * (height_mm - knee_mm),
        head_horizontal_n=along - share,
        post_pair_n=horizontal_n * height_mm / bay_mm,
    )


def cantilever_foot_moment_n_mm(horizontal_n: float, height_mm: float, posts: int) -> float:
    """Moment at the foot of each post of a row that is held by its feet alone.

    Parameters
    ----------
    horizontal_n
        Force at the level of the beam on the whole row [N].
    height_mm
        Height of the beam over the point where the foot is held [mm].
    posts
        Posts whose feet are held against turning, which share the force evenly [-].

    Returns
    -------
    float
        H h / n [N mm].

    Raises
    ------
    OutsideScope
        No post is held.

    Source
    ------
    Equilibrium of a cantilever.

    Examples
    --------
    >>> cantilever_foot_moment_n_mm(900.0, 2300.0, 3)
    690000.0
    """
    require_within("posts", posts, 1, 1000, source=_SOURCE, do="Hold at least one foot, or brace the row.")
    return horizontal_n * height_mm / posts
