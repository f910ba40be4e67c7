"""What is proven of a layout: the least joint length of any, and how far the search for the cheapest came.

The least length of any layout whose joints lie along the axes is the chord bound. A free chord of length s, from edge
to edge or wall to wall, is crossed by at least ceil(s / L) - 1 joints. Integrated over all chords of one direction this
is joint length across that direction. L is the span, or less where a panel's other side cannot be long enough for the
aspect limit.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely

from kerfline.engine.arrays import Flags, Numbers
from kerfline.engine.partition.grid import Grid
from kerfline.engine.partition.rectangles import runs
from kerfline.engine.regions.region import Region, X, Y
from kerfline.geometry.faces import Area
from kerfline.geometry.tolerance import MEASURE
from kerfline.model.layout import Status

SQUARE = 2.0 + math.sqrt(math.pi)
"""Least perimeter over area of any figure inside a square of side one: the square's Cheeger constant."""


def least_length(concrete: Area, span: float) -> float:
    """No joints that keep every panel within the span are shorter than this, mm.

    Every panel lies in a rectangle whose long side is at most the span L, so in a square of side L.
    Of all figures in that square, convex or not, the least perimeter p for its area a has the square
    with its corners rounded to the radius L / (2 + sqrt(pi)): p >= (2 + sqrt(pi)) a / L. (Cheeger
    constant of a rectangle: Kawohl and Lachand-Robert, Pacific Journal of Mathematics 225, 2006, by
    memory; the tests find it again by searching the radius.) Added up over the panels the perimeters
    are the concrete's own perimeter P once and every joint twice, so that for the area A

        joints >= ((2 + sqrt(pi)) A / L - P) / 2.

    For rectangular panels 4 would stand in place of 3.77. On a slab little larger than a panel, or
    narrower, most of the panels' perimeter is the slab's own, and the bound says little or nothing.

    Args:
        concrete: Area and perimeter count, openings and boxouts taken out.
        span: The longest working span that holds anywhere on it, mm.
    """
    reach = span + MEASURE
    return float(max(0.0, (SQUARE * concrete.area / reach - concrete.length) / 2))


CLOSED = 1e-6
"""Share of the cost by which cost and bound may differ and still be the same."""


@dataclass(frozen=True)
class Proof:
    """What a part costs, and the least that it may cost on its candidate lines.

    Attributes:
        cost: Weighted cost in mm of joint.
        bound: Proven lower bound of that cost; 0 where nothing is proven.
    """

    cost: float = 0.0
    bound: float = 0.0

    @property
    def known(self) -> bool:
        """Whether something is proven about it; of a part that costs nothing there is nothing to prove."""
        return self.cost <= 0.0 or self.bound > 0.0

    @property
    def closed(self) -> bool:
        """Whether it is proven to be the best."""
        return self.cost - self.bound <= CLOSED * self.cost

    def __add__(self, other: "Proof") -> "Proof":
        """That of both together."""
        return Proof(self.cost + other.cost, self.bound + other.bound)


def together(parts: Iterable[Proof]) -> tuple[Status, Proof]:
    """How far the search for the best came in a layout of parts that were searched one after the other."""
    found = list(parts)
    whole = sum(found, Proof())
    if not all(part.known for part in found):
        return Status.HEURISTIC, whole
    if len(found) > 1:
        return Status.PARTS, whole
    return Status.OPTIMAL if whole.closed else Status.TIME_LIMIT, whole


SAME_AREA = 1e-6
"""Share of the area within which a squared outline is the true one."""

MOSTLY = 0.5
"""A wall under this share of a piece of line does not bound the chords there."""


def length_bound(grid: Grid, region: Region, span: float, joints: tuple[Flags, Flags]) -> float:
    """Least joint length, mm, for any positions along the axes.

    Args:
        grid: The grid.
        region: For the limits.
        span: Working span, the longest of the slab's and the zones'.
        joints: The pieces that are joints in the layout; walls that it leaves bare do not count.
    """
    error = _squaring_error(grid, region)
    total = sum(_crossings(grid, region, span, axis, joints, 2.0 * error) for axis in (X, Y))
    return max(0.0, total - _uncut(region) - 2.0 * error * len(runs(joints)))


def _uncut(region: Region) -> float:
    """Length that joints through columns save where they cross the boxouts."""
    boxes = [c.outline.polygon.bounds for c in region.columns if c.outline]
    return sum((x1 - x0) + (y1 - y0) for x0, y0, x1, y1 in boxes)


def _squaring_error(grid: Grid, region: Region) -> float:
    """How far (mm) the squared outline of a surveyed slab lies off the true one at most."""
    cells = [
        shapely.box(
            grid.places[X][i], grid.places[Y][j], grid.places[X][i + 1], grid.places[Y][j + 1]
        )
        for i, j in np.argwhere(grid.inside)
    ]
    square = shapely.union_all(cells)
    if square.symmetric_difference(region.gross).area <= SAME_AREA * region.gross.area:
        return 0.0
    return float(shapely.hausdorff_distance(square.boundary, region.gross.boundary))


def _crossings(
    grid: Grid,
    region: Region,
    span: float,
    axis: int,
    joints: tuple[Flags, Flags],
    slack: float,
) -> float:
    """Length of joint that the chords along an axis ask for, with the walls across them.

    A true chord may be shorter than the squared one, and a panel beside it longer, by the slack (mm).
    """
    stops = _stops(grid, axis, joints)
    other = _free_heights(grid, 1 - axis, joints)
    rows = np.diff(grid.places[1 - axis])
    total = float((np.diff(grid.places[1 - axis])[None, :] * (stops & grid.interior[axis])).sum())
    inside = grid.inside if axis == X else grid.inside.T
    for row, height in enumerate(rows):
        for start, end in _chords(stops[:, row], inside[:, row]):
            reach = grid.places[axis][end] - grid.places[axis][start] - slack
            tallest = min(span, float(other[start:end, row].max()) + slack)
            limit = min(span, region.working.aspect * tallest)
            total += height * max(0, int(np.ceil((reach - MEASURE) / limit)) - 1)
    return total


def _stops(grid: Grid, axis: int, joints: tuple[Flags, Flags]) -> Flags:
    """Pieces where chords end: the boundary, and walls whose joint is cut."""
    pieces = np.diff(grid.places[1 - axis])
    wall = (grid.wall[axis] > MOSTLY * pieces) | grid.must[axis]
    return np.asarray(~grid.interior[axis] | (wall & joints[axis]))


def _chords(stops: Flags, inside: Flags) -> list[tuple[int, int]]:
    marks = np.flatnonzero(stops)
    return [(int(a), int(b)) for a, b in pairwise(marks) if inside[a]]


def _free_heights(grid: Grid, axis: int, joints: tuple[Flags, Flags]) -> Numbers:
    """For each cell the free chord through it along an axis, as [line of other axis, row]."""
    stops = _stops(grid, axis, joints)
    inside = grid.inside if axis == X else grid.inside.T
    out = np.zeros(inside.shape)
    for row in range(inside.shape[1]):
        for start, end in _chords(stops[:, row], inside[:, row]):
            out[start:end, row] = grid.places[axis][end] - grid.places[axis][start]
    return out.T
