"""Posts in closed walls on paper: what wind on each wall brings, stresses, and both ways together."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from pentice.checks.ground import JUDGEMENT
from pentice.checks.knee_bolts import Net
from pentice.checks.level import level_line
from pentice.checks.metal import Carries, Metal
from pentice.checks.post_sideways import SIDEWAYS as _SIDEWAYS
from pentice.checks.post_sideways import Axis, bowing_line, governing, k_crit_lines
from pentice.checks.post_winds import FREE_FOOT
from pentice.checks.posts import POST_SERVICE_CLASS, post_strengths
from pentice.checks.wall_posts_values import Acts, BothWays, Braces, HeldPost, WallPost
from pentice.checks.walls import ALONG, CALLED, OnWall
from pentice.job.fields import Wall
from pentice.standards.en338 import StrengthClass
from pentice.standards.en1991_1_4_roofs import Wind
from pentice.standards.en1995 import size_factor
from pentice.standards.en1995_members import K_M, MemberShare, TimberSection
from pentice.working import Step

_LINE = "EN 1993-1-1, 6.2.1(7), from memory: shares added in a straight line, on the safe side"
_BLOWS: Mapping[Wind, str] = {
    "onto foot": "wind onto the eaves",
    "onto head": "wind from behind",
    "from left": "wind from the left",
    "from right": "wind from the right",
}


def words_of(acts: Acts) -> str:
    """A wind in the words of a case.

    Parameters
    ----------
    acts
        What it does.

    Returns
    -------
    str
        "wind from the left, front A, left end D, +0.20 inside".

    Source
    ------
    None: words.
    """
    walls = [f"{CALLED[wall]} {on.zone}" for wall, on in _walls(acts)]
    on = next(on for _, on in _walls(acts))
    if on.source:
        return f"{_BLOWS[acts.wind]}, {', '.join(walls)}, declared"
    by_accident = ", a door open by accident" if acts.accidental else ""
    return f"{_BLOWS[acts.wind]}, {', '.join(walls)}, {on.inside:+.2f} inside{by_accident}"


def _walls(acts: Acts) -> Iterator[tuple[Wall, OnWall]]:
    if acts.at.front is not None and acts.on_front is not None:
        yield acts.at.front, acts.on_front
    if acts.at.end is not None and acts.on_end is not None:
        yield acts.at.end, acts.on_end


def _line(acts: Acts, wall: Wall, on: OnWall, strip_mm: float) -> Step:
    coefficient = f"|{on.outside:.4f} - ({on.inside:.4f})|"
    clause = on.clause()
    if on.source:
        coefficient = f"|{on.outside:g}|"
        if acts.on_front is not None and acts.on_end is not None:
            clause = f"{clause}; both walls at their worst at once, {JUDGEMENT}"
    return Step(
        says=f"Wind on the {CALLED[wall]} along the post, in size",
        formula="w = |c_p,net| q_p b" if on.source else "w = |c_pe - c_pi| q_p b",
        numbers=f"{coefficient} x {on.peak:.4f} x {strip_mm / 1000.0:.4f}",
        result=abs(on.net) * strip_mm / 1000.0,
        unit="kN/m",
        clause=clause,
    )


def wind_steps(acts: Acts, both: BothWays, along: tuple[Step, ...]) -> tuple[Step, ...]:
    """From the wind on each wall to the moments both ways, and what goes to head and foot.

    Parameters
    ----------
    acts, both, along
        The wind, what it comes to, and the line that leads to the moment of what braces the row.

    Returns
    -------
    tuple of Step
        [kN/m, kNm, kN].

    Source
    ------
    EN 1991-1-4:2005, 7.2.2, 7.2.9; statics.
    """
    factor, tall = both.case.combination.wind, acts.tall_mm / 1000.0
    steps: list[Step] = []
    if acts.wind in ALONG and acts.z_knm:
        steps += along
    ways = (
        (acts.at.front, acts.on_front, acts.at.front_mm, acts.y_n_mm, acts.y_knm, both.y_n_mm, "square to its row"),
        (acts.at.end, acts.on_end, acts.at.end_mm, acts.z_n_mm, acts.z_knm, both.z_n_mm, "along its row"),
    )  # fmt: skip
    for (wall, on, strip, line, more, moment, way), share in zip(ways, acts.to_foot, strict=True):
        if wall is not None and on is not None:
            steps.append(_line(acts, wall, on, strip))
        if line:
            beside = f" + {more:.6f}" if more else ""
            steps.append(
                Step(
                    says=f"Bends it {way}",
                    formula="M = gamma w l^2 / 8" + (" + M of what braces it" if more else ""),
                    numbers=f"{factor:g} x {line:.4f} x {tall:.4f}^2 / 8{beside}",
                    result=moment / 1e6,
                    unit="kNm",
                    clause="statics; foot and beam hold it"
                    + ("; all at its greatest at once" if more else ""),
                )
            )
            held = share > FREE_FOOT
            steps.append(
                Step(
                    says=f"Passes to its foot, held against turning, {way}; less to its head"
                    if held
                    else f"Passes to its head and to its foot, {way}",
                    formula="H = 5 gamma w l / 8" if held else "H = gamma w l / 2",
                    numbers=f"5 x {factor:g} x {line:.4f} x {tall:.4f} / 8"
                    if held
                    else f"{factor:g} x {line:.4f} x {tall:.4f} / 2",
                    result=share * factor * line * tall,
                    unit="kN",
                    clause="statics",
                )
            )
    return tuple(steps)


def level_steps(acts: Acts, factor: float, by: Braces) -> tuple[Step, ...]:
    """What a wind on the walls brings level to the foot of a post, or to its head, with what pushes its row.

    Parameters
    ----------
    acts, factor, by
        The wind, its factor [-], and what braces the row.

    Returns
    -------
    tuple of Step
        For either way the wind on the wall, then the force [kN].

    Source
    ------
    Statics.
    """
    k = acts.at.k
    steps: list[Step] = []
    along, square = acts.level_kn(factor, by)
    pushed = by.level if acts.wind in ALONG else by.level_across
    push = pushed[k] if pushed else None
    ways = (
        ("along", acts.at.end, acts.on_end, acts.at.end_mm, acts.z_n_mm, acts.to_foot[1], along),
        ("square", acts.at.front, acts.on_front, acts.at.front_mm, acts.y_n_mm, acts.to_foot[0], square),
    )
    for way, wall, on, strip, line, share, force in ways:
        formulas, numbers = [], []
        if push is not None and (way == "along") == (acts.wind in ALONG):
            steps += push.before
            formulas.append(push.formula or "H")
            numbers.append(push.numbers or f"{push.level_kn:.5f}")
        if wall is not None and on is not None:
            steps.append(_line(acts, wall, on, strip))
            formulas.append("gamma w l / 2" if share == FREE_FOOT else "5 gamma w l / 8")
            numbers.append(f"{share:g} x {factor:g} x {line:.5f} x {acts.tall_mm / 1000.0:.5f}")
        if force:
            steps.append(level_line(way, " + ".join(formulas), " + ".join(numbers), force))
    return tuple(steps)


def foot_steps(acts: Acts, factor: float, need_knm: float) -> tuple[Step, ...]:
    """What turns a held foot of a post in closed walls.

    Parameters
    ----------
    acts, factor
        The wind, and its factor [-].
    need_knm
        In all [kNm].

    Returns
    -------
    tuple of Step
        [kNm].

    Source
    ------
    Statics: a post held at its foot and borne at its beam, w l^2 / 8 at the foot.
    """
    along = acts.wind in ALONG
    wall, on, strip = (
        (acts.at.end, acts.on_end, acts.at.end_mm)
        if along
        else (acts.at.front, acts.on_front, acts.at.front_mm)
    )
    line, more = (acts.z_n_mm, acts.z_knm) if along else (acts.y_n_mm, acts.y_knm)
    steps = [_line(acts, wall, on, strip)] if wall is not None and on is not None else []
    last = Step(
        says="Turns its foot, with wind on the wall",
        formula="M of the push + gamma w l^2 / 8",
        numbers=f"{more:.6f} + {factor:g} x {line:.4f} x {acts.tall_mm / 1000.0:.4f}^2 / 8",
        result=need_knm,
        unit="kNm",
        clause="statics; all at its greatest at once",
    )
    return (*steps, last)


def timber_steps(
    timber: StrengthClass,
    acts: Acts,
    both: BothWays,
    along: tuple[Step, ...],
    held: HeldPost,
    share: MemberShare,
) -> tuple[Step, ...]:
    """From the forces in a timber post to the equation that governs.

    Parameters
    ----------
    timber, acts, both, along
        Its class, the wind, forces and moments, and the line of what braces the row.
    held, share
        How it bows and gives way, and what it uses.

    Returns
    -------
    tuple of Step
        The last is the sum [of 1].

    Source
    ------
    EN 1995-1-1:2004, 6.2.3, 6.2.4, 6.3.2, 6.3.3.
    """
    equation, pulls = governing(share), both.axial_n > 0.0
    steps = [*wind_steps(acts, both, along), *_axial_steps(timber, acts, both, share, held.net)]
    steps += _bending_steps(timber, acts, both, share, held.net)
    if equation in ("6.23", "6.24", "6.35"):
        steps.append(_bowing_step(timber, acts.at, equation, held))
    if held.slender is not None and (pulls or equation in _SIDEWAYS):
        steps += k_crit_lines(held.slender[1], timber)
    return (*steps, _sum(equation, share, held))


def _stress(says: str, formula: str, numbers: str, result: float, clause: str) -> Step:
    return Step(says=says, formula=formula, numbers=numbers, result=result, unit="N/mm2", clause=clause)


def _axial_steps(
    timber: StrengthClass, acts: Acts, both: BothWays, share: MemberShare, net: Net | None
) -> Iterator[Step]:
    (b, d), strengths = acts.at.post.size_mm, post_strengths(timber, both.case)
    k_mod, gamma, force = f"{strengths.k_mod:g}", f"{strengths.gamma_m:g}", f"{abs(both.axial_n):.1f}"
    pulls = both.axial_n > 0.0
    area = f"({b:g} x {d:g})" if net is None or not pulls else f"({_left(net)} x {d:g})"
    yield _stress(
        "Stress from the pull" if pulls else "Stress from the push down",
        f"{'sigma_t' if pulls else 'sigma_c'} = N / (b d)",
        f"{force} / {area}",
        abs(share.axial_n_mm2),
        ("6.1.2" if pulls else "6.1.4") + _of_holes(net, off=pulls),
    )
    if pulls:
        yield _stress(
            "Strength in tension",
            "f_t,0,d = k_mod k_h f_t,0,k / gamma_M",
            f"{k_mod} x {size_factor(max(b, d)):.4f} x {timber.f_t_0_k_n_mm2:g} / {gamma}",
            share.axial_strength_n_mm2,
            "2.4.1, 3.2(3) by the greater side",
        )
        return
    yield _stress(
        "Strength in compression",
        "f_c,0,d = k_mod f_c,0,k / gamma_M",
        f"{k_mod} x {timber.f_c_0_k_n_mm2:g} / {gamma}",
        share.axial_strength_n_mm2,
        "2.4.1",
    )


def _left(net: Net) -> str:
    """The side of a post beside the holes of its bolts."""
    return f"({net.depth_mm:g} - {len(net.places_mm)} x {net.hole_mm:g})"


def _of_holes(net: Net | None, *, off: bool) -> str:
    if net is None:
        return ""
    return "; bolt holes off, 5.2, from memory" if off else "; the whole section, 5.2(3), from memory"


def _bending_steps(
    timber: StrengthClass, acts: Acts, both: BothWays, share: MemberShare, net: Net | None
) -> Iterator[Step]:
    (b, d), strengths = acts.at.post.size_mm, post_strengths(timber, both.case)
    ways = (
        ("y", "square to its row", (b, d), both.y_n_mm, share.bending_y_n_mm2, share.strength_y_n_mm2),
        ("z", "along its row", (d, b), both.z_n_mm, share.bending_z_n_mm2, share.strength_z_n_mm2),
    )
    for axis, way, (wide, deep), moment, stress, strength in ways:
        if moment:
            formula = f"6 M_{axis} / ({'b d' if axis == 'y' else 'd b'}^2)"
            numbers = f"6 x {moment / 1e6:.6f} x 10^6 / ({wide:g} x {deep:g}^2)"
            if net is not None and axis == "z":
                yield net.step()
                formula, numbers = "M_z / W_n", f"{moment / 1e6:.6f} x 10^6 / {net.modulus_mm3:.1f}"
            elif net is not None:
                formula = "6 M_y / (b_n d^2)"
                numbers = f"6 x {moment / 1e6:.6f} x 10^6 / ({_left(net)} x {deep:g}^2)"
            clause = "6.1.6" + _of_holes(net, off=True)
            yield _stress(f"Stress from bending {way}", f"sigma_{axis} = {formula}", numbers, stress, clause)
            yield _stress(
                f"Strength in bending {way}",
                f"f_m,{axis},d = k_mod k_h f_m,k / gamma_M",
                f"{strengths.k_mod:g} x {size_factor(deep):.4f} x {timber.f_m_k_n_mm2:g} / {strengths.gamma_m:g}",
                strength,
                "2.4.1, 3.2(3)",
            )


def _bowing_step(timber: StrengthClass, at: WallPost, equation: str, held: HeldPost) -> Step:
    bowing = held.bowing
    sideways = held.slender is not None and held.slender[0] == "z"
    in_depth = equation == "6.23" or (equation == "6.35" and sideways)
    times = held.lengths[0 if in_depth else 1]
    b, d = at.post.size_mm
    section = TimberSection(width_mm=b, depth_mm=d)
    return bowing_line(
        bowing, section, timber, length_mm=times * at.tall_mm, along=not in_depth, twice=times > 1.0
    )


def _sum(equation: str, share: MemberShare, held: HeldPost) -> Step:
    stresses: dict[Axis, tuple[float, float]] = {
        "y": (share.bending_y_n_mm2, share.strength_y_n_mm2),
        "z": (share.bending_z_n_mm2, share.strength_z_n_mm2),
    }
    formula, numbers = _axial_part(equation, share, held)
    pulls, more = equation in ("6.17", "6.18"), ""
    full: tuple[Axis, ...] = ("y", "z")
    if equation in ("6.17", "6.19", "6.23"):
        full = ("y",)
    elif equation in ("6.18", "6.20", "6.24"):
        full = ("z",)
    for axis, (stress, strength) in stresses.items():
        if equation in ("6.1", "6.2"):
            break
        k_crit = held.k_crit(axis)
        reduced = (pulls or equation in _SIDEWAYS) and k_crit < 1.0
        one = f"sigma_{axis} / " + (f"(k_crit f_m,{axis},d)" if reduced else f"f_m,{axis},d")
        sums = f"{stress:.5f} / " + (f"({k_crit:.5f} x {strength:.4f})" if reduced else f"{strength:.4f}")
        if equation == "6.35" and held.slender is not None and held.slender[0] == axis:
            one, sums = f"({one})^2", f"({sums})^2"
        times = ("", "") if axis in full else ("k_m ", f"{K_M:g} x ")
        formula, numbers = f"{formula} + {times[0]}{one}", f"{numbers} + {times[1]}{sums}"
    if equation in _SIDEWAYS:
        more = " with the bending about the weaker axis added in full, on the safe side"
    elif pulls and held.slender is not None:
        more = " with 6.33 added in full, on the safe side"
    return Step(
        says="Both ways together",
        formula=formula.removeprefix(" + "),
        numbers=numbers.removeprefix(" + "),
        result=share.utilisation,
        unit="of 1",
        clause=f"eq. {equation}{more}; service class {POST_SERVICE_CLASS}; all at its greatest at once",
    )


def _axial_part(equation: str, share: MemberShare, held: HeldPost) -> tuple[str, str]:
    """What pull or push brings to the sum; nothing in eq. 6.33."""
    axial, holds = f"{abs(share.axial_n_mm2):.5f}", f"{share.axial_strength_n_mm2:.4f}"
    if equation == "6.33":
        return "", ""
    if equation in ("6.1", "6.17", "6.18"):
        return "sigma_t / f_t,0,d", f"{axial} / {holds}"
    if equation == "6.2":
        return "sigma_c / f_c,0,d", f"{axial} / {holds}"
    if equation in ("6.19", "6.20"):
        return "(sigma_c / f_c,0,d)^2", f"({axial} / {holds})^2"
    in_depth = equation == "6.23"
    if equation == "6.35":
        in_depth = held.slender is not None and held.slender[0] == "z"
    axis, k_c = ("y", held.bowing.k_c_y) if in_depth else ("z", held.bowing.k_c_z)
    return f"sigma_c / (k_c,{axis} f_c,0,d)", f"{axial} / ({k_c:.5f} x {holds})"


def metal_steps(
    metal: Metal,
    acts: Acts,
    both: BothWays,
    along: tuple[Step, ...],
    carries: tuple[Carries, Carries, Carries],
    share: float,
) -> tuple[Step, ...]:
    """From the forces in a metal post to its shares in a straight line.

    Parameters
    ----------
    metal, acts, both, along
        The section, the wind, forces and moments, and the line of what braces the row.
    carries, share
        What it carries pushed, bent square to its row and along it; and what it uses [-].

    Returns
    -------
    tuple of Step
        The last is the sum [of 1].

    Source
    ------
    EN 1993-1-1:2005, 6.2.1(7), 6.3.3; EN 1999-1-1:2007, 6.3.3.
    """
    push, y, z = carries
    m = f"{both.y_n_mm / 1e6:.6f} / {y.value / 1e6:.5f} + {both.z_n_mm / 1e6:.6f} / {z.value / 1e6:.5f}"
    steps = [*wind_steps(acts, both, along)]
    if both.axial_n > 0.0:
        holds = metal.profile.area_mm2 * metal.strength_n_mm2 / metal.gamma / 1000.0
        steps.append(
            Step(
                says="Resistance in tension",
                formula=f"N_t,Rd = A {metal.symbol} / gamma_M",
                numbers=f"{metal.profile.area_mm2:.2f} x {metal.strength_n_mm2:g} / {metal.gamma:g} / 1000",
                result=holds,
                unit="kN",
                clause=f"{metal.standard}, 6.2.3",
            )
        )
        formula, numbers = (
            "N / N_t,Rd + M_y / M_y,Rd + M_z / M_z,Rd",
            f"{both.axial_n / 1000.0:.4f} / {holds:.4f} + {m}",
        )
        clause = _LINE if metal.is_steel else f"{_LINE}; of aluminium as of steel, {JUDGEMENT}"
    else:
        steps += push.working
        n = f"{-both.axial_n / 1000.0:.4f} / {push.value / 1000.0:.4f}"
        first = ("n", n) if metal.is_steel else ("n^0.8", f"({n})^0.8")
        formula = f"{first[0]} + (1 + 1.4 n) (m_y + m_z), n = N / N_b,Rd, m = M / M_Rd"
        numbers = f"{first[1]} + (1 + 1.4 x {n}) x ({m})"
        clause = f"{metal.standard}, 6.3.3, on the safe side"
    last = Step(
        says="Both ways together", formula=formula, numbers=numbers, result=share, unit="of 1", clause=clause
    )
    return (*steps, *y.working, *z.working, last)
