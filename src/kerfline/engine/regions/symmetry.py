"""Whether a piece is its own image across a line, or under a half turn."""

from shapely import Polygon, affinity

DRAWN = 4.0
"""An outline that strays from its image by no more than this (mm) was drawn symmetric."""

MIRRORS = ((-1.0, 1.0), (1.0, -1.0))
HALF_TURN = (-1.0, -1.0)


def is_symmetric(shape: Polygon, turn: float, axis: int) -> bool:
    """Whether a piece is its own image across the middle of an axis, or under a half turn.

    Args:
        shape: The piece.
        turn: Angle of the first axis, degrees.
        axis: Number of the axis.
    """
    flat = affinity.rotate(shape, -turn, origin=(0.0, 0.0))
    return any(_is_image(flat, signs) for signs in (MIRRORS[axis], HALF_TURN))


def is_mirrored(shape: Polygon, turn: float) -> bool:
    """Whether a piece is its own image across the middle of either axis of a chart."""
    flat = affinity.rotate(shape, -turn, origin=(0.0, 0.0))
    return any(_is_image(flat, signs) for signs in MIRRORS)


def is_diagonal(shape: Polygon, turn: float) -> bool:
    """Whether a piece is its own image across the diagonal of its box, whose sides are then alike."""
    flat = affinity.rotate(shape, -turn, origin=(0.0, 0.0))
    x0, y0, x1, y1 = flat.bounds
    if abs((x1 - x0) - (y1 - y0)) > DRAWN:
        return False
    image = affinity.affine_transform(flat, [0.0, 1.0, 1.0, 0.0, x0 - y0, y0 - x0])
    return bool(flat.symmetric_difference(image).area <= DRAWN * flat.length)


def _is_image(flat: Polygon, signs: tuple[float, float]) -> bool:
    x0, y0, x1, y1 = flat.bounds
    image = affinity.scale(flat, *signs, origin=((x0 + x1) / 2, (y0 + y1) / 2))
    return bool(flat.symmetric_difference(image).area <= DRAWN * flat.length)
