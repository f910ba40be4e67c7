"""The panels that the joints really close off, matched with those that the layout claims."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from shapely import Polygon

from kerfline.geometry.arrays import Flags, Shapes
from kerfline.geometry.faces import Area, faces_between
from kerfline.geometry.rectangle import Rectangle, enclosing_rectangle
from kerfline.geometry.ring import Point
from kerfline.geometry.span import span_of
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.layout import Panel


@dataclass(frozen=True, eq=False)
class Face:
    """A piece of concrete that edges and joints close off.

    Attributes:
        polygon: Its outline and the openings inside it.
    """

    polygon: Polygon

    @cached_property
    def box(self) -> Rectangle:
        """The smallest enclosing rectangle."""
        return enclosing_rectangle(self.polygon)

    @cached_property
    def span(self) -> float:
        """What is held against the greatest joint spacing: the length or a longer straight run, mm."""
        return span_of(self.polygon)

    @cached_property
    def middle(self) -> Point:
        """A place inside it, its centre where that is concrete."""
        centre = self.polygon.centroid
        spot = centre if self.polygon.contains(centre) else self.polygon.representative_point()
        return (float(spot.x), float(spot.y))


@dataclass(frozen=True, eq=False)
class ClosedPanel:
    """A face by the name that the layout gives it.

    Attributes:
        id: Name of the panel that the layout claims there; empty where it claims none.
        face: What is closed off.
    """

    id: str
    face: Face

    @property
    def polygon(self) -> Polygon:
        """Its outline and the openings inside it."""
        return self.face.polygon

    @property
    def box(self) -> Rectangle:
        """The smallest enclosing rectangle."""
        return self.face.box

    @property
    def span(self) -> float:
        """What is held against the greatest joint spacing, mm."""
        return self.face.span

    @property
    def middle(self) -> Point:
        """A place inside it."""
        return self.face.middle


def faces_of(concrete: Area, linework: shapely.Geometry) -> tuple[Face, ...]:
    """The pieces of concrete between edges and joints, in reading order.

    Every outline begins at its lowest leftmost corner, so that the same piece is the same to the last bit
    whatever else the linework holds.

    Args:
        concrete: The slab's concrete in mm.
        linework: The edges and joints, cut wherever they meet.
    """
    found = np.asarray(faces_between(concrete, linework), dtype=object)
    whole = shapely.orient_polygons(shapely.normalize(found))
    return tuple(Face(polygon) for polygon in whole.tolist())


def closed_panels(
    faces: Sequence[Face], claimed: Sequence[Panel], known: Sequence[ClosedPanel] = ()
) -> tuple[ClosedPanel, ...]:
    """The faces, each with the id of the claimed panel that it agrees with.

    Args:
        faces: What edges and joints close off.
        claimed: The panels that the layout names.
        known: Panels of an earlier layout, which stay themselves where face and name do.
    """
    own = {id(panel.polygon): panel.id for panel in claimed}
    names = {n: own[id(f.polygon)] for n, f in enumerate(faces) if id(f.polygon) in own}
    if len(names) < len(faces):
        names = _matched([face.polygon for face in faces], claimed)
    before = {panel.face: panel for panel in known}

    def named(face: Face, name: str) -> ClosedPanel:
        panel = before.get(face)
        return panel if panel and panel.id == name else ClosedPanel(name, face)

    return tuple(named(face, names.get(n, "")) for n, face in enumerate(faces))


def _matched(closed: Sequence[Polygon], claimed: Sequence[Panel]) -> dict[int, str]:
    """For each face that one claimed panel covers, and no more than covers, that panel's id."""
    if not claimed:
        return {}
    shapes = np.asarray([p.polygon for p in claimed])
    within = shapely.point_on_surface(np.asarray(closed))
    pairs = shapely.STRtree(shapes).query(within, "intersects")
    same = _agree(np.asarray(closed)[pairs[0]], shapes[pairs[1]])
    names: dict[int, str] = {}
    taken: set[int] = set()
    for face, claim in sorted(zip(*pairs[:, same].tolist(), strict=True)):
        if face not in names and claim not in taken:
            names[face] = claimed[claim].id
            taken.add(claim)
    return names


def _agree(one: Shapes, two: Shapes) -> Flags:
    """Which outlines differ by less than a joint's end may miss a line."""
    same: Flags = shapely.equals_exact(one, two, SAME, normalize=True)
    rest = np.flatnonzero(~same)
    slack = TOUCH * (shapely.length(one[rest]) + shapely.length(two[rest])) / 2
    apart = shapely.area(shapely.symmetric_difference(one[rest], two[rest]))
    same[rest] = apart <= slack
    return same
