"""A linear programme of panels and joints: built row by row, answered by HiGHS, whole where it must be."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import numpy.typing as npt

from kerfline.engine.highs import silent_solver
from kerfline.engine.oblique.charts import Numbers

KEPT = 0.006
"""Distance (share of the cost) between the relaxed and the whole answer that is allowed for."""

NODES = 400
"""Branches that the search may take: a count, not a time, so that every run ends the same."""

GAP = 2e-3
"""Gap (share of the cost) at which the search may stop."""

WHOLE = 1e-6
"""A value this close to a whole number is one."""

Places = npt.NDArray[np.int64]


@dataclass(frozen=True)
class Solved:
    """What the solver answered.

    Attributes:
        cost: The cost of the answer.
        bound: Its proven lower bound.
        values: The value of each column.
    """

    cost: float
    bound: float
    values: Numbers


@dataclass
class Program:
    """A linear programme that grows column by column and row by row, each variable between 0 and 1.

    Attributes:
        cost: What each column costs.
        whole: Whether each must be 0 or 1.
        low: Least value of each row.
        high: Greatest value of each row.
        starts: Where each row begins among the terms.
        indices: The column of each term.
        values: The factor of each term.
    """

    cost: list[float] = field(default_factory=list)
    whole: list[bool] = field(default_factory=list)
    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)
    starts: list[int] = field(default_factory=list)
    indices: list[int] = field(default_factory=list)
    values: list[float] = field(default_factory=list)

    def column(self, cost: float, *, whole: bool = False) -> int:
        """A new variable between 0 and 1."""
        self.cost.append(cost)
        self.whole.append(whole)
        return len(self.cost) - 1

    def row(self, low: float, high: float, terms: Sequence[tuple[int, float]]) -> None:
        """A new constraint."""
        self.starts.append(len(self.indices))
        self.low.append(low)
        self.high.append(high)
        for index, value in terms:
            self.indices.append(index)
            self.values.append(value)

    def differ(self, first: int, second: int, cost: float) -> None:
        """A cost for as much as two variables differ: one row with what either has more."""
        more, less = self.column(cost), self.column(cost)
        self.row(0.0, 0.0, [(first, 1.0), (second, -1.0), (more, -1.0), (less, 1.0)])

    def solved(self) -> Solved | None:
        """The answer at the least cost; None where the search found none in its count.

        First without asking for whole panels. That answer mostly is whole already; where it is not,
        the search goes on among the panels that can matter: one whose reduced cost is above the
        distance between the best cover and the relaxed one is in no better cover. Where the distance
        comes out above ``KEPT`` the relaxed cost is the bound.
        """
        relaxed = _run(self, whole=False)
        if relaxed is None:
            return None
        if self._is_whole(relaxed.values):
            return Solved(relaxed.cost, relaxed.cost, relaxed.values)
        room = KEPT * abs(relaxed.cost)
        best = _run(self, whole=True, kept=self._kept(relaxed.reduced, room))
        if best is None:
            return None
        proven = best.cost - relaxed.cost <= room
        return Solved(best.cost, best.bound if proven else relaxed.cost, best.values)

    def _is_whole(self, values: Numbers) -> bool:
        """Whether everything that must be 0 or 1 is so."""
        must = values[np.asarray(self.whole)]
        return bool((np.abs(must - np.round(must)) <= WHOLE).all())

    def _kept(self, reduced: Numbers, room: float) -> Places:
        """The columns that can matter: every one that need not be whole, and those cheap enough."""
        free = ~np.asarray(self.whole)
        return np.flatnonzero(free | (reduced <= room))


@dataclass(frozen=True)
class _Run:
    """What the solver answered: cost, bound, values and reduced costs of the columns."""

    cost: float
    bound: float
    values: Numbers
    reduced: Numbers


def _run(program: Program, *, whole: bool, kept: Places | None = None) -> _Run | None:
    import highspy

    solver = silent_solver(
        {
            "mip_max_nodes": NODES,
            "mip_rel_gap": GAP,
            "presolve": "off" if whole else "on",
            "random_seed": 0,
        }
    )
    columns = np.arange(len(program.cost)) if kept is None else kept
    solver.passModel(_model(program, columns, whole=whole))
    solver.run()
    info = solver.getInfo()
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None
    solution = solver.getSolution()
    return _Run(
        cost=float(info.objective_function_value),
        bound=float(info.mip_dual_bound),
        values=_spread(solution.col_value, columns, len(program.cost)),
        reduced=_spread(solution.col_dual, columns, len(program.cost)),
    )


def _spread(values: Sequence[float], columns: Places, count: int) -> Numbers:
    """Values of some columns among all, nothing for the others."""
    out = np.zeros(count)
    if len(values):
        out[columns] = values
    return out


def _model(program: Program, kept: Places, *, whole: bool) -> Any:  # noqa: ANN401 imported where used
    """The programme with only some of its columns."""
    import highspy

    count = len(kept)
    place = np.full(len(program.cost), -1)
    place[kept] = np.arange(count)
    columns = place[np.asarray(program.indices)]
    stays = columns >= 0
    starts = np.concatenate([[0], np.cumsum(stays)])[[*program.starts, len(program.indices)]]
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = count, len(program.low)
    lp.col_cost_ = np.asarray(program.cost)[kept]
    lp.col_lower_, lp.col_upper_ = np.zeros(count), np.ones(count)
    lp.row_lower_, lp.row_upper_ = np.asarray(program.low), np.asarray(program.high)
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_ = starts
    lp.a_matrix_.index_ = columns[stays]
    lp.a_matrix_.value_ = np.asarray(program.values)[stays]
    if whole:
        kinds = highspy.HighsVarType
        lp.integrality_ = [
            kinds.kInteger if program.whole[n] else kinds.kContinuous for n in kept.tolist()
        ]
    return lp
