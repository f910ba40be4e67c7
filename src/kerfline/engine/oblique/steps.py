"""Whole steps along one axis of a frame, and even bays that keep to them."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from kerfline.geometry.tolerance import MEASURE


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
    whole = [steps.nearest(place) for place in exact]
    return whole if _widest([low, *whole, high]) <= limit - MEASURE else exact


def _widest(stops: Sequence[float]) -> float:
    return max((b - a for a, b in itertools.pairwise(stops)), default=0.0)
