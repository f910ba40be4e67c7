"""Relief cuts: when sawing must wait, the slab is first halved, then halved again.

Sources: relief joints about every 60 ft (18 m) first, the rest as soon as may be (trade article and tips, 60
to 100 ft); the joint nearest mid-length first, in a question about a cold night on a slab 46 x 90 ft.
"""

import math
from collections.abc import Sequence

import shapely
from shapely import MultiPolygon, Polygon

from kerfline.geometry.corners import angle_between, direction
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.placement.panel_graph import ends_of
from kerfline.placement.window import LineWindow
from kerfline.units import MM_PER_FOOT

RELIEF_SPACING = 60 * MM_PER_FOOT
"""Stretch (mm) that may wait between relief cuts."""

ACROSS = 30.0
"""A line within this (degrees) of square to the long side cuts across it."""


def relief_first(
    ordered: Sequence[LineWindow], area: Polygon | MultiPolygon
) -> tuple[list[LineWindow], frozenset[str]]:
    """Puts the relief cuts of one placement first.

    Args:
        ordered: The lines in the order of placing.
        area: The placement that they lie in.

    Returns:
        The lines, relief cuts first, and the ids of the joints that are relief cuts.
    """
    solid = max(polygons_of(area.convex_hull), key=lambda p: p.area)
    box = enclosing_rectangle(solid)
    axis = (math.cos(math.radians(box.angle)), math.sin(math.radians(box.angle)))
    across = [w for w in ordered if _is_across(w, axis)]
    places = {id(w): _place(w, axis) for w in across}
    corners = shapely.get_coordinates(area) @ axis
    first = halving_order(
        [places[id(w)] for w in across], float(corners.min()), float(corners.max())
    )
    relief = [across[i] for i in first]
    taken = {id(w) for w in relief}
    rest = [w for w in ordered if id(w) not in taken]
    return [*relief, *rest], frozenset(w.sawn.joint for w in relief)


def halving_order(places: Sequence[float], start: float, end: float) -> list[int]:
    """Which of some places halve a stretch, then its halves, until none is over the relief spacing.

    Args:
        places: Places of the lines along the stretch, mm.
        start: Its beginning.
        end: Its end.

    Returns:
        Indices of the places, in the order of cutting.
    """
    out: list[int] = []
    stretches = [(start, end)]
    while stretches:
        low, high = max(stretches, key=lambda s: (s[1] - s[0], -s[0]))
        stretches.remove((low, high))
        inside = [i for i, p in enumerate(places) if low < p < high and i not in out]
        if high - low <= RELIEF_SPACING or not inside:
            continue
        middle = (low + high) / 2
        best = min(inside, key=lambda i: (round(abs(places[i] - middle), 3), i))
        same = [i for i in inside if abs(places[i] - places[best]) < 1.0]
        out.extend(same)
        stretches += [(low, places[best]), (places[best], high)]
    return out


def _is_across(window: LineWindow, axis: tuple[float, float]) -> bool:
    way = direction(*ends_of(window.sawn.line))
    return abs(angle_between(way, axis) - 90.0) <= ACROSS


def _place(window: LineWindow, axis: tuple[float, float]) -> float:
    middle = window.sawn.line.interpolate(0.5, normalized=True)
    return float(middle.x * axis[0] + middle.y * axis[1])
