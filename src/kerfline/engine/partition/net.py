"""The net that candidate lines and settled joints draw on a piece: cells, and the seams between them."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.engine.lines.candidates import CandidateLine
from kerfline.engine.lines.charts import Chart, boxes_in
from kerfline.engine.regions.features import AskingLine
from kerfline.geometry.arrays import Numbers, Shapes
from kerfline.geometry.faces import SLIVER, lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME

SETTLED = -1
"""Line number of a seam that is a joint already."""

TWO = 2
"""Cells beside a seam."""

STUB = 1.0
"""Seams shorter than this (mm) are rounding."""


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell of the net.

    Attributes:
        polygon: Its outline.
        index: How many candidate lines of each axis lie before it.
        box: Its least and greatest coordinates in the chart.
    """

    polygon: Polygon
    index: tuple[int, int]
    box: tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Seam:
    """A piece of a line between two cells.

    Attributes:
        path: The piece.
        line: Number of its candidate line, those of the first axis before those of the second;
            ``SETTLED`` where it is a joint already.
        cells: The cells on its sides.
        nodes: Its ends, as numbers of nodes.
    """

    path: LineString
    line: int
    cells: tuple[int, int]
    nodes: tuple[int, int]


@dataclass(frozen=True)
class Net:
    """Cells and seams.

    Attributes:
        chart: The chart.
        lines: The candidate lines: those of the first axis, then those of the second.
        cells: The cells, which tile the piece.
        seams: The seams between them.
        nodes: The places where seams end.
        edge: For each node whether it lies on the boundary of the piece.
    """

    chart: Chart
    lines: tuple[CandidateLine, ...]
    cells: tuple[Cell, ...]
    seams: tuple[Seam, ...]
    nodes: tuple[Point, ...]
    edge: tuple[bool, ...]

    @cached_property
    def neighbours(self) -> tuple[frozenset[int], ...]:
        """For each cell the cells that it may share a panel with."""
        beside: list[set[int]] = [set() for _ in self.cells]
        for seam in self.seams:
            if seam.line != SETTLED and seam.path.length > STUB:
                first, second = seam.cells
                beside[first].add(second)
                beside[second].add(first)
        return tuple(frozenset(b) for b in beside)


def net_of(
    piece: Polygon,
    chart: Chart,
    firsts: Sequence[CandidateLine],
    seconds: Sequence[CandidateLine],
    settled: Sequence[LineString],
) -> Net:
    """Draws the net.

    Args:
        piece: The concrete.
        chart: The chart of the candidate lines.
        firsts: Candidate lines of the first axis, in order.
        seconds: Candidate lines of the second axis, in order.
        settled: Joints that are settled, from edge or joint to edge or joint.
    """
    curves = [
        *(chart.curve(s.through) for s in firsts),
        *(chart.curve(s.through) for s in seconds),
    ]
    linework = shapely.union_all([piece.boundary, *curves, *settled], grid_size=SAME / 10)
    polygons = _cells_in(piece, linework)
    cells = _cells(polygons, chart, firsts, seconds)
    seams, nodes, edge = _seams(piece, linework, polygons, curves, settled)
    return Net(chart, (*firsts, *seconds), cells, seams, nodes, edge)


def _cells_in(piece: Polygon, linework: shapely.Geometry) -> list[Polygon]:
    found = shapely.get_parts(shapely.polygonize([linework]))
    shapely.prepare(piece)
    inside = shapely.contains_properly(piece, shapely.point_on_surface(found))
    return [p for p, yes in zip(found, inside, strict=True) if yes and p.area > SLIVER]


def _cells(
    polygons: Sequence[Polygon],
    chart: Chart,
    firsts: Sequence[CandidateLine],
    seconds: Sequence[CandidateLine],
) -> tuple[Cell, ...]:
    """The faces of the net, each with the lines before it and its box."""
    spots = chart.measure(shapely.get_coordinates(shapely.point_on_surface(polygons)))
    before = zip(_before(firsts, spots, 0), _before(seconds, spots, 1), strict=True)
    boxes = boxes_in(chart, polygons, spots[:, 0])
    return tuple(
        Cell(polygon, index, box)
        for polygon, index, box in zip(polygons, before, boxes, strict=True)
    )


def _before(lines: Sequence[CandidateLine], spots: Numbers, axis: int) -> list[int]:
    """For each spot how many lines of an axis lie before it."""
    count = np.zeros(len(spots), dtype=int)
    for line in lines:
        count += line.position(axis, spots[:, 1 - axis]) < spots[:, axis]
    return [int(n) for n in count]


def _seams(
    piece: Polygon,
    linework: shapely.Geometry,
    polygons: Sequence[Polygon],
    curves: Sequence[LineString],
    settled: Sequence[LineString],
) -> tuple[tuple[Seam, ...], tuple[Point, ...], tuple[bool, ...]]:
    """The pieces of line with a cell on either side, and the nodes they end in."""
    parts = lines_of(linework)
    middles = shapely.line_interpolate_point(parts, 0.5, normalized=True)
    rounded = _ends(parts)
    beside = _hits(polygons, middles)
    under = _hits([*curves, *settled], middles)
    numbers: dict[tuple[float, float], int] = {}
    seams = []
    for part, spots, cells, lines in zip(parts, rounded, beside, under, strict=True):
        if len(cells) != TWO or not lines:
            continue
        line = SETTLED if lines[-1] >= len(curves) else lines[0]
        ends = tuple(numbers.setdefault(spot, len(numbers)) for spot in spots)
        seams.append(Seam(part, line, (cells[0], cells[1]), (ends[0], ends[1])))
    nodes = tuple(numbers)
    boundary = piece.boundary
    edge = shapely.dwithin(boundary, shapely.points(nodes), TWO * SAME) if nodes else np.zeros(0)
    return tuple(seams), nodes, tuple(bool(e) for e in edge)


def _ends(parts: Sequence[LineString]) -> list[tuple[Point, Point]]:
    """Both ends of each line, to a hundredth of a millimetre."""
    points, line = shapely.get_coordinates(parts, return_index=True)
    first = np.flatnonzero(np.diff(line, prepend=-1))
    last = np.append(first[1:], len(points)) - 1
    found = zip(points[first].tolist(), points[last].tolist(), strict=True)
    return [
        ((round(x0, 2), round(y0, 2)), (round(x1, 2), round(y1, 2))) for (x0, y0), (x1, y1) in found
    ]


def _hits(shapes: Sequence[shapely.Geometry], spots: Shapes) -> list[list[int]]:
    """For each spot the shapes that it touches, in order."""
    tree = shapely.STRtree(shapes)
    pairs = tree.query(spots, predicate="dwithin", distance=SAME / 2)
    out: list[list[int]] = [[] for _ in spots]
    for spot, shape in sorted(zip(*pairs.tolist(), strict=True)):
        out[spot].append(shape)
    return out


def lengths_under(
    walls: Sequence[AskingLine], net: Net, rates: Sequence[float] | None = None
) -> Numbers:
    """For each seam the length of wall (mm) that runs along over it, times the rate of that wall where there are any."""
    out = np.zeros(len(net.seams))
    if not walls or not net.seams:
        return out
    paths = np.asarray([s.path for s in net.seams])
    tree = shapely.STRtree(paths)
    for wall, rate in zip(walls, rates or [1.0] * len(walls), strict=True):
        for n in tree.query(wall.band).tolist():
            if wall.runs_along(paths[n]):
                out[n] = max(out[n], rate * float(paths[n].intersection(wall.band).length))
    return out
