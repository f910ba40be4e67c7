"""Openings that say so themselves: crossed out from corner to corner, or with a word inside.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

import math
import re
from collections import Counter
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

SYMBOL = 750.0
"""Crossed circles of up to this (mm, 30 in) across that are all alike are lamps and detectors, not openings."""

SYMBOLS = 4
"""As many of them as that; fewer may be sumps."""

ROUND = 0.97
"""A figure that fills this share of the circle around it is round."""

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
    named = [r for r in rings if len(words.query(r.polygon, "intersects"))]
    crossed = [
        r
        for r in rings
        if r not in named
        and _crossed(r.polygon, [lines[i] for i in tree.query(r.polygon, "intersects")])
    ]
    return [*named, *_no_symbols(crossed)]


def _no_symbols(crossed: Sequence[Ring]) -> list[Ring]:
    """Crossed figures without those that are the sign for a lamp or a detector: small circles, many of one size."""
    across = [_diameter(r.polygon) for r in crossed]
    places = {
        (round(d), *np.round(r.polygon.bounds).tolist())
        for r, d in zip(crossed, across, strict=True)
        if 0 < d <= SYMBOL
    }
    often = Counter(place[0] for place in places)
    return [r for r, d in zip(crossed, across, strict=True) if often[round(d)] < SYMBOLS]


def _diameter(figure: Polygon) -> float:
    """Diameter of a round figure, mm; 0 where it is not round."""
    across = 2 * float(shapely.minimum_bounding_radius(figure))
    return across if figure.area >= ROUND * math.pi * across**2 / 4 else 0.0


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
