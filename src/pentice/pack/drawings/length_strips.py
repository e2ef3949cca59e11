"""Stock lengths as strips: where each is cut, what each piece is for, and what is left."""

from __future__ import annotations

import re
from dataclasses import dataclass

from pentice.cutting.followed import followed_length
from pentice.cutting.values import LengthPlan
from pentice.design import CutAndOrdered
from pentice.drawing.lettering import text_width_mm, wrap
from pentice.drawing.scene import Area, Polyline, Primitive, Scene, Text
from pentice.pack.drawings.cut_rows import called
from pentice.pack.drawings.mullion_heads import heads_words
from pentice.pack.drawings.values import part, runs

WIDTH_MM = 180.0
HEIGHT_MM = 7.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """Stock lengths of one item that are cut alike."""

    item: str
    plans: tuple[LengthPlan, ...]
    numbers: tuple[int, ...]
    """Of the stock lengths in the plan, from 1."""

    @property
    def called(self) -> str:
        """Its name on paper: "L1 to L3"."""
        return re.sub(r"(\d+)", r"L\1", runs(list(self.numbers)))

    @property
    def plan(self) -> LengthPlan:
        """The first: all are cut like it."""
        return self.plans[0]

    def pieces(self, k: int) -> tuple[str, ...]:
        """Ids of the k-th piece, length by length."""
        return tuple(plan.pieces[k].piece for plan in self.plans)


def strips_of(design: CutAndOrdered) -> dict[str, tuple[Strip, ...]]:
    """Stock lengths by item, alike ones together."""
    groups: dict[str, dict[tuple[object, ...], list[int]]] = {}
    for number, plan in enumerate(design.cutting.lengths, 1):
        placed = tuple((p.at_mm, p.length_mm, p.slant) for p in plan.pieces)
        key = (plan.stock, plan.length_mm, plan.kerf_mm, placed)
        groups.setdefault(plan.item, {}).setdefault(key, []).append(number)
    return {
        item: tuple(
            Strip(item=item, plans=tuple(design.cutting.lengths[n - 1] for n in some), numbers=tuple(some))
            for some in by_key.values()
        )
        for item, by_key in groups.items()
    }


def item_words(design: CutAndOrdered, item: str) -> str:
    """What an item is called, with its section or its part."""
    kind, _, rest = item.partition(".")
    id, _, more = rest.partition(" ")
    table = design.catalogue.table(kind)
    name = table[id].name if id in table else rest
    return f"{name}, {more.replace('x', ' × ')}" if more else name


def left_of_strip(design: CutAndOrdered, strip: Strip) -> tuple[int, bool]:
    """What is left of one length [mm], and whether it is kept."""
    plan = strip.plan
    rest = plan.length_mm - plan.beyond_mm
    kept = any(
        o.item == strip.item and o.width_mm is None and o.length_mm == rest for o in design.cutting.offcuts
    )
    return max(rest, 0), kept


def strips_scene(design: CutAndOrdered, strips: tuple[Strip, ...]) -> Scene:
    """Strips of one item under each other, 180 mm wide on paper.

    Parameters
    ----------
    design
        A solved job.
    strips
        Of one item.
    """
    longest = max(s.plan.length_mm for s in strips)
    per_mm = (WIDTH_MM - 20.0) / longest
    content: list[Primitive] = []
    y = 0.0
    for strip in strips:
        made, used = _strip(design, strip, y, per_mm)
        content.append(part("strip", *made))
        y += used
    title = item_words(design, strips[0].item)
    return Scene(primitives=tuple(content), title=title, desc=f"{title}: where each stock length is cut.")


def strips_height(design: CutAndOrdered, strips: tuple[Strip, ...]) -> float:
    """Height of that scene [mm of paper]."""
    longest = max(s.plan.length_mm for s in strips)
    per_mm = (WIDTH_MM - 20.0) / longest
    return sum(_strip(design, s, 0.0, per_mm)[1] for s in strips)


def _strip(
    design: CutAndOrdered, strip: Strip, y: float, per_mm: float
) -> tuple[tuple[Primitive, ...], float]:
    """One strip and the paper it takes: numbers, count and stock at the left above, sizes within, names below, and the
    marks of leaning cuts."""
    plan, count = strip.plan, len(strip.plans)
    times = f"{count} × " if count > 1 else ""
    bought = f"{strip.called}: {times}{plan.length_mm} stock"
    found: list[Primitive] = [Text(at=(0.0, y + 3.0), text=bought, h_mm=2.8, weight=700)]
    if any(p.lean_mm for p in plan.pieces):
        beside = text_width_mm(bought, 2.8, 700) + 4.0
        found.append(Text(at=(beside, y + 3.0), text="backs up, heads to the left", h_mm=2.5))
    top = y + 4.6
    rows = 1
    if plan.pieces and (first := plan.pieces[0]).lean_mm:
        corner = ((0.0, top), (first.lean_mm * per_mm, top + HEIGHT_MM), (0.0, top + HEIGHT_MM))
        found.append(Area(points=corner, fill="scrap", style="narrow"))
    for k, p in enumerate(plan.pieces):
        a, b = p.at_mm * per_mm, (p.at_mm + p.length_mm) * per_mm
        outline = _leaning(a, top, b, p.lean_mm * per_mm)
        found.append(Area(points=outline, fill="white", style="wide"))
        a += p.lean_mm * per_mm  # where both edges are there
        size = str(p.length_mm)
        h = 3.5 if text_width_mm(size, 3.5, 700) < b - a - 1.0 else 2.5
        found.append(
            Text(
                at=((a + b) / 2, top + HEIGHT_MM / 2 + h / 2), text=size, h_mm=h, weight=700, anchor="middle"
            )
        )
        lines = wrap(called(design, strip.pieces(k)), max(b - a - 1.0, 9.0), 2.5)
        rows = max(rows, len(lines))
        for row, line in enumerate(lines):
            at = ((a + b) / 2, top + HEIGHT_MM + 3.6 + 3.9 * row)
            found.append(Text(at=at, text=line, h_mm=2.5, anchor="middle"))
    found += _end(design, strip, top, per_mm)
    used = 4.6 + HEIGHT_MM + 3.6 + 3.9 * (rows - 1)
    heads = heads_words(design, (id for k in range(len(plan.pieces)) for id in strip.pieces(k)))
    for said in (marks_words(plan), heads):
        for row, line in enumerate(wrap(said, WIDTH_MM, 2.5)):
            used += 3.9 if row else 4.6
            found.append(Text(at=(0.0, y + used), text=line, h_mm=2.5))
    return tuple(found), used + 4.4


