"""What the fasteners of a joint hold against a force that pushes it level, where the job describes them.

They lie level and go through both timbers. At a post they lie square to the beam: along it they are sheared, along the
grain of the beam and across that of the post; square to it they are pulled. Which way they lie in a rafter and what it
is fixed to is not described: the least of both ways of shear and of pull counts for either direction.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from pentice.checks.fasteners import Fastened, Member, duration_factor, members_of, pull_of_a_bolt, resistance
from pentice.checks.ground import Ground
from pentice.errors import OutsideScope
from pentice.job.fasteners import Fasteners
from pentice.loads.combine import Combination
from pentice.standards.en1995 import gamma_m
from pentice.working import Step


@dataclass(frozen=True, slots=True, kw_only=True)
class FastenedLevel:
    """Design resistances of a joint along beam or plate and square to it [kN], or why there are none."""

    along_kn: float = 0.0
    square_kn: float = 0.0
    working: tuple[Step, ...] = ()
    refused: str = ""


def fastened_level(ground: Ground, joint: str, combination: Combination) -> FastenedLevel | None:
    """What the fasteners of a joint hold level.

    Parameters
    ----------
    ground
        The inputs of every check.
    joint
        "hanger", "rafter tie" or "post tie" [-].
    combination
        Its duration counts.

    Returns
    -------
    FastenedLevel or None
        None where the job describes none.

    Source
    ------
    EN 1995-1-1:2004+A1, 8.1.4, 8.2 to 8.7; 8.3.2, 8.5.2 and 8.7.2 for pull along them.
    """
    found = [f for f in ground.job.frame.fasteners if f.joint == joint]
    if not found:
        return None
    fasteners, k = found[0], duration_factor(ground, joint, combination)
    try:
        return _level(fasteners, members_of(ground, fasteners), k)
    except OutsideScope as refusal:
        return FastenedLevel(refused=str(refusal))


def _level(f: Fasteners, members: tuple[Member, Member], k: float) -> FastenedLevel:
    if f.plates != "none":
        raise OutsideScope("What the steel of straps and plates holds level is not calculated.")
    pulled_kn, lines = _pulled(f, members, k)
    upper, lower = members
    along = resistance(f, (replace(upper, angle_deg=0.0), replace(lower, angle_deg=90.0)), k)
    if f.joint == "post tie":
        return FastenedLevel(
            along_kn=along.resistance_kn, square_kn=pulled_kn, working=(*along.working, *lines)
        )
    other = resistance(f, (replace(upper, angle_deg=90.0), replace(lower, angle_deg=0.0)), k)
    ways: tuple[Fastened, Fastened] = (along, other)
    sheared = min(ways, key=lambda way: way.resistance_kn)
    held = [way.resistance_kn for way in ways]
    least = min(*held, pulled_kn)
    step = Step(
        says="Level, whichever way they lie",
        formula="least of shear along the one and along the other grain, and of pull",
        numbers=f"min({held[0]:.5f}, {held[1]:.5f}, {pulled_kn:.5f})",
        result=least,
        unit="kN",
        clause="which way they lie is not described; on the safe side",
    )
    return FastenedLevel(along_kn=least, square_kn=least, working=(*sheared.working, *lines, step))


def _pulled(f: Fasteners, members: tuple[Member, Member], k: float) -> tuple[float, tuple[Step, ...]]:
    """Design resistance of all of them pulled along their axes [kN]."""
    if f.kind == "bolt":
        each, lines = pull_of_a_bolt(f, members)
        if not each:
            raise OutsideScope(
                "Give washer_mm of these bolts: square to the beam a level force pulls at them."
            )
        count, formula, numbers = float(f.count), "n", f"{f.count}"
    else:
        if f.axial_kn is None:
            raise OutsideScope(
                f"Give axial_kn of these {f.kind}s: a level force may pull along them, and nothing says what they hold "
                "then."
            )
        each, lines = f.axial_kn * 1000.0, ()
        count, formula, numbers = float(f.count), "n", f"{f.count}"
        if f.kind == "screw":
            count, formula, numbers = f.count**0.9, "n^0.9", f"{f.count}^0.9"
    gamma = gamma_m("connection")
    resists = count * each * k / gamma / 1000.0
    step = Step(
        says="All of them pulled along their axes",
        formula=f"R_ax,d = {formula} F_ax,Rk k_mod / gamma_M",
        numbers=f"{numbers} x {each:.2f} x {k:g} / {gamma:g} / 1000",
        result=resists,
        unit="kN",
        clause="EN 1995-1-1, 8.3.2, 8.5.2, 8.7.2, eq. 8.41, from memory; 2.4.3",
    )
    return resists, (*lines, step)
