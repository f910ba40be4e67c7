"""Takes a piece of slab into its own frame, with everything that stands on it."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

import shapely
from shapely import LineString, Polygon

from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.region import PlacedRegion, Region, RegionZone, turned, turned_shape
from kerfline.engine.regions.walls import short_walls
from kerfline.geometry.faces import left_by, lines_of, polygons_of
from kerfline.geometry.ring import Point, Ring
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.falls import given_joints
from kerfline.model.layout import WorkingLimits
from kerfline.model.slab import (
    Column,
    GivenJoint,
    KeepOut,
    Pattern,
    Penetration,
    Slab,
    Wall,
)
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import grid_step

LITTLE = 1.05
"""So many times the advised span a panel may be long where that is plainly better: half a foot in ten. Further
beyond, the lines of the open floor would be better moved."""

SAW_TOLERANCE = 12.7
"""How much deeper than meant a saw may cut (mm, half an inch): taken off a keep-out's cover (common practice)."""


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
    concrete = concrete_of(slab, gross)
    outline = turned_shape(gross, -angle)
    region = Region(
        name=name,
        concrete=turned_shape(concrete, -angle),
        gross=outline,
        working=working_limits(rules, slab.thickness, options),
        advised=advised_limits(rules, slab.thickness),
        stretch=stretch(rules, slab),
        walls=tuple(_walls(slab.walls, gross, angle)),
        wishes=short_walls(slab.walls, rules.working(slab.thickness).span),
        columns=tuple(_columns(slab.columns, gross, angle)),
        penetrations=tuple(_penetrations(slab.penetrations, gross, angle)),
        zones=tuple(_zones(slab, rules, options, gross, angle)),
        keep_outs=tuple(_keep_outs(slab, rules, gross, angle)),
        pinned=tuple(_given(given_joints(slab), gross, angle)),
        forbidden=tuple(_given(slab.forbidden, gross, angle)),
        patterns=tuple(_patterns(slab.patterns, gross, angle)),
        baseline=baseline(slab, angle),
        step=grid_step(options.display),
        display=options.display,
    )
    return PlacedRegion(region=region, angle=angle, orthogonal=orthogonal)


def unparted(gross: Polygon, boxouts: Sequence[Polygon]) -> list[Polygon]:
    """The pieces of a slab that boxouts leave whole, in reading order; those boxouts stay in them.

    Boxouts that reach from edge to edge part a slab: they belong to neither side.
    """
    inside = [b for b in boxouts if b.intersects(gross)]
    pieces = left_by(gross, inside)
    if len(pieces) <= 1:
        return [gross]
    tree = shapely.STRtree(pieces)
    beside = [tree.query(b, "dwithin", SAME).tolist() for b in inside]
    return [
        max(
            polygons_of(shapely.union_all([piece, *_filling(gross, inside, beside, number)])),
            key=lambda p: p.area,
        )
        for number, piece in enumerate(pieces)
    ]


def _filling(
    gross: Polygon, boxouts: Sequence[Polygon], beside: Sequence[Sequence[int]], piece: int
) -> list[shapely.Geometry]:
    """The boxouts that lie beside one piece of a slab alone, as far as they are on the slab."""
    return [
        b.intersection(gross) for b, near in zip(boxouts, beside, strict=True) if near == [piece]
    ]


def concrete_of(slab: Slab, gross: Polygon) -> Polygon:
    """A piece that boxouts do not part, with those on it cut out."""
    boxouts = [b for b in slab.boxouts if b.intersects(gross)]
    parts = left_by(gross, boxouts) if boxouts else [gross]
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


def _path(points: Iterable[Point], angle: float) -> tuple[Point, ...]:
    return tuple(turned(p, -angle) for p in points)


def _clipped(path: tuple[Point, ...], gross: Polygon) -> list[tuple[Point, ...]]:
    """The parts of a line inside a piece, each as a path; whole paths stay as they are."""
    line = LineString(path)
    if gross.buffer(TOUCH).covers(line):
        return [path]
    parts = lines_of(shapely.line_merge(line.intersection(gross)))
    return [tuple((float(x), float(y)) for x, y in p.coords) for p in parts if p.length > SAME]


def _walls(walls: Iterable[Wall], gross: Polygon, angle: float) -> list[Wall]:
    return [
        replace(wall, path=_path(part, angle))
        for wall in walls
        for part in _clipped(wall.path, gross)
    ]


def _columns(columns: Iterable[Column], gross: Polygon, angle: float) -> list[Column]:
    return [
        replace(c, at=turned(c.at, -angle), turn=c.turn - angle)
        for c in columns
        if gross.distance(shapely.Point(c.at)) <= c.size / 2
    ]


def _penetrations(
    penetrations: Iterable[Penetration], gross: Polygon, angle: float
) -> list[Penetration]:
    return [
        replace(p, at=turned(p.at, -angle))
        for p in penetrations
        if gross.covers(shapely.Point(p.at))
    ]


def _zones(
    slab: Slab, rules: SlabRules, options: EngineOptions, gross: Polygon, angle: float
) -> list[RegionZone]:
    return [
        RegionZone(
            id=zone.id,
            area=turned_shape(zone.outline.polygon, -angle),
            working=working_limits(rules, zone.thickness, options),
            joint_at_border=zone.joint_at_border,
        )
        for zone in slab.zones
        if zone.outline.polygon.intersects(gross)
    ]


def _keep_outs(slab: Slab, rules: SlabRules, gross: Polygon, angle: float) -> list[KeepOut]:
    """The keep-outs that the cut would reach."""
    depth = rules.cut_depth(slab.thickness) + SAW_TOLERANCE
    return [
        replace(k, outline=Ring.of(turned_shape(k.outline.polygon, -angle)))
        for k in slab.keep_outs
        if k.outline.polygon.intersects(gross) and (k.cover is None or k.cover < depth)
    ]


def _given(joints: Iterable[GivenJoint], gross: Polygon, angle: float) -> list[GivenJoint]:
    return [
        replace(joint, path=_path(part, angle))
        for joint in joints
        for part in _clipped(joint.path, gross)
    ]


def _patterns(patterns: Iterable[Pattern], gross: Polygon, angle: float) -> list[Pattern]:
    out = []
    for pattern in patterns:
        if not pattern.area.polygon.intersects(gross):
            continue
        along = (
            (turned(pattern.along[0], -angle), turned(pattern.along[1], -angle))
            if pattern.along
            else None
        )
        area = Ring.of(turned_shape(pattern.area.polygon, -angle))
        out.append(replace(pattern, area=area, along=along))
    return out
