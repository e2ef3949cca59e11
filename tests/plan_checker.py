"""An independent checker of plans in the form of the cutting bench: it imports nothing that made them.

An instance is what the bench reads (`kind`, `kerf`, `stock`, `items`, ends or edges to be trimmed, a rule for offcuts);
a result is what the bench writes (`cost`, `bound`, `proven`, `plan`). Everything is recomputed in whole numbers.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from math import ceil
from typing import Any

Box = tuple[int, int, int, int]
Instance = Mapping[str, Any]


def faults_of_plan(instance: Instance, result: Instance) -> list[str]:
    """Everything that is wrong with the plan of one instance; empty where nothing is.

    Parameters
    ----------
    instance
        The instance as the bench read it.
    result
        Its cost, bound, proven and plan.

    Returns
    -------
    list of str
        One sentence per fault.
    """
    faults = list(_not_whole(result["plan"]))
    if faults:
        return faults
    used = result["plan"].get("lengths" if instance["kind"] == "1d" else "sheets", [])
    faults += _faults_of_counts(instance, used)
    if any("no stock" in fault or "not wanted" in fault for fault in faults):
        return faults
    one = _faults_of_length if instance["kind"] == "1d" else _faults_of_sheet
    for n, stock in enumerate(used):
        faults += [f"stock piece {n + 1}: {fault}" for fault in one(instance, stock)]
        if instance["kind"] != "1d" and result.get("stages") is not None:
            needed = stages_of(
                [_box(p) for p in _all_kept(stock)], _room(instance, stock), int(instance["kerf"])
            )
            if needed is None or needed > result["stages"]:
                faults.append(
                    f"stock piece {n + 1}: it takes {needed} stages of cuts, not {result['stages']}"
                )
    if not faults:
        faults += _faults_of_cost(instance, used, result)
    return faults


def _not_whole(value: object) -> Iterator[str]:
    """Every number of a plan must be whole."""
    if isinstance(value, float):
        yield f"{value} is no whole number"
    if isinstance(value, Mapping):
        for part in value.values():
            yield from _not_whole(part)
    if isinstance(value, list | tuple):
        for part in value:
            yield from _not_whole(part)


def _places(stock: Instance) -> Sequence[Instance]:
    return stock["placements"] if "placements" in stock else stock["pieces"]  # type: ignore[no-any-return]  # JSON


def _faults_of_counts(instance: Instance, used: Sequence[Instance]) -> Iterator[str]:
    """Each piece is cut once, none that is not wanted, and no stock is used more often than there is of it."""
    wanted = {f"{k}.{c}" for k, item in enumerate(instance["items"]) for c in range(item["d"])}
    cut = Counter(place["piece"] for stock in used for place in _places(stock))
    for name, times in cut.items():
        if name not in wanted:
            yield f"{name} is not wanted"
        elif times > 1:
            yield f"{name} is cut {times} times"
    missing = sorted(wanted - set(cut))
    if missing:
        yield f"{len(missing)} pieces are not cut, {missing[0]} among them"
    for s, times in Counter(stock["stock"] for stock in used).items():
        if not 0 <= s < len(instance["stock"]):
            yield f"there is no stock {s}"
        elif (limit := instance["stock"][s].get("qty")) is not None and times > limit:
            yield f"stock {s} is used {times} times, there are {limit}"


def _trim(instance: Instance, stock: Instance, key: str) -> int:
    """What comes off each end or edge: nothing of an offcut."""
    return 0 if stock.get("offcut") else int(instance.get(key, 0))


def _faults_of_sheet(instance: Instance, used: Instance) -> Iterator[str]:
    room = _room(instance, used)
    for place in used["placements"]:
        item = instance["items"][int(place["piece"].split(".")[0])]
        if (place["width_mm"], place["length_mm"]) != (item["w"], item["h"]):
            yield f"{place['piece']} is {place['width_mm']} x {place['length_mm']}, not {item['w']} x {item['h']}"
    rule = instance.get("offcut_rule")
    for left in used.get("offcuts", []):
        if rule is None or left["width_mm"] < rule["min_w"] or left["length_mm"] < rule["min_h"]:
            yield f"{left['width_mm']} x {left['length_mm']} is no offcut worth keeping"
    boxes = [_box(p) for p in _all_kept(used)]
    for box in boxes:
        if box[0] < room[0] or box[1] < room[1] or box[2] > room[2] or box[3] > room[3]:
            yield f"{box} lies outside {room}"
    if not separable(boxes, int(instance["kerf"])):
        yield f"it cannot be cut edge to edge with a kerf of {instance['kerf']}"


def _room(instance: Instance, used: Instance) -> Box:
    """What a sheet gives once its edges are trimmed."""
    stock = instance["stock"][used["stock"]]
    trim = _trim(instance, stock, "trim_edge")
    return (trim, trim, stock["w"] - trim, stock["h"] - trim)


def _all_kept(used: Instance) -> list[Instance]:
    """Pieces and offcuts of a sheet."""
    return [*used["placements"], *used.get("offcuts", [])]


def _box(place: Instance) -> Box:
    x, y = place["x_mm"], place["y_mm"]
    return (x, y, x + place["width_mm"], y + place["length_mm"])


def separable(boxes: Sequence[Box], kerf: int) -> bool:
    """Whether edge-to-edge cuts, each a kerf wide, free every box.

    Any cut that goes through no box may be made first: what a longer plan of cuts would have done still works in
    both parts. So the first one found is taken.

    Parameters
    ----------
    boxes
        Left, head, right and foot of each.
    kerf
        Width of a cut.

    Returns
    -------
    bool
        True where a plan of cuts exists.
    """
    waiting = [list(boxes)]
    while waiting:
        part = waiting.pop()
        if len(part) <= 1:
            continue
        parted = _parted(part, 0, kerf) or _parted(part, 1, kerf)
        if parted is None:
            return False
        waiting += parted
    return True


def stages_of(boxes: Sequence[Box], room: Box, kerf: int) -> int | None:
    """How often the direction of the cuts must change, the first counted, until every box is cut to its size.

    All the cuts of one direction that go through no box are made at once: leaving one out helps no later stage.

    Parameters
    ----------
    boxes
        Left, head, right and foot of each.
    room
        What they are cut from.
    kerf
        Width of a cut.

    Returns
    -------
    int or None
        The fewest, whichever direction is first; None where no cuts free every box.
    """
    counts = [n for axis in (0, 1) if (n := _stages(list(boxes), room, axis, kerf, 1)) is not None]
    return min(counts, default=None)


def _stages(boxes: list[Box], room: Box, axis: int, kerf: int, held: int) -> int | None:
    """The same with the direction of the first cuts given; ``held`` is how many stages in a row may cut nothing."""
    if not boxes or (len(boxes) == 1 and boxes[0] == room):
        return 0
    counts: list[int] = []
    for part in _parted(boxes, axis, kerf) or [boxes]:
        inner = list(room)
        inner[axis], inner[axis + 2] = min(b[axis] for b in part), max(b[axis + 2] for b in part)
        smaller = tuple(inner) != room
        if not smaller and not held:
            return None
        count = _stages(part, (inner[0], inner[1], inner[2], inner[3]), 1 - axis, kerf, 1 if smaller else 0)
        if count is None:
            return None
        counts.append(count + 1)
    return max(counts)


def _parted(part: list[Box], axis: int, kerf: int) -> list[list[Box]] | None:
    """All the parts between the cuts across one axis; None where there is no cut."""
    part = sorted(part, key=lambda b: b[axis])
    parts: list[list[Box]] = []
    end: int | None = None
    for box in part:
        if end is None or box[axis] >= end + kerf:
            parts.append([])
        parts[-1].append(box)
        end = max(box[axis + 2], end) if end is not None else box[axis + 2]
    return parts if len(parts) > 1 else None


def _faults_of_length(instance: Instance, used: Instance) -> Iterator[str]:
    stock = instance["stock"][used["stock"]]
    trim = _trim(instance, stock, "end_trim")
    kerf = int(instance["kerf"])
    for place in used["pieces"]:
        item = instance["items"][int(place["piece"].split(".")[0])]
        if place["length_mm"] != item["l"]:
            yield f"{place['piece']} is {place['length_mm']} long, not {item['l']}"
    rule = instance.get("offcut_rule")
    for left in used.get("offcuts", []):
        if rule is None or left["length_mm"] < rule["min_l"]:
            yield f"{left['length_mm']} is no offcut worth keeping"
    at = trim
    for part in sorted([*used["pieces"], *used.get("offcuts", [])], key=lambda p: int(p["at_mm"])):
        if part["at_mm"] < at:
            yield f"what lies at {part['at_mm']} overlaps or leaves no kerf"
        at = max(at, part["at_mm"] + part["length_mm"] + kerf)
    if at - kerf > stock["l"] - trim:
        yield f"it reaches to {at - kerf}, the stock gives {stock['l'] - trim}"


def _faults_of_cost(instance: Instance, used: Sequence[Instance], result: Instance) -> Iterator[str]:
    cost = sum(cost_of(instance, stock) for stock in used)
    if cost != result["cost"]:
        yield f"the cost is {cost}, not {result['cost']}"
    if result["bound"] > cost:
        yield f"the bound {result['bound']} is above the cost {cost}"
    if result["proven"] and result["bound"] != cost:
        yield "called proven, but bound and cost differ"


def cost_of(instance: Instance, used: Instance) -> int:
    """What one piece of stock costs, less the value of the offcuts kept of it, in whole units.

    An offcut is worth the stated share of what its area or length cost, rounded down; offcuts in hand cost nothing, so
    what is left of them is worth nothing.

    Parameters
    ----------
    instance
        The instance.
    used
        One sheet or length of a plan.

    Returns
    -------
    int
        Its cost.
    """
    stock = instance["stock"][used["stock"]]
    price = Fraction(stock["cost"])
    assert price.denominator == 1, "costs are whole"
    rule = instance.get("offcut_rule")
    if rule is None:
        return int(price)
    share = Fraction(str(next(v for k, v in rule.items() if k.startswith("value_fraction"))))
    kept = used.get("offcuts", [])
    if instance["kind"] == "1d":
        part = Fraction(sum(left["length_mm"] for left in kept), stock["l"])
    else:
        part = Fraction(sum(left["width_mm"] * left["length_mm"] for left in kept), stock["w"] * stock["h"])
    return ceil(price - share * price * part)
