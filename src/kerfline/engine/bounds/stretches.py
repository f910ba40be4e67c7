"""The straight stretches of a layout's joints, the directions that they run along, and which of them run through."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import LineString
from shapely.geometry.base import BaseGeometry

from kerfline.engine.bounds.chords import pieces_of
from kerfline.engine.bounds.duties import are_duties
from kerfline.engine.regions.region import Cut, Region, drawn_out
from kerfline.geometry.arrays import Flags, Integers, Numbers, Shapes
from kerfline.geometry.tolerance import SAME, TOUCH

OVER = 2.0 * TOUCH
"""What a joint that is drawn out reaches beyond the one that it ends on is no longer than this, mm."""


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
