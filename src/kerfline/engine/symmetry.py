"""Symmetry: figures, points and places on an axis that are their own images, across a line or under a half turn."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import partial

import numpy as np
import shapely
from shapely import Polygon, affinity

from kerfline.geometry.arrays import Numbers
from kerfline.geometry.faces import sound

DRAWN = 4.0
"""An outline that strays from its image by no more than this (mm) was drawn symmetric."""

NEAR = 30.0
"""Images that lie within this (mm) are one place: whole inches, rounded on either side of a mirror."""

Ends = tuple[float, float]
"""Where a piece begins and ends on an axis, mm: it is mirrored at the middle."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Flip:
    """A mirror or a half turn about the middle of a box.

    Attributes:
        turned: For each coordinate whether it runs the other way.
        swap: Whether the two coordinates change places first.
    """

    turned: tuple[bool, bool]
    swap: bool = False

    def of(self, points: Numbers, box: Numbers) -> Numbers:
        """The images of points (n x 2); of the box least and greatest coordinate on each axis (2 x 2)."""
        middle, out = box.mean(axis=1), points - box.mean(axis=1)
        out = out[:, ::-1] if self.swap else out
        return np.asarray(middle + out * np.where(self.turned, -1.0, 1.0))


MIRRORS = (Flip(turned=(True, False)), Flip(turned=(False, True)))
"""By the axis that runs the other way."""

HALF_TURN = Flip(turned=(True, True))

ALONG_AXES = (*MIRRORS, HALF_TURN)

RISING, FALLING = (Flip(turned=way, swap=True) for way in ((False, False), (True, True)))
"""Across the diagonals."""

ALONG_DIAGONALS = (RISING, FALLING)


def is_symmetric(shape: Polygon, turn: float, axis: int) -> bool:
    """Whether a piece is its own image across the middle of an axis, or under a half turn.

    Args:
        shape: The piece.
        turn: Angle of the first axis, degrees.
        axis: Number of the axis.
    """
    return _is_own_image(shape, turn, (MIRRORS[axis], HALF_TURN))


def is_mirrored(shape: Polygon, turn: float) -> bool:
    """Whether a piece is its own image across the middle of either axis of a chart."""
    return _is_own_image(shape, turn, MIRRORS)


def is_diagonal(shape: Polygon, turn: float) -> bool:
    """Whether a piece is its own image across the rising diagonal of its box."""
    return _is_own_image(shape, turn, (RISING,))


def _is_own_image(shape: Polygon, turn: float, flips: Iterable[Flip]) -> bool:
    """Whether a piece and one of its images cover the same but for a strip along the edge as wide as plans are off."""
    flat = affinity.rotate(shape, -turn, origin=(0.0, 0.0))
    box = np.reshape(flat.bounds, (2, 2)).T
    images = (sound(shapely.transform(flat, partial(flip.of, box=box))) for flip in flips)
    most = DRAWN * flat.length
    return any(sound(flat).symmetric_difference(image).area <= most for image in images)


def matched(points: Numbers, flip: Flip, box: Numbers) -> list[int] | None:
    """For each point the one that lies where its image does; None where one has none."""
    images = flip.of(points, box)
    tree = shapely.STRtree(np.asarray(shapely.points(points)))
    nearest: list[int] = np.asarray(tree.nearest(np.asarray(shapely.points(images)))).tolist()
    far = np.abs(points[nearest] - images).max(initial=0.0) > NEAR
    return None if far or len(set(nearest)) < len(points) else nearest


def are_symmetric(places: Sequence[float] | Numbers, ends: Ends) -> bool:
    """Whether of each place on an axis the image is one of them too."""
    at = np.asarray(places, dtype=float)
    return not at.size or bool((np.abs(sum(ends) - at[:, None] - at).min(axis=1) <= NEAR).all())


def with_lower_images(places: Iterable[float], ends: Ends) -> list[float]:
    """Places on an axis with their images: the lower half decides, a place at the middle stays."""
    middle = sum(ends) / 2
    out: list[float] = []
    for place in places:
        if abs(place - middle) <= NEAR:
            out.append(place)
        elif place < middle:
            out += [place, sum(ends) - place]
    return out


def with_images(places: Iterable[float], ends: Ends) -> list[float]:
    """Places on an axis, each with its image unless that lies on another."""
    out: list[float] = []
    for place in places:
        for each in (place, sum(ends) - place):
            if all(abs(each - other) > NEAR for other in out):
                out.append(each)
    return out
