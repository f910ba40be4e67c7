"""Moves, draws and ends joints so that they stop on an edge or on another joint.

All functions take the concrete and the joints as drawn and give back joints; nothing is measured
against the rules here.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import shapely
from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint

from kerfline.app.working import BY_HAND, DrawnJoint
from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.corners import direction
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.layout import Reason

STRAIGHT = 2
"""Points of a straight joint."""

SHORTEST = 25.4
"""A joint shorter than this (mm) is dropped: nobody cuts an inch."""

OVERLAP = 2 * TOUCH
"""Two stops nearer than this (mm) are one."""

PARALLEL = 1e-9
"""Below this cross product two unit directions have no crossing."""


@dataclass(frozen=True, slots=True)
class Axis:
    """The endless line that a straight joint lies on: a point and a unit direction."""

    origin: Point
    way: Point

    def at(self, t: float) -> Point:
        """The point at a distance (mm) along it."""
        return (self.origin[0] + t * self.way[0], self.origin[1] + t * self.way[1])

    def place(self, point: Point) -> float:
        """How far along it a point lies, mm."""
        return (point[0] - self.origin[0]) * self.way[0] + (point[1] - self.origin[1]) * self.way[1]


def line_of(joint: DrawnJoint) -> LineString:
    """A joint's path as a line."""
    return LineString(joint.path)


def straight(joint: DrawnJoint) -> bool:
    """Whether a joint is one straight line."""
    return len(joint.path) == STRAIGHT


def axis_of(joint: DrawnJoint) -> Axis:
    """The endless line of a straight joint, from its first point to its last."""
    return Axis(joint.path[0], direction(joint.path[0], joint.path[-1]))


def crossings(axis: Axis, shape: shapely.Geometry, reach: float) -> list[float]:
    """Where an endless line meets a shape's lines: distances along it, sorted.

    Args:
        axis: The line.
        shape: Lines or the boundary of an area.
        reach: Half the length (mm) of line that is looked at, about the axis's origin.
    """
    ray = LineString([axis.at(-reach), axis.at(reach)])
    met = shapely.get_coordinates(ray.intersection(shape))
    return sorted(axis.place((float(x), float(y))) for x, y in met)


def reach_of(concrete: Polygon, point: Point) -> float:
    """A distance from a point that is beyond every part of the slab, mm."""
    x0, y0, x1, y1 = concrete.bounds
    return sum(math.dist(point, corner) for corner in ((x0, y0), (x1, y1))) + 1.0


def slide(
    concrete: Polygon, joints: Sequence[DrawnJoint], name: str, by: Point
) -> tuple[DrawnJoint, ...]:
    """Moves a straight joint sideways; it keeps to the edges and joints that it ends on.

    Joints that end on it follow; one that would be left with no length goes. A joint that an
    opening would cut in two becomes two.

    Args:
        concrete: The slab's concrete.
        joints: All joints.
        name: Which one moves.
        by: How far the pointer went, mm; only the part square to the joint counts.

    Raises:
        InputRefused: The joint is bent, or there is no concrete where it would go.
    """
    joint = find(joints, name)
    _ask_straight(joint)
    old = axis_of(joint)
    square = (-old.way[1], old.way[0])
    shift = by[0] * square[0] + by[1] * square[1]
    moved = Axis((old.origin[0] + shift * square[0], old.origin[1] + shift * square[1]), old.way)
    others = [j for j in joints if j.id != name]
    span = _span_after(concrete, others, joint, moved)
    pieces = _inside(concrete, moved, span)
    if not pieces:
        raise InputRefused(
            Mistake(what="there is no concrete there", where=name, remedy="move the joint less far")
        )
    mine = _renamed(joint, pieces, joints)
    followers = _follow(concrete, others, joint, mine)
    return _in_place(joints, {name: mine, **followers})


