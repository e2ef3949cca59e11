"""Knee braces and the bolts at their ends, as the calculations have them."""

from __future__ import annotations

from collections.abc import Iterator

from pentice.checks.knee_bolts import bolts_of
from pentice.takeoff.needs import Need, fixing, not_here
from pentice.takeoff.roof import Roof

OVER_MM = 20.0
"""Two washers, the nut and what stands out of it: judgement, no source."""
KNEES = "knee braces"


def knee_brace_needs(roof: Roof, posts: int) -> Iterator[Need]:
    """Knee braces, two in each field of a row and one across at each post, and the bolts at both their ends.

    Parameters
    ----------
    roof
        What the take-off counts on.
    posts
        How many posts are new, in all rows.

    Yields
    ------
    Need
        Marked typical where the job does not declare what a brace bears, or does not describe its bolts.
    """
    frame, rows = roof.job.frame, 1 if roof.job.roof.attached else 2
    along, across = frame.bracing in (None, KNEES), frame.bracing_across == KNEES
    if frame.bracing == "diagonal":
        yield Need(
            part="diagonals",
            group="Fixings",
            quantity=float(rows),
            unit="set",
            why="For each row of posts, with their ends, as whoever designs them says.",
        )
    if not along and not across:
        for part in ("bracing", "bolts of knee braces"):
            yield not_here(part, "Fixings", f'no knee braces, frame.bracing is "{frame.bracing}"')
        return
    braces, said, declared = 0, [], []
    if along:
        braces += rows * max(2, 2 * (posts // rows - 1))
        said.append("along the beam, two in each field")
        declared.append(frame.brace_kn if frame.bracing == KNEES else None)
    if across:
        braces += posts
        said.append("across, one at each post; look at their length")
        declared.append(frame.brace_across_kn)
    why = f"Knee braces {', and '.join(said)}."
    known = None if None in declared else declared[0]
    if frame.knee_brace_mm is not None:
        why += f" {frame.knee_brace_mm:g} thick."
    yield fixing("bracing", braces, "each", why, _brace(roof), known)
    yield _bolts(roof, braces)


def _brace(roof: Roof) -> str | None:
    """Key of the catalogue's brace of the thickness that is calculated, or of one that names none."""
    thick = bolts_of(roof.job.frame).brace_mm
    made = [
        s for s in roof.catalogue.sundries.values() if s.part == "bracing" and s.brace_mm in (thick, None)
    ]
    return f"sundries.{made[0].id}" if made else None


def _bolts(roof: Roof, braces: int) -> Need:
    frame, bolts = roof.job.frame, bolts_of(roof.job.frame)
    calculated = frame.bracing is not None  # the braces along the wall are a guess otherwise
    described = frame.knee_bolts is not None and frame.knee_bolt_mm is not None
    wide = f"{bolts.hole_mm:g} mm wider than the bolts" if bolts.hole_mm else "no wider than the bolts"
    count = f"{bolts.count} bolt{'s' if bolts.count > 1 else ''} of {bolts.d_mm:g} mm at each end"
    said = "as calculated" if calculated else "as usual, not calculated"
    item, long = None, "They go through three timbers: measure how long, and 20 more for nut and washers."
    if bolts.planes == 1:
        through = _through_mm(roof)
        least = through + bolts.brace_mm + OVER_MM
        item = shortest_bolt(roof, bolts.d_mm, least)
        parts = f"{through:g} of timber, {bolts.brace_mm:g} of brace, {OVER_MM:g} for nut and washers"
        long = f"{least:g} long or longer: {parts}."
    return Need(
        part="bolts of knee braces",
        group="Fixings",
        quantity=2.0 * braces * bolts.count,
        unit="set",
        why=f"Knee braces: {count}, {said}; {braces} braces. {long} Holes {wide}.",
        item=item,
        mark="" if calculated and described else "typical",
    )


def _through_mm(roof: Roof) -> float:
    """The thickest timber that a brace is bolted beside: post and beam along the wall, post and rafter across it."""
    frame = roof.job.frame
    sides = [0.0]
    if frame.post_mm is not None:
        sides.append(frame.post_mm[1])
    sides += [beam[0] for beam in (frame.beam_mm, frame.head_beam_mm) if beam is not None]
    if frame.bracing_across == KNEES:
        sides += [rafter.width_mm for rafter in roof.plane.rafters]
        sides += [] if frame.post_mm is None else [frame.post_mm[0]]
    return max(sides)


def shortest_bolt(roof: Roof, d_mm: float, least_mm: float) -> str | None:
    """Key of the shortest bolt of a diameter that is long enough.

    Parameters
    ----------
    roof
        With its catalogue.
    d_mm, least_mm
        Diameter and least length [mm].

    Returns
    -------
    str or None
        None where the catalogue has none: it is asked for in words then.
    """
    fit = [
        (s.bolt_mm[1], s.id)
        for s in roof.catalogue.sundries.values()
        if s.part == "bolt" and s.bolt_mm is not None and s.bolt_mm[0] == d_mm and s.bolt_mm[1] >= least_mm
    ]
    return f"sundries.{min(fit)[1]}" if fit else None
