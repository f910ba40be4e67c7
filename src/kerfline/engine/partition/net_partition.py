"""The set partition of a net, and its cheapest cover."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from networkx.utils import UnionFind
from shapely import LineString

from kerfline.engine.arrays import Integers, Numbers
from kerfline.engine.options import feet
from kerfline.engine.partition.net import SETTLED, Net, lengths_under
from kerfline.engine.partition.panels import CandidatePanel
from kerfline.engine.partition.set_partition import INFINITE, Rows, SetPartition, by_panel
from kerfline.engine.partition.solve import best_cover
from kerfline.engine.problem import Problem
from kerfline.engine.regions.asking import Shy

BARRED = 1e3
"""Times its length that a seam costs where no joint may go."""

MEETS = 1.0
"""A joint this close (mm) to the end of a neighbour's meets it."""

PAIR = 2
"""Seams of one line that meet where it runs through a node."""

DIGITS = 2
"""Costs are told to this many digits of a millimetre of joint: the search follows them to the last bit, and those
differ from one processor to the next."""

GAP = 2e-3
"""Share of the cost by which a cover may be off the bound and the search still ends: several ways to lay a piece
out share the effort."""


@dataclass(frozen=True)
class NetCover:
    """The chosen panels.

    Attributes:
        chosen: Numbers of the panels.
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
    panels: Sequence[CandidatePanel],
    images: Sequence[int] | None = None,
) -> NetCover | None:
    """The cheapest panels that tile the net; None where the search found none in its count.

    Args:
        problem: The piece.
        net: Its net.
        panels: The panels to choose from.
        images: For each panel the first of those that must be chosen with it; None for free choice.
    """
    chosen_with = np.asarray(images if images is not None else range(len(panels)), dtype=np.int64)
    model = net_partition(problem, net, panels, chosen_with)
    likely = np.ones(len(panels), dtype=bool)
    best = best_cover(model, likely, problem.effort, gap=GAP)
    if best is None:
        return None
    owner = {cell: n for n in best.chosen.tolist() for cell in panels[n].cells}
    return NetCover(
        chosen=tuple(best.chosen.tolist()),
        seams=tuple(s.line == SETTLED or owner[s.cells[0]] != owner[s.cells[1]] for s in net.seams),
        cost=best.cost,
        bound=best.bound,
    )


def net_partition(
    problem: Problem, net: Net, panels: Sequence[CandidatePanel], images: Integers
) -> SetPartition:
    """The set partition of a net: of each seam, what lies on one side of it and does not reach over."""
    rows = Rows()
    prices = seam_prices(problem, net)
    panel, row = _panel_rows(rows, net, panels)
    tees = _tee_rows(rows, problem, net, prices)
    lines = _line_rows(rows, problem, net, len(prices) + len(tees))
    starts, panel_rows = by_panel(panel, row, len(panels))
    return SetPartition(
        cost=np.round([*prices, *tees, *lines], DIGITS),
        rows=rows,
        first_line=len(prices) + len(tees),
        panel_cost=np.round([p.cost for p in panels], DIGITS),
        starts=starts,
        panel_rows=panel_rows,
        images=images,
        area=np.array([p.area for p in panels]),
        single=np.array([len(p.cells) == 1 for p in panels]),
    )


def _panel_rows(
    rows: Rows, net: Net, panels: Sequence[CandidatePanel]
) -> tuple[Integers, Integers]:
    """Every cell lies in one panel, and a seam is a joint unless one panel has it inside: pairs (panel, row).

    The rows of both sides of a seam carry the one panel on from cell to cell; of a seam between cells that are
    reached already one side is enough.
    """
    holders: list[set[int]] = [set() for _ in net.cells]
    for number, choice in enumerate(panels):
        for cell in choice.cells:
            holders[cell].add(number)
    reached = UnionFind(range(len(net.cells)))
    which: list[int] = []
    at: list[int] = []

    def stand(members: set[int], row: int) -> None:
        which.extend(sorted(members))
        at.extend([row] * len(members))

    for joint, seam in enumerate(net.seams):
        if seam.line == SETTLED:
            rows.put(rows.open(1.0, 1.0), joint, 1.0)
            continue
        one, other = seam.cells
        sides = sorted((holders[one] - holders[other], holders[other] - holders[one]), key=len)
        known = reached[one] == reached[other]
        reached.union(one, other)
        for side in sides[:1] if known else sides:
            row = rows.open(0.0, 0.0)
            rows.put(row, joint, -1.0)
            stand(side, row)
    for cells in sorted(map(sorted, reached.to_sets())):
        stand(holders[cells[0]], rows.open(1.0, 1.0))
    return np.asarray(which, dtype=np.int64), np.asarray(at, dtype=np.int64)


def seam_prices(problem: Problem, net: Net) -> list[float]:
    """What each seam costs as a joint, in mm of joint."""
    paths = [s.path for s in net.seams]
    lengths = shapely.length(paths)
    poor = shapely.length(shapely.intersection(paths, problem.barred))
    free = np.array([s.line != SETTLED for s in net.seams], dtype=float)
    near = sum((_too_near(paths, shy) for shy in problem.shies), np.zeros(len(paths)))
    hidden = lengths_under(problem.walls, net)
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


def _tee_rows(rows: Rows, problem: Problem, net: Net, prices: list[float]) -> list[float]:
    """A joint that stops at a node in the open is a tee; so is one that its neighbour does not meet.

    Returns:
        What each tee costs; those that one joint alone decides are added to its own price.
    """
    meetings: dict[tuple[int, int], list[int]] = {}
    for number, seam in enumerate(net.seams):
        for node in seam.nodes:
            meetings.setdefault((node, seam.line), []).append(number)
    met = _landed(problem, net)
    costs: list[float] = []
    for (node, line), seams in sorted(meetings.items()):
        if line == SETTLED:
            continue
        hidden = bool(problem.walls) and problem.hides(net.nodes[node])
        price = feet(problem.weights.tee_hidden if hidden else problem.weights.tee)
        if len(seams) == PAIR and not net.edge[node]:
            for plus, minus in (seams, seams[::-1]):
                row = rows.open(-INFINITE, 0.0)
                rows.put([row] * 2, [minus, len(prices) + len(costs)], -1.0)
                rows.put(row, plus, 1.0)
            costs.append(price)
        elif len(seams) == 1 and node in met:
            prices[seams[0]] += -price if met[node] else price
        elif len(seams) == 1 and not net.edge[node]:
            prices[seams[0]] += price
    return costs


def _landed(problem: Problem, net: Net) -> dict[int, bool]:
    """Nodes on the border with a neighbour, and whether a joint of the neighbour arrives there."""
    spots = shapely.points(net.nodes) if net.nodes else np.zeros(0, dtype=object)
    arrives = shapely.dwithin(shapely.MultiPoint(problem.landings), spots, MEETS)
    beside = shapely.dwithin(problem.border or shapely.Point(), spots, MEETS)
    return {int(n): bool(arrives[n]) for n in np.flatnonzero(arrives | beside)}


def _line_rows(rows: Rows, problem: Problem, net: Net, first: int) -> list[float]:
    """Every line that carries a joint is snapped once; what each costs."""
    costs: list[float] = []
    for line in range(len(net.lines)):
        members = [n for n, s in enumerate(net.seams) if s.line == line]
        for joint in members:
            row = rows.open(-INFINITE, 0.0)
            rows.put(row, joint, 1.0)
            rows.put(row, first + len(costs), -1.0)
        if members:
            costs.append(feet(problem.weights.line))
    return costs
