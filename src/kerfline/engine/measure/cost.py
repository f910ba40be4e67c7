"""What a panel costs, in mm of joint: the one scale on which shapes and rules are traded against saw work."""

from dataclasses import dataclass
from typing import Any

import numpy as np

from kerfline.engine.measure.shape import FULL, Shape
from kerfline.engine.options import Weights, feet
from kerfline.engine.regions.region import Region
from kerfline.engine.regions.walls import STUB
from kerfline.geometry.arrays import Flags, Integers, Numbers
from kerfline.geometry.tolerance import MEASURE, RATIO
from kerfline.model.layout import WorkingLimits
from kerfline.units import MM_PER_FOOT

SMALL = 0.4
"""A panel narrower than this share of the span is small."""

LONGEST = 100.0
"""Aspects are told up to this: a panel of no width costs much, not without end."""


@dataclass(frozen=True, kw_only=True)
class Cost:
    """The prices of panels on one piece of slab.

    Attributes:
        weights: What each thing is worth, feet of joint.
        working: The limits: beyond them a rule is broken.
        stretch: How many times the span a panel may be long before that is a rule broken.
        advised: The values that are advised: beyond them a panel is warned of.
    """

    weights: Weights
    working: WorkingLimits
    advised: WorkingLimits
    stretch: float = 1.0

    def of(self, shape: Shape, span: Any = None) -> Numbers:  # noqa: ANN401 - a number or an array
        """What a panel's shape costs, or that of each of many; its joints are not counted.

        Args:
            shape: The measures.
            span: The span that is worked to, where it is another than that of the limits.
        """
        span = self.working.span if span is None else span
        return np.asarray(
            self._size(shape, shape.span - span)
            + self._looks(shape.aspect, shape.width, span)
            + self._form(shape)
        )

    def uneven(self, shape: Shape) -> Numbers:
        """What it costs that a panel leaves a share of the span unused, either way.

        Convex in the size, so that of two ways to divide a length the even one is cheaper. For panels whose
        lines are no even divisions of free spans from edge to edge.
        """
        span = self.working.span
        unused = [1.0 - np.minimum(1.0, side / span) for side in (shape.length, shape.width)]
        return np.asarray(feet(self.weights.uneven) * sum(share * share for share in unused) / 2)

    def bare(self, length: Any, whole: float) -> Numbers:  # noqa: ANN401 - a number or an array
        """What a wall costs of which so much (mm) has no joint under it; a stub of it costs nothing."""
        return np.where(length > STUB, self.bare_rate(whole) * length, 0.0)

    def bare_rate(self, whole: float) -> float:
        """What a wall of a length (mm) costs for each mm of it without a joint.

        What it costs once is spread over its length, as the checks ask for a share of a wall: however many joints cut
        the bare part in pieces, it costs the same, and an end that juts out beyond the last joint costs its share only.
        """
        return self.weights.wall_bare + feet(self.weights.wall_bare_once) / max(whole, STUB)

    def faults(self, shape: Shape) -> Integers:
        """How many rules a panel breaks, or each of many: span, size, form, and each sharp corner."""
        broken = (
            shape.span > self.working.span * self.stretch + MEASURE,
            *(excess > 0.0 for _, excess in self._excesses(shape)),
            self._is_hooked(shape),
            np.ceil(shape.sharp),
        )
        return np.asarray(sum(np.asarray(each, dtype=np.int64) for each in broken))

    def keeps(self, shape: Shape) -> Flags:
        """Whether a panel keeps every rule on its size but the span; a further line may mend one that does not."""
        return np.asarray(sum(excess for _, excess in self._excesses(shape)) == 0.0)

    def _excesses(self, shape: Shape) -> list[tuple[float, Numbers]]:
        """The weight of each rule on a panel's size but the span, and by how much it is broken: 0 where it is kept.

        A further rule, such as one on least area, is a line here: price, faults, the panels to begin with and
        those to mend all read this list.
        """
        working, weights = self.working, self.weights
        aspect = np.minimum(shape.aspect, LONGEST)
        return [
            (weights.over_aspect, np.maximum(aspect - working.aspect - RATIO, 0.0)),
            (
                weights.too_narrow,
                np.maximum(working.width - MEASURE - shape.width, 0.0) / working.width,
            ),
        ]

    def is_advised(self, shape: Shape) -> Flags:
        """Whether a panel keeps every value that is advised of its size."""
        return np.asarray(self._warned(shape, shape.span - self.working.span) == 0)

    def _warned(self, shape: Shape, beyond: Numbers) -> Integers:
        """How many advised values a panel does not keep; ``beyond`` is its length over the span."""
        return np.asarray(
            (np.minimum(shape.aspect, LONGEST) > self.advised.aspect + RATIO) * 1
            + (shape.width < self.advised.width - MEASURE)
            + (beyond > MEASURE)
        )

    def _is_hooked(self, shape: Shape) -> Any:  # noqa: ANN401 - a flag or an array
        """Whether a panel is an L, a T or a hook: a bite out of it is as wide as a panel may be."""
        return (shape.fullness < FULL) | (shape.deepest > self.working.width + MEASURE)

    def _size(self, shape: Shape, beyond: Numbers) -> Numbers:
        """Rules broken, and advised values that are not kept; ``beyond`` is the length over the span."""
        weights, advised = self.weights, self.advised
        thin = np.maximum(advised.width - shape.width, 0.0) / MM_PER_FOOT
        long = np.maximum(beyond - MEASURE, 0.0) / MM_PER_FOOT
        broken = [
            np.where(excess > 0.0, feet(weight) * (1.0 + excess), 0.0)
            for weight, excess in self._excesses(shape)
        ]
        return np.asarray(
            feet(weights.warned) * self._warned(shape, beyond)
            + feet(weights.width_advised) * thin
            + feet(weights.span_advised) * long
            + sum(broken)
        )

    def _looks(self, aspect: Numbers, width: Numbers, span: Any) -> Numbers:  # noqa: ANN401
        """Squareness, aspect beyond the advised one, smallness."""
        weights, working, advised = self.weights, self.working, self.advised
        square = np.minimum((aspect - 1.0) / max(advised.aspect - 1.0, RATIO), 1.0)
        room = max(working.aspect - advised.aspect, RATIO)
        beyond = np.clip((aspect - advised.aspect) / room, 0.0, 1.0)
        small = np.maximum(SMALL * span - width, 0.0) / MM_PER_FOOT
        return np.asarray(
            feet(weights.square) * square
            + feet(weights.aspect_advised) * beyond
            + feet(weights.small) * small
        )

    def _form(self, shape: Shape) -> Numbers:
        """Re-entrant corners inside, hooks, sharp corners: what only panels that are no rectangles have."""
        weights = self.weights
        return np.asarray(
            feet(weights.corner) * shape.hollow
            + feet(weights.hooked) * self._is_hooked(shape)
            + feet(weights.sharp) * shape.sharp
            + feet(weights.sharp_degree) * shape.short
        )


def cost_on(region: Region, weights: Weights) -> Cost:
    """The prices of panels on a region, outside its zones."""
    return Cost(
        weights=weights, working=region.working, advised=region.advised, stretch=region.stretch
    )
