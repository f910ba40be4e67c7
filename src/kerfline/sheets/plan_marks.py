"""The slab and its joints as marks: what the plan shows before anything is written on it."""

import math
from collections.abc import Iterable, Iterator

import shapely
from shapely import LineString, MultiLineString, MultiPolygon, Polygon

from kerfline.geometry.faces import lines_of, points_of, polygons_of
from kerfline.geometry.ring import Point, Ring, flatten_arc
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.bars import Bars
from kerfline.model.layout import Joint, Layout
from kerfline.model.slab import Column, Edge, EdgeKind, JointKind, Slab, Wall
from kerfline.sheets.fall_marks import fall_arrows
from kerfline.sheets.hatch import hatch_lines
from kerfline.sheets.marks import Fill, Layer, Mark, Path
from kerfline.sheets.view import View

JOINT_LAYERS = {
    JointKind.CONTROL: Layer.CONTROL,
    JointKind.CONSTRUCTION: Layer.CONSTRUCTION,
    JointKind.ISOLATION: Layer.ISOLATION,
}
NEW_LAYERS = {
    JointKind.CONTROL: Layer.CONTROL_NEW,
    JointKind.CONSTRUCTION: Layer.CONSTRUCTION_NEW,
    JointKind.ISOLATION: Layer.ISOLATION_NEW,
}
EXISTING_LAYERS = {
    JointKind.CONTROL: Layer.CONTROL_EXISTING,
    JointKind.CONSTRUCTION: Layer.CONSTRUCTION_EXISTING,
    JointKind.ISOLATION: Layer.ISOLATION_EXISTING,
}
EDGE_LAYERS = {
    EdgeKind.ISOLATED: Layer.ISOLATION,
    EdgeKind.CONSTRUCTION: Layer.CONSTRUCTION,
}
EDGE_OFFSET = 1.0
"""How far beside the slab edge the joint along it is drawn, mm of paper."""

COLUMN_TONE = 0.35
KEEP_OUT_PITCH = 2.2
"""Distance of hatch lines over a keep-out, mm of paper."""

TICK_PITCH = 9.0
TICK_REACH = 1.5
TICK_WIDTH = 0.35
"""Distance, half length and width of the strokes across a construction joint, mm of paper."""

SMALLEST_HOLE = 0.9
"""Radius in mm of paper below which a penetration is drawn as a dot of this size."""

ELSEWHERE = 0.93
"""Tone over what other sheets show, on the plan."""

POST_SHARE = 0.4
"""Side of the column drawn inside its boxout, as a share of the boxout (its own size is not given)."""


def slab_marks(slab: Slab, layout: Layout, view: View, bars: Iterable[Bars] = ()) -> list[Mark]:
    """Everything of the slab that lies in the view's window, back to front."""
    return [
        *_walls(slab.walls, view),
        *_keep_outs(slab, view),
        *_zones(slab, view),
        *fall_arrows(slab, view),
        *_thickened(slab, view),
        *_columns(slab.columns, view),
        *_penetrations(slab, view),
        *_rings(slab, view),
        *_edges(slab, view),
        *_joints(layout, view),
        *_bars(bars, view),
    ]


def _walls(walls: Iterable[Wall], view: View) -> Iterator[Mark]:
    for wall in walls:
        if not view.sees(wall.footprint):
            continue
        for part in polygons_of(view.clipped(wall.footprint)):
            yield from _outline(Layer.WALL, part, wall.id)


def _keep_outs(slab: Slab, view: View) -> Iterator[Mark]:
    for zone in slab.keep_outs:
        area = view.clipped(zone.outline.polygon)
        for part in polygons_of(area):
            yield from _outline(Layer.KEEP_OUT, part, zone.id)
            for line in hatch_lines(part, KEEP_OUT_PITCH):
                yield _line_mark(Layer.KEEP_OUT, line, zone.id)


def _zones(slab: Slab, view: View) -> Iterator[Mark]:
    for zone in slab.zones:
        yield from _ring(Layer.ZONE, zone.outline, view, zone.id)


def _columns(columns: Iterable[Column], view: View) -> Iterator[Mark]:
    for column in columns:
        if not view.sees(column.outline.polygon if column.outline else shapely.Point(column.at)):
            continue
        if column.outline:
            yield from _ring(Layer.ISOLATION, column.outline, view, column.id)
        yield from _post(column, view)