def _leaning(
    left: float, top: float, right: float, lean: float
) -> tuple[tuple[float, float], tuple[float, float], tuple[float, float], tuple[float, float]]:
    """A piece whose ends lean to the right on their way down; a rectangle where they do not."""
    low = top + HEIGHT_MM
    return ((left, top), (right, top), (right + lean, low), (left + lean, low))


def marks_words(plan: LengthPlan) -> str:
    """Where the cuts of a length with leaning ends are marked, and how the saw is set; nothing where all are square.

    Parameters
    ----------
    plan
        One length of stock.

    Returns
    -------
    str
        Positions along the upper edge, which is the back of the pieces, from the left end [mm].

    Examples
    --------
    >>> from pentice.cutting.values import LengthPlacement, Slant
    >>> plumb = Slant(deg=12.0, depth_mm=145)
    >>> two = (LengthPlacement(piece="RF1", at_mm=0, length_mm=2380, slant=plumb),
    ...        LengthPlacement(piece="RF2", at_mm=2385, length_mm=2380, slant=plumb))
    >>> plan = LengthPlan(stock="r", item="timbers.r 45x145", length_mm=4800, kerf_mm=4, price=0, pieces=two)
    >>> marks_words(plan)
    'Saw at 12° from square, marks on the back from the left: 0 (cut left of it), 2380, 4765.'
    """
    if not any(p.lean_mm for p in plan.pieces):
        return ""
    runs_of: list[tuple[float, list[str]]] = []
    for turn in followed_length(plan):
        if not runs_of or turn.end_deg != runs_of[-1][0]:
            runs_of.append((turn.end_deg, []))
        runs_of[-1][1].append(f"{turn.mark_mm}{' (cut left of it)' if turn.left_of_mark else ''}")
    said = [
        f"Saw {f'at {degrees_words(deg)}° from square' if deg else 'square'}, marks on the back from the left: "
        f"{', '.join(marks)}."
        for deg, marks in runs_of
    ]
    return " ".join(said)


def degrees_words(deg: float) -> str:
    """An angle to a tenth [deg].

    Examples
    --------
    >>> degrees_words(12.0), degrees_words(11.96)
    ('12', '12')
    """
    return f"{deg:.1f}".removesuffix(".0")


def _end(design: CutAndOrdered, strip: Strip, top: float, per_mm: float) -> tuple[Primitive, ...]:
    """What is left: dashed and white when kept, hatched when scrap, its length beside it."""
    plan = strip.plan
    rest, kept = left_of_strip(design, strip)
    if rest < 1:
        return ()
    a, b = (plan.length_mm - rest) * per_mm, plan.length_mm * per_mm
    lean = plan.pieces[-1].lean_mm * per_mm if plan.pieces else 0.0
    corners = ((a - lean, top), (b, top), (b, top + HEIGHT_MM), (a, top + HEIGHT_MM))
    words = f"{rest} {'keep' if kept else 'scrap'}"
    middle = top + HEIGHT_MM / 2 + 1.25
    inside = text_width_mm(words, 2.5) < b - a - 2.0
    at = ((a + b) / 2, middle) if inside else (b + 1.5, middle)
    label = Text(
        at=at, text=words, h_mm=2.5, anchor="middle" if inside else "start", halo=inside and not kept
    )
    box: Primitive = (
        Polyline(points=corners, closed=True, style="wide dashed")
        if kept
        else Area(points=corners, fill="scrap", style="narrow")
    )
    return (box, label)


def names_of(ids: tuple[str, ...]) -> str:
    """Ids of alike pieces, short: "R1 to R3 base", "H1, H4".

    Examples
    --------
    >>> names_of(("R1-base", "R2-base", "R3-base")), names_of(("H1", "H4")), names_of(("EB",))
    ('R1 to R3 base', 'H1, H4', 'EB')
    """
    found: dict[tuple[str, str], list[int]] = {}
    plain: list[str] = []
    for id in ids:
        main, _, tail = id.partition("-")
        letters = main.rstrip("0123456789")
        digits = main[len(letters) :]
        if digits and not tail.isdigit():
            found.setdefault((letters, tail), []).append(int(digits))
        else:
            plain.append(id)
    words = []
    for (letters, tail), numbers in found.items():
        joined = ", ".join(
            " to ".join(f"{letters}{n}" for n in run.split(" to ")) for run in runs(numbers).split(", ")
        )
        words.append(f"{joined} {tail}".strip())
    return ", ".join([*words, *plain])
