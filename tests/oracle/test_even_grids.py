"""No even grid of joints costs less than what the engine finds on a rectangle.

The price is written once more, from what the weights are said to mean (``even_prices``).
"""

import math
from itertools import product
from random import Random

import pytest

from oracle.even_prices import (
    FOOT,
    GREATEST,
    INCH,
    LINE,
    MOST_ASPECT,
    SPAN,
    TEE,
    UNEVEN,
    panel_price,
)
from unit.engine.plans import box, layout, slab


def departure(bay, whole, across):
    """By how much of itself a bay departs from an even division that span or aspect asks for, or one bay more."""
    fewest = [math.ceil(whole / limit - 1e-6) for limit in (SPAN, min(SPAN, MOST_ASPECT * across))]
    return min(abs(bay * n / whole - 1) for f in fewest for n in (f, f + 1))


def uneven_price(bays, size):
    return UNEVEN * sum(departure(bays[a], size[a], bays[1 - a]) for a in (0, 1))


def grid_price(size, counts):
    """What an even grid costs at the most, its places rounded to whole inches."""
    bays = [s / n for s, n in zip(size, counts, strict=True)]
    rounded = [
        [bay if n == 1 else bay + slip for slip in (-INCH, 0, INCH)]
        for bay, n in zip(bays, counts, strict=True)
    ]
    panel = max(panel_price(*pair) for pair in product(*rounded)) + uneven_price(bays, size)
    joints = sum((n - 1) * (other + LINE) for n, other in zip(counts, size[::-1], strict=True))
    return joints + math.prod(counts) * panel


def best_grid(size):
    """The price of the cheapest even grid, and its bays."""
    ranges = [range(math.ceil(s / GREATEST - 1e-6), math.ceil(s / SPAN) + 4) for s in size]
    return min((grid_price(size, (n, m)), (n, m)) for n in ranges[0] for m in ranges[1])


def own_price(found, size):
    """The price of a layout."""
    lines = {
        (axis, round(j.path[0][axis]))
        for j in found.joints
        for axis in (0, 1)
        if j.path[0][axis] == pytest.approx(j.path[-1][axis], abs=1)
    }
    ends = [
        (1 - axis, j.path[0][axis], end[1 - axis])
        for j in found.joints
        for axis in (0, 1)
        if j.path[0][axis] == pytest.approx(j.path[-1][axis], abs=1)
        for end in (j.path[0], j.path[-1])
    ]
    tees = sum(1 < along < size[axis] * FOOT - 1 for axis, _, along in ends)
    panels = sum(
        panel_price(*bays) + uneven_price(bays, size)
        for x0, y0, x1, y1 in (p.polygon.bounds for p in found.panels)
        for bays in [((x1 - x0) / FOOT, (y1 - y0) / FOOT)]
    )
    return found.joint_length / FOOT + LINE * len(lines) + TEE * tees + panels


def rectangles():
    """Rectangles from one bay high to five, to whole inches and not."""
    random = Random(20)
    for number in range(24):
        size = (random.uniform(22, 95), random.uniform(7.5, (16, 32, 52)[number % 3]))
        yield tuple(round(s * 12) / 12 for s in size) if number % 2 else size
    yield from ((71, 10.5), (72, 10.25), (110.17, 29.42), (30.3, 20.2), (40.3, 9.5))


@pytest.mark.parametrize("size", list(rectangles()), ids=lambda s: f"{s[0]:.2f} x {s[1]:.2f} ft")
def test_no_even_grid_costs_less(size):
    found = layout(slab(box(*size)))
    least, bays = best_grid(size)
    assert own_price(found, size) <= least, f"{bays[0]} x {bays[1]} even bays cost less"
