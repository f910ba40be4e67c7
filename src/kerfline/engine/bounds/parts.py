"""What the duties part a region into, as it is seen along two directions, and how far panels may reach in it."""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

import numpy as np
import numpy.typing as npt
import shapely
from shapely import LineString, Polygon, affinity
from shapely.geometry.base import BaseGeometry

from kerfline.engine.arrays import Numbers
from kerfline.engine.bounds.cells import cells_of
from kerfline.engine.bounds.crossing import Crossed, Reach, least_crossing
from kerfline.engine.bounds.density_bound import least_on_cells
from kerfline.engine.bounds.through_bound import least_through
from kerfline.engine.regions.region import Region
from kerfline.geometry.corners import reentrant_corners
from kerfline.geometry.faces import faces_between, lines_of, noded
from kerfline.geometry.span import longest_chord
from kerfline.geometry.tolerance import MEASURE, SAME, TOUCH

Shaped = TypeVar("Shaped", bound=BaseGeometry)

Spans = Callable[[Numbers], Numbers]
"""Of places (n x 2, mm), the span that holds there."""

TWICE = 2
"""A ring turns back so often along an axis where lines across it meet it in one piece."""


@dataclass(frozen=True)
class View:
    """A part of a region as it is seen along a direction, which is level in it.

    Attributes:
        figure: The concrete.
        pieces: Pieces of line (n x 2 x 2, mm) at which chords end.
        reach: How far a panel may reach along a level chord.
        levels: Heights at which that may change, mm.
        way: The direction.
    """

    figure: Polygon
    pieces: Numbers
    reach: Reach
    levels: Sequence[float]
    way: Numbers

    def across(self) -> Crossed:
        """The level chords, and the joints that must cross them."""
        return least_crossing(self.pieces, self.figure, self.reach, self.levels)

    def least_through(self, kept: Sequence[Polygon]) -> float:
        """The least length of joints across that run through, keep-outs kept clear of, mm."""
        keep_outs = [_turned(area, self.way) for area in kept]
        return least_through(self.pieces, self.figure, self.reach, keep_outs)


@dataclass(frozen=True)
class Part:
    """A part of a region between its duties.

    Attributes:
        views: It, as seen along both directions.
        aspect: The greatest that a panel may have in it, by its extents along the directions; infinite where panels
            in it are met twice by such a line.
        panels: The panels of the layout in it, as the first view is.
        advised: The aspect that panels may have where none of the layout has more.
        served: Whether a duty leaves each re-entrant corner of the concrete in it.
    """

    views: tuple[View, View]
    aspect: float
    panels: Sequence[Polygon]
    advised: float
    served: bool

    @cached_property
    def across(self) -> list[Crossed]:
        """The chords along both directions, and the joints that must cross them."""
        return [view.across() for view in self.views]

    def least_on_cells(self, joints: Sequence[float]) -> float:
        """The least length of joints where panels are rectangles, else 0, mm.

        They are where all edges and duties run along the directions, and a duty leaves each re-entrant corner of the
        concrete: at a jog or a boxout that has none a panel may be a rectangle without its corner.

        Args:
            joints: What is known of the joints across each, mm.
        """
        level, upright = self.views
        if not self.served:
            return 0.0
        cells = cells_of(level.figure, level.pieces, self.panels)
        if cells is None:
            return 0.0
        reaches = (level.reach, upright.reach)
        return least_on_cells(cells, reaches, self.panels, self.advised, joints)


SIDES = 2
"""Pieces of edge that meet at a corner."""


def _corners_served(figure: Polygon, pieces: Numbers, concrete: Polygon) -> bool:
    """Whether a duty leaves each re-entrant corner of the concrete that is one of a part too."""
    own = [corner.at for corner in reentrant_corners(concrete)]
    found = [corner.at for corner in reentrant_corners(figure)]
    if not own or not found:
        return True
    spots = np.asarray(shapely.points(found), dtype=object)
    spots = spots[shapely.dwithin(spots, shapely.MultiPoint(own), SAME)]
    ends = shapely.STRtree(np.asarray(shapely.points(pieces.reshape(-1, 2)), dtype=object))
    met, _ = ends.query(spots, "dwithin", SAME)
    return bool((np.bincount(met, minlength=len(spots)) > SIDES).all())


