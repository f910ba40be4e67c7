"""Span of a panel: no straight run of concrete that its joints leave uncut is longer.

The length of the smallest enclosing rectangle alone says too little of a panel that is no rectangle: a right
triangle fits as well into the square on its legs as into the rectangle on its long side, which is half as
long again.
"""

from functools import lru_cache

import numpy as np
import shapely
from shapely import Polygon, affinity
from shapely.geometry.polygon import orient

from kerfline.geometry.arrays import Numbers, Shapes
from kerfline.geometry.rectangle import KEPT, enclosing_rectangle
from kerfline.geometry.tolerance import MEASURE, SAME, TOUCH

STRAIGHT = 1.0
"""Corners within this (mm) of a side's line lie on the side: joints that end on it from outside leave some."""

CROSSINGS = 1_000_000
"""Level lines times sides that are tried at once: so many fit in the memory of a small machine."""


def span_of(polygon: Polygon) -> float:
    """The measure (mm) of a panel that is held against the greatest joint spacing.

    The longest of three: the length of its smallest enclosing rectangle; its longest straight side; and
    the longest chord inside it along that side. A diagonal is none of them, for joints are spaced along
    the panel's own directions.
    """
    return max(enclosing_rectangle(polygon).length, straight_run(polygon))


def straight_run(polygon: Polygon) -> float:
    """The longest straight side (mm) of a panel or, where it is longer, the longest chord along that side.

    Sides within ``MEASURE`` of the longest count like it. Only the outer boundary has sides; a hole
    interrupts the chords that it lies across.
    """
    hull = polygon.convex_hull
    outer = Polygon(polygon.exterior)
    if not polygon.interiors and hull.area - outer.area <= TOUCH * outer.length:
        return _around(shapely.get_coordinates(hull).tobytes())
    return _within(orient(polygon))


@lru_cache(maxsize=KEPT)
def _around(corners: bytes) -> float:
    """The run of a convex figure, given as the bytes of its corners so that it can be kept."""
    return float(_runs(np.frombuffer(corners).reshape(1, -1, 2))[0])


def straight_runs(hulls: Shapes) -> Numbers:
    """What ``straight_run`` says of each of many convex polygons, mm."""
    out = np.zeros(len(hulls))
    counts = shapely.get_num_coordinates(hulls)
    for count in np.unique(counts):
        alike = np.flatnonzero(counts == count)
        points = shapely.get_coordinates(hulls[alike]).reshape(len(alike), int(count), 2)
        out[alike] = _runs(points)
    return out


def _runs(hulls: Numbers) -> Numbers:
    """The runs of convex figures of equally many corners.

    Args:
        hulls: Corners of each (hulls x corners x 2, mm), the first repeated at the end.
    """
    along, across = _seen_from_sides(hulls)
    lowest = np.where(across <= STRAIGHT, along, np.inf).min(axis=2)
    highest = np.where(across <= STRAIGHT, along, -np.inf).max(axis=2)
    sides = highest - lowest
    longest = sides.max(axis=1)
    slanted = np.ptp(along, axis=2) > sides + SAME
    asked = (sides >= longest[:, None] - MEASURE) & slanted
    if asked.any():
        chords = _longest_chords(along[asked], across[asked])
        np.maximum.at(longest, np.nonzero(asked)[0], chords)
    return np.asarray(longest)


def _seen_from_sides(hulls: Numbers) -> tuple[Numbers, Numbers]:
    """Where the corners of figures lie along each of their sides, and how far inside it."""
    start, step = hulls[:, :-1], np.diff(hulls, axis=1)
    way = step / np.maximum(np.hypot(step[..., 0], step[..., 1]), SAME / 10)[..., None]
    x, y = (hulls[:, None, :-1, axis] - start[:, :, None, axis] for axis in (0, 1))
    way_x, way_y = way[..., 0, None], way[..., 1, None]
    across = way_x * y - way_y * x
    inward = np.sign(across.sum(axis=(1, 2)))[:, None, None]
    return way_x * x + way_y * y, across * inward


def _longest_chords(along: Numbers, across: Numbers) -> Numbers:
    """The longest chord of each convex figure along the axis that its corners are given on.

    The length of a chord is a concave function of its distance from the axis, straight between corners, so
    that one through a corner is the longest.

    Args:
        along: Places of the corners along the axis (figures x corners).
        across: Their distances from it.
    """
    start_u, start_v = along[:, None, :], across[:, None, :]
    du = np.roll(along, -1, axis=1)[:, None, :] - start_u
    dv = np.roll(across, -1, axis=1)[:, None, :] - start_v
    level = np.where(dv == 0.0, 1.0, dv)
    share = (across[:, :, None] - start_v) / level
    met = (share >= 0.0) & (share <= 1.0) & (dv != 0.0)
    place = start_u + share * du
    low = np.where(met, place, np.inf).min(axis=2)
    high = np.where(met, place, -np.inf).max(axis=2)
    return np.asarray((high - low).max(axis=1))


def _within(panel: Polygon) -> float:
    """The run of a figure of any shape, anticlockwise."""
    points = _straightened(panel)
    steps = np.diff(points, axis=0)
    sides = np.hypot(steps[:, 0], steps[:, 1])
    longest = float(sides.max())
    ways = [steps[i] / sides[i] for i in np.flatnonzero(sides >= longest - MEASURE)]
    slanted = [way for way in ways if np.ptp(points @ way) > longest + SAME]
    return max([longest, *(longest_chord(panel, way) for way in slanted)])


def _straightened(panel: Polygon) -> Numbers:
    """The corners of the outer boundary without those on straight sides, the first repeated at the end."""
    points = shapely.get_coordinates(panel.exterior)[:-1]
    first = int(np.lexsort((points[:, 1], points[:, 0]))[0])
    turned = np.roll(points, -first, axis=0)
    ring = shapely.linestrings(np.vstack([turned, turned[:1]]))
    return np.asarray(shapely.get_coordinates(shapely.simplify(ring, STRAIGHT)))


def longest_chord(panel: Polygon, way: Numbers) -> float:
    """The longest chord inside a figure along a direction, found a hair's breadth beside each corner."""
    dx, dy = way
    seen = affinity.affine_transform(panel, [dx, dy, -dy, dx, 0.0, 0.0])
    corners = shapely.get_coordinates(seen)[:, 1]
    levels = np.unique(np.round(np.concatenate([corners - SAME, corners + SAME]), 3))
    some = np.array_split(levels, 1 + len(levels) * len(corners) // CROSSINGS)
    return max(_longest_across(seen, level) for level in some)


def _longest_across(figure: Polygon, levels: Numbers) -> float:
    """The longest piece of any level line inside a figure, between its crossings with the rings, two by two."""
    rings = [shapely.get_coordinates(ring) for ring in (figure.exterior, *figure.interiors)]
    u, v = np.concatenate([ring[:-1] for ring in rings]).T
    end_u, end_v = np.concatenate([ring[1:] for ring in rings]).T
    level = levels[:, None]
    crossed = (v <= level) != (end_v <= level)
    at = u + (level - v) / np.where(end_v == v, 1.0, end_v - v) * (end_u - u)
    places = np.sort(np.where(crossed, at, np.inf), axis=1)
    most = 2 * (int(crossed.sum(axis=1).max()) // 2)
    starts, ends = places[:, 0:most:2], places[:, 1:most:2]
    lengths = np.subtract(ends, starts, out=np.zeros_like(ends), where=np.isfinite(ends))
    return float(lengths.max(initial=0.0))
