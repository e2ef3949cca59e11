"""EN 338: what a strength class of structural timber stands for.

The numbers lie in data/en338.toml. A class that is not held is refused, never guessed from its name.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from pentice.errors import OutsideScope


@dataclass(frozen=True, slots=True, kw_only=True)
class StrengthClass:
    """Characteristic strengths, stiffness and density of one class of solid timber.

    The names follow EN 338: m bending, t tension, c compression, v shear, 0 along and 90 across the grain,
    k characteristic, 05 the lower twentieth.
    """

    name: str
    f_m_k_n_mm2: float
    f_t_0_k_n_mm2: float
    f_c_0_k_n_mm2: float
    f_c_90_k_n_mm2: float
    f_v_k_n_mm2: float
    e_0_mean_n_mm2: float
    e_0_05_n_mm2: float
    g_mean_n_mm2: float
    rho_k_kg_m3: float
    rho_mean_kg_m3: float


def strength_class(name: str) -> StrengthClass:
    """Strengths, stiffness and density of a timber strength class.

    Parameters
    ----------
    name
        Class as stamped on the timber, "C16" or "C24" [-].

    Returns
    -------
    StrengthClass
        Strengths and stiffness [N/mm2], densities [kg/m3].

    Raises
    ------
    OutsideScope
        The class is not held here.

    Source
    ------
    EN 338:2016, Table 1 (read second hand).

    Examples
    --------
    >>> strength_class("C24").f_m_k_n_mm2
    24.0
    """
    classes = _classes()
    if name not in classes:
        held = ", ".join(classes)
        raise OutsideScope(
            f"timber class is {name}; expected one of {held} (EN 338, Table 1). Read the stamp on the timber."
        )
    return classes[name]


def class_names() -> tuple[str, ...]:
    """Names of the strength classes that are held, weakest first.

    Returns
    -------
    tuple[str, ...]
        Names as stamped on the timber [-].

    Source
    ------
    EN 338:2016, Table 1 (read second hand).

    Examples
    --------
    >>> class_names()
    ('C16', 'C24')
    """
    return tuple(_classes())


@cache
def _classes() -> dict[str, StrengthClass]:
    text = files("pentice.standards").joinpath("data/en338.toml").read_text(encoding="utf-8")
    return {name: StrengthClass(name=name, **row) for name, row in tomllib.loads(text).items()}
