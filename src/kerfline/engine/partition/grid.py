"""The grid between the candidate lines, and what lies on each piece of each line."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely import Polygon

from kerfline.engine.lines.lattice import Lattice
from kerfline.engine.measure.cost import Cost, cost_on
from kerfline.engine.options import Weights
from kerfline.engine.regions.features import CLEAR_OF, MINOR
from kerfline.engine.regions.region import Region, X, Y, along_axis
from kerfline.engine.regions.walls import strip_half, wall_slack
from kerfline.geometry.arrays import Flags, Numbers, Shapes
from kerfline.geometry.faces import points_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH

SAMPLES = (0.125, 0.375, 0.625, 0.875)
"""Where a cell is probed along each axis to see how much of it is concrete."""

MOSTLY = 0.5
"""Share of a cell that must be concrete for it to count as slab."""


@dataclass(frozen=True, kw_only=True)
class Served:
    """A straight part of a wall and the lines of a grid that serve it.

    Attributes:
        axis: The axis whose lines run along it.
        line: Index of the line nearest to it.
        first: Index of the first line within its thickness.
        last: Index of the last one.
        lengths: Length of it on each piece of those lines, mm.
        rate: What each mm of it costs that has no joint, mm of joint.
        short: Whether it only wishes for a joint.
    """

    axis: int
    line: int
    first: int
    last: int
    lengths: Numbers
    rate: float
    short: bool


@dataclass(frozen=True, kw_only=True)
class Grid:
    """The cells between the candidate lines.

    ``sides[axis]``-like arrays have a row for each line of the axis and a column for each piece of it
    between two neighbouring lines of the other axis.

    Attributes:
        places: Places of the lines of each axis, mm.
        inside: Whether cell (i, j) is slab.
        interior: For each axis, whether a piece has slab on both sides.
        hidden: Length of each piece that lies under a wall, mm.
        wall: Length of wall that each piece must serve, mm.
        owed: What it costs where no joint on a piece serves that wall, mm of joint.
        wish: Length of wall that each piece would serve, and need not, mm.
        beside: Walls that more than one line serves.
        firm: For each axis the places of the lines that something sets; the others divide open floor.
        price: What a joint on each piece costs, mm of joint; 0 on the boundary.
        banned: Whether a joint on the piece is out of the question.
        must: Whether a joint on the piece is pinned.
    """

    places: tuple[Numbers, Numbers]
    inside: Flags
    interior: tuple[Flags, Flags]
    hidden: tuple[Numbers, Numbers]
    wall: tuple[Numbers, Numbers]
    owed: tuple[Numbers, Numbers]
    wish: tuple[Numbers, Numbers]
    beside: tuple[Served, ...]
    firm: tuple[Numbers, Numbers]
    price: tuple[Numbers, Numbers]
    banned: tuple[Flags, Flags]
    must: tuple[Flags, Flags]


def grid(region: Region, lattice: Lattice, weights: Weights) -> Grid:
    """The grid of a region's candidate lines."""
    places = (lattice.places(X), lattice.places(Y))
    inside = _inside(lattice.outline, places)
    interior = (_interior(inside), _interior(inside.T))
    found = list(_served(region, places, cost_on(region, weights)))
    wall = _walls(found, places, wishes=False)
    wish = _walls(found, places, wishes=True)
    hidden = _hidden(found, places)
    poor = _poor(region, places)
    return Grid(
        places=places,
        inside=inside,
        interior=interior,
        hidden=(hidden[X], hidden[Y]),
        wall=wall,
        owed=_owed(found, places),
        beside=tuple(p for p in found if p.first < p.last),
        firm=(_firm(lattice, X), _firm(lattice, Y)),
        wish=(np.maximum(wish[X] - wall[X], 0.0), np.maximum(wish[Y] - wall[Y], 0.0)),
        price=(
            _price(places, X, interior[X], hidden[X], poor[X], weights),
            _price(places, Y, interior[Y], hidden[Y], poor[Y], weights),
        ),
        banned=_banned(region, places, interior),
        must=_must(region, places, interior),
    )