def _post(column: Column, view: View) -> Iterator[Mark]:
    half = column.size * POST_SHARE / 2
    x, y = column.at
    square = shapely.affinity.rotate(
        shapely.box(x - half, y - half, x + half, y + half), column.turn, origin=column.at
    )
    part = view.shape(square)
    if view.window_box.covers(part):
        yield Fill(
            layer=Layer.COLUMN, rings=rings_of(part), tone=COLUMN_TONE, ref=column.id, in_view=True
        )


def _penetrations(slab: Slab, view: View) -> Iterator[Mark]:
    for hole in slab.penetrations:
        x, y = view.to_paper(hole.at)
        radius = max(hole.diameter / 2 / view.scale, SMALLEST_HOLE)
        if not view.window_box.covers(shapely.Point(x, y).buffer(radius)):
            continue
        yield Path(
            layer=Layer.PENETRATION,
            points=((x - radius, y), (x + radius, y)),
            bulges=(1.0, 1.0),
            closed=True,
            ref=hole.id,
            in_view=True,
        )
        for dx, dy in ((radius, 0.0), (0.0, radius)):
            yield Path(
                layer=Layer.PENETRATION,
                points=((x - 1.5 * dx, y - 1.5 * dy), (x + 1.5 * dx, y + 1.5 * dy)),
                width=0.18,
                ref=hole.id,
                in_view=True,
            )


def _rings(slab: Slab, view: View) -> Iterator[Mark]:
    yield from _ring(Layer.EDGE, slab.outline, view, "slab edge")
    for i, opening in enumerate(slab.openings, 1):
        yield from _ring(Layer.OPENING, opening, view, f"opening {i}")
        yield from _cross(opening, view, f"opening {i}")


def _cross(opening: Ring, view: View, ref: str) -> Iterator[Mark]:
    """The thin diagonals that tell an opening from a panel."""
    for line in opening_cross(opening.polygon):
        for part in lines_of(view.clipped(line)):
            yield _line_mark(Layer.OPENING, part, ref, width=0.13)


def opening_cross(opening: Polygon) -> list[LineString]:
    """The diagonals of an opening, within it, along the rectangle around it."""
    around = shapely.get_coordinates(opening.minimum_rotated_rectangle)
    corners = [(float(x), float(y)) for x, y in around]
    return [
        line
        for ends in ((corners[0], corners[2]), (corners[1], corners[3]))
        for line in lines_of(LineString(ends).intersection(opening))
    ]


def _ring(layer: Layer, ring: Ring, view: View, ref: str) -> Iterator[Mark]:
    """A closed curve, with true arcs where all of it lies in the window, else what is in the window."""
    flat = view.shape(ring.polygon)
    if view.window_box.covers(flat):
        yield Path(
            layer=layer,
            points=view.points(ring.points),
            bulges=ring.bulges,
            closed=True,
            ref=ref,
            in_view=True,
        )
        return
    for line in lines_of(flat.boundary.intersection(view.window_box)):
        yield _line_mark(layer, line, ref)


def _edges(slab: Slab, view: View) -> Iterator[Mark]:
    """Edges that are isolated or construction joints, just outside the slab edge."""
    clip = view.window_box.buffer(2 * EDGE_OFFSET, join_style="mitre")
    for edge in slab.edges:
        layer = EDGE_LAYERS.get(edge.kind)
        if layer:
            line = view.shape(edge_beside(slab, edge, EDGE_OFFSET * view.scale))
            for part in lines_of(line.intersection(clip)):
                yield _line_mark(layer, part, f"edge {edge.ring}.{edge.segment}")
                if edge.kind is EdgeKind.CONSTRUCTION:
                    yield from cross_ticks(part)


def edge_beside(slab: Slab, edge: Edge, distance: float) -> LineString | MultiLineString:
    """A line beside a segment of the outline or of an opening, off the concrete by a distance (mm)."""
    ring = (slab.outline, *slab.openings)[edge.ring]
    outward = shapely.LinearRing(ring.coordinates).is_ccw == (edge.ring == 0)
    return edge_line(slab, edge).offset_curve(-distance if outward else distance)


