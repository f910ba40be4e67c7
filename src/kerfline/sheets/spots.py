"""Places that a label could take: along a line, inside an area, around a point; best first."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import shapely
from shapely import LineString, Polygon

from kerfline.geometry.faces import lines_of
from kerfline.geometry.ring import Point
from kerfline.sheets.lettering import ASCENT, below, text_width
from kerfline.sheets.marks import Anchor, Bounds, Text
from kerfline.sheets.placer import Spot

SHARES = (0.5, 0.38, 0.62, 0.26, 0.74, 0.16, 0.84)
"""Where along a joint its tag may stand, best first."""

RADII = (5.0, 8.0, 12.0, 17.0, 24.0, 32.0)

FAR = (40.0, 50.0, 62.0, 78.0, 98.0, 124.0)
"""Lengths of the leaders of what finds no room near, mm."""

DIRECTIONS = tuple(math.radians(a) for a in (45, 135, 225, 315, 0, 90, 180, 270, 20, 70, 110, 160))
"""Where a label with a leader may stand around what it names: mm of paper and directions."""

ALL_ROUND = tuple(math.radians(a) for a in range(0, 360, 10))
"""Directions of longer leaders."""

RIGHT_ANGLE = 90.0

LEANING = 3.0
"""A text along a line that leans back from upright by no more than this (degrees) is read from the right too."""

ROUNDING = 1e-6
"""An area that lacks less than this (mm2 of paper) of its bounding box is a rectangle."""

SHIFTS = tuple(
    sorted(
        ((i / 8, j / 8) for i in range(-3, 4) for j in range(-3, 4)),
        key=lambda shift: (round(math.hypot(*shift), 6), shift),
    )
)
"""Where a label may stand in a panel: shares of its sides from its heart, nearest first."""


def beside(line: LineString, text: Text, gap: float = 0.9) -> Iterator[Spot]:
    """Places along a line, above it and below it, turned to be read from below or from the right."""
    width = text_width(text.text, text.height)
    if width > line.length:
        return
    foot, head = below(text.text, text.height), ASCENT * text.height
    for rim in (gap, 3 * gap):
        for share in SHARES:
            x, y, turn = _seat(line, share, width)
            cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
            for off in (foot + rim, -rim - head):
                yield Spot(text.moved((x - off * sin, y + off * cos), turn=turn))


def _seat(line: LineString, share: float, width: float) -> tuple[float, float, float]:
    """Middle and direction of a stretch of a line as long as a text, readable from below or right."""
    reach = width / 2 / line.length
    share = min(max(share, reach), 1 - reach)
    a = line.interpolate(share - reach, normalized=True)
    b = line.interpolate(share + reach, normalized=True)
    turn, _ = readable((b.x - a.x, b.y - a.y))
    return (float(a.x + b.x) / 2, float(a.y + b.y) / 2, turn)


def readable(way: Point) -> tuple[float, bool]:
    """Turn of a text along a direction so that it is read from below or from the right.

    Returns:
        The turn in degrees, and whether the text runs against the direction.
    """
    turn = math.degrees(math.atan2(way[1], way[0]))
    if turn > RIGHT_ANGLE + LEANING:
        return turn - 2 * RIGHT_ANGLE, True
    if turn <= -RIGHT_ANGLE + LEANING:
        return turn + 2 * RIGHT_ANGLE, True
    return turn, False


@dataclass(frozen=True)
class Room:
    """An area on the paper that labels may stand in, measured once for all that try it.

    Attributes:
        area: The area, mm of paper.
    """

    area: Polygon

    @cached_property
    def bounds(self) -> Bounds:
        """Left, bottom, right and top."""
        x0, y0, x1, y1 = self.area.bounds
        return (x0, y0, x1, y1)

    @cached_property
    def sides(self) -> Point:
        """Width and height of the box around it."""
        x0, y0, x1, y1 = self.bounds
        return (x1 - x0, y1 - y0)

    @cached_property
    def heart(self) -> Point:
        """Its centroid, or else a point inside."""
        return heart(self.area)

    @cached_property
    def _is_box(self) -> bool:
        width, height = self.sides
        shapely.prepare(self.area)
        return bool(width * height - self.area.area <= ROUNDING)

    def at(self, across: float, up: float) -> Point:
        """A point by shares of the sides from the heart."""
        (x, y), (width, height) = self.heart, self.sides
        return (x + width * across, y + height * up)

    def holds(self, box: Bounds) -> bool:
        """Whether an upright box lies inside."""
        x0, y0, x1, y1 = self.bounds
        left, low, right, high = box
        if left < x0 or low < y0 or right > x1 or high > y1:
            return False
        return self._is_box or bool(self.area.covers(shapely.box(*box)))


def inside(room: Room, text: Text) -> Iterator[Spot]:
    """Places inside an area, from its heart outward."""
    half, height = text_width(text.text, text.height) / 2, text.height
    if 2 * half > room.sides[0] or height > room.sides[1]:
        return
    for shift in SHIFTS:
        x, middle = room.at(*shift)
        y = middle - height / 2
        if room.holds((x - half, y, x + half, y + height)):
            yield Spot(text.moved((x, y)))


def over(at: Point, text: Text) -> Iterator[Spot]:
    """The place right on a point."""
    yield Spot(text.moved((at[0], at[1] - text.height / 2)))


def farther(at: Point, text: Text) -> Iterator[Spot]:
    """Places at the end of longer leaders, and in more directions."""
    yield from around(at, text, (*RADII, *FAR), ALL_ROUND)


def around(
    at: Point,
    text: Text,
    radii: Sequence[float] = RADII,
    directions: Sequence[float] = DIRECTIONS,
) -> Iterator[Spot]:
    """Places around a point, with a leader."""
    width = text_width(text.text, text.height)
    for radius in radii:
        for angle in directions:
            dx, dy = math.cos(angle), math.sin(angle)
            knee = (at[0] + radius * dx, at[1] + radius * dy)
            left = dx < -1e-9  # noqa: PLR2004 - straight up and down lead to the right
            anchor = Anchor.END if left else Anchor.START
            foot = (knee[0] + (-0.8 if left else 0.8), knee[1] - text.height / 2)
            if width:
                yield Spot(text.moved(foot, anchor=anchor), (at, knee))


def close_by(at: Point, reach: float, text: Text) -> Iterator[Spot]:
    """Places right beside a small thing, without a leader."""
    for sx, sy in ((1, 1), (-1, 1), (1, -1), (-1, -1)):
        anchor = Anchor.START if sx > 0 else Anchor.END
        y = at[1] + (reach * 0.7 + 0.5 if sy > 0 else -reach * 0.7 - 0.5 - text.height)
        yield Spot(text.moved((at[0] + sx * (reach * 0.7 + 0.5), y), anchor=anchor))


def heart(area: Polygon) -> Point:
    """The centroid of an area, or else a point inside it."""
    centre = area.centroid
    if not area.covers(centre):
        centre = area.point_on_surface()
    return (float(centre.x), float(centre.y))


def nearest_edge(area: Polygon) -> Point:
    """A point just inside the upper right of an area, for a leader to point at."""
    x0, y0, x1, y1 = area.bounds
    inset = min(1.5, (x1 - x0) / 4, (y1 - y0) / 4)
    spot = shapely.Point(x1 - inset, y1 - inset)
    if not area.covers(spot):
        spot = area.point_on_surface()
    return (float(spot.x), float(spot.y))


def middle_of(line: LineString) -> Point:
    """The point half way along a line."""
    spot = line.interpolate(0.5, normalized=True)
    return (float(spot.x), float(spot.y))


def longest_line(shape: shapely.Geometry) -> LineString | None:
    """The longest line in a shape of any kind; None where it holds none."""
    return max(lines_of(shape), key=lambda part: part.length, default=None)
