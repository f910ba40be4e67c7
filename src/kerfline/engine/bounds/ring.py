"""The bound of a strip between two arcs of one centre: no layout of rays and rings has less joint.

Proof. Let the strip lie between the radii r and R, over the angle a, and let d = R - r. A panel between two rays and two
rings about the centre, over the angle t and from the radius p to q, takes of every circle a chord of at most
2 q sin(t / 2). Let that be no more than the span s, and no more than k times its depth q - p. Then, as (q - p) / q is at
most d / R, 2 sin(t / 2) <= k d / R; and on a circle of the radius x that it meets, 2 x sin(t / 2) <= s. So such a circle
is met by at least a / t panels, t the greatest angle that both allow, and crossed by one ray less, or by as many where
there are two or more and the strip closes on itself. Added up over all circles from r to R that is the length of the
rays: over thin rings of them, by the innermost of each, on which there are fewest. Along a ray panels are no deeper than
s, so that the j-th ring from outside lies at R - j s or farther out: over the angle a that is the length of the rings.

The span s and the share k are those of the limits, and of the layout's own panels where they are more.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np
import shapely
from shapely import LineString, Polygon

from kerfline.engine.regions.region import Cut, Region
from kerfline.geometry.arrays import Numbers
from kerfline.geometry.tolerance import MEASURE, TOUCH

FULL_TURN = 2.0 * math.pi

APART = 0.1
"""Two rays meet well from this sine of the angle between them."""

FAR_OFF = 5.0
"""A ray passes its centre by no more than this, mm: its ends are rounded, and lie far from there."""

THIN = 1000
"""Thin rings that a strip is seen as."""

ROUNDING = 1e-9
"""Share of a panel by which a strip may be longer than some panels and still be filled by them."""


@dataclass(frozen=True)
class Strip:
    """A strip between two arcs of one centre, or a panel of it.

    Attributes:
        inner: The lesser radius, mm.
        outer: The greater one, mm.
        angle: Over which it runs, radians.
    """

    inner: float
    outer: float
    angle: float

    @property
    def depth(self) -> float:
        """How far it reaches along a ray, mm."""
        return self.outer - self.inner

    @property
    def chord(self) -> float:
        """The longest chord between its ends, mm; its diameter where it runs over half a turn or more."""
        return 2.0 * self.outer * math.sin(min(self.angle, math.pi) / 2.0)


def ring_bound(region: Region, cuts: Sequence[Cut], panels: Sequence[Polygon]) -> float:
    """Least joint length, mm, of layouts of rays and rings; 0 where this is none, or the region no such strip.

    Args:
        region: The region, in its frame.
        cuts: The joints of its layout.
        panels: Its panels.
    """
    centre = _centre_of([cut.line for cut in cuts])
    if centre is None:
        return 0.0
    whole, *own = [strip_of(figure, centre) for figure in (region.concrete, *panels)]
    known = [panel for panel in own if panel is not None]
    if whole is None or len(known) < len(panels):
        return 0.0
    span = max([region.working.span, *(max(p.chord, p.depth) for p in known)])
    share = max([region.advised.aspect, *(p.chord / p.depth for p in known)])
    shorter = replace(whole, outer=whole.outer - TOUCH)
    slack = 1.0 + 2.0 * TOUCH / whole.depth
    closes = bool(region.concrete.interiors)
    return least_of_strip(shorter, span + MEASURE, slack * share, closes=closes)


def least_of_strip(strip: Strip, span: float, share: float, *, closes: bool) -> float:
    """Least length of rays and rings in a strip, mm.

    Args:
        strip: The strip.
        span: The longest chord, and the greatest depth, of a panel, mm.
        share: The longest chord of a panel over its depth.
        closes: Whether the strip closes on itself.
    """
    radii = np.linspace(strip.inner, strip.outer, THIN, endpoint=False)
    half = np.minimum(span / np.maximum(radii, TOUCH), share * strip.depth / strip.outer) / 2.0
    widest = np.where(half < 1.0, 2.0 * np.arcsin(np.minimum(half, 1.0)), FULL_TURN)
    panels = np.maximum(np.ceil(strip.angle / widest - ROUNDING), 1.0)
    rays = np.where(closes & (panels > 1.0), panels, panels - 1.0)
    rings = [strip.outer - n * span for n in range(1, math.ceil(strip.depth / span))]
    return float(strip.depth * rays.mean()) + strip.angle * sum(rings)


def strip_of(figure: Polygon, centre: Numbers) -> Strip | None:
    """A figure as a strip around a centre; None where its corners lie on more than two circles."""
    radii = np.hypot(*(shapely.get_coordinates(figure) - centre).T)
    inner, outer = float(radii.min()), float(radii.max())
    if outer - inner <= TOUCH or (np.minimum(radii - inner, outer - radii) > TOUCH).any():
        return None
    return Strip(inner, outer, min(2.0 * figure.area / (outer**2 - inner**2), FULL_TURN))


def _centre_of(lines: Sequence[LineString]) -> Numbers | None:
    """The point that all straight lines run towards; None where they do not."""
    straight = [c for line in lines if len(c := shapely.get_coordinates(line)) == 2]  # noqa: PLR2004 ends
    ways = [(c[1] - c[0]) / max(np.hypot(*(c[1] - c[0])), TOUCH) for c in straight]
    for (a, u), (b, v) in combinations(zip(straight, ways, strict=True), 2):
        sine = u[0] * v[1] - u[1] * v[0]
        if abs(sine) < APART:
            continue
        way = b[0] - a[0]
        centre = a[0] + u * ((way[0] * v[1] - way[1] * v[0]) / sine)
        passed = [
            abs((centre - c[0]) @ np.array([-w[1], w[0]]))
            for c, w in zip(straight, ways, strict=True)
        ]
        return np.round(centre, 3) if max(passed) <= FAR_OFF else None
    return None