def parts_of(region: Region, given: Numbers, panels: Sequence[Polygon], way: Numbers) -> list[Part]:
    """What some joints part a region into.

    Args:
        region: The region.
        given: The joints (n x 2 x 2, mm).
        panels: The panels of the layout.
        way: The first direction.
    """
    ways = (way, np.array([-way[1], way[0]]))
    whole, advised = _turned(region.concrete, way), region.advised.aspect
    net = noded(whole, [_turned(LineString(ends), way) for ends in given])
    figures = faces_between(whole, net)
    lines = lines_of(net)
    seen = [_turned(panel, way) for panel in panels]
    on = _within(figures, _middles(lines))
    held = _within(figures, np.asarray(shapely.point_on_surface(seen), dtype=object))
    reaches = [_reach_along(region, panels, each) for each in ways]
    quarter = np.array([0.0, 1.0])
    out = []
    for figure, own, inner in zip(figures, on, held, strict=True):
        points = [shapely.get_coordinates(lines[n]) for n in own]
        pieces = np.concatenate([np.stack([p[:-1], p[1:]], axis=1) for p in points])
        turned = np.stack([pieces[:, :, 1], -pieces[:, :, 0]], axis=2)
        views = (
            View(figure, pieces, *reaches[0], way=ways[0]),
            View(_turned(figure, quarter), turned, *reaches[1], way=ways[1]),
        )
        within = [seen[n] for n in inner]
        served = _corners_served(figure, pieces, whole)
        out.append(Part(views, _aspect(within, advised), within, advised, served))
    return out


def _middles(lines: Sequence[LineString]) -> npt.NDArray[np.object_]:
    at = shapely.line_interpolate_point(lines, 0.5, normalized=True)
    return np.asarray(at, dtype=object)


def _within(figures: Sequence[Polygon], spots: npt.NDArray[np.object_]) -> list[list[int]]:
    """For each figure the numbers of the places in it, or on its edge."""
    tree = shapely.STRtree(spots)
    out: list[list[int]] = [[] for _ in figures]
    for figure, spot in sorted(zip(*tree.query(figures, "dwithin", SAME).tolist(), strict=True)):
        out[figure].append(spot)
    return out


def _aspect(panels: Sequence[Polygon], advised: float) -> float:
    """The greatest aspect of some panels by their extents, no less than the advised one."""
    if not all(_met_once(panel) for panel in panels):
        return math.inf
    x0, y0, x1, y1 = shapely.bounds(list(panels)).reshape(-1, 4).T
    wide, high = x1 - x0, y1 - y0
    return float(np.maximum(wide / high, high / wide).max(initial=advised))


def _met_once(panel: Polygon) -> bool:
    """Whether level and upright lines meet a panel in one piece each."""
    ring = shapely.get_coordinates(panel.exterior)
    return not panel.interiors and all(_turns(ring[:, n]) <= TWICE for n in (0, 1))


def _turns(places: Numbers) -> int:
    """How often a ring turns back along an axis, what is nearer than a touch left out."""
    kept = [float(places[0])]
    heading = 0
    turns = []
    for place in places[1:].tolist():
        if abs(place - kept[-1]) <= TOUCH:
            continue
        way = 1 if place > kept[-1] else -1
        if way != heading:
            turns.append(way)
            heading = way
        kept.append(place)
    if len(turns) > 1 and turns[0] == turns[-1]:
        turns.pop()
    return len(turns)


def _reach_along(
    region: Region, panels: Sequence[Polygon], way: Numbers
) -> tuple[Reach, Sequence[float]]:
    """How far panels may reach along a direction, and at which heights that may change."""
    spans = _spans(region, panels, way)
    long = _over_span([_turned(panel, way) for panel in panels], spans)
    return _reach(spans, long), shapely.get_coordinates(list(long))[:, 1].tolist()


def _turned(shape: Shaped, way: Numbers) -> Shaped:
    """A shape so that a direction is level."""
    turn = [way[0], way[1], -way[1], way[0], 0.0, 0.0]
    turned: Shaped = affinity.affine_transform(shape, turn)
    return turned


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
