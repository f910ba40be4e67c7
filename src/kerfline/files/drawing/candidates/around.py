"""How figures of a drawing lie to one another and to its walls: in, around, beside.

Sizes and shares are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

from collections.abc import Sequence

import numpy as np
import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from kerfline.files.drawing.candidates.candidate import Candidate, Source, on_ledge
from kerfline.files.drawing.candidates.scene import Scene
from kerfline.files.drawing.candidates.unnamed_doubts import WALLS_TELL
from kerfline.files.drawing.names import outline_rank
from kerfline.files.drawing.unit_evidence import WALL
from kerfline.geometry.wrap import grown

PLAIN = 3
"""The last rank of names that speak of a slab, its footprint or its foundation; those behind may be any outline."""

HUGGING = 0.9
"""Share of the edge that has a wall beside it for that."""

BESIDE = 450.0
"""A wall stands beside the edge within this distance (mm)."""

PROBES = 100
"""Places along an edge that are looked at for a wall beside them."""

STRIP = 500.0
"""A figure whose area over half its length around is under this (mm) is a strip: the body of a wall, a footing."""

RUN_ON = 500.0
"""Axes run on beyond the outermost of them by more than this (mm), to their bubbles; an edge drawn too long by less."""

MOST_AXES = 2_000
"""Lines of a layer from which on it holds no grid of axes."""

ALONG_AXES = 0.9
"""Share of a figure's edge that lies on such lines."""

ON_FACE = 5.0

ON_FACES = 0.6
"""A figure runs along faces of walls where this share of its edge lies this near (mm) to them, doors and windows apart."""

WALLS_APART = 0.7
"""The floor within the walls of a plan is at least this share of the whole."""

SHARED = 0.9
"""A candidate lies in another one where it is smaller than this share of it and all but a hair inside."""


def lying_in(candidate: Candidate, every: Sequence[Candidate]) -> list[Candidate]:
    """The candidates that lie in one."""
    polygon = candidate.polygon
    return [
        c
        for c in every
        if c is not candidate
        and c.polygon.area < SHARED * polygon.area
        and lies_in(c.polygon, polygon)
    ]


def lies_in(small: Polygon, large: BaseGeometry) -> bool:
    """Whether a figure lies in another one, all but a hair."""
    return bool(large.buffer(1.0).covers(small))


def on_a_ledge(polygon: Polygon, plans: Sequence[Candidate]) -> bool:
    """Whether a figure goes around the walls of a building a hand's breadth outside."""
    return any(on_ledge(c.polygon, polygon) for c in plans if c.source is Source.WALLS)


def hugged(scene: Scene, polygon: Polygon) -> bool:
    """Whether walls stand all along a figure's edge."""
    return scene.wall_length >= WALLS_TELL and _beside(scene, polygon) >= HUGGING


def _beside(scene: Scene, polygon: Polygon) -> float:
    """Share of a figure's edge with a wall beside it."""
    edge = polygon.exterior
    steps = np.asarray(
        [edge.interpolate((i + 0.5) / PROBES, normalized=True) for i in range(PROBES)], dtype=object
    )
    tree = shapely.STRtree([w.line for w in scene.walls])
    found = tree.query(steps, "dwithin", BESIDE)
    return len(set(found[0].tolist())) / PROBES


def of_axes(scene: Scene, candidate: Candidate) -> bool:
    """Whether the edge of a figure is made of lines that run on beyond it at both ends."""
    polygon = candidate.polygon
    inner = polygon.buffer(RUN_ON)
    shapely.prepare(inner)
    lines = [c.path.line for n in candidate.layers for c in scene.drawing.on(n)]
    if len(lines) > MOST_AXES:
        return False
    axes = [
        line
        for line in lines
        if not inner.intersects(shapely.Point(line.coords[0]))
        and not inner.intersects(shapely.Point(line.coords[-1]))
    ]
    on = polygon.exterior.intersection(shapely.union_all(shapely.buffer(axes, ON_FACE))).length
    return bool(on >= ALONG_AXES * polygon.exterior.length)


def along_inner_faces(scene: Scene, candidate: Candidate, plans: Sequence[Candidate]) -> bool:
    """Whether a figure's edge runs along the inner faces of the outer walls: the area of a room, taken off."""
    polygon = candidate.polygon
    if candidate.source is Source.WALLS or not any(_within_walls(polygon, c) for c in plans):
        return False
    edge = polygon.exterior
    faces = np.asarray(scene.faces, dtype=object)
    near = faces[shapely.dwithin(faces, edge, ON_FACE)]
    on = edge.intersection(shapely.union_all(shapely.buffer(near, ON_FACE))).length
    # The walls stand outside of it: along outer faces they would stand inside.
    shell = polygon.buffer(WALL[1] / 2 + ON_FACE).difference(polygon)
    walls = np.asarray([w.line for w in scene.walls], dtype=object)
    beside = float(shapely.length(shapely.intersection(walls, shell)).sum())
    return bool(min(on, beside) >= ON_FACES * edge.length)


def _within_walls(polygon: Polygon, outer: Candidate) -> bool:
    """Whether a figure lies within the walls of a building, or takes up most of another figure, walls apart."""
    if outer.source is not Source.WALLS and polygon.area < WALLS_APART * outer.polygon.area:
        return False
    return lies_in(polygon, grown(outer.polygon, -WALL[0]))


def plainly_named(candidate: Candidate) -> bool:
    """Whether its layers' names speak of a slab or foundation: no sheet's border is called so."""
    ranks = [outline_rank(n) for n in candidate.layers]
    return all(r is not None and r <= PLAIN for r in ranks)