def _served(region: Region, places: tuple[Numbers, Numbers], price: Cost) -> Iterator[Served]:
    """Every straight part of a wall along an axis that a line serves."""
    for wall in region.walls:
        if not wall.takes_joint:
            continue
        for start, end in pairwise(wall.path):
            axis = along_axis(start, end)
            if axis is None:
                continue
            away = np.abs(places[axis] - (start[axis] + end[axis]) / 2)
            near = np.flatnonzero(away <= max(wall_slack(wall), TOUCH) + TOUCH)
            if len(near):
                low, high = sorted((start[1 - axis], end[1 - axis]))
                yield Served(
                    axis=axis,
                    line=int(np.argmin(away)),
                    first=int(near[0]),
                    last=int(near[-1]),
                    lengths=_overlap(places[1 - axis], low, high),
                    rate=price.bare_rate(wall.line.length),
                    short=wall.id in region.wishes,
                )


def _overlap(stops: Numbers, start: float, end: float) -> Numbers:
    """How much of each piece between stops lies between two places."""
    return np.asarray(np.maximum(np.minimum(stops[1:], end) - np.maximum(stops[:-1], start), 0.0))


def _firm(lattice: Lattice, axis: int) -> Numbers:
    """Places of the lines that something sets, on one axis: corners and columns are theirs, whatever lies nearer."""
    return np.asarray([x.at for x in lattice.lines[axis] if x.features and x.rank not in MINOR])


def _inside(outline: Polygon, places: tuple[Numbers, Numbers]) -> Flags:
    """Cells of which most is concrete; this squares the outline of a surveyed slab."""
    xs, ys = places
    at_x = (xs[:-1, None] + np.diff(xs)[:, None] * np.asarray(SAMPLES)).ravel()
    at_y = (ys[:-1, None] + np.diff(ys)[:, None] * np.asarray(SAMPLES)).ravel()
    shapely.prepare(outline)
    hits = shapely.contains_xy(outline, *np.meshgrid(at_x, at_y, indexing="ij"))
    count = len(SAMPLES)
    cells = hits.reshape(len(xs) - 1, count, len(ys) - 1, count).mean(axis=(1, 3))
    return np.asarray(cells > MOSTLY, dtype=bool)


def _interior(inside: Flags) -> Flags:
    """Pieces of the lines across the first axis with slab on both sides."""
    out = np.zeros((inside.shape[0] + 1, inside.shape[1]), dtype=bool)
    out[1:-1] = inside[:-1] & inside[1:]
    return out


def _lengths(places: tuple[Numbers, Numbers], axis: int) -> Numbers:
    """Length of each piece of each line of an axis."""
    pieces: Numbers = np.diff(places[1 - axis])
    lengths: Numbers = np.array(np.broadcast_to(pieces, (len(places[axis]), len(pieces))))
    return lengths


def empty_pieces(places: tuple[Numbers, Numbers]) -> tuple[Numbers, Numbers]:
    """A nought for each piece of each line of both axes."""
    nx, ny = len(places[X]), len(places[Y])
    return np.zeros((nx, ny - 1)), np.zeros((ny, nx - 1))


def _walls(
    found: Sequence[Served], places: tuple[Numbers, Numbers], *, wishes: bool
) -> tuple[Numbers, Numbers]:
    """Length of wall on each piece of the line nearest to it; of those that only wish, or of the others."""
    out = empty_pieces(places)
    for part in (p for p in found if p.short is wishes):
        row = out[part.axis][part.line]
        np.maximum(row, part.lengths, out=row)
    return out


def _owed(found: Sequence[Served], places: tuple[Numbers, Numbers]) -> tuple[Numbers, Numbers]:
    """What it costs where no joint runs on each piece of the line nearest to a wall that is to have one."""
    out = empty_pieces(places)
    for part in (p for p in found if not p.short):
        row = out[part.axis][part.line]
        np.maximum(row, part.rate * part.lengths, out=row)
    return out


