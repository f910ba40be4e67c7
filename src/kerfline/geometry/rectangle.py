"""Length, width and aspect of a panel: the long and short side of its smallest enclosing rectangle."""

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import shapely
from shapely import Polygon

EQUAL = 5
"""Areas that agree to this many decimals of the smallest are equal: a micron here and there, as when
corners are snapped to a grid, must not decide between the three rectangles of a triangle."""

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


def enclosing_rectangle(polygon: Polygon) -> Rectangle:
    """The smallest rectangle (by area) around a polygon.

    One side of it lies along an edge of the convex hull (Freeman and Shapira 1975, by memory; the
    tests compare with shapely). Of equal rectangles the shorter one is taken, then the one whose
    long side turns least from x, so that the result does not depend on where the ring starts.
    """
    return _around(shapely.get_coordinates(polygon.convex_hull).tobytes())


@lru_cache(maxsize=KEPT)
def _around(corners: bytes) -> Rectangle:
    """The rectangle around a convex hull, given as the bytes of its corners so that it can be kept."""
    hull = np.frombuffer(corners).reshape(-1, 2)
    edges = np.diff(hull, axis=0)
    angles = np.arctan2(edges[:, 1], edges[:, 0]) % (math.pi / 2)
    angles = np.unique(np.round(angles, 9))
    cos, sin = np.cos(angles), np.sin(angles)
    along = np.outer(cos, hull[:, 0]) + np.outer(sin, hull[:, 1])
    across = np.outer(cos, hull[:, 1]) - np.outer(sin, hull[:, 0])
    sides_along, sides_across = np.ptp(along, axis=1), np.ptp(across, axis=1)
    lengths = np.maximum(sides_along, sides_across)
    areas = sides_along * sides_across
    best = np.lexsort(
        (angles, np.round(lengths, 3), np.round(areas / max(areas.min(), 1e-9), EQUAL))
    )[0]
    turn = 0.0 if sides_along[best] >= sides_across[best] else 90.0
    return Rectangle(
        length=float(lengths[best]),
        width=float(min(sides_along[best], sides_across[best])),
        angle=(math.degrees(float(angles[best])) + turn) % 180.0,
    )
