"""Whether what stands on a slab or goes through it lies on the slab.

What leaves the concrete a little is taken as drawn: a wall may run past the edge by half of its own
thickness (it then ends at the face of the wall outside), a boxout may cut the edge, and joints may run
on, for a survey measures them to the form. What lies outside altogether is a mistake.
"""

from collections.abc import Iterable, Sequence

import shapely
from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint

from kerfline.errors import Mistake
from kerfline.files.sense_rings import NO_AREA, OFF_EARTH, on_earth
from kerfline.files.sense_teller import CHECK_UNITS, Teller
from kerfline.geometry.ring import Point, Ring
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.falls import fall_lines
from kerfline.model.slab import (
    Column,
    Fall,
    GivenJoint,
    Pattern,
    PatternKind,
    Penetration,
    Slab,
    Wall,
)

LINE_ENDS = 2
THICKEST_WALL = 3000.0
"""No wall on a slab on ground is thicker than this (mm)."""

MOVE_IN = "move it inside or leave it out"
MOVE_ON = "move it onto the slab or leave it out"


def endless(teller: Teller, slab: Slab) -> list[Mistake]:
    """Coordinates that no site has; those of rings are told with the rings."""
    return [
        teller.mistake(name, OFF_EARTH, remedy=CHECK_UNITS)
        for name, points in _points_of(slab)
        if not on_earth(points)
    ]


def _points_of(slab: Slab) -> Iterable[tuple[str, Sequence[Point]]]:
    yield from ((wall.id, wall.path) for wall in slab.walls)
    yield from ((joint.id, joint.path) for joint in slab.joints)
    yield from ((column.id, (column.at,)) for column in slab.columns)
    yield from ((penetration.id, (penetration.at,)) for penetration in slab.penetrations)
    yield from ((fall.id, fall.to) for fall in slab.falls)


def features(teller: Teller, slab: Slab) -> list[Mistake]:
    """Things that lie off the slab or have no extent."""
    outline = slab.outline.polygon
    shapely.prepare(outline)
    found = [
        *(_wall(teller, outline, wall) for wall in slab.walls),
        *(_column(teller, slab.gross, column) for column in slab.columns),
        *(_penetration(teller, outline, penetration) for penetration in slab.penetrations),
        *(_joint(teller, outline, joint) for joint in slab.joints),
        *(_area(teller, outline, z.id, "zone", z.outline) for z in slab.zones),
        *(_area(teller, outline, k.id, "keep-out", k.outline) for k in slab.keep_outs),
        *(_area(teller, outline, p.id, "pattern's area", p.area) for p in slab.patterns),
        *(_pattern(teller, pattern) for pattern in slab.patterns),
        *(_area(teller, outline, f.id, "area of fall", f.area) for f in slab.falls),
        *(_fall(teller, fall) for fall in slab.falls),
    ]
    return [mistake for mistake in found if mistake]


def _wall(teller: Teller, outline: Polygon, wall: Wall) -> Mistake | None:
    if len(wall.path) < LINE_ENDS:
        return _no_length(teller, wall.id, "wall")
    if not 0 < wall.thickness <= THICKEST_WALL:
        return teller.mistake(
            wall.id,
            "a wall does not have this thickness",
            found=teller.depth(wall.thickness),
            allowed=f"above zero, up to {teller.depth(THICKEST_WALL)}",
            remedy=CHECK_UNITS,
        )
    reach = wall.thickness / 2 + TOUCH
    far = max(wall.path, key=lambda p: outline.distance(ShapelyPoint(p)))
    off = outline.distance(ShapelyPoint(far))
    if off > reach:
        return teller.mistake(
            wall.id,
            f"wall {wall.id} lies outside the slab: its point {teller.point(far)} is "
            f"{teller.length(off)} off",
            remedy="move it inside or extend the outline",
        )
    if not outline.covers(wall.line) and _beyond(outline, wall, reach) > TOUCH:
        return teller.mistake(
            wall.id,
            f"wall {wall.id} leaves the slab between its ends",
            remedy="break it where it leaves the concrete",
        )
    return None


def _beyond(outline: Polygon, wall: Wall, reach: float) -> float:
    """Length of a wall further than a reach from the slab."""
    return float(wall.line.difference(outline.buffer(reach, join_style="mitre")).length)


def _column(teller: Teller, gross: Polygon, column: Column) -> Mistake | None:
    foot = column.outline.polygon if column.outline else ShapelyPoint(column.at)
    if foot.intersects(gross):
        return None
    return teller.mistake(
        column.id,
        f"column {column.id} stands off the concrete at {teller.point(column.at)}",
        remedy=MOVE_ON,
    )


def _penetration(teller: Teller, outline: Polygon, penetration: Penetration) -> Mistake | None:
    x0, y0, x1, y1 = outline.bounds
    if penetration.diameter > max(x1 - x0, y1 - y0):
        return teller.mistake(
            penetration.id,
            "the penetration is larger than the slab",
            found=teller.depth(penetration.diameter),
            remedy=CHECK_UNITS,
        )
    if outline.distance(ShapelyPoint(penetration.at)) <= SAME:
        return None
    return teller.mistake(
        penetration.id,
        f"penetration {penetration.id} lies outside the slab at {teller.point(penetration.at)}",
        remedy=MOVE_IN,
    )


def _joint(teller: Teller, outline: Polygon, joint: GivenJoint) -> Mistake | None:
    if len(joint.path) < LINE_ENDS:
        return _no_length(teller, joint.id, "joint")
    if LineString(joint.path).intersection(outline).length > TOUCH:
        return None
    return teller.mistake(joint.id, f"joint {joint.id} does not lie on the slab", remedy=MOVE_ON)


def _area(teller: Teller, outline: Polygon, name: str, kind: str, ring: Ring) -> Mistake | None:
    if ring.polygon.intersection(outline).area > NO_AREA:
        return None
    return teller.mistake(name, f"the {kind} {name} does not lie on the slab", remedy=MOVE_ON)


def _pattern(teller: Teller, pattern: Pattern) -> Mistake | None:
    if pattern.kind is not PatternKind.ALIGNED or pattern.along:
        return None
    return teller.mistake(
        pattern.id,
        "an aligned pattern needs a line to follow",
        remedy="add along = [[x, y], [x, y]]",
    )


def _fall(teller: Teller, fall: Fall) -> Mistake | None:
    """A drain off its own area, or an area that does not fall to it straight from every corner."""
    area = fall.area.polygon.buffer(TOUCH)
    off = next((p for p in fall.to if not area.covers(ShapelyPoint(p))), None)
    if off:
        return teller.mistake(
            fall.id,
            f"fall {fall.id} has its drain outside its area, at {teller.point(off)}",
            remedy="move the drain inside, or draw the area around it",
        )
    across = next((x for x in fall_lines(fall) if not area.covers(LineString(x.path))), None)
    if across:
        return teller.mistake(
            fall.id,
            f"the floor of fall {fall.id} cannot run straight to its drain from the corner at "
            f"{teller.point(across.path[0])}, for the line leaves the area",
            remedy="divide the area into falls with a drain, or a part of the channel, for each",
        )
    return None


def _no_length(teller: Teller, name: str, kind: str) -> Mistake:
    return teller.mistake(
        name, f"{kind} {name} has no length", remedy="give it two different points"
    )
