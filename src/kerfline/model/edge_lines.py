"""The edges of one kind as lines."""

from shapely import LineString

from kerfline.geometry.ring import flatten_arc
from kerfline.model.slab import EdgeKind, Slab


def edge_lines(slab: Slab, kind: EdgeKind) -> list[LineString]:
    """The edges of the outline and openings that are of a kind, one line a segment."""
    rings = (slab.outline, *slab.openings)
    out = []
    for edge in slab.edges:
        if edge.kind is not kind:
            continue
        ring = rings[edge.ring]
        start = ring.points[edge.segment]
        end = ring.points[(edge.segment + 1) % len(ring.points)]
        bulge = ring.bulge(edge.segment)
        out.append(LineString(flatten_arc(start, end, bulge) if bulge else [start, end]))
    return out
