"""What a bar that carries by itself sets against bending, by the edge that is pressed, to EN 1999-1-1."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from pentice.catalogue.bars import Bar
from pentice.checks.ground import Ground
from pentice.checks.rafter_model import RafterModel
from pentice.errors import InputError, OutsideScope
from pentice.mechanics.beam import BeamAnswer
from pentice.mechanics.lateral import SlenderBar, critical_moment_n_mm
from pentice.standards.en1999 import E_N_MM2, G_N_MM2, GAMMA_M1, aluminium, aluminium_bar
from pentice.working import Step

Edge = Literal["upper", "lower"]
_TIP = 5.0
"""Free length of a tip that is loaded on top and partly held against twisting at its support, by its reach: BS 5950-1,
Table 14, from memory."""
EDGES: tuple[Edge, ...] = ("upper", "lower")


@dataclass(frozen=True, slots=True, kw_only=True)
class BentBar:
    """A resistance [N mm] with its lines and the keys of the bar that it rests on; or why there is none."""

    value: float = 0.0
    working: tuple[Step, ...] = ()
    keys: tuple[str, ...] = ()
    refused: str = ""


def one_way(answer: BeamAnswer, pressed: Edge) -> BeamAnswer:
    """The moments of an answer that press one edge; those that press the other are none.

    Parameters
    ----------
    answer
        What one load does to the bar.
    pressed
        The edge.

    Returns
    -------
    BeamAnswer
        Its moments of that sign, all else as it was.

    Source
    ------
    Definition: what sags is pressed above.
    """
    support = answer.support_moment_n_mm
    if pressed == "upper":
        return answer._replace(hogging_n_mm=0.0, hogging_at_mm=0.0, support_moment_n_mm=max(support, 0.0))
    return answer._replace(sagging_n_mm=0.0, sagging_at_mm=0.0, support_moment_n_mm=min(support, 0.0))


def bent_bar(
    ground: Ground, model: RafterModel, pressed: Edge, *, upward: bool, over_seat_mm: float = 0.0
) -> BentBar:
    """Declared by the supplier, or of the section with what holds it sideways.

    Parameters
    ----------
    ground, model
        The inputs of every check, and the bar between its bearings.
    pressed
        The edge that is pressed: the declared resistances are for the upper (down) and the lower (up).
    upward
        Does the load lift?
    over_seat_mm
        How far above the seat of the sheets a load stands that presses down [mm].

    Returns
    -------
    BentBar
        [N mm]; refused where the supplier must be asked, or outside what is covered.

    Source
    ------
    EN 1999-1-1:2007, 6.2.5 and 6.3.2, shape factor 1.
    """
    bar = ground.parts.bar
    other = "bending_down_knm" if pressed == "upper" else "bending_up_knm"
    declared = bar.bending_down_knm if pressed == "upper" else bar.bending_up_knm
    if declared is not None:
        step = Step(
            says=f"Bending resistance with the {pressed} edge pressed, declared",
            formula="M_Rd",
            numbers=f"{declared:g}",
            result=declared,
            unit="kNm",
            clause="the supplier's declared design value",
        )
        return BentBar(value=declared * 1e6, working=(step,), keys=(other,))
    keys = ("i_mm4", "w_mm3")
    if bar.w_mm3 is None or bar.alloy is None or bar.wall_mm is None or bar.section_class is None:
        lacks = [k for k in ("w_mm3", "alloy", "wall_mm", "section_class") if getattr(bar, k) is None]
        says = f"Give {', '.join(lacks)} of bars.{bar.id}, or its {other}: ask the supplier."
        return BentBar(refused=says, keys=keys)
    try:
        strength = aluminium(bar.alloy.replace(" ", "-"), bar.wall_mm).f_o_n_mm2
        critical, lines = _sideways(ground, model, pressed, upward=upward, over_seat_mm=over_seat_mm)
        found = aluminium_bar(
            elastic_modulus_mm3=bar.w_mm3,
            f_o_n_mm2=strength,
            critical_n_mm=critical,
            section_class=bar.section_class,
        )
    except (OutsideScope, InputError) as refusal:
        return BentBar(refused=str(refusal), keys=keys)
    steps = (
        *lines,
        Step(
            says="Bending resistance of the section",
            formula="M_o,Rd = W f_o / gamma_M1",
            numbers=f"{bar.w_mm3:g} x {strength:g} / {GAMMA_M1:g} / 10^6",
            result=found.section_n_mm / 1e6,
            unit="kNm",
            clause="EN 1999-1-1, 6.2.5.1, shape factor 1",
        ),
        Step(
            says=f"Bending resistance with the {pressed} edge pressed",
            formula="M_b,Rd = chi_LT M_o,Rd",
            numbers=f"{found.chi:.5f} x {found.section_n_mm / 1e6:.6f}"
            + (f"; lambda_LT {found.slenderness:.4f}" if lines else "; held sideways by the sheets"),
            result=found.resistance_n_mm / 1e6,
            unit="kNm",
            clause="EN 1999-1-1, 6.3.2",
        ),
    )
    return BentBar(value=found.resistance_n_mm, working=steps, keys=keys)


def _sideways(
    ground: Ground, model: RafterModel, pressed: Edge, *, upward: bool, over_seat_mm: float
) -> tuple[float, tuple[Step, ...]]:
    """Critical moment; without end where sheets hold the pressed edge."""
    bar = ground.parts.bar
    if bar.held_by_sheets and pressed == "upper":
        return math.inf, ()
    lacks = [key for key in ("i_z_mm4", "i_t_mm4", "z_j_mm") if getattr(bar, key) is None]
    if lacks:
        raise OutsideScope(
            f"Nothing is said to hold bars.{bar.id} sideways: give {', '.join(lacks)}, or its declared resistance."
        )
    # Sheets load its upper edge, at most its depth above the shear centre; what lifts there steadies it. A single force
    # at mid-span is no worse than an even load as high: it is counted as one.
    over_beam = (pressed == "lower") != upward
    above = 0.0 if over_beam or upward else (bar.below_mm or 0.0) + over_seat_mm
    places = (
        ((model.span_mm, above), (_TIP * model.overhang_mm, 0.0)) if over_beam else ((model.span_mm, above),)
    )
    critical, slender = min(
        (_critical(bar, free, load, pressed) for free, load in places), key=lambda found: found[0]
    )
    step = Step(
        says="Critical moment sideways",
        formula="M_cr, free between its bearings, or 5 times its reach past the beam",
        numbers=f"integrated by energy; free {slender.length_mm:.0f} mm, load "
        f"{slender.load_above_shear_centre_mm:g} mm above the shear centre, "
        f"I_z {bar.i_z_mm4:g}, I_t {bar.i_t_mm4:g} mm4, I_w {bar.i_w_mm6 or 0.0:g} mm6, z_j {slender.z_j_mm:g} mm",
        result=critical / 1e6,
        unit="kNm",
        clause="elastic stability",
    )
    return critical, (step,)


def _critical(bar: Bar, free_mm: float, above_mm: float, pressed: Edge) -> tuple[float, SlenderBar]:
    """The lesser of an even moment and an even load; a stubby length is taken longer, to where the energy holds."""
    z_j = bar.z_j_mm or 0.0
    slender = SlenderBar(
        length_mm=max(free_mm, 10.0 * above_mm),
        e_n_mm2=E_N_MM2,
        g_n_mm2=G_N_MM2,
        i_z_mm4=bar.i_z_mm4 or 0.0,
        i_t_mm4=bar.i_t_mm4 or 0.0,
        i_w_mm6=bar.i_w_mm6 or 0.0,
        load_above_shear_centre_mm=above_mm,
        z_j_mm=z_j if pressed == "upper" or z_j == 0.0 else -z_j,
    )
    return min(
        critical_moment_n_mm(slender, "even moment"), critical_moment_n_mm(slender, "even load")
    ), slender
