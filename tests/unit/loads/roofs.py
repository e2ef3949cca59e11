"""Roofs that the tests of the loads stand on: one plain lean-to, and what a test changes of it."""

from __future__ import annotations

from typing import Any

from pentice.job.model import Job
from pentice.job.reading import job_from_data
from pentice.job.shape import roof_shape
from pentice.loads.stage import loads_on
from pentice.loads.values import Dead, Loads
from pentice.standards.annex import Annex, load_annex

NO_WEIGHT = Dead(sheet_kn_m2=0.03, bar_kn_m=0.02, rafter_kn_m=0.05)

PLAIN: dict[str, dict[str, Any]] = {
    "site": {
        "altitude_m": 100.0,
        "ground_snow_kn_m2": 0.6,
        "vb0_m_s": 24.0,
        "terrain": "III",
        "distance_to_sea_km": 10.0,
        "imposed_kn_m2": 0.4,
        "imposed_point_kn": 1.0,
    },
    "house": {
        "depth_mm": 8000.0,
        "wall_top_above_mm": 2500.0,
        "upper_slope_plan_mm": 4000.0,
        "roof_pitch_deg": 35.0,
        "roof_drains_to_us": True,
    },
    "roof": {
        "use": "lean-to",
        "width_mm": 5200.0,
        "projection_mm": 3500.0,
        "pitch_deg": 10.0,
        "head_height_mm": 2900.0,
        "overhang_on_slope_mm": 0.0,
        "left": "closed",
        "right": "closed",
        "front": "closed",
    },
}


def job_with(**changes: dict[str, Any]) -> Job:
    """The plain job with some keys of its tables changed; None takes a key out."""
    names = (*PLAIN, *(name for name in changes if name not in PLAIN))
    data = {name: {**PLAIN.get(name, {}), **changes.get(name, {})} for name in names}
    return job_from_data(
        {name: {k: v for k, v in table.items() if v is not None} for name, table in data.items()}
    )


def loads_of(job: Job, annex: Annex | None = None) -> Loads:
    """The loads of a job by the annex it names, or by another."""
    return loads_on(job, roof_shape(job), annex or load_annex(job.site.annex), NO_WEIGHT)


OPEN = {"use": "canopy", "left": "open", "right": "open", "front": "open"}
