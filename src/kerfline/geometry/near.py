"""Which shapes are near one another: the one place that asks shapely's tree, with a typed answer."""

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt
import shapely

from kerfline.geometry.ring import Point

Floats = npt.NDArray[np.float64]
Indices = npt.NDArray[np.intp]


def spots(points: Sequence[Point]) -> list[shapely.Geometry]:
    """Points as shapes."""
    return list(
        np.asarray(shapely.points(np.asarray(points, dtype=float).reshape(-1, 2)), dtype=object)
    )


def lines(rows: Floats) -> list[shapely.Geometry]:
    """Straight lines as shapes, from rows ``x0 y0 x1 y1``."""
    return list(np.asarray(shapely.linestrings(rows.reshape(-1, 2, 2)), dtype=object))


def near_pairs(shapes: Sequence[shapely.Geometry], distance: float) -> tuple[Indices, Indices]:
    """Pairs of different shapes within a distance (mm) of one another, each pair once, sorted."""
    if not shapes:
        return np.empty(0, dtype=np.intp), np.empty(0, dtype=np.intp)
    asked = np.asarray(shapes, dtype=object)
    found = shapely.STRtree(shapes).query(asked, predicate="dwithin", distance=distance)
    found = found[:, found[0] < found[1]]
    order = np.lexsort((found[1], found[0]))
    return found[0][order].astype(np.intp), found[1][order].astype(np.intp)


def clusters(count: int, first: Indices, second: Indices) -> list[int]:
    """For each of a number of things the lowest index of those that it hangs together with.

    Args:
        count: How many things there are.
        first: One index of each pair that hangs together.
        second: The other.
    """
    root = list(range(count))

    def find(i: int) -> int:
        while root[i] != i:
            root[i] = root[root[i]]
            i = root[i]
        return i

    for i, j in zip(first.tolist(), second.tolist(), strict=True):
        a, b = find(i), find(j)
        if a != b:
            root[max(a, b)] = min(a, b)
    return [find(i) for i in range(count)]
