"""The plan view of one entity as paths of straight and arc segments, in mm."""

import math
from collections.abc import Callable, Iterator
from typing import Any

from ezdxf.entities import (
    Arc,
    Circle,
    DXFEntity,
    DXFGraphic,
    Ellipse,
    Hatch,
    Line,
    LWPolyline,
    MLine,
    Polyline,
    Solid,
    Spline,
)
from ezdxf.math import Vec3

from kerfline.files.drawing.kernel_faces import level_faces
from kerfline.files.drawing.no_shape import NoShape
from kerfline.geometry.paths import Path
from kerfline.geometry.ring import GREATEST_BULGE, LEAST_BULGE, Point
from kerfline.geometry.tolerance import SAGITTA

OF_SIZE = 100_000
"""Where the unit is open, a free-form curve lies within this part of its size of its chords."""

FULL_TURN = 360.0
UPRIGHT = 1e-6
"""An entity whose normal leans less than this from the vertical lies in plan."""

FEW = 4
"""Chords that a flattened curve has at least between its knots."""


def has_shape(kind: str) -> bool:
    """Whether entities of this type are read as curves."""
    return kind in _READERS


def shape_of(entity: DXFEntity, factor: float, fine: float = 1.0) -> Iterator[Path]:
    """The paths of an entity.

    Args:
        entity: An entity of the model space or of a block reference that was taken apart.
        factor: Millimetres in one drawing unit.
        fine: How many times as finely as usual a free-form curve is flattened, where it is a small one.

    Raises:
        NoShape: The entity is degenerate.
    """
    if isinstance(entity, Ellipse | Spline):
        yield from _free_form(entity, factor, fine)
        return
    yield from _READERS[entity.dxftype()](entity, factor)


def _upright(entity: DXFGraphic) -> int:
    """1 where the entity lies in plan as drawn, -1 where seen from below, 0 where it leans."""
    normal = entity.dxf.get("extrusion", None)
    if normal is None or not normal.magnitude:
        return 1
    rise = normal.z / normal.magnitude  # some writers give normals of another length than 1
    if rise > 1 - UPRIGHT:
        return 1
    return -1 if rise < -1 + UPRIGHT else 0


def _line(entity: Line, factor: float) -> Iterator[Path]:
    yield Path((_scaled(entity.dxf.start, factor), _scaled(entity.dxf.end, factor)))


def _arc(entity: Arc, factor: float) -> Iterator[Path]:
    facing = _upright(entity)
    sweep = (entity.dxf.end_angle - entity.dxf.start_angle) % FULL_TURN
    if facing == 0 or not math.isfinite(sweep):
        yield from _flattened(entity, factor)
        return
    if sweep == 0.0:
        yield from _circle(entity, factor)
        return
    _radius_of(entity)
    bulge = math.tan(math.radians(sweep) / 4) * facing
    ends = (_scaled(entity.start_point, factor), _scaled(entity.end_point, factor))
    yield Path(ends, (bulge, 0.0))


def _circle(entity: Circle, factor: float) -> Iterator[Path]:
    facing = _upright(entity)
    if facing == 0:
        yield from _flattened(entity, factor)
        return
    radius = _radius_of(entity) * factor
    x, y = _scaled(entity.ocs().to_wcs(entity.dxf.center), factor)
    yield Path(((x - radius, y), (x + radius, y)), (1.0, 1.0), closed=True)


def _radius_of(entity: Circle) -> float:
    radius = abs(float(entity.dxf.radius))
    if not math.isfinite(radius) or radius == 0.0:
        raise NoShape("its radius is nothing")
    return radius


def _lwpolyline(entity: LWPolyline, factor: float) -> Iterator[Path]:
    facing = _upright(entity)
    if facing == 0:
        yield from _flattened(entity, factor)
        return
    points = [_scaled(v, factor) for v in entity.vertices_in_wcs()]
    bulges = [float(b) * facing for (b,) in entity.get_points("b")]
    yield _polyline_path(points, bulges, bool(entity.closed))


def _polyline(entity: Polyline, factor: float) -> Iterator[Path]:
    if not (entity.is_2d_polyline or entity.is_3d_polyline):
        raise NoShape("it is a mesh, not an edge")
    facing = _upright(entity)
    if facing == 0:
        yield from _flattened(entity, factor)
        return
    # Control points of a smoothed polyline (flag 16) are no points of the curve.
    kept = [v for v in entity.vertices if not v.dxf.flags & 16]
    ocs = entity.ocs() if entity.is_2d_polyline else None
    places = [ocs.to_wcs(v.dxf.location) if ocs else v.dxf.location for v in kept]
    bulges = [float(v.dxf.get("bulge", 0.0)) * facing for v in kept]
    yield _polyline_path([_scaled(p, factor) for p in places], bulges, bool(entity.is_closed))


