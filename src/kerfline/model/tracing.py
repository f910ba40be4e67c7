"""A picture that lies under the drawing on the page, to trace from; it is on no sheet."""

from dataclasses import dataclass
from functools import cached_property

from kerfline.geometry.homography import CORNERS, Homography, homography, seen_part
from kerfline.geometry.ring import Point
from kerfline.geometry.similarity import LEAST_POINTS, fit

FADE = 0.6
"""How much of its strength a picture has at first."""

FARTHEST_SHOWN = 3.0
"""A picture is shown up to where it is this much smaller than at the farthest of its four corners."""


@dataclass(frozen=True, kw_only=True)
class Tracing:
    """The picture and how it lies on the plan.

    Attributes:
        file: Its name; it lies beside the job file.
        page: Which page of a PDF, from 1; 0 of a picture.
        size: Width and height of the picture in pixels; of a PDF's page, as it is seen, in 1/72 in.
        picture: Two or four points of it, in those, from its upper left corner, y down.
        plan: Where each of them lies on the plan, mm, y up. Two points turn, scale and shift it; four, the corners
            of something, take its perspective away too.
        fade: How much of its strength it is shown with, up to 1.
        shown: Whether it is shown.
        locked: Whether it stays where it is when it is dragged.
    """

    file: str
    page: int = 0
    size: Point
    picture: tuple[Point, ...]
    plan: tuple[Point, ...]
    fade: float = FADE
    shown: bool = True
    locked: bool = False

    @cached_property
    def onto(self) -> Homography | None:
        """The map of the picture onto the plan; None where its points tell none."""
        if len(self.picture) != len(self.plan):
            return None
        if len(self.picture) == LEAST_POINTS:
            return _turned([(x, -y) for x, y in self.picture], self.plan)
        if len(self.picture) == CORNERS:
            return homography(self.picture, self.plan)
        return None

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Its own corners, in its own measure."""
        width, height = self.size
        return ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))

    @property
    def seen(self) -> list[Point]:
        """What is shown of it, as corners on the plan: the whole, or what lies before the horizon."""
        onto = self.onto
        if onto is None:
            return []
        least = min(onto.depth(point) for point in self.picture) / FARTHEST_SHOWN
        return seen_part(onto, self.corners, least)


def _turned(upright: list[Point], plan: tuple[Point, ...]) -> Homography | None:
    """The turn, scale and shift that lay two points of a picture, y up, on the plan."""
    found = fit(upright, plan, scale=None)
    if found is None:
        return None
    laid = found.similarity
    x, y = laid.to_site((0.0, 0.0))
    return Homography(((laid.a, laid.b, x), (laid.b, -laid.a, y), (0.0, 0.0, 1.0)))
