"""What the fasteners of a joint hold, by the Johansen equations with rope effect, where the job describes them.

Every fastener is taken as pushed across the grain of rafter, plate and beam, and along that of a post: what lifts.
What pushes level is in `fasteners_level`. The steel of straps and plates is not here, nor what a strap is anchored in.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import inf
from typing import Literal

from pentice.checks.fasteners_shown import modes_steps, plane_step
from pentice.checks.ground import Ground
from pentice.checks.timber_shown import service_class
from pentice.errors import OutsideScope, require_within
from pentice.job.fasteners import Fasteners
from pentice.loads.combine import Combination
from pentice.standards.en338 import StrengthClass, strength_class
from pentice.standards.en1995 import ServiceClass, gamma_m, k_mod
from pentice.standards.en1995_dowels import (
    bolt_embedment_n_mm2,
    bolt_yield_moment_n_mm,
    nail_embedment_n_mm2,
    nail_yield_moment_n_mm,
    screw_effective_diameter_mm,
    screw_embedment_n_mm2,
)
from pentice.standards.en1995_johansen import (
    Fastener,
    ShearPlane,
    steel_inside_double_shear,
    steel_outside_double_shear,
    steel_single_shear,
    timber_single_shear,
)
from pentice.standards.en1995_pull import bolt_pull
from pentice.standards.en1995_spacing import (
    Distances,
    bolt_distances,
    bolts_in_row,
    nail_distances,
    nails_in_row,
    splitting_force_n,
    too_near,
)
from pentice.working import Step

NOT_HERE = "Fasteners in the timber only: the steel of strap or plate and what it ends in are not in this."
_POST_SERVICE_CLASS: ServiceClass = 3
_STRESS_AREA_MM2 = {6.0: 20.1, 8.0: 36.6, 10.0: 58.0, 12.0: 84.3, 16.0: 157.0, 20.0: 245.0, 24.0: 353.0}
"""Of bolts with coarse thread, by diameter: from memory of the product standard."""
_POINT_IN_D = {"nail": 8.0, "screw": 6.0}
"""Least penetration of the point: EN 1995-1-1, 8.3.1.2 and 8.7.2, from memory."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """One of the two timbers of a joint."""

    name: str
    timber: StrengthClass
    size_mm: tuple[float, float]
    t_mm: float
    angle_deg: float
    """Between force and grain: 90 in rafter, plate and beam, 0 in a post."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fastened:
    """Design resistance of a joint [kN] with its working, or why there is none."""

    resistance_kn: float = 0.0
    working: tuple[Step, ...] = ()
    refused: str = ""


def fastened(ground: Ground, joint: str, combination: Combination) -> Fastened | None:
    """What the fasteners hold that the job describes for a joint.

    Parameters
    ----------
    ground
        The inputs of every check.
    joint
        "hanger", "rafter tie" or "post tie" [-].
    combination
        Its duration counts; gamma_M stays that of a lasting situation, on the safe side.

    Returns
    -------
    Fastened or None
        None where the job describes none.

    Source
    ------
    EN 1995-1-1:2004+A1, 8.1.4 and 8.2 to 8.7.
    """
    found = [f for f in ground.job.frame.fasteners if f.joint == joint]
    if not found:
        return None
    fasteners = found[0]
    try:
        return resistance(
            fasteners, members_of(ground, fasteners), duration_factor(ground, joint, combination)
        )
    except OutsideScope as refusal:
        return Fastened(refused=str(refusal))


def duration_factor(ground: Ground, joint: str, combination: Combination) -> float:
    """k_mod of a joint: at a post the timber is taken wet.

    Parameters
    ----------
    ground, joint, combination
        As in `fastened`.

    Returns
    -------
    float
        k_mod [-].

    Source
    ------
    EN 1995-1-1:2004, Table 3.1; service class 3 at posts: judgement, no source.
    """
    return k_mod(_POST_SERVICE_CLASS if joint == "post tie" else service_class(ground), combination.duration)


