"""Rooms that are drawn as closed figures in a house's own outline, on one layer: the house is the slab, no room is.

Sizes and shares are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

from collections.abc import Sequence

import shapely

from kerfline.files.drawing.candidates.around import lying_in
from kerfline.files.drawing.candidates.candidate import Candidate, Source
from kerfline.files.drawing.candidates.scene import Scene
from kerfline.files.drawing.names import names_room
from kerfline.files.drawing.wall_pieces import THICKEST, THINNEST

ALONG = 0.2
"""Share of a room's edge that runs along the outer wall: a corner room's, a quarter or more."""

OF_HOUSE = 0.7
"""A room takes up less than this share of the house: what takes up more is a border's second line, or its own plan."""


def rooms_in(
    scene: Scene, candidate: Candidate, every: Sequence[Candidate]
) -> tuple[Candidate, ...]:
    """The figures in a closed outline, on its own layers, that are rooms behind its outer wall.

    Each holds one text that names a room, and runs along the outline at a wall's thickness for a part of its edge.
    """
    if candidate.source is not Source.CLOSED:
        return ()
    edge = candidate.polygon.exterior
    wall = edge.buffer(THICKEST + 1.0).difference(edge.buffer(THINNEST - 1.0))
    return tuple(
        room
        for room in lying_in(candidate, every)
        if room.source is Source.CLOSED
        and room.layers == candidate.layers
        and room.polygon.area < OF_HOUSE * candidate.polygon.area
        and room.polygon.exterior.intersection(wall).length >= ALONG * room.polygon.length
        and _room_texts(scene, room) == 1
    )


def _room_texts(scene: Scene, room: Candidate) -> int:
    """Texts in a figure that name a room."""
    shapely.prepare(room.polygon)
    return sum(
        room.polygon.intersects(shapely.Point(t.at))
        for t in scene.drawing.labels
        if names_room(t.text)
    )
