"""A grid and a net as set partitions: the rows by which joints, tees and chalk lines follow from the panels.

The columns of both are alike: a joint for each piece of line, a tee for each place where one may stop, a chalk line
for each line; and so are the rows of tees and of chalk lines. That each cell lies in one panel is said once for both,
on the rims of panels, but read off in two ways: on a grid from the indices of thousands of rectangles at once, on a
net from sets of cells.
"""

from collections.abc import Sequence
from itertools import chain

import numpy as np
import numpy.typing as npt
import shapely
from networkx.utils import UnionFind
from shapely import LineString

from kerfline.engine.options import Weights, feet
from kerfline.engine.partition.grid import Grid
from kerfline.engine.partition.net import SETTLED, Net, lengths_under
from kerfline.engine.partition.panels import CandidatePanel
from kerfline.engine.partition.rectangles import Panels
from kerfline.engine.partition.set_partition import INFINITE, Rows, SetPartition, by_panel
from kerfline.engine.problem import Problem
from kerfline.engine.regions.features import Shy
from kerfline.engine.regions.region import X, Y
from kerfline.geometry.arrays import Flags, Integers, Numbers

BARRED = 1e3
"""Times its length that a seam costs where no joint may go."""

MEETS = 1.0
"""A joint this close (mm) to the end of a neighbour's meets it."""

NOBODY = np.zeros(0, dtype=np.int64)
"""No panels."""

PAIR = 2
"""Seams of one line that meet where it runs through a node."""

DIGITS = 2
"""Costs are told to this many digits of a millimetre of joint: the search follows them to the last bit, and those
differ from one processor to the next."""


def _tee_rows(rows: Rows, one: npt.ArrayLike, other: npt.ArrayLike, tees: Integers) -> None:
    """A tee is 1 where of two pieces of line that meet at it one is a joint and the other is not."""
    for plus, minus in ((one, other), (other, one)):
        here = rows.open(-INFINITE, 0.0, len(tees)) + np.arange(len(tees))
        rows.put(here, plus, 1.0)
        rows.put(here, minus, -1.0)
        rows.put(here, tees, -1.0)


def _ending_rows(rows: Rows, one: Integers, other: Integers, first: int) -> None:
    """A tee is 1 where a line's joint stops, another where it begins: what comes is what goes but for those.

    Half as many rows as ``_tee_rows`` has, where no other line may share a tee.

    Args:
        rows: Where they are put.
        one: The piece before each node.
        other: The piece after it.
        first: The first column of tees, as many for joints that stop and then as many for those that begin.
    """
    here = rows.open(0.0, 0.0, len(one)) + np.arange(len(one))
    rows.put(here, one, 1.0)
    rows.put(here, other, -1.0)
    rows.put(here, first + np.arange(len(one)), -1.0)
    rows.put(here, first + len(one) + np.arange(len(one)), 1.0)


def _line_rows(rows: Rows, pieces: Integers, lines: Integers) -> None:
    """A chalk line is 1 where any piece of it is a joint."""
    here = rows.open(-INFINITE, 0.0, len(pieces)) + np.arange(len(pieces))
    rows.put(here, pieces, 1.0)
    rows.put(here, lines, -1.0)


Sides = tuple[Integers, Integers]
"""For each seam of an axis the row of what begins there, and of what ends there; -1 where none."""


def grid_partition(
    grid: Grid,
    panels: Panels,
    costs: Numbers,
    weights: Weights,
    vertex_under_wall: Flags,
    images: Integers,
) -> SetPartition:
    """The set partition of a grid, its panels and their costs.

    Args:
        grid: The grid.
        panels: What may be chosen.
        costs: What each costs, mm of joint.
        weights: What each thing is worth.
        vertex_under_wall: Which vertices of the grid lie under a wall.
        images: For each panel the first of those that are chosen with it.
    """
    rows = Rows()
    pieces = _piece_columns(grid)
    sides = tuple(_rows_of_cells(rows, grid, pieces[axis], axis) for axis in (X, Y))
    after = sum(int((p >= 0).sum()) for p in pieces)
    tee_cost = _grid_tees(rows, grid, pieces, after, weights, vertex_under_wall)
    line_cost = _grid_lines(rows, grid, pieces, after + len(tee_cost), weights)
    starts, panel_rows = by_panel(*_entries(panels, (sides[X], sides[Y])), len(panels))
    return SetPartition(
        cost=np.concatenate([np.zeros(after), tee_cost, line_cost]),
        rows=rows,
        first_line=after + len(tee_cost),
        panel_cost=costs,
        starts=starts,
        panel_rows=panel_rows,
        images=images,
        area=panels.size[X] * panels.size[Y],
        single=panels.single,
    )


