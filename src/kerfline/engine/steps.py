"""Whole steps along one axis of a frame, and even bays that keep to them.

Positions to another step, half feet or 50 mm, are another ``units.grid_step``: everything asks ``Steps``.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from kerfline.geometry.tolerance import MEASURE, SAME

FEW = 3
"""So many bays are rounded one by one; of more the remainder goes into the outer two."""

DIGITS = 6
"""Places are told to this many digits of a millimetre."""

HALVES_DOWN = 1e-6
"""Share of a step by which a place past the half still goes down."""


@dataclass(frozen=True, slots=True)
class Steps:
    """Whole inches, or every 10 mm, from the baseline.

    Attributes:
        origin: The baseline on this axis, mm.
        step: The step, mm.
    """

    origin: float
    step: float

    def nearest(self, at: float) -> float:
        """The nearest whole step; halves go down, so that both ends of an axis agree on a centre.

        Rounded, so that the same place from another baseline is the same number: noise would decide
        between layouts that cost the same.
        """
        whole = math.floor((at - self.origin) / self.step + 0.5 - HALVES_DOWN)
        return round(self.origin + whole * self.step, DIGITS)

    def within(self, low: float, high: float, wish: float) -> float:
        """The whole step in a range nearest to a wish; the wish itself where there is none."""
        best = self.nearest(min(max(wish, low), high))
        for candidate in (best, self.nearest(best + self.step), self.nearest(best - self.step)):
            if low - SAME <= candidate <= high + SAME:
                return candidate
        return min(max(wish, low), high)


def bay_count(span: float, limit: float) -> int:
    """The least number of bays of a span that none exceeds a limit, mm."""
    return max(1, math.ceil((span - MEASURE) / limit))


def even_places(
    low: float, high: float, count: int, limit: float = math.inf, steps: Steps | None = None
) -> list[float]:
    """The places between even bays: whole steps, unless a bay would then exceed the limit.

    Args:
        low: Where the bays begin, mm.
        high: Where they end.
        count: Number of bays.
        limit: Greatest bay, mm.
        steps: The whole steps; None for any place.
    """
    exact = [low + (high - low) * i / count for i in range(1, count)]
    if steps is None:
        return exact
    for whole in (_equal_inner(low, high, count, steps), [steps.nearest(p) for p in exact]):
        if whole and _widest([low, *whole, high]) <= limit + MEASURE / 2:
            return whole
    return exact


def filled(places: Sequence[float], limit: float, steps: Steps | None) -> list[float]:
    """Even divisions of every gap between places that is wider than a limit, mm."""
    return [
        at
        for low, high in pairwise(places)
        for at in even_places(low, high, bay_count(high - low, limit), limit, steps)
    ]


def _equal_inner(low: float, high: float, count: int, steps: Steps) -> list[float]:
    """Equal bays of whole steps inside, what is over or short in the outer two; none for few bays."""
    if count <= FEW:
        return []
    module = round((high - low) / count / steps.step) * steps.step
    first = steps.nearest((low + high) / 2 - module * (count - 2) / 2)
    return [first + i * module for i in range(count - 1)]


def _widest(stops: Sequence[float]) -> float:
    return max((b - a for a, b in pairwise(stops)), default=0.0)