def thickened_lines(slab: Slab) -> list[tuple[str, LineString]]:
    """The hidden outlines of thickened strips under bearing walls and of turned-down edges, with names."""
    found = []
    boundary = slab.gross.boundary.buffer(1.0)
    for wall in slab.walls:
        if wall.strip_width:
            strip = wall.line.buffer(wall.strip_width / 2, cap_style="flat", join_style="mitre")
            found.append((wall.id, strip))
    for edge in slab.edges:
        if edge.kind is EdgeKind.TURNDOWN and edge.width:
            band = edge_line(slab, edge).buffer(edge.width, cap_style="flat")
            found.append((f"edge {edge.ring}.{edge.segment}", band))
    return [
        (name, line)
        for name, area in found
        for part in polygons_of(area.intersection(slab.gross))
        for line in lines_of(part.boundary.difference(boundary))
    ]


def _thickened(slab: Slab, view: View) -> Iterator[Mark]:
    for name, line in thickened_lines(slab):
        for part in lines_of(view.clipped(line)):
            yield _line_mark(Layer.ZONE, part, name)


def edge_line(slab: Slab, edge: Edge) -> LineString:
    """The straight or curved line of one segment of the outline or of an opening."""
    ring = (slab.outline, *slab.openings)[edge.ring]
    start = ring.points[edge.segment]
    end = ring.points[(edge.segment + 1) % len(ring.points)]
    bulge = ring.bulge(edge.segment)
    return LineString(flatten_arc(start, end, bulge) if bulge else [start, end])


def joint_layer(joint: Joint, layout: Layout) -> Layer:
    """The layer of a joint: on an amended plan one of additions or one of what exists, else its kind's."""
    if layout.added is None:
        return JOINT_LAYERS[joint.kind]
    return (NEW_LAYERS if joint.id in layout.added else EXISTING_LAYERS)[joint.kind]


def _joints(layout: Layout, view: View) -> Iterator[Mark]:
    for joint, shown in view.among(layout.joints, lambda j: j.line):
        for part in lines_of(shown):
            yield _line_mark(joint_layer(joint, layout), part, joint.id)
            if joint.kind is JointKind.CONSTRUCTION:
                yield from cross_ticks(part)


def cross_ticks(line: LineString) -> Iterator[Path]:
    """Short strokes across a construction joint, like its dowels: told from any other line without colour."""
    count = math.floor(line.length / TICK_PITCH)
    for n in range(count):
        along = line.length / 2 + (n - (count - 1) / 2) * TICK_PITCH
        a, b = (line.interpolate(along + step) for step in (-TICK_REACH, TICK_REACH))
        at = line.interpolate(along)
        dx, dy = (b.x - a.x) / 2, (b.y - a.y) / 2
        tips = ((at.x - dy, at.y + dx), (at.x + dy, at.y - dx))
        yield Path(layer=Layer.SYMBOL, points=tips, width=TICK_WIDTH, in_plan=True)


def _bars(places: Iterable[Bars], view: View) -> Iterator[Mark]:
    for _, shown in view.among([line for bars in places for line in bars.lines], lambda line: line):
        for part in lines_of(shown):
            yield _line_mark(Layer.BARS, part, "bars")


def _outline(layer: Layer, part: Polygon, ref: str) -> Iterator[Mark]:
    for ring in rings_of(part):
        yield Path(layer=layer, points=ring, closed=True, ref=ref, in_view=True)


def elsewhere(slab: Slab, region: Polygon | MultiPolygon, view: View) -> Iterator[Fill]:
    """A light tone over the concrete that other sheets show."""
    others = view.shape(slab.concrete.difference(region.buffer(TOUCH)))
    for part in polygons_of(others.intersection(view.window_box)):
        yield Fill(layer=Layer.HATCH, rings=rings_of(part), tone=ELSEWHERE, in_view=True)


def rings_of(part: Polygon) -> tuple[tuple[Point, ...], ...]:
    """The rings of a polygon as points, first not repeated."""
    return tuple(
        tuple((float(x), float(y)) for x, y in ring.coords[:-1])
        for ring in (part.exterior, *part.interiors)
    )


def _line_mark(layer: Layer, line: LineString, ref: str, *, width: float | None = None) -> Path:
    return Path(layer=layer, points=points_of(line), ref=ref, in_view=True, width=width)
