"""How a plan lies on the ground: control points, and the places that they give."""

import math
from dataclasses import dataclass
from functools import cached_property

from kerfline.geometry.ring import Point
from kerfline.geometry.similarity import Fit, Similarity, fit
from kerfline.units import SiteUnit

LARGEST_RESIDUAL = 10.0
"""Control that misses the plan by more than this (mm, 3/8 in) is not used (common practice)."""


@dataclass(frozen=True, kw_only=True)
class ControlPoint:
    """A point that is known on the plan and on site.

    Attributes:
        name: What the surveyor calls it.
        plan: Its place on the plan, mm.
        easting: mm.
        northing: mm.
        height: mm; None where it is not known.
    """

    name: str
    plan: Point
    easting: float
    northing: float
    height: float | None = None

    @property
    def site(self) -> Point:
        """Easting and northing."""
        return (self.easting, self.northing)


@dataclass(frozen=True, kw_only=True)
class Site:
    """The ties of a plan to the ground.

    Attributes:
        control: The control points, two or more.
        unit: Unit of eastings, northings and heights in files.
        scale: Length on the site's grid of a length of one on the plan; None to find it from the points.
        limit: The longest residual that is allowed, mm.
        level: Height of the slab's surface, mm; None where it is not known.
        easting_first: Whether files give the easting before the northing.
    """

    control: tuple[ControlPoint, ...]
    unit: SiteUnit
    scale: float | None = 1.0
    limit: float = LARGEST_RESIDUAL
    level: float | None = None
    easting_first: bool = False

    @cached_property
    def fit(self) -> Fit | None:
        """How the plan lies on the ground; None where the control points cannot say it."""
        return fit([c.plan for c in self.control], [c.site for c in self.control], self.scale)

    @property
    def north(self) -> float:
        """Direction of the grid's north, degrees anticlockwise from the plan's up."""
        found = self.similarity
        return math.degrees(math.atan2(-found.b, found.a)) + 0.0

    @property
    def similarity(self) -> Similarity:
        """The turn, shift and scale from plan to site.

        Raises:
            ValueError: The control points cannot say it; whoever reads a site refuses such.
        """
        if self.fit is None:
            raise ValueError("the control points are in one place")
        return self.fit.similarity
