"""What is proven of a layout: the least joint length of any, and how far the search for the cheapest came."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from kerfline.geometry.faces import Area
from kerfline.geometry.tolerance import MEASURE
from kerfline.model.layout import Status

SQUARE = 2.0 + math.sqrt(math.pi)
"""Least perimeter over area of any figure inside a square of side one: the square's Cheeger constant."""


def least_length(concrete: Area, span: float) -> float:
    """No joints that keep every panel within the span are shorter than this, mm.

    Every panel lies in a rectangle whose long side is at most the span L, so in a square of side L.
    Of all figures in that square, convex or not, the least perimeter p for its area a has the square
    with its corners rounded to the radius L / (2 + sqrt(pi)): p >= (2 + sqrt(pi)) a / L. (Cheeger
    constant of a rectangle: Kawohl and Lachand-Robert, Pacific Journal of Mathematics 225, 2006, by
    memory; the tests find it again by searching the radius.) Added up over the panels the perimeters
    are the concrete's own perimeter P once and every joint twice, so that for the area A

        joints >= ((2 + sqrt(pi)) A / L - P) / 2.

    For rectangular panels 4 would stand in place of 3.77. On a slab little larger than a panel, or
    narrower, most of the panels' perimeter is the slab's own, and the bound says little or nothing.

    Args:
        concrete: Area and perimeter count, openings and boxouts taken out.
        span: The longest working span that holds anywhere on it, mm.
    """
    reach = span + MEASURE
    return float(max(0.0, (SQUARE * concrete.area / reach - concrete.length) / 2))


CLOSED = 1e-6
"""Share of the cost by which cost and bound may differ and still be the same."""


@dataclass(frozen=True)
class Proof:
    """What a part costs, and the least that it may cost on its candidate lines.

    Attributes:
        cost: Weighted cost in mm of joint.
        bound: Proven lower bound of that cost; 0 where nothing is proven.
    """

    cost: float = 0.0
    bound: float = 0.0

    @property
    def known(self) -> bool:
        """Whether something is proven about it; of a part that costs nothing there is nothing to prove."""
        return self.cost <= 0.0 or self.bound > 0.0

    @property
    def closed(self) -> bool:
        """Whether it is proven to be the best."""
        return self.cost - self.bound <= CLOSED * self.cost

    def __add__(self, other: "Proof") -> "Proof":
        """That of both together."""
        return Proof(self.cost + other.cost, self.bound + other.bound)


def together(parts: Iterable[Proof]) -> tuple[Status, Proof]:
    """How far the search for the best came in a layout of parts that were searched one after the other."""
    found = list(parts)
    whole = sum(found, Proof())
    if not all(part.known for part in found):
        return Status.HEURISTIC, whole
    if len(found) > 1:
        return Status.PARTS, whole
    return Status.OPTIMAL if whole.closed else Status.TIME_LIMIT, whole
