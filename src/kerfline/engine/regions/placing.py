"""Where a piece of slab lies: clipped with everything that stands on it, in a frame of its own, in canonical orientation.

Of the eight ways to turn and mirror a region the one whose features read first is its canonical orientation, and its
lower left corner is put on the origin. A slab that is moved, turned by a right angle or mirrored thus gives the same
problem, and the answer is turned back.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

import shapely
from shapely import LineString, Polygon
from shapely.geometry.polygon import orient

from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.directions import QUARTER
from kerfline.engine.regions.region import (
    Nook,
    PlacedRegion,
    Region,
    RegionZone,
    parts_in,
    turned,
    turned_shape,
)
from kerfline.engine.regions.walls import short_walls
from kerfline.geometry.faces import left_by, points_of, polygons_of, rings_of
from kerfline.geometry.ring import Point, Ring
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.falls import given_joints
from kerfline.model.layout import WorkingLimits
from kerfline.model.slab import GivenJoint, Slab, Wall
from kerfline.rules.cover import SPARE_COVER
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import grid_step

LITTLE = 1.05
"""So many times the advised span a panel may be long where that is plainly better: half a foot in ten. Further
beyond, the lines of the open floor would be better moved."""

LEAST = 1000.0
"""Pieces of less area than this (mm2) are rounding."""

DIGITS = 3
"""Places are compared to this many digits of a millimetre."""

Lined = TypeVar("Lined", Wall, GivenJoint)
"""What lies along a path."""


def placed_region(
    slab: Slab,
    rules: SlabRules,
    options: EngineOptions,
    *,
    gross: Polygon,
    angle: float,
    name: str = "R1",
    orthogonal: bool = True,
) -> PlacedRegion:
    """A piece of slab in a frame of its own.

    Args:
        slab: The slab.
        rules: The limits.
        options: For the step of positions.
        gross: The piece, in the slab's frame, boxouts still in.
        angle: Direction of the frame's x axis in the slab, degrees; the frame turns about the
            slab's origin.
        name: Name of the region.
        orthogonal: Whether the exact solver takes it.
    """
    part = clipped(slab_region(slab, rules, options), gross, concrete_of(gross, slab.boxouts))
    region = replace(moved(part, Turn(-angle)), name=name, baseline=baseline(slab, angle))
    return PlacedRegion(region=region, angle=angle, orthogonal=orthogonal)


def slab_region(slab: Slab, rules: SlabRules, options: EngineOptions) -> Region:
    """The whole slab as one region in its own frame, boxouts still in, with everything that bears on its joints."""
    depth = rules.cut_depth(slab.thickness) + SPARE_COVER
    zones = (
        RegionZone(
            id=zone.id,
            area=zone.outline.polygon,
            working=working_limits(rules, zone.thickness, options),
            joint_at_border=zone.joint_at_border,
        )
        for zone in slab.zones
    )
    return Region(
        name="",
        concrete=slab.gross,
        gross=slab.gross,
        working=working_limits(rules, slab.thickness, options),
        advised=advised_limits(rules, slab.thickness),
        stretch=stretch(rules, slab),
        walls=slab.walls,
        wishes=short_walls(slab.walls, rules.working(slab.thickness).span),
        columns=slab.columns,
        penetrations=slab.penetrations,
        zones=tuple(zones),
        keep_outs=tuple(k for k in slab.keep_outs if k.cover is None or k.cover < depth - SAME),
        pinned=tuple(given_joints(slab)),
        forbidden=tuple(slab.forbidden),
        patterns=slab.patterns,
        step=grid_step(options.display),
        display=options.display,
    )


def clipped(region: Region, gross: Polygon, concrete: Polygon) -> Region:
    """A part of a region with what stands on it; what reaches beyond it is cut off.

    Args:
        region: The region.
        gross: The part, boxouts still in.
        concrete: The part without them.
    """
    shapely.prepare(gross)
    near = gross.buffer(TOUCH)
    shapely.prepare(near)
    walls = (region.walls[n] for n in sorted(region.wall_tree.query(near).tolist()))

    def within(items: Iterable[Lined]) -> tuple[Lined, ...]:
        return tuple(replace(x, path=p) for x in items for p in _within(x.path, gross, near))

    return replace(
        region,
        gross=gross,
        concrete=concrete,
        nooks=tuple(n for n in region.nooks if LineString(n.mouth).distance(gross) <= TOUCH),
        walls=within(walls),
        columns=tuple(c for c in region.columns if _is_near(c.at, gross, c.size / 2)),
        penetrations=tuple(p for p in region.penetrations if _is_near(p.at, gross, 0.0)),
        zones=tuple(z for z in region.zones if z.area.intersection(gross).area > LEAST),
        keep_outs=tuple(k for k in region.keep_outs if k.outline.polygon.intersects(gross)),
        pinned=within(region.pinned),
        forbidden=within(region.forbidden),
        patterns=tuple(p for p in region.patterns if p.area.polygon.intersects(gross)),
        landings=(),
    )


def _within(path: tuple[Point, ...], gross: Polygon, near: Polygon) -> list[tuple[Point, ...]]:
    """The parts of a line on a piece, each as a path; whole paths stay as they are."""
    line = LineString(path)
    if not line.intersects(near):
        return []
    if near.covers(line):
        return [path]
    return parts_in(gross, path)


def _is_near(at: Point, shape: Polygon, reach: float) -> bool:
    """Whether a point is within a reach of a shape; most are seen not to be by its box alone."""
    x0, y0, x1, y1 = shape.bounds
    beside = x0 - reach <= at[0] <= x1 + reach and y0 - reach <= at[1] <= y1 + reach
    return beside and bool(shape.distance(shapely.Point(at)) <= reach)


def unparted(gross: Polygon, boxouts: Sequence[Polygon]) -> list[Polygon]:
    """The pieces of a slab that boxouts leave whole, in reading order; those boxouts stay in them.

    Boxouts that reach from edge to edge part a slab: they belong to neither side. Of a wing that they cover
    nothing is left.
    """
    inside = [b for b in boxouts if b.intersects(gross)]
    pieces = left_by(gross, inside)
    if len(pieces) <= 1:
        return [gross] if pieces else []
    tree = shapely.STRtree(pieces)
    beside = [tree.query(b, "dwithin", SAME).tolist() for b in inside]
    filling = [  # the boxouts that lie beside one piece alone, as far as they are on the slab
        [b.intersection(gross) for b, near in zip(inside, beside, strict=True) if near == [number]]
        for number in range(len(pieces))
    ]
    return [_largest(shapely.union_all([p, *own])) for p, own in zip(pieces, filling, strict=True)]


def _largest(shape: shapely.Geometry) -> Polygon:
    """The largest polygon in a shape, snapped: slits between boxouts that touch are closed, which turned would cross."""
    whole = max(polygons_of(shape), key=lambda p: p.area)
    return max(polygons_of(shapely.set_precision(whole, SAME / 10)), key=lambda p: p.area)


def concrete_of(gross: Polygon, boxouts: Sequence[Polygon]) -> Polygon:
    """A piece that boxouts do not part, with those on it cut out."""
    inside = [b for b in boxouts if b.intersects(gross)]
    parts = left_by(gross, inside) if inside else [gross]
    return max(parts, key=lambda p: p.area)


def advised_limits(rules: SlabRules, thickness: float) -> WorkingLimits:
    """The advised figures, which weigh in the cost."""
    limits = rules.limits(thickness)
    return WorkingLimits(
        span=limits.span.advised,
        aspect=limits.aspect.advised,
        width=limits.width.advised,
        angle=limits.angle.advised,
    )


def working_limits(rules: SlabRules, thickness: float, options: EngineOptions) -> WorkingLimits:
    """The limits at a thickness, the span shortened where the user asks for smaller panels."""
    limits = rules.working(thickness)
    return replace(limits, span=limits.span * options.span_share)


def stretch(rules: SlabRules, slab: Slab) -> float:
    """How many times the working span a panel may be long: a little, and nowhere beyond the greatest span."""
    thicknesses = [slab.thickness, *(zone.thickness for zone in slab.zones)]
    room = (rules.limits(t).span.bound / rules.working(t).span for t in thicknesses)
    return max(1.0, min(LITTLE, *room))


def baseline(slab: Slab, angle: float) -> Point:
    """Where positions are measured from: the lowest, then leftmost corner as the frame sees it."""
    x0, y0, _, _ = turned_shape(slab.outline.polygon, -angle).bounds
    return (float(x0), float(y0))


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
