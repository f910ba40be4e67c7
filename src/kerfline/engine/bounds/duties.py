"""Which joints of a layout are duties: any layout of the slab owes them."""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString
from shapely.geometry.base import BaseGeometry

from kerfline.engine.regions.features import AskingLine, model_outline
from kerfline.engine.regions.region import TOLD, Cut, Region
from kerfline.engine.regions.walls import STUB, wall_slack
from kerfline.geometry.arrays import Flags, Shapes
from kerfline.geometry.corners import reentrant_corners
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.layout import Reason

THIRDS = (1 / 3, 2 / 3)
"""Places of a piece that lies on another line, and does not merely cross it."""


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
    lines = np.asarray([cut.line for cut in cuts], dtype=object)
    columns = [c.outline.polygon if c.outline else shapely.Point(c.at) for c in region.columns]
    owed = [cut.reason in TOLD and cut.reason is not Reason.KEEP_OUT for cut in cuts]
    settled = _near(lines, columns) | owed
    out = np.ones(len(pieces), dtype=bool)
    for share in THIRDS:
        spots = shapely.line_interpolate_point(list(pieces), share, normalized=True)
        out &= _near(spots, [*borders, *lines[settled]])
    corners = [c.at for c in reentrant_corners(model_outline(region))]
    left = [shapely.Point(at) for at in (*corners, *_open_ends(region, cuts))]
    for end in (0, -1):
        out |= _near(shapely.get_point(list(pieces), end), left)
    return out | _under_walls(region, pieces)


def _near(shapes: Shapes, others: Sequence[BaseGeometry]) -> Flags:
    """Which shapes lie within a touch of some of the others."""
    out = np.zeros(len(shapes), dtype=np.bool_)
    out[shapely.STRtree(others).query(shapes, "dwithin", distance=TOUCH)[0]] = True
    return out


GIVEN = (Reason.PINNED, Reason.FOUND, Reason.FALL)
"""Reasons of joints that end where they are told to: there another must go on."""


def _open_ends(region: Region, cuts: Sequence[Cut]) -> list[Point]:
    """Where given joints end off the edges."""
    edge = region.concrete.boundary
    ends = [end for c in cuts if c.reason in GIVEN for end in (c.path[0], c.path[-1])]
    return [end for end in ends if not edge.dwithin(shapely.Point(end), TOUCH)]


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