def _span_after(
    concrete: Polygon, others: Sequence[DrawnJoint], joint: DrawnJoint, moved: Axis
) -> tuple[float, float]:
    """From where to where the moved joint runs along its new axis."""
    size = math.dist(joint.path[0], joint.path[-1])
    stops_of = [_met(others, joint.path[0]), _met(others, joint.path[-1])]
    reach = reach_of(concrete, moved.origin)
    edges = crossings(moved, concrete.boundary, reach)
    start = _stop(moved, 0.0, -1, size / 2, stops_of[0], edges, reach)
    end = _stop(moved, size, 1, size / 2, stops_of[1], edges, reach)
    return (start, end)


def _stop(
    axis: Axis,
    old: float,
    way: int,
    middle: float,
    met: Sequence[DrawnJoint],
    edges: Sequence[float],
    reach: float,
) -> float:
    """Where one end comes to lie: on the joint that it met, else on the edge nearest to where it was."""
    for other in met:
        here = crossings(axis, line_of(other), reach)
        if here:
            return min(here, key=lambda t: abs(t - old))
    beyond = [t for t in edges if (t - middle) * way > SAME] or list(edges)
    return min(beyond, key=lambda t: abs(t - old)) if beyond else old


def _met(others: Sequence[DrawnJoint], spot: Point) -> list[DrawnJoint]:
    point = ShapelyPoint(spot)
    return [o for o in others if line_of(o).distance(point) <= TOUCH]


def _inside(concrete: Polygon, axis: Axis, span: tuple[float, float]) -> list[tuple[Point, Point]]:
    """The parts of a stretch of line that lie in concrete, in order along it."""
    low, high = min(span), max(span)
    if high - low < SHORTEST:
        return []
    line = LineString([axis.at(low), axis.at(high)])
    parts = [part for part in lines_of(line.intersection(concrete)) if part.length >= SHORTEST]
    ends = [_ends(part, axis) for part in parts]
    return sorted(ends, key=lambda pair: axis.place(pair[0]))


def _ends(part: LineString, axis: Axis) -> tuple[Point, Point]:
    points = sorted(((float(x), float(y)) for x, y in part.coords), key=axis.place)
    return points[0], points[-1]


def _renamed(
    joint: DrawnJoint, pieces: Sequence[tuple[Point, Point]], joints: Sequence[DrawnJoint]
) -> list[DrawnJoint]:
    """The pieces as joints; the longest keeps the name, the others take new ones."""
    longest = max(range(len(pieces)), key=lambda i: (math.dist(*pieces[i]), -i))
    taken = {j.id for j in joints}
    out = []
    for index, piece in enumerate(pieces):
        name = joint.id if index == longest else new_name(taken)
        taken.add(name)
        out.append(by_hand(replace(joint, id=name, path=piece)))
    return out


def by_hand(joint: DrawnJoint) -> DrawnJoint:
    """The joint as one that the user placed, which the engine will leave alone."""
    return replace(joint, pinned=True, reason=Reason.PINNED, note=BY_HAND)


def new_name(taken: set[str]) -> str:
    """The next free name of the form ``J12``."""
    numbers = [int(n[1:]) for n in taken if n[:1] == "J" and n[1:].isascii() and n[1:].isdigit()]
    return f"J{max(numbers, default=0) + 1}"


def _follow(
    concrete: Polygon,
    others: Sequence[DrawnJoint],
    before: DrawnJoint,
    after: Sequence[DrawnJoint],
) -> dict[str, list[DrawnJoint]]:
    """What becomes of the straight joints that ended on the moved one."""
    line = line_of(before)
    out: dict[str, list[DrawnJoint]] = {}
    for other in others:
        ends = [line.distance(ShapelyPoint(p)) <= TOUCH for p in (other.path[0], other.path[-1])]
        if not straight(other) or not any(ends) or all(ends):
            continue
        free = [o for o in others if o.id != other.id]
        stretched = _stretched(concrete, other, 0 if ends[0] else 1, after, free)
        out[other.id] = [stretched] if stretched else []
    return out


