"""A plain roof and its products for tests: small values of our own, no catalogue file."""

from __future__ import annotations

from decimal import Decimal

from pentice.catalogue.bars import Bar, Profile
from pentice.catalogue.fixings import Button, Screw
from pentice.catalogue.model import StockLength
from pentice.catalogue.parts import Parts
from pentice.catalogue.sheets import Sheet, StockSheet
from pentice.catalogue.timbers import Timber
from pentice.job.model import Job
from pentice.job.reading import job_from_data
from pentice.job.shape import roof_shape
from pentice.setting_out.stage import set_out
from pentice.setting_out.values import Bay, SettingOut

_LENGTHS = (StockLength(length_mm=6000.0, price=Decimal(50)),)
BAR = Bar(
    id="bar",
    name="bar",
    kind="rafter-supported",
    stem_mm=12.0,
    seat_mm=60.0,
    rebate_mm=24.0,
    hole_gauge_mm=20.0,
    sheet_depths_mm=(16.0,),
    mass_kg_m=1.0,
    lengths=_LENGTHS,
)
PARTS = Parts(
    sheet=Sheet(
        id="sheet",
        name="sheet",
        depth_mm=16.0,
        walls=3,
        rib_pitch_mm=20.0,
        first_rib_mm=10.0,
        mass_kg_m2=2.7,
        alpha_per_k=65e-6,
        tints=("opal",),
        stock=tuple(
            StockSheet(width_mm=w, length_mm=n, price=Decimal(60))
            for w in (980.0, 1200.0)
            for n in (3000.0, 3500.0)
        ),
    ),
    tint="opal",
    bar=BAR,
    head_profile=Profile(
        id="head", name="head", use="head", back_mm=3.0, arm_mm=40.0, inside_mm=17.5, lengths=_LENGTHS
    ),
    foot_profile=Profile(
        id="foot",
        name="foot",
        use="foot",
        back_mm=2.0,
        arm_mm=30.0,
        inside_mm=17.5,
        drain_gap_mm=3.0,
        lengths=_LENGTHS,
    ),
    edge_profile=Profile(
        id="edge", name="edge", use="edge", back_mm=3.0, arm_mm=40.0, inside_mm=17.5, lengths=_LENGTHS
    ),
    verge_trim=None,
    screw=Screw(id="s", name="s", d_mm=5.0, root_mm=3.3, length_mm=60.0, thread_mm=40.0, price=Decimal(1)),
    timber=Timber.model_validate(
        {
            "id": "c24",
            "name": "C24",
            "class": "C24",
            "sizes_mm": [[47.0, 125.0]],
            "price_m3": Decimal(400),
            "lengths": [{"length_mm": 4800.0}],
        }
    ),
    button=Button(id="b", name="b", shank_mm=10.0, depth_mm=16.0, price=Decimal(1)),
    gutter=None,
)


def job_of(*, width: float, rafter: float, bays: int, projection: float = 2950.0, edges: str = "bar") -> Job:
    """A plain job: 10 degrees, 50 over, cut at 12 degC, 60 hottest, -15 coldest."""
    return job_from_data(
        {
            "roof": {"use": "veranda", "width_mm": width, "projection_mm": projection, "pitch_deg": 10},
            "frame": {"rafter_mm": [rafter, 125], "bay_count": bays},
            "glazing": {
                "left_edge": edges,
                "right_edge": edges,
                "sheet_fit_c": 12,
                "sheet_most_c": 60,
                "sheet_least_c": -15,
            },
            "screws": {"spacing_mm": 400, "spacing_between": "successive holes"},
        }
    )


def setting_out_of(job: Job) -> SettingOut:
    """The setting-out of a job with the plain products."""
    return set_out(job, roof_shape(job), PARTS)


def bay_of(job: Job) -> Bay:
    """Its first bay."""
    return setting_out_of(job).plane.bays[0]
