"""Which shapes are near one another: the one place that asks shapely's tree, with a typed answer."""

from collections.abc import Sequence

import numpy as np
import shapely

from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.arrays import Indices, Numbers
from kerfline.geometry.ring import Point

MOST_PAIRS = 100_000
"""Pairs of lines near one another that are looked at; what has more is a pattern or a pile, and would take long: a
large plan has some thousands."""

AT_ONCE = 64
"""Shapes whose neighbours are asked for in one go, so that a pile of them is counted before it fills the memory."""


def spots(points: Sequence[Point]) -> list[shapely.Geometry]:
    """Points as shapes."""
    return list(
        np.asarray(shapely.points(np.asarray(points, dtype=float).reshape(-1, 2)), dtype=object)
    )


def lines(rows: Numbers) -> list[shapely.Geometry]:
    """Straight lines as shapes, from rows ``x0 y0 x1 y1``."""
    return list(np.asarray(shapely.linestrings(rows.reshape(-1, 2, 2)), dtype=object))


class Crowded(InputRefused):
    """So much is drawn on one spot that it cannot be told apart in bearable time."""


def near_pairs(shapes: Sequence[shapely.Geometry], distance: float) -> tuple[Indices, Indices]:
    """Pairs of different shapes within a distance (mm) of one another, each pair once, sorted.

    Raises:
        Crowded: There are more than ``MOST_PAIRS`` of them.
    """
    if len(shapes) < 2:  # noqa: PLR2004 - a pair
        return np.empty(0, dtype=np.intp), np.empty(0, dtype=np.intp)
    asked = np.asarray(shapes, dtype=object)
    tree = shapely.STRtree(shapes)
    first: list[Indices] = []
    second: list[Indices] = []
    count = 0
    for start in range(0, len(asked), AT_ONCE):
        some = asked[start : start + AT_ONCE]
        found = tree.query(some, predicate="dwithin", distance=distance)
        one, other = found[0].astype(np.intp) + start, found[1].astype(np.intp)
        later = one < other
        count += int(later.sum())
        if count > MOST_PAIRS:
            raise _crowded(asked[start])
        first.append(one[later])
        second.append(other[later])
    one, other = np.concatenate(first), np.concatenate(second)
    order = np.lexsort((other, one))
    return one[order], other[order]


def _crowded(shape: shapely.Geometry) -> Crowded:
    middle = shapely.centroid(shape)
    x, y = middle.x / 1000, middle.y / 1000
    return Crowded(
        Mistake(
            what="too much is drawn on one spot to be told apart",
            where=f"around ({x:,.1f} m, {y:,.1f} m)",
            found=f"more than {MOST_PAIRS:,} pairs of lines or points that touch or nearly do",
            remedy="delete what is drawn over and over, or name the layers that count, so that the others "
            "are left alone",
        )
    )


def clusters(count: int, first: Indices, second: Indices) -> list[int]:
    """For each of a number of things the lowest index of those that it hangs together with.

    By hand: a graph of networkx takes eight times as long over the most pairs allowed.

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
