"""The products that one job names, taken from the catalogue, with every unknown name reported at once."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Literal, TypeVar

from pentice.catalogue._base import Product
from pentice.catalogue._near import nearest
from pentice.catalogue.bars import Bar, Profile
from pentice.catalogue.fixings import Button, Screw
from pentice.catalogue.gutters import Gutter
from pentice.catalogue.model import Catalogue
from pentice.catalogue.sections import Section
from pentice.catalogue.sheets import Sheet
from pentice.catalogue.timbers import Timber
from pentice.errors import InputError, Problem
from pentice.job.fasteners import Fasteners
from pentice.job.model import Job

_SAME_SCREW_MM = 0.05
T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Parts:
    """What the roof is made of. Absent parts are not in this roof."""

    sheet: Sheet
    tint: str
    bar: Bar
    head_profile: Profile
    foot_profile: Profile
    edge_profile: Profile | None
    verge_trim: Profile | None
    screw: Screw
    timber: Timber
    button: Button | None
    gutter: Gutter | None
    beam_section: Section | None = None
    """Metal section of the eaves beam; None: timber."""
    post_section: Section | None = None
    """Metal section of the posts; None: timber."""
    timbers: Mapping[str, Timber] = field(default_factory=dict)
    """By use ("post", "barge board"): the timber that serves it; a use that is not named takes `timber`."""

    @property
    def products(self) -> tuple[Product, ...]:
        """Every product of the roof that sizes and checks rest on, once."""
        named = (
            self.sheet,
            self.bar,
            self.head_profile,
            self.foot_profile,
            self.edge_profile,
            self.verge_trim,
            self.screw,
            self.timber,
            self.button,
            self.gutter,
            self.beam_section,
            self.post_section,
        )
        return tuple({product.id: product for product in named if product is not None}.values())

    def section_for(self, use: Literal["beam", "post"]) -> Section | None:
        """The metal section of beam or posts; None where they are timber."""
        return self.beam_section if use == "beam" else self.post_section

    def lengths_for(self, use: Literal["beam", "post"]) -> tuple[float, ...]:
        """Lengths that beam or posts are sold in [mm]."""
        section = self.section_for(use)
        if section is not None:
            return tuple(piece.length_mm for piece in section.lengths)
        return tuple(piece.length_mm for piece in self.timber_for(use).lengths)

    def timber_for(self, use: str) -> Timber:
        """The timber of one use."""
        return self.timbers.get(use, self.timber)


def parts_for(job: Job, catalogue: Catalogue) -> Parts:
    """The products that a job names.

    Parameters
    ----------
    job
        A job whose blanks are filled.
    catalogue
        Products by id.

    Returns
    -------
    Parts
        One product for each purpose; the button follows from the sheet's depth.

    Raises
    ------
    InputError
        Names that are missing, unknown, or do not go together, all at once.
    """
    problems: list[Problem] = []

    def take(place: str, id: str | None, find: Callable[[str, str], T], needed: bool = True) -> T | None:
        if id is None:
            if needed:
                says = f"{place} is missing; name one of the catalogue (pentice products lists them)."
                problems.append(Problem(place, says))
            return None
        try:
            return find(id, place)
        except InputError as fault:
            problems.extend(fault.problems)
            return None

    g = job.glazing
    sheet = take("glazing.sheet", g.sheet, catalogue.sheet)
    bar = take("glazing.bar", g.bar, catalogue.bar)
    head = take("glazing.head_profile", g.head_profile, catalogue.profile)
    foot = take("glazing.foot_profile", g.foot_profile, catalogue.profile)
    has_edge_profile = "edge profile" in (g.left_edge, g.right_edge)
    edge = take("glazing.edge_profile", g.edge_profile, catalogue.profile, needed=has_edge_profile)
    trim = take("glazing.verge_trim", g.verge_trim, catalogue.profile, needed=False)
    screw = take("screws.bar_screw", job.screws.bar_screw, catalogue.screw)
    timber = take("frame.timber", job.frame.timber, catalogue.timber)
    gutter = take("gutter.item", job.gutter.item, catalogue.gutter, needed=False)
    beam = take("frame.beam_section", job.frame.beam_section, catalogue.section, needed=False)
    post = take("frame.post_section", job.frame.post_section, catalogue.section, needed=False)
    if problems or not (sheet and bar and head and foot and screw and timber):
        raise InputError(problems)
    tint = g.tint or sheet.tints[0]
    problems += _other_sizes(job, {"beam": beam, "post": post})
    problems += _fasteners(job, catalogue)
    problems += _of_rafters(job, bar)
    problems += _mismatches(tint, sheet, bar, {"head": head, "foot": foot, "edge": edge})
    if problems:
        raise InputError(problems)
    return Parts(
        sheet=sheet,
        tint=tint,
        bar=bar,
        head_profile=head,
        foot_profile=foot,
        edge_profile=edge,
        verge_trim=trim,
        screw=screw,
        timber=timber,
        button=next((b for b in catalogue.buttons.values() if b.depth_mm == sheet.depth_mm), None),
        gutter=gutter,
        beam_section=beam,
        post_section=post,
        timbers=timbers_by_use(timber, catalogue),
    )


TIMBER_USES = ("rafter", "beam", "post", "wall plate", "noggin", "barge board", "fascia")


def timbers_by_use(timber: Timber, catalogue: Catalogue) -> Mapping[str, Timber]:
    """For each use the job's own timber if it serves that use, else the first of the catalogue that does.

    Parameters
    ----------
    timber
        The timber that the job names; one that names no uses serves all.
    catalogue
        Products by id.

    Returns
    -------
    Mapping of str to Timber
        The job's own timber stands for a use that nothing serves.

    Examples
    --------
    >>> from pentice.catalogue.reading import read_catalogue
    >>> shipped = read_catalogue()
    >>> timbers = timbers_by_use(shipped.timbers["timber-c24"], shipped)
    >>> timbers["rafter"].id, timbers["post"].id, timbers["barge board"].id
    ('timber-c24', 'timber-posts', 'timber-boards')
    """
    found: dict[str, Timber] = {}
    for use in TIMBER_USES:
        serving = (t for t in (timber, *catalogue.timbers.values()) if use in t.uses)
        found[use] = timber if not timber.uses else next(serving, timber)
    return found


def _other_sizes(job: Job, sections: Mapping[str, Section | None]) -> list[Problem]:
    """Members whose size in the job is not that of the metal section that they are made of."""
    found: list[Problem] = []
    for use, section in sections.items():
        size, place = getattr(job.frame, f"{use}_mm"), f"frame.{use}_mm"
        if section is not None and size != (section.width_mm, section.depth_mm):
            said = "missing" if size is None else f"{size[0]:g} x {size[1]:g}"
            is_ = f"[{section.width_mm:g}, {section.depth_mm:g}]"
            found.append(Problem(place, f"{place} is {said}; {section.id} is {is_}. Write {place} = {is_}."))
    return found


def _of_rafters(job: Job, bar: Bar) -> Iterator[Problem]:
    """Keys that need rafters, beside a bar that carries by itself."""
    if not bar.carries:
        return
    frame = job.frame
    named = {
        "rafter_mm": frame.rafter_mm is not None,
        "rafter_centres_mm": frame.rafter_centres_mm is not None,
        "rafter_notch_mm": frame.rafter_notch_mm > 0.0,
        "head_notch_mm": frame.head_notch_mm > 0.0,
        "purlins_at_mm": bool(frame.purlins_at_mm),
        "noggins_at_mm": bool(frame.noggins_at_mm),
    }
    for key, there in named.items():
        if there:
            says = f'frame.{key} needs rafters, but glazing.bar "{bar.id}" carries by itself; take one of the two out.'
            yield Problem(f"frame.{key}", says)


def _fasteners(job: Job, catalogue: Catalogue) -> Iterator[Problem]:
    """Fasteners of joints that are ordered as something the catalogue does not hold, or holds in another size."""
    known = (*catalogue.screws, *catalogue.sundries)
    for i, fasteners in enumerate(job.frame.fasteners):
        place, item = f"frame.fasteners[{i}]", fasteners.item
        if item is None:
            continue
        if item not in known:
            says = f'{place}.item is "{item}"; expected a screw or another part of the catalogue.'
            yield Problem(f"{place}.item", f"{says} {nearest(known, item)}")
        elif item in catalogue.screws:
            yield from _another_screw(place, fasteners, catalogue.screws[item])


def _another_screw(place: str, described: Fasteners, screw: Screw) -> Iterator[Problem]:
    """What is ordered must be what is calculated."""
    if described.kind != "screw":
        yield Problem(
            f"{place}.item",
            f'{place}.item is the screw "{described.item}", but {place}.kind is "{described.kind}"; '
            "expected a part of that kind: name another item, or none.",
        )
        return
    for key, said, has in (
        ("d_mm", described.d_mm, screw.d_mm),
        ("length_mm", described.length_mm, screw.length_mm),
    ):
        if said is not None and abs(said - has) > _SAME_SCREW_MM:
            yield Problem(
                f"{place}.{key}",
                f'{place}.{key} is {said:g}, but "{described.item}" has {has:g} in the catalogue; '
                "expected the same: what is ordered is what is calculated.",
            )


def _mismatches(tint: str, sheet: Sheet, bar: Bar, profiles: Mapping[str, Profile | None]) -> list[Problem]:
    found: list[Problem] = []
    if tint not in sheet.tints:
        says = f'glazing.tint is "{tint}"; {sheet.id} comes in {", ".join(sheet.tints)}.'
        found.append(Problem("glazing.tint", says))
    if sheet.depth_mm not in bar.sheet_depths_mm:
        depths = ", ".join(f"{d:g}" for d in bar.sheet_depths_mm)
        says = f'glazing.bar is "{bar.id}"; it takes sheets {depths} deep, not {sheet.depth_mm:g}. Choose another.'
        found.append(Problem("glazing.bar", says))
    for use, profile in profiles.items():
        if profile is None:
            continue
        place = f"glazing.{use}_profile"
        if profile.use != use:
            found.append(
                Problem(
                    place, f'{place} is "{profile.id}", a {profile.use} profile; expected one for the {use}.'
                )
            )
        elif profile.inside_mm is not None and profile.inside_mm < sheet.depth_mm + 1.0:
            room = f"inside {profile.inside_mm:g} must take the sheet plus tape, {sheet.depth_mm + 1:g}"
            says = f'{place} is "{profile.id}"; {room}. Choose a deeper one.'
            found.append(Problem(place, says))
    return found
