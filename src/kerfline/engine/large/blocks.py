"""Parts of a large region, each a region of its own in the same frame."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

import shapely
from shapely import LineString, Polygon

from kerfline.engine.lines.features import X, Y
from kerfline.engine.regions.region import Region
from kerfline.geometry.faces import lines_of, polygons_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.slab import GivenJoint, Wall

LEAST = 1000.0
"""PieceLayout of less area than this (mm2) are rounding."""


def blocks(region: Region, cuts: tuple[Sequence[float], Sequence[float]]) -> Iterator[Region]:
    """The blocks between separators, row by row.

    Args:
        region: The region.
        cuts: Places of the separators across x and across y.
    """
    x0, y0, x1, y1 = region.gross.bounds
    for low_y, high_y in pairwise([y0, *cuts[Y], y1]):
        for low_x, high_x in pairwise([x0, *cuts[X], x1]):
            frame = shapely.box(low_x, low_y, high_x, high_y)
            for gross in polygons_of(_clip(region.gross, frame)):
                if gross.area > LEAST:
                    yield block(region, gross)


def _clip(shape: Polygon, frame: Polygon) -> shapely.Geometry:
    """The part of a shape in a box; boxes wholly inside stay boxes."""
    return frame if shape.covers(frame) else shape.intersection(frame)


def block(region: Region, gross: Polygon) -> Region:
    """A part of a region with what stands on it."""
    clipped = shapely.clip_by_rect(region.concrete, *gross.bounds)
    parts = polygons_of(clipped.intersection(gross))
    shapely.prepare(gross)
    near = gross.buffer(TOUCH)
    return replace(
        region,
        gross=gross,
        concrete=max(parts, key=lambda p: p.area, default=gross),
        walls=tuple(_walls(region.walls, gross)),
        columns=tuple(c for c in region.columns if _on(c.at, near)),
        penetrations=tuple(p for p in region.penetrations if _on(p.at, gross)),
        zones=tuple(z for z in region.zones if z.area.intersection(gross).area > LEAST),
        keep_outs=tuple(k for k in region.keep_outs if k.outline.polygon.intersects(gross)),
        pinned=tuple(_given(region.pinned, gross)),
        forbidden=tuple(_given(region.forbidden, gross)),
        landings=(),
    )


def _on(at: Point, shape: Polygon) -> bool:
    """Whether a point is on a shape; most are seen not to be by its box alone."""
    x0, y0, x1, y1 = shape.bounds
    near = x0 <= at[0] <= x1 and y0 <= at[1] <= y1
    return near and bool(shape.covers(shapely.Point(at)))


def _paths(path: tuple[Point, ...], gross: Polygon) -> list[tuple[Point, ...]]:
    line = LineString(path)
    if not line.intersects(gross):
        return []
    parts = lines_of(shapely.line_merge(line.intersection(gross)))
    return [tuple((float(x), float(y)) for x, y in p.coords) for p in parts if p.length > TOUCH]


def _walls(walls: Iterable[Wall], gross: Polygon) -> Iterator[Wall]:
    for wall in walls:
        for path in _paths(wall.path, gross):
            yield replace(wall, path=path)


def _given(joints: Iterable[GivenJoint], gross: Polygon) -> Iterator[GivenJoint]:
    for joint in joints:
        for path in _paths(joint.path, gross):
            yield replace(joint, path=path)
