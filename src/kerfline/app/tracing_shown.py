"""How a picture under the drawing is shown: where it lies, and the picture itself without its perspective."""

from dataclasses import dataclass

from kerfline.files.tracing.ground import Straight, picture_of_ground
from kerfline.geometry.homography import CORNERS
from kerfline.geometry.ring import Point
from kerfline.model.tracing import Tracing

SHOWN_PIXELS = 9_000_000
"""Pixels of a picture that is drawn anew, at most."""

MARGIN = 1e-6
"""A corner of what is drawn is never nearer than this to where the way back has no end."""


@dataclass(frozen=True, kw_only=True)
class Placed:
    """Where a picture lies on the plan, for whoever draws it with y up.

    Attributes:
        box: Left, bottom, right and top of it in a measure of its own.
        onto: ``a, b, c, d, e, f`` of the map of that measure onto the plan: x = a u + c v + e, y = b u + d v + f.
    """

    box: tuple[float, float, float, float]
    onto: tuple[float, float, float, float, float, float]


def placed(tracing: Tracing) -> Placed | None:
    """Where a picture lies; None where its points tell no place.

    The measure of a picture as it is, is its own with y up from its upper left corner; of one that is drawn
    without its perspective, mm from its first point, so that moving it does not draw it anew.
    """
    onto = tracing.onto
    if onto is None:
        return None
    straight = straight_of(tracing)
    if straight:
        x, y = tracing.plan[0]
        return Placed(box=straight.box, onto=(1.0, 0.0, 0.0, 1.0, x, y))
    (a, b, x), (c, d, y), _ = onto.rows
    width, height = tracing.size
    return Placed(box=(0.0, -height, width, 0.0), onto=(a, c, -b, -d, x, y))


def straight_of(tracing: Tracing) -> Straight | None:
    """How a picture is drawn without its perspective; None where it has none."""
    around_first = _around_first(tracing)
    onto = around_first.onto
    if onto is None or len(tracing.picture) != CORNERS:
        return None
    seen = around_first.seen
    xs, ys = [x for x, _ in seen], [y for _, y in seen]
    x0, y0, x1, y1 = min(xs), min(ys), max(xs), max(ys)
    back = onto.inverse()
    if abs(back.depth((x0, y1))) < MARGIN * abs(back.depth((0.0, 0.0))):
        x0 -= (x1 - x0) / 100
    fine = (_area(around_first.picture) / _area(around_first.plan)) ** 0.5
    most = (SHOWN_PIXELS / ((x1 - x0) * (y1 - y0))) ** 0.5
    return Straight(back=back, box=(x0, y0, x1, y1), within=tuple(seen), fineness=min(fine, most))


def shown_picture(tracing: Tracing, data: bytes) -> bytes:
    """The picture as it is drawn on the page: PNG or JPEG.

    Raises:
        InputRefused: The file cannot be traced from.
    """
    return picture_of_ground(data, tracing.file, tracing.page, straight_of(tracing))


def _around_first(tracing: Tracing) -> Tracing:
    """The same picture with its first point at 0, 0."""
    from kerfline.app.tracing import moved

    x, y = tracing.plan[0]
    return moved(tracing, (-x, -y))


def _area(corners: tuple[Point, ...]) -> float:
    """Area of a figure by its corners."""
    sides = zip(corners, (*corners[1:], corners[0]), strict=True)
    return abs(sum(ax * by - bx * ay for (ax, ay), (bx, by) in sides)) / 2
