"""Further lines beside panels that came out too long or too narrow: even divisions, alone and with their neighbours."""

import math
from collections.abc import Iterator, Sequence

from kerfline.model.layout import WorkingLimits

Box = tuple[float, float, float, float]
"""Least and greatest coordinates in a chart."""

Places = tuple[tuple[float, ...], tuple[float, ...]]
"""Places of lines on the first axis and on the second, mm."""

BESIDE = 30.0
"""Panels whose sides lie within this (mm) of one line touch there; corners of surveys are as noisy."""

SAME_PLACE = 20.0
"""Places closer than this (mm) are one."""


def mending_places(boxes: Sequence[Box], poor: Sequence[bool], limits: WorkingLimits) -> Places:
    """Where lines on each axis might mend poor panels; none where no panel is poor.

    Args:
        boxes: The boxes of all panels of a layout.
        poor: Which of them are poor.
        limits: What holds for them.
    """
    first, second = (_distinct(_places(boxes, poor, limits, axis)) for axis in (0, 1))
    return first, second


def _places(
    boxes: Sequence[Box], poor: Sequence[bool], limits: WorkingLimits, axis: int
) -> Iterator[float]:
    """Even divisions of poor panels along an axis, and of each together with a panel beside it."""
    for box in (b for b, bad in zip(boxes, poor, strict=True) if bad):
        yield from _own(box, limits, axis)
        for other in boxes:
            if other != box and _touch(box, other, axis):
                low, high = min(box[axis], other[axis]), max(box[axis + 2], other[axis + 2])
                yield from _divisions(low, high, max(2, math.ceil((high - low) / limits.span)))


def _own(box: Box, limits: WorkingLimits, axis: int) -> Iterator[float]:
    """Even divisions of a panel that is too long: as few bays as make it short enough, and one more."""
    long, across = box[axis + 2] - box[axis], box[3 - axis] - box[1 - axis]
    least = max(1, math.ceil(long / (limits.aspect * max(across, limits.width))))
    for count in (least, least + 1):
        if least > 1 and long / count >= limits.width:
            yield from _divisions(box[axis], box[axis + 2], count)


def _touch(one: Box, other: Box, axis: int) -> bool:
    """Whether two panels follow one another along an axis, most of the narrower beside the other."""
    across = 1 - axis
    overlap = min(one[across + 2], other[across + 2]) - max(one[across], other[across])
    least = min(one[across + 2] - one[across], other[across + 2] - other[across])
    meet = min(abs(one[axis] - other[axis + 2]), abs(other[axis] - one[axis + 2]))
    return overlap > least / 2 and meet <= BESIDE


def _divisions(low: float, high: float, count: int) -> Iterator[float]:
    yield from (low + (high - low) * n / count for n in range(1, count))


def _distinct(places: Iterator[float]) -> tuple[float, ...]:
    out: list[float] = []
    for place in sorted(places):
        if not out or place - out[-1] > SAME_PLACE:
            out.append(place)
    return tuple(out)
