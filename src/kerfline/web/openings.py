"""Does what an action says to an opening, or to a corner of one, of the outline or of an area."""

from collections.abc import Sequence

from kerfline.app.area_corners import (
    add_area_corner,
    area_of,
    move_area_corner,
    remove_area_corner,
)
from kerfline.app.opening_edit import (
    add_opening,
    move_opening,
    place_opening,
    remove_opening,
    resize_opening,
)
from kerfline.app.ring_corners import add_corner, move_corner, remove_corner, ring_of
from kerfline.app.slab_edit import AREAS, positive_length
from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.ring import Point
from kerfline.model.slab import Slab
from kerfline.units import Unit, parse_length
from kerfline.web.actions import (
    Add,
    AddVertex,
    Delete,
    Move,
    MoveVertex,
    PlaceVertex,
    RemoveVertex,
    Set,
    VertexAction,
)

OPPOSITE = 2
"""Corners that say where an opening lies."""

SIDES = ("left", "bottom")
"""Fields that say how far an opening lies from the sides of the slab."""


def on_opening(action: Add | Move | Set | Delete, slab: Slab, unit: Unit) -> Slab:
    """The slab after something was done to a whole opening.

    Raises:
        InputRefused: It cannot be done.
    """
    match action:
        case Add():
            if len(action.points) != OPPOSITE:
                raise InputRefused(Mistake(what="an opening needs two opposite corners"))
            return add_opening(slab, *action.points)
        case Move():
            return move_opening(slab, number_of(action.id), action.by)
        case Set():
            return _set(action, slab, unit)
        case Delete():
            return remove_opening(slab, number_of(action.id))


def _set(action: Set, slab: Slab, unit: Unit) -> Slab:
    number, text = number_of(action.id), str(action.value)
    if action.field in SIDES:
        place = parse_length(text, unit, where=action.field)
        return place_opening(slab, number, SIDES.index(action.field), place)
    return resize_opening(slab, number, action.field, positive_length(text, unit, action.field))


def on_corner(action: VertexAction, slab: Slab, unit: Unit) -> Slab:
    """The slab after something was done to a corner of the outline or of an opening.

    Raises:
        InputRefused: It cannot be done.
    """
    if action.what in AREAS:
        return _on_area_corner(action, slab, unit)
    ring = 0 if action.what == "outline" else number_of(action.id)
    match action:
        case MoveVertex():
            return move_corner(slab, ring, action.index, action.to)
        case PlaceVertex():
            to = _placed(action, ring_of(slab, ring).points, unit)
            return move_corner(slab, ring, action.index, to)
        case AddVertex():
            return add_corner(slab, ring, action.at, action.after)
        case RemoveVertex():
            return remove_corner(slab, ring, action.index)


def _on_area_corner(action: VertexAction, slab: Slab, unit: Unit) -> Slab:
    kind, name = action.what, action.id
    match action:
        case MoveVertex():
            return move_area_corner(slab, kind, name, action.index, action.to)
        case PlaceVertex():
            to = _placed(action, area_of(slab, kind, name).points, unit)
            return move_area_corner(slab, kind, name, action.index, to)
        case AddVertex():
            return add_area_corner(slab, kind, name, action.at, action.after)
        case RemoveVertex():
            return remove_area_corner(slab, kind, name, action.index)


def _placed(action: PlaceVertex, points: Sequence[Point], unit: Unit) -> Point:
    """A corner with one coordinate as written, in the job's own axes."""
    if action.index >= len(points):
        raise InputRefused(Mistake(what="there is no such corner", where=action.what))
    wished = parse_length(action.text, unit, where=action.axis)
    x, y = points[action.index]
    return (wished, y) if action.axis == "x" else (x, wished)


def number_of(name: str) -> int:
    """The number of an opening.

    Raises:
        InputRefused: It is none.
    """
    if not (name.isascii() and name.isdigit() and int(name) > 0):
        raise InputRefused(Mistake(what="there is no such opening", where=name))
    return int(name)
