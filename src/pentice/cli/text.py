"""A design as a page of text: sizes, verdicts, order, price; and every check with its working."""

from __future__ import annotations

import math
import textwrap
from collections.abc import Callable, Iterable, Iterator, Sequence

from pentice.checks.values import Check, Place
from pentice.cutting.proof import proof_words
from pentice.design import Design, worst_of_each
from pentice.job.called import head_called
from pentice.job.flags import red_flags
from pentice.job.found import cautions
from pentice.pack.words import bays_named, demo_notice, listed, timber_not_named
from pentice.pieces.cut import shop_of
from pentice.setting_out.values import Bar, Bay
from pentice.working import Step

WIDTH = 100
WORDS = {"passes": "holds", "fails": "FAILS", "refused": "refused", "not checked": "ask"}


def design_text(design: Design) -> str:
    """One page: what was measured, sizes, verdicts, cutting, order, price, cautions.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    str
        Lines of up to 100 characters.
    """
    parts = [
        _head(design),
        _sizes(design),
        _verdicts(design),
        _cutting(design),
        _order(design),
        _cautions(design),
    ]
    return "\n\n".join("\n".join(map(_fitted, part)) for part in parts if part)


def _fitted(line: str) -> str:
    """A line of the page; a longer one goes on below, two further in."""
    indent = " " * (len(line) - len(line.lstrip()) + 2)
    return line if len(line) <= WIDTH else textwrap.fill(line, WIDTH, subsequent_indent=indent)


def checks_text(design: Design) -> str:
    """Every rule at its worst place, with the inputs and the working.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    str
        The worst first.
    """
    found = worst_of_each(design.checks)
    return "\n\n".join("\n".join(_check(check, design.checks)) for check in found)


def place_text(place: Place) -> str:
    """Where a check looks, in words.

    Parameters
    ----------
    place
        A bay, a rafter or the whole roof.

    Returns
    -------
    str
        "bay 3, head"; empty for the whole roof.

    Examples
    --------
    >>> place_text(Place(bay=3, at="head"))
    'bay 3, head'
    """
    parts = [f"bay {place.bay}"] if place.bay is not None else []
    parts += [f"rafter {place.rafter}"] if place.rafter is not None else []
    parts += [f"bar {place.bar}"] if place.bar is not None else []
    parts += [f"post {place.post}"] if place.post is not None else []
    parts += [f"side sheet {place.side_sheet}"] if place.side_sheet is not None else []
    return ", ".join([*parts, *([place.at] if place.at else [])])


def _head(design: Design) -> list[str]:
    job, shape = design.job, design.shape
    lines = [f"{job.name or 'Job without a name'}   {job.reference} revision {job.revision}".rstrip()]
    lines.append(
        f"{shape.width_mm:.0f} over the outer {_lines(design)}s, {shape.projection_mm:.0f} out from "
        f"{head_called(job)}, pitch {shape.pitch_deg:.1f}°, {design.parts.sheet.name}, {design.parts.tint}"
    )
    if not design.proved:
        lines.append(f"Not proved: {_open_words(design)}. Do not order or build before that is cleared.")
    elif not design.summary.complete:
        lines.append("Every check holds, some on typical values: put your products in before you order.")
    if design.summary.verdict in ("fails", "refused"):
        lines.append("What would cure it: pentice advise")
    return lines


def _lines(design: Design) -> str:
    """What stands under the edges of the sheets."""
    return "bar" if design.parts.bar.carries else "rafter"


def _open_words(design: Design) -> str:
    counts = design.summary.counts
    words = (
        ("fails", "fails", "fail"),
        ("refused", "is refused", "are refused"),
        ("not_checked", "was not made", "were not made"),
    )
    said = [f"{counts[key]} {one if counts[key] == 1 else more}" for key, one, more in words if counts[key]]
    return f"of {_number_of(len(design.checks), 'check')} {', '.join(said)}"


