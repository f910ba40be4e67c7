"""The chord bound on slabs of any shape: no layout along the same directions with the same duties has less joint.

Proof. Take a layout whose joints are the duties D of this one (``are_duties``), its stretches on the slant, and others
along two directions square to each other. A chord of the concrete along one of them, from one edge or joint in D to the
next, lies in panels that follow one another. Let none take more of it than the span, save on chords where a panel
here does: there let none take more than the longest chord of such a panel. So joints that are not in D cross it, as
many as ``least_crossing`` counts. Added up over all chords of both directions that is at most the length of those joints times 1 + t, where t is the greatest slope by which they depart
from the directions, for a joint of length l and slope t rises by at most l and runs on by at most t l. With the length
of D itself that makes the bound. Where the borders of zones are joints a chord lies in one zone, whose span holds.

Unlike the bound on a grid it knows nothing of aspect, and nothing of a squared outline.

Where a joint is no longer than the reach from the next along an axis, a chord of length c between two edges is crossed
by at least ceil(c / reach) - 1 joints, and joints that cross chords over a height h, whatever their slope, are at
least h long each. Between two neighbouring heights of corners the chords are those of trapezoids, whose length changes
evenly, so that the heights over which k joints must cross are known exactly.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString, Polygon, affinity

from kerfline.engine.arrays import Flags, Numbers
from kerfline.engine.bounds.duties import are_duties
from kerfline.engine.measure.score import panels_between
from kerfline.engine.regions.region import Cut, Region
from kerfline.geometry.ends import PARALLEL
from kerfline.geometry.faces import Area, lines_of, noded
from kerfline.geometry.span import longest_chord
from kerfline.geometry.tolerance import MEASURE, SAME, TOUCH

Reach = Callable[[Numbers], Numbers]
"""Of chords by their ends (n x 2 x 2, mm), how far (mm) a panel on each may reach along it."""


def least_crossing(
    edges: Numbers, figure: Area, reach: Reach, levels: Sequence[float] = ()
) -> float:
    """The least length (mm) of joint that crosses the level chords of a figure.

    Args:
        edges: Pieces of line (n x 2 x 2, mm) at which chords end, the boundary of the figure among them; they meet
            at their ends alone.
        figure: The figure.
        reach: How far a panel may reach along a chord.
        levels: Further heights at which that may change.
    """
    rising = np.where((edges[:, 0, 1] > edges[:, 1, 1])[:, None, None], edges[:, ::-1], edges)
    rising = rising[rising[:, 0, 1] < rising[:, 1, 1]]
    shapely.prepare(figure)
    heights = np.unique(np.append(rising[:, :, 1], levels))
    return sum(
        _crossing_between(rising, figure, reach, low, high)
        for low, high in pairwise(heights.tolist())
        if high - low > SAME
    )


def _crossing_between(
    rising: Numbers, figure: Area, reach: Reach, low: float, high: float
) -> float:
    """The same between two heights that no corner lies between."""
    here = rising[(rising[:, 0, 1] <= low) & (rising[:, 1, 1] >= high)]
    middle = (low + high) / 2
    at = np.column_stack([_places(here, level) for level in (low, middle, high)])
    at = at[np.argsort(at[:, 1], kind="stable")]
    level = np.full(max(len(at) - 1, 0), middle)
    starts, stops = (np.column_stack([at[n, 1], level]) for n in (slice(-1), slice(1, None)))
    inside = np.asarray(shapely.contains_xy(figure, (starts + stops) / 2), dtype=bool)
    widths = np.sort(np.diff(at, axis=0)[inside][:, [0, 2]], axis=1)
    chords = np.stack([starts, stops], axis=1)[inside]
    return (high - low) * float(_shares(widths, reach(chords)).sum())


def _places(edges: Numbers, level: float) -> Numbers:
    """Where edges cross a level that they reach over."""
    (x0, y0), (x1, y1) = edges[:, 0].T, edges[:, 1].T
    return np.asarray(x0 + (x1 - x0) * (level - y0) / (y1 - y0))


def _shares(widths: Numbers, reach: Numbers) -> Numbers:
    """How many joints must cross trapezoids, a joint over a part of the height counting as that part.

    Args:
        widths: The shortest and the longest chord of each.
        reach: How far a panel may reach in it.
    """
    shortest, longest = widths.T
    total = np.zeros(len(widths))
    limit = reach + MEASURE
    for times in range(1, int((longest / limit).max(initial=0.0)) + 1):
        beyond = longest - times * limit
        slope = np.maximum(longest - shortest, SAME)
        total += np.clip(beyond / slope, 0.0, 1.0)
    return total


Spans = Callable[[Numbers], Numbers]
"""Of places (n x 2, mm), the span that holds there."""

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


def sweep_bound(region: Region, cuts: Sequence[Cut]) -> float:
    """Least joint length, mm, of layouts along the directions of this one that serve the same; 0 where it has no such two.

    Args:
        region: The region, in its frame.
        cuts: The joints of its layout.
    """
    found = _stretches(region, cuts)
    if not len(found.ends):
        return 0.0
    way = _direction(found)
    slope = _slopes(found, way)
    given = found.duty | (slope > PARALLEL)
    if found.length[given & ~found.duty].sum() > ASLANT * found.length.sum():
        return 0.0
    panels = panels_between(region.concrete, [LineString(c.path) for c in cuts])
    across = sum(
        _crossing(region, found.ends[given], panels, axis)
        for axis in (way, np.array([-way[1], way[0]]))
    )
    steepest = float(slope[~given].max(initial=0.0))
    return float(across / (1.0 + steepest) + found.length[given].sum())


def _stretches(region: Region, cuts: Sequence[Cut]) -> _Stretches:
    lines = [LineString(c.path) for c in cuts]
    net = shapely.union_all(lines, grid_size=SAME / 10)
    inside = [p for p in lines_of(net.intersection(region.concrete)) if p.length > TOUCH]
    if not inside:
        return _Stretches(ends=np.zeros((0, 2, 2)), duty=np.zeros(0, dtype=bool))
    duty = are_duties(region, cuts, inside)
    points = [shapely.get_coordinates(p) for p in inside]
    return _Stretches(
        ends=np.concatenate([np.stack([p[:-1], p[1:]], axis=1) for p in points]),
        duty=np.repeat(duty, [len(p) - 1 for p in points]),
    )


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


def _crossing(region: Region, given: Numbers, panels: Sequence[Polygon], way: Numbers) -> float:
    """The least length of joint that crosses the chords along a direction."""
    turn = [way[0], way[1], -way[1], way[0], 0.0, 0.0]
    figure = affinity.affine_transform(region.concrete, turn)
    lines = [affinity.affine_transform(LineString(ends), turn) for ends in given]
    pieces = [shapely.get_coordinates(x) for x in lines_of(noded(figure, lines))]
    edges = np.concatenate([np.stack([p[:-1], p[1:]], axis=1) for p in pieces])
    seen = [affinity.affine_transform(panel, turn) for panel in panels]
    spans = _spans(region, panels, way)
    long = _over_span(seen, spans)
    levels = shapely.get_coordinates(list(long))[:, 1].tolist()
    return least_crossing(edges, figure, _reach(spans, long), levels)


def _over_span(panels: Sequence[Polygon], spans: Spans) -> dict[Polygon, float]:
    """The panels that take more of a level chord than the span, and by how much."""
    own = spans(shapely.get_coordinates(shapely.point_on_surface(list(panels))))
    x0, _, x1, _ = shapely.bounds(list(panels)).T
    perhaps = np.flatnonzero(x1 - x0 > own + MEASURE).tolist()
    level = np.array([1.0, 0.0])
    beyond = {panels[n]: longest_chord(panels[n], level) - float(own[n]) for n in perhaps}
    return {panel: more for panel, more in beyond.items() if more > MEASURE}


def _reach(spans: Spans, long: Mapping[Polygon, float]) -> Reach:
    """How far panels may reach along level chords: to the span, or beyond it where one here does."""
    if not long:
        return lambda chords: spans(chords.mean(axis=1))
    farthest = max(long.values())
    tree = shapely.STRtree([panel.buffer(-TOUCH) for panel in long])

    def reach(chords: Numbers) -> Numbers:
        out = spans(chords.mean(axis=1))
        passed = tree.query(shapely.linestrings(chords), "intersects")[0]
        out[np.unique(passed)] += farthest
        return out

    return reach


def _spans(region: Region, panels: Sequence[Polygon], way: Numbers) -> Spans:
    """The span that holds at places seen along a direction: of their zone, or where a panel lies in two the greatest."""
    zones = [z for z in region.zones if not z.area.disjoint(region.concrete)]
    parted = all(
        z.joint_at_border and not any(_reaches_over(p, z.area) for p in panels) for z in zones
    )
    greatest = max([region.working.span, *(z.working.span for z in zones)])
    back = np.array([way, [-way[1], way[0]]])

    def spans(at: Numbers) -> Numbers:
        out = np.full(len(at), region.working.span if parted else greatest)
        for zone in zones if parted else ():
            within = shapely.contains_xy(zone.area, at @ back)
            out[np.asarray(within, dtype=bool)] = zone.working.span
        return out

    return spans


def _reaches_over(panel: Polygon, area: Polygon) -> bool:
    inner = panel.buffer(-TOUCH)
    return bool(inner.intersects(area) and not area.covers(inner))
