"""A floor that is drawn by its tiles: many alike cells of lines that cross, walls standing among them.

Its edge is the outer edge of tiles and walls together. What they go all around without a tile in it, a pool or a bed,
may be left out. Sizes and shares are common practice.
"""

import math
from collections.abc import Iterator, Sequence

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.files.drawing.candidates.candidate import Candidate, Source
from kerfline.files.drawing.candidates.scene import MOST_CURVES, Scene
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.ring import Ring
from kerfline.geometry.wrap import grown, wrapped

FEWEST = 50
"""Cells of a pattern of tiles; axes have fewer bays."""

LARGEST_TILE = 4e6
"""A tile is no larger (mm2, 2 m square)."""

LEAST_CELL = 1e4
"""What is smaller (mm2, 100 mm square) lies between lines that were drawn twice."""

ALIKE = 0.1
HALF = 0.5
"""This share of the cells have the area of the middle one but for the first share."""

BARE = 10e6
WIDER = 1.5
"""What no line crosses, of this area (mm2, 10 square metres) and so many tiles wide, is a pool or a bed."""

EVEN = 1.0
"""Lines of tiles that miss one another by this (mm) cross."""

GAP = 600.0
"""Gaps (mm) between tiles and walls that are bridged: no door is as narrow."""


def paved_floors(scene: Scene) -> Iterator[Candidate]:
    """The outer edge of the tiles and walls of each layer that is a pattern of tiles, bare areas in it left out or not."""
    for layer in scene.layers:
        tile = _tile(scene, layer)
        if not tile:
            continue
        lines = [c.path.line for c in scene.drawing.on(layer)] + list(scene.faces)
        for area in wrapped(lines, GAP):
            if area.area < BARE:
                continue
            bare = [Ring.of(part) for part in _bare(area, lines, WIDER * tile)]
            for courts in ((), tuple(bare)) if bare else ((),):
                yield Candidate(
                    ring=Ring.of(area),
                    layers=tuple(sorted({layer, *scene.wall_layers})),
                    source=Source.TILES,
                    alike=bool(bare),
                    courts=courts,
                )


def _bare(area: Polygon, lines: Sequence[LineString], width: float) -> list[Polygon]:
    """The parts of an area that no line crosses, of a width (mm) or more, largest first."""
    near = shapely.union_all(shapely.buffer(lines, width / 2, join_style="mitre"))
    wide = grown(area.difference(near), width / 2)
    plain = [Polygon(p.exterior) for p in polygons_of(wide) if p.area >= BARE]
    return sorted(plain, key=lambda p: (-round(p.area), p.bounds))


def _tile(scene: Scene, layer: str) -> float:
    """How long (mm) and wide the tiles of a layer are about; 0 where it is no pattern of tiles."""
    curves = scene.drawing.on(layer)
    if not FEWEST // 4 <= len(curves) <= MOST_CURVES or not scene.drawing.linework(layer).rings:
        return 0.0
    areas = np.asarray([c.area for c in _cells([c.path.line for c in curves])])
    areas = areas[areas > LEAST_CELL]
    if len(areas) < FEWEST:
        return 0.0
    tile = float(np.median(areas))
    alike = float(np.mean(np.abs(areas / tile - 1) <= ALIKE))
    return math.sqrt(tile) if alike >= HALF and tile <= LARGEST_TILE else 0.0


def _cells(lines: Sequence[LineString]) -> list[Polygon]:
    """What lines that cross part the plane into."""
    noded = shapely.union_all(lines, grid_size=EVEN)
    return [p for p in shapely.get_parts(shapely.polygonize([noded])) if isinstance(p, Polygon)]
