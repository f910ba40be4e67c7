"""Every division of a small floor of unit squares into rectangles, and the shortest of them."""

import math
from functools import cache
from itertools import pairwise

import shapely

LONGEST = 4
"""The longest side of a rectangle, in units."""


def size_of(ring):
    return max(x for x, _ in ring), max(y for _, y in ring)


def cells_of(ring):
    figure = shapely.Polygon(ring)
    wide, high = size_of(ring)
    return {
        (i, j)
        for i in range(wide)
        for j in range(high)
        if figure.contains(shapely.Point(i + 0.5, j + 0.5))
    }


def pieces_of(ring, rectangles):
    """Unit pieces of joint between some rectangles: (axis, line, piece), as the grid counts them."""
    owner = {c: n for n, r in enumerate(rectangles) for c in inside(r)}
    return frozenset(
        (axis, (i, j)[axis] + 1, (j, i)[axis])
        for i, j in cells_of(ring)
        for axis, other in ((0, (i + 1, j)), (1, (i, j + 1)))
        if other in owner and owner[other] != owner[i, j]
    )


def inside(rectangle):
    x0, y0, x1, y1 = rectangle
    return [(i, j) for i in range(x0, x1) for j in range(y0, y1)]


def crossed_by(rectangle, pieces):
    x0, y0, x1, y1 = rectangle
    return any(
        (x0 < line < x1 and y0 <= piece < y1)
        if axis == 0
        else (y0 < line < y1 and x0 <= piece < x1)
        for axis, line, piece in pieces
    )


def shortest(ring, duties, aspect=1.5):
    """The shortest division whose joints hold the duties: its length in units and its rectangles."""
    cells = cells_of(ring)
    order = sorted(cells, key=lambda c: (c[1], c[0]))

    @cache
    def rest(done):
        start = next((c for c in order if c not in done), None)
        if start is None:
            return 0, ()
        best = (math.inf, ())
        for wide in range(1, LONGEST + 1):
            for high in range(1, LONGEST + 1):
                if max(wide, high) > aspect * min(wide, high):
                    continue
                own = (start[0], start[1], start[0] + wide, start[1] + high)
                covered = frozenset(inside(own))
                if not covered <= cells or covered & done or crossed_by(own, duties):
                    continue
                more, others = rest(done | covered)
                best = min(best, (wide + high + more, (own, *others)))
        return best

    half, rectangles = rest(frozenset())
    outer = sum(abs(x1 - x0) + abs(y1 - y0) for (x0, y0), (x1, y1) in pairwise((*ring, ring[0])))
    return half - outer / 2, rectangles
