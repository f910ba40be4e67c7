"""What a wide gap in the walls closes off: a recess of the facade, or a room behind a gate.

Depths of jambs and shares are common practice, tried on the drawings of the forge (``tests/forge``).
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from kerfline.geometry.arrays import Numbers
from kerfline.geometry.faces import lines_of, polygons_of
from kerfline.geometry.wrap import STRAIGHTEN

WALL_GAPS = (600.0, 1220.0, 2440.0, 4880.0)
"""Gaps (mm; the wider ones 4, 8 and 16 ft: doors, windows, a garage door) bridged around walls, in turn."""

JAMB = (40.0, 600.0)
"""Depths (mm) behind a bridge: still between the jambs of a gate; behind any wall."""

DEEPER = 40.0
"""A room is wider at once behind its gate's jambs, within this depth (mm); the sides of a recess may splay."""

WIDER = 150.0
HAIR_WIDER = 60.0
BEYOND = 10_000.0
"""A room is wider than its gate by more than the first (mm); a gate's jambs are no farther apart than its bridge is
long and the second; the third is farther than a room reaches beyond its gate."""

PARALLEL = 0.7
"""Cosine of the angle (45 degrees) up to which a side lies across from a bridge."""

BACKED = 0.5
"""Walls stand along this share of what lies across from the mouth of a notch, windows apart."""

SIDED = 0.9
"""Walls stand along this share of the sides of a shallow recess."""

MOST_OF_IT = 0.5
"""What takes up this share of a building is no corner of one of its rooms."""

HAIR = 5.0
"""Slack (mm) of what lies on an edge."""


def closed_off(
    whole: Polygon, steps: Sequence[Sequence[Polygon]]
) -> Iterator[tuple[float, Polygon, LineString | None, BaseGeometry]]:
    """What each wider gap closes off: the gap, the part, the bridge on the building's edge, what was closed off before.

    Corners of a room beside a wide gate are closed off before the gate is, by bridges inside of it; they belong to
    what the gate closes off. So does no more than a part of the building: what is more is the building itself.
    """
    edge = whole.exterior.buffer(HAIR)
    corners: list[Polygon] = []
    for gap, narrow, wide in zip(WALL_GAPS[1:], steps, steps[1:], strict=False):
        before = shapely.union_all(narrow)
        closed = before.buffer(HAIR)
        inner: list[Polygon] = []
        for area in wide:
            if not area.intersects(whole):
                continue
            for piece in polygons_of(area.difference(before).buffer(-HAIR, join_style="mitre")):
                part = piece.buffer(HAIR, join_style="mitre")
                bridge = _bridge(part, area, closed)
                if bridge and not edge.covers(bridge):
                    inner += [part] if part.area < MOST_OF_IT * whole.area else []
                    continue
                beside = [c for c in corners if c.intersection(part.buffer(HAIR)).area > 0]
                if bridge and beside:
                    grown = [c.buffer(HAIR, join_style="mitre") for c in (part, *beside)]
                    part = max(polygons_of(shapely.union_all(grown)), key=lambda p: p.area)
                yield gap, part, bridge, before
        corners += inner


def _bridge(part: Polygon, after: Polygon, closed: BaseGeometry) -> LineString | None:
    """The longest straight piece of new edge that closes a part off, beyond what was closed off before."""
    edge = after.exterior.intersection(part.buffer(HAIR)).difference(closed)
    pieces = [p.simplify(STRAIGHTEN) for p in lines_of(shapely.line_merge(edge))]
    straight = [
        LineString(ends) for p in pieces for ends in pairwise(p.coords) if ends[0] != ends[1]
    ]
    return max(straight, key=lambda piece: piece.length, default=None)


def share_of_width(bridge: LineString, part: Polygon) -> float:
    """The length of a bridge as a share of the width of what it closes off, measured along it."""
    return bridge.length / max(_width(part, _along(bridge)), bridge.length)


def _along(bridge: LineString) -> Numbers:
    """The direction of a bridge, of length 1."""
    start, end = np.asarray(bridge.coords[0]), np.asarray(bridge.coords[-1])
    return np.asarray((end - start) / np.hypot(*(end - start)), dtype=np.float64)


def _width(area: BaseGeometry, along: Numbers) -> float:
    """How far an area reaches in a direction, mm."""
    reach = shapely.get_coordinates(area) @ along
    return float(reach.max() - reach.min()) if len(reach) else 0.0


def is_recess(
    bridge: LineString, part: Polygon, faces: Sequence[LineString], before: BaseGeometry
) -> bool:
    """Whether a part is a recess, not a window's reveal.

    It is deeper than a wall; or a wall, or a narrower bridge, lies across from its bridge, and walls stand all along its
    sides: behind a window's reveal there may be the end of an inner wall.
    """
    along = _along(bridge)
    if _width(part, np.asarray((-along[1], along[0]))) > JAMB[1]:
        return True
    edges = [e for e in map(LineString, pairwise(part.exterior.coords)) if e.length]
    across = [e for e in edges if abs(float(_along(e) @ along)) > PARALLEL]
    back = [e for e in across if e.distance(bridge) > HAIR]
    sides = [e for e in edges if e not in across]
    narrower = [*faces, *lines_of(before.boundary)]
    return _walled(back, narrower, BACKED) and _walled(sides, faces, SIDED)


def _walled(edges: Sequence[LineString], faces: Sequence[LineString], share: float) -> bool:
    """Whether walls stand along a share of edges."""
    around = shapely.union_all(edges).buffer(HAIR)
    walls = shapely.union_all([f for f in faces if around.intersects(f)]).buffer(HAIR)
    length = sum(e.length for e in edges)
    return sum(e.intersection(walls).length for e in edges) >= share * length


def has_jambs(bridge: LineString, part: Polygon) -> bool:
    """Whether a part is as wide as its bridge for the thickness of a wall and wider at once behind: a room with a gate."""
    along = _along(bridge)
    across = np.asarray((-along[1], along[0]))
    depths = np.arange(JAMB[0], JAMB[1] + DEEPER, DEEPER)
    for side in (1.0, -1.0):
        widths = [_width(_behind(bridge, part, along, side * d * across), along) for d in depths]
        if all(widths):
            steps = max(b - a for a, b in pairwise(widths))
            return widths[0] < bridge.length + HAIR_WIDER and steps > WIDER
    return False


def _behind(
    bridge: LineString,
    part: Polygon,
    along: Numbers,
    shift: Numbers,
) -> BaseGeometry:
    """The stretch of a part behind the middle of a bridge; empty where there is none."""
    across = part.intersection(_parallel(bridge, along, shift))
    middle = bridge.interpolate(0.5, normalized=True)
    at = shapely.Point(middle.x + shift[0], middle.y + shift[1])
    return next((p for p in lines_of(across) if p.distance(at) < HAIR), LineString())


def _parallel(bridge: LineString, along: Numbers, shift: Numbers) -> LineString:
    """A line beside a bridge, longer than it at both ends."""
    start, end = np.asarray(bridge.coords[0]), np.asarray(bridge.coords[-1])
    return LineString([start + shift - BEYOND * along, end + shift + BEYOND * along])
