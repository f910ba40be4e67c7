"""Tolerances that the finished slab is held against, mm.

Source: ACI 117-06 and -10, 4.5.4, for thickness; ACI 117 as tabulated in UFGS 03700, p. 26, for the place of
sawn joints.
"""

from kerfline.units import MM_PER_INCH

JOINT_PLACE = 0.75 * MM_PER_INCH
"""How far a sawn joint may lie off its planned line."""

MEAN_SHORT = 0.375 * MM_PER_INCH
"""How far the mean of the cores may fall short of the thickness."""

CORE_SHORT = 0.75 * MM_PER_INCH
"""How far any core may fall short of it."""