def _piece_columns(grid: Grid) -> tuple[Integers, Integers]:
    """The column of each interior piece of line; -1 where there is none."""
    out = []
    first = 0
    for axis in (X, Y):
        columns = np.full(grid.interior[axis].shape, -1)
        number = int(grid.interior[axis].sum())
        columns[grid.interior[axis]] = first + np.arange(number)
        first += number
        out.append(columns)
    return out[0], out[1]


def _rows_of_cells(rows: Rows, grid: Grid, pieces: Integers, axis: int) -> Sides:
    """What ends at a piece of line begins there: along a row, no gap and no overlap."""
    inside = grid.inside if axis == X else grid.inside.T
    out = []
    for side in (slice(None, -1), slice(1, None)):
        here = np.zeros(pieces.shape, dtype=bool)
        here[side] = inside
        index = np.full(pieces.shape, -1)
        fixed = np.where(pieces < 0, 1.0, 0.0)[here]
        first = rows.open(fixed, fixed, len(fixed))
        index[here] = first + np.arange(len(fixed))
        inner = here & (pieces >= 0)
        rows.put(index[inner], pieces[inner], -1.0)
        out.append(index)
    return out[0], out[1]


def _grid_tees(
    rows: Rows,
    grid: Grid,
    pieces: tuple[Integers, Integers],
    first: int,
    weights: Weights,
    under_wall: Flags,
) -> Numbers:
    """The cost of a column for each inner vertex, which is 1 where a joint stops there."""
    inside = np.pad(grid.inside, 1)
    inner = inside[:-1, :-1] & inside[1:, :-1] & inside[:-1, 1:] & inside[1:, 1:]
    i, j = np.nonzero(inner)
    column = first + np.arange(len(i))
    _tee_rows(rows, pieces[X][i, j], pieces[X][i, j - 1], column)
    _tee_rows(rows, pieces[Y][j, i], pieces[Y][j, i - 1], column)
    return feet(1.0) * np.where(under_wall[i, j], weights.tee_hidden, weights.tee)


def _grid_lines(
    rows: Rows, grid: Grid, pieces: tuple[Integers, Integers], first: int, weights: Weights
) -> Numbers:
    """The cost of a column for each line, which is 1 where any piece of it is a joint."""
    total = 0
    for axis in (X, Y):
        used = np.flatnonzero(grid.interior[axis].any(axis=1))
        column = np.full(len(grid.places[axis]), -1)
        column[used] = first + total + np.arange(len(used))
        line, piece = np.nonzero(grid.interior[axis])
        _line_rows(rows, pieces[axis][line, piece], column[line])
        total += len(used)
    return np.full(total, feet(weights.line))


def _entries(panels: Panels, sides: tuple[Sides, Sides]) -> tuple[Integers, Integers]:
    """The rows that panels stand in, as pairs (panel, row)."""
    which, row = [], []
    for axis in (X, Y):
        panel, piece = _along_sides(panels, axis)
        for table, line in zip(sides[axis], (panels.low[axis], panels.high[axis]), strict=True):
            which.append(panel)
            row.append(table[line[panel], piece])
    return np.concatenate(which), np.concatenate(row)


def _along_sides(panels: Panels, axis: int) -> tuple[Integers, Integers]:
    """For each panel the seams along its side on an axis, as (panel, seam) pairs."""
    low = panels.low[1 - axis]
    sizes = panels.high[1 - axis] - low
    which = np.repeat(np.arange(len(panels)), sizes)
    start = np.repeat(np.cumsum(sizes) - sizes, sizes)
    return which, np.repeat(low, sizes) + np.arange(len(which)) - start


