"""Lays a piece out again, with joints that bend square, where the cheapest layout leaves flat meetings."""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from kerfline.engine.oblique.bends import bent
from kerfline.engine.oblique.charts import Chart, SquareChart
from kerfline.engine.oblique.cost import FULL, SMALL_SHARE, shape_of
from kerfline.engine.oblique.directions import QUARTER, segments
from kerfline.engine.oblique.ground import Ground, Pieces
from kerfline.engine.oblique.squared import squared, tips_of
from kerfline.engine.options import Weights
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import MEASURE, RATIO, TOUCH
from kerfline.units import MM_PER_FOOT

ROOMS = (0.0, 400.0)
"""How much (mm) shorter than the span bays are tried, so that bends find room."""

WAYS = tuple((spare, room) for spare in (False, True) for room in ROOMS)
"""Ways to bend lines: all of them first, then without those that cut off a sharp tip."""

FLAT = 35 * MM_PER_FOOT
"""What a flat meeting counts besides its price, once a layout without it has been looked for."""

TILT = 10.0
"""Lines are tilted by no more than this (degrees) for the sake of an angle."""

SPARE = 0.2
"""And this much (degrees) more than the least angle asks."""

NEARBY = 50.0
"""How far (mm) from a corner its sides are looked at."""


def squarer(
    ground: Ground,
    found: Pieces,
    chart: Chart,
    inside: Sequence[LineString],
    weights: Weights,
) -> Pieces:
    """A layout, or a cheaper one whose joints bend square, where the first has flat meetings.

    Args:
        ground: The piece.
        found: Its layout.
        chart: The chart that it follows: other directions would look strange for the sake of an angle.
        inside: Settled joints inside it.
        weights: What each thing is worth.
    """
    return squarest(ground, found, lambda: _others(ground, found, chart, inside, weights))


def squarest(ground: Ground, found: Pieces, others: Callable[[], Iterator[Pieces]]) -> Pieces:
    """A layout, or the best of others that have no more poor panels, where the first has flat meetings.

    Args:
        ground: The piece.
        found: Its layout.
        others: Finds the others; not called where there is nothing to mend.
    """
    if not flat_meetings(ground, found) or not ground.effort.allows():
        return found
    most = poor_panels(ground, found)
    fair = [p for p in others() if poor_panels(ground, p) <= most]
    return min([found, *fair], key=lambda p: round(p.cost + FLAT * flat_meetings(ground, p)))


def _others(
    ground: Ground,
    found: Pieces,
    chart: Chart,
    inside: Sequence[LineString],
    weights: Weights,
) -> Iterator[Pieces]:
    most = poor_panels(ground, found)
    sharp = bool(tips_of(ground))
    own = [chart] if isinstance(chart, SquareChart) else []
    for way in [*own, *_tilted(ground)]:
        ground = ground if way is chart else replace(ground, more=((), ()))
        for spare_tips, room in WAYS if sharp else WAYS[: len(ROOMS)]:
            if not ground.effort.allows():
                return
            answer = squared(ground, way, inside, weights, room, spare_tips=spare_tips)
            if answer is None:
                continue
            mended = bent(ground, answer, inside) if not spare_tips else answer
            yield mended
            if not flat_meetings(ground, mended) and poor_panels(ground, mended) <= most:
                break


def _tilted(ground: Ground) -> list[SquareChart]:
    """Charts turned a little, just enough that one family of lines meets a slanted side at the least angle."""
    angles, lengths = segments([ground.concrete.exterior])
    steep = QUARTER - ground.limits.angle - SPARE
    leans = [
        angle - QUARTER if angle > QUARTER / 2 else angle
        for angle, length in zip(angles.tolist(), lengths.tolist(), strict=True)
        if length > ground.limits.span
    ]
    turns = [lean - math.copysign(steep, lean) for lean in leans if abs(lean) > steep]
    return [SquareChart(turn) for turn in sorted({round(t, 3) for t in turns}) if abs(turn) <= TILT]


def flat_meetings(ground: Ground, pieces: Pieces) -> int:
    """How many corners of panels with a joint of the layout as a side are under the least angle."""
    return len(flat_places(ground, pieces))


def flat_places(ground: Ground, pieces: Pieces) -> list[Point]:
    """Where they are.

    Sharp corners between joints that were settled before are not for this layout to mend.
    """
    cuts = shapely.union_all([LineString(c.path) for c in pieces.cuts])
    return [
        at
        for panel in pieces.panels
        for at, _ in shape_of(panel, ground.limits.angle).points
        if cuts.distance(shapely.Point(at)) <= TOUCH and _is_side(cuts, panel, at)
    ]


def _is_side(cuts: BaseGeometry, panel: Polygon, at: Point) -> bool:
    """Whether one of the sides of a panel that meet in a corner lies along a joint."""
    nearby = panel.exterior.intersection(shapely.Point(at).buffer(NEARBY))
    return bool(nearby.intersection(cuts.buffer(TOUCH)).length > NEARBY / 2)


def poor_panels(ground: Ground, pieces: Pieces) -> int:
    """How many panels are too long, too narrow, odd, or scraps beside a wall: what no bend is worth."""
    limits = ground.limits
    shapes = [shape_of(panel, limits.angle) for panel in pieces.panels]
    least = SMALL_SHARE * limits.span - MEASURE if ground.lines or ground.walls else 0.0
    return sum(
        s.aspect > limits.aspect + RATIO
        or s.width < limits.width - MEASURE
        or s.fullness < FULL
        or s.length < least
        for s in shapes
    )
