"""Lines of working of the Johansen equations: every mode with its numbers, and the least of them."""

from __future__ import annotations

from collections.abc import Iterator

from pentice.standards.en1995_johansen import ROPE_SHARE, Fastener, Mode, ShearPlane
from pentice.working import Step

_STEEL = {
    "a": "0.4 x {f1} x {t1} x {d}",
    "b": "1.15 x sqrt(2 x {m} x {f1} x {d})",
    "c": "{f1} x {t1} x {d}",
    "d": "{f1} x {t1} x {d} x (sqrt(2 + 4 x {m} / ({f1} x {d} x {t1}^2)) - 1)",
    "e": "2.3 x sqrt({m} x {f1} x {d})",
    "f": "{f1} x {t1} x {d}",
    "g": "{f1} x {t1} x {d} x (sqrt(2 + 4 x {m} / ({f1} x {d} x {t1}^2)) - 1)",
    "h": "2.3 x sqrt({m} x {f1} x {d})",
    "j": "0.5 x {f1} x {t1} x {d}",
    "k": "1.15 x sqrt(2 x {m} x {f1} x {d})",
    "l": "0.5 x {f1} x {t1} x {d}",
    "m": "2.3 x sqrt({m} x {f1} x {d})",
}
_TIMBER = {
    "a": "{f1} x {t1} x {d}",
    "b": "{f2} x {t2} x {d}",
    "c": "{f1} x {t1} x {d} / (1 + {B}) "
    "x (sqrt({B} + 2 x {B}^2 x (1 + {T} + {T}^2) + {B}^3 x {T}^2) - {B} x (1 + {T}))",
    "d": "1.05 x {f1} x {t1} x {d} / (2 + {B}) "
    "x (sqrt(2 x {B} x (1 + {B}) + 4 x {B} x (2 + {B}) x {m} / ({f1} x {d} x {t1}^2)) - {B})",
    "e": "1.05 x {f1} x {t2} x {d} / (1 + 2 x {B}) "
    "x (sqrt(2 x {B}^2 x (1 + {B}) + 4 x {B} x (1 + 2 x {B}) x {m} / ({f1} x {d} x {t2}^2)) - {B})",
    "f": "1.15 x sqrt(2 x {B} / (1 + {B})) x sqrt(2 x {m} x {f1} x {d})",
}


def modes_steps(
    fastener: Fastener,
    plane: ShearPlane,
    t_mm: tuple[float, float],
    f_h_n_mm2: tuple[float, float],
    where: str,
    *,
    timber: bool = False,
) -> Iterator[Step]:
    """Each way of giving, without its rope effect.

    Parameters
    ----------
    fastener, plane
        Diameter [mm], yield moment [N mm], and the modes found [N].
    t_mm, f_h_n_mm2
        Thickness [mm] and embedment strength [N/mm2] of both timbers, or twice of the one.
    where
        The timber in words.
    timber
        True for timber on timber, whose letters stand for other equations.

    Yields
    ------
    Step
        [N] per shear plane.

    Source
    ------
    EN 1995-1-1:2004, eq. 8.6 and 8.9 to 8.13.
    """
    values = {
        "d": f"{fastener.d_mm:.4g}",
        "m": f"{fastener.yield_moment_n_mm:.1f}",
        "t1": f"{t_mm[0]:g}",
        "t2": f"{t_mm[1]:g}",
        "f1": f"{f_h_n_mm2[0]:.4f}",
        "f2": f"{f_h_n_mm2[1]:.4f}",
        "B": f"{f_h_n_mm2[1] / f_h_n_mm2[0]:.6g}",
        "T": f"{t_mm[1] / t_mm[0]:.6g}",
    }
    for mode in plane.modes:
        yield Step(
            says=f"Mode {mode.letter}, {where}",
            formula="by M_y, f_h, t and d",
            numbers=(_TIMBER if timber else _STEEL)[mode.letter].format(**values),
            result=mode.johansen_n,
            unit="N",
            clause="EN 1995-1-1, eq. 8.6" if timber else "EN 1995-1-1, eq. 8.9 to 8.13",
        )


def plane_step(fastener: Fastener, plane: ShearPlane, where: str, plate_over_d: float) -> Step:
    """The least of the modes with the rope effect.

    Parameters
    ----------
    fastener, plane
        Its pull and kind, and the modes [N].
    where
        The timber in words.
    plate_over_d
        Thickness of the steel over the diameter [-]; counts between a thin and a thick plate.

    Returns
    -------
    Step
        F_v,Rk per fastener and shear plane [N].

    Source
    ------
    EN 1995-1-1:2004, 8.2.2(2), 8.2.3(1).
    """
    share = ROPE_SHARE[fastener.rope]

    def term(mode: Mode) -> str:
        said = f"{mode.johansen_n:.1f}"
        if not mode.rope_n:
            return said
        return f"{said} + min({fastener.withdrawal_n:.1f} / 4, {share:g} x {said})"

    def least(letters: str) -> str:
        return f"min({', '.join(term(m) for m in plane.modes if m.letter in letters)})"

    numbers = least("abcdefghjklm")
    formula = "F_v,Rk = least mode; where it bends + F_ax,Rk / 4, at most a share of it"
    if plane.governing == "thin to thick":
        thin, thick = (
            (least("ab"), least("cde")) if plane.modes[0].letter == "a" else (least("jk"), least("lm"))
        )
        numbers = f"{thin} + ({thick} - {thin}) x (2 x {plate_over_d:.4f} - 1)"
        formula += "; straight line from thin (d/2) to thick (d)"
    return Step(
        says=f"One in the {where}" if where != "joint" else "One through both",
        formula=formula,
        numbers=f"{numbers}; {plane.governing if plane.governing == 'thin to thick' else 'mode ' + plane.governing}",
        result=plane.resistance_n,
        unit="N",
        clause="EN 1995-1-1, 8.2.2(2), 8.2.3",
    )
