"""A floor that is drawn by its tiles: many alike cells of lines that cross, walls standing among them.

Its edge is the outer edge of tiles and walls together. What they go all around without a tile in it, a pool or a bed,
may be left out. Sizes and shares are common practice.
"""

from collections.abc import Iterator, Sequence

import shapely
from shapely import LineString, Polygon

from kerfline.files.drawing.candidates.candidate import Candidate, Source
from kerfline.files.drawing.candidates.scene import Scene
from kerfline.files.drawing.candidates.tiles import tile_side
from kerfline.geometry.faces import polygons_of
from kerfline.geometry.ring import Ring
from kerfline.geometry.wrap import grown, wrapped

BARE = 10e6
WIDER = 1.5
"""What no line crosses, of this area (mm2, 10 square metres) and so many tiles wide, is a pool or a bed."""

GAP = 600.0
"""Gaps (mm) between tiles and walls that are bridged: no door is as narrow."""


def paved_floors(scene: Scene) -> Iterator[Candidate]:
    """The outer edge of the tiles and walls of each layer that is a pattern of tiles, bare areas in it left out or not."""
    for layer in scene.layers:
        tile = tile_side(scene.drawing, layer)
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
