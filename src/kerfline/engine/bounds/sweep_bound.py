"""The bounds of slabs of any shape: no layout along the same directions with the same duties has less joint.

Proof. Take a layout whose joints are the duties D of this one (``are_duties``), its stretches on the slant, and others
along two directions square to each other. A chord of the concrete along one of them, from one edge or joint in D to the
next, lies in panels that follow one another. Let none take more of it than the span, save on chords where a panel
here does: there let none take more than the longest chord of such a panel. So joints that are not in D cross it, as
many as ``least_crossing`` counts. Added up over all chords of both directions that is at most the length of those
joints times 1 + t, where t is the greatest slope by which they depart from the directions, for a joint of length l and
slope t rises by at most l and runs on by at most t l. With the length of D itself that makes the bound. Where the
borders of zones are joints a chord lies in one zone, whose span holds.

No panel reaches over a joint of D, so the parts between them are taken one by one. In each the aspect ties the joints of
one direction to those of the other (``coupled``), and where all edges are square it counts at each place
(``density_bound``). Where no joint here ends on another in the open floor, layouts of that kind have a bound of their own
(``through_bound``), with the duties that run on there.

Nothing is known of a squared outline: the true one is swept.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.engine.arrays import Flags, Numbers
from kerfline.engine.bounds.duties import are_duties, run_on
from kerfline.engine.bounds.parts import Part, parts_of
from kerfline.engine.measure.score import panels_between
from kerfline.engine.regions.region import Cut, Region, drawn_out
from kerfline.geometry.ends import PARALLEL
from kerfline.geometry.tolerance import SAME, TOUCH
from kerfline.model.slab import KeepOut

ASLANT = 0.25
"""Share of the joints on the slant beyond which nothing is said: they do not run along two directions."""


@dataclass(frozen=True, kw_only=True)
class _Stretches:
    """The straight stretches of a layout's joints between one meeting and the next.

    Attributes:
        ends: Of each, (n, 2, 2) in mm.
        duty: Whether each is a duty.
    """

    ends: Numbers
    duty: Flags

    @property
    def length(self) -> Numbers:
        """Of each, mm."""
        return np.asarray(np.hypot(*np.moveaxis(self.ends[:, 1] - self.ends[:, 0], -1, 0)))


OVER = 2.0 * TOUCH
"""What a joint that is drawn out reaches beyond the one that it ends on is no longer than this, mm."""

NEAR = 0.999
"""Share of the joint length from which a bound of it needs no better one."""

MANY = 2000
"""Stretches of joint beyond which nothing is said of those that run through: it takes seconds."""

STRAIGHT = 1e-4
"""Slope up to which joints run along their direction: 1 mm in 10 m."""


@dataclass(frozen=True)
class Least:
    """Least joint lengths, mm; 0 where nothing is proven.

    Attributes:
        of_any: That of layouts along the same directions that serve the same.
        of_through: That of those among them whose joints run through, as they do here; 0 where they do not.
    """

    of_any: float = 0.0
    of_through: float = 0.0


def sweep_bound(region: Region, cuts: Sequence[Cut]) -> Least:
    """The least joint lengths of layouts along the directions of this one; none where it has no such two.

    Args:
        region: The region, in its frame.
        cuts: The joints of its layout.
    """
    found = _stretches(region, cuts)
    if not len(found.ends):
        return Least()
    way = _direction(found)
    slope = _slopes(found, way)
    given = found.duty | (slope > PARALLEL)
    if found.length[given & ~found.duty].sum() > ASLANT * found.length.sum():
        return Least()
    panels = panels_between(region.concrete, [LineString(c.path) for c in cuts])
    steepest = float(slope[~given].max(initial=0.0))
    own = found.length
    parts = parts_of(region, found.ends[given], panels, way)
    drawn_out_by = max(0.0, float(own.sum()) - _length_of(region, cuts))
    of_any = _beside(parts, float(own[~given].sum())) / (1.0 + steepest)
    of_any += float(own[given].sum()) - drawn_out_by
    if of_any >= NEAR * own.sum() or len(own) > MANY or steepest > STRAIGHT:
        return Least(of_any)
    owed = run_on(found.ends, given, region.concrete.boundary)
    if owed is None:
        return Least(of_any)
    if (owed & ~given).any():
        parts = parts_of(region, found.ends[owed], panels, way)
    kept = [k.outline.polygon for k in region.keep_outs if not _cut_by(k, cuts)]
    beside = _beside(parts, float(own[~owed].sum()), kept) / (1.0 + steepest)
    return Least(of_any, max(of_any, beside + float(own[owed].sum()) - drawn_out_by))


def _length_of(region: Region, cuts: Sequence[Cut]) -> float:
    """The length of joints in a region, each place counted once, mm."""
    lines = shapely.union_all([LineString(c.path) for c in cuts])
    return float(lines.intersection(region.concrete).length)


def _beside(parts: Sequence[Part], length: float, kept: Sequence[Polygon] | None = None) -> float:
    """The least length of joints beside the duties, part by part, mm.

    Args:
        parts: What the duties part the concrete into.
        length: That of the layout's own: whoever comes near it needs no better.
        kept: Keep-outs that joints which run through keep clear of; None for any joints.
    """
    joints = [_across(part, kept) for part in parts]
    least = [
        sum(coupled(known, [crossed.chords for crossed in part.across], part.aspect))
        for part, known in zip(parts, joints, strict=True)
    ]
    if sum(least) < NEAR * length:
        on_cells = [p.least_on_cells(known) for p, known in zip(parts, joints, strict=True)]
        least = [max(pair) for pair in zip(least, on_cells, strict=True)]
    return sum(least)


def _across(part: Part, kept: Sequence[Polygon] | None) -> list[float]:
    """The least length of the joints across each direction, mm."""
    joints = [crossed.joints for crossed in part.across]
    if kept is None:
        return joints
    through = [view.least_through(kept) for view in part.views]
    return [max(pair) for pair in zip(joints, through, strict=True)]


def coupled(joints: Sequence[float], chords: Sequence[float], aspect: float) -> list[float]:
    """What joints along one direction ask of those along the other, by the aspect that panels may have.

    Proof. Let panels be such that a line along either direction meets each in one piece, and at the aspect k let none
    be longer one way than k times the other. The joints across level chords and these chords, each over the height
    where it is, are together as high as the panels, one by one; so with upright chords and the width of the panels.
    No height is less than a k-th of the width, nor the other way round.

    Args:
        joints: Least length of the joints that cross the level chords, and of those that cross the upright ones, mm.
        chords: Over what height, and over what width, there are such chords, mm.
        aspect: The greatest aspect.
    """
    out = list(joints)
    for own, other in ((0, 1), (1, 0)):
        asked = (joints[other] + chords[other]) / aspect - chords[own]
        out[own] = max(out[own], asked)
    return out


def _stretches(region: Region, cuts: Sequence[Cut]) -> _Stretches:
    """The stretches of some joints, each drawn out so that it ends on what it ends within a touch of."""
    lines = [LineString(drawn_out(c.path, TOUCH)) for c in cuts]
    net = shapely.union_all(lines, grid_size=SAME / 10)
    parts = shapely.get_parts(net.intersection(region.concrete)).tolist()
    inside = _held([p for p in parts if isinstance(p, LineString)])
    if not inside:
        return _Stretches(ends=np.zeros((0, 2, 2)), duty=np.zeros(0, dtype=bool))
    duty = are_duties(region, cuts, inside)
    points = [shapely.get_coordinates(p) for p in inside]
    return _Stretches(
        ends=np.concatenate([np.stack([p[:-1], p[1:]], axis=1) for p in points]),
        duty=np.repeat(duty, [len(p) - 1 for p in points]),
    )


def _held(pieces: Sequence[LineString]) -> list[LineString]:
    """Pieces of line without those that only stick out beyond another."""
    if not pieces:
        return []
    ends = np.concatenate([shapely.get_point(list(pieces), n) for n in (0, -1)])
    met, _ = shapely.STRtree(ends).query(ends, "dwithin", distance=2.0 * SAME)
    loose = (np.bincount(met, minlength=len(ends)) == 1).reshape(2, -1).any(axis=0).tolist()
    return [p for p, alone in zip(pieces, loose, strict=True) if p.length > OVER or not alone]


def _direction(found: _Stretches) -> Numbers:
    """The unit vector along or across which most of the free joints run: that of the longest of them."""
    loose = ~found.duty if not found.duty.all() else found.duty
    steps = (found.ends[:, 1] - found.ends[:, 0])[loose]
    length = found.length[loose]
    angles = np.degrees(np.arctan2(steps[:, 1], steps[:, 0])).round(1) % 90.0
    _, which = np.unique(angles, return_inverse=True)
    most = int(np.argmax(np.bincount(which, weights=length.round())))
    longest = int(np.argmax(np.where(which == most, length.round(), 0.0)))
    return np.asarray(steps[longest] / length[longest])


def _slopes(found: _Stretches, way: Numbers) -> Numbers:
    """By how much each stretch departs from the direction or from square to it, per length."""
    steps = found.ends[:, 1] - found.ends[:, 0]
    along, aside = np.abs(steps @ way), np.abs(steps @ np.array([-way[1], way[0]]))
    return np.asarray(np.minimum(along, aside) / np.maximum(found.length, SAME))


def _cut_by(keep_out: KeepOut, cuts: Sequence[Cut]) -> bool:
    """Whether joints run through a keep-out."""
    inner = keep_out.outline.polygon.buffer(-TOUCH)
    return any(LineString(cut.path).intersects(inner) for cut in cuts)
