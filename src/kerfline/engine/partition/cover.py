"""Which panels to choose: an exact cover of the net's cells at the least cost, by integer programming."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import LineString

from kerfline.engine.lines.charts import Numbers
from kerfline.engine.partition.net import SETTLED, Net
from kerfline.engine.partition.panels import CandidatePanel
from kerfline.engine.partition.program import Program
from kerfline.engine.partition.under_walls import hidden_lengths
from kerfline.engine.problem import Problem, Shy
from kerfline.units import MM_PER_FOOT

BARRED = 1e3
"""Times its length that a seam costs where no joint may go."""

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


def cover(
    problem: Problem,
    net: Net,
    choices: Sequence[CandidatePanel],
    firsts: Sequence[int] | None = None,
) -> Answer | None:
    """The cheapest panels that tile the net; None where the search found none in its count.

    Args:
        problem: The piece.
        net: Its net.
        choices: The panels to choose from.
        firsts: For each panel the first of those that must be chosen with it; None for free choice.
    """
    program = Program()
    panels = _panel_columns(program, choices, firsts or range(len(choices)))
    joints = [program.column(price) for price in seam_prices(problem, net)]
    _panel_rows(program, net, choices, panels, joints)
    _tee_rows(program, problem, net, joints)
    _line_rows(program, problem, net, joints)
    best = program.solved(problem.effort)
    if best is None:
        return None
    return Answer(
        chosen=tuple(n for n, p in enumerate(panels) if best.values[p] > JOINTED),
        seams=tuple(bool(best.values[j] > JOINTED) for j in joints),
        cost=best.cost,
        bound=best.bound,
    )


def _panel_columns(
    program: Program, choices: Sequence[CandidatePanel], firsts: Sequence[int]
) -> list[int]:
    """A column for each panel, one for all that must be chosen together."""
    columns: dict[int, int] = {}
    for choice, first in zip(choices, firsts, strict=True):
        if first not in columns:
            columns[first] = program.column(0.0, whole=True)
        program.cost[columns[first]] += choice.cost
    return [columns[first] for first in firsts]


def _panel_rows(
    program: Program,
    net: Net,
    choices: Sequence[CandidatePanel],
    panels: Sequence[int],
    joints: Sequence[int],
) -> None:
    """Every cell lies in one panel, and a seam is a joint unless one panel has it inside.

    Where each cell lies in one panel, a joint is the sum of the panels that lie on one side of it and do not
    reach over, whichever the side. Rows of that kind name a panel along its rim only, and are quicker to solve
    than rows that name it in every cell. The rows of both sides carry the one panel on from cell to cell; of a
    seam between cells that are reached already one side is enough.
    """
    holders: list[set[int]] = [set() for _ in net.cells]
    for number, choice in enumerate(choices):
        for cell in choice.cells:
            holders[cell].add(number)
    heads = list(range(len(net.cells)))
    for seam, joint in zip(net.seams, joints, strict=True):
        if seam.line == SETTLED:
            program.row(1.0, 1.0, [(joint, 1.0)])
            continue
        one, other = seam.cells
        sides = sorted((holders[one] - holders[other], holders[other] - holders[one]), key=len)
        known = _head(heads, one) == _head(heads, other)
        heads[_head(heads, one)] = _head(heads, other)
        for side in sides[:1] if known else sides:
            program.row(0.0, 0.0, [(joint, 1.0), *((panels[n], -1.0) for n in sorted(side))])
    for cell in sorted({_head(heads, c) for c in range(len(net.cells))}):
        program.row(1.0, 1.0, [(panels[n], 1.0) for n in sorted(holders[cell])])


def _head(heads: Sequence[int], cell: int) -> int:
    """The cell that stands for all that are reached from one."""
    while heads[cell] != cell:
        cell = heads[cell]
    return cell


def seam_prices(problem: Problem, net: Net) -> list[float]:
    """What each seam costs as a joint, in mm of joint."""
    paths = [s.path for s in net.seams]
    lengths = shapely.length(paths)
    poor = shapely.length(shapely.intersection(paths, problem.barred))
    free = np.array([s.line != SETTLED for s in net.seams], dtype=float)
    near = sum((_too_near(paths, shy) for shy in problem.shies), np.zeros(len(paths)))
    hidden = hidden_lengths(problem, net)
    plain = lengths * problem.weights.length_open + hidden * (
        problem.weights.length_hidden - problem.weights.length_open
    )
    price = (plain + poor * BARRED + near) * free
    return [float(p) for p in price]


def _too_near(paths: Sequence[LineString], shy: Shy) -> Numbers:
    """What seams cost that pass a penetration by within its clear distance."""
    away = shapely.distance(np.asarray(paths), shapely.Point(shy.at))
    least = MEETS if shy.through else -1.0
    return np.where((away > least) & (away < shy.clear), shy.weight, 0.0)


def _tee_rows(program: Program, problem: Problem, net: Net, joints: Sequence[int]) -> None:
    """A joint that stops at a node in the open is a tee; so is one that its neighbour does not meet."""
    meetings: dict[tuple[int, int], list[int]] = {}
    for number, seam in enumerate(net.seams):
        for node in seam.nodes:
            meetings.setdefault((node, seam.line), []).append(number)
    met = _landed(problem, net)
    for (node, line), seams in sorted(meetings.items()):
        if line == SETTLED:
            continue
        hidden = bool(problem.walls) and problem.hides(net.nodes[node])
        price = (problem.weights.tee_hidden if hidden else problem.weights.tee) * MM_PER_FOOT
        if len(seams) == PAIR and not net.edge[node]:
            program.differ(joints[seams[0]], joints[seams[1]], price)
        elif len(seams) == 1 and node in met:
            program.cost[joints[seams[0]]] += -price if met[node] else price
        elif len(seams) == 1 and not net.edge[node]:
            program.cost[joints[seams[0]]] += price


def _landed(problem: Problem, net: Net) -> dict[int, bool]:
    """Nodes on the border with a neighbour, and whether a joint of the neighbour arrives there."""
    spots = shapely.points(net.nodes) if net.nodes else np.zeros(0, dtype=object)
    arrives = shapely.dwithin(shapely.MultiPoint(problem.landings), spots, MEETS)
    beside = shapely.dwithin(problem.border or shapely.Point(), spots, MEETS)
    return {int(n): bool(arrives[n]) for n in np.flatnonzero(arrives | beside)}


def _line_rows(program: Program, problem: Problem, net: Net, joints: Sequence[int]) -> None:
    """Every line that carries a joint is snapped once."""
    for line in range(len(net.lines)):
        members = [joints[n] for n, s in enumerate(net.seams) if s.line == line]
        if members:
            used = program.column(problem.weights.line * MM_PER_FOOT)
            for joint in members:
                program.row(0.0, np.inf, [(used, 1.0), (joint, -1.0)])
