"""The panels that the joints really close off, matched with those that the layout claims."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt
import shapely
from shapely import Polygon

from kerfline.geometry.faces import Area, faces_between
from kerfline.geometry.rectangle import Rectangle, enclosing_rectangle
from kerfline.geometry.ring import Point
from kerfline.geometry.span import span_of
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.layout import Panel


@dataclass(frozen=True, kw_only=True)
class ClosedPanel:
    """A piece of concrete that edges and joints close off.

    Attributes:
        id: Name of the panel that the layout claims there; empty where it claims none.
        polygon: Its outline and the openings inside it.
    """

    id: str
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
        """A place inside the panel, its centre where that is concrete."""
        centre = self.polygon.centroid
        spot = centre if self.polygon.contains(centre) else self.polygon.representative_point()
        return (float(spot.x), float(spot.y))


def closed_panels(
    concrete: Area, linework: shapely.Geometry, claimed: Sequence[Panel]
) -> tuple[ClosedPanel, ...]:
    """The panels between joints, each with the id of the claimed panel that it agrees with.

    Args:
        concrete: The slab's concrete in mm.
        linework: The edges and joints, cut wherever they meet.
        claimed: The panels that the layout names.
    """
    closed = faces_between(concrete, linework)
    names = _matched(closed, claimed)
    return tuple(ClosedPanel(id=names.get(n, ""), polygon=face) for n, face in enumerate(closed))


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


def _agree(one: npt.NDArray[np.object_], two: npt.NDArray[np.object_]) -> npt.NDArray[np.bool_]:
    """Which outlines differ by less than a joint's end may miss a line."""
    same: npt.NDArray[np.bool_] = shapely.equals_exact(one, two, SAME, normalize=True)
    rest = np.flatnonzero(~same)
    slack = TOUCH * (shapely.length(one[rest]) + shapely.length(two[rest])) / 2
    apart = shapely.area(shapely.symmetric_difference(one[rest], two[rest]))
    same[rest] = apart <= slack
    return same
