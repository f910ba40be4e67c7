"""What makes an outline doubtful that no layer's name speaks for: then it is asked about, however good it looks.

Sections, details of reinforcement and sheets of components hold figures that look like plans. Figures here are common
practice, tried on drawings of all kinds that hold no slab.
"""

from collections.abc import Iterator
from itertools import pairwise

import shapely

from kerfline.files.drawing.candidates.candidate import Candidate, Sign, Source
from kerfline.files.drawing.candidates.scene import Scene
from kerfline.files.drawing.names import outline_rank
from kerfline.files.drawing.unit_evidence import WALL
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.units import format_depth

WALLS_TELL = 5_000.0
"""Length of wall (mm) from which on it tells where the slab is."""

SMALL = 10e6
"""A slab under this (mm2, 10 square metres) is uncommon where anything larger is drawn."""

DOORS = 2
"""Doors from which on pairs of lines on layers of no telling name are the walls of a building."""

DIMENSIONS = 4
"""Dimensions from which on the slab's own size is among them."""

STATES = 0.01
"""A dimension states a length within this share: it may run from a ledge or a face of a wall."""


def unnamed_doubts(scene: Scene, candidate: Candidate) -> Iterator[Sign]:
    """What is doubtful of a candidate on layers of no telling name; nothing where a name speaks for it."""
    if any(outline_rank(n) is not None for n in candidate.layers) or scene.walls_named:
        return
    if candidate.source is Source.WALLS:
        if _doors(scene, candidate) < DOORS:
            words = "neither a layer's name nor doors say that its lines are walls"
            yield Sign(points=-1.0, words=words, around=True)
    elif candidate.polygon.area < SMALL:
        yield Sign(points=0.0, around=True)
    elif scene.walls and all(w.thickness > WALL[1] for w in scene.walls) and not scene.doors:
        thick = format_depth(min(w.thickness for w in scene.walls), scene.drawing.unit.display)
        words = f"its lines are {thick} apart, more than walls are thick: a frame around the slab, perhaps"
        yield Sign(points=-1.0, words=words, around=True)
    elif scene.wall_length < WALLS_TELL and not _dimensioned(scene, candidate):
        yield Sign(
            points=-1.0, words="the dimensions state other lengths than its own", around=True
        )


def _doors(scene: Scene, candidate: Candidate) -> int:
    """Doors that swing in a candidate."""
    near = candidate.polygon
    shapely.prepare(near)
    return sum(near.intersects(shapely.Point(door.centre)) for door in scene.doors)


def _dimensioned(scene: Scene, candidate: Candidate) -> bool:
    """Whether the drawing states a side of a candidate, or states too little to tell."""
    stated = [s.drawn * scene.drawing.factor for s in scene.drawing.stated]
    if len(stated) < DIMENSIONS:
        return True
    polygon = candidate.polygon
    box = enclosing_rectangle(polygon)
    x0, y0, x1, y1 = polygon.bounds
    edges = [shapely.LineString(ends).length for ends in pairwise(polygon.exterior.coords)]
    sides = [box.length, box.width, x1 - x0, y1 - y0, *edges]
    return any(abs(s - side) <= STATES * side for s in stated for side in sides)
