"""Length, width and aspect of a panel: the long and short side of its smallest enclosing rectangle."""

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import shapely

from kerfline.geometry.arrays import Numbers, Shapes
from kerfline.geometry.faces import Area

EQUAL = 5
"""Areas that agree to this many decimals of the smallest are equal: a micron here and there, as when
corners are snapped to a grid, must not decide between the three rectangles of a triangle."""

QUARTER = 90.0

KEPT = 10_000
"""Rectangles that are kept: a panel is measured by several parts, and again while another one changes."""


@dataclass(frozen=True, slots=True)
class Rectangle:
    """The smallest rectangle, at any angle, that encloses a figure.

    Attributes:
        length: Long side in mm.
        width: Short side in mm.
        angle: Direction of the long side in degrees, 0 <= angle < 180.
    """

    length: float
    width: float
    angle: float

    @property
    def aspect(self) -> float:
        """Length over width; infinite where the width is nothing."""
        return self.length / self.width if self.width else math.inf


def enclosing_rectangle(polygon: Area) -> Rectangle:
    """The smallest rectangle (by area) around a figure.

    One side of it lies along an edge of the convex hull (Freeman and Shapira 1975, by memory; the
    tests compare with shapely). Of equal rectangles the shorter one is taken, then the one whose
    long side turns least from x, so that the result does not depend on where the ring starts.
    """
    return _around(shapely.get_coordinates(polygon.convex_hull).tobytes())


@lru_cache(maxsize=KEPT)
def _around(corners: bytes) -> Rectangle:
    """The rectangle around a convex hull, given as the bytes of its corners so that it can be kept."""
    lengths, widths, angles = _smallest(np.frombuffer(corners).reshape(1, -1, 2))
    return Rectangle(length=float(lengths[0]), width=float(widths[0]), angle=float(angles[0]))


def enclosing_rectangles(hulls: Shapes) -> tuple[Numbers, Numbers]:
    """Length and width (mm) of the smallest rectangle around each of many convex polygons."""
    lengths, widths = np.zeros(len(hulls)), np.zeros(len(hulls))
    counts = shapely.get_num_coordinates(hulls)
    for count in np.unique(counts):
        alike = np.flatnonzero(counts == count)
        points = shapely.get_coordinates(hulls[alike]).reshape(len(alike), int(count), 2)
        lengths[alike], widths[alike], _ = _smallest(points)
    return lengths, widths


def _smallest(hulls: Numbers) -> tuple[Numbers, Numbers, Numbers]:
    """Length, width and angle of the rectangles around hulls of equally many corners.

    Args:
        hulls: Corners of each hull (hulls x corners x 2, mm), the first repeated at the end.
    """
    x, y = hulls[:, None, :, 0], hulls[:, None, :, 1]
    edges = np.diff(hulls, axis=1)
    angles = np.round(np.arctan2(edges[..., 1], edges[..., 0]) % (math.pi / 2), 9)
    cos, sin = np.cos(angles)[..., None], np.sin(angles)[..., None]
    along = np.ptp(cos * x + sin * y, axis=2)
    across = np.ptp(cos * y - sin * x, axis=2)
    long, areas = np.maximum(along, across), along * across
    share = np.round(areas / np.maximum(areas.min(axis=1, keepdims=True), 1e-9), EQUAL)
    best = np.lexsort((angles, np.round(long, 3), share), axis=-1)[:, :1]
    along, across, turn = (
        np.take_along_axis(a, best, axis=1)[:, 0] for a in (along, across, angles)
    )
    quarter = np.where(along >= across, 0.0, QUARTER)
    angle = (np.degrees(turn) + quarter) % (2 * QUARTER)
    return np.maximum(along, across), np.minimum(along, across), angle