def _sizes(design: Design) -> list[str]:
    setting_out = design.setting_out
    plane, temps = setting_out.plane, setting_out.temperatures
    marks = "  ".join(_half(r.centre_head_mm) for r in plane.rafters)
    lines = [
        "SIZES (mm)",
        f"  {_lines(design)} marks from the left  {marks}",
        f"  slope {plane.slope_length_mm:.1f}, diagonals {setting_out.diagonals_mm:.0f} both ways (level)",
        f"  sheets cut at {temps.fit_c:g} °C, hottest {temps.most_c:g}, coldest {temps.least_c:g}",
    ]
    for numbers, bay in _alike(plane.bays):
        width, length = bay.width_mm, bay.length_mm
        lines += [
            f"  {bays_named(numbers)}: sheet {width.cut:.0f} x {length.cut:.0f},"
            f" gap {bay.edges.left.gap_mm:.1f} a side, {bay.edges.head.gap_mm:.1f} at the head",
            f"    width {width.least:.0f} to {width.most:.0f}, length {length.least:.0f} to {length.most:.0f} would do",
        ]
    bar = plane.bars[0]
    lines.append(
        f"  bars {math.floor(bar.base_mm + 1e-9)} long, {len(bar.holes)} holes, {steps_words(bar)} from hole to hole"
    )
    return lines


def steps_words(bar: Bar) -> str:
    """From hole to hole of a bar [mm]: one step, or the least and the greatest."""
    least, most = (f"{step:.1f}".removesuffix(".0") for step in bar.steps_mm)
    return least if least == most else f"{least} to {most}"


def _half(mark: float) -> str:
    return f"{round(mark * 2.0) / 2.0:g}"


def _alike(bays: tuple[Bay, ...]) -> Iterator[tuple[list[int], Bay]]:
    groups: dict[tuple[float, ...], list[Bay]] = {}
    for bay in bays:
        w, n, e = bay.width_mm, bay.length_mm, bay.edges
        key = (
            w.cut,
            w.least,
            w.most,
            n.cut,
            n.least,
            n.most,
            round(e.left.gap_mm, 1),
            round(e.head.gap_mm, 1),
        )
        groups.setdefault(key, []).append(bay)
    for alike in groups.values():
        yield [bay.number for bay in alike], alike[0]


def _verdicts(design: Design) -> list[str]:
    summary = design.summary
    lines = [
        "CHECKS  {passes} hold, {fails} fail, {refused} refused, {not_checked} not made".format(
            **summary.counts
        )
    ]
    typical = sum(check.typical for check in design.checks)
    if typical:
        lines.append(f"  {typical} rest on typical values (marked ~): replace before you build")
    worst = worst_of_each(design.checks)
    columns: tuple[tuple[str, Callable[[Check], str]], ...] = (
        ("what", lambda check: check.name),
        ("worst at", _where),
        ("needed of there", _numbers),
    )
    wide = [max(map(len, (head, *map(words, worst)))) for head, words in columns]
    lines.append(_in_columns("", " ", "what", "worst at", "needed of there", "used", wide))
    for check in worst:
        lines.append(_verdict_line(check, wide))
        if check.verdict in ("fails", "refused") and (check.says or check.cure):
            lines += textwrap.wrap(
                check.says or check.cure, WIDTH, initial_indent=" " * 10, subsequent_indent=" " * 10
            )
    return lines


def _where(check: Check) -> str:
    return place_text(check.place)


def _numbers(check: Check) -> str:
    if check.demand is None or check.capacity is None:
        return ""
    return f"{check.demand:.4g} of {_with_unit(check.capacity, check.unit)}"


def _verdict_line(check: Check, wide: Sequence[int]) -> str:
    """One row, its columns as wide as the widest of what stands in them."""
    used = f"{check.utilisation:.0%}" if check.utilisation is not None else ""
    mark = "~" if check.typical else " "
    return _in_columns(WORDS[check.verdict], mark, check.name, _where(check), _numbers(check), used, wide)


def _in_columns(
    verdict: str, mark: str, name: str, where: str, numbers: str, used: str, wide: Sequence[int]
) -> str:
    row = f"  {verdict:8}{mark}{name:{wide[0]}}  {where:{wide[1]}}  {numbers:{wide[2]}}{used:>6}"
    return row.rstrip()


def _with_unit(value: float, unit: str) -> str:
    """A limit with its unit; a share of one has none to show.

    Examples
    --------
    >>> _with_unit(17.366, "N/mm2"), _with_unit(1.0, "of 1")
    ('17.37 N/mm2', '1')
    """
    return f"{value:.4g}" if unit == "of 1" else f"{value:.4g} {unit}"


