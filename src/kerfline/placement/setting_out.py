"""Squaring and marking out the slab, and what it is held against: plain geometry, mm."""

import math

from kerfline.geometry.corners import corners
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.slab import Slab
from kerfline.placement.acceptance import CORE_SHORT, JOINT_PLACE, MEAN_SHORT
from kerfline.units import MM_PER_INCH, Display, format_depth, format_length

RECTANGLE_CORNERS = 4
CHAIN = 8
"""Marks of the example that shows how chained measurements drift."""

NOTICED = MM_PER_INCH / 2
"""Difference of diagonals (mm) that a tape shows without doubt."""


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


def setting_out_notes(slab: Slab, display: Display) -> tuple[str, ...]:
    """How to square a rectangular slab, how to mark lines, and what the finished slab is held against."""
    return (*_squaring(slab, display), *_marking(display), *_acceptance(slab, display))


def _squaring(slab: Slab, display: Display) -> list[str]:
    outline = slab.outline.polygon
    box = enclosing_rectangle(outline)
    if len(corners(outline)) != RECTANGLE_CORNERS or not math.isclose(
        box.length * box.width, outline.area, abs_tol=TOUCH * outline.length
    ):
        return []
    both = format_length(diagonal(box.length, box.width), display)
    leaning = format_depth(lean(NOTICED, box.length, box.width), display)
    return [
        (
            f"Both diagonals {both}. A difference of {format_depth(NOTICED, display)} leans the short sides by "
            f"{leaning}. Check opposite sides too: a trapezium has equal diagonals."
        )
    ]


def _marking(display: Display) -> list[str]:
    step = MM_PER_INCH / 16 if display is Display.FEET_INCHES else 1.0
    drift = format_depth(chained_drift(CHAIN, step), display)
    return [
        (
            f"Mark every line from one starting point with the tape left in place: {CHAIN} marks each measured "
            f"from the one before, each {format_depth(step, display)} off, end {drift} off."
        )
    ]


def _acceptance(slab: Slab, display: Display) -> list[str]:
    place, mean, core = (
        format_depth(value, display) for value in (JOINT_PLACE, MEAN_SHORT, CORE_SHORT)
    )
    thickness = format_depth(slab.thickness, display)
    return [
        (
            f"By ACI 117 sawn joints lie within {place} of plan, cores of a {thickness} slab average no more than "
            f"{mean} short and none is more than {core} short."
        )
    ]
