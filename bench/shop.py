"""Measures a shop's day: 2,000 pieces of 60 jobs cut together on two processes, and how a sweep grows.

The jobs are made up by rule from a fixed seed: sizes of lean-to roofs, no data of anybody. A sweep is as many rounds of
the general search as there are pieces: each is taken out and put back about once.
"""

from __future__ import annotations

import json
import math
import random
import sys
import time
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path
from resource import RUSAGE_CHILDREN, getrusage

from pentice.cutting.compiled import COMPILED
from pentice.cutting.packing import Board, Limits, Rectangle, Search
from pentice.cutting.values import LengthPiece, LengthStock, SheetPiece, SheetStock
from pentice.together.cutting import cut_family, cut_lengths_done, cut_sheets_done, made_by
from pentice.together.lots import Ask, P, S, Wanted

JOBS, PIECES, PROCESSES = 60, 2000, 2
_SWEPT = 6000
SIZES = (100, 200, 500, 1000, 2000)
OUT = Path(__file__).resolve().parent / "out" / "shop.json"
_WIDTHS = ((980, 0.0050), (1050, 0.0049), (1200, 0.0048), (2100, 0.0050))
_LENGTHS = (2000, 2500, 3000, 4000, 6000, 7000)


def jobs_of(pieces: int, seed: int = 1) -> list[tuple[list[SheetPiece], list[LengthPiece]]]:
    """Sheets and lengths of made-up jobs, a 60th of the pieces each: sheets, a bar more, and profiles."""
    chance = random.Random(seed)  # noqa: S311  # made-up jobs, not secrets
    found = []
    for job in range(JOBS):
        count = pieces * (job + 1) // JOBS - pieces * job // JOBS
        bays = max(1, (count - 1) // 3)
        width, length = chance.randint(600, 1000), chance.randint(1800, 4200)
        product = chance.choice(("opal", "clear", "bronze"))
        sheets = [_sheet(f"J{job} S{n}", f"sheets.{product}", width, length) for n in range(bays)]
        bars = [
            LengthPiece(id=f"J{job} R{n}", item="bars.b", length_mm=length + 20)
            for n in range(min(count, bays + 1))
        ]
        profiles = [
            LengthPiece(id=f"J{job} H{n}", item="profiles.h", length_mm=width + 60)
            for n in range(count - bays - len(bars))
        ]
        found.append((sheets, [*bars, *profiles]))
    return found


def _sheet(id: str, item: str, width: int, length: int) -> SheetPiece:
    return SheetPiece(
        id=id,
        item=item,
        width_mm=width,
        length_mm=length,
        least_width_mm=width - 6,
        most_width_mm=width,
        least_length_mm=length - 6,
        most_length_mm=length,
        rib_at_most_mm=(14.0, 14.0),
    )


def _sheet_stock(item: str) -> tuple[SheetStock, ...]:
    return tuple(
        SheetStock(
            id=f"{w}x{n}",
            item=item,
            width_mm=w,
            length_mm=n,
            price=int(w * n * rate),
            count=None,
            offcut=False,
            rib_pitch_mm=20.0,
            first_rib_mm=10.0,
        )
        for w, rate in _WIDTHS
        for n in _LENGTHS
    )


def _length_stock(item: str) -> tuple[LengthStock, ...]:
    return tuple(
        LengthStock(id=f"{n}", item=item, length_mm=n, price=int(n * 0.9), count=None, offcut=False)
        for n in (2100, 3000, 4000, 6000, 7000)
    )


def _lots(
    pieces: int,
) -> tuple[list[list[Wanted[SheetPiece, SheetStock]]], list[list[Wanted[LengthPiece, LengthStock]]]]:
    """One lot for each product, each job asking for its own."""
    jobs = jobs_of(pieces)
    sheets = [
        [_wanted(item, [a for a, _ in jobs], _sheet_stock(item), partial(cut_sheets_done, kerf_mm=3))]
        for item in sorted({p.item for some, _ in jobs for p in some})
    ]
    lengths = [
        [_wanted(item, [b for _, b in jobs], _length_stock(item), partial(cut_lengths_done, kerf_mm=4))]
        for item in sorted({p.item for _, some in jobs for p in some})
    ]
    return sheets, lengths


def _wanted(item: str, by_job: list[list[P]], stock: tuple[S, ...], cut: object) -> Wanted[P, S]:
    asks = tuple(
        Ask(reference=f"J{k}", pieces=mine, stock=stock, names=frozenset())
        for k, some in enumerate(by_job)
        if (mine := tuple(p for p in some if p.item == item))
    )
    return Wanted(item=item, kerf_mm=4, asks=asks, offcuts=(), cut=cut)  # type: ignore[arg-type]  # a partial is called alike


def day() -> dict[str, float]:
    """The whole day on two processes: pieces, seconds, cost, bound, gap."""
    sheets, lengths = _lots(PIECES)
    begun, used = time.perf_counter(), getrusage(RUSAGE_CHILDREN)
    with ProcessPoolExecutor(PROCESSES) as pool:
        works = [*(partial(cut_family, f) for f in sheets), *(partial(cut_family, f) for f in lengths)]
        cut = [row for rows in made_by(pool, works) for row in rows]
    seconds, after = time.perf_counter() - begun, getrusage(RUSAGE_CHILDREN)
    cost, bound = sum(d.cost for d, _ in cut), sum(d.bound for d, _ in cut)
    alone = sum(lot.alone for _, lot in cut)
    return {
        "pieces": sum(len(a) + len(b) for a, b in jobs_of(PIECES)),
        "seconds": seconds,
        "processor_seconds": after.ru_utime + after.ru_stime - used.ru_utime - used.ru_stime,
        "cost": cost,
        "bound": bound,
        "gap_percent": 100.0 * (cost / bound - 1.0),
        "saved_percent": 100.0 * (1.0 - cost / alone),
    }


def sweep_seconds(pieces: int) -> float:
    """Processor seconds of one sweep over so many sheets of the general search, the mean of several; its first plan is
    not counted."""
    sheets = [p for some, _ in jobs_of(3 * pieces + 2 * JOBS) for p in some][:pieces]
    wanted = [Rectangle(width=p.width_mm, height=p.length_mm, count=1) for p in sheets]
    boards = [Board(width=s.width_mm, height=s.length_mm, cost=s.price) for s in _sheet_stock("sheet")]
    search = Search.begun(wanted, boards, 3, Limits(seed=1))
    if search is None:
        raise SystemExit("a made-up piece fits no stock")
    search.advance(0, Limits(rounds=40))
    sweeps = max(3, _SWEPT // pieces) if COMPILED else 1
    begun = time.process_time()
    search.advance(0, Limits(rounds=sweeps * pieces))
    return (time.process_time() - begun) / sweeps


def exponent(sizes: list[int], seconds: list[float]) -> float:
    """Slope of a straight line through the logarithms: 1 for time in proportion."""
    xs, ys = [math.log(n) for n in sizes], [math.log(t) for t in seconds]
    x, y = sum(xs) / len(xs), sum(ys) / len(ys)
    return sum((a - x) * (b - y) for a, b in zip(xs, ys, strict=True)) / sum((a - x) ** 2 for a in xs)


def measured() -> dict[str, object]:
    """Everything, printed as a table and written as JSON."""
    sweeps = {n: sweep_seconds(n) for n in SIZES}
    found = day()
    grows = exponent([*sweeps], [*sweeps.values()])
    nlogn = exponent([*sweeps], [n * math.log(n) for n in sweeps])
    loops = "compiled" if COMPILED else "plain Python"
    print(
        f"{found['pieces']:.0f} pieces of {JOBS} jobs, {PROCESSES} processes, {loops}: "
        f"{found['seconds']:.1f} s ({found['processor_seconds']:.1f} processor s), gap "
        f"{found['gap_percent']:.2f} %, {found['saved_percent']:.2f} % saved against each job by itself"
    )
    print("seconds of a sweep: " + ", ".join(f"{n} pieces {t:.5f}" for n, t in sweeps.items()))
    print(f"a sweep grows as n^{grows:.2f} (n log n over the same sizes: n^{nlogn:.2f})")
    result: dict[str, object] = {"day": found, "sweeps": sweeps, "exponent": grows, "n_log_n": nlogn}
    OUT.parent.mkdir(parents=True, exist_ok=True)
    OUT.write_text(json.dumps(result), encoding="utf-8")
    return result


if __name__ == "__main__":
    measured()
    sys.exit(0)