def _number_of(count: int, one: str) -> str:
    return f"{count} {one}{'' if count == 1 else 's'}"


def _cutting(design: Design) -> list[str]:
    plan = design.cutting
    shop = shop_of(design.job)
    proof = ": no plan is cheaper (proven)" if plan.proven else f": no plan is below {plan.bound / 100:,.2f}"
    aim: list[str] = []
    if plan.aim != "least cost" or plan.credit:
        said = proof_words(plan, shop, lambda pence: f"{pence / 100:,.2f}")
        proof, aim = "", [f"  {line}" for line in textwrap.wrap(said, WIDTH - 2)]
    sheets, lengths = _number_of(len(plan.sheets), "sheet"), _number_of(len(plan.lengths), "length")
    return [
        f"CUTTING  {sheets}, {lengths}, {plan.cost / 100:,.2f}{proof}",
        *aim,
        *(f"  {count} x {stock}" for stock, count in _counted(sheet.stock for sheet in plan.sheets)),
    ]


def _counted(names: Iterable[str]) -> Iterator[tuple[str, int]]:
    counts: dict[str, int] = {}
    for name in names:
        counts[name] = counts.get(name, 0) + 1
    yield from counts.items()


def _order(design: Design) -> list[str]:
    price, bought = design.price, [line for line in design.order if line.packs]
    stages = ", ".join(f"{name} {amount:,.2f}" for name, amount in price.stages)
    asked = sum(not line.unit_price for line in bought)
    ask = f"; {asked} without a price: ask" if asked else ""
    notice = demo_notice(design)
    extra = f", other {price.extra:,.2f}" if price.extra else ""
    return [
        f"ORDER  {_number_of(len(bought), 'line')}, {sum(line.price for line in bought):,.2f}{ask}",
        f"PRICE  {price.currency} net {price.net:,.2f}, tax {price.tax:,.2f}, to pay {price.gross:,.2f}"
        f"  (margin {price.margin:.1%}, markup {price.markup:.1%})",
        f"  cost {price.cost:,.2f}: materials {price.materials:,.2f}, labour {price.labour:,.2f}"
        f" ({price.labour_hours:.1f} h), overhead {price.overhead:,.2f}{extra}",
        f"  to be paid {stages}",
        *([f"  {notice}"] if notice else []),
    ]


def _cautions(design: Design) -> list[str]:
    """Red flags, open questions and timber that the job does not name; nothing where there are none."""
    texts = [str(flag) for flag in red_flags(design.job)]
    texts += [f"{c.text} Ask {c.ask}." for c in cautions(design.job) if c.is_open]
    unnamed = timber_not_named(design)
    if unnamed:
        texts.append(
            f"Not drawn, ordered or priced: {listed([name for name, _ in unnamed])}. Where they are not there "
            f"already, name {listed([key for _, key in unnamed])}."
        )
    lines = [
        line
        for text in texts
        for line in textwrap.wrap(text, WIDTH, initial_indent="  - ", subsequent_indent="    ")
    ]
    return ["CAUTIONS", *lines] if lines else []


def _check(check: Check, every: tuple[Check, ...]) -> Iterator[str]:
    alike = [c for c in every if c.id == check.id]
    where = place_text(check.place) or "whole roof"
    yield f"{check.name}: {WORDS[check.verdict]}   ({where}; {_number_of(len(alike), 'place')})   {check.clause}"
    if check.case:
        yield f"  case: {check.case}"
    for given in check.rests_on:
        yield f"  {given.input} = {given.value}  [{given.mark}]"
    for step in check.working:
        yield f"  {_step(step)}"
    if check.demand is not None and check.capacity is not None:
        used = f", {check.utilisation:.0%} used" if check.utilisation is not None else ""
        yield f"  needs {check.demand:.4g}, has {_with_unit(check.capacity, check.unit)}{used}"
    for text in (check.says, check.cure if check.verdict in ("fails", "refused") else ""):
        if text:
            yield from textwrap.wrap(text, WIDTH, initial_indent="  ", subsequent_indent="  ")


def _step(step: Step) -> str:
    result = f"{step.result:.6g}" if isinstance(step.result, float | int) else step.result
    return f"{step.says}: {step.formula} = {step.numbers} = {result} {step.unit}  ({step.clause})".replace(
        "  (", " ("
    )
