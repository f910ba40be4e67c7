"""Lays a picture under the drawing: at first as it comes, then scaled, squared up, moved.

Whoever points at something points at the plan as it is shown; what that is in the picture follows from how
the picture lies.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

from kerfline.app.slab_edit import positive_length
from kerfline.errors import InputRefused, Mistake
from kerfline.geometry.homography import Homography, goes_round
from kerfline.geometry.ring import Point
from kerfline.model.tracing import Tracing
from kerfline.units import Unit

Box = tuple[float, float, float, float]
"""Left, bottom, right and top, mm."""

LEAST_APART = 1e-3
"""Two points nearer than this share of the picture's longer side give no scale."""

ROUND_AGAIN = "tap them again, one after the other round it"


def laid(file: str, page: int, size: Point, view: Box) -> Tracing:
    """A picture upright in the middle of what is seen of the plan, not yet to any scale.

    Args:
        file: Its name.
        page: Which page of a PDF; 0 of a picture.
        size: Its width and height in its own measure.
        view: What it shall fill, mm.
    """
    width, height = size
    x0, y0, x1, y1 = view
    scale = min((x1 - x0) / width, (y1 - y0) / height)
    left, bottom = (x0 + x1 - scale * width) / 2, (y0 + y1 - scale * height) / 2
    return Tracing(
        file=file,
        page=page,
        size=size,
        picture=((0.0, height), (width, height)),
        plan=((left, bottom), (left + scale * width, bottom)),
    )


def scaled(tracing: Tracing, ends: tuple[Point, Point], length: float, way: str) -> Tracing:
    """A picture of which a stretch has the length that it should; the first end stays where it is.

    Args:
        tracing: The picture.
        ends: The ends of the stretch as they are shown, mm.
        length: How long it really is, mm.
        way: ``level`` or ``upright`` turns the picture so that the stretch runs so; empty leaves it as it lies.

    Raises:
        InputRefused: The ends are as good as one point.
    """
    (ax, ay), (bx, by) = ends
    apart = math.dist(*ends)
    if not apart > LEAST_APART * _reach(tracing):
        raise InputRefused(
            Mistake(
                what="the two points are as good as one",
                remedy="tap two that are far apart, such as the ends of the longest dimension",
            )
        )
    ux, uy = (bx - ax) / apart, (by - ay) / apart
    tx, ty = {
        "level": (math.copysign(1.0, ux), 0.0),
        "upright": (0.0, math.copysign(1.0, uy)),
    }.get(way, (ux, uy))
    grown = length / apart
    # The turn from the way of the stretch to the way that it should run, and the scale, as one complex factor.
    a, b = grown * (ux * tx + uy * ty), grown * (ux * ty - uy * tx)
    plan = tuple(
        (ax + a * (x - ax) - b * (y - ay), ay + b * (x - ax) + a * (y - ay))
        for x, y in tracing.plan
    )
    return replace(tracing, plan=plan, locked=True)


def squared(tracing: Tracing, corners: Sequence[Point], sides: tuple[float, float]) -> Tracing:
    """A picture of which four corners are those of a rectangle, as they really are.

    The first corner stays where it is, and the first side runs along the axis that it is nearest to.

    Args:
        tracing: The picture.
        corners: The corners as they are shown, in their order round, mm.
        sides: How long the side from the first corner to the second really is, and the next one, mm.

    Raises:
        InputRefused: The corners go round no figure that a rectangle can look like.
    """
    back = _onto(tracing).inverse()
    picture = tuple(back.at(corner) for corner in corners)
    if not goes_round(picture):
        raise InputRefused(
            Mistake(
                what="these are not the four corners of something rectangular", remedy=ROUND_AGAIN
            )
        )
    (ax, ay), (bx, by), (cx, cy) = corners[:3]
    ux, uy = (
        (math.copysign(1.0, bx - ax), 0.0)
        if abs(bx - ax) >= abs(by - ay)
        else (0.0, math.copysign(1.0, by - ay))
    )
    left = (bx - ax) * (cy - by) - (by - ay) * (cx - bx) > 0
    vx, vy = (-uy, ux) if left else (uy, -ux)
    along, across = sides
    second = (ax + along * ux, ay + along * uy)
    plan = (
        (ax, ay),
        second,
        (second[0] + across * vx, second[1] + across * vy),
        (ax + across * vx, ay + across * vy),
    )
    return replace(tracing, picture=picture, plan=plan, locked=True)


def moved(tracing: Tracing, by: Point) -> Tracing:
    """A picture that lies elsewhere."""
    return replace(tracing, plan=tuple((x + by[0], y + by[1]) for x, y in tracing.plan))


def length_between(text: str, unit: Unit) -> float:
    """A length as it was typed, mm.

    Raises:
        InputRefused: It is none, or not above zero.
    """
    return positive_length(text, unit, "length")


def _onto(tracing: Tracing) -> Homography:
    onto = tracing.onto
    if onto is None:
        raise InputRefused(
            Mistake(what="the picture lies nowhere", where=tracing.file, remedy="lay it again")
        )
    return onto


def _reach(tracing: Tracing) -> float:
    """The longer side of what is shown of a picture, mm."""
    seen = tracing.seen
    xs, ys = [x for x, _ in seen], [y for _, y in seen]
    return max(max(xs) - min(xs), max(ys) - min(ys)) if seen else 0.0
