"""How a cut stands to what lies in the slab: one figure for engine, checks, plan and placement day.

margin = cover over the item - depth of the cut - tolerance of that depth; below nothing the cut can strike, and below
``SAFE_MARGIN`` it is doubtful.
"""

from enum import StrEnum

from kerfline.geometry.tolerance import SAME
from kerfline.units import MM_PER_INCH

DEPTH_TOLERANCE = MM_PER_INCH / 4
"""Tolerance (mm) of the depth of a saw cut; ACI 117-10 (from memory)."""

SAFE_MARGIN = MM_PER_INCH / 2
"""Margin (mm) over a buried item below which a cut is doubtful; common practice."""

SPARE_COVER = DEPTH_TOLERANCE + SAFE_MARGIN
"""Concrete (mm) that must stay, as planned, between the bottom of a cut and what lies below it."""


class Clearance(StrEnum):
    """How a cut stands to an item in the slab."""

    CLEAR = "clear"
    DOUBTFUL = "doubtful"
    STRIKES = "strikes"


def margin_over(cover: float, depth: float, tolerance: float = DEPTH_TOLERANCE) -> float:
    """Concrete (mm) left between a cut at its deepest and an item under so much cover."""
    return cover - depth - tolerance


def clearance(cover: float, depth: float, tolerance: float = DEPTH_TOLERANCE) -> Clearance:
    """Whether a cut clears an item under so much cover (mm)."""
    margin = margin_over(cover, depth, tolerance) + SAME  # inches in mm are a hair off
    if margin < 0:
        return Clearance.STRIKES
    return Clearance.DOUBTFUL if margin < SAFE_MARGIN else Clearance.CLEAR
