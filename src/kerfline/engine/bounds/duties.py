"""The straight stretches of a layout's joints: which of them are duties, that any layout owes, and which run through."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString
from shapely.geometry.base import BaseGeometry

from kerfline.engine.bounds.chords import pieces_of
from kerfline.engine.regions.features import AskingLine, model_corners
from kerfline.engine.regions.region import TOLD, Cut, Region, drawn_out
from kerfline.engine.regions.walls import STUB, wall_slack
from kerfline.geometry.arrays import Flags, Integers, Numbers, Shapes
from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.layout import Reason

OVER = 2.0 * TOUCH
"""What a joint that is drawn out reaches beyond the one that it ends on is no longer than this, mm."""

THIRDS = (1 / 3, 2 / 3)
"""Places of a piece that lies on another line, and does not merely cross it."""

GIVEN = (Reason.PINNED, Reason.FOUND, Reason.FALL)
"""Reasons of joints that end where they are told to: there another must go on."""


@dataclass(frozen=True, kw_only=True)
class Stretches:
    """The straight stretches of a layout's joints between one meeting and the next.

    Attributes:
        ends: Of each, (n, 2, 2) in mm.
        duty: Whether each is a duty.
        over: By how much they are longer together than the joints, for each is drawn out to what it ends on, mm.
    """

    ends: Numbers
    duty: Flags
    over: float = 0.0

    @property
    def length(self) -> Numbers:
        """Of each, mm."""
        return np.asarray(np.hypot(*np.moveaxis(self.ends[:, 1] - self.ends[:, 0], -1, 0)))

    @property
    def way(self) -> Numbers:
        """The unit vector along or across which most of the free joints run: that of the longest of them."""
        loose = ~self.duty if not self.duty.all() else self.duty
        steps = (self.ends[:, 1] - self.ends[:, 0])[loose]
        length = self.length[loose]
        angles = np.degrees(np.arctan2(steps[:, 1], steps[:, 0])).round(1) % 90.0
        _, which = np.unique(angles, return_inverse=True)
        most = int(np.argmax(np.bincount(which, weights=length.round())))
        longest = int(np.argmax(np.where(which == most, length.round(), 0.0)))
        return np.asarray(steps[longest] / length[longest])

    def slopes(self, way: Numbers) -> Numbers:
        """By how much each departs from a direction or from square to it, per length."""
        steps = self.ends[:, 1] - self.ends[:, 0]
        along, aside = np.abs(steps @ way), np.abs(steps @ np.array([-way[1], way[0]]))
        return np.asarray(np.minimum(along, aside) / np.maximum(self.length, SAME))


def stretches_of(region: Region, cuts: Sequence[Cut]) -> Stretches:
    """The stretches of some joints, each drawn out so that it ends on what it ends within a touch of."""
    lines = [LineString(drawn_out(c.path, TOUCH)) for c in cuts]
    net = shapely.union_all(lines, grid_size=SAME / 10)
    inside = _held(shapely.get_parts(net.intersection(region.concrete)))
    if not len(inside):
        return Stretches(ends=np.zeros((0, 2, 2)), duty=np.zeros(0, dtype=bool))
    joints = shapely.union_all([c.line for c in cuts]).intersection(region.concrete)
    duty = are_duties(region, cuts, inside.tolist())
    return Stretches(
        ends=pieces_of(inside),
        duty=np.repeat(duty, shapely.get_num_points(inside) - 1),
        over=max(0.0, float(shapely.length(inside).sum()) - joints.length),
    )


def _held(parts: Shapes) -> Shapes:
    """Pieces of line without those that only stick out beyond another."""
    pieces = parts[shapely.get_dimensions(parts) == 1]
    ends = np.concatenate([shapely.get_point(pieces, n) for n in (0, -1)])
    met, _ = shapely.STRtree(ends).query(ends, "dwithin", distance=2.0 * SAME)
    loose = (np.bincount(met, minlength=len(ends)) == 1).reshape(2, -1).any(axis=0)
    return np.asarray(pieces[(shapely.length(pieces) > OVER) | ~loose], dtype=object)


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
    left = [shapely.Point(at) for at in (*model_corners(region), *_open_ends(region, cuts))]
    for end in (0, -1):
        out |= _near(shapely.get_point(list(pieces), end), left)
    return out | _under_walls(region, pieces)


def _near(shapes: Shapes, others: Sequence[BaseGeometry]) -> Flags:
    """Which shapes lie within a touch of some of the others."""
    out = np.zeros(len(shapes), dtype=np.bool_)
    out[shapely.STRtree(others).query(shapes, "dwithin", distance=TOUCH)[0]] = True
    return out


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


def duties_run_on(ends: Numbers, duty: Flags, edge: BaseGeometry) -> Flags | None:
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
