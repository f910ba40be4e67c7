"""Squaring and marking out the slab: plain geometry, mm."""

import math


def diagonal(length: float, width: float) -> float:
    """Diagonal of a rectangle."""
    return math.hypot(length, width)


def lean(difference: float, length: float, width: float) -> float:
    """How far the two short sides lean over their width when the diagonals differ: d D / (2 a).

    Args:
        difference: Between the two diagonals.
        length: Of the sides that are taken as straight.
        width: Of the sides that lean.

    Equal diagonals prove a square only where opposite sides are equal: a trapezium has them too.
    """
    return difference * diagonal(length, width) / (2 * length)


def chained_drift(marks: int, error: float) -> float:
    """Worst error of the last of marks that were each measured from the one before."""
    return marks * error
