"""Which joints of a layout are duties: any layout of the slab owes them."""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString
from shapely.geometry.base import BaseGeometry

from kerfline.engine.arrays import Flags
from kerfline.engine.regions.features import AskingLine, model_outline
from kerfline.engine.regions.region import TOLD, Cut, Region
from kerfline.engine.regions.walls import STUB, wall_slack
from kerfline.geometry.corners import reentrant_corners
from kerfline.geometry.faces import lines_of
from kerfline.geometry.tolerance import TOUCH

THIRDS = (1 / 3, 2 / 3)


def are_duties(region: Region, cuts: Sequence[Cut], pieces: Sequence[LineString]) -> Flags:
    """Whether each piece of a layout's joints is a duty.

    Duties are joints that are given or follow a border, those that pass or end on a column, whole, and those under
    walls and from re-entrant corners as far as the next joint.

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
    for end in (0, -1):
        ends = shapely.get_point(list(pieces), end)
        out |= np.asarray(shapely.dwithin(ends, shapely.MultiPoint(corners), TOUCH), dtype=bool)
    return out | _under_walls(region, pieces)


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
