"""Times the engine: `make bench` prints a table and writes bench/out/bench.json. Never a test: machines differ.

Warm solves of each example with and without cutting, `pentice solve` and `pentice pack` as whole processes (a
second start: Python has compiled its modules), how a solve grows from 5 to 200 bays, and beams per second.
"""

from __future__ import annotations

import json
import math
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from pentice.advice.complete import complete
from pentice.catalogue.reading import read_catalogue
from pentice.job.model import Job
from pentice.job.reading import job_from_text
from pentice.job.template import example_names, example_text
from pentice.job.writing import with_keys
from pentice.pipeline import assess, solve

ROOT = Path(__file__).resolve().parent.parent
OUT = ROOT / "bench" / "out"
RUNS = 7


def median_ms(run: Callable[[], object], runs: int = RUNS) -> float:
    """Median of several runs after one warm-up [ms]."""
    run()
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        run()
        times.append((time.perf_counter() - start) * 1000.0)
    return statistics.median(times)


def process_s(kept: Path, *words: str) -> float:
    """Median of three whole `pentice` processes [s] after a first one.

    Python keeps what it has compiled, unless it is told not to: here in a folder of the bench, so that the times are
    those of a second start on a user's machine, whatever the surroundings say.
    """
    surroundings = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    surroundings["PYTHONPYCACHEPREFIX"] = str(kept)
    times = []
    for first in (True, False, False, False):
        start = time.perf_counter()
        done = subprocess.run(
            [sys.executable, "-m", "pentice", *words], capture_output=True, check=False, env=surroundings
        )
        if first:
            continue
        times.append(time.perf_counter() - start)
        if done.returncode > 1:
            raise SystemExit(
                f"pentice {' '.join(words)} ended with {done.returncode}: {done.stderr.decode()}"
            )
    return statistics.median(times)


def growth(job: Job) -> dict[str, object]:
    """Time of the checks from 5 to 200 bays, and the exponent fitted to it; cutting apart."""
    catalogue = read_catalogue()
    points = []
    for bays in (5, 10, 25, 50, 100, 200):
        width = 70.0 + 480.0 * bays
        spans = math.ceil((width - 96.0) / 2000.0)
        more: dict[str, object] = {
            "roof.width_mm": width,
            "frame.bay_count": bays,
            "frame.posts_at_mm": [48.0 + (width - 96.0) * i / spans for i in range(spans + 1)],
            "gutter.outlets_at_mm": [],
        }
        wide = with_keys(job, more)
        points.append((bays, median_ms(lambda wide=wide: assess(wide, catalogue), 3)))  # type: ignore[misc]  # bound now
    xs = [math.log(bays) for bays, _ in points]
    ys = [math.log(ms) for _, ms in points]
    x, y = statistics.fmean(xs), statistics.fmean(ys)
    slope = sum((a - x) * (b - y) for a, b in zip(xs, ys, strict=True)) / sum((a - x) ** 2 for a in xs)
    return {"bays_ms": [[bays, round(ms, 2)] for bays, ms in points], "exponent": round(slope, 3)}


def beams_per_second(count: int = 400) -> dict[str, int]:
    """Rafters under a drift and a point load, all at once; and load cases of a beam over five posts."""
    import numpy as np

    from pentice.mechanics.beam import Beam, BeamLoads, overhang_beams
    from pentice.mechanics.continuous import ContinuousBeam, continuous_beam
    from pentice.mechanics.lines import drift_line, even_line

    rafters = [
        BeamLoads(
            beam=Beam(span_mm=span, overhang_mm=300.0, ei_n_mm2=5e11, shear_n=8e6),
            lines=(even_line(span + 300.0, 0.3), drift_line(span + 300.0, 0.8, 1.0, 2000.0)),
            cases=((((0, 1.35), (1, 1.5)), ((span + 300.0, 200.0),)),),
        )
        for span in (2500.0 + 5.0 * i for i in range(count))
    ]
    nodes = tuple(500.0 * i for i in range(17))
    over_posts = ContinuousBeam(nodes_mm=nodes, held=(0, 4, 8, 12, 16), ei_n_mm2=3e12)
    lines, points = np.full((count, 16, 2), 0.1), np.linspace(500.0, 1500.0, 17 * count).reshape(count, 17)
    return {
        "rafters_per_s": round(count / median_ms(lambda: overhang_beams(rafters)) * 1000.0),
        "beam_cases_per_s": round(
            count / median_ms(lambda: continuous_beam(over_posts, lines, points).stretch_sags_mm) * 1000.0
        ),
    }


def main() -> None:
    """Run everything, print the table, write the JSON."""
    catalogue = read_catalogue()
    rows = []
    folder = Path(tempfile.mkdtemp(prefix="pentice-bench-"))
    try:
        for name in example_names():
            job = complete(job_from_text(example_text(name)), catalogue)
            kept, pack = folder / "compiled", str(folder / name)
            path = str(ROOT / "src" / "pentice" / "examples" / f"{name}.toml")
            rows.append(
                {
                    "example": name,
                    "checks_ms": round(median_ms(lambda job=job: assess(job, catalogue)), 1),  # type: ignore[misc]  # bound now
                    "solve_ms": round(median_ms(lambda job=job: solve(job, catalogue)), 1),  # type: ignore[misc]  # bound now
                    "solve_process_s": round(process_s(kept, "solve", path), 2),
                    "pack_process_s": round(process_s(kept, "pack", path, "--out", pack), 2),
                }
            )
            print(rows[-1], flush=True)
        grown = growth(complete(job_from_text(example_text("cycle-shelter")), catalogue))
    finally:
        shutil.rmtree(folder, ignore_errors=True)
    print(grown)
    beams = beams_per_second()
    print(beams)
    OUT.mkdir(parents=True, exist_ok=True)
    (OUT / "bench.json").write_text(
        json.dumps({"examples": rows, "growth": grown, "beams": beams}, indent=1) + "\n", encoding="utf-8"
    )
    print(f"written to {(OUT / 'bench.json').relative_to(ROOT)}")


if __name__ == "__main__":
    main()
