"""Curves of the edge on the plan: radius, and the centre that a string is held at."""

from itertools import chain

import shapely

from kerfline.geometry.ring import Point, Ring, arc_of
from kerfline.model.slab import Slab
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.marks import Layer, Path
from kerfline.sheets.plan_labels import Labeller
from kerfline.sheets.running import dimension_text
from kerfline.sheets.spots import around

LEAST_RADIUS = 300.0
"""A curve of less radius (mm) is a rounded corner, which the form gives."""

CROSS = 1.6
"""Half length of the cross at a centre, mm of paper."""

SAME_ARC = 5.0
"""Arcs whose centres and radii agree within this (mm) are one curve."""


def label_arcs(maker: Labeller, slab: Slab, base: Baselines) -> None:
    """Writes radius and centre beside each curve of the edge, once, and marks the centre where it is in view."""
    told: list[tuple[float, float, float]] = []
    for ring in (slab.outline, *slab.openings):
        for middle, centre, radius in _arcs(ring):
            key = (*centre, radius)
            known = any(
                max(abs(a - b) for a, b in zip(key, k, strict=True)) < SAME_ARC for k in told
            )
            at = maker.view.to_paper(middle)
            if (
                known
                or radius < LEAST_RADIUS
                or not maker.view.window_box.covers(shapely.Point(at))
            ):
                continue
            told.append(key)
            _label(maker, at, centre, radius, base)


def _label(maker: Labeller, at: Point, centre: Point, radius: float, base: Baselines) -> None:
    x, y = (dimension_text(offset, maker.display) for offset in base.local(centre))
    name = f"R {dimension_text(radius, maker.display)}"
    full = maker.text(Layer.DIMENSION, f"{name}, centre {x} right, {y} up", name)
    short = maker.text(Layer.DIMENSION, name, name)
    maker.put(name, chain(around(at, full), around(at, short)))
    spot = maker.view.to_paper(centre)
    if maker.view.window_box.covers(shapely.Point(spot)):
        for dx, dy in ((CROSS, 0.0), (0.0, CROSS)):
            tips = ((spot[0] - dx, spot[1] - dy), (spot[0] + dx, spot[1] + dy))
            maker.board.add(Path(layer=Layer.SYMBOL, points=tips, width=0.18, in_plan=True))


def _arcs(ring: Ring) -> list[tuple[Point, Point, float]]:
    """Middle, centre and radius of each arc of a ring."""
    count = len(ring.points)
    found = []
    for i, start in enumerate(ring.points):
        bulge = ring.bulge(i)
        if bulge:
            arc = arc_of(start, ring.points[(i + 1) % count], bulge)
            found.append((arc.at(0.5), arc.centre, arc.radius))
    return found
