"""Moves, adds and takes away corners of zones and keep-outs."""

from dataclasses import replace

from kerfline.app.ring_corners import with_added, with_moved, with_removed
from kerfline.app.slab_edit import changed, find
from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.ring import Point, Ring
from kerfline.model.slab import KeepOut, Slab, Zone


def area_of(slab: Slab, kind: str, name: str) -> Ring:
    """The outline of a zone or keep-out.

    Raises:
        InputRefused: There is none of that name, or the kind is no area.
    """
    return _area(slab, kind, name).outline


def move_area_corner(slab: Slab, kind: str, name: str, index: int, to: Point) -> Slab:
    """The slab with one corner of an area elsewhere."""
    ring = with_moved(area_of(slab, kind, name), _called(kind, name), index, to)
    return _with(slab, kind, name, ring)


def add_area_corner(
    slab: Slab, kind: str, name: str, at: Point | None = None, segment: int | None = None
) -> Slab:
    """The slab with one corner more on an area, as ``ring_corners.add_corner`` adds one."""
    ring, _ = with_added(area_of(slab, kind, name), _called(kind, name), at, segment)
    return _with(slab, kind, name, ring)


def remove_area_corner(slab: Slab, kind: str, name: str, index: int) -> Slab:
    """The slab with one corner of an area less."""
    ring = with_removed(area_of(slab, kind, name), _called(kind, name), index)
    return _with(slab, kind, name, ring)


def _called(kind: str, name: str) -> str:
    return f"{kind} {name}"


def _area(slab: Slab, kind: str, name: str) -> KeepOut | Zone:
    thing = find(slab, kind, name)
    if not isinstance(thing, KeepOut | Zone):
        raise InputRefused(Mistake(what="this has no corners", where=_called(kind, name)))
    return thing


def _with(slab: Slab, kind: str, name: str, ring: Ring) -> Slab:
    return changed(slab, kind, replace(_area(slab, kind, name), outline=ring))
