"""Lays out one piece along the lines of one chart: candidate lines, net, panels, cover, joints."""

from collections.abc import Sequence

import shapely
from shapely import LineString, Polygon

from kerfline.engine.oblique.blocks import Choice, choices
from kerfline.engine.oblique.charts import Chart, SquareChart
from kerfline.engine.oblique.cover import Answer, cover, seam_prices
from kerfline.engine.oblique.dominated import undominated
from kerfline.engine.oblique.ends import path_of
from kerfline.engine.oblique.ground import Ground, Pieces
from kerfline.engine.oblique.halving import CORNER_NOTE, halve
from kerfline.engine.oblique.hidden import settled_on, with_cuts
from kerfline.engine.oblique.mirrors import paired
from kerfline.engine.oblique.net import REQUIRED, Net, net_of
from kerfline.engine.oblique.runs import extent
from kerfline.engine.oblique.stations import Station, stations
from kerfline.engine.oblique.symmetric import is_diagonal
from kerfline.engine.partition.shape import shape_of
from kerfline.engine.region import Cut
from kerfline.geometry.corners import reentrant_corners
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.layout import Reason

NOTES = {
    Reason.SPAN: "open floor",
    Reason.WALL: "in line with a wall",
    Reason.COLUMN: "column",
    Reason.PENETRATION: "penetration",
    Reason.PATTERN: "pattern",
}


def charted(ground: Ground, chart: Chart, required: Sequence[LineString]) -> Pieces | None:
    """The best layout along a chart's candidate lines; None where the search found none."""
    ready, own = settled_on(ground, chart)
    firsts, seconds = candidate_lines(ready, chart)
    lines = [*required, *(LineString(c.path) for c in own)]
    net = net_of(ground.concrete, chart, firsts, seconds, lines)
    answer = best_of(ready, net, choices(ready, net))
    return with_cuts(answer, own) if answer and own else answer


def best_of(ground: Ground, net: Net, panels: Sequence[Choice]) -> Pieces | None:
    """The cheapest cover of a net by some of its panels, those over the span divided further."""
    prices = seam_prices(ground, net)
    symmetric = paired(ground, net, panels, prices)
    answer = None
    if symmetric is not None:
        answer = cover(ground, net, symmetric.choices, symmetric.firsts)
        panels = symmetric.choices if answer else panels
    if answer is None:
        panels = undominated(net, panels, prices, ground.weights)
        answer = cover(ground, net, panels)
    if answer is None:
        return None
    kept: list[Polygon] = []
    extra: list[Cut] = []
    cost = answer.cost
    for number in answer.chosen:
        polygon = panels[number].polygon
        if ground.holds(shape_of(polygon, ground.limits.angle)):
            kept.append(polygon)
            continue
        divided = halve(ground, polygon)
        kept.extend(divided.panels)
        extra.extend(divided.cuts)
        cost += divided.cost - panels[number].cost
    return Pieces(
        panels=tuple(kept),
        cuts=(*_cuts(ground, net, answer), *extra),
        cost=cost,
        bound=min(answer.bound, cost),
    )


def candidate_lines(
    ground: Ground, chart: Chart
) -> tuple[tuple[Station, ...], tuple[Station, ...]]:
    """Candidate lines of both axes, each once more with the other's known."""
    firsts = stations(ground, chart, 0)
    seconds = stations(ground, chart, 1, firsts)
    firsts = stations(ground, chart, 0, seconds)
    if isinstance(chart, SquareChart) and is_diagonal(ground.concrete, chart.turn):
        seconds = _swapped(ground, chart, firsts)
    return firsts, seconds


def _swapped(ground: Ground, chart: Chart, lines: Sequence[Station]) -> tuple[Station, ...]:
    """The images of the first axis's lines across the diagonal of a piece's box."""
    (low_u, _), (low_v, _) = (extent(ground.concrete, chart, axis) for axis in (0, 1))
    return tuple(
        Station(tuple((v - low_v + low_u, u - low_u + low_v) for u, v in line.through), line.reason)
        for line in lines
    )


def _cuts(ground: Ground, net: Net, answer: Answer) -> list[Cut]:
    """The chosen seams of each line as saw passes."""
    corners = [c.at for c in reentrant_corners(ground.concrete)]
    out = []
    for line, station in enumerate(net.lines):
        members = [
            s.path
            for s, on in zip(net.seams, answer.seams, strict=True)
            if on and s.line == line != REQUIRED
        ]
        passes = lines_of(shapely.line_merge(shapely.union_all(members)).simplify(SAME))
        out += [_cut(part, station.reason, corners) for part in passes]
    return out


def _cut(path: LineString, reason: Reason, corners: Sequence[Point]) -> Cut:
    """A joint with its reason in words: a corner only where the joint touches one."""
    met = [at for at in corners if path.distance(shapely.Point(at)) <= TOUCH]
    if met:
        return Cut(path=path_of(path), reason=Reason.CORNER, note=CORNER_NOTE, at=met[0])
    reason = Reason.SPAN if reason is Reason.CORNER else reason
    return Cut(path=path_of(path), reason=reason, note=NOTES[reason])