def members_of(ground: Ground, f: Fasteners) -> tuple[Member, Member]:
    """Both timbers of a joint, the upper one first, pushed by what lifts.

    Parameters
    ----------
    ground, f
        The inputs of every check, and the fasteners as the job describes them.

    Returns
    -------
    tuple of Member
        [mm], [deg].

    Raises
    ------
    OutsideScope
        One of them is of metal, or is not named.

    Source
    ------
    The job.
    """
    frame = ground.job.frame
    sizes = {
        "rafter": frame.rafter_mm,
        "wall plate": frame.wall_plate_mm,
        "beam": frame.beam_mm,
        "post": frame.post_mm,
    }
    names = {
        "hanger": ("rafter", "wall plate"),
        "rafter tie": ("rafter", "beam"),
        "post tie": ("beam", "post"),
    }
    found = []
    for name, t in zip(names[f.joint], (f.upper_mm, f.lower_mm), strict=True):
        metal = {"beam": ground.parts.beam_section, "post": ground.parts.post_section}.get(name)
        if metal is not None:
            raise OutsideScope(
                f"The {name} is of metal: only fasteners in timber are covered; declare the joint."
            )
        size = sizes[name]
        if size is None:
            raise OutsideScope(f"The {name} is not named: give frame.{name.replace(' ', '_')}_mm.")
        timber = strength_class(ground.parts.timber_for(name).strength_class)
        along = 0.0 if name == "post" else 90.0
        found.append(Member(name=name, timber=timber, size_mm=size, t_mm=t, angle_deg=along))
    return found[0], found[1]


def resistance(f: Fasteners, members: tuple[Member, Member], k: float) -> Fastened:
    """What fasteners hold that are sheared at an angle to the grain of either timber.

    Parameters
    ----------
    f, members
        As described, and both timbers with the angle of each.
    k
        k_mod [-].

    Returns
    -------
    Fastened
        [kN].

    Raises
    ------
    OutsideScope
        A key is missing, or the rules do not cover these fasteners.

    Source
    ------
    EN 1995-1-1:2004+A1, 8.1.4 and 8.2 to 8.7.
    """
    _require_described(f)
    for member in members:
        _require_room(f, member)
    fastener, working = _fastener(f, members)
    gamma, steps = gamma_m("connection"), list(working)
    if f.plates == "none":
        planes, more = _through_both(f, fastener, members)
        steps += more
        each = [(member, planes) for member in members]
    else:
        each = []
        for member in members:
            plane, more = _at_steel(f, fastener, member)
            steps += more
            each.append((member, plane))
    held: list[float] = []
    for member, plane in each:
        step, held_n = _in_all(f, member, plane)
        steps.append(step)
        held.append(held_n)
        if member.angle_deg:
            split = splitting_force_n(
                width_mm=member.size_mm[0], depth_mm=member.size_mm[1], to_far_fastener_mm=f.edge_mm
            )
            steps.append(_splitting_step(f, member, split))
            held.append(split)
    resistance = min(held) * k / gamma / 1000.0
    listed = ", ".join(f"{n:.1f}" for n in held)
    steps.append(
        Step(
            says="The joint holds",
            formula="R_d = least of them * k_mod / gamma_M",
            numbers=f"min({listed}) x {k:g} / {gamma:g} / 1000",
            result=resistance,
            unit="kN",
            clause="EN 1995-1-1, 2.4.3",
        )
    )
    return Fastened(resistance_kn=resistance, working=tuple(steps))


def _require_described(f: Fasteners) -> None:
    """What the equations need beyond the keys that every joint has."""
    if f.plates != "none" and f.plate_mm is None:
        raise OutsideScope("Give plate_mm of these fasteners, the thickness of the steel.")
    if f.kind == "screw" and f.root_mm is None:
        raise OutsideScope("Give root_mm of these screws, the root of their thread.")
    if f.kind != "bolt" and f.plates in ("two", "inside"):
        raise OutsideScope(
            f'plates is "{f.plates}" with {f.kind}s; steel on two sides or inside takes bolts.'
        )
    if f.kind != "bolt" and f.count < 2:
        raise OutsideScope(
            f"count is 1; a joint has two {f.kind}s or more (EN 1995-1-1, 8.3.1.1, from memory)."
        )
    if f.count > 1 and not f.apart_mm:
        raise OutsideScope("Give apart_mm of these fasteners, the least distance between two of them.")


def _require_room(f: Fasteners, member: Member) -> None:
    """Distances between fasteners and to ends and edges, and the grip of a point."""
    there = f.apart_mm if f.count > 1 else inf
    drawn = Distances(
        along_mm=there,
        across_mm=there,
        loaded_end_mm=inf if member.angle_deg else f.end_mm,
        free_end_mm=f.end_mm,
        loaded_edge_mm=f.edge_mm if member.angle_deg else inf,
        free_edge_mm=f.edge_mm,
    )
    if _as_bolt(f):
        needed = bolt_distances(f.d_mm, member.angle_deg)
    else:
        rho = member.timber.rho_k_kg_m3
        needed = nail_distances(f.d_mm, rho, member.angle_deg, predrilled=f.predrilled)
    for near in too_near(drawn, needed):
        raise OutsideScope(
            f"{f.kind}s in the {member.name}: {near.distance.removesuffix('_mm').replace('_', ' ')} is "
            f"{near.there_mm:g} mm; expected {near.needed_mm:.0f} or more (EN 1995-1-1, Tables 8.2 and 8.4). Move them."
        )
    if f.kind in _POINT_IN_D:
        least = _POINT_IN_D[f.kind] * f.d_mm
        require_within(
            f"{f.kind} in the {member.name}",
            member.t_mm,
            least,
            inf,
            unit="mm",
            source="EN 1995-1-1, 8.3.1.2",
        )


