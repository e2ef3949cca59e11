"""What must hold for every roof: mirrored roofs mirror, more snow is never less demand, nothing is left over."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.checks.values import WORST_FIRST, Check, Verdict
from pentice.design import Design
from pentice.errors import InputError, NoSolution, OutsideScope
from pentice.job.model import Job
from pentice.job.writing import with_keys
from pentice.pipeline import solve
from tests.designs import EXAMPLES, assessed, catalogue, changed, design_of, example
from tests.tries import tries


def mirrored(job: Job) -> Job:
    """The same roof as seen in a mirror: everything along the wall counted from the other end."""
    width = job.roof.width_mm or 0.0
    roof, frame = job.roof, job.frame

    def turned(places: Sequence[float]) -> list[float]:
        return [width - x for x in reversed(places)]

    other = {"left": "right", "right": "left"}
    changes: dict[str, object] = {
        "roof.left": roof.right,
        "roof.right": roof.left,
        "roof.diagonals_mm": None if roof.diagonals_mm is None else list(reversed(roof.diagonals_mm)),
        "roof.wall_offsets_mm": [[width - x, o] for x, o in reversed(roof.wall_offsets_mm)],
        "roof.openings": [
            {**o.model_dump(exclude_none=True), "wall": other.get(o.wall, o.wall)} for o in roof.openings
        ],
        "side_sheets": [
            {
                "side": other.get(s.side, s.side),
                "width_mm": s.width_mm,
                "left_mm": s.right_mm,
                "right_mm": s.left_mm,
            }
            for s in reversed(job.side_sheets)
        ],
        "glazing.left_edge": job.glazing.right_edge,
        "glazing.right_edge": job.glazing.left_edge,
        "frame.posts_at_mm": turned(frame.posts_at_mm),
        "frame.post_feet_mm": list(reversed(frame.post_feet_mm)),
        "frame.head_posts_at_mm": turned(frame.head_posts_at_mm),
        "frame.head_post_feet_mm": list(reversed(frame.head_post_feet_mm)),
        "frame.wall_fixings_at_mm": turned(frame.wall_fixings_at_mm),
        "gutter.outlets_at_mm": turned(job.gutter.outlets_at_mm),
    }
    if frame.rafter_centres_mm is not None:
        changes["frame.rafter_centres_mm"] = turned(frame.rafter_centres_mm)
    return with_keys(job, changes)


def unlike(seen: Sequence[Check], mirror: Sequence[Check]) -> list[str]:
    """What a roof and its image in a mirror do not have in common: needs, strengths and verdicts of each rule."""
    found: list[str] = []
    rows: dict[str, tuple[list[Row], list[Row]]] = {}
    for k, checks in enumerate((seen, mirror)):
        for c in checks:
            rows.setdefault(c.id, ([], []))[k].append((c.demand or 0.0, c.capacity or 0.0, c.verdict))
    for id, (here, there) in rows.items():
        if len(here) != len(there):
            found.append(f"{id}: {len(here)} and {len(there)} of them")
            continue
        left = sorted(there)
        for row in sorted(here):
            twin = next((r for r in left if alike(r, row)), None)
            if twin is None:
                found.append(f"{id}: {row} has no twin among {left}")
            else:
                left.remove(twin)
    return found


Row = tuple[float, float, Verdict]


def alike(a: Row, b: Row) -> bool:
    """Two checks that say the same, but for rounding."""
    return a[2] == b[2] and a[:2] == pytest.approx(b[:2], rel=1e-6, abs=1e-6)


def worst(checks: tuple[Check, ...]) -> dict[str, tuple[Verdict, float | None]]:
    """Worst verdict and greatest use of each rule."""
    found: dict[str, tuple[Verdict, float | None]] = {}
    for check in checks:
        used = None if check.utilisation is None else round(check.utilisation, 6)
        before = found.get(check.id)
        if before is None or rank(check.verdict, used) < rank(*before):
            found[check.id] = (check.verdict, used)
    return found


def rank(verdict: Verdict, used: float | None) -> tuple[int, float]:
    """The worst comes first: by verdict, then by use."""
    return WORST_FIRST.index(verdict), -(used or 0.0)


@pytest.mark.parametrize("name", (*EXAMPLES, "plant-lobby"))
def test_a_mirrored_roof_gives_the_mirrored_result(name: str) -> None:
    """Sizes in reverse order, the same verdicts and uses, the same price."""
    job = example(name)
    one, other = solve(job, catalogue()), solve(mirrored(job), catalogue())
    sizes = [(bay.width_mm.cut, bay.length_mm.cut) for bay in one.setting_out.plane.bays]
    assert [(bay.width_mm.cut, bay.length_mm.cut) for bay in reversed(other.setting_out.plane.bays)] == sizes
    assert unlike(one.checks, other.checks) == []
    assert other.price.gross == one.price.gross


SNOW_LOADS_THEM = (
    "rafter-bending",
    "rafter-shear",
    "rafter-sag",
    "rafter-sag-final",
    "rafter-bearing",
    "sheet-down",
)


@tries(12)
@given(
    st.sampled_from(EXAMPLES),
    st.floats(1500, 9000),
    st.floats(550, 1150),
    st.tuples(st.sampled_from(("open", "closed", "wall")), st.sampled_from(("open", "closed", "wall"))),
)
def test_any_mirrored_roof_gives_the_mirrored_result(
    name: str, width: float, bay: float, sides: tuple[str, str]
) -> None:
    """Widths, sides and side walls at random, each end on a bar. Tolerance: uses to 1e-6."""
    if not example(name).roof.attached:
        sides = ("open", "open")  # nothing else is covered there
    ends = ["wall" if side == "wall" else "bar" for side in sides]
    job = changed(
        name,
        roof__width_mm=width,
        roof__left=sides[0],
        roof__right=sides[1],
        roof__side_wall_top_above_mm=1500,
        roof__side_wall_depth_mm=6000,
        roof__openings=[],
        roof__wall_offsets_mm=[],
        roof__diagonals_mm=None,
        glazing__left_edge=ends[0],
        glazing__right_edge=ends[1],
        frame__rafter_centres_mm=None,
        frame__bay_count=max(1, round(width / bay)),
        frame__posts_at_mm=[],
        gutter__outlets_at_mm=[],
    )
    one, other = assessed(job), assessed(mirrored(job))
    sizes = [(b.width_mm.cut, b.length_mm.cut) for b in one.setting_out.plane.bays]
    assert [(b.width_mm.cut, b.length_mm.cut) for b in reversed(other.setting_out.plane.bays)] == sizes
    assert unlike(one.checks, other.checks) == []


@st.composite
def with_joined_beams(draw: st.DrawFn) -> Job:
    """A roof wider than any beam that is sold, with posts at random, some with feet at unlike levels."""
    name = draw(st.sampled_from(EXAMPLES))
    width = draw(st.one_of(st.integers(6100, 15000).map(float), st.floats(6100, 15000)))
    fields = math.ceil(width / draw(st.floats(1500, 2900)))
    even = draw(st.booleans())  # even posts: a choice of joints and its image in the mirror both fit
    shift = [0.0 if even else draw(st.floats(-250, 250)) for _ in range(fields + 1)]
    run = width - 160.0
    posts = [80.0 + run * k / fields + (s if 0 < k < fields else 0.0) for k, s in enumerate(shift)]
    feet = draw(st.lists(st.integers(-60, 60).map(float), min_size=len(posts), max_size=len(posts)))
    sides = draw(
        st.tuples(st.sampled_from(("open", "closed", "wall")), st.sampled_from(("open", "closed", "wall")))
    )
    head = []
    if not example(name).roof.attached:
        sides = ("open", "open")  # nothing else is covered there
        if draw(st.booleans()):  # posts of its own under the head beam
            head = [80.0, *(x + draw(st.floats(-250, 250)) for x in posts[1:-1]), posts[-1]]
    return changed(
        name,
        roof__width_mm=width,
        roof__left=sides[0],
        roof__right=sides[1],
        roof__side_wall_top_above_mm=1500,
        roof__side_wall_depth_mm=6000,
        roof__openings=[],
        roof__wall_offsets_mm=[],
        roof__diagonals_mm=None,
        glazing__left_edge="wall" if sides[0] == "wall" else "bar",
        glazing__right_edge="wall" if sides[1] == "wall" else "bar",
        frame__rafter_centres_mm=None,
        frame__bay_count=math.ceil(width / draw(st.floats(600, 1000))),
        frame__beam_mm=[95, 245],
        frame__posts_at_mm=posts,
        frame__post_feet_mm=draw(st.sampled_from(([], feet))),
        frame__wall_fixings_at_mm=[],
        frame__head_posts_at_mm=head,
        gutter__outlets_at_mm=[],
    )


@tries(15)
@given(with_joined_beams())
def test_a_mirrored_roof_has_its_beams_joined_over_the_mirrored_posts(job: Job) -> None:
    """Every check at every place: the same needs, strengths and verdicts, as a set. Tolerance: 1e-6 of each."""
    one, other = assessed(job), assessed(mirrored(job))
    assert unlike(one.checks, other.checks) == []


@tries(12)
@given(
    st.sampled_from(EXAMPLES),
    st.floats(1500, 9000),
    st.floats(550, 1150),
    st.sampled_from((("edge profile", "bar"), ("bar", "edge profile"), ("edge profile", "edge profile"))),
)
def test_edge_profiles_mirror_too(name: str, width: float, bay: float, ends: tuple[str, str]) -> None:
    """Sizes and verdicts: a sheet is taken from that edge of its stock at which its ribs leave most. Exact."""
    job = changed(
        name,
        roof__width_mm=width,
        roof__openings=[],
        roof__wall_offsets_mm=[],
        roof__diagonals_mm=None,
        glazing__left_edge=ends[0],
        glazing__right_edge=ends[1],
        glazing__edge_profile="edge-35",
        frame__rafter_centres_mm=None,
        frame__bay_count=max(1, round(width / bay)),
        frame__posts_at_mm=[],
        gutter__outlets_at_mm=[],
    )
    one, other = assessed(job), assessed(mirrored(job))
    sizes = [(b.width_mm.cut, b.length_mm.cut) for b in one.setting_out.plane.bays]
    assert [(b.width_mm.cut, b.length_mm.cut) for b in reversed(other.setting_out.plane.bays)] == sizes
    seen, mirror = ({id: verdict for id, (verdict, _) in worst(x.checks).items()} for x in (one, other))
    assert mirror == seen


@tries(12)
@given(st.sampled_from(EXAMPLES), st.floats(0.1, 3.0), st.floats(0.01, 1.0))
def test_more_snow_is_never_less_demand(name: str, snow: float, more: float) -> None:
    """Every check that snow loads asks for as much or more when more of it lies on the ground."""
    light = assessed(changed(name, site__ground_snow_kn_m2=snow))
    heavy = assessed(changed(name, site__ground_snow_kn_m2=snow + more))
    before = {(c.id, c.place): c.demand for c in light.checks}
    for check in heavy.checks:
        old = before.get((check.id, check.place))
        if check.id in SNOW_LOADS_THEM and check.verdict != "refused" and old is not None:
            assert check.demand is not None
            assert check.demand >= old - 1e-9


@pytest.mark.parametrize("name", EXAMPLES)
def test_last_winters_snow_is_no_help_against_wind_that_lifts(name: str) -> None:
    """Above 1000 m snow leaves creep behind (psi_2 0.2); where a beam rises in the wind more of it changes nothing."""
    before: dict[str, float] = {}
    for ground in (0.1, 0.4, 0.8):
        job = changed(
            name, site__altitude_m=1200, site__ground_snow_kn_m2=ground, site__vb0_m_s=30, site__annex="EN"
        )
        for check in assessed(job).checks:
            if check.id.endswith("beam-sag-final"):
                assert check.demand is not None
                assert check.demand >= before.get(check.id, 0.0) - 1e-9
                assert not any("-0.0000)" in step.numbers for step in check.working)
                before[check.id] = check.demand
    assert before


@pytest.mark.parametrize("name", EXAMPLES)
def test_nothing_is_forgotten(name: str) -> None:
    """Each bay has its sheet, each rafter its bar, the order buys what the cutting plan uses, payments add up."""
    design = design_of(name)
    ids = {piece.id for piece in design.pieces}
    plane = design.setting_out.plane
    assert {f"S{bay.number}" for bay in plane.bays} <= ids
    assert {f"R{rafter.number}-base" for rafter in plane.rafters if rafter.has_bar} <= ids
    bought = Counter(plan.item for plan in design.cutting.sheets)
    bought.update(plan.item for plan in design.cutting.lengths)
    ordered: Counter[str] = Counter()
    for line in design.order:
        if line.item in bought and line.part != "spare lengths":
            ordered[line.item] += int(line.quantity)
    assert ordered == bought
    assert sum((amount for _, amount in design.price.stages), Decimal(0)) == design.price.gross
    assert design.price.net + design.price.tax == design.price.gross


def assert_every_sheet_is_as_its_ticket_says(design: Design) -> None:
    """One size for each sheet: on the plan of its bay, on its piece and where it is cut from its stock."""
    placed = {p.piece: p for plan in design.cutting.sheets for p in plan.placements}
    pieces = {p.id: p for p in design.pieces if p.kind == "sheet"}
    assert placed.keys() == pieces.keys()
    for id, piece in pieces.items():
        assert (piece.width_mm, piece.length_mm) == (placed[id].width_mm, placed[id].length_mm)
        assert piece.outline_mm[2] == (piece.width_mm, piece.length_mm)
    for bay in design.setting_out.plane.bays:
        sheet = placed[f"S{bay.number}"]
        assert (bay.width_mm.cut, bay.length_mm.cut) == (sheet.width_mm, sheet.length_mm)
        assert (bay.edges.left.rib_at_mm, bay.edges.right.rib_at_mm) == sheet.rib_at_mm
        assert bay.length_mm.least <= bay.length_mm.cut or bay.length_mm.least > bay.length_mm.most


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_sheet_has_one_size(name: str) -> None:
    """A sheet that the saw leaves shorter, so that no cut has to take off a sliver, is that short everywhere."""
    assert_every_sheet_is_as_its_ticket_says(design_of(name))


@pytest.mark.parametrize(
    "left_out",
    [
        "bracing",
        "brace_kn",
        "post_base_kn",
        "wall_fixing_pull_kn",
        "hanger_up_kn",
        "pad_mm",
        "beam_mm",
    ],
)
def test_no_job_is_proved_while_a_member_is_not(left_out: str) -> None:
    """The potting bay holds; with one thing of its frame not said it is refused there, and not proved."""
    assert design_of("potting-bay").proved
    design = assessed(changed("potting-bay", **{f"frame__{left_out}": None}))
    assert {check.verdict for check in design.checks} == {"passes", "refused"}


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_example_is_complete_while_it_rests_on_typical_values(name: str) -> None:
    """Generic products have typical values: whatever holds, they are to be replaced first."""
    assert not design_of(name).summary.complete


@tries(25)
@given(
    st.floats(900, 14000),
    st.floats(600, 5200),
    st.floats(2, 35),
    st.integers(1, 14),
    st.sampled_from(["EN", "UK"]),
    st.sampled_from(["open", "closed"]),
)
def test_random_roofs_are_solved_or_refused_in_sentences(
    width: float, projection: float, pitch: float, bays: int, annex: str, side: str
) -> None:
    """Any roof within reach comes to a design, or to sentences that end in a full stop."""
    try:
        job = changed(
            "cycle-shelter",
            roof__width_mm=width,
            roof__projection_mm=projection,
            roof__pitch_deg=pitch,
            frame__bay_count=bays,
            frame__posts_at_mm=[],
            gutter__outlets_at_mm=[],
            site__annex=annex,
            site__peak_pressure_kn_m2=0.7,
            roof__left=side,
        )
        design = solve(job, catalogue())
    except (InputError, OutsideScope, NoSolution) as refusal:
        assert all(line.rstrip().endswith((".", ")")) for line in str(refusal).splitlines())
        return
    assert len(design.setting_out.plane.bays) == bays
    assert_every_sheet_is_as_its_ticket_says(design)
    for check in design.checks:
        assert check.verdict != "passes" or (check.capacity or 0.0) > 0.0
