"""Whole steps along one axis of a frame, and even bays that keep to them."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from kerfline.geometry.tolerance import MEASURE

FEW = 3
"""So many bays are rounded one by one; of more the remainder goes into the outer two."""


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
        """The whole step nearest to a place."""
        return self.origin + round((at - self.origin) / self.step) * self.step


def even_places(
    low: float, high: float, count: int, limit: float, steps: Steps | None
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
        if whole and _widest([low, *whole, high]) <= limit - MEASURE:
            return whole
    return exact


def _equal_inner(low: float, high: float, count: int, steps: Steps) -> list[float]:
    """Equal bays of whole steps inside, what is over or short in the outer two; none for few bays."""
    if count <= FEW:
        return []
    module = round((high - low) / count / steps.step) * steps.step
    first = steps.nearest((low + high) / 2 - module * (count - 2) / 2)
    return [first + i * module for i in range(count - 1)]


def _widest(stops: Sequence[float]) -> float:
    return max((b - a for a, b in itertools.pairwise(stops)), default=0.0)
