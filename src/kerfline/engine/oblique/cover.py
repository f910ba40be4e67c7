"""Which panels to choose: an exact cover of the net's cells at the least cost, by integer programming."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import shapely

from kerfline.engine.oblique.blocks import Choice
from kerfline.engine.oblique.ground import Ground
from kerfline.engine.oblique.net import REQUIRED, Net
from kerfline.engine.options import Weights
from kerfline.units import MM_PER_FOOT

BARRED = 1e3
"""Times its length that a seam costs where no joint may go."""

NODES = 400
"""Branches that the search may take: a count, not a time, so that every run ends the same."""

GAP = 1e-3
"""Gap (share of the cost) at which the search may stop."""

MEETS = 1.0
"""A joint this close (mm) to the end of a neighbour's meets it."""

PAIR = 2
JOINTED = 0.5


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


def cover(ground: Ground, net: Net, choices: Sequence[Choice], weights: Weights) -> Answer | None:
    """The cheapest panels that tile the net; None where the search found none in its count."""
    program = _Program()
    panels = [program.column(c.cost, whole=True) for c in choices]
    _cover_rows(program, net, choices, panels)
    joints = _seam_rows(program, ground, net, choices, panels, weights)
    _tee_rows(program, ground, net, joints, weights)
    _line_rows(program, net, joints, weights)
    return _solved(program, panels, joints)


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
    price = (lengths * weights.length_open + poor * BARRED) * free
    return [float(p) for p in price]


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
    if ground.border is None:
        return {}
    landings = shapely.MultiPoint(ground.landings)
    met = {}
    for number, at in enumerate(net.nodes):
        spot = shapely.Point(at)
        if spot.distance(ground.border) <= MEETS:
            met[number] = bool(ground.landings) and spot.distance(landings) <= MEETS
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
    import highspy

    solver = highspy.Highs()  # type: ignore[no-untyped-call]  # the library ships no types here
    solver.silent()
    for option, value in (
        ("mip_max_nodes", NODES),
        ("mip_rel_gap", GAP),
        ("random_seed", 0),
        ("threads", 1),
        ("presolve", "off"),
    ):
        solver.setOptionValue(option, value)
    solver.passModel(_model(program))
    solver.run()
    info = solver.getInfo()
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None
    values = np.asarray(solver.getSolution().col_value)
    return Answer(
        chosen=tuple(n for n, p in enumerate(panels) if values[p] > JOINTED),
        seams=tuple(bool(values[j] > JOINTED) for j in joints),
        cost=float(info.objective_function_value),
        bound=float(info.mip_dual_bound),
    )


def _model(program: _Program) -> Any:  # noqa: ANN401 the class is imported where it is used
    import highspy

    lp = highspy.HighsLp()
    count = len(program.cost)
    lp.num_col_, lp.num_row_ = count, len(program.low)
    lp.col_cost_ = np.asarray(program.cost)
    lp.col_lower_, lp.col_upper_ = np.zeros(count), np.ones(count)
    lp.row_lower_, lp.row_upper_ = np.asarray(program.low), np.asarray(program.high)
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_ = np.asarray([*program.starts, len(program.indices)])
    lp.a_matrix_.index_ = np.asarray(program.indices)
    lp.a_matrix_.value_ = np.asarray(program.values)
    kinds = highspy.HighsVarType
    lp.integrality_ = [kinds.kInteger if w else kinds.kContinuous for w in program.whole]
    return lp
