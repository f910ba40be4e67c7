"""Walls that only show as what is left between rooms: the layer of walls holds the outer ones and nothing inside."""

from collections.abc import Sequence

from kerfline.files.drawing.names import names_room
from kerfline.files.drawing.opened import Drawing
from kerfline.files.drawing.walls import read_walls
from kerfline.geometry.ring import Ring

FEWEST = 2
"""Rooms that have a wall between them."""


def layers_of_rooms(drawing: Drawing, slab: Ring, walls: Sequence[str]) -> list[str]:
    """The layers of rooms between whose outlines the inner walls stand; none where inner walls are drawn themselves.

    Args:
        drawing: The drawing.
        slab: The slab's edge.
        walls: The layers of walls.
    """
    display = drawing.unit.display
    drawn = [c for n in walls for c in drawing.on(n)]
    if read_walls(drawn, slab, display)[0]:
        return []
    found = []
    for layer in drawing.layers:
        curves = drawing.on(layer)
        rooms = [c for c in curves if c.path.closed]
        if layer in drawing.hidden or not names_room(layer) or len(rooms) < FEWEST:
            continue
        if read_walls(curves, slab, display, mixed=frozenset({layer}))[0]:
            found.append(layer)
    return found
