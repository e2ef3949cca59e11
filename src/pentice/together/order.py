"""One order for several jobs: packs shared, spare by rule for the order or for each job, every line says for whom."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from pentice.cutting.values import CutPlan
from pentice.pieces.names import labelled
from pentice.takeoff.needs import NOT_HERE, Need, line_of
from pentice.takeoff.roof import Roof
from pentice.takeoff.spare import spare_lines
from pentice.takeoff.stage import in_groups, needs_of
from pentice.takeoff.stock import Key, pieces_of_plan, stock_groups, stock_lines
from pentice.takeoff.values import OrderLine


@dataclass(frozen=True, slots=True, kw_only=True)
class _Of:
    """Something that one job needs."""

    reference: str
    need: Need
    roof: Roof


def shared_order(roofs: Mapping[str, Roof], cutting: CutPlan) -> tuple[OrderLine, ...]:
    """The order of several jobs.

    Parameters
    ----------
    roofs
        Each job by its reference, with its own share of the cutting: the stock that gives its pieces, those alone.
    cutting
        The shared plan, pieces labelled.

    Returns
    -------
    tuple of OrderLine
        By group. A part that none of the roofs has is a line of quantity 0 that says why.
    """
    stock = {reference: tuple(stock_lines(roof)) for reference, roof in roofs.items()}
    needs = [
        _Of(reference=reference, need=need, roof=roof)
        for reference, roof in roofs.items()
        for need in needs_of(roof, stock[reference])
    ]
    there = {part for lines in stock.values() for line in lines for part in line.part.split(", ")}
    there |= {of.need.part for of in needs if of.need.quantity > 0.0}
    wanted = [of for of in needs if of.need.quantity > 0.0 or of.need.part not in there]
    bought = tuple(_stock(roofs, stock, cutting))
    return in_groups((*bought, *_spare(roofs, cutting, bought), *_needed(wanted)))


def _stock(
    roofs: Mapping[str, Roof], stock: Mapping[str, Sequence[OrderLine]], cutting: CutPlan
) -> Iterable[OrderLine]:
    """Lines of what is cut. A sheet that two jobs share is bought once: the plan says how many there are."""
    own: dict[Key, dict[str, OrderLine]] = {}
    for reference, roof in roofs.items():
        for key, line in zip(stock_groups(roof.cutting), stock[reference], strict=True):
            own.setdefault(key, {})[reference] = line
    for key, plans in stock_groups(cutting).items():
        lines, count = own[key], len(plans)
        first = next(iter(lines.values()))
        yield replace(
            first,
            quantity=Decimal(count),
            packs=count if first.packs else 0,
            price=first.unit_price * count,
            pieces=tuple(id for plan in plans for id in pieces_of_plan(plan)),
            part=", ".join(dict.fromkeys(part for line in lines.values() for part in line.part.split(", "))),
            why=_whys([(reference, line.why) for reference, line in lines.items()]),
        )


def _spare(roofs: Mapping[str, Roof], cutting: CutPlan, bought: Sequence[OrderLine]) -> Iterable[OrderLine]:
    """Spare lengths: once for the order, as a share of what all jobs cut."""
    for line in spare_lines(tuple(roofs.values()), cutting.lengths, bought):
        jobs = [
            name for name, roof in roofs.items() if any(n.item == line.item for n in roof.cutting.lengths)
        ]
        yield replace(line, why=f"{', '.join(jobs)}: {line.why}")


def _needed(needs: Sequence[_Of]) -> Iterable[OrderLine]:
    groups: dict[tuple[str, str | None, str], list[_Of]] = {}
    for of in needs:
        groups.setdefault((of.need.part, of.need.item, of.need.unit), []).append(of)
    for alike in groups.values():
        yield line_of(together(alike), alike[0].roof.catalogue)


def together(alike: Sequence[_Of]) -> Need:
    """One need of what several jobs need alike; its reason names each job with its quantity.

    Parameters
    ----------
    alike
        One part in one unit, job by job.

    Returns
    -------
    Need
        Shares of spare are of the whole; what is more is counted for each job or once, as the rule says.
    """
    first = alike[0].need
    jobs = len({of.reference for of in alike}) if first.spare.for_each_job else 1
    return replace(
        first,
        quantity=sum(of.need.quantity for of in alike),
        spare=replace(first.spare, more=first.spare.more * jobs),
        pieces=tuple(labelled(of.reference, id) for of in alike for id in of.need.pieces),
        mark=next((of.need.mark for of in alike if of.need.mark), ""),
        why=_why_needed(alike),
    )


def _why_needed(alike: Sequence[_Of]) -> str:
    if alike[0].need.quantity <= 0.0:
        whys = [(of.reference, of.need.why.removeprefix(NOT_HERE)) for of in alike]
        return f"{NOT_HERE}{_whys(whys)}"
    return _whys([(f"{of.reference} {_short(of.need.quantity)}", of.need.why) for of in alike])


def _short(quantity: float) -> str:
    return f"{quantity:.2f}".rstrip("0").rstrip(".")


def _whys(whys: Sequence[tuple[str, str]]) -> str:
    """Reasons with the jobs that have them, jobs with the same reason together; last sentences alike are said once.

    Examples
    --------
    >>> _whys([("A 2", "Two ends. Never stretch."), ("B 3", "Three ends. Never stretch.")])
    'A 2: Two ends. B 3: Three ends. Never stretch.'
    >>> _whys([("A 2", "One each."), ("B 3", "One each.")])
    'A 2, B 3: One each.'
    """
    groups: dict[str, list[str]] = {}
    for job, why in whys:
        groups.setdefault(why, []).append(job)
    if len(groups) == 1:
        return "".join(f"{', '.join(jobs)}: {why}" for why, jobs in groups.items())
    parted = [why.split(". ") for why in groups]
    shared = 0
    while all(len(said) > shared + 1 and said[-1 - shared] == parted[0][-1 - shared] for said in parted):
        shared += 1
    cut = [". ".join(said[: len(said) - shared]) + ("." if shared else "") for said in parted]
    heads = [f"{', '.join(jobs)}: {why}" for jobs, why in zip(groups.values(), cut, strict=True)]
    return " ".join([*heads, ". ".join(parted[0][len(parted[0]) - shared :])]).strip()
