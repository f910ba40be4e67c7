"""Which joints of a layout are duties: any layout of the slab owes them."""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString
from shapely.geometry.base import BaseGeometry

from kerfline.engine.arrays import Flags, Integers, Numbers
from kerfline.engine.regions.features import AskingLine, model_outline
from kerfline.engine.regions.region import TOLD, Cut, Region
from kerfline.engine.regions.walls import STUB, wall_slack
from kerfline.geometry.corners import reentrant_corners
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.layout import Reason

THIRDS = (1 / 3, 2 / 3)


def are_duties(region: Region, cuts: Sequence[Cut], pieces: Sequence[LineString]) -> Flags:
    """Whether each piece of a layout's joints is a duty.

    Duties are joints that are given or follow a border, those that pass or end on a column, whole, and those under
    walls, from re-entrant corners and from the ends of given joints as far as the next joint.

    Args:
        region: The region.
        cuts: Its joints.
        pieces: The same, cut where they meet.
    """
    borders = [zone.area.boundary for zone in region.zones if zone.joint_at_border]
    settled = [LineString(c.path) for c in cuts if c.reason in TOLD or _meets_column(region, c)]
    along = [*borders, *settled]
    out = np.zeros(len(pieces), dtype=bool)
    if along:
        out |= _lie_along(shapely.union_all(along), pieces)
    corners = [c.at for c in reentrant_corners(model_outline(region))]
    left = shapely.MultiPoint([*corners, *_open_ends(region, cuts)])
    for end in (0, -1):
        ends = shapely.get_point(list(pieces), end)
        out |= np.asarray(shapely.dwithin(ends, left, TOUCH), dtype=bool)
    return out | _under_walls(region, pieces)


GIVEN = (Reason.PINNED, Reason.FOUND, Reason.FALL)
"""Reasons of joints that end where they are told to: there another must go on."""


def _open_ends(region: Region, cuts: Sequence[Cut]) -> list[Point]:
    """Where given joints end off the edges."""
    edge = region.concrete.boundary
    ends = [end for c in cuts if c.reason in GIVEN for end in (c.path[0], c.path[-1])]
    return [end for end in ends if not edge.dwithin(shapely.Point(end), TOUCH)]


def _lie_along(lines: BaseGeometry, pieces: Sequence[LineString]) -> Flags:
    """Which pieces lie on some lines, and do not merely cross them: seen at two places of each."""
    out = np.ones(len(pieces), dtype=bool)
    for share in THIRDS:
        spots = shapely.line_interpolate_point(list(pieces), share, normalized=True)
        out &= np.asarray(shapely.dwithin(spots, lines, TOUCH), dtype=bool)
    return out


def _meets_column(region: Region, cut: Cut) -> bool:
    """Whether a joint passes a column or ends on its boxout."""
    line = LineString(cut.path)
    return any(
        line.dwithin(c.outline.polygon if c.outline else shapely.Point(c.at), TOUCH)
        for c in region.columns
    )


def _under_walls(region: Region, pieces: Sequence[LineString]) -> Flags:
    """Which pieces run under a wall that has a right to a joint, for more than a stub of it."""
    out = np.zeros(len(pieces), dtype=bool)
    tree = shapely.STRtree(list(pieces))
    for wall in region.walls:
        if not wall.takes_joint or wall.id in region.wishes:
            continue
        for part in pairwise(wall.path):
            asking = AskingLine(name=wall.id, path=LineString(part), slack=wall_slack(wall))
            for number in sorted(tree.query(asking.band, "intersects").tolist()):
                out[number] |= _runs_under(asking, pieces[number])
    return out


def _runs_under(wall: AskingLine, piece: LineString) -> bool:
    """Whether more than a stub of a piece runs along a wall, under it; where it turns it may run on."""
    under = lines_of(piece.intersection(wall.band))
    return any(part.length > STUB and wall.runs_along(part) for part in under)


def run_on(ends: Numbers, duty: Flags, edge: BaseGeometry) -> Flags | None:
    """The duties of a layout whose joints all run through; None where one of them does not.

    A duty that ends in the open floor, where it crosses another joint, runs on as well: as far as an edge or the next
    duty.

    Args:
        ends: Of each straight stretch of joint, between one meeting and the next (n x 2 x 2, mm).
        duty: Whether each is a duty.
        edge: The boundary of the concrete.
    """
    points = ends.reshape(-1, 2)
    spots = np.asarray(shapely.points(points), dtype=object)
    one, other = shapely.STRtree(spots).query(spots, "dwithin", distance=TOUCH)
    apart = one // 2 != other // 2
    one, other = one[apart], other[apart]
    straight = _is_straight(ends, one // 2, other // 2)
    on_edge = np.asarray(shapely.dwithin(spots, edge, TOUCH), dtype=bool)
    owed = duty.copy()
    while True:
        held = on_edge.copy()
        held[one[~straight & owed[other // 2]]] = True
        onward = straight & owed[one // 2] & ~held[one] & ~owed[other // 2]
        if not onward.any():
            break
        owed[other[onward] // 2] = True
    held[one[straight]] = True
    held[one[owed[other // 2]]] = True
    return owed if held[np.repeat(~owed, 2)].all() else None


def _is_straight(ends: Numbers, one: Integers, other: Integers) -> Flags:
    """Which pairs of stretches that meet run in one direction."""
    ways = ends[:, 1] - ends[:, 0]
    ways = ways / np.maximum(np.hypot(*ways.T), SAME)[:, None]
    a, b = ways[one], ways[other]
    return np.asarray(np.abs(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]) < SAME, dtype=bool)
