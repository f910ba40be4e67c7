"""The turn, shift and scale that lay one plan over another with the least sum of squared residuals.

With e, n the target's coordinates and x, y the plan's, both from their centres of gravity::

    e = a x - b y,  n = b x + a y      a = sum(x e + y n) / sum(x x + y y)
                                       b = sum(x n - y e) / sum(x x + y y)

are the normal equations of the four-parameter transformation. Where the scale is given, the turn that
leaves the least squares is that of the same a and b, brought to the length of the scale.

Only sums that are exact (``math.fsum``), products, quotients and square roots are used, which every
processor that follows IEEE 754 rounds alike.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from kerfline.geometry.ring import Point

LEAST_POINTS = 2


@dataclass(frozen=True, kw_only=True)
class Similarity:
    """A turn with a scale, and a shift.

    Attributes:
        a: Scale times the cosine of the turn.
        b: Scale times its sine; the turn is anticlockwise.
        plan: A point of the plan, mm.
        site: Where that point comes to lie, mm.
    """

    a: float
    b: float
    plan: Point
    site: Point

    @property
    def scale(self) -> float:
        """Length on site of a length of one on the plan."""
        return math.sqrt(self.a * self.a + self.b * self.b)

    def to_site(self, point: Point) -> Point:
        """Where a point of the plan lies on site, as easting and northing in mm."""
        x, y = point[0] - self.plan[0], point[1] - self.plan[1]
        return (
            self.site[0] + (self.a * x - self.b * y),
            self.site[1] + (self.b * x + self.a * y),
        )

    def to_plan(self, point: Point) -> Point:
        """Where a point of the site lies on the plan."""
        e, n = point[0] - self.site[0], point[1] - self.site[1]
        square = self.a * self.a + self.b * self.b
        return (
            self.plan[0] + (self.a * e + self.b * n) / square,
            self.plan[1] + (self.a * n - self.b * e) / square,
        )


@dataclass(frozen=True, kw_only=True)
class Fit:
    """A similarity, and by how much it misses the points that it was found from.

    Attributes:
        similarity: The turn, shift and scale.
        residuals: For each point where it was measured less where it comes to lie, mm.
    """

    similarity: Similarity
    residuals: tuple[Point, ...]

    @property
    def largest(self) -> float:
        """Length of the longest residual, mm."""
        return max(math.sqrt(e * e + n * n) for e, n in self.residuals)


def fit(plan: Sequence[Point], site: Sequence[Point], scale: float | None = 1.0) -> Fit | None:
    """Lays the points of a plan over their places on site.

    Args:
        plan: The points, mm.
        site: Their eastings and northings, mm, in the same order.
        scale: The scale that is held; None to find it too.

    Returns:
        The fit; None where there are fewer than two points, or all are in one place.
    """
    if len(plan) < LEAST_POINTS:
        return None
    plan_middle, site_middle = _middle(plan), _middle(site)
    rows = [
        (x - plan_middle[0], y - plan_middle[1], e - site_middle[0], n - site_middle[1])
        for (x, y), (e, n) in zip(plan, site, strict=True)
    ]
    spread = math.fsum(part for x, y, _, _ in rows for part in (x * x, y * y))
    a = math.fsum(part for x, y, e, n in rows for part in (x * e, y * n))
    b = math.fsum(part for x, y, e, n in rows for part in (x * n, -y * e))
    length = math.sqrt(a * a + b * b)
    if not spread or not length:
        return None
    share = 1 / spread if scale is None else scale / length
    found = Similarity(a=a * share, b=b * share, plan=plan_middle, site=site_middle)
    return Fit(similarity=found, residuals=tuple(_residuals(found, plan, site)))


def _residuals(similarity: Similarity, plan: Sequence[Point], site: Sequence[Point]) -> list[Point]:
    laid = [similarity.to_site(point) for point in plan]
    return [(e - x, n - y) for (e, n), (x, y) in zip(site, laid, strict=True)]


def _middle(points: Sequence[Point]) -> Point:
    """The centre of gravity."""
    count = len(points)
    return (math.fsum(x for x, _ in points) / count, math.fsum(y for _, y in points) / count)
