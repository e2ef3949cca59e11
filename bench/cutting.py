"""Measures cutting against published data: `make bench-cutting DATA=folder` prints a table and writes it as JSON.

The folder holds one file of JSON lines for each family of instances; none of it is part of the project. One process,
one core, each instance within its limit; every plan is checked by tests/plan_checker.py, which knows nothing of how it
was made. Processor seconds are counted by default, because a machine that others use as well spoils a wall clock; both
are written. Compiling (once, where numba is there) is not counted.
"""

from __future__ import annotations

import argparse
import json
import platform
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from itertools import count
from pathlib import Path
from typing import Any

from pentice.cutting.best import best_sheets
from pentice.cutting.best_lengths import best_lengths
from pentice.cutting.columns import Room
from pentice.cutting.compiled import COMPILED
from pentice.cutting.full_first import full_first
from pentice.cutting.keep import Keep, kept_of
from pentice.cutting.packing import Board, Limits, Packed, Packing, Rectangle
from tests.plan_checker import faults_of_plan

ROOT = Path(__file__).resolve().parent.parent
OUT = ROOT / "bench" / "out"
Instance = dict[str, Any]
Result = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line of the table: which files, which limits in seconds, and what to say of the results."""

    files: tuple[str, ...]
    limits: tuple[float, ...]
    says: Callable[[list[Instance], list[Result]], str]
    aims: tuple[str, ...]


def best_known(instance: Instance) -> int | None:
    """The best value of other work that stands with an instance."""
    for key in ("opt", "ub_3stage_guillotine", "ub_3stage_homogenous", "ub_guillotine", "ub"):
        if key in instance["best"]:
            return int(instance["best"][key])
    return None


def says_total(instances: list[Instance], results: list[Result]) -> str:
    """Sum of costs, how many reach the best known, and how many are proven."""
    known = [best_known(i) or 0 for i in instances]
    cost = sum(r["cost"] for r in results)
    worse = sum(r["cost"] > k for r, k in zip(results, known, strict=True))
    better = sum(r["cost"] < k for r, k in zip(results, known, strict=True))
    proven = sum(r["proven"] for r in results)
    part = f"sum {cost} (best known {sum(known)}, {100 * (cost / sum(known) - 1):+.2f} %)"
    return f"{part}; {worse} worse, {better} better; proven {proven} of {len(results)}"


def says_use(instances: list[Instance], results: list[Result]) -> str:
    """The same, and the mean share of the sheets that is used in each class."""
    groups: dict[str, list[float]] = {}
    for instance, result in zip(instances, results, strict=True):
        sheets = [instance["stock"][s["stock"]] for s in result["plan"]["sheets"]]
        used = instance["item_area"] / sum(s["w"] * s["h"] for s in sheets)
        groups.setdefault(instance["group"], []).append(used)
    means = ", ".join(f"{g} {100 * sum(u) / len(u):.2f}" for g, u in sorted(groups.items()))
    every = [u for group in groups.values() for u in group]
    return f"{says_total(instances, results)}; used {100 * sum(every) / len(every):.2f} % ({means})"


def says_gap(instances: list[Instance], results: list[Result]) -> str:
    """The gap to our own bound."""
    gaps = [100 * (r["cost"] - r["bound"]) / max(1, r["bound"]) for r in results]
    proven = sum(r["proven"] for r in results)
    part = f"gap to own bound: mean {sum(gaps) / len(gaps):.3f} %, greatest {max(gaps):.2f} %"
    return f"{part}; proven {proven} of {len(gaps)}"


LINES = (
    Line(
        files=("2d_class500",),
        limits=(1.0, 10.0),
        says=says_total,
        aims=("at most 3620", "at most 3612, over 80 % proven"),
    ),
    Line(
        files=("2d_orlib", "2d_cintra_demand"),
        limits=(1.0,),
        says=says_total,
        aims=("equal to best known in all",),
    ),
    Line(
        files=("2d_vsbp_hopper",),
        limits=(1.0, 10.0),
        says=says_use,
        aims=("+1.5 %", "better; use above 97.85 %"),
    ),
    Line(
        files=("2d_vsbp_pisinger",),
        limits=(1.0, 10.0),
        says=says_use,
        aims=("+1.5 %", "better; use above 90.66 %"),
    ),
    Line(
        files=("2d_vsbp_ortmann",),
        limits=(1.0, 10.0),
        says=says_use,
        aims=("+1.5 %", "better; use above 95.24 %"),
    ),
    Line(files=("2d_vsbp_cintra",), limits=(1.0, 10.0), says=says_use, aims=("+1.5 %", "better")),
    Line(
        files=("1d_falkenauer", "1d_scholl", "1d_schwerin", "1d_waescher", "1d_hard28"),
        limits=(1.0, 10.0),
        says=says_total,
        aims=("all optimal but for at most 5", "all optimal"),
    ),
    Line(files=("1d_bars",), limits=(0.1, 1.0), says=says_gap, aims=("gap below 0.5 %", "gap below 0.05 %")),
    Line(
        files=("1d_multistock",),
        limits=(0.1, 1.0),
        says=says_gap,
        aims=("gap below 0.5 %", "gap below 0.05 %"),
    ),
    Line(files=("2d_trade",), limits=(0.1, 1.0), says=says_gap, aims=("mean gap below 4 %", "below 2 %")),
)


def solved(
    instance: Instance, seconds: float, clock: Callable[[], float], stages: int | None = None
) -> Result:
    """One instance within its limit, its plan as the checker reads it."""
    began, wall = clock(), time.perf_counter()

    def stop() -> bool:
        return clock() - began > seconds

    flat = instance["kind"] == "1d"
    keep = _keep(instance)
    if flat:
        end = instance.get("end_trim", 0)
        found = best_lengths(
            [(i["l"], i["d"]) for i in instance["items"]],
            [
                Room(
                    length=s["l"] - (0 if s.get("offcut") else 2 * end),
                    cost=int(s["cost"]),
                    count=s["qty"],
                    paid=s["l"],
                )
                for s in instance["stock"]
            ],
            kerf=instance["kerf"],
            keep=keep,
            limits=Limits(stop=stop),
        )
    else:
        found = best_sheets(
            [Rectangle(width=i["w"], height=i["h"], count=i["d"]) for i in instance["items"]],
            _boards(instance),
            kerf=instance["kerf"],
            keep=keep,
            limits=Limits(stop=stop, stages=stages),
        )
    taken = clock() - began
    if found is None:
        raise SystemExit(f"{instance['id']}: no plan was found within {seconds} s")
    plan = {"lengths" if flat else "sheets": _stock_pieces(instance, found, keep)}
    return {
        "id": instance["id"],
        "limit": seconds,
        "cost": found.cost,
        "bound": found.bound,
        "proven": found.proven,
        "seconds": round(taken, 3),
        "wall_seconds": round(time.perf_counter() - wall, 3),
        "plan": plan,
        "stages": found.stages,
    }


def _keep(instance: Instance) -> Keep | None:
    rule = instance.get("offcut_rule")
    if rule is None:
        return None
    share = Fraction(str(next(v for k, v in rule.items() if k.startswith("value_fraction"))))
    if instance["kind"] == "1d":
        return Keep(width=rule["min_l"], height=1, share=share)
    return Keep(width=rule["min_w"], height=rule["min_h"], share=share)


def _boards(instance: Instance) -> list[Board]:
    trim = instance.get("trim_edge", 0)
    return [
        Board(
            width=s["w"],
            height=s["h"],
            cost=int(s["cost"]),
            count=s["qty"],
            trim=0 if s.get("offcut") else trim,
        )
        for s in instance["stock"]
    ]


def _stock_pieces(instance: Instance, found: Packing, keep: Keep | None) -> list[dict[str, Any]]:
    """The plan in the form of the design: each piece named by its kind and its number among them."""
    given: dict[int, int] = {}
    return [_stock_piece(instance, packed, keep, given) for packed in found.boards]


def _stock_piece(
    instance: Instance, packed: Packed, keep: Keep | None, given: dict[int, int]
) -> dict[str, Any]:
    kept = kept_of(packed, keep) if keep is not None else ()
    names = []
    for place in packed.places:
        given[place.kind] = given.get(place.kind, -1) + 1
        names.append(f"{place.kind}.{given[place.kind]}")
    if instance["kind"] == "1d":
        stock = instance["stock"][packed.board]
        trim = 0 if stock.get("offcut") else instance.get("end_trim", 0)
        return {
            "stock": packed.board,
            "pieces": [
                {"piece": name, "at_mm": p.x + trim, "length_mm": p.width}
                for name, p in zip(names, packed.places, strict=True)
            ],
            "offcuts": [{"at_mm": p.x + trim, "length_mm": p.width} for p in kept],
        }
    return {
        "stock": packed.board,
        "placements": [
            {"piece": name, "x_mm": p.x, "y_mm": p.y, "width_mm": p.width, "length_mm": p.height}
            for name, p in zip(names, packed.places, strict=True)
        ],
        "offcuts": [{"x_mm": p.x, "y_mm": p.y, "width_mm": p.width, "length_mm": p.height} for p in kept],
    }


def warm_up() -> None:
    """Compile what can be compiled before anything is timed."""
    best_sheets(
        [Rectangle(width=6, height=6, count=3)],
        [Board(width=10, height=13, cost=4)],
        kerf=0,
        limits=Limits(rounds=40),
    )
    # A windmill fills its square, but straight cuts cannot make it: the search goes on for all its rounds.
    best_sheets(
        [Rectangle(width=w, height=h, count=n) for w, h, n in ((6, 4, 2), (4, 6, 2), (2, 2, 1))],
        [Board(width=10, height=10, cost=4)],
        kerf=0,
        limits=Limits(rounds=40),
    )
    # Several of a kind: sheets filled by a table first.
    alike = [Rectangle(width=6, height=5, count=4), Rectangle(width=7, height=4, count=3)]
    several = full_first(alike, [Board(width=16, height=14, cost=1)], kerf=0, seed=1)
    if several is not None:
        several.advance(3, Limits(rounds=10))
    # Rests that are worth something: tables of patterns, and coarse ones where a stop is given.
    asked = count()
    for limits in (Limits(rounds=100), Limits(stop=lambda: next(asked) > 100)):
        best_sheets(
            [Rectangle(width=410, height=330, count=5), Rectangle(width=290, height=570, count=4)],
            [Board(width=1000, height=1200, cost=400), Board(width=900, height=1300, cost=401, trim=2)],
            kerf=1,
            keep=Keep(width=200, height=200, share=Fraction(1, 2)),
            limits=limits,
        )
    best_lengths([(5, 3), (4, 5)], [Room(length=12, cost=4)], kerf=0, limits=Limits(rounds=40))
    # One that the exact choice is needed for.
    pieces = [(19, 3), (23, 2), (31, 1), (38, 2), (40, 2), (50, 1), (54, 1)]
    best_lengths(pieces, [Room(length=100, cost=1)], kerf=0, limits=Limits(rounds=5))


def main() -> None:
    """Read the data, run every line, check every plan, print the table, write the JSON."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("data", type=Path, help="the folder with the instances")
    words.add_argument("--only", default="", help="only files whose name has this")
    words.add_argument("--limit", type=float, help="only lines with this limit in seconds")
    words.add_argument("--stages", type=int, help="at most so many stages of cuts on a sheet")
    words.add_argument("--every", type=int, default=1, help="only every so manieth instance")
    words.add_argument("--clock", choices=("processor", "wall"), default="processor")
    words.add_argument("--out", type=Path, default=OUT / "cutting.json")
    asked = words.parse_args()
    clock = time.process_time if asked.clock == "processor" else time.perf_counter
    inner = "compiled" if COMPILED else "plain Python"
    print(
        f"inner loops: {inner}; Python {platform.python_version()}; one process; {asked.clock} seconds",
        flush=True,
    )
    warm_up()
    written: list[Result] = []
    faulty = 0
    for line in LINES:
        names = [name for name in line.files if asked.only in name]
        instances = [
            json.loads(text)
            for name in names
            for text in (asked.data / f"{name}.jsonl")
            .read_text(encoding="utf-8")
            .splitlines()[:: asked.every]
        ]
        for limit, aim in zip(line.limits, line.aims, strict=True):
            if not instances or asked.limit not in (None, limit):
                continue
            results = [solved(instance, limit, clock, asked.stages) for instance in instances]
            for instance, result in zip(instances, results, strict=True):
                for fault in faults_of_plan(instance, result):
                    faulty += 1
                    print(f"  {instance['id']}: {fault}", flush=True)
            over = max(r["seconds"] for r in results)
            print(
                f"{' '.join(names)} | {len(results)} | {limit:g} s (longest {over:.2f}) | {aim} |", flush=True
            )
            print(f"    {line.says(instances, results)}", flush=True)
            written += results
    asked.out.parent.mkdir(parents=True, exist_ok=True)
    asked.out.write_text(
        json.dumps({"loops": inner, "clock": asked.clock, "results": written}), encoding="utf-8"
    )
    print(f"{len(written)} plans checked, {faulty} faults; written to {asked.out}")
    sys.exit(1 if faulty else 0)


if __name__ == "__main__":
    main()
