"""Which panels to choose: an exact cover of the net's cells at the least cost, by integer programming."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import numpy.typing as npt
import shapely
from shapely import LineString

from kerfline.engine.highs import silent_solver
from kerfline.engine.oblique.blocks import Choice
from kerfline.engine.oblique.charts import Numbers
from kerfline.engine.oblique.ground import Ground, Shy
from kerfline.engine.oblique.net import REQUIRED, Net
from kerfline.engine.options import Weights
from kerfline.units import MM_PER_FOOT

KEPT = 0.006
"""Distance (share of the cost) between the relaxed and the whole answer that is allowed for."""

BARRED = 1e3
"""Times its length that a seam costs where no joint may go."""

NODES = 400
"""Branches that the search may take: a count, not a time, so that every run ends the same."""

GAP = 2e-3
"""Gap (share of the cost) at which the search may stop."""

MEETS = 1.0
"""A joint this close (mm) to the end of a neighbour's meets it."""

PAIR = 2
JOINTED = 0.5


Places = npt.NDArray[np.int64]


@dataclass(frozen=True)
class Answer:
    """The chosen panels.

    Attributes:
        chosen: Numbers of the choices.
        seams: For each seam whether it is a joint.
        cost: The whole cost in mm of joint.
        bound: Its proven lower bound.
    """

    chosen: tuple[int, ...]
    seams: tuple[bool, ...]
    cost: float
    bound: float


@dataclass
class _Program:
    """A linear programme that grows column by column and row by row."""

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


def cover(
    ground: Ground,
    net: Net,
    choices: Sequence[Choice],
    weights: Weights,
    firsts: Sequence[int] | None = None,
) -> Answer | None:
    """The cheapest panels that tile the net; None where the search found none in its count.

    Args:
        ground: The piece.
        net: Its net.
        choices: The panels to choose from.
        weights: What each thing is worth.
        firsts: For each panel the first of those that must be chosen with it; None for free choice.
    """
    program = _Program()
    panels = _panel_columns(program, choices, firsts or range(len(choices)))
    _cover_rows(program, net, choices, panels)
    joints = _seam_rows(program, ground, net, choices, panels, weights)
    _tee_rows(program, ground, net, joints, weights)
    _line_rows(program, net, joints, weights)
    return _solved(program, panels, joints)


def _panel_columns(
    program: _Program, choices: Sequence[Choice], firsts: Sequence[int]
) -> list[int]:
    """A column for each panel, one for all that must be chosen together."""
    columns: dict[int, int] = {}
    for choice, first in zip(choices, firsts, strict=True):
        if first not in columns:
            columns[first] = program.column(0.0, whole=True)
        program.cost[columns[first]] += choice.cost
    return [columns[first] for first in firsts]


def _cover_rows(
    program: _Program, net: Net, choices: Sequence[Choice], panels: Sequence[int]
) -> None:
    """Every cell lies in one panel."""
    holders: list[list[tuple[int, float]]] = [[] for _ in net.cells]
    for choice, panel in zip(choices, panels, strict=True):
        for cell in choice.cells:
            holders[cell].append((panel, 1.0))
    for terms in holders:
        program.row(1.0, 1.0, terms)


def _seam_rows(
    program: _Program,
    ground: Ground,
    net: Net,
    choices: Sequence[Choice],
    panels: Sequence[int],
    weights: Weights,
) -> list[int]:
    """A seam is a joint unless one panel has it inside."""
    holders: list[set[int]] = [set() for _ in net.cells]
    for number, choice in enumerate(choices):
        for cell in choice.cells:
            holders[cell].add(number)
    joints = []
    for seam, price in zip(net.seams, seam_prices(ground, net, weights), strict=True):
        joint = program.column(price)
        joints.append(joint)
        inside = () if seam.line == REQUIRED else holders[seam.cells[0]] & holders[seam.cells[1]]
        program.row(1.0, 1.0, [(joint, 1.0), *((panels[n], 1.0) for n in sorted(inside))])
    return joints


def seam_prices(ground: Ground, net: Net, weights: Weights) -> list[float]:
    """What each seam costs as a joint, in mm of joint."""
    paths = [s.path for s in net.seams]
    lengths = shapely.length(paths)
    poor = shapely.length(shapely.intersection(paths, ground.barred))
    free = np.array([s.line != REQUIRED for s in net.seams], dtype=float)
    near = sum((_too_near(paths, shy) for shy in ground.shies), np.zeros(len(paths)))
    price = (lengths * weights.length_open + poor * BARRED + near) * free
    return [float(p) for p in price]


