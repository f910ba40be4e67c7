"""The least joint length of layouts that run along the directions of one, with the same duties.

Proof. Take a layout whose joints are the duties D of this one (``duties``), its stretches on the slant, and others along two
directions square to each other. A chord of the concrete along one of them, from one edge or joint in D to the next, lies in
panels that follow one another, none of which takes more of it than a panel may reach: the span, or more where a panel here
does. So joints that are not in D cross it, as many as ``least_crossing`` counts (``chords``). Added up over all chords of
both directions that is at most the length of those joints times 1 + t, where t is the greatest slope by which they depart
from the directions, for a joint of length l and slope t rises by at most l and runs on by at most t l. With the length of D
itself that makes the bound.

No panel reaches over a joint of D, so the parts between them are taken one by one (``parts``). In each the aspect ties the
joints of one direction to those of the other (``density``). Where no joint here ends on another in the open floor, layouts
of that kind have a bound of their own (``through``), with the duties that run on there. Along a strip between two arcs
joints run along rays and rings instead (``ring``).
"""

from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely.geometry.base import BaseGeometry

from kerfline.engine.bounds.chords import least_crossing
from kerfline.engine.bounds.density import Pair, coupled, least_on_cells
from kerfline.engine.bounds.duties import duties_run_on, stretches_of
from kerfline.engine.bounds.parts import Part, duty_parts, seen_along
from kerfline.engine.bounds.ring import ring_bound
from kerfline.engine.bounds.through import least_through
from kerfline.engine.measure.score import panels_between
from kerfline.engine.regions.region import Cut, Region, X, Y
from kerfline.geometry.arrays import Flags
from kerfline.geometry.ends import PARALLEL
from kerfline.geometry.tolerance import TOUCH

ASLANT = 0.25
"""Share of the joints on the slant beyond which nothing is said: they do not run along two directions."""

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


def least_lengths(region: Region, cuts: Sequence[Cut]) -> Least:
    """The least joint lengths of layouts of the kind of this one; none where it is of no such kind.

    Args:
        region: The region, in its frame.
        cuts: The joints of its layout.
    """
    found = stretches_of(region, cuts)
    if not len(found.ends):
        return Least()
    panels = panels_between(region.concrete, [c.line for c in cuts])
    way, length = found.way, found.length
    slope = found.slopes(way)
    given = found.duty | (slope > PARALLEL)
    if length[given & ~found.duty].sum() > ASLANT * length.sum():
        return Least(ring_bound(region, cuts, panels))
    steepest = float(slope[~given].max(initial=0.0))

    def least(owed: Flags, kept: BaseGeometry | None = None) -> float:
        parts = duty_parts(region, found.ends[owed], panels, way)
        beside = _beside(parts, float(length[~owed].sum()), kept) / (1.0 + steepest)
        return beside + float(length[owed].sum()) - found.over

    of_any = least(given)
    if of_any >= NEAR * length.sum() or len(length) > MANY or steepest > STRAIGHT:
        return Least(of_any)
    owed = duties_run_on(found.ends, given, region.concrete.boundary)
    if owed is None:
        return Least(of_any)
    areas = [k.outline.polygon.buffer(-TOUCH) for k in region.keep_outs]
    kept = shapely.union_all([area for area in areas if not _is_cut(area, cuts)])
    return Least(of_any, max(of_any, least(owed, seen_along(kept, way))))


def _is_cut(area: BaseGeometry, cuts: Sequence[Cut]) -> bool:
    """Whether joints run through an area."""
    return any(cut.line.intersects(area) for cut in cuts)


def _beside(parts: Sequence[Part], length: float, kept: BaseGeometry | None) -> float:
    """The least length of joints beside the duties, part by part, mm.

    Args:
        parts: What the duties part the concrete into.
        length: That of the layout's own: whoever comes near it needs no better.
        kept: What joints that run through keep clear of, as the parts are seen; None for any joints.
    """
    known = [_across(part, kept) for part in parts]
    least = 0.0
    for told in (_sum, _by_aspect, _by_place):
        least = max(least, sum(told(p, j) for p, j in zip(parts, known, strict=True)))
        if least >= NEAR * length:
            break
    return least


def _sum(_: Part, joints: Pair) -> float:
    return sum(joints)


def _by_aspect(part: Part, joints: Pair) -> float:
    return sum(coupled(joints, part.chords, part.aspect))


def _by_place(part: Part, joints: Pair) -> float:
    least = _by_aspect(part, joints)
    if not part.square:
        return least
    return max(least, least_on_cells(joints, part.chords, part.reach, part.aspect))


def _across(part: Part, kept: BaseGeometry | None) -> Pair:
    """The least length of the joints across either direction of a part, mm."""
    upright, level = (
        least_crossing(own, reach) for own, reach in zip(part.chords, part.reach, strict=True)
    )
    if kept is None:
        return upright, level
    turned = shapely.transform(kept, lambda at: at[:, ::-1])
    corners = part.pieces.reshape(-1, 2)
    return (
        max(upright, least_through(part.chords, corners, part.reach[X], kept)),
        max(level, least_through(part.chords[::-1], corners[:, ::-1], part.reach[Y], turned)),
    )
