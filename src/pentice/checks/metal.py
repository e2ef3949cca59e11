"""A metal section as the clauses need it: properties from its sizes, strength, class, and what it carries.

Lines of working beside each number. Properties leave the radii out; the beam's own steel at its bearings and every weld
or bolt is not here.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt
from typing import Literal

from pentice.catalogue.sections import Section
from pentice.errors import OutsideScope, require_within
from pentice.loads.weight import GRAVITY
from pentice.mechanics.lateral import SlenderBar, critical_moment_n_mm
from pentice.mechanics.profiles import (
    Profile,
    open_torsion_mm4,
    profile,
    rectangle_outline,
    round_tube_outline,
    tube_torsion_mm4,
)
from pentice.standards import en1993, en1999
from pentice.standards.en1993 import Curve
from pentice.working import Step

STEEL_KG_M3 = 7850.0
_LARGE = "EN 1993-1-1, 6.2.6(6); EN 1999-1-1, 6.2.6"


@dataclass(frozen=True, slots=True, kw_only=True)
class Metal:
    """A section with its properties [mm], strength f_y or f_o, stiffness [N/mm2] and weight."""

    section: Section
    profile: Profile
    i_t_mm4: float
    i_w_mm6: float
    web_area_mm2: float
    strength_n_mm2: float
    e_n_mm2: float
    g_n_mm2: float
    gamma: float

    @property
    def is_steel(self) -> bool:
        """Steel, or aluminium."""
        return self.section.is_steel

    @property
    def standard(self) -> str:
        """The standard that its clauses stand in."""
        return "EN 1993-1-1" if self.is_steel else "EN 1999-1-1"

    @property
    def edition(self) -> str:
        """Its edition."""
        return "EN 1993-1-1:2005" if self.is_steel else "EN 1999-1-1:2007"

    @property
    def symbol(self) -> str:
        """Symbol of the strength."""
        return "f_y" if self.is_steel else "f_o"

    @property
    def density_kg_m3(self) -> float:
        """Of the metal."""
        return STEEL_KG_M3 if self.is_steel else en1999.DENSITY_KG_M3

    @property
    def line_n_mm(self) -> float:
        """Own weight [N/mm]."""
        return self.profile.area_mm2 * 1e-6 * self.density_kg_m3 * GRAVITY


def metal_of(section: Section) -> Metal:
    """A section of the catalogue with its properties.

    Parameters
    ----------
    section
        Shape and sizes [mm], grade or alloy.

    Returns
    -------
    Metal
        [mm, N/mm2].

    Raises
    ------
    InputError
        The grade or the alloy is not held.
    OutsideScope
        A wall lies outside the table of the grade.

    Source
    ------
    Geometry; Bredt's formula and thin plates for torsion; EN 1993-1-1, Table 3.1; EN 1999-1-1, Table 3.2b.
    """
    b, h, t = section.width_mm, section.depth_mm, section.web_mm
    flange = section.flange_mm or t
    warping = 0.0
    if section.shape == "tube":
        made = profile(rectangle_outline(b, h), [rectangle_outline(b, h, t)])
        torsion = tube_torsion_mm4((b - t) * (h - t), 2.0 * (b + h - 2.0 * t), t)
        web = 2.0 * (h - 2.0 * t) * t
    elif section.shape == "round tube":
        made = profile(round_tube_outline(b), [round_tube_outline(b - 2.0 * t)])
        torsion = tube_torsion_mm4(pi / 4.0 * (b - t) ** 2, pi * (b - t), t)
        web = 0.6 * made.area_mm2
    else:
        left, right, low, high = (b - t) / 2.0, (b + t) / 2.0, flange, h - flange
        made = profile(
            (
                (0.0, 0.0), (b, 0.0), (b, low), (right, low), (right, high), (b, high),
                (b, h), (0.0, h), (0.0, high), (left, high), (left, low), (0.0, low),
            )
        )  # fmt: skip
        torsion = open_torsion_mm4([(b, flange), (b, flange), (h - 2.0 * flange, t)])
        warping = made.i_z_mm4 * (h - flange) ** 2 / 4.0
        web = (h - 2.0 * flange) * t
    thickest = max(t, flange)
    steel = section.is_steel
    strength = (
        en1993.steel(section.metal, thickest).f_y_n_mm2
        if steel
        else en1999.aluminium(section.metal, thickest).f_o_n_mm2
    )
    return Metal(
        section=section,
        profile=made,
        i_t_mm4=torsion,
        i_w_mm6=warping,
        web_area_mm2=web,
        strength_n_mm2=strength,
        e_n_mm2=en1993.E_N_MM2 if steel else en1999.E_N_MM2,
        g_n_mm2=en1993.G_N_MM2 if steel else en1999.G_N_MM2,
        gamma=1.0 if steel else en1999.GAMMA_M1,
    )


def class_of(metal: Metal, *, pushed: bool) -> int:
    """Class of the section, 1 to 3: of steel by its flats, of aluminium as its maker states it.

    Parameters
    ----------
    metal
        The section.
    pushed
        True in a post, where the web is pushed too; False in a beam, where it is bent.

    Returns
    -------
    int
        [-].

    Raises
    ------
    OutsideScope
        Class 4, or an aluminium section whose class is not stated.

    Source
    ------
    EN 1993-1-1:2005, Table 5.2, flats between walls; EN 1999-1-1, 6.1.4.
    """
    section = metal.section
    if not metal.is_steel:
        if section.section_class is None:
            raise OutsideScope(
                f"The class of {section.id} is not stated: give section_class of the section as its maker states it."
            )
        do = "Take a stockier section."
        require_within("section_class", section.section_class, 1, 3, source="EN 1999-1-1, 6.1.4", do=do)
        return section.section_class
    b, h, t, f_y = section.width_mm, section.depth_mm, section.web_mm, metal.strength_n_mm2
    if section.shape == "round tube":
        return en1993.part_class("round tube", b, t, f_y)
    web: Literal["inside, pushed", "inside, bent"] = "inside, pushed" if pushed else "inside, bent"
    flange = section.flange_mm or t
    across = (
        en1993.part_class("inside, pushed", b - 2.0 * t, t, f_y)
        if section.shape == "tube"
        else en1993.part_class("outstand, pushed", (b - t) / 2.0, flange, f_y)
    )
    return max(across, en1993.part_class(web, h - 2.0 * flange, t, f_y))


def buckling_curve(metal: Metal) -> Curve:
    """Curve on which a steel section bows, about either axis.

    Parameters
    ----------
    metal
        A steel section.

    Returns
    -------
    str
        a hot-finished tubes, c all others [-].

    Source
    ------
    EN 1993-1-1:2005, Table 6.2; for I-shapes the curve of the weaker axis, on the safe side.
    """
    tube = metal.section.shape != "I"
    return "a" if tube and metal.section.made == "hot finished" else "c"


def buckling_class(metal: Metal) -> Literal["A", "B"]:
    """Buckling class of an alloy: A in the tempers T6, T64 and T66, B in others.

    Parameters
    ----------
    metal
        An aluminium section.

    Returns
    -------
    str
        [-].

    Source
    ------
    EN 1999-1-1, Table 3.2b, from memory.
    """
    return "A" if "-T6" in metal.section.metal else "B"


@dataclass(frozen=True, slots=True, kw_only=True)
class Carries:
    """A resistance with its lines of working [N, N mm]."""

    value: float
    working: tuple[Step, ...]


def shear_carried(metal: Metal) -> Carries:
    """Shear that the webs carry.

    Parameters
    ----------
    metal
        The section.

    Returns
    -------
    Carries
        V_Rd [N].

    Raises
    ------
    OutsideScope
        The web is so slender that it buckles in shear.

    Source
    ------
    EN 1993-1-1:2005, 6.2.6; EN 1999-1-1, 6.2.6, webs without the flanges, on the safe side.
    """
    section, f = metal.section, metal.strength_n_mm2
    h, t = section.depth_mm - 2.0 * (section.flange_mm or section.web_mm), section.web_mm
    if section.shape != "round tube":
        most = 72.0 * sqrt(235.0 / f) if metal.is_steel else 39.0 * sqrt(250.0 / f)
        require_within(
            "height over thickness of the web", h / t, 0.0, most, source=_LARGE, do="Take a thicker web."
        )
    webs = 2 if section.shape == "tube" else 1
    area = f"{webs} x {h:g} x {t:g}"
    if section.shape == "round tube":
        area = f"0.6 x {metal.profile.area_mm2:.2f}"
    value = (
        en1993.steel_shear_n(metal.web_area_mm2, f)
        if metal.is_steel
        else en1999.aluminium_shear_n(metal.web_area_mm2, f)
    )
    step = Step(
        says="Shear resistance",
        formula=f"V_Rd = A_v {metal.symbol} / (sqrt(3) gamma_M)",
        numbers=f"{area} x {f:g} / (sqrt(3) x {metal.gamma:g}) / 1000",
        result=value / 1000.0,
        unit="kN",
        clause=f"{metal.standard}, 6.2.6",
    )
    return Carries(value=value, working=(step,))


def modulus_of(metal: Metal, number: int) -> tuple[float, Step]:
    """Modulus about the level axis that counts: plastic for steel of class 1 and 2, else elastic.

    Parameters
    ----------
    metal
        The section.
    number
        Its class [-].

    Returns
    -------
    tuple
        [mm3], and its line.

    Source
    ------
    Geometry; EN 1993-1-1:2005, 6.2.5(2); EN 1999-1-1, 6.2.5.1 with shape factor 1.
    """
    section, plastic = metal.section, metal.is_steel and number <= 2
    b, h, t = section.width_mm, section.depth_mm, section.web_mm
    flange = section.flange_mm or t
    value = metal.profile.w_pl_y_mm3 if plastic else metal.profile.w_y_mm3
    clear, low = (b - t if section.shape == "I" else b - 2.0 * t), h - 2.0 * flange
    if section.shape == "round tube":
        numbers = (
            f"({b:g}^3 - {b - 2 * t:g}^3) / 6"
            if plastic
            else f"3.14159 / 32 x ({b:g}^4 - {b - 2 * t:g}^4) / {b:g}"
        )
    elif plastic:
        numbers = f"({b:g} x {h:g}^2 - {clear:g} x {low:g}^2) / 4"
    else:
        numbers = f"({b:g} x {h:g}^3 - {clear:g} x {low:g}^3) / (6 x {h:g})"
    step = Step(
        says="Plastic modulus" if plastic else "Elastic modulus",
        formula=f"W_{'pl' if plastic else 'el'} of the section, class {number}, without radii",
        numbers=numbers,
        result=value,
        unit="mm3",
        clause=f"geometry; {metal.standard}, 6.2.5",
    )
    return value, step


def bending_carried(metal: Metal, *, number: int, free_mm: float) -> Carries:
    """Moment that a beam or post carries where nothing holds it between forked ends.

    Parameters
    ----------
    metal
        The section.
    number
        Its class [-].
    free_mm
        Distance between the places that hold it upright [mm].

    Returns
    -------
    Carries
        M_b,Rd [N mm].

    Raises
    ------
    OutsideScope
        The section is too slender sideways.

    Source
    ------
    EN 1993-1-1:2005, 6.3.2.2; EN 1999-1-1, 6.3.2. The lesser critical moment of an even moment and of an even load on
    the top edge, whichever way it acts: judgement, on the safe side.
    """
    modulus, line = modulus_of(metal, number)
    f, section = metal.strength_n_mm2, metal.section
    above = min(section.depth_mm / 2.0, free_mm / 10.0)
    bar = SlenderBar(
        length_mm=free_mm,
        e_n_mm2=metal.e_n_mm2,
        g_n_mm2=metal.g_n_mm2,
        i_z_mm4=metal.profile.i_z_mm4,
        i_t_mm4=metal.i_t_mm4,
        i_w_mm6=metal.i_w_mm6,
        load_above_shear_centre_mm=above,
    )
    critical = min(critical_moment_n_mm(bar, "even moment"), critical_moment_n_mm(bar, "even load"))
    if metal.is_steel:
        steel = en1993.steel_beam(modulus_mm3=modulus, critical_n_mm=critical, f_y_n_mm2=f)
        slender, chi, value = steel.slenderness, steel.chi, steel.resistance_n_mm
        alpha, plateau = 0.76, 0.2
    else:
        alu = en1999.aluminium_bar(
            elastic_modulus_mm3=modulus,
            f_o_n_mm2=f,
            critical_n_mm=critical,
            section_class=3,
        )
        slender, chi, value = alu.slenderness, alu.chi, alu.resistance_n_mm
        alpha, plateau = 0.20, 0.4
    steps = (
        line,
        Step(
            says="Critical moment sideways",
            formula="M_cr, free between forked ends, load on the top edge",
            numbers=f"integrated by energy; free {free_mm:.0f} mm, I_z {metal.profile.i_z_mm4:.0f}, "
            f"I_t {metal.i_t_mm4:.0f} mm4, I_w {metal.i_w_mm6:.4g} mm6",
            result=critical / 1e6,
            unit="kNm",
            clause="elastic stability",
        ),
        Step(
            says="Slenderness sideways",
            formula=f"lambda_LT = sqrt(W {metal.symbol} / M_cr)",
            numbers=f"sqrt({modulus:.1f} x {f:g} / ({critical / 1e6:.5g} x 10^6))",
            result=slender,
            unit="",
            clause=f"{metal.standard}, 6.3.2.2",
        ),
        chi_step("Factor sideways", "chi_LT", slender, chi, alpha, plateau, f"{metal.standard}, 6.3.2.2"),
        Step(
            says="Bending resistance",
            formula=f"M_b,Rd = chi_LT W {metal.symbol} / gamma_M1",
            numbers=f"{chi:.5f} x {modulus:.1f} x {f:g} / {metal.gamma:g} / 10^6",
            result=value / 1e6,
            unit="kNm",
            clause=f"{metal.standard}, 6.3.2.1",
        ),
    )
    return Carries(value=value, working=steps)


def push_carried(metal: Metal, length_mm: float) -> Carries:
    """Push that a post carries before it bows about its weaker axis, both ends pinned.

    Parameters
    ----------
    metal
        The section, of class 1 to 3.
    length_mm
        Its length [mm].

    Returns
    -------
    Carries
        N_b,Rd [N].

    Raises
    ------
    OutsideScope
        The post is too slender.

    Source
    ------
    EN 1993-1-1:2005, 6.3.1; EN 1999-1-1, 6.3.1.
    """
    area, f = metal.profile.area_mm2, metal.strength_n_mm2
    least = min(metal.profile.i_y_mm4, metal.profile.i_z_mm4)
    curve, kind = buckling_curve(metal), buckling_class(metal)
    if metal.is_steel:
        steel = en1993.steel_post(
            area_mm2=area, second_moment_mm4=least, length_mm=length_mm, f_y_n_mm2=f, curve=curve
        )
        slender, chi, value = steel.slenderness, steel.chi, steel.resistance_n
        alpha, plateau, said = {"a": 0.21, "c": 0.49}[curve], 0.2, f"curve {curve}"
    else:
        alu = en1999.aluminium_post(
            area_mm2=area,
            second_moment_mm4=least,
            length_mm=length_mm,
            f_o_n_mm2=f,
            buckling_class=kind,
            symmetrical=True,
        )
        slender, chi, value = alu.slenderness, alu.chi, alu.resistance_n
        (alpha, plateau), said = {"A": (0.20, 0.10), "B": (0.32, 0.0)}[kind], f"class {kind}"
    steps = (
        Step(
            says="Slenderness of the post",
            formula=f"lambda = sqrt(A {metal.symbol} l^2 / (pi^2 E I)), I of the weaker axis",
            numbers=f"sqrt({area:.2f} x {f:g} x {length_mm:.1f}^2 / (3.14159^2 x {metal.e_n_mm2:g} x {least:.0f}))",
            result=slender,
            unit="",
            clause=f"{metal.standard}, 6.3.1.2",
        ),
        chi_step("Bowing factor", "chi", slender, chi, alpha, plateau, f"{metal.standard}, 6.3.1.2, {said}"),
        Step(
            says="Push it carries",
            formula=f"N_b,Rd = chi A {metal.symbol} / gamma_M1",
            numbers=f"{chi:.5f} x {area:.2f} x {f:g} / {metal.gamma:g} / 1000",
            result=value / 1000.0,
            unit="kN",
            clause=f"{metal.standard}, 6.3.1.1",
        ),
    )
    return Carries(value=value, working=steps)


def chi_step(
    says: str, symbol: str, slender: float, chi: float, alpha: float, plateau: float, clause: str
) -> Step:
    """The factor of a buckling curve in numbers.

    Parameters
    ----------
    says, symbol, clause
        Words.
    slender, chi
        Slenderness and factor [-].
    alpha, plateau
        Imperfection and plateau of the curve [-].

    Returns
    -------
    Step
        [-].

    Source
    ------
    EN 1993-1-1:2005, eq. 6.49; EN 1999-1-1, eq. 6.50.
    """
    phi = 0.5 * (1.0 + alpha * (slender - plateau) + slender**2)
    return Step(
        says=says,
        formula=f"{symbol} = 1 / (phi + sqrt(phi^2 - lambda^2)), "
        f"phi = 0.5 (1 + {alpha:g} (lambda - {plateau:g}) + lambda^2)",
        numbers="1; below the plateau"
        if slender <= plateau
        else f"min(1, 1 / ({phi:.5f} + sqrt({phi:.5f}^2 - {slender:.5f}^2)))",
        result=chi,
        unit="",
        clause=clause,
    )
