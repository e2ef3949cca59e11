"""Where level forces at the ends of the rafters come from, each as it comes to every one of them.

Wind on the roof as a whole, on open and closed ends, on beam and posts of an open front, and on a closed front or back.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from pentice.checks.ground import JUDGEMENT, Ground
from pentice.checks.post_winds import share_mm
from pentice.checks.racking import EDGE_C_F, EDGES, verge_m
from pentice.checks.rafter_model import rafter_models
from pentice.checks.rests import of_beam, of_frame, of_posts, of_roof
from pentice.checks.side_members_model import worst_winds
from pentice.checks.values import RestsOn
from pentice.checks.walls import OnWall
from pentice.job.fields import Wall
from pentice.loads.combine import Combination
from pentice.working import Step

End = Literal["head", "foot"]
Situation = Literal["persistent", "accidental"]
_CLOSED = "the upper half of it, as high all along as at its head, in the worst zone"


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One source of level force at the end of each rafter, characteristic [kN]."""

    name: str
    """In the formula: "F_fr"."""
    says: str
    way: Literal["along", "square"]
    of_each: Mapping[Situation, Sequence[float]]
    formula: str
    numbers: Mapping[Situation, Sequence[str]]
    """Arithmetic of each rafter."""
    clause: str
    rests_on: tuple[RestsOn, ...] = ()
    """What it comes from, beside the wind."""

    def step(self, situation: Situation, k: int) -> Step:
        """The force at one rafter as a line."""
        return Step(
            says=self.says,
            formula=self.formula,
            numbers=self.numbers[situation][k],
            result=self.of_each[situation][k],
            unit="kN",
            clause=self.clause,
        )


def level_parts(ground: Ground, end: End) -> Iterator[Part]:
    """Every source of level force at the heads, or the feet, of the rafters.

    Parameters
    ----------
    ground
        The inputs of every check; the heights of closed walls are known.
    end
        "head" or "foot".

    Yields
    ------
    Part
        Characteristic values [kN].

    Raises
    ------
    OutsideScope
        The roof is more than five times as high as it is deep.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2, 7.5, 7.6; statics.
    """
    attached = ground.job.roof.attached
    yield from _drag(ground, "x")
    yield from _open_ends(ground)
    yield from _closed_ends(ground)
    if attached:
        yield from _onto_beam(ground)
    if not attached or end == "head":
        yield from _drag(ground, "y")
    yield from _front(ground, end, attached)


def widths_m(ground: Ground) -> list[float]:
    """Width of the strip of roof that comes to each rafter.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    list of float
        [m].

    Source
    ------
    As `pentice.checks.rafter_model.strip_of`.
    """
    return [model.strip.width_mm / 1000.0 for model in ground.once(rafter_models)]


def _everywhere(
    name: str,
    says: str,
    way: Literal["along", "square"],
    kn: Sequence[float],
    numbers: Sequence[str],
    rests_on: tuple[RestsOn, ...],
    **more: str,
) -> Part:
    """A part that is alike in lasting situations and by accident."""
    return Part(
        name=name,
        says=says,
        way=way,
        of_each={"persistent": kn, "accidental": kn},
        numbers={"persistent": numbers, "accidental": numbers},
        formula=more["formula"],
        clause=more["clause"],
        rests_on=rests_on,
    )


def _drag(ground: Ground, along: Literal["x", "y"]) -> Iterator[Part]:
    """What wind drags along the roof, half at either end; or down the slope, all of it at one end."""
    drag = max((w.drag_kn for w in ground.loads.wind.whole if w.drag_along == along), default=0.0)
    if not drag:
        return
    wide = widths_m(ground)
    halves, over = (0.5, " / 2") if along == "x" else (1.0, "")
    yield _everywhere(
        "F_x" if along == "x" else "F_y",
        f"Drag {'along' if along == 'x' else 'down'} the roof, its share",
        "along" if along == "x" else "square",
        [halves * drag * w / sum(wide) for w in wide],
        [f"{drag:.5f} x {w:.4f} / {sum(wide):.4f}{over}" for w in wide],
        of_roof(ground, "width_mm"),
        formula=f"F_fr b / B{over}",
        clause="EN 1991-1-4, 7.5; see the loads",
    )


def _open_ends(ground: Ground) -> Iterator[Part]:
    roof, peak = ground.job.roof, ground.loads.wind.peak_pressure_kn_m2 or 0.0
    if "open" not in (roof.left, roof.right):
        return
    slope, deep = ground.setting_out.plane.slope_length_mm / 1000.0, verge_m(ground)
    force, count = EDGE_C_F * peak * deep * slope / 2.0, len(ground.setting_out.plane.rafters)
    on = [(n == 0 and roof.left == "open") or (n == count - 1 and roof.right == "open") for n in range(count)]
    yield _everywhere(
        "F_e",
        "Edge of the open end, facing the wind, half of it",
        "along",
        [force if blown else 0.0 for blown in on],
        [f"{EDGE_C_F:g} x {peak:.5f} x {deep:.4f} x {slope:.4f} / 2" if blown else "0" for blown in on],
        of_frame(ground, "rafter_mm", "barge_board_mm"),
        formula="c_f q_p d L / 2",
        clause=EDGES,
    )


