"""What stands on a pad, what lifts it, and what each push brings to its foot and makes at its underside."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from pentice.checks.passed_on import Combined
from pentice.records import quickly_made
from pentice.working import Step


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Rise:
    """What lifts in one combination, the pair of the row in it [kN]."""

    up_kn: float
    step: Callable[[], Step]
    case: Combined


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """What stands on a pad and what lifts it [kN]."""

    pad_kn: float
    post_kn: float
    roof_kn: float
    """Of the roof, characteristic."""
    pair_kn: float
    """From what pushes the posts level, down on one post and up on another."""
    weight_kn: float
    """Of roof, post and pad against what lifts most, with its factor."""
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
            clause="statics",
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
        formula, numbers = "H d + M", f"{self.level_kn:.5f} x {self.deep_mm:g} / 1000 + {self.moment_knm:.5f}"
        if self.push.numbers and not self.way and not self.moment_knm:
            formula, numbers = f"{self.push.formula} d", f"{self.push.numbers} x {self.deep_mm:g} / 1000"
        return Step(
            says=" ".join(word for word in ("Turned", self.way, "by", self.push.says) if word),
            formula=formula,
            numbers=numbers,
            result=self.knm,
            unit="kNm",
            clause="statics; at the underside of the pad",
        )


Turned = tuple[Turns, Turns]
"""By one push: the greater first, which counts over the smaller side of the pad, and the less."""
