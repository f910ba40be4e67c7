"""The scaled view of the slab on a sheet: real millimetres to millimetres of paper and back."""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

import numpy as np
import shapely

from kerfline.geometry.arrays import Flags, Numbers
from kerfline.geometry.ring import Point

Shape = TypeVar("Shape", bound=shapely.Geometry)
Item = TypeVar("Item")


@dataclass(frozen=True, kw_only=True)
class View:
    """A true-scale view, turned so that the slab's baselines lie along the paper.

    Attributes:
        scale: Real length over length on paper.
        turn: Degrees by which the slab is turned (anticlockwise) to lie along the paper.
        world: A point of the slab, in mm of its own origin.
        at: Where that point lies on the paper, mm.
        window: The part of the paper that the view fills: left, bottom, right, top.
        own: What of the window is its own, from match line to match line.
        room: The part of the paper that it has with its dimensions and tags.
    """

    scale: float
    turn: float
    world: Point
    at: Point
    window: tuple[float, float, float, float]
    own: tuple[float, float, float, float]
    room: tuple[float, float, float, float]

    @cached_property
    def matrix(self) -> tuple[float, float, float, float, float, float]:
        """Affine coefficients a, b, d, e, xoff, yoff from the slab to the paper."""
        cos = math.cos(math.radians(self.turn)) / self.scale
        sin = math.sin(math.radians(self.turn)) / self.scale
        x, y = self.world
        return (cos, -sin, sin, cos, self.at[0] - cos * x + sin * y, self.at[1] - sin * x - cos * y)

    def to_paper(self, point: Point) -> Point:
        """A point of the slab on the paper."""
        a, b, d, e, x0, y0 = self.matrix
        x, y = point
        return (a * x + b * y + x0, d * x + e * y + y0)

    def to_world(self, point: Point) -> Point:
        """A point of the paper on the slab."""
        x, y = point[0] - self.at[0], point[1] - self.at[1]
        cos, sin = math.cos(math.radians(self.turn)), math.sin(math.radians(self.turn))
        return (
            self.world[0] + self.scale * (cos * x + sin * y),
            self.world[1] + self.scale * (cos * y - sin * x),
        )

    def points(self, points: Iterable[Point]) -> tuple[Point, ...]:
        """Points of the slab on the paper."""
        return tuple(self.to_paper(p) for p in points)

    def shape(self, shape: Shape) -> Shape:
        """A shape of the slab on the paper."""
        return shapely.transform(shape, self._placed)

    def _placed(self, points: Numbers) -> Numbers:
        """Points of the slab on the paper, a row each."""
        a, b, d, e, x0, y0 = self.matrix
        moved: Numbers = points @ np.array([[a, d], [b, e]]) + (x0, y0)
        return moved

    def clipped(
        self, shape: shapely.Polygon | shapely.MultiPolygon | shapely.LineString
    ) -> shapely.Geometry:
        """What of a shape of the slab lies in the window, on the paper."""
        shown = self.shape(shape)
        x0, y0, x1, y1 = shown.bounds
        left, bottom, right, top = self.window
        if left <= x0 and bottom <= y0 and x1 <= right and y1 <= top:
            return shown
        return shown.intersection(self.window_box)

    def sees(
        self, shape: shapely.Polygon | shapely.MultiPolygon | shapely.LineString | shapely.Point
    ) -> bool:
        """Whether a shape of the slab may lie in the window, by its bounds."""
        return bool(self._may_show(np.asarray([shape.bounds]))[0])

    def among(
        self, items: Sequence[Item], shape: Callable[[Item], shapely.Geometry]
    ) -> list[tuple[Item, shapely.Geometry]]:
        """Those of many things whose shape may lie in the window, each with what of it does, on the paper."""
        if not items:
            return []
        shapes = np.asarray([shape(item) for item in items], dtype=object)
        seen = np.flatnonzero(self._may_show(shapely.bounds(shapes)))
        drawn = np.asarray(shapely.transform(shapes[seen], self._placed), dtype=object)
        left, bottom, right, top = self.window
        x0, y0, x1, y1 = shapely.bounds(drawn).T
        cut = ~((left <= x0) & (bottom <= y0) & (x1 <= right) & (y1 <= top))
        drawn[cut] = shapely.intersection(drawn[cut], self.window_box)
        return [(items[int(i)], part) for i, part in zip(seen, drawn, strict=True)]

    def _may_show(self, bounds: Numbers) -> Flags:
        left, bottom, right, top = self.world_bounds
        x0, y0, x1, y1 = bounds.T
        shown: Flags = (x0 <= right) & (x1 >= left) & (y0 <= top) & (y1 >= bottom)
        return shown

    @cached_property
    def world_bounds(self) -> tuple[float, float, float, float]:
        """Bounds of the window on the slab."""
        left, bottom, right, top = self.window
        corners = [
            self.to_world(p) for p in ((left, bottom), (right, bottom), (right, top), (left, top))
        ]
        xs, ys = [c[0] for c in corners], [c[1] for c in corners]
        return (min(xs), min(ys), max(xs), max(ys))

    @cached_property
    def window_box(self) -> shapely.Polygon:
        """The window as a polygon, in mm of paper."""
        return shapely.box(*self.window)
