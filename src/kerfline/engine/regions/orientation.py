"""How a region lies: turned and mirrored with everything on it, and its canonical orientation.

Of the eight ways to turn and mirror a region the one whose features read first is its canonical orientation, and its
lower left corner is put on the origin. A slab that is moved, turned by a right angle or mirrored thus gives the same
problem, and the answer is turned back.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from shapely import Polygon
from shapely.geometry.polygon import orient

from kerfline.engine.regions.directions import QUARTER
from kerfline.engine.regions.region import Nook, Region, turned, turned_shape
from kerfline.geometry.faces import points_of, polygons_of, rings_of
from kerfline.geometry.ring import Point, Ring
from kerfline.model.slab import GivenJoint, Wall

DIGITS = 3
"""Places are compared to this many digits of a millimetre."""

Lined = TypeVar("Lined", Wall, GivenJoint)
"""What lies along a path."""


@dataclass(frozen=True, slots=True)
class Move:
    """One of the eight turns and mirrorings, and a shift.

    A point is mirrored in its x where ``flip_x``, in its y where ``flip_y``, then its coordinates are
    exchanged where ``swap``, then the shift is added.
    """

    flip_x: bool
    flip_y: bool
    swap: bool
    shift: Point = (0.0, 0.0)

    def there(self, at: Point) -> Point:
        """A point after the move, rounded to a millionth so that float noise does not decide."""
        x = -at[0] if self.flip_x else at[0]
        y = -at[1] if self.flip_y else at[1]
        if self.swap:
            x, y = y, x
        return (round(x + self.shift[0], 6), round(y + self.shift[1], 6))

    def back(self, at: Point) -> Point:
        """A point before the move."""
        x, y = at[0] - self.shift[0], at[1] - self.shift[1]
        if self.swap:
            x, y = y, x
        return (-x if self.flip_x else x, -y if self.flip_y else y)

    def angle(self, degrees: float) -> float:
        """A direction after the move, degrees."""
        if self.flip_x:
            degrees = 2 * QUARTER - degrees
        if self.flip_y:
            degrees = -degrees
        return QUARTER - degrees if self.swap else degrees

    def shape(self, polygon: Polygon) -> Polygon:
        """A polygon after the move."""
        rings = [[self.there(at) for at in points_of(ring)] for ring in rings_of(polygon)]
        return orient(Polygon(rings[0], rings[1:]))

    def ring(self, ring: Ring) -> Ring:
        """A ring after the move, flattened."""
        return Ring(tuple(self.there(p) for p in ring.coordinates))


AS_IT_IS = Move(flip_x=False, flip_y=False, swap=False)
"""The move that changes nothing."""


@dataclass(frozen=True, slots=True)
class Turn:
    """A turn about the origin by an angle in degrees, exact at multiples of 90."""

    degrees: float

    def there(self, at: Point) -> Point:
        """A point after the turn."""
        return turned(at, self.degrees)

    def angle(self, degrees: float) -> float:
        """A direction after the turn, degrees."""
        return degrees + self.degrees

    def shape(self, polygon: Polygon) -> Polygon:
        """A polygon after the turn."""
        return turned_shape(polygon, self.degrees)

    def ring(self, ring: Ring) -> Ring:
        """A ring after the turn, flattened."""
        return Ring.of(self.shape(ring.polygon))


def canonical(region: Region) -> tuple[Region, Move]:
    """The region in its canonical orientation, and the move that took it there."""
    moves = [
        _to_origin(region, Move(flip_x, flip_y, swap))
        for swap in (False, True)
        for flip_y in (False, True)
        for flip_x in (False, True)
    ]
    best = min(moves, key=lambda move: (reading(region, move), move.swap, move.flip_y, move.flip_x))
    return moved(region, best), best


def _to_origin(region: Region, move: Move) -> Move:
    x0, y0, x1, y1 = region.gross.bounds
    low = [move.there(at) for at in ((x0, y0), (x1, y1))]
    return replace(move, shift=(-min(p[0] for p in low), -min(p[1] for p in low)))


def reading(region: Region, move: Move = AS_IT_IS, digits: int = DIGITS) -> tuple[object, ...]:
    """All that bears on a region's joints after a move, to so many digits, in an order that does not depend on names.

    Two regions of one reading have one layout. Places come first; what stands at them is told at the end, so that it
    decides only between moves that leave all places the same.
    """

    def spots(points: Iterable[Sequence[float]]) -> list[Point]:
        moved_points = (move.there((float(p[0]), float(p[1]))) for p in points)
        return sorted((round(x, digits) + 0.0, round(y, digits) + 0.0) for x, y in moved_points)

    boxouts = ((c, c.outline if not c.is_round else None) for c in region.columns)
    return (
        sorted(spots(r.coords[:-1]) for r in rings_of(region.gross)),
        sorted((w.id in region.wishes, spots(w.path)) for w in region.walls),
        sorted(spots(n.mouth) for n in region.nooks),
        spots([c.at for c in region.columns]),
        spots([p.at for p in region.penetrations]),
        sorted(spots(k.outline.coordinates) for k in region.keep_outs),
        sorted(spots(j.path) for j in (*region.pinned, *region.forbidden)),
        spots(region.landings),
        sorted((spots(w.path), repr(replace(w, id="", path=()))) for w in region.walls),
        sorted(
            (spots(edge.coordinates if edge else (c.at,)), c.boxout, c.size) for c, edge in boxouts
        ),
        sorted((spots([p.at]), p.meeting, p.clear, p.diameter) for p in region.penetrations),
        sorted(
            (spots(part.exterior.coords[:-1]), zone.joint_at_border, repr(zone.working))
            for zone in region.zones
            for part in polygons_of(zone.area.intersection(region.gross))
        ),
        sorted(spots(j.path) for j in region.forbidden),
        sorted(
            (spots(p.area.coordinates), p.kind, p.spacing or 0.0, spots(p.along or ()))
            for p in region.patterns
        ),
    )


def moved(region: Region, move: Move | Turn) -> Region:
    """A region with everything on it after a move."""
    there, ring = move.there, move.ring

    def path(points: tuple[Point, ...]) -> tuple[Point, ...]:
        return tuple(there(p) for p in points)

    def lined(items: Iterable[Lined]) -> tuple[Lined, ...]:
        return tuple(replace(x, path=path(x.path)) for x in items)

    return replace(
        region,
        gross=move.shape(region.gross),
        concrete=move.shape(region.concrete),
        nooks=tuple(_moved_nook(n, move) for n in region.nooks),
        walls=lined(region.walls),
        columns=tuple(replace(c, at=there(c.at), turn=move.angle(c.turn)) for c in region.columns),
        penetrations=tuple(replace(p, at=there(p.at)) for p in region.penetrations),
        zones=tuple(replace(z, area=move.shape(z.area)) for z in region.zones),
        keep_outs=tuple(replace(k, outline=ring(k.outline)) for k in region.keep_outs),
        pinned=lined(region.pinned),
        forbidden=lined(region.forbidden),
        patterns=tuple(
            replace(
                p,
                area=ring(p.area),
                along=(there(p.along[0]), there(p.along[1])) if p.along else None,
            )
            for p in region.patterns
        ),
        landings=path(region.landings),
        baseline=there(region.baseline),
    )


def _moved_nook(nook: Nook, move: Move | Turn) -> Nook:
    """A nook after a move, or after a turn by right angles."""
    (x0, y0), (x1, y1) = (move.there(at) for at in ((0.0, 0.0), (1.0, 0.0)))
    axis = nook.axis if abs(x1 - x0) > abs(y1 - y0) else 1 - nook.axis
    ends = [move.there(at) for at in nook.mouth]
    low, high = sorted(at[axis] for at in ends)
    return Nook(axis=axis, low=low, high=high, level=ends[0][1 - axis])
