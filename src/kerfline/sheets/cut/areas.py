"""The parts of a slab that have a cut sheet of their own: its placements, or an area that someone names."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import shapely
from shapely import LineString, MultiLineString, MultiPolygon, Polygon

from kerfline.geometry.faces import lines_of, points_of
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.layout import Joint, Layout
from kerfline.model.slab import Column, JointKind, Slab
from kerfline.sheets.cut.passes import CutPass, planned_passes
from kerfline.sheets.day.day_plan import DayPlan
from kerfline.sheets.key_plan import Piece

Region = Polygon | MultiPolygon

SHORTEST = 4 * TOUCH
"""A piece of a line in an area that is shorter than this (mm) is a mere end in it."""


@dataclass(frozen=True, kw_only=True)
class CutArea:
    """What one cut sheet is about.

    Attributes:
        id: Short name, which the area's corner carries: ``2`` for the second placement, whose corner is A2.
        name: Name in the title, such as ``placement 2 of 3, day 1``.
        region: Its concrete, mm of the drawing.
        passes: Its lines in the order of cutting, clipped to it.
        formed: Construction joints that bound it.
        pieces: All parts of the slab, this one among them, for the key plan.
    """

    id: str
    name: str
    region: Region
    passes: tuple[CutPass, ...]
    formed: tuple[Joint, ...] = ()
    pieces: tuple[Piece, ...] = ()


def pour_areas(plan: DayPlan) -> tuple[CutArea, ...]:
    """The placements of a day in their order; empty where the slab is placed as one."""
    pours = plan.placement.pours.pours
    if len(pours) < 2:  # noqa: PLR2004 - one placement is no division
        return ()
    passes, formed = planned_passes(plan), plan.construction_joints
    pieces = tuple(Piece(id=pour.id, region=pour.area) for pour in pours)
    return tuple(
        CutArea(
            id=pour.id,
            name=f"placement {pour.id} of {len(pours)}, day {pour.day}",
            region=pour.area,
            passes=passes_in(pour.area, passes, formed),
            formed=_touching(pour.area, formed),
            pieces=pieces,
        )
        for pour in pours
    )


def named_area(
    key: str, name: str, region: Region, passes: Iterable[CutPass], formed: Sequence[Joint] = ()
) -> CutArea:
    """An area of the slab that someone names, with the lines that lie in it.

    Args:
        key: Its short name, such as ``N``, which its corner carries: AN.
        name: Its name, such as ``north bay``.
        region: Its concrete, mm of the drawing.
        passes: Every line of the slab in the order of cutting.
        formed: Construction joints.
    """
    return CutArea(
        id=key,
        name=name,
        region=region,
        passes=passes_in(region, passes, formed),
        formed=_touching(region, formed),
        pieces=(Piece(id=key, region=region),),
    )


def passes_in(
    region: Region, passes: Iterable[CutPass], formed: Sequence[Joint]
) -> tuple[CutPass, ...]:
    """The lines in a region, clipped to it, their ends on the construction joints that they reach."""
    near = region.buffer(TOUCH)
    fronts = MultiLineString([joint.line for joint in formed])
    return tuple(
        replace(one, sawn=replace(one.sawn, line=_reaching(part, fronts)))
        for one in passes
        for part in lines_of(one.sawn.line.intersection(near))
        if part.length > SHORTEST
    )


def _reaching(line: LineString, fronts: MultiLineString) -> LineString:
    """A line whose ends, where they stop a hair before a construction joint, lie on it."""
    points = list(line.coords)
    for i in (0, -1):
        spot = shapely.Point(points[i])
        if not fronts.is_empty and fronts.distance(spot) <= 2 * TOUCH:
            points[i] = shapely.shortest_line(fronts, spot).coords[0]
    return LineString(points)


def _touching(region: Region, formed: Iterable[Joint]) -> tuple[Joint, ...]:
    """The construction joints along a region's edge, only as far as they bound it."""
    edge = region.boundary.buffer(TOUCH)
    return tuple(
        replace(joint, path=points_of(part))
        for joint in formed
        for part in lines_of(joint.line.intersection(edge))
        if part.length > SHORTEST
    )


def layout_in(area: CutArea, layout: Layout) -> Layout:
    """What a cut sheet of an area draws and measures: its lines, and the formed joints that bound it."""
    near = area.region.buffer(TOUCH)
    names = {joint.id for joint in area.formed}
    given = [
        replace(joint, path=points_of(part))
        for joint in layout.joints
        if joint.kind is not JointKind.CONTROL and joint.id not in names
        for part in lines_of(joint.line.intersection(near))
        if part.length > SHORTEST
    ]
    depths = {joint.id: joint for joint in layout.joints}
    sawn = [replace(depths[one.sawn.joint], path=points_of(one.sawn.line)) for one in area.passes]
    panels = tuple(p for p in layout.panels if area.region.covers(p.polygon.representative_point()))
    return replace(layout, joints=(*sawn, *given, *area.formed), panels=panels)


def slab_in(area: CutArea, slab: Slab) -> Slab:
    """The slab with those walls, columns, pipes and keep-outs alone that lie in an area, for its legend."""
    near = area.region.buffer(TOUCH)
    return replace(
        slab,
        walls=tuple(w for w in slab.walls if near.intersects(w.footprint)),
        columns=tuple(c for c in slab.columns if near.intersects(_column_area(c))),
        penetrations=tuple(n for n in slab.penetrations if near.intersects(n.footprint)),
        keep_outs=tuple(k for k in slab.keep_outs if near.intersects(k.outline.polygon)),
    )


def _column_area(column: Column) -> shapely.Geometry:
    return column.outline.polygon if column.outline else shapely.Point(column.at)