def _stretched(
    concrete: Polygon,
    joint: DrawnJoint,
    end: int,
    after: Sequence[DrawnJoint],
    others: Sequence[DrawnJoint],
) -> DrawnJoint | None:
    """A joint carried on or cut back to where the joint that it ended on now lies."""
    fixed, loose = joint.path[1 - end], joint.path[end]
    axis = Axis(fixed, direction(fixed, loose))
    reach = reach_of(concrete, fixed)
    hits = [t for a in after for t in crossings(axis, line_of(a), reach)]
    ahead = [t for t in hits if t > SHORTEST]
    if hits and not ahead:
        return None
    to = min(ahead) if ahead else _next_stop(concrete, axis, math.dist(fixed, loose), others)
    return _with_end(joint, end, axis.at(to))


def _next_stop(concrete: Polygon, axis: Axis, start: float, others: Sequence[DrawnJoint]) -> float:
    """The first edge or joint along an axis from a place on (mm); the place itself where there is none."""
    reach = reach_of(concrete, axis.origin)
    stops = crossings(axis, concrete.boundary, reach)
    for other in others:
        stops += crossings(axis, line_of(other), reach)
    return min((t for t in stops if t > start - TOUCH), default=start)


def _with_end(joint: DrawnJoint, end: int, point: Point) -> DrawnJoint:
    path = (point, joint.path[1]) if end == 0 else (joint.path[0], point)
    return replace(joint, path=path)


def _in_place(
    joints: Sequence[DrawnJoint], changed: dict[str, list[DrawnJoint]]
) -> tuple[DrawnJoint, ...]:
    """The joints in their order, each changed one in its old place."""
    return tuple(new for j in joints for new in changed.get(j.id, [j]))


def move_end(
    concrete: Polygon, joints: Sequence[DrawnJoint], name: str, end: int, to: Point
) -> tuple[DrawnJoint, ...]:
    """Lengthens or shortens a straight joint to the edge or joint nearest to a point on its line.

    Raises:
        InputRefused: The joint is bent, or nothing is left of it.
    """
    joint = find(joints, name)
    _ask_straight(joint)
    fixed, loose = joint.path[1 - end], joint.path[end]
    axis = Axis(fixed, direction(fixed, loose))
    wished = axis.place(to)
    stops = _stops(concrete, axis, [j for j in joints if j.id != name])
    ahead = [t for t in stops if t > SHORTEST]
    if not ahead:
        raise InputRefused(Mistake(what="the joint would have no length", where=name))
    longer = _with_end(joint, end, axis.at(min(ahead, key=lambda t: abs(t - wished))))
    line = Axis(longer.path[0], direction(longer.path[0], longer.path[1]))
    pieces = _inside(concrete, line, (0.0, math.dist(*longer.path)))
    return _in_place(joints, {name: _renamed(joint, pieces, joints)})


def _stops(concrete: Polygon, axis: Axis, others: Sequence[DrawnJoint]) -> list[float]:
    """Everything along an axis that a joint may end on, distances in mm."""
    reach = reach_of(concrete, axis.origin)
    stops = crossings(axis, concrete.boundary, reach)
    for other in others:
        stops += crossings(axis, line_of(other), reach)
    return sorted(stops)


def draw(
    concrete: Polygon, joints: Sequence[DrawnJoint], start: Point, end: Point
) -> tuple[DrawnJoint, ...]:
    """Adds a joint between two points, carried on at both ends to the next edge or joint.

    Raises:
        InputRefused: The points are one, or no concrete lies between them.
    """
    size = math.dist(start, end)
    if size < SHORTEST:
        raise InputRefused(
            Mistake(what="the joint has no length", remedy="draw from one place to another")
        )
    axis = Axis(start, direction(start, end))
    stops = _stops(concrete, axis, joints)
    low = max((t for t in stops if t < OVERLAP), default=0.0)
    high = min((t for t in stops if t > size - OVERLAP), default=size)
    return _added(joints, _inside(concrete, axis, (low, high)))


def split(
    concrete: Polygon, joints: Sequence[DrawnJoint], panel: Polygon, way: Point, at: Point
) -> tuple[DrawnJoint, ...]:
    """Adds a joint across one panel.

    Args:
        concrete: The slab's concrete.
        joints: All joints.
        panel: The panel.
        way: Direction of the new joint.
        at: A point that it runs through.

    Raises:
        InputRefused: The line does not cross the panel.
    """
    reach = reach_of(concrete, at)
    axis = Axis(at, way)
    stops = crossings(axis, panel.boundary, reach)
    low = max((t for t in stops if t <= SAME), default=None)
    high = min((t for t in stops if t >= -SAME), default=None)
    if low is None or high is None:
        raise InputRefused(Mistake(what="this line does not cross the panel"))
    return _added(joints, _inside(concrete, axis, (low, high)))


