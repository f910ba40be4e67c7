"""The panels that joints cut a slab into."""

from collections.abc import Iterable

import numpy as np
import numpy.typing as npt
import shapely
from shapely import LineString, Polygon

from kerfline.geometry.faces import faces
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.layout import Panel


def panels_of(concrete: Polygon, lines: Iterable[LineString]) -> tuple[Panel, ...]:
    """The panels between joints, numbered ``P1``, ``P2``, ... in reading order.

    Args:
        concrete: The slab's concrete in mm; holes stay holes.
        lines: The joints, in any order, whole or in pieces. An end within ``TOUCH`` of an edge or of
            another joint closes a panel; a joint that stops inside the concrete closes none.
    """
    cut = faces(concrete, reaching(lines))
    return tuple(Panel(id=f"P{n}", polygon=face) for n, face in enumerate(cut, start=1))


def reaching(lines: Iterable[LineString], reach: float = TOUCH) -> list[LineString]:
    """Lines carried straight on by ``reach`` (mm) at both ends.

    What a joint is short of within the tolerance, it then crosses; what sticks out cuts nothing.
    """
    longer = np.array(list(lines), dtype=object)
    points = shapely.get_coordinates(longer)
    counts = shapely.get_num_coordinates(longer)
    last = np.cumsum(counts) - 1
    first = last - counts + 1
    moved = points.copy()
    moved[first] += reach * _ways(points[first + 1], points[first])
    moved[last] += reach * _ways(points[last - 1], points[last])
    return list(shapely.set_coordinates(longer, moved)) if len(longer) else []


def _ways(start: npt.NDArray[np.float64], end: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Unit vectors from points to points."""
    step = end - start
    return step / np.maximum(np.hypot(step[:, 0], step[:, 1]), SAME)[:, None]
