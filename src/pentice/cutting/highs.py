"""A thin layer over HiGHS: least cost of whole and real amounts under linear rows, with its proven bound.

One thread, no chance, and a limit in search nodes rather than time, so that the same input gives the same answer;
the time limit is a safety net only.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

Row = tuple[float, float, tuple[tuple[int, float], ...]]
_NODES = 300


@dataclass(frozen=True, slots=True, kw_only=True)
class Amounts:
    """The amounts found (empty when none were), their cost, and a cost that no other amounts can go below."""

    values: tuple[float, ...]
    cost: float
    bound: float


def least_amounts(
    costs: Sequence[float],
    most: Sequence[float],
    whole: Sequence[bool],
    rows: Sequence[Row],
    *,
    effort: float = 1.0,
    stop: Callable[[], bool] | None = None,
) -> Amounts | None:
    """Amounts of least cost, each from 0 to its most, that keep every row.

    Parameters
    ----------
    costs, most, whole
        Per amount: its cost, its greatest value, and whether it must be whole [-].
    rows
        Least, most, and (amount, factor) pairs of each row.
    effort
        Scales the number of search nodes and the safety net in seconds [-].
    stop
        Ends it early, with what has been found until then.

    Returns
    -------
    Amounts or None
        None when no amounts keep every row.

    Examples
    --------
    >>> found = least_amounts([5.0, 9.0], [9, 9], [True, True], [(3, 99, ((0, 1.0), (1, 2.0)))])
    >>> found.values, round(found.bound, 6)
    ((1.0, 1.0), 14.0)
    """
    import highspy

    solver = _loaded(highspy, costs, most, whole, rows, effort)
    if stop is not None:
        _stopped_by(solver, stop)
    solver.run()
    if solver.getModelStatus() == highspy.HighsModelStatus.kInfeasible:
        return None
    info = solver.getInfo()
    bound = info.mip_dual_bound if any(whole) else info.objective_function_value
    has = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    values = tuple(solver.getSolution().col_value) if has else ()
    return Amounts(values=values, cost=info.objective_function_value, bound=bound)


def _loaded(
    highspy: Any,
    costs: Sequence[float],
    most: Sequence[float],
    whole: Sequence[bool],
    rows: Sequence[Row],
    effort: float,
) -> Any:
    solver = quiet()
    for name, value in _options(effort).items():
        solver.setOptionValue(name, value)
    for cost, top, is_whole in zip(costs, most, whole, strict=True):
        solver.addCol(float(cost), 0.0, float(top), 0, [], [])
        if is_whole:
            solver.changeColIntegrality(solver.getNumCol() - 1, highspy.HighsVarType.kInteger)
    for least, top, terms in rows:
        solver.addRow(
            float(least), float(top), len(terms), [t[0] for t in terms], [float(t[1]) for t in terms]
        )
    return solver


def _stopped_by(solver: Any, stop: Callable[[], bool]) -> None:
    """Ask now and then whether to go on."""
    from highspy import cb

    def ask(kind: Any, message: str, out: Any, given: Any, data: Any) -> None:
        if given is not None and stop():
            given.user_interrupt = True

    solver.setCallback(ask, None)
    for kind in (cb.HighsCallbackType.kCallbackMipInterrupt, cb.HighsCallbackType.kCallbackSimplexInterrupt):
        solver.startCallback(kind)


def quiet() -> Any:
    """A solver that prints nothing and uses one thread.

    Its own start turns callbacks on before output can be turned off, so it is passed by.

    Returns
    -------
    highspy.Highs
        Empty.
    """
    import highspy

    solver = highspy.Highs.__new__(highspy.Highs)
    super(highspy.Highs, solver).__init__()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    solver.callbacks = []
    return solver


def _options(effort: float) -> dict[str, object]:
    return {
        "output_flag": False,
        "threads": 1,
        "random_seed": 0,
        "mip_rel_gap": 0.0,
        "mip_abs_gap": 1e-6,
        "mip_max_nodes": max(1, int(_NODES * effort)),
        "time_limit": max(20.0, 60.0 * effort),
    }
