"""Forces up and down that bracing brings to a post, each with the line it comes from."""

from __future__ import annotations

from dataclasses import dataclass

from pentice.records import quickly_made
from pentice.working import Step

PAIR = "pair of the row"
"""Of what pushes a row along: up on its post to windward, down on the one to leeward."""
PAIR_ACROSS = "pair of the frame across"
"""The same of what pushes the roof across: up on one row, down on the other."""

KNEE = "upright part of a knee brace"
"""Of a brace along the row: it lifts its beam off the post."""


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Brought:
    """One force up or down on a post [kN]."""

    says: str
    """In a sum: "pair of the row"."""
    kn: float
    formula: str = ""
    numbers: str = ""
    """Where it comes from; empty: said elsewhere."""
    clause: str = "equilibrium; H: see the bracing"

    def steps(self) -> tuple[Step, ...]:
        """The line it comes from; none where it is nothing."""
        if not self.kn or not self.numbers:
            return ()
        says = f"{self.says[:1].upper()}{self.says[1:]}"
        return (
            Step(
                says=says,
                formula=self.formula,
                numbers=self.numbers,
                result=self.kn,
                unit="kN",
                clause=self.clause,
            ),
        )


def of_frames(says: str, kn: float) -> Brought:
    """What the plane frames of knee braces across bring.

    Parameters
    ----------
    says, kn
        As of `Brought`.

    Returns
    -------
    Brought
        [kN].

    Source
    ------
    As `pentice.checks.knee_frame`.

    Examples
    --------
    >>> of_frames("rise of the beam", 2.0).steps()[0].says
    'Rise of the beam'
    """
    return Brought(
        says=says,
        kn=kn,
        formula="the greatest of its frame, with leaning",
        numbers="integrated by stiffness; see the knee braces across",
        clause="statics, the worst of eight ways",
    )


Braced = tuple[Brought, ...]
"""What bracing lifts or presses, each part by itself."""


def brought_kn(parts: Braced) -> float:
    """All of it together.

    Parameters
    ----------
    parts
        Each by itself.

    Returns
    -------
    float
        [kN].

    Source
    ------
    Equilibrium.

    Examples
    --------
    >>> brought_kn((Brought(says="pair of the row", kn=1.5), Brought(says="knee brace", kn=0.5)))
    2.0
    """
    return sum(part.kn for part in parts)