def _closed_ends(ground: Ground) -> Iterator[Part]:
    """As `end_rafters` passes it on: the upper half of a closed end, half of it at either end of its rafter."""
    roof, shape = ground.job.roof, ground.shape
    if "closed" not in (roof.left, roof.right):
        return
    models, strip = ground.once(rafter_models), (shape.head_height_mm or 0.0) / 2.0
    count = len(models)
    sides: tuple[tuple[int, Wall], ...] = ((0, "left"), (count - 1, "right"))
    ends = {k: side for k, side in sides if getattr(roof, side) == "closed"}
    winds = {
        k: _by_situation(worst_winds(ground, side, strip, shape.projection_mm)) for k, side in ends.items()
    }

    def force(on: OnWall, k: int) -> float:
        return abs(on.net) * strip * shape.cos_pitch * models[k].span_mm / 2e6

    def numbers(on: OnWall, k: int) -> str:
        return f"|{on.net:.5f}| x {strip / 1000.0:.4f} x {shape.cos_pitch:.5f} x {models[k].span_mm / 1000.0:.4f} / 2"

    situations: tuple[Situation, ...] = ("persistent", "accidental")
    yield Part(
        name="F_w",
        says="Wind on the closed end, half of what its rafter takes",
        way="along",
        of_each={s: [force(winds[k][s], k) if k in winds else 0.0 for k in range(count)] for s in situations},
        numbers={
            s: [numbers(winds[k][s], k) if k in winds else "0" for k in range(count)] for s in situations
        },
        formula="|w| b cos(pitch) L / 2",
        clause=f"{_table(winds.values())}; {_CLOSED}, {JUDGEMENT}",
        rests_on=(
            *of_roof(ground, "head_height_mm", "pitch_deg", "projection_mm"),
            *ground.of_side_wind(*ends.values()),
        ),
    )


def _table(winds: Iterable[Mapping[Situation, OnWall]]) -> str:
    """Where the coefficients come from."""
    declared = {on.clause() for each in winds for on in each.values() if on.source}
    return "; ".join(sorted(declared)) or "EN 1991-1-4, Table 7.1, 7.2.9"


def _by_situation(winds: Sequence[tuple[OnWall, Combination]]) -> dict[Situation, OnWall]:
    """The worst wind lasting, and by accident; where no accident is known the lasting one stands for it."""
    found: dict[Situation, OnWall] = {}
    for on, _ in winds:
        found["accidental" if on.situation == "accidental" else "persistent"] = on
    lasting = found.get("persistent") or next(iter(found.values()))
    return {"persistent": lasting, "accidental": found.get("accidental", lasting)}


def _onto_beam(ground: Ground) -> Iterator[Part]:
    """An open front: wind onto the beam and the upper half of its posts goes through ties and rafters to the plate."""
    if ground.job.roof.front != "open" or ground.frame.beam is None:
        return
    peak, wide = ground.loads.wind.peak_pressure_kn_m2 or 0.0, widths_m(ground)
    deep = ground.frame.beam.size_mm[1] / 1000.0
    posts = sum(p.size_mm[0] * (p.length_mm or 0.0) for p in ground.frame.posts) * 1e-6 / 2.0
    area = f"({deep:.4f} + {posts:.5f} / {sum(wide):.4f})"
    yield _everywhere(
        "F_b",
        "Beam and upper half of its posts, facing the wind, its share",
        "square",
        [EDGE_C_F * peak * (deep + posts / sum(wide)) * w for w in wide],
        [f"{EDGE_C_F:g} x {peak:.5f} x {area} x {w:.4f}" for w in wide],
        (*of_beam(ground, "eaves"), *of_posts(ground, "eaves"), *of_roof(ground, "width_mm")),
        formula="c_f q_p (d + A_posts / B) b",
        clause=EDGES,
    )


def _by_posts_m(ground: Ground, wall: Wall) -> list[float]:
    """Width of a closed wall that comes to each rafter: its strip, or more where posts stand near it.

    What a post holds of the wall comes to the two rafters beside it, as the lever has it [m].
    """
    posts, plane = (
        ground.frame.posts if wall == "front" else ground.frame.head_posts,
        ground.setting_out.plane,
    )
    at = [r.centre_foot_mm if wall == "front" else r.centre_head_mm for r in plane.rafters]
    held = [0.0] * len(at)
    for k, post in enumerate(posts):
        x, wide = min(max(post.x_mm, at[0]), at[-1]), share_mm(posts, k, ground.shape.width_mm) / 1000.0
        after = next((n for n in range(1, len(at) - 1) if at[n] >= x), len(at) - 1)
        part = (x - at[after - 1]) / (at[after] - at[after - 1])
        held[after - 1] += wide * (1.0 - part)
        held[after] += wide * part
    return [max(pair) for pair in zip(widths_m(ground), held, strict=True)]


def _front(ground: Ground, end: End, attached: bool) -> Iterator[Part]:
    """A closed front, or back: its upper half goes through the ties, and on to the wall plate."""
    roof, shape = ground.job.roof, ground.shape
    high = (shape.eaves_height_mm if attached or end == "foot" else shape.head_height_mm) or 0.0
    closed = roof.front if attached or end == "foot" else roof.back
    if closed != "closed":
        return
    wall: Wall = "front" if attached or end == "foot" else "back"
    winds = _by_situation(worst_winds(ground, wall, high / 2.0, shape.width_mm))
    wide = _by_posts_m(ground, wall)
    yield Part(
        name="F_f",
        says="Upper half of the closed wall under the beam, its share or that of its posts",
        way="square",
        of_each={s: [abs(on.net) * high / 2000.0 * w for w in wide] for s, on in winds.items()},
        numbers={
            s: [f"|{on.net:.5f}| x {high / 1000.0:.4f} / 2 x {w:.4f}" for w in wide]
            for s, on in winds.items()
        },
        formula="|w| h / 2 b",
        clause=f"{_table([winds])}; b its strip, or what posts beside it hold, by the lever; the worst of it all "
        f"along, {JUDGEMENT}",
        rests_on=(
            *of_roof(ground, "width_mm", "eaves_height_mm" if wall == "front" else "head_height_mm"),
            *of_posts(ground, "eaves" if wall == "front" else "head"),
            *ground.of_side_wind(wall),
        ),
    )