def _added(
    joints: Sequence[DrawnJoint], pieces: Sequence[tuple[Point, Point]]
) -> tuple[DrawnJoint, ...]:
    if not pieces:
        raise InputRefused(
            Mistake(what="there is no concrete between these points", remedy="draw over the slab")
        )
    taken = {j.id for j in joints}
    out = list(joints)
    for piece in pieces:
        name = new_name(taken)
        taken.add(name)
        out.append(DrawnJoint(id=name, path=piece, pinned=True))
    return tuple(out)


def delete(concrete: Polygon, joints: Sequence[DrawnJoint], name: str) -> tuple[DrawnJoint, ...]:
    """Takes a joint away; straight joints that ended on it are carried on to the next stop."""
    gone = find(joints, name)
    others = [j for j in joints if j.id != name]
    return _in_place(others, _follow(concrete, others, gone, []))


def find(joints: Sequence[DrawnJoint], name: str) -> DrawnJoint:
    """The joint of that name.

    Raises:
        InputRefused: There is none.
    """
    joint = next((j for j in joints if j.id == name), None)
    if joint is None:
        raise InputRefused(Mistake(what="there is no such joint", where=name))
    return joint


def _ask_straight(joint: DrawnJoint) -> None:
    if not straight(joint):
        raise InputRefused(
            Mistake(
                what="a bent joint cannot be moved as one",
                where=joint.id,
                remedy="delete it and draw it anew",
            )
        )


def pinned(joints: Sequence[DrawnJoint], name: str, *, pinned: bool) -> tuple[DrawnJoint, ...]:
    """The joints with one pinned or unpinned, or all of them where no name is given."""
    if name:
        find(joints, name)
    return tuple(replace(j, pinned=pinned) if name in ("", j.id) else j for j in joints)


def refit(before: Polygon, after: Polygon, joints: Sequence[DrawnJoint]) -> tuple[DrawnJoint, ...]:
    """The joints fitted to concrete that has changed, as when a column with its boxout moves.

    What lies in an opening now is cut away; a straight joint that ended on an edge that is gone is
    carried on to the next stop.
    """
    if before.equals(after):
        return tuple(joints)
    mended = _in_place(joints, {j.id: [_mended(before, after, joints, j)] for j in joints})
    return _trimmed(after, mended)


def _mended(
    before: Polygon, after: Polygon, joints: Sequence[DrawnJoint], joint: DrawnJoint
) -> DrawnJoint:
    if not straight(joint):
        return joint
    others = [o for o in joints if o.id != joint.id]
    for end in (0, 1):
        spot = ShapelyPoint(joint.path[end])
        was, still = before.boundary.distance(spot), after.boundary.distance(spot)
        if was <= TOUCH < still and after.contains(spot):
            fixed, loose = joint.path[1 - end], joint.path[end]
            axis = Axis(fixed, direction(fixed, loose))
            to = _next_stop(after, axis, math.dist(fixed, loose), others)
            joint = _with_end(joint, end, axis.at(to))
    return joint


def _trimmed(concrete: Polygon, joints: Sequence[DrawnJoint]) -> tuple[DrawnJoint, ...]:
    out: dict[str, list[DrawnJoint]] = {}
    known = list(joints)
    shapely.prepare(concrete)
    for joint in joints:
        if not straight(joint) or concrete.covers(line_of(joint)):
            continue
        inside = _inside(concrete, axis_of(joint), (0.0, math.dist(*joint.path)))
        if sum(math.dist(*piece) for piece in inside) < math.dist(*joint.path) - OVERLAP:
            kept = _renamed(joint, inside, known) if inside else []
            known += kept
            out[joint.id] = [
                replace(k, pinned=joint.pinned, reason=joint.reason, note=joint.note) for k in kept
            ]
    return _in_place(joints, out)