def _hidden(found: Sequence[Served], places: tuple[Numbers, Numbers]) -> tuple[Numbers, Numbers]:
    """Length of each piece that lies under a wall."""
    out = empty_pieces(places)
    for part in found:
        rows = out[part.axis][part.first : part.last + 1]
        np.maximum(rows, part.lengths, out=rows)
    return out


def _price(
    places: tuple[Numbers, Numbers],
    axis: int,
    interior: Flags,
    hidden: Numbers,
    poor: Numbers,
    weights: Weights,
) -> Numbers:
    open_length = _lengths(places, axis) - hidden
    joint = weights.length_open * open_length + weights.length_hidden * hidden
    return np.where(interior, joint + weights.over_joint * poor, 0.0)


def _poor(region: Region, places: tuple[Numbers, Numbers]) -> tuple[Numbers, Numbers]:
    """Length of each piece along a forbidden line or along the strip of a bearing wall."""
    out = empty_pieces(places)
    for wall in region.walls:
        if not wall.takes_joint:
            mark_beside(out, places, wall.path, strip_half(wall) + CLEAR_OF / 2)
    for joint in region.forbidden:
        mark_beside(out, places, joint.path, CLEAR_OF)
    return out


def mark_beside(
    out: tuple[Numbers, Numbers],
    places: tuple[Numbers, Numbers],
    path: tuple[Point, ...],
    reach: float,
) -> None:
    """Adds to each piece the length of it that runs within a reach along a path."""
    for start, end in pairwise(path):
        axis = along_axis(start, end)
        if axis is None:
            continue
        low, high = sorted((start[1 - axis], end[1 - axis]))
        near = np.abs(places[axis] - (start[axis] + end[axis]) / 2) < reach
        out[axis][near] += _overlap(places[1 - axis], low, high)


def _banned(
    region: Region, places: tuple[Numbers, Numbers], interior: tuple[Flags, Flags]
) -> tuple[Flags, Flags]:
    """Pieces that would run through a keep-out."""
    areas = [k.outline.polygon for k in region.keep_outs]
    if not areas:
        return np.zeros_like(interior[X]), np.zeros_like(interior[Y])
    area = shapely.union_all(areas).buffer(-TOUCH)
    shapely.prepare(area)
    return (
        np.asarray(shapely.intersects(area, _pieces(places, X)), dtype=bool) & interior[X],
        np.asarray(shapely.intersects(area, _pieces(places, Y)), dtype=bool) & interior[Y],
    )


def _pieces(places: tuple[Numbers, Numbers], axis: int) -> Shapes:
    """Every piece of every line of an axis as a line string."""
    at, stops = places[axis], places[1 - axis]
    shape = (len(at), len(stops) - 1)
    across = np.broadcast_to(at[:, None], shape)
    starts = np.stack([across, np.broadcast_to(stops[:-1], shape)], axis=-1)
    ends = np.stack([across, np.broadcast_to(stops[1:], shape)], axis=-1)
    pairs = np.stack([starts, ends], axis=-2)
    if axis == Y:
        pairs = pairs[..., ::-1]
    return np.asarray(shapely.linestrings(pairs), dtype=object)


def _must(
    region: Region, places: tuple[Numbers, Numbers], interior: tuple[Flags, Flags]
) -> tuple[Flags, Flags]:
    """Pieces that a pinned joint covers for the most part."""
    out = empty_pieces(places)
    for joint in region.pinned:
        mark_beside(out, places, joint.path, TOUCH)
    for zone in region.zones:
        if zone.joint_at_border:
            ring = points_of(zone.area.exterior)
            mark_beside(out, places, ring, TOUCH)
    return (
        interior[X] & (out[X] > MOSTLY * _lengths(places, X)),
        interior[Y] & (out[Y] > MOSTLY * _lengths(places, Y)),
    )