def net_partition(
    problem: Problem, net: Net, panels: Sequence[CandidatePanel], images: Integers
) -> SetPartition:
    """The set partition of a net: of each seam, what lies on one side of it and does not reach over."""
    rows = Rows()
    prices = seam_prices(problem, net)
    panel, row = _panel_rows(rows, net, panels)
    tees = _net_tees(rows, problem, net, prices)
    lines = _net_lines(rows, problem, net, len(prices) + len(tees))
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
    holders = _holders(net, panels)
    reached = UnionFind(range(len(net.cells)))
    which: list[Integers] = []
    joints: list[int] = []
    values: list[float] = []
    for joint, seam in enumerate(net.seams):
        if seam.line == SETTLED:
            which.append(NOBODY)
            joints.append(joint)
            values.append(1.0)
            continue
        one, other = seam.cells
        apart = holders[one] != holders[other]
        sides = sorted((np.flatnonzero(apart & holders[n]) for n in (one, other)), key=len)
        known = reached[one] == reached[other]
        reached.union(one, other)
        needed = sides[:1] if known else sides
        which += needed
        joints += [joint] * len(needed)
        values += [-1.0] * len(needed)
    value, column = np.asarray(values), np.asarray(joints, dtype=np.int64)
    first = rows.open(np.maximum(value, 0.0), np.maximum(value, 0.0), len(value))
    for each in (1.0, -1.0):
        there = np.flatnonzero(value == each)
        rows.put(first + there, column[there], each)
    parts = sorted(map(sorted, reached.to_sets()))
    rows.open(1.0, 1.0, len(parts))
    which += [np.flatnonzero(holders[cells[0]]) for cells in parts]
    return np.concatenate(which), np.repeat(
        first + np.arange(len(which)), [len(members) for members in which]
    )


def _holders(net: Net, panels: Sequence[CandidatePanel]) -> Flags:
    """For each cell which panels hold it."""
    sizes = [len(panel.cells) for panel in panels]
    cells = np.fromiter(chain.from_iterable(panel.cells for panel in panels), np.int64, sum(sizes))
    out = np.zeros((len(net.cells), len(panels)), dtype=bool)
    out[cells, np.repeat(np.arange(len(panels)), sizes)] = True
    return out


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


def _net_tees(rows: Rows, problem: Problem, net: Net, prices: list[float]) -> list[float]:
    """A joint that stops at a node in the open is a tee; so is one that its neighbour does not meet.

    One that meets a neighbour's joint saves what it costs that nothing does.

    Returns:
        What each tee costs; those that one joint alone decides are added to its own price.
    """
    meetings: dict[tuple[int, int], list[int]] = {}
    for number, seam in enumerate(net.seams):
        for node in seam.nodes:
            meetings.setdefault((node, seam.line), []).append(number)
    met = _landed(problem, net)
    pairs: list[list[int]] = []
    costs: list[float] = []
    for (node, line), seams in sorted(meetings.items()):
        if line == SETTLED:
            continue
        hidden = bool(problem.walls) and problem.hides(net.nodes[node])
        price = feet(problem.weights.tee_hidden if hidden else problem.weights.tee)
        if len(seams) == PAIR and not net.edge[node]:
            pairs.append(seams)
            costs.append(price)
        elif len(seams) == 1 and node in met:
            prices[seams[0]] += -feet(problem.weights.landing) if met[node] else price
        elif len(seams) == 1 and not net.edge[node]:
            prices[seams[0]] += price
    one, other = np.array(pairs, dtype=np.int64).reshape(-1, PAIR).T
    _ending_rows(rows, one, other, len(prices))
    return [*costs, *costs]


def _landed(problem: Problem, net: Net) -> dict[int, bool]:
    """Nodes on the border with a neighbour, and whether a joint of the neighbour arrives there."""
    spots = shapely.points(net.nodes) if net.nodes else np.zeros(0, dtype=object)
    arrives = shapely.dwithin(shapely.MultiPoint(problem.landings), spots, MEETS)
    beside = shapely.dwithin(problem.border or shapely.Point(), spots, MEETS)
    return {int(n): bool(arrives[n]) for n in np.flatnonzero(arrives | beside)}


def _net_lines(rows: Rows, problem: Problem, net: Net, first: int) -> list[float]:
    """Every line that carries a joint is snapped once; what each costs."""
    line = np.array([s.line for s in net.seams], dtype=np.int64)
    seams = np.argsort(line, kind="stable")[int((line == SETTLED).sum()) :]
    used, number = np.unique(line[seams], return_inverse=True)
    _line_rows(rows, seams, first + number.reshape(-1))
    return [feet(problem.weights.line)] * len(used)