def _as_bolt(f: Fasteners) -> bool:
    return f.kind == "bolt" or (f.kind == "screw" and _effective_mm(f) > 6.0)


def _effective_mm(f: Fasteners) -> float:
    """Diameter that counts in shear: of a screw 1.1 times its root."""
    if f.kind != "screw" or f.root_mm is None:
        return f.d_mm
    return screw_effective_diameter_mm(thread_mm=f.d_mm, root_mm=f.root_mm)


def _fastener(f: Fasteners, members: tuple[Member, ...]) -> tuple[Fastener, tuple[Step, ...]]:
    d = _effective_mm(f)
    yields = (nail_yield_moment_n_mm if f.kind == "nail" else bolt_yield_moment_n_mm)(d, f.f_u_n_mm2)
    rope: Literal["round nail", "screw", "bolt"] = "round nail" if f.kind == "nail" else f.kind
    axial = (f.axial_kn or 0.0) * 1000.0
    pulled: tuple[Step, ...] = ()
    if f.kind == "bolt":
        axial, pulled = pull_of_a_bolt(f, members)
    moment = Step(
        says="Yield moment of one",
        formula="M_y,Rk = 0.3 f_u d^2.6" + (", d = 1.1 root" if f.kind == "screw" else ""),
        numbers=f"0.3 x {f.f_u_n_mm2:g} x {d:.4g}^2.6",
        result=yields,
        unit="Nmm",
        clause="EN 1995-1-1, eq. 8.14, 8.30",
    )
    made = Fastener(d_mm=d, yield_moment_n_mm=yields, rope=rope, withdrawal_n=axial)
    return made, (moment, *pulled)


def pull_of_a_bolt(f: Fasteners, members: tuple[Member, ...]) -> tuple[float, tuple[Step, ...]]:
    """Pull of a bolt under its washers in the softer timber; no washer, no rope effect.

    Parameters
    ----------
    f, members
        As described, and both timbers.

    Returns
    -------
    tuple
        Characteristic value [N], and its line; 0 where no washer is described.

    Raises
    ------
    OutsideScope
        A bolt whose stress area is not known.

    Source
    ------
    EN 1995-1-1:2004, 8.5.2; EN 1993-1-8:2005, Table 3.4.
    """
    if f.washer_mm is None:
        return 0.0, ()
    if f.d_mm not in _STRESS_AREA_MM2:
        sizes = ", ".join(f"{d:g}" for d in _STRESS_AREA_MM2)
        raise OutsideScope(f"d_mm of the bolts is {f.d_mm:g}; expected {sizes} mm, or leave washer_mm out.")
    crushing, hole = min(m.timber.f_c_90_k_n_mm2 for m in members), f.d_mm + 1.0
    area = _STRESS_AREA_MM2[f.d_mm]
    pull = bolt_pull(
        hole_mm=hole,
        washer_mm=f.washer_mm,
        f_c_90_k_n_mm2=crushing,
        stress_area_mm2=area,
        f_u_n_mm2=f.f_u_n_mm2,
    )
    ring = f"3 x {crushing:g} x 3.14159 / 4 x ({f.washer_mm:g}^2 - {hole:g}^2)"
    step = Step(
        says="Pull of one along its axis",
        formula="F_ax,Rk = min(3 f_c,90,k under the washer, 0.9 f_u A_s)",
        numbers=f"min({ring}, 0.9 x {f.f_u_n_mm2:g} x {area:g})",
        result=pull.resistance_n,
        unit="N",
        clause="EN 1995-1-1, 8.5.2; EN 1993-1-8, Table 3.4",
    )
    return pull.resistance_n, (step,)


