"""Ties: where slanting lines start, bend and end, taped straight from lettered corners of the concrete."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import shapely
from shapely import LineString, MultiPolygon, Polygon

from kerfline.geometry.corners import direction
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.edges import FormEdge, form_edges
from kerfline.sheets.loose import faces_of, loose_points, on_running
from kerfline.sheets.pegs import Peg, Pegs, TieSpot

AT_CORNER = 6.0
"""A line that ends this near (mm) to a corner ends at it."""

Line = tuple[str, LineString]


@dataclass(frozen=True, kw_only=True)
class Tie:
    """A point of a line and the tapes that find it.

    Attributes:
        line: Id of the line.
        at: The point in mm.
        tapes: Corners with their distances in mm: one where the point lies on an edge or another line, two
            where both tapes meet.
        inward: Unit vector from the point into its line.
        along: Unit vector along the edge that the point lies on, the concrete on its left; None inside.
    """

    line: str
    at: Point
    tapes: tuple[tuple[Peg, float], ...]
    inward: Point
    along: Point | None = None


@dataclass(frozen=True)
class Ties:
    """What a plan needs so that its slanting lines can be snapped.

    Attributes:
        pegs: The lettered corners, A left out.
        points: The points.
    """

    pegs: tuple[Peg, ...] = ()
    points: tuple[Tie, ...] = ()


def ties(
    concrete: Polygon | MultiPolygon,
    lines: Sequence[Line],
    base: Baselines,
    others: Sequence[LineString] = (),
    corner: str = "A",
) -> Ties:
    """Ties for the lines that the running dimensions do not hold.

    Args:
        concrete: What is shown, openings and boxouts left out.
        lines: Ids and lines that are snapped, in mm.
        base: What the running dimensions start from.
        others: Further lines that lines may end on.
        corner: Name of the corner where the baselines meet.
    """
    edges = form_edges(concrete)
    spots = _spots(edges, lines, base, others)
    pegs = Pegs(edges, base)
    found = {spot.at: pegs.on_edge(spot) for spot in _by_edge(spots)}
    points = [(s, found.get(s.at) or pegs.on_line(s) or pegs.crossing(s)) for s in spots]
    letters = pegs.lettered(corner)
    return Ties(
        pegs=tuple(p for p in letters.values() if p.letter != corner),
        points=tuple(
            Tie(
                line=spot.line,
                at=spot.at,
                tapes=tuple((letters[at], math.dist(at, spot.at)) for at in held),
                inward=spot.inward,
                along=spot.edge.way_at(spot.at) if spot.edge else None,
            )
            for spot, held in points
            if held
        ),
    )


def _spots(
    edges: Sequence[FormEdge], lines: Sequence[Line], base: Baselines, others: Sequence[LineString]
) -> list[TieSpot]:
    """The starts, knees and ends that lie on no corner, each once."""
    corners = shapely.MultiPoint(sorted({edge.points[0] for edge in edges if edge.cornered}))
    faces = faces_of(edges, base)
    drawn = [*(line for _, line in lines), *others]
    edge_tree, line_tree = shapely.STRtree([e.line for e in edges]), shapely.STRtree(drawn)
    seen: set[tuple[int, int]] = set()
    out = []
    for ref, line in lines:
        for point in loose_points(line, base, faces):
            spot = shapely.Point(point.at)
            key = (round(point.at[0]), round(point.at[1]))
            if key in seen or corners.distance(spot) <= AT_CORNER or on_running(point, base):
                continue
            seen.add(key)
            on = sorted(edge_tree.query(spot, predicate="dwithin", distance=TOUCH).tolist())
            met = sorted(line_tree.query(spot, predicate="dwithin", distance=TOUCH).tolist())
            out.append(
                TieSpot(
                    line=ref,
                    at=point.at,
                    inward=point.inward,
                    edge=edges[on[0]] if on else None,
                    carrier=point.along or _carrier(line, spot, [drawn[k] for k in met]),
                )
            )
    return out


def _carrier(line: LineString, spot: shapely.Point, met: Iterable[LineString]) -> Point | None:
    """Direction of the line that a point lies on the inside of."""
    for other in met:
        if other is not line and TOUCH < other.project(spot) < other.length - TOUCH:
            legs = (LineString(leg) for leg in pairwise(other.coords))
            leg = min(legs, key=lambda leg: leg.distance(spot))
            (x0, y0), (x1, y1) = leg.coords
            return direction((x0, y0), (x1, y1))
    return None


def _by_edge(spots: Sequence[TieSpot]) -> list[TieSpot]:
    """The points on edges, those of the fullest edge first."""
    counts: dict[int, int] = {}
    for spot in spots:
        counts[id(spot.edge)] = counts.get(id(spot.edge), 0) + 1
    on_edges = [spot for spot in spots if spot.edge]
    return sorted(on_edges, key=lambda s: -counts[id(s.edge)])
