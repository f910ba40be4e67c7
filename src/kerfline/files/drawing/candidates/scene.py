"""What surrounds the candidates, measured once: the walls and all that is drawn.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.files.drawing.candidates.tiles import MOST_CURVES, tile_side
from kerfline.files.drawing.curves import Curve
from kerfline.files.drawing.names import decorates, elsewhere, outline_rank, part_named
from kerfline.files.drawing.opened import Drawing
from kerfline.files.drawing.unit_evidence import DOOR, swings
from kerfline.files.drawing.wall_outline import edge_of, wall_faces
from kerfline.files.drawing.wall_pieces import (
    THICKEST,
    Faces,
    Piece,
    faces_of,
    faces_of_walls,
    pieces_of_width,
)
from kerfline.geometry.arrays import Shapes
from kerfline.geometry.near import Crowded
from kerfline.geometry.ring import Arc

SHARE = 0.6
"""Share of a layer's lines that are faces of walls from which on it is a layer of walls, whatever its name."""

MIXED = 0.2
"""From this share on it holds walls among other things."""

ENOUGH = 5_000.0
"""Length of wall (mm) that a layer without a telling name must hold."""


BORDER = 510.0
"""Half the width (mm) of the strip in which the lines of a border lie."""

ALL_AROUND = 0.85
"""Share of its length that a border is drawn for: it has no doors and windows."""


@dataclass(frozen=True, kw_only=True)
class Scene:
    """What surrounds the candidates.

    Attributes:
        drawing: The drawing.
        layers: The layers that can be seen and do not only decorate.
        wall_layers: The layers of walls, by name or else by their pairs of lines.
        walls: Centre lines of the walls.
        faces: The lines that the walls are drawn with.
        spots: A point on each curve that can be seen and is no decoration, wall or slab outline apart.
        texts: Where each text stands.
        doors: The swings of doors, mm.
    """

    drawing: Drawing
    layers: tuple[str, ...]
    wall_layers: tuple[str, ...]
    walls: tuple[Piece, ...]
    faces: tuple[LineString, ...]
    spots: Shapes
    texts: Shapes
    doors: tuple[Arc, ...] = ()

    @property
    def walls_named(self) -> bool:
        """Whether a layer's name says that these are walls."""
        return any(part_named(n) == "walls" for n in self.wall_layers)

    @property
    def wall_length(self) -> float:
        """Length of all walls, mm."""
        return sum(w.line.length for w in self.walls)


def scene_of(drawing: Drawing) -> Scene:
    """Measures what surrounds the candidates."""
    layers = tuple(n for n in drawing.layers if n not in drawing.hidden and not decorates(n))
    named = tuple(n for n in layers if part_named(n) == "walls" and drawing.on(n))
    walls, faces = _walls(drawing, named)
    if not walls:
        named, walls, faces = _unnamed(drawing, layers)
    return Scene(
        drawing=drawing,
        layers=layers,
        wall_layers=named,
        walls=tuple(walls),
        faces=tuple(faces),
        spots=_spots([c for n in layers for c in drawing.on(n)]),
        texts=np.asarray(shapely.points([t.at for t in drawing.labels]), dtype=object)
        if drawing.labels
        else np.empty(0, dtype=object),
        doors=tuple(a for a in swings(drawing.curves) if DOOR[0] <= a.radius <= DOOR[1]),
    )


def _walls(drawing: Drawing, layers: Sequence[str]) -> tuple[list[Piece], list[LineString]]:
    pieces: list[Piece] = []
    faces: list[LineString] = []
    for layer in layers:
        curves = drawing.on(layer)
        found = faces_of_walls(curves)
        pieces += found.pieces if found.mostly else (*found.pieces, *found.singles)
        faces += wall_faces(curves)
    return pieces, faces


def _unnamed(
    drawing: Drawing, layers: Sequence[str]
) -> tuple[tuple[str, ...], list[Piece], list[LineString]]:
    """Walls on layers whose names say nothing: the layers of walls, else those with walls among other things."""
    pure: list[tuple[str, Faces]] = []
    mixed: list[tuple[str, Faces]] = []
    for layer in layers:
        curves = drawing.on(layer)
        if (
            part_named(layer)
            or elsewhere(layer)
            or outline_rank(layer) is not None
            or not 0 < len(curves) <= MOST_CURVES
        ):
            continue
        try:
            found = faces_of(curves)
        except Crowded:
            continue
        length = sum(p.line.length for p in found.pieces)
        if length < ENOUGH:
            continue
        if 0 < tile_side(drawing, layer) <= THICKEST:
            continue
        share = 1 - found.left / found.length
        if share >= SHARE:
            pure.append((layer, found))
        elif share >= MIXED:
            mixed.append((layer, found))
    kept = pure or mixed
    pieces = [p for _, own in kept for p in own.pieces]
    wide = [edge_of(p) for n, _ in kept for p in pieces_of_width(drawing.on(n))]
    faces = [*(f for _, own in kept for f in own.lines), *wide]
    while (border := _border(pieces)) is not None:
        pieces = [p for p in pieces if not border.covers(p.line)]
        faces = [f for f in faces if not border.covers(f)]
    names = {n for n, own in kept if any(p in pieces for p in own.pieces)}
    return tuple(sorted(names)), pieces, faces


def _border(pieces: Sequence[Piece]) -> Polygon | None:
    """The strip that the two lines of a sheet's border lie in, where they were paired; None where there is none.

    They go around all other pairs, and none of those comes near: walls inside a building meet the outer ones.
    """
    if not pieces:
        return None
    around = shapely.union_all([p.line for p in pieces]).envelope
    if not isinstance(around, Polygon):
        return None
    strip = around.exterior.buffer(BORDER, join_style="mitre")
    on = [p for p in pieces if strip.covers(p.line)]
    rest = [p.line for p in pieces if not strip.covers(p.line)]
    whole = sum(p.line.length for p in on) >= ALL_AROUND * around.length
    if not (whole and rest) or any(strip.intersects(line) for line in rest):
        return None
    return strip


def _spots(curves: Sequence[Curve]) -> Shapes:
    if not curves:
        return np.empty(0, dtype=object)
    return np.asarray(shapely.points([c.path.points[0] for c in curves]), dtype=object)


def share_inside(area: Polygon, points: Shapes) -> float:
    """Share of points that lie in an area; 0 where there are none."""
    if not len(points):
        return 0.0
    shapely.prepare(area)
    return float(shapely.intersects(area, points).mean())
