"""Lines of working that the checks of a beam have alike: what lies on it, what it weighs, its moment, its posts."""

from __future__ import annotations

from pentice.checks.eaves import BeamPart, EavesForces
from pentice.checks.ground import JUDGEMENT
from pentice.checks.passed_on import Combined
from pentice.checks.worst import greatest_place
from pentice.working import Step


def feet_words(part: BeamPart, case: Combined) -> tuple[str, str, float]:
    """The point loads on a part in one combination.

    Parameters
    ----------
    part, case
        A part of the beam and a combination.

    Returns
    -------
    tuple
        "1.2000 + 2.3100", "1.20 kN at 0.35 m, 2.31 kN at 1.20 m" from the left, and their sum [kN].

    Source
    ------
    Superposition.
    """
    points = [
        (
            x / 1000.0,
            sum(factor * float(part.points_n[load, n]) for load, factor in case.acting) / 1000.0,
        )
        for n, x in enumerate(part.model.nodes_mm)
    ]
    there = [(x, p) for x, p in points if p]
    summed = " + ".join(f"({p:.4f})" if p < 0.0 else f"{p:.4f}" for _, p in there) or "0"
    said = ", ".join(f"{p:.2f} kN at {x:.2f} m" for x, p in there)
    return summed, said, sum(p for _, p in there)


def load_steps(forces: EavesForces, part: BeamPart, case: Combined) -> tuple[Step, ...]:
    """What the rafters put on a part of the beam, and its own weight.

    Parameters
    ----------
    forces, part, case
        The beam, a part of it and a combination.

    Returns
    -------
    tuple of Step
        [kN], and of the weight [kN/m].

    Source
    ------
    Superposition.
    """
    summed, said, total = feet_words(part, case)
    return (
        Step(
            says="What rests on this part of the beam",
            formula=f"{case.combination.name}: R / cos(pitch) of each rafter",
            numbers=f"{summed}; {said}",
            result=total,
            unit="kN",
            clause=case.combination.clause,
        ),
        weight_step(forces, case),
    )


def weight_step(forces: EavesForces, case: Combined) -> Step:
    """The beam's own weight along it in a combination.

    Parameters
    ----------
    forces, case
        The beam and a combination.

    Returns
    -------
    Step
        [kN/m].

    Source
    ------
    Mean density of the strength class, EN 338; of metal its own.
    """
    if forces.metal is None:
        b, h = forces.beam.size_mm
        formula, clause = "gamma b h rho x 9.81", "EN 338, mean density"
        section = f"{b / 1000.0:g} x {h / 1000.0:g} x {forces.timber.rho_mean_kg_m3:g}"
    else:
        formula, clause = "gamma A rho x 9.81", "area of the section, density of the metal"
        section = f"{forces.metal.profile.area_mm2:.1f} x 10^(-6) x {forces.metal.density_kg_m3:g}"
    return Step(
        says="The beam's own weight, along all of it",
        formula=formula,
        numbers=f"{case.combination.dead:g} x {section} x 9.81 / 1000",
        result=case.combination.dead * forces.line_n_mm,
        unit="kN/m",
        clause=clause,
    )


def moment_step(part: BeamPart, stretch: int, moment_n_mm: float) -> Step:
    """The moment that the loads of a combination make in a part of the beam.

    Parameters
    ----------
    part, stretch, moment_n_mm
        Where, and how great [N mm].

    Returns
    -------
    Step
        [kNm].

    Source
    ------
    Stiffness method.
    """
    return Step(
        says="Moment of the continuous beam",
        formula="M, over the posts as supports",
        numbers=f"integrated by stiffness; {part.where(stretch)}, {part.span_of(stretch)[0]:.0f} mm",
        result=moment_n_mm / 1e6,
        unit="kNm",
        clause="statics",
    )


def carried_steps(forces: EavesForces, i: int) -> tuple[Step, ...]:
    """What lies on the part of the beam that a combination bends most, and the moment there.

    Parameters
    ----------
    forces, i
        The beam, and the place of the combination in its cases.

    Returns
    -------
    tuple of Step
        The last is the moment, in size [kNm].

    Source
    ------
    As `load_steps`.
    """
    part = max(forces.parts, key=lambda one: float(abs(one.within_n_mm[i]).max()))
    stretch = greatest_place(abs(part.within_n_mm[i]))
    moment = float(abs(part.within_n_mm[i, stretch]))
    return (*load_steps(forces, part, forces.cases[i]), moment_step(part, stretch, moment))


def on_post_step(case: Combined, carried_n: float) -> Step:
    """What the continuous beam puts on a post.

    Parameters
    ----------
    case, carried_n
        The combination, and how much [N].

    Returns
    -------
    Step
        [kN].

    Source
    ------
    Stiffness method.
    """
    return Step(
        says="On the post",
        formula="R of the continuous beam",
        numbers=f"integrated by stiffness; {case.combination.name}, its own weight with it",
        result=carried_n / 1000.0,
        unit="kN",
        clause=case.combination.clause,
    )


def knee_step(says: str, before_n: float, knee_n: float) -> tuple[Step, ...]:
    """The line that adds a knee brace to a force; none where none acts.

    Parameters
    ----------
    says, before_n, knee_n
        What it is called, and both forces [N].

    Returns
    -------
    tuple of Step
        [kN].

    Source
    ------
    Equilibrium, as `pentice.checks.bracing.knee_n`.
    """
    if not knee_n:
        return ()
    step = Step(
        says=says,
        formula="F + (H / n) h / b, of the knee brace",
        numbers=f"{before_n / 1000.0:.4f} + {knee_n / 1000.0:.4f}",
        result=(before_n + knee_n) / 1000.0,
        unit="kN",
        clause="equilibrium; see the bracing; all of it beside what the beam carries, " + JUDGEMENT,
    )
    return (step,)
