"""The parts of a finished roof, and why one of them may be missing: nothing is forgotten without a word."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from pentice.takeoff.needs import Need, not_here
from pentice.takeoff.roof import Roof

PARTS: Mapping[str, tuple[str, str]] = {
    "wall plate": ("Timber", "the job names no wall plate"),
    "damp-proof strip or stand-offs": ("Wall", "no wall plate is new"),
    "plate fixings": ("Wall", "no wall plate is new"),
    "plate fixing resin": ("Wall", "no fixing here is set in resin"),
    "rafters": ("Timber", "the rafters stand already"),
    "hangers": ("Fixings", "the rafters stand already: look at how they are held"),
    "straps": ("Fixings", "the rafters stand already: look at how they are tied down to the beam"),
    "beam": ("Timber", "the job names no eaves beam"),
    "posts": ("Timber", "the job names no posts, or no eaves height to cut them to"),
    "bases": ("Fixings", "no post is new"),
    "post caps": ("Fixings", "no post is new"),
    "pad concrete": ("Fixings", "no post is new"),
    "bolts": ("Fixings", "no post is new"),
    "fasteners of hangers": ("Fixings", "none described: as the maker of the hanger says"),
    "fasteners of rafter ties": ("Fixings", "none described: as the maker of the strap says"),
    "fasteners of post ties": ("Fixings", "none described: as the maker of the cap says"),
    "bolts of knee braces": ("Fixings", "no post is new"),
    "bracing": ("Fixings", "no post is new: look at how the frame is held along the wall"),
    "barge boards": ("Timber", "the job names no barge board, or both ends are at walls"),
    "fascia": ("Timber", "the gutter brackets are fixed to the beam"),
    "foot closure between rafters": ("Sundries", "the front is open below"),
    "noggin under each button": ("Timber", "the job names no noggins: each button needs timber under it"),
    "purlins": ("Timber", "the job names none"),
    "frame screws": ("Fixings", "no noggin, purlin or barge board is new"),
    "separating or reflecting tape on rafter tops": ("Tapes and seals", "there are no rafters"),
    "bar base": ("Bars", "no rafter carries a bar"),
    "cap": ("Bars", "no rafter carries a bar"),
    "seals bottom": ("Tapes and seals", "there is no bar, it comes with its seals, or it needs none there"),
    "seals top": ("Tapes and seals", "there is no bar, it comes with its seals, or it needs none there"),
    "seal under edge profiles": ("Tapes and seals", "no side ends in an edge profile"),
    "screws": ("Fixings", "no rafter carries a bar"),
    "sealant at screws": ("Tapes and seals", "no rafter carries a bar"),
    "foot end caps": ("Bars", "no rafter carries a bar"),
    "head end caps": ("Bars", "the flashing covers the heads of the bars"),
    "cap stops": ("Bars", "no rafter carries a bar"),
    "sheets": ("Sheets", "there are no bays"),
    "packing strips": ("Sheets", "no side ends on a bar"),
    "solid head tape": ("Tapes and seals", "there are no bays"),
    "breather foot tape": ("Tapes and seals", "there are no bays"),
    "button with washer and seal": ("Fixings", "the bars carry themselves: their sheets have stops"),
    "sheet stops": ("Bars", "buttons hold the sheets"),
    "bar ends": ("Bars", "the bars are screwed to rafters"),
    "head profile": ("Profiles", "the head is closed otherwise"),
    "foot profile with drain holes": ("Profiles", "there are no bays"),
    "verge trims": ("Profiles", "the job names no verge trim, or both ends are at walls"),
    "edge profiles": ("Profiles", "no side ends in an edge profile"),
    "screws of profiles": ("Fixings", "no profile is screwed"),
    "flashing tape or lead": ("Wall", "there is no wall"),
    "primer": ("Wall", "lead needs none"),
    "chase sealant": ("Wall", "there is no wall"),
    "gutter": ("Water", "the job names no gutter: say where the water goes"),
    "brackets": ("Water", "the job names no gutter"),
    "unions": ("Water", "the gutter is one length, or there is none"),
    "ends": ("Water", "the job names no gutter"),
    "outlet": ("Water", "the job names no gutter"),
    "downpipe": ("Water", "the job names no gutter"),
    "clips": ("Water", "the job names no gutter"),
    "shoe": ("Water", "the job names no gutter"),
    "leaf guard": ("Water", "an option: order it where trees stand near"),
    "snow guard where it slides": ("Wall", "no house roof slides its snow onto this one, or it is guarded"),
    "not-a-walkway sign": ("Sundries", "every roof has one"),
    "lubricant": ("Sundries", "no rafter carries a bar"),
    "blades": ("Sundries", "nothing is cut"),
    "bits": ("Sundries", "nothing is drilled"),
    "cloths": ("Sundries", "nothing is wiped"),
}
"""By part: the group it is ordered in, and why a roof may have none. In the order of the work."""

_STANDING = "the frame stands already"
_OF_RAFTERS = (
    "rafters", "hangers", "straps", "noggin under each button", "screws", "frame screws",
    "separating or reflecting tape on rafter tops",
)  # fmt: skip
_JOINTS = {"hangers": "hanger", "straps": "rafter tie", "post caps": "post tie"}
_OF_A_WALL = (
    "wall plate", "damp-proof strip or stand-offs", "plate fixings", "plate fixing resin", "hangers", "chase sealant",
)  # fmt: skip


def absent_parts(roof: Roof, there: Iterable[str]) -> Iterator[Need]:
    """A line of quantity 0 with its reason for each part that this roof does not have.

    Parameters
    ----------
    roof
        What the take-off counts on.
    there
        Parts that have a line.

    Yields
    ------
    Need
        In the order of the work.
    """
    known = frozenset(there)
    for part, (group, because) in PARTS.items():
        if part in known:
            continue
        if not roof.job.roof.attached and part in _OF_A_WALL:
            because = "the roof stands free of any wall"
        if part == "hangers" and roof.job.roof.attached and roof.job.frame.head_notch_mm:
            because = "the rafters lie on the wall plate"
        joint = _JOINTS.get(part)
        if joint and any(f.joint == joint and f.plates == "none" for f in roof.job.frame.fasteners):
            because = "the job fixes this joint timber on timber"
        if roof.parts.bar.carries and part in _OF_RAFTERS:
            because = "the bars carry themselves: there are no rafters"
        if roof.standing and part in ("wall plate", "beam", "posts"):
            because = _STANDING
        yield not_here(part, group, because)
