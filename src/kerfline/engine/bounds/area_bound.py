"""The bound for panels of any shape, by area and perimeter."""

import math

from kerfline.geometry.faces import Area
from kerfline.geometry.tolerance import MEASURE

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
