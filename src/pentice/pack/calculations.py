"""calculations.pdf: what is not proved, the verdict table, inputs with their marks, loads, every check in full."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pentice.checks.values import Check, Place, RestsOn
from pentice.design import Design, worst_of_each
from pentice.job.flags import red_flags
from pentice.job.found import cautions
from pentice.loads.lines import net_coefficient
from pentice.loads.values import SnowCase, WindCase
from pentice.pack.drawings.values import not_proved
from pentice.pack.paper import DOCUMENT, make_pdf, meta, section, strip_of, strip_svg
from pentice.pack.paper import blocks as b
from pentice.pack.setting_out import heading_of
from pentice.working import Step

STRIP = "strip.svg"
WORDS = {"passes": "holds", "fails": "*FAILS*", "refused": "*ask*", "not checked": "*ask*"}
PLACES_MOST = 40


def calculations_pdf(design: Design) -> bytes:
    """The calculations.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    bytes
        Tagged PDF; the same for the same design.
    """
    bays = design.setting_out.plane.bays
    strip = strip_of(STRIP, f"The roof from above, {len(bays)} bays, the wall at the top.")
    rules = sorted(worst_of_each(design.checks), key=lambda check: check.verdict == "not checked")
    sections = [
        section("Calculations", list(_front(design)), result=_sentence(design), strip=strip),
        section("Checks", list(_table(rules)), result=_table_sentence(design), strip=strip),
        section(
            "What goes in",
            list(_inputs(design)),
            result="Each value with its mark. ~Typical~: no product yet.",
            strip=strip,
        ),
        section("Loads", list(_loads(design)), result=f"{design.loads.edition}.", strip=strip),
        section(
            "Working", list(_working(design, rules)), result="Each rule at its worst place.", strip=strip
        ),
    ]
    about = meta("Calculations", **heading_of(design), warning=not_proved(design))
    return make_pdf(
        DOCUMENT, {"meta": about, "sections": sections}, {STRIP: strip_svg([bay.centres_mm for bay in bays])}
    )


# First page


def _sentence(design: Design) -> str:
    counts = design.summary.counts
    return (
        f"{counts['passes']} requirements hold, {counts['fails']} fail, {counts['refused']} are refused, "
        f"{counts['not_checked']} were not checked."
    )


def _front(design: Design) -> Iterator[b.Block]:
    yield b.paragraph(
        "An aid for competent people. It defers to local codes, building control, licensed designers and suppliers' "
        f"own instructions. Made by {design.engine}; {design.loads.edition}.",
        h_mm=2.5,
    )
    flags = red_flags(design.job)
    if flags:
        yield b.heading("Survey: look again")
        yield b.bullets([str(flag) for flag in flags], h_mm=2.5)
    open_ones = [c for c in cautions(design.job) if c.is_open]
    if open_ones:
        yield b.heading("Asked, and not answered")
        yield b.bullets([f"{c.text} *Ask* {c.ask}." for c in open_ones], h_mm=2.5)
    for note in design.loads.notes:
        yield b.paragraph(note, h_mm=2.5)
    replace = list(_to_replace(design))
    yield b.heading("Replace before you build")
    if replace:
        yield b.table(
            ("Value", "Stands for no product", "Checks that rest on it"),
            replace,
            widths=(66, 44, "1fr"),
            h=2.5,
        )
    else:
        yield b.paragraph("Nothing rests on a typical value.", h_mm=2.5)
    yield b.heading("Chosen, because nobody gave it")
    chosen = [(path, _value(given.value), given.note) for path, given in sorted(design.choices.items())]
    if chosen:
        yield b.table(("Key", "Value", "Why"), chosen, widths=(48, 44, "1fr"), h=2.5)
    else:
        yield b.paragraph("Nothing: every choice was given.", h_mm=2.5)


def _to_replace(design: Design) -> Iterator[tuple[str, str, str]]:
    """Inputs that are typical or recalled, each once, with the checks that rest on it."""
    found: dict[str, tuple[RestsOn, dict[str, None]]] = {}
    for check in design.checks:
        for given in check.rests_on:
            if given.mark in ("typical", "from memory"):
                found.setdefault(given.input, (given, {}))[1][check.name] = None
    for path, (given, names) in found.items():
        yield path, f"{_value(given.value)} ({given.mark})", ", ".join(names)


# Verdicts


def _table_sentence(design: Design) -> str:
    typical = len({c.id for c in design.checks if c.typical})
    return f"The worst of each rule, most used first. {typical} rules rest on a typical value."


def _table(rules: Sequence[Check]) -> Iterator[b.Block]:
    rows, fails = [], []
    for i, check in enumerate(rules):
        if check.verdict == "fails":
            fails.append(i)
        rows.append(_row(i + 1, check))
    yield b.table(
        ("", "Check", "Where", "Rule", "Needs", "Has", "Used", "", ""),
        rows,
        widths=(6, "1fr", 20, 30, 13, 13, 10, 32, 13),
        align=("left", "left", "left", "left", "right", "right", "right", "left", "left"),
        fails_rows=fails,
        h=2.5,
        row_mm=1.3,
        note="~Dashed underline~: rests on a typical value, listed under “Replace before you build”. "
        "The tall stroke is the limit, 1.00.",
    )


def _row(number: int, check: Check) -> tuple[b.Cell, ...]:
    name = f"~{check.name}~" if check.typical else check.name
    shown: b.Cell = b.sign_cell("fails", check.name, bold=True) if check.verdict == "fails" else name
    used = check.utilisation
    return (
        str(number),
        shown,
        place_words(check.place),
        check.clause.split(";")[0],
        _number(check.demand),
        _number(check.capacity),
        f"{used:.2f}" if used is not None else "",
        b.bar_cell(used) if used is not None else "",
        WORDS[check.verdict],
    )


def place_words(place: Place) -> str:
    """Where a check looks, in the words of the drawings.

    Parameters
    ----------
    place
        A bay, a rafter or the whole roof.

    Returns
    -------
    str
        "bay 3, head", "R2".

    Examples
    --------
    >>> place_words(Place(rafter=2, at="foot"))
    'R2, foot'
    """
    parts = [f"bay {place.bay}"] if place.bay is not None else []
    parts += [f"R{place.rafter}"] if place.rafter is not None else []
    return ", ".join([*parts, *([place.at] if place.at else [])])


# Inputs


def _inputs(design: Design) -> Iterator[b.Block]:
    found: dict[str, RestsOn] = {}
    for check in design.checks:
        for given in check.rests_on:
            found.setdefault(given.input, given)
    rows = []
    for path, given in sorted(found.items()):
        mark = f"~{given.mark}~" if given.mark in ("typical", "from memory") else given.mark
        rows.append((path, _value(given.value), mark, _source(design, path)))
    yield b.table(("Key", "Value", "Mark", "Source"), rows, widths=(58, 40, 24, "1fr"), h=2.5, row_mm=1.2)


def _source(design: Design, path: str) -> str:
    given = design.catalogue.mark_of(path) or design.job.marks.get(path)
    return (given.source or given.note or given.by) if given is not None else ""


# Loads


def _loads(design: Design) -> Iterator[b.Block]:
    loads = design.loads
    yield b.heading("Snow")
    yield _steps(loads.snow.working)
    yield b.table(
        ("Case", "Situation", "From the wall, load on plan"),
        [(case.name, case.situation, _snow_words(case)) for case in loads.snow.cases],
        widths=(62, 26, "1fr"),
        h=2.5,
    )
    for case in loads.snow.cases:
        if case.working:
            yield b.heading(case.name.capitalize(), h_mm=2.8, above_mm=3)
            yield _steps(case.working)
    yield b.heading("Wind")
    if loads.wind.working:
        yield _steps(loads.wind.working)
    if loads.wind.refused:
        yield b.paragraph(f"*Refused:* {loads.wind.refused}")
    for wind in loads.wind.cases:
        yield b.keep(
            (
                b.heading(wind.name, h_mm=2.5, above_mm=2.5),
                _zones(wind, loads.wind.peak_pressure_kn_m2 or 0.0),
            )
        )
    yield b.heading("Weight and people")
    rows = [
        ("Sheet", f"{loads.dead.sheet_kn_m2:.4f} kN/m² of slope"),
        ("Bar", f"{loads.dead.bar_kn_m:.4f} kN/m"),
        ("Rafter", f"{loads.dead.rafter_kn_m:.4f} kN/m"),
        ("Category H", _imposed(design)),
    ]
    yield b.table((), rows, widths=(40, "1fr"), h=2.5)
    yield b.heading("Combinations")
    yield b.table(
        ("Combination", "For", "Shortest load", "Rule"),
        [(c.name, c.kind, c.duration, c.clause) for c in loads.combinations],
        widths=("1fr", 32, 32, 44),
        h=2.5,
        row_mm=1.2,
    )


def _snow_words(case: SnowCase) -> str:
    if len(case.points) == 1:
        return f"{case.points[0][1]:.3f} kN/m² all over"
    word = "" if case.along == "y" else "along the wall: "
    return word + ", ".join(f"{load:.3f} at {at / 1000:.2f} m" for at, load in case.points)


def _zones(case: WindCase, peak: float) -> b.Block:
    rows = []
    for zone in case.zones:
        ten, one = (net_coefficient(zone, case.inside, area_m2) for area_m2 in (10.0, 1.0))
        rows.append(
            (
                zone.name,
                f"{zone.x_mm[0] / 1000:.2f} to {zone.x_mm[1] / 1000:.2f}",
                f"{zone.y_mm[0] / 1000:.2f} to {zone.y_mm[1] / 1000:.2f}",
                f"{ten:.2f}",
                f"{one:.2f}",
                f"{ten * peak:.3f}",
                f"{one * peak:.3f}",
            )
        )
    return b.table(
        ("Zone", "x, m", "y, m", "c for 10 m²", "for 1 m²", "kN/m², 10 m²", "1 m²"),
        rows,
        widths=(14, "1fr", "1fr", 24, 20, 26, 18),
        align=("left", "left", "left", "right", "right", "right", "right"),
        h=2.5,
        row_mm=0.8,
    )


def _imposed(design: Design) -> str:
    imposed = design.loads.imposed
    if imposed.refused:
        return f"refused: {imposed.refused}"
    return (
        f"{imposed.area_kn_m2 or 0.0:g} kN/m², {imposed.point_kn or 0.0:g} kN on one rafter; never on a sheet"
    )


# Working


def _working(design: Design, rules: Sequence[Check]) -> Iterator[b.Block]:
    for number, check in enumerate(rules, 1):
        if check.verdict == "not checked":
            continue
        where = place_words(check.place) or "the whole roof"
        yield b.section_head(check.name, number=str(number), result=f"{where}. {check.case}".strip())
        if check.rests_on:
            yield b.table(
                ("What goes in", "Value", "Mark"),
                [(given.input, _value(given.value), _mark(given)) for given in check.rests_on],
                widths=("1fr", 52, 28),
                h=2.5,
                row_mm=1.0,
            )
        if check.working:
            yield _steps(check.working)
        yield _verdict(check)
        others = [c for c in design.checks if c.id == check.id and c is not check]
        if others:
            yield _others(others)


def _mark(given: RestsOn) -> str:
    return f"~{given.mark}~" if given.mark in ("typical", "from memory") else given.mark


def _steps(steps: Sequence[Step]) -> b.Block:
    return b.working(
        [
            b.working_row(
                step.says,
                step.formula,
                f"= {step.numbers}" if step.numbers else "",
                f"{_number(step.result) if isinstance(step.result, float | int) else step.result} {step.unit}".strip(),
                step.clause,
            )
            for step in steps
        ]
    )


def _verdict(check: Check) -> b.Block:
    numbers = ""
    if check.demand is not None and check.capacity is not None:
        numbers = f"Needs {_number(check.demand)}, has {_number(check.capacity)} {check.unit}."
    used = f" {check.utilisation:.0%} is used." if check.utilisation is not None else ""
    beside = check.says or (check.cure if check.verdict != "passes" else "")
    words = {"passes": "Holds.", "fails": "Fails.", "refused": "Refused.", "not checked": "Not checked."}
    return b.verdict(words[check.verdict], f"{numbers}{used}", beside=beside, fails=check.verdict == "fails")


def _others(others: Sequence[Check]) -> b.Block:
    groups: dict[tuple[str, str, str, str], list[str]] = {}
    for check in others:
        used = f"{check.utilisation:.2f}" if check.utilisation is not None else ""
        key = (_number(check.demand), _number(check.capacity), used, WORDS[check.verdict])
        groups.setdefault(key, []).append(place_words(check.place))
    rows = [(", ".join(places), *key) for key, places in groups.items()][:PLACES_MOST]
    return b.table(
        ("Elsewhere", "Needs", "Has", "Used", ""),
        rows,
        widths=("1fr", 24, 24, 18, 18),
        align=("left", "right", "right", "right", "left"),
        h=2.5,
        row_mm=0.8,
    )


def _number(value: float | None) -> str:
    """Four figures, no thousands mark, a true minus."""
    if value is None:
        return ""
    text = f"{value:.0f}" if abs(value) >= 1000.0 else f"{value:.4g}"
    return text.replace("-", "−")


def _value(value: object) -> str:
    if isinstance(value, float | int) and not isinstance(value, bool):
        return f"{value:g}"
    if isinstance(value, tuple | list):
        return ", ".join(_value(item) for item in value)
    return str(value) if value is not None else "not given"
