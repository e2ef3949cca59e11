"""What wind on a wall bends level, beside what the roof bends it by upright.

Timber to EN 1995-1-1, eq. 6.11 and 6.12; metal by shares in a straight line.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from pentice.checks.ground import JUDGEMENT
from pentice.checks.metal import Carries, Metal, class_of
from pentice.checks.metal_bent import bent_carried
from pentice.checks.timber_shown import strength_in
from pentice.checks.values import Check
from pentice.loads.combine import Combination
from pentice.standards.en338 import StrengthClass
from pentice.standards.en1995 import bending_stress_n_mm2, size_factor
from pentice.standards.en1995_members import K_M
from pentice.working import Step


def most_used(checks: Iterable[Check], rules: Collection[str]) -> float | None:
    """Share of its strength that a member uses at most by some rules.

    Parameters
    ----------
    checks, rules
        Of the member, and the ids that count.

    Returns
    -------
    float or None
        [-]; None where none of them was made, or one is not known.

    Source
    ------
    Definition.
    """
    used = [check.utilisation for check in checks if check.id in rules]
    known = [share for share in used if share is not None]
    return max(known) if known and len(known) == len(used) else None


@dataclass(frozen=True, slots=True, kw_only=True)
class BentLevel:
    """A section of timber bent level, in one combination."""

    size_mm: tuple[float, float]
    """Width, and height upright [mm]."""
    timber: StrengthClass
    combination: Combination
    service: int
    """Service class [-]."""
    moment_knm: float
    upright: float
    """Share of its strength that the roof's own load uses at most [-]."""

    @property
    def stress(self) -> float:
        """[N/mm2]."""
        return bending_stress_n_mm2(self.moment_knm * 1e6, self.size_mm[1], self.size_mm[0])

    @property
    def strength(self) -> float:
        """[N/mm2]."""
        f = self.timber.f_m_k_n_mm2 * size_factor(self.size_mm[0])
        return strength_in(f, self.combination, self.service).value

    @property
    def sums(self) -> tuple[float, float]:
        """Eq. 6.11 and 6.12."""
        level = self.stress / self.strength
        return self.upright + K_M * level, K_M * self.upright + level

    @property
    def share(self) -> float:
        """The greater of them."""
        return max(self.sums)

    def steps(self, way: str, first: str) -> tuple[Step, ...]:
        """From the moment to the greater sum: "sideways" or "level", and whose bending the first share is."""
        b, h = self.size_mm
        holds = strength_in(1.0, self.combination, self.service)
        k_y, k_z = ((1.0, K_M), (K_M, 1.0))[self.sums.index(self.share)]
        return (
            Step(
                says=f"Stress from bending {way}",
                formula="sigma_z = 6 M / (h b^2)",
                numbers=f"6 x {self.moment_knm:.6f} x 10^6 / ({h:g} x {b:g}^2)",
                result=self.stress,
                unit="N/mm2",
                clause="6.1.6",
            ),
            Step(
                says=f"Strength in bending {way}",
                formula="f_m,z,d = k_mod k_h f_m,k / gamma_M",
                numbers=f"{holds.k_mod:g} x {size_factor(b):.4f} x {self.timber.f_m_k_n_mm2:g} / {holds.gamma:g}",
                result=self.strength,
                unit="N/mm2",
                clause="2.4.1, 3.2",
            ),
            Step(
                says="With the most that the roof's own load uses",
                formula="k_m,y eta_y + k_m,z sigma_z / f_m,z,d",
                numbers=f"{k_y:g} x {self.upright:.5f} + {k_z:g} x {self.stress:.5f} / {self.strength:.4f}",
                result=self.share,
                unit="of 1",
                clause=f"eq. 6.11, 6.12; the first share: {first} bending, of any combination, {JUDGEMENT}",
            ),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class MetalBentLevel:
    """A section of metal bent level, about its upright axis."""

    metal: Metal
    moment_knm: float
    free_mm: float
    """Between what holds it level."""
    upright: float
    """Share of its strength that the roof's own load uses at most [-]."""

    @property
    def share(self) -> float:
        """Both shares, in a straight line."""
        return self.upright + self.moment_knm * 1e6 / self._carries().value

    def _carries(self) -> Carries:
        return bent_carried(self.metal, "along", class_of(self.metal, pushed=False), self.free_mm)

    def steps(self, way: str, first: str) -> tuple[Step, ...]:
        """From the moment to the sum: "sideways" or "level", and whose bending the first share is."""
        carries = self._carries()
        return (
            *carries.working,
            Step(
                says="With the most that the roof's own load uses",
                formula="eta_y + M_z / M_z,Rd",
                numbers=f"{self.upright:.5f} + {self.moment_knm:.6f} / {carries.value / 1e6:.6f}",
                result=self.share,
                unit="of 1",
                clause=f"{self.metal.standard}, 6.2.1(7), a straight line; the first share: {first} bending, of any "
                f"combination, {JUDGEMENT}",
            ),
        )
