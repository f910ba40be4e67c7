"""Lays out one piece along the lines of one chart: candidate lines, net, panels, cover, joints."""

from collections.abc import Sequence

import shapely
from shapely import LineString, Polygon

from kerfline.engine.oblique.blocks import choices
from kerfline.engine.oblique.charts import Chart
from kerfline.engine.oblique.cost import shape_of, within_span
from kerfline.engine.oblique.cover import Answer, cover
from kerfline.engine.oblique.ground import Ground, Pieces
from kerfline.engine.oblique.halving import halve
from kerfline.engine.oblique.net import REQUIRED, Net, net_of
from kerfline.engine.oblique.stations import Station, stations
from kerfline.engine.options import Weights
from kerfline.engine.region import Cut
from kerfline.geometry.faces import lines_of
from kerfline.model.layout import Reason

NOTES = {
    Reason.SPAN: "open floor",
    Reason.CORNER: "re-entrant corner at {at}",
    Reason.WALL: "in line with a wall",
    Reason.COLUMN: "column",
    Reason.PENETRATION: "penetration",
}


def charted(
    ground: Ground, chart: Chart, required: Sequence[LineString], weights: Weights
) -> Pieces | None:
    """The best layout along a chart's candidate lines; None where the search found none."""
    firsts, seconds = _lines(ground, chart)
    net = net_of(ground.concrete, chart, firsts, seconds, required)
    panels = choices(ground, net)
    answer = cover(ground, net, panels, weights)
    if answer is None:
        return None
    kept: list[Polygon] = []
    extra: list[Cut] = []
    cost = answer.cost
    for number in answer.chosen:
        polygon = panels[number].polygon
        if within_span(shape_of(polygon, ground.limits.angle), ground.limits):
            kept.append(polygon)
            continue
        divided = halve(ground, polygon)
        kept.extend(divided.panels)
        extra.extend(divided.cuts)
        cost += divided.cost - panels[number].cost
    return Pieces(
        panels=tuple(kept),
        cuts=(*_cuts(net, answer), *extra),
        cost=cost,
        bound=min(answer.bound, cost),
    )


def _lines(ground: Ground, chart: Chart) -> tuple[tuple[Station, ...], tuple[Station, ...]]:
    """Candidate lines of both axes, each once more with the other's known."""
    firsts = stations(ground, chart, 0)
    seconds = stations(ground, chart, 1, firsts)
    return stations(ground, chart, 0, seconds), seconds


def _cuts(net: Net, answer: Answer) -> list[Cut]:
    """The chosen seams of each line as saw passes."""
    out = []
    for line, station in enumerate(net.lines):
        members = [
            s.path
            for s, on in zip(net.seams, answer.seams, strict=True)
            if on and s.line == line != REQUIRED
        ]
        for part in lines_of(shapely.line_merge(shapely.union_all(members))):
            path = tuple((float(x), float(y)) for x, y in part.simplify(0.0).coords)
            out.append(Cut(path=path, reason=station.reason, note=NOTES[station.reason]))
    return out
