"""The map between a picture of a flat thing, taken from anywhere, and the flat thing itself.

A plane seen in perspective is mapped by a homography, fixed by four points and their pictures::

    X = (a x + b y + c) / (g x + h y + 1)      Y = (d x + e y + f) / (g x + h y + 1)

The map of the unit square onto any four corners is had by sums and products alone (Heckbert, Fundamentals
of Texture Mapping and Image Warping, UCB/CSD 89/516, section 2.2.3; quoted from memory, and held by tests
against a pinhole camera); that of one four onto another goes by way of the square.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from kerfline.geometry.ring import Point

CORNERS = 4

Row = tuple[float, float, float]


@dataclass(frozen=True)
class Homography:
    """A map of one plane onto another.

    Attributes:
        rows: The three rows of its matrix.
    """

    rows: tuple[Row, Row, Row]

    def depth(self, point: Point) -> float:
        """How far before the eye a point lies, in a unit of its own; what is not above zero is not seen."""
        return _times(self.rows[2], point)

    def at(self, point: Point) -> Point:
        """Where a point comes to lie."""
        depth = self.depth(point)
        return (_times(self.rows[0], point) / depth, _times(self.rows[1], point) / depth)

    def after(self, first: "Homography") -> "Homography":
        """The map that does another one first."""
        columns = list(zip(*first.rows, strict=True))
        a, b, c = (
            tuple(sum(p * q for p, q in zip(row, column, strict=True)) for column in columns)
            for row in self.rows
        )
        return Homography(((a[0], a[1], a[2]), (b[0], b[1], b[2]), (c[0], c[1], c[2])))

    def inverse(self) -> "Homography":
        """The way back; a point that lies before the eye there lies before it here."""
        (a, b, c), (d, e, f), (g, h, i) = self.rows
        rows = (
            (e * i - f * h, c * h - b * i, b * f - c * e),
            (f * g - d * i, a * i - c * g, c * d - a * f),
            (d * h - e * g, b * g - a * h, a * e - b * d),
        )
        size = a * rows[0][0] + b * rows[1][0] + c * rows[2][0]
        first, second, third = ((r[0] / size, r[1] / size, r[2] / size) for r in rows)
        return Homography((first, second, third))


def _times(row: Row, point: Point) -> float:
    return row[0] * point[0] + row[1] * point[1] + row[2]


def homography(source: Sequence[Point], target: Sequence[Point]) -> Homography | None:
    """The map of four corners onto four others, both in one order round.

    Returns:
        The map, under which the source's corners lie before the eye; None where the corners of either do
        not go round a figure that bulges everywhere.
    """
    if not (goes_round(source) and goes_round(target)):
        return None
    found = _of_square(target).after(_of_square(source).inverse())
    depth = found.depth(source[0])
    first, second, third = ((r[0] / depth, r[1] / depth, r[2] / depth) for r in found.rows)
    return Homography((first, second, third))


def _of_square(corners: Sequence[Point]) -> Homography:
    """The map of the unit square's corners, anticlockwise from the origin, onto four others."""
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = corners
    ax, bx, sx = x1 - x2, x3 - x2, x0 - x1 + x2 - x3
    ay, by, sy = y1 - y2, y3 - y2, y0 - y1 + y2 - y3
    size = ax * by - bx * ay
    g, h = (sx * by - bx * sy) / size, (ax * sy - sx * ay) / size
    return Homography(
        (
            (x1 - x0 + g * x1, x3 - x0 + h * x3, x0),
            (y1 - y0 + g * y1, y3 - y0 + h * y3, y0),
            (g, h, 1.0),
        )
    )


LEAST_TURN = 0.02
"""Sine of the least turn at a corner: where it is less three corners lie as good as in one line."""


def goes_round(corners: Sequence[Point]) -> bool:
    """Whether four corners go round a figure that turns the same way at each of them."""
    turns = [_turn(corners[i - 2], corners[i - 1], corners[i]) for i in range(CORNERS)]
    return all(t > LEAST_TURN for t in turns) or all(t < -LEAST_TURN for t in turns)


def _turn(before: Point, here: Point, after: Point) -> float:
    """Sine of the turn at a corner, anticlockwise; 0 where a side has no length."""
    ax, ay = here[0] - before[0], here[1] - before[1]
    bx, by = after[0] - here[0], after[1] - here[1]
    sizes = (ax * ax + ay * ay) * (bx * bx + by * by)
    return float((ax * by - ay * bx) / sizes**0.5) if sizes else 0.0


def seen_part(onto: Homography, corners: Sequence[Point], least: float) -> list[Point]:
    """What of a picture lies nearer to the eye than a bound, as corners on the other plane.

    Args:
        onto: The map of the picture.
        corners: The picture's own corners in their order round.
        least: The least depth; where a picture reaches up to the horizon there is no end to what it shows.
    """
    kept: list[Point] = []
    for before, here in zip((corners[-1], *corners[:-1]), corners, strict=True):
        near, far = onto.depth(here) - least, onto.depth(before) - least
        if near * far < 0:
            share = far / (far - near)
            kept.append(
                (
                    before[0] + share * (here[0] - before[0]),
                    before[1] + share * (here[1] - before[1]),
                )
            )
        if near >= 0:
            kept.append(here)
    return [onto.at(point) for point in kept]