def _polyline_path(points: list[Point], bulges: list[float], closed: bool) -> Path:  # noqa: FBT001
    if len(points) < 2:  # noqa: PLR2004 - a curve has two ends
        raise NoShape("it has fewer than two points")
    if not all(abs(b) <= GREATEST_BULGE for b in bulges):
        raise NoShape("a bulge is not that of an arc")
    bent = tuple(0.0 if abs(b) < LEAST_BULGE else b for b in bulges)
    return Path(tuple(points), bent if any(bent) else (), closed)


def _flattened(entity: DXFGraphic, factor: float) -> Iterator[Path]:
    """Any curve as chords; free-form curves have no arcs to keep."""
    from ezdxf import path as paths

    curve = paths.make_path(entity)
    for part in curve.sub_paths():
        points = tuple(_scaled(v, factor) for v in part.flattening(SAGITTA / factor, segments=FEW))
        if len(points) > 1:
            yield Path(points)


def width_of(entity: DXFEntity) -> float:
    """Width that a polyline is drawn with all along, in drawing units; 0 for anything else."""
    if isinstance(entity, LWPolyline):
        constant = entity.dxf.get("const_width", 0.0)
        corners = [w for pair in entity.get_points("se") for w in pair]
    elif isinstance(entity, Polyline) and entity.is_2d_polyline:
        constant = 0.0
        ends = [entity.dxf.get(f"default_{end}", 0.0) for end in ("start_width", "end_width")]
        corners = [
            v.dxf.get(end, default)
            for v in entity.vertices
            for end, default in zip(("start_width", "end_width"), ends, strict=True)
        ]
    else:
        return 0.0
    widths = {round(float(w), 6) for w in corners}
    width = float(constant) or (widths.pop() if len(widths) == 1 else 0.0)
    return width if math.isfinite(width) and width > 0 else 0.0


def hatch_edges(hatch: Hatch, factor: float) -> Iterator[Path]:
    """The edges of a hatch as closed curves of chords."""
    from ezdxf import path as paths

    for part in paths.from_hatch(hatch):
        points = [_scaled(v, factor) for v in part.flattening(SAGITTA / factor, segments=FEW)]
        if len(points) > 1:
            yield Path(tuple(points[:-1] if points[0] == points[-1] else points), (), closed=True)


def _free_form(entity: Ellipse | Spline, factor: float, fine: float = 1.0) -> Iterator[Path]:
    """An ellipse or spline as chords of the curve itself, not of a curve that stands for it."""
    sagitta = SAGITTA / factor
    if fine != 1.0:
        rough = [_scaled(v, factor) for v in entity.flattening(1e9, FEW)]
        xs, ys = zip(*rough, strict=True)
        sagitta = max(SAGITTA / fine, math.hypot(max(xs) - min(xs), max(ys) - min(ys)) / OF_SIZE)
    points = tuple(_scaled(v, factor) for v in entity.flattening(sagitta, FEW))
    if len(points) > 1:
        yield Path(points)


def _filled(entity: Solid, factor: float) -> Iterator[Path]:
    points = tuple(_scaled(v, factor) for v in entity.wcs_vertices())
    yield Path(points, closed=True)


def _multiline(entity: MLine, factor: float) -> Iterator[Path]:
    for part in entity.virtual_entities():
        if has_shape(part.dxftype()):
            yield from shape_of(part, factor)


def _scaled(point: Vec3, factor: float) -> Point:
    return (float(point.x) * factor, float(point.y) * factor)


_READERS: dict[str, Callable[[Any, float], Iterator[Path]]] = {
    "LINE": _line,
    "ARC": _arc,
    "CIRCLE": _circle,
    "ELLIPSE": _free_form,
    "SPLINE": _free_form,
    "HELIX": _flattened,
    "LWPOLYLINE": _lwpolyline,
    "POLYLINE": _polyline,
    "MLINE": _multiline,
    "SOLID": _filled,
    "TRACE": _filled,
    "REGION": level_faces,
    "3DSOLID": level_faces,
    "BODY": level_faces,
}