def _too_near(paths: Sequence[LineString], shy: Shy) -> Numbers:
    """What seams cost that pass a penetration by within its clear distance."""
    away = shapely.distance(np.asarray(paths), shapely.Point(shy.at))
    least = MEETS if shy.through else -1.0
    return np.where((away > least) & (away < shy.clear), shy.weight, 0.0)


def _tee_rows(
    program: _Program, ground: Ground, net: Net, joints: Sequence[int], weights: Weights
) -> None:
    """A joint that stops at a node in the open is a tee; so is one that its neighbour does not meet."""
    meetings: dict[tuple[int, int], list[int]] = {}
    for number, seam in enumerate(net.seams):
        for node in seam.nodes:
            meetings.setdefault((node, seam.line), []).append(number)
    price = weights.tee * MM_PER_FOOT
    met = _landed(ground, net)
    for (node, line), seams in sorted(meetings.items()):
        if line == REQUIRED:
            continue
        if len(seams) == PAIR and not net.edge[node]:
            tee = program.column(price)
            first, second = joints[seams[0]], joints[seams[1]]
            program.row(0.0, np.inf, [(tee, 1.0), (first, -1.0), (second, 1.0)])
            program.row(0.0, np.inf, [(tee, 1.0), (first, 1.0), (second, -1.0)])
        elif len(seams) == 1 and node in met:
            program.cost[joints[seams[0]]] += -price if met[node] else price
        elif len(seams) == 1 and not net.edge[node]:
            program.cost[joints[seams[0]]] += price


def _landed(ground: Ground, net: Net) -> dict[int, bool]:
    """Nodes on the border with a neighbour, and whether a joint of the neighbour arrives there."""
    landings = shapely.MultiPoint(ground.landings)
    met = {}
    for number, at in enumerate(net.nodes):
        spot = shapely.Point(at)
        arrives = bool(ground.landings) and spot.distance(landings) <= MEETS
        if arrives or (ground.border is not None and spot.distance(ground.border) <= MEETS):
            met[number] = arrives
    return met


def _line_rows(program: _Program, net: Net, joints: Sequence[int], weights: Weights) -> None:
    """Every line that carries a joint is snapped once."""
    for line in range(len(net.lines)):
        members = [joints[n] for n, s in enumerate(net.seams) if s.line == line]
        if members:
            used = program.column(weights.line * MM_PER_FOOT)
            for joint in members:
                program.row(0.0, np.inf, [(used, 1.0), (joint, -1.0)])


def _solved(program: _Program, panels: Sequence[int], joints: Sequence[int]) -> Answer | None:
    """First without asking for whole panels, then among the panels that can matter.

    A panel whose reduced cost is above the distance between the best cover and the relaxed one is
    in no better cover; leaving those out makes the search many times shorter. Where the distance
    comes out above ``KEPT`` the relaxed cost is the bound.
    """
    relaxed = _run(program, whole=False)
    if relaxed is None:
        return None
    room = KEPT * abs(relaxed.cost)
    best = _run(program, whole=True, kept=_kept(program, relaxed.reduced, room))
    if best is None:
        return None
    proven = best.cost - relaxed.cost <= room
    return Answer(
        chosen=tuple(n for n, p in enumerate(panels) if best.values[p] > JOINTED),
        seams=tuple(bool(best.values[j] > JOINTED) for j in joints),
        cost=best.cost,
        bound=best.bound if proven else relaxed.cost,
    )


def _kept(program: _Program, reduced: Numbers, room: float) -> Places:
    """The columns that can matter: every one that is no panel, and the panels that are cheap enough."""
    free = ~np.asarray(program.whole)
    return np.flatnonzero(free | (reduced <= room))


@dataclass(frozen=True)
class _Run:
    """What the solver answered: cost, bound, values and reduced costs of the columns."""

    cost: float
    bound: float
    values: Numbers
    reduced: Numbers


def _run(program: _Program, *, whole: bool, kept: Places | None = None) -> _Run | None:
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


def _model(program: _Program, kept: Places, *, whole: bool) -> Any:  # noqa: ANN401 imported where used
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