def _embedment(f: Fasteners, member: Member) -> tuple[float, Step]:
    d, rho, angle = _effective_mm(f), member.timber.rho_k_kg_m3, member.angle_deg
    drilled = f"0.082 x (1 - 0.01 x {d:.4g}) x {rho:g}"
    if _as_bolt(f):
        if f.kind == "screw":
            strength = screw_embedment_n_mm2(d, rho, angle_deg=angle, predrilled=f.predrilled)
        else:
            strength = bolt_embedment_n_mm2(d, rho, angle)
        formula = "0.082 (1 - 0.01 d) rho_k" + (" / (1.35 + 0.015 d)" if angle else "")
        numbers = drilled + (f" / (1.35 + 0.015 x {d:.4g})" if angle else "")
    else:
        strength = nail_embedment_n_mm2(d, rho, predrilled=f.predrilled)
        formula = "0.082 (1 - 0.01 d) rho_k" if f.predrilled else "0.082 rho_k d^-0.3"
        numbers = drilled if f.predrilled else f"0.082 x {rho:g} / {d:.4g}^0.3"
    return strength, Step(
        says=f"Embedment strength of the {member.name}, {'across' if angle else 'along'} the grain",
        formula=f"f_h,k = {formula}",
        numbers=numbers,
        result=strength,
        unit="N/mm2",
        clause="EN 1995-1-1, eq. 8.15, 8.16, 8.31, 8.32",
    )


def _at_steel(f: Fasteners, fastener: Fastener, member: Member) -> tuple[ShearPlane, Iterator[Step]]:
    plate, t = f.plate_mm or 0.0, member.t_mm
    f_h, embedment = _embedment(f, member)
    if f.plates == "one":
        plane = steel_single_shear(fastener, t_mm=t, f_h_n_mm2=f_h, plate_mm=plate)
    elif f.plates == "two":
        plane = steel_outside_double_shear(fastener, t_mm=t, f_h_n_mm2=f_h, plate_mm=plate)
    else:
        plane = steel_inside_double_shear(fastener, t_mm=t, f_h_n_mm2=f_h)

    def steps() -> Iterator[Step]:
        yield embedment
        yield from modes_steps(fastener, plane, (t, t), (f_h, f_h), member.name)
        yield plane_step(fastener, plane, member.name, plate / f.d_mm)

    return plane, steps()


def _through_both(
    f: Fasteners, fastener: Fastener, members: tuple[Member, ...]
) -> tuple[ShearPlane, Iterator[Step]]:
    upper, lower = members
    (f_1, first), (f_2, second) = (_embedment(f, m) for m in members)
    plane = timber_single_shear(
        fastener, t_1_mm=upper.t_mm, f_h_1_n_mm2=f_1, t_2_mm=lower.t_mm, f_h_2_n_mm2=f_2
    )

    def steps() -> Iterator[Step]:
        yield first
        yield second
        yield from modes_steps(fastener, plane, (upper.t_mm, lower.t_mm), (f_1, f_2), "joint", timber=True)
        yield plane_step(fastener, plane, "joint", 0.0)

    return plane, steps()


def _in_all(f: Fasteners, member: Member, plane: ShearPlane) -> tuple[Step, float]:
    """All fasteners of one timber together: in a row along the grain fewer count."""
    planes = 2 if f.plates in ("two", "inside") else 1
    row, numbers = float(f.count), f"{f.count}"
    if not member.angle_deg and f.count > 1:
        if _as_bolt(f):
            row = bolts_in_row(f.count, f.apart_mm, f.d_mm)
            numbers = f"min({f.count}, {f.count}^0.9 x ({f.apart_mm:g} / (13 x {f.d_mm:g}))^0.25)"
        else:
            row = nails_in_row(f.count, f.apart_mm, f.d_mm, predrilled=f.predrilled)
            numbers = f"{row:.4f}"
    step = Step(
        says=f"All in the {member.name}",
        formula="n_ef * shear planes * F_v,Rk" + ("" if member.angle_deg else "; as one row along the grain"),
        numbers=f"{numbers} x {planes} x {plane.resistance_n:.1f}",
        result=row * planes * plane.resistance_n,
        unit="N",
        clause="EN 1995-1-1, 8.1.2, eq. 8.17, 8.34",
    )
    return step, float(step.result)


def _splitting_step(f: Fasteners, member: Member, split_n: float) -> Step:
    b, h = member.size_mm
    return Step(
        says=f"Splitting of the {member.name} along its grain",
        formula="F_90,Rk = 14 b sqrt(h_e / (1 - h_e / h)), h_e the nearest fastener",
        numbers=f"14 x {b:g} x sqrt({f.edge_mm:g} / (1 - {f.edge_mm:g} / {h:g}))",
        result=split_n,
        unit="N",
        clause="EN 1995-1-1, 8.1.4; whole force on one side, on the safe side",
    )
