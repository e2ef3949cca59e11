"""What stands on a pad, what lifts it, and what each push brings to its foot and makes at its underside."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from pentice.checks.brought import Brought
from pentice.checks.passed_on import Combined
from pentice.records import quickly_made
from pentice.standards.pads import CONCRETE_KN_M3, pad_weight_kn
from pentice.working import Step

_ITS_SHARE = re.compile(r"\bs H\b|\bH / n\b|\(H / n")


def statics_of(formula: str) -> str:
    """The clause of a line of level force; where its H is what pushes a row or the roof, where that stands.

    Parameters
    ----------
    formula
        Of the line.

    Returns
    -------
    str
        "statics".

    Source
    ------
    None: words.

    Examples
    --------
    >>> statics_of("(H / n + H_p)"), statics_of("gamma w l / 2")
    ('statics; H: see the bracing', 'statics')
    """
    return "statics; H: see the bracing" if _ITS_SHARE.search(formula) else "statics"


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Rise:
    """What lifts in one combination, the pair of the row in it [kN]."""

    up_kn: float
    steps: Callable[[], tuple[Step, ...]]
    case: Combined


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """What stands on a pad and what lifts it [kN]."""

    pad_kn: float
    post_kn: float
    roof_kn: float
    """Of the roof, characteristic."""
    pair: Brought
    """From what pushes the posts level, down on one post and up on another."""
    weight_kn: float
    """Of roof, post and pad against what lifts most, with its factor."""
    weighs: Callable[[], tuple[Step, ...]]
    """The lines that lead to it."""
    lift: Rise
    """What lifts most."""
    rises: Sequence[Rise]
    """What lifts in each combination in which the ground is looked at: favourable weight of set B, or an accident."""


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class AtFoot:
    """What one push on the posts brings to one foot, in size: along the row and square to it at once."""

    says: str
    """The push in words: "the push along the wall"."""
    along_kn: float = 0.0
    square_kn: float = 0.0
    along_knm: float = 0.0
    square_knm: float = 0.0
    formula: str = ""
    """Of a level force that comes one way: where it comes from, and the same in numbers."""
    numbers: str = ""
    before: tuple[Step, ...] = ()
    """Lines that the numbers come from."""

    @property
    def level_kn(self) -> float:
        """Both ways together: as the sides of a triangle."""
        return math.hypot(self.along_kn, self.square_kn)

    def level_step(self) -> Step:
        """The level force as a line."""
        if self.along_kn and self.square_kn:
            formula, numbers = (
                "sqrt(H_along^2 + H_square^2)",
                f"sqrt({self.along_kn:.5f}^2 + {self.square_kn:.5f}^2)",
            )
        else:
            formula, numbers = self.formula or "H", self.numbers or f"{self.level_kn:.5f}"
        return Step(
            says=f"Level at the foot: {self.says}",
            formula=formula,
            numbers=numbers,
            result=self.level_kn,
            unit="kN",
            clause=statics_of(formula),
        )


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Turns:
    """What one push makes at the underside of the pad one way."""

    push: AtFoot
    level_kn: float
    moment_knm: float
    deep_mm: float
    way: str
    """In words, where the push comes both ways: "along the row"; else empty."""

    @property
    def knm(self) -> float:
        """At the underside [kNm]."""
        return self.level_kn * self.deep_mm / 1000.0 + self.moment_knm

    def step(self) -> Step:
        """As a line."""
        plain = bool(self.way) or not self.push.numbers
        formula, numbers = ("H", f"{self.level_kn:.5f}") if plain else (self.push.formula, self.push.numbers)
        formula, numbers = f"{formula} d", f"{numbers} x {self.deep_mm:g} / 1000"
        if self.moment_knm:
            formula, numbers = f"{formula} + M", f"{numbers} + {self.moment_knm:.5f}"
        return Step(
            says=" ".join(word for word in ("Turned", self.way, "by", self.push.says) if word),
            formula=formula,
            numbers=numbers,
            result=self.knm,
            unit="kNm",
            clause=f"{statics_of(formula)}; at the underside of the pad",
        )


Turned = tuple[Turns, Turns]
"""By one push: the greater first, which counts over the smaller side of the pad, and the less."""


def pad_weight_step(size_mm: tuple[float, float, float], factor: float) -> Step:
    """What a pad weighs.

    Parameters
    ----------
    size_mm, factor
        Length, width and depth [mm], and the factor of dead load [-].

    Returns
    -------
    Step
        [kN].

    Source
    ------
    As `pentice.standards.pads.pad_weight_kn`.

    Examples
    --------
    >>> pad_weight_step((600.0, 600.0, 600.0), 0.9).numbers
    '0.9 x 24 x 0.6 x 0.6 x 0.6'
    """
    sides = " x ".join(f"{side / 1000.0:g}" for side in size_mm)
    return Step(
        says="Weight of the pad",
        formula="gamma rho L B d",
        numbers=f"{factor:g} x {CONCRETE_KN_M3:g} x {sides}",
        result=factor * pad_weight_kn(*size_mm),
        unit="kN",
        clause=f"concrete {CONCRETE_KN_M3:g} kN/m3, from memory",
    )
