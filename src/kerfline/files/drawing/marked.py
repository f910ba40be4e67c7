"""Openings that say so themselves: crossed out from corner to corner, or with a word inside.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

import re
from collections.abc import Sequence

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.files.drawing.curves import Curve, Label
from kerfline.files.drawing.names import decorates, elsewhere, part_named
from kerfline.files.drawing.names_abroad import speaks_of
from kerfline.files.drawing.opened import Drawing
from kerfline.geometry.ring import Ring

LEAST = 5e4
"""A marked figure of less (mm2, about 9 in square) is a sleeve or a symbol."""

MOST = 0.6
"""A figure of more than this share of the slab is no opening in it."""

REACH = 10.0
"""A line of a cross ends this near (mm) to the figure's edge."""

ACROSS = 0.7
"""A line of a cross is at least this long, as a share of the figure's diagonal."""

WORD = re.compile(r"\b(OPENING|OPNG|VOID|PIT|SHAFT|HOLE|SUMP|TRENCH|COURTYARD)\b")


def marked_openings(drawing: Drawing, outline: Ring) -> list[Ring]:
    """The figures in a slab on layers whose names do not say what they hold that are marked as openings."""
    layers = [
        n
        for n in drawing.layers
        if n not in drawing.hidden and not (decorates(n) or elsewhere(n) or part_named(n))
    ]
    rings = [r for n in layers for r in _rings(drawing, n)]
    slab = outline.polygon
    inside = [
        r for r in rings if LEAST <= r.polygon.area <= MOST * slab.area and slab.contains(r.polygon)
    ]
    curves = [c for n in layers for c in drawing.on(n)]
    return _outermost(marked(inside, curves, drawing.labels))


def marked(rings: Sequence[Ring], curves: Sequence[Curve], labels: Sequence[Label]) -> list[Ring]:
    """Those of some figures that are crossed out or hold a word for an opening."""
    lines = [c.path.line for c in curves if not c.path.closed and len(c.path.points) == 2]  # noqa: PLR2004
    said = [t for t in labels if WORD.search(t.text.upper()) or speaks_of("openings", t.text)]
    tree = shapely.STRtree(lines)
    words = shapely.STRtree([shapely.Point(t.at) for t in said])
    return [
        r
        for r in rings
        if len(words.query(r.polygon, "intersects"))
        or _crossed(r.polygon, [lines[i] for i in tree.query(r.polygon, "intersects")])
    ]


def _crossed(figure: Polygon, lines: Sequence[LineString]) -> bool:
    """Whether two lines cross in a figure, each from edge to edge across it."""
    x0, y0, x1, y1 = figure.bounds
    diagonal = float(np.hypot(x1 - x0, y1 - y0))
    near = figure.buffer(REACH)
    edge = figure.exterior
    long = [
        line
        for line in lines
        if line.length >= ACROSS * diagonal
        and near.covers(line)
        and all(edge.distance(shapely.Point(p)) <= REACH for p in line.coords)
        and not edge.buffer(REACH).covers(line)
    ]
    return any(a.crosses(b) for i, a in enumerate(long) for b in long[i + 1 :])


def _rings(drawing: Drawing, layer: str) -> list[Ring]:
    """The closed figures of a layer: those drawn as such, and larger ones of loose lines."""
    closed = [c.path.ring() for c in drawing.on(layer) if c.path.closed]
    return [r for r in (*closed, *drawing.outlines(layer)) if r.polygon.is_valid]


def _outermost(rings: Sequence[Ring]) -> list[Ring]:
    """The figures that lie in no other one, each once."""
    kept: list[Ring] = []
    for ring in sorted(rings, key=lambda r: (-round(r.polygon.area), r.polygon.bounds)):
        if not any(k.polygon.buffer(1.0).intersects(ring.polygon) for k in kept):
            kept.append(ring)
    return kept
