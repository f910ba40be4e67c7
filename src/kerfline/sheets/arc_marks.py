"""Curves of the edge on the plan: radius, the centre that a string is held at, and stations along the arc."""

from collections.abc import Sequence
from itertools import chain

import shapely

from kerfline.geometry.corners import direction
from kerfline.geometry.ring import Point
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.curves import Curve, Line, stations_on
from kerfline.sheets.marks import Layer, Path
from kerfline.sheets.plan_labels import Labeller
from kerfline.sheets.running import dimension_text
from kerfline.sheets.spots import around
from kerfline.sheets.tie_marks import edge_spots

CROSS = 1.6
"""Half length of the cross at a centre, mm of paper."""


def label_curves(
    maker: Labeller, found: Sequence[Curve], lines: Sequence[Line], base: Baselines
) -> None:
    """Writes radius and centre beside each curve, marks the centre where it is in view, then the stations.

    Args:
        maker: Writes the labels.
        found: The curves.
        lines: The joints or cuts, whose ends have stations.
        base: What the centres are measured from.
    """
    for curve in found:
        if _sees(maker, curve.middle):
            _label(maker, curve, base)
    for curve in found:
        for _, along, end, inward in stations_on(curve, lines):
            if _sees(maker, end):
                _station(maker, along, end, inward)


def _sees(maker: Labeller, point: Point) -> bool:
    return bool(maker.view.window_box.covers(shapely.Point(maker.view.to_paper(point))))


def _label(maker: Labeller, curve: Curve, base: Baselines) -> None:
    at, centre = maker.view.to_paper(curve.middle), curve.arc.centre
    x, y = (dimension_text(offset, maker.display) for offset in base.local(centre))
    name = f"{curve.name} = {dimension_text(curve.arc.radius, maker.display)}"
    full = maker.text(Layer.DIMENSION, f"{name}, centre {x} right, {y} up", name)
    short = maker.text(Layer.DIMENSION, name, name)
    maker.put(name, chain(around(at, full), around(at, short)))
    spot = maker.view.to_paper(centre)
    if maker.view.window_box.covers(shapely.Point(spot)):
        for dx, dy in ((CROSS, 0.0), (0.0, CROSS)):
            tips = ((spot[0] - dx, spot[1] - dy), (spot[0] + dx, spot[1] + dy))
            maker.board.add(Path(layer=Layer.SYMBOL, points=tips, width=0.18, in_plan=True))


def _station(maker: Labeller, along: float, end: Point, inward: Point) -> None:
    """How far along its curve a joint ends, off the edge; where it finds no room the table of curves has it."""
    at = maker.view.to_paper(end)
    into = maker.view.to_paper((end[0] + inward[0], end[1] + inward[1]))
    way = direction(at, into)
    words = f"arc {dimension_text(along, maker.display)}"
    text = maker.text(Layer.DIMENSION, words, f"station {words}")
    spot = maker.placer.place(chain(edge_spots(at, (way[1], -way[0]), text), around(at, text)))
    if spot:
        maker.write(spot)
