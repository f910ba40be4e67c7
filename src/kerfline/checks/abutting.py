"""Joints held against those of the slab next door: a crack goes on where a joint stops."""

from collections.abc import Iterator, Sequence

import shapely
from shapely import LineString

from kerfline.checks.measures import Measures, measures_of
from kerfline.checks.sources import MISMATCH
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point, Ring, flatten_arc
from kerfline.geometry.tolerance import MEASURE
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.layout import Layout
from kerfline.model.slab import EdgeKind, Slab
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import Display

MATCHED = 25.4
"""Joints that meet the shared edge within this (mm, 1 in) of each other match (common practice)."""

TIED = (EdgeKind.CONSTRUCTION, EdgeKind.CONTINUOUS)
"""Edges that pass a neighbour's crack on; a bond breaker of 1/4 in (6 mm) stops it: ``isolated``."""


def abutting(
    slab: Slab,
    layout: Layout,
    neighbour: Sequence[LineString],
    rules: SlabRules,
    display: Display,
) -> tuple[Finding, ...]:
    """Holds the joints that end on shared edges against those of the neighbouring slab.

    Args:
        slab: The slab; its ``construction`` and ``continuous`` edges are the shared ones.
        layout: Its layout.
        neighbour: Joints (or cracks) of the neighbour, in mm, drawn up to the shared edge.
        rules: The limits, for the measures.
        display: How lengths are written in messages.

    Returns:
        Findings of the rule ``edge``: a warning for each of the neighbour's joints that meets none of
        ours, advice for each of ours that meets none of the neighbour's.
    """
    measures = measures_of(slab, layout, rules, display)
    shared = shapely.union_all(_shared_edges(slab))
    theirs = _landings(shared, neighbour)
    ours = [
        (node.at, measures.joints[node.joints[0].joint].id)
        for node in (measures.net.nodes[i] for i in measures.net.landing_nodes)
        if shared.distance(shapely.Point(node.at)) <= MATCHED + MEASURE
    ]
    return (
        *_unmet(measures, theirs, [at for at, _ in ours]),
        *_unanswered(measures, ours, theirs),
    )


def _shared_edges(slab: Slab) -> list[LineString]:
    rings = (slab.outline, *slab.openings)
    return [_segment(rings[e.ring], e.segment) for e in slab.edges if e.kind in TIED]


def _segment(ring: Ring, index: int) -> LineString:
    start, end = ring.points[index], ring.points[(index + 1) % len(ring.points)]
    bulge = ring.bulge(index)
    return LineString(flatten_arc(start, end, bulge) if bulge else [start, end])


def _landings(shared: shapely.Geometry, lines: Sequence[LineString]) -> list[Point]:
    """Where the neighbour's joints meet the shared edges."""
    return [
        (float(x), float(y))
        for line in lines
        for part in lines_of(line)
        for x, y in (part.coords[0], part.coords[-1])
        if shapely.distance(shared, shapely.Point(x, y)) <= MATCHED
    ]


def _unmet(measures: Measures, theirs: Sequence[Point], ours: Sequence[Point]) -> Iterator[Finding]:
    words = measures.words
    places = shapely.MultiPoint(ours)
    for at in theirs:
        miss = _miss(places, at)
        if miss is None or miss > MATCHED + MEASURE:
            yield _finding(
                measures,
                at,
                f"edge at {words.place(at)}",
                Severity.WARNING,
                miss,
                f"A joint of the neighbouring slab meets the edge at {words.place(at)} and no joint of ours "
                f"goes on from there{_by(measures, miss)}.",
            )


def _unanswered(
    measures: Measures, ours: Sequence[tuple[Point, str]], theirs: Sequence[Point]
) -> Iterator[Finding]:
    words = measures.words
    places = shapely.MultiPoint(theirs)
    for at, name in ours:
        miss = _miss(places, at)
        if miss is None or miss > MATCHED + MEASURE:
            yield _finding(
                measures,
                at,
                name,
                Severity.ADVICE,
                miss,
                f"{name} ends on the neighbouring slab at {words.place(at)}, which has no joint there"
                f"{_by(measures, miss)}.",
            )


def _miss(places: shapely.MultiPoint, at: Point) -> float | None:
    return None if places.is_empty else float(places.distance(shapely.Point(at)))


def _by(measures: Measures, miss: float | None) -> str:
    return "" if miss is None else f"; the nearest is {measures.words.length(miss)} away"


def _finding(
    measures: Measures,
    at: Point,
    subject: str,
    severity: Severity,
    miss: float | None,
    message: str,
) -> Finding:
    back, filler = measures.words.either("3 ft", "0.9 m"), measures.words.either("1/4 in", "6 mm")
    return Finding(
        rule=Rule.EDGE,
        severity=severity,
        at=at,
        subject=subject,
        measured=miss,
        limit=MATCHED,
        message=message,
        source=str(MISMATCH),
        remedy="Line the joints up, part the slabs by a bond breaker of "
        f"{filler} or more, or reinforce the facing slab (0.05 % both ways, {back} back from the edge).",
    )
