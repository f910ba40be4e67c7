"""A piece of slab as a region: clipped with everything that stands on it, with its limits, in a frame of its own."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

import shapely
from shapely import LineString, Polygon

from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.orientation import Lined, Turn, moved
from kerfline.engine.regions.region import (
    PlacedRegion,
    Region,
    RegionZone,
    parts_in,
    turned_shape,
)
from kerfline.engine.regions.walls import short_walls
from kerfline.geometry.faces import left_by, polygons_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.falls import given_joints
from kerfline.model.layout import WorkingLimits
from kerfline.model.slab import Slab
from kerfline.rules.cover import SPARE_COVER
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import grid_step

LITTLE = 1.05
"""So many times the advised span a panel may be long where that is plainly better: half a foot in ten. Further
beyond, the lines of the open floor would be better moved."""

LEAST = 1000.0
"""Pieces of less area than this (mm2) are rounding."""


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
