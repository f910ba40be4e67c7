"""Joints under walls: what they are worth to the panels beside them, and their names afterwards."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely import LineString

from kerfline.engine.arrays import Numbers
from kerfline.engine.lines.charts import Chart, SquareChart
from kerfline.engine.partition.net import SETTLED, Net
from kerfline.engine.problem import PieceLayout, Problem
from kerfline.engine.regions.asking import AskingLine
from kerfline.engine.regions.region import Cut
from kerfline.engine.regions.walls import SQUARE
from kerfline.geometry.corners import direction
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.layout import Reason
from kerfline.units import enumerated


def settled_on(problem: Problem, chart: Chart) -> tuple[Problem, tuple[Cut, ...]]:
    """A piece as a chart sees it, and the joints that are settled there: under all walls where it turns."""
    if not problem.walls or (isinstance(chart, SquareChart) and chart.turn == 0.0):
        return problem, ()
    return firmed(problem)


def firmed(problem: Problem) -> tuple[Problem, tuple[Cut, ...]]:
    """A piece without a choice, and the joints under its walls."""
    known = tuple(AskingLine(name="", path=LineString(c.path)) for c in problem.under)
    return replace(problem, lines=(*problem.lines, *known), walls=(), under=()), problem.under


def with_cuts(pieces: PieceLayout, cuts: Sequence[Cut]) -> PieceLayout:
    """A layout with the joints that were settled for it."""
    length = sum(LineString(c.path).length for c in cuts)
    return replace(
        pieces,
        cuts=(*cuts, *pieces.cuts),
        cost=pieces.cost + length,
        bound=pieces.bound + length if pieces.bound else 0.0,
    )


def walls_on(walls: Sequence[AskingLine], net: Net) -> list[tuple[int, int, float]]:
    """For each seam under a wall its two cells, the lesser first, and the length of wall (mm) over it."""
    return [
        (min(seam.cells), max(seam.cells), float(length))
        for seam, length in zip(net.seams, _lengths_under(walls, net), strict=True)
        if length > SAME and seam.line != SETTLED
    ]


def hidden_lengths(problem: Problem, net: Net) -> Numbers:
    """For each seam the length of wall (mm) that runs along over it."""
    return _lengths_under(problem.walls, net)


def _lengths_under(walls: Sequence[AskingLine], net: Net) -> Numbers:
    out = np.zeros(len(net.seams))
    if not walls or not net.seams:
        return out
    paths = np.asarray([s.path for s in net.seams])
    tree = shapely.STRtree(paths)
    for wall in walls:
        band = wall.path.buffer(wall.slack + TOUCH, cap_style="flat")
        for n in tree.query(band).tolist():
            if _runs_along(wall.path, paths[n]):
                out[n] = max(out[n], float(paths[n].intersection(band).length))
    return out


def _runs_along(wall: LineString, seam: LineString) -> bool:
    a, b = _way(wall), _way(seam)
    return abs(a[0] * b[1] - a[1] * b[0]) <= SQUARE


def _way(line: LineString) -> Point:
    (x0, y0), (x1, y1) = line.coords[0][:2], line.coords[-1][:2]
    return direction((x0, y0), (x1, y1))


def named_under(cuts: Sequence[Cut], lines: Sequence[AskingLine]) -> tuple[Cut, ...]:
    """The cuts, those that lie under walls with that as their reason."""
    return tuple(_named(cut, lines) for cut in cuts)


def _named(cut: Cut, lines: Sequence[AskingLine]) -> Cut:
    if cut.reason in (Reason.PINNED, Reason.FOUND, Reason.ZONE, Reason.PATTERN):
        return cut
    under = [line for line in lines if _covers(line, LineString(cut.path))]
    if not under:
        return cut
    names = sorted({line.name for line in under}, key=lambda n: (len(n), n))
    word = "walls" if len(names) > 1 else "wall"
    return replace(cut, reason=Reason.WALL, note=f"under {word} {enumerated(names)}", at=None)


def _covers(wall: AskingLine, joint: LineString) -> bool:
    """Whether a joint lies under most of a wall, or a wall over most of a joint."""
    band = wall.path.buffer(wall.slack + TOUCH, cap_style="flat")
    under = lines_of(joint.intersection(band))
    long = sum(x.length for x in under if _runs_along(wall.path, x))
    return long > 0.5 * min(wall.path.length, joint.length)
