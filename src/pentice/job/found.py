"""What was found on or near the wall: its caution, and whom to ask. And the cautions that every roof carries.

Common practice and public safety guidance from memory; local rules and the owner of a thing come first.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pentice.job.called import boards_bear
from pentice.job.model import Found, Job


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """One thing to mind, why, whom to ask, and whether that was answered."""

    text: str
    why: str
    ask: str = ""
    answered: bool = False

    @property
    def is_open(self) -> bool:
        """True where somebody has to be asked and has not answered."""
        return bool(self.ask) and not self.answered


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """What one kind of find means."""

    text: str
    why: str
    ask: str
    outside: bool = False
    """True where it may well lie beside the roof."""


_GAS = "a registered gas engineer"
KINDS: dict[str, Kind] = {
    "flue": Kind(
        text="Stop: a flue under or beside the roof. Do not enclose it or cover it.",
        why="Its gases gather under the roof: carbon monoxide kills. Its heat softens the sheets.",
        ask="a registered gas or heating engineer",
    ),
    "boiler terminal": Kind(
        text="Stop: a boiler terminal under or beside the roof. Do not enclose it or cover it.",
        why="Its gases gather under the roof: carbon monoxide kills. Terminals need clear distances.",
        ask="a registered gas or heating engineer",
    ),
    "air brick": Kind(
        text="Stop: an air brick. Keep it in the open air and clear.",
        why="It may feed a fire or boiler: shut in, carbon monoxide gathers in the house. It also dries the floor.",
        ask="a registered heating engineer, and building control",
    ),
    "extract": Kind(
        text="An extract blows under the roof. Lead it out past the foot.",
        why="Steam and grease mist the sheets and rot the plate.",
        ask="an electrician or the owner of the fan",
    ),
    "gas meter": Kind(
        text="Stop: a gas meter. Do not enclose it.",
        why="A leak would gather under the roof.",
        ask="the gas network, and " + _GAS,
    ),
    "meter box": Kind(
        text="A meter box: keep its door free to open and to be reached.",
        why="It has to be read and shut off in an emergency.",
        ask="the network whose meter it is",
    ),
    "escape window": Kind(
        text="An escape window opens onto the roof. If it is the last way out of a room, do not build in front of it.",
        why="Nobody can climb out over the sheets: they do not carry a person.",
        ask="building control",
    ),
    "window": Kind(
        text="A window over or behind the roof: check that it opens and that the room keeps its way out.",
        why="The roof line, its flashing and its bars can block a casement.",
        ask="the owner; building control if it is the only way out",
    ),
    "overhead line": Kind(
        text="Stop: an overhead line. Keep bars, ladders and sheets well away from it.",
        why="A bar of 6 m reaches further than it looks, and current jumps.",
        ask="the network that owns the line, before anything long is carried in",
        outside=True,
    ),
    "cable": Kind(
        text="A cable on the wall or in the ground. Have it found and moved or made dead before you drill or dig.",
        why="Plate bolts and post holes go where cables run.",
        ask="an electrician, and the network for what is in the ground",
        outside=True,
    ),
    "unknown board": Kind(
        text="Stop: a board nobody can name. Do not drill, break or brush it.",
        why="Old soffits, linings and gutters may hold asbestos.",
        ask="an asbestos surveyor, for a sample",
    ),
    "soffit": Kind(
        text="A soffit or gutter of the house above us: check what it is made of and that its water has a way.",
        why="Old boards may hold asbestos; a gutter that spills onto the sheets wears them and floods ours.",
        ask="the owner; an asbestos surveyor if nobody can name the board",
    ),
    "lead": Kind(
        text="Lead flashing or old paint: no dry sanding; wash hands before eating.",
        why="Lead dust poisons.",
        ask="the owner, how old it is",
    ),
    "alarm box": Kind(
        text="An alarm box: have it moved or switched to test before it is touched.",
        why="It sounds, calls somebody out, and its cable is live.",
        ask="the firm that looks after it",
    ),
    "drain": Kind(
        text="A drain: find its run and its depth before you dig, and ask before you connect.",
        why="Posts and bases must not load or pierce it; rain water may not be allowed into it.",
        ask="the water company or building control",
        outside=True,
    ),
    "manhole": Kind(
        text="A manhole: keep its cover free.",
        why="It has to be opened.",
        ask="the water company or building control",
        outside=True,
    ),
    "services": Kind(
        text="Pipes or cables in the ground where posts stand: find them before digging.",
        why="A spade through a gas or power service hurts people.",
        ask="the networks, for their plans, and a cable detector on the day",
        outside=True,
    ),
    "boundary": Kind(
        text="The boundary is near: nothing may overhang it, and water stays on our side.",
        why="Fire spreads over boundaries, and neighbours have rights.",
        ask="building control, and the neighbour",
        outside=True,
    ),
    "tree": Kind(
        text="A tree over or near the roof: mind branches, leaves and roots.",
        why="Branches break sheets, leaves dam gutters, roots lift bases. Some trees are protected.",
        ask="the council's tree officer before cutting roots or branches",
        outside=True,
    ),
    "downpipe": Kind(
        text="A downpipe of the house ends on or goes through our roof. Lead it past.",
        why="Its water wears the sheets and overfills our gutter.",
        ask="the owner",
    ),
    "sprinkler": Kind(
        text="A sprinkler or smoke vent: the roof may not get in its way.",
        why="It is part of how the building is kept safe.",
        ask="the building's fire engineer or insurer",
    ),
    "nest": Kind(
        text="Nests or bats: leave them alone until somebody who may has looked.",
        why="They are protected in many places.",
        ask="the local wildlife authority",
    ),
    "damp": Kind(
        text="The wall is damp or soft where the plate goes.",
        why="Fixings may not hold there.",
        ask="a structural engineer; pull-test the fixings",
    ),
    "render": Kind(
        text="Insulated or hollow render: the plate needs stand-offs that bear on the wall itself.",
        why="Render carries nothing and is crushed.",
        ask="the render's supplier and a structural engineer",
    ),
}

_ALSO = {
    "vent": "extract",
    "fan": "extract",
    "gas flue": "flue",
    "oil flue": "flue",
    "chimney": "flue",
    "flue terminal": "boiler terminal",
    "balanced flue": "boiler terminal",
    "airbrick": "air brick",
    "air vent": "air brick",
    "electric meter": "meter box",
    "last escape window": "escape window",
    "power line": "overhead line",
    "overhead wire": "overhead line",
    "overhead wires": "overhead line",
    "cables": "cable",
    "asbestos": "unknown board",
    "gutter": "soffit",
    "gully": "drain",
    "trees": "tree",
    "bats": "nest",
    "smoke vent": "sprinkler",
}


def kind_of(name: str) -> Kind:
    """What a kind of find means; a kind nobody foresaw gets a general caution.

    Examples
    --------
    >>> kind_of("Air brick").ask
    'a registered heating engineer, and building control'
    >>> kind_of("well").text
    'Well: find out what it is and who owns it before work starts there.'
    """
    plain = " ".join(name.lower().replace("-", " ").replace("_", " ").split())
    known = KINDS.get(_ALSO.get(plain, plain))
    if known is not None:
        return known
    return Kind(
        text=f"{plain[:1].upper()}{plain[1:]}: find out what it is and who owns it before work starts there.",
        why="It was found at the survey and is not one of the kinds known here.",
        ask="whoever owns it",
        outside=True,
    )


def cautions(job: Job, *, bars_carry: bool = False) -> tuple[Caution, ...]:
    """Everything to mind on this job: first what was found and is not answered, then the rest.

    Parameters
    ----------
    job
        The job.
    bars_carry
        Do the bars carry by themselves, without rafters?

    Returns
    -------
    tuple of Caution
        Open ones first. What was found names its place; the others hold for every roof of this kind.

    Examples
    --------
    >>> cautions(Job(found=(Found(kind="flue", x_mm=500.0),)))[0].text
    'Stop: a flue under or beside the roof. Do not enclose it or cover it. At x 500.'
    """
    found = [_of(find) for find in job.found]
    return (*sorted(found, key=lambda caution: not caution.is_open), *_always(job, bars_carry))


def _of(find: Found) -> Caution:
    kind = kind_of(find.kind)
    place = _place(find)
    action = f" To do: {find.action.rstrip('.')}." if find.action else ""
    return Caution(
        text=f"{kind.text}{place}{action}",
        why=kind.why,
        ask=kind.ask,
        answered=bool(find.answered_by.strip()),
    )


def _place(find: Found) -> str:
    places = []
    if find.x_mm is not None:
        places.append(f"x {find.x_mm:.0f}")
    if find.height_mm is not None:
        places.append(f"height {find.height_mm:.0f}")
    return f" At {', '.join(places)}." if places else ""


def _always(job: Job, bars_carry: bool) -> Iterator[Caution]:
    yield Caution(
        text="The roof is fragile: nobody stands, sits or leans on a sheet, a bar or the gutter, ever.",
        why="Sheets give way under a person, whatever their thickness. Falls through roofs kill.",
    )
    yield Caution(
        text=f"Work from below or from a tower. {boards_bear(bars_carry=bars_carry)}",
        why="No ladder against gutter, bar or sheet: they do not hold it.",
    )
    yield Caution(
        text="No sheet is carried or lifted in gusts above the limit of the method sheet, and none is left loose.",
        why="A sheet is a sail: it takes its people along. Caps, buttons and trims are on before work stops.",
    )
    yield Caution(
        text="The frame is braced and fixed before the first sheet goes up.",
        why="The roof is light: wind lifts it and racks it.",
    )
    yield from _people_below(job)
    yield from _enclosed(job)
    yield Caution(
        text="Keep copper-treated or solvent-treated timber off aluminium, plain steel screws and sheets.",
        why="Copper eats them, and solvents crack the sheet: reflecting tape between, stainless or coated screws.",
    )
    if job.house is not None and job.house.wall in (None, "insulated render"):
        yield Caution(
            text="Know the wall before you fix to it.",
            why="What holds the plate decides whether the roof stays up. No sum shows what the wall itself holds.",
            ask="a structural engineer; pull-test the fixings where in doubt",
        )


def _people_below(job: Job) -> Iterator[Caution]:
    yield Caution(
        text="Snow slides off the foot onto doors and paths: guard it or keep people clear. The gutter may go with it.",
        why="A smooth sheet lets go of a whole field of snow at once.",
    )
    house = job.house
    if house is not None and house.roof_drains_to_us and not house.slides_guarded:
        yield Caution(
            text="The house roof slides its snow onto ours: have guards fitted above.",
            why="What falls from there is not only weight but a blow, which no sheet is checked for.",
            ask="a roofer, for snow guards of declared capacity",
        )


def _enclosed(job: Job) -> Iterator[Caution]:
    if job.roof.use != "lean-to":
        return
    yield Caution(
        text="Look once more for flues, air bricks, gas meters and last escape windows before the room is closed.",
        why="Enclosing one is the worst mistake here: carbon monoxide, or no way out.",
    )
    yield Caution(
        text="A closed room under glazing gets hot: give it openings high and low.",
        why="Without, heat harms people, plants and animals in summer.",
    )
