"""A linear programme of panels and joints: built row by row, answered by HiGHS, whole where it must be."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np
import numpy.typing as npt

from kerfline.engine.effort import ROUND, Effort
from kerfline.engine.lines.charts import Numbers
from kerfline.engine.partition.highs import silent_solver

KEPT = (0.0005, 0.006)
"""Distances (shares of the cost) between the relaxed and the whole answer that are allowed for."""

INTERIOR = 80
"""Simplex iterations that one of the interior point method counts for."""

NODES = 400
"""Branches that the search may take: a count, not a time, so that every run ends the same."""

GAP = 2e-3
"""Gap (share of the cost) at which the search may stop."""

DIGITS = 2
"""Costs are told to this many digits of a millimetre of joint: the search follows them to the last bit, and those
differ from one processor to the next."""

WHOLE = 1e-6
"""A value this close to a whole number is one."""

CLOSED = 1e-6
"""Share of the cost within which an answer costs no more than the bound."""

NEAR = 1e-4
"""Reduced cost (share of the cost) of columns among which several answers may cost the same."""

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

    def solved(self, effort: Effort) -> Solved | None:
        """The answer at the least cost; None where the search found none in its count.

        First without asking for whole panels, by the interior point method. Its answer mostly is whole
        already. Where it lies between several that cost the same, the simplex method picks one of them, which
        may be whole. Otherwise the search goes on among the panels of little reduced cost: one whose reduced
        cost is above the distance between the best cover and the bound is in no better cover. It looks among
        more of them where the first are not enough for a cover, or where there is effort left for the proof.

        Args:
            effort: What may be spent.
        """
        self.cost = [round(cost, DIGITS) for cost in self.cost]
        relaxed = _run(self, {"solver": "ipm", "run_crossover": "off"}, effort=effort)
        if relaxed is None:
            return None
        bound, reduced = self._bound(relaxed.duals)
        for answer in self._likely(relaxed.values, bound, reduced, effort):
            if answer.cost - bound <= CLOSED * abs(bound):
                return replace(answer, bound=answer.cost)
        return self._searched(bound, reduced, effort)

    def _searched(self, bound: float, reduced: Numbers, effort: Effort) -> Solved | None:
        """The best whole answer among ever more columns; no other columns are in a better one."""
        best: Solved | None = None
        for room in (share * abs(bound) for share in KEPT):
            if best and (best.cost - best.bound <= GAP * best.cost or not effort.allows()):
                break
            found = _run(self, {}, self._kept(reduced, room), whole=True, effort=effort)
            if found is None:
                continue
            least = max(bound, min(found.bound, bound + room))
            if best is None or found.cost < best.cost:
                best = Solved(found.cost, min(least, found.cost), found.values)
            else:
                best = replace(best, bound=min(max(best.bound, least), best.cost))
        return best

    def _likely(
        self, values: Numbers, bound: float, reduced: Numbers, effort: Effort
    ) -> Iterator[Solved]:
        """Whole answers that the relaxed one is next to."""
        rounded = np.round(values)
        if self._holds(rounded):
            yield Solved(self._price(rounded), bound, rounded)
        vertex = _run(self, {}, self._kept(reduced, NEAR * abs(bound)), effort=effort)
        if vertex is not None and self._is_whole(vertex.values):
            yield Solved(vertex.cost, bound, vertex.values)

    def _bound(self, duals: Numbers) -> tuple[float, Numbers]:
        """What every answer costs at least by any prices of the rows, and the reduced costs of the columns."""
        low, high = np.asarray(self.low), np.asarray(self.high)
        duals = np.where(np.isinf(high), np.maximum(duals, 0.0), duals)
        rows = np.repeat(np.arange(len(low)), np.diff([*self.starts, len(self.indices)]))
        paid = np.bincount(
            np.asarray(self.indices),
            weights=np.asarray(self.values) * duals[rows],
            minlength=len(self.cost),
        )
        reduced: Numbers = np.asarray(self.cost) - paid
        ends = np.where(duals >= 0.0, low, np.where(np.isinf(high), 0.0, high))
        return float((duals * ends).sum() + np.minimum(reduced, 0.0).sum()), reduced

    def _holds(self, values: Numbers) -> bool:
        """Whether values keep every row."""
        rows = np.repeat(np.arange(len(self.low)), np.diff([*self.starts, len(self.indices)]))
        sums = np.bincount(
            rows,
            weights=np.asarray(self.values) * values[np.asarray(self.indices)],
            minlength=len(self.low),
        )
        low, high = np.asarray(self.low) - WHOLE, np.asarray(self.high) + WHOLE
        return bool(((sums >= low) & (sums <= high)).all())

    def _price(self, values: Numbers) -> float:
        return float((np.asarray(self.cost) * values).sum())

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
    """What the solver answered: cost, bound, values of the columns and duals of the rows."""

    cost: float
    bound: float
    values: Numbers
    duals: Numbers


def _run(
    program: Program,
    settings: Mapping[str, str],
    kept: Places | None = None,
    *,
    effort: Effort,
    whole: bool = False,
) -> _Run | None:
    import highspy

    solver = silent_solver(
        {"mip_max_nodes": NODES, "mip_rel_gap": GAP, "random_seed": 0, **settings}
    )
    columns = np.arange(len(program.cost)) if kept is None else kept
    solver.passModel(_model(program, columns, whole=whole))
    solver.run()
    info = solver.getInfo()
    work = info.simplex_iteration_count + INTERIOR * info.ipm_iteration_count
    effort.spend(work + ROUND * max(info.mip_node_count, 0), len(program.low))
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None
    solution = solver.getSolution()
    return _Run(
        cost=float(info.objective_function_value),
        bound=float(info.mip_dual_bound),
        values=_spread(solution.col_value, columns, len(program.cost)),
        duals=np.asarray(solution.row_dual),
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
