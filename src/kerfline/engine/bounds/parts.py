"""What the duties part a region into, and how far panels may reach in each part."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from kerfline.engine.bounds.chords import Chords, chords_of, pieces_of
from kerfline.engine.bounds.density import Reach
from kerfline.engine.regions.region import Region, X, Y
from kerfline.geometry.arrays import Numbers, Shapes
from kerfline.geometry.faces import SLIVER, faces_between, lines_of, noded, rings_of
from kerfline.geometry.span import longest_chord
from kerfline.geometry.tolerance import MEASURE, SAME, TOUCH

Shaped = TypeVar("Shaped", bound=BaseGeometry | Shapes)

HAIR = 2.0 * TOUCH
"""A panel is a rectangle where its bounds are no more than this (mm) off it on a side."""


@dataclass(frozen=True)
class Part:
    """A part of a region between its duties, seen so that the directions of the joints are level and upright.

    Attributes:
        figure: The concrete.
        pieces: Pieces of line (n x 2 x 2, mm) at which chords end.
        panels: The panels of the layout in it.
        span: The span that holds in it, mm.
        advised: The aspect that panels may have where none of the layout has more.
    """

    figure: Polygon
    pieces: Numbers
    panels: Sequence[Polygon]
    span: float
    advised: float

    @cached_property
    def chords(self) -> tuple[Chords, Chords]:
        """The level chords, and the upright ones."""
        level, upright = (
            chords_of(self.pieces, self.figure, axis, self._long[axis].heights.ravel().tolist())
            for axis in (X, Y)
        )
        return level, upright

    @cached_property
    def reach(self) -> Reach:
        """How far a panel may reach along those of each trapezoid: to the span, or beyond it where one here does, mm."""
        level, upright = (
            long.reach_on(chords, self.span)
            for long, chords in zip(self._long, self.chords, strict=True)
        )
        return level, upright

    @cached_property
    def square(self) -> bool:
        """Whether all edges run along the directions, and all panels are rectangles."""
        sides = self._sides
        least = sides.prod(axis=1) - HAIR * sides.sum(axis=1)
        return self.chords[X].square and bool((shapely.area(list(self.panels)) >= least).all())

    @cached_property
    def aspect(self) -> float:
        """The greatest of panels, by their extents along the directions, or the advised one.

        Infinite where a line along them meets a panel in more than one piece.
        """
        panels = np.asarray(self.panels, dtype=object)
        bites = shapely.area(shapely.convex_hull(panels)) - shapely.area(panels)
        if not all(_met_once(panel) for panel in panels[bites > SLIVER]):
            return math.inf
        sides = self._sides
        return float((sides.max(axis=1) / sides.min(axis=1)).max(initial=self.advised))

    @property
    def _sides(self) -> Numbers:
        """The extents of the panels along the directions (n x 2, mm)."""
        bounds = shapely.bounds(list(self.panels)).reshape(-1, 4)
        return np.asarray(bounds[:, 2:] - bounds[:, :2])

    @cached_property
    def _long(self) -> tuple["_Long", "_Long"]:
        """The panels that take more of a level chord than the span, and of an upright one."""
        level, upright = (_Long.of(self.panels, self._sides, self.span, axis) for axis in (X, Y))
        return level, upright


@dataclass(frozen=True)
class _Long:
    """Panels that take more of a chord along an axis than the span.

    Attributes:
        heights: Where each begins and ends across the axis (n x 2, mm).
        along: Where it begins and ends along the axis.
        chord: Of each the longest chord, mm.
    """

    heights: Numbers
    along: Numbers
    chord: Numbers

    @staticmethod
    def of(panels: Sequence[Polygon], sides: Numbers, span: float, axis: int) -> "_Long":
        """Those of some panels, whose extents are those."""
        perhaps = [panels[n] for n in np.flatnonzero(sides[:, axis] > span + MEASURE).tolist()]
        chord = np.array([longest_chord(panel, np.eye(2)[axis]) for panel in perhaps])
        bounds = shapely.bounds(perhaps).reshape(-1, 4)[chord > span + MEASURE]
        return _Long(bounds[:, 1 - axis :: 2], bounds[:, axis::2], chord[chord > span + MEASURE])

    def reach_on(self, chords: Chords, span: float) -> Numbers:
        """How far panels may reach along the chords of each trapezoid where those do, mm."""
        middle = chords.heights.mean(axis=1)
        start, end = (at.mean(axis=1) for at in (chords.starts, chords.ends))
        out = np.full(len(middle), span)
        for (low, high), (first, last), far in zip(
            self.heights, self.along, self.chord, strict=True
        ):
            met = (low < middle) & (middle < high) & (first < end) & (start < last)
            out[met] = np.maximum(out[met], far)
        return out


def _met_once(panel: Polygon) -> bool:
    """Whether level and upright lines meet a panel in one piece each, what is no deeper than a touch left out."""
    x0, y0, x1, y1 = panel.bounds
    pieces = pieces_of(rings_of(panel))
    level, upright = (chords_of(pieces, panel, axis).high.sum() for axis in (X, Y))
    return bool(level <= y1 - y0 + TOUCH and upright <= x1 - x0 + TOUCH)


def duty_parts(
    region: Region, given: Numbers, panels: Sequence[Polygon], way: Numbers
) -> list[Part]:
    """What some joints part a region into.

    Args:
        region: The region.
        given: The joints (n x 2 x 2, mm).
        panels: The panels of the layout.
        way: The direction that is seen as level.
    """
    whole = seen_along(region.concrete, way)
    zones = [(seen_along(zone.area, way), zone.working.span) for zone in region.zones]
    seen = seen_along(np.asarray(panels, dtype=object), way)
    joints = [LineString(ends) for ends in given]
    net = noded(whole, [seen_along(joint, way) for joint in joints])
    figures, lines = faces_between(whole, net), lines_of(net)
    middles = shapely.line_interpolate_point(lines, 0.5, normalized=True)
    spots = (np.asarray(at, dtype=object) for at in (middles, shapely.point_on_surface(seen)))
    on, held = (_within(figures, at) for at in spots)
    return [
        Part(
            figure=figure,
            pieces=pieces_of([lines[n] for n in own]),
            panels=[seen[n] for n in inner],
            span=_span_in(figure, zones, region.working.span),
            advised=region.advised.aspect,
        )
        for figure, own, inner in zip(figures, on, held, strict=True)
    ]


def seen_along(shapes: Shaped, way: Numbers) -> Shaped:
    """Shapes turned so that a direction is level."""
    turn = np.array([way, [-way[1], way[0]]]).T
    turned: Shaped = shapely.transform(shapes, lambda at: at @ turn)  # type: ignore[type-var]
    return turned


def _within(figures: Sequence[Polygon], spots: Shapes) -> list[list[int]]:
    """For each figure the numbers of the places in it, or on its edge."""
    tree = shapely.STRtree(spots)
    out: list[list[int]] = [[] for _ in figures]
    for figure, spot in sorted(zip(*tree.query(figures, "dwithin", SAME).tolist(), strict=True)):
        out[figure].append(spot)
    return out


def _span_in(figure: Polygon, zones: Sequence[tuple[Polygon, float]], outside: float) -> float:
    """The span that holds in a figure: of those of the zones that it meets, and beyond them, the greatest."""
    inner = figure.buffer(-TOUCH)
    met = [(area, span) for area, span in zones if area.intersects(inner)]
    whole = any(area.covers(inner) for area, _ in met)
    return max([*(span for _, span in met), *([] if whole else [outside])])
