"""Small drawings of our own, made anew for each test."""

import math
from collections.abc import Callable, Sequence
from itertools import pairwise
from pathlib import Path

import ezdxf
import pytest
from ezdxf import units

Point = tuple[float, float]

L_SHAPE = [(0, 0), (480, 0), (480, 240), (240, 240), (240, 360), (0, 360)]
"""A slab of 40 x 20 ft and 20 x 10 ft, in inches."""

L_AREA = 480 * 240 + 240 * 120


class Sheet:
    """A drawing in the making: the builder's calls return nothing, ``save`` gives the file."""

    def __init__(self, folder: Path, unit: int | None = units.IN, version: str = "R2010") -> None:
        self.folder = folder
        self.doc = ezdxf.new(version, units=unit if unit is not None else 0)
        self.space = self.doc.modelspace()

    def line(self, layer: str, *points: Point) -> None:
        """One LINE from each point to the next."""
        for a, b in pairwise(points):
            self.space.add_line(a, b, dxfattribs={"layer": layer})

    def loop(self, layer: str, points: Sequence[Point]) -> None:
        """LINEs around and back."""
        self.line(layer, *points, points[0])

    def poly(self, layer: str, points: Sequence[tuple], *, close: bool = True) -> None:
        """One LWPOLYLINE; a third number is the bulge."""
        rows = [(p[0], p[1], p[2] if len(p) > 2 else 0.0) for p in points]
        self.space.add_lwpolyline(rows, format="xyb", close=close, dxfattribs={"layer": layer})

    def square(self, layer: str, at: Point, side: float, turn: float = 0.0) -> None:
        """A closed square, turned about its middle."""
        self.poly(layer, square(at, side, turn))

    def text(self, layer: str, words: str, at: Point, height: float) -> None:
        """A line of text."""
        self.space.add_text(words, height=height, dxfattribs={"layer": layer, "insert": at})

    def circle(self, layer: str, at: Point, diameter: float) -> None:
        self.space.add_circle(at, diameter / 2, dxfattribs={"layer": layer})

    def wall(self, layer: str, start: Point, end: Point, thickness: float) -> None:
        """The two faces of a wall, as LINEs."""
        dx, dy = end[0] - start[0], end[1] - start[1]
        size = math.hypot(dx, dy)
        nx, ny = -dy / size * thickness / 2, dx / size * thickness / 2
        for s in (1, -1):
            self.line(
                layer,
                (start[0] + s * nx, start[1] + s * ny),
                (end[0] + s * nx, end[1] + s * ny),
            )

    def save(self, name: str = "plan.dxf", fmt: str = "asc") -> Path:
        path = self.folder / name
        self.doc.saveas(path, fmt=fmt)
        return path


def square(at: Point, side: float, turn: float = 0.0) -> list[Point]:
    """The corners of a square."""
    reach = side / math.sqrt(2)
    angles = [math.radians(turn + 45 + 90 * i) for i in range(4)]
    return [(at[0] + reach * math.cos(a), at[1] + reach * math.sin(a)) for a in angles]


@pytest.fixture
def sheet(tmp_path: Path) -> Callable[..., Sheet]:
    """Starts a drawing, in inches unless told otherwise."""

    def start(unit: int | None = units.IN, version: str = "R2010") -> Sheet:
        return Sheet(tmp_path, unit, version)

    return start
