"""Dowels by the table of the chosen publication, their number and weight."""

import math
from dataclasses import dataclass, replace

from kerfline.errors import InputRefused, Mistake
from kerfline.model.layout import Dowels, Joint, Layout
from kerfline.model.slab import JointKind
from kerfline.rules.limits import Source
from kerfline.units import KG_PER_POUND, MM_PER_FOOT, MM_PER_INCH

STEEL_DENSITY = 490 * KG_PER_POUND / MM_PER_FOOT**3
"""Weight of steel, kg per mm3: the 490 lb/ft3 of the trade's bar tables."""

BAR_STEP = MM_PER_INCH / 8
"""A reinforcing bar's number is its diameter in eighths of an inch (ASTM A615)."""


@dataclass(frozen=True, kw_only=True)
class Dowel:
    """A round dowel, mm.

    Attributes:
        diameter: Least diameter; ``diameter_to`` the greatest where the table leaves a choice.
        length: Overall.
        spacing: Between centres.
    """

    diameter: float
    diameter_to: float
    length: float
    spacing: float

    @property
    def weight(self) -> float:
        """Weight in kg of one dowel of the least diameter."""
        return bar_weight(self.diameter) * self.length


@dataclass(frozen=True, kw_only=True)
class DowelTable:
    """A publication's dowels by thickness of slab.

    Attributes:
        name: As the job file names it.
        source: Where it stands.
        rows: Greatest thickness (mm) each row serves, and its dowel; the thickness is exclusive where
            ``below`` is True.
        below: Whether a row serves thicknesses below its figure only.
        least: Least thickness that the table speaks of, mm.
        first: Thickness of its first row (mm): a thinner slab has the row's dowels, with a word.
    """

    name: str
    source: Source
    rows: tuple[tuple[float, Dowel], ...]
    below: bool
    least: float = 0.0
    first: float = 0.0

    def dowel(self, thickness: float) -> Dowel | None:
        """The dowel for a thickness (mm); None where the table says nothing about it."""
        if thickness < self.least - BAR_STEP / 10:
            return None
        for limit, dowel in self.rows:
            slack = -BAR_STEP / 10 if self.below else BAR_STEP / 10
            if thickness <= limit + slack:
                return dowel
        return None


def _inches(diameter: float, length: float, spacing: float, diameter_to: float = 0.0) -> Dowel:
    return Dowel(
        diameter=diameter * MM_PER_INCH,
        diameter_to=(diameter_to or diameter) * MM_PER_INCH,
        length=length * MM_PER_INCH,
        spacing=spacing * MM_PER_INCH,
    )


def _rows(*rows: tuple[float, Dowel]) -> tuple[tuple[float, Dowel], ...]:
    return tuple((limit * MM_PER_INCH, dowel) for limit, dowel in rows)


AIRFIELD = DowelTable(
    name="ufc-3-260-02",
    source=Source(publication="UFC 3-260-02", edition="2001", section="Table 12-8"),
    below=True,
    first=6 * MM_PER_INCH,
    rows=_rows(
        (8, _inches(0.75, 16, 12)),
        (12, _inches(1, 16, 12)),
        (16, _inches(1, 20, 15, 1.25)),
        (21, _inches(1, 20, 18, 1.5)),
        (26, _inches(2, 24, 18)),
        (math.inf, _inches(3, 30, 18)),
    ),
)
TRADE_FLOOR = DowelTable(
    name="floor-eighth",
    source=Source(
        publication="trade question-and-answer page on floor dowels",
        section="diameter about an eighth of the thickness",
    ),
    below=False,
    least=5 * MM_PER_INCH,
    rows=_rows(
        (5, _inches(0.625, 12, 12)),
        (6, _inches(0.75, 14, 12)),
        (7, _inches(0.875, 14, 12)),
        (8, _inches(1, 14, 12)),
        (9, _inches(1.125, 16, 12)),
        (10, _inches(1.25, 16, 12)),
    ),
)
ACI_FLOOR = DowelTable(
    name="aci-302-1996",
    source=Source(publication="ACI 302.1R", edition="1996", known="memory"),
    below=False,
    least=5 * MM_PER_INCH,
    rows=_rows(
        (6, _inches(0.75, 16, 12)),
        (8, _inches(1, 18, 12)),
        (11, _inches(1.25, 18, 12)),
    ),
)
TABLES = {table.name: table for table in (AIRFIELD, TRADE_FLOOR, ACI_FLOOR)}

END_DISTANCE = 6 * MM_PER_INCH
"""From the end of a joint to its first dowel, mm; common practice, and clear of intersections."""


CORNER_CLEARANCE = (12 * MM_PER_INCH, 10 * MM_PER_INCH)
"""Least distance (mm) of dowels from a corner, along one edge and along the other; airports textbook, p. 279."""

HOLE_OVER = MM_PER_INCH / 8
"""How much wider than its dowel a drilled hole may be, mm; TM 5-822-7."""


def hole_diameter(diameter: float) -> float:
    """Greatest diameter (mm) of the hole that a dowel is grouted into; TM 5-822-7."""
    return diameter + HOLE_OVER


def height_tolerance(diameter: float) -> float:
    """How far (mm) a dowel may lie off mid-depth: half its diameter; UFC 3-320-06A, 5-4."""
    return diameter / 2


def dowel_table(name: str) -> DowelTable:
    """The table of that name.

    Raises:
        InputRefused: There is none.
    """
    if name in TABLES:
        return TABLES[name]
    raise InputRefused(
        Mistake(
            what="there is no dowel table of that name",
            where="day.steel.dowels",
            found=repr(name),
            allowed=", ".join(TABLES),
        )
    )


def dowel_count(length: float, spacing: float, end: float = END_DISTANCE) -> int:
    """Dowels along a joint, n = floor((L - 2 e) / s) + 1; none where the joint is too short."""
    free = length - 2 * end
    return 0 if free < 0 else math.floor(free / spacing + 1e-9) + 1


def bar_weight(diameter: float) -> float:
    """Weight of a round bar in kg per mm of length."""
    return math.pi / 4 * diameter**2 * STEEL_DENSITY


def numbered_bar(number: int) -> float:
    """Diameter (mm) of a bar of a number."""
    return number * BAR_STEP


def doweled(layout: Layout, thickness: float, table: str) -> Layout:
    """A layout whose construction joints have the dowels of a table.

    Args:
        layout: The joints.
        thickness: Of the slab, mm.
        table: Name of the table; empty where none is chosen.

    Raises:
        InputRefused: There is no table of that name.
    """
    dowel = dowel_table(table).dowel(thickness) if table else None
    return replace(
        layout,
        joints=tuple(
            replace(j, dowels=_along(j, dowel)) if j.kind is JointKind.CONSTRUCTION else j
            for j in layout.joints
        ),
    )


def _along(joint: Joint, dowel: Dowel | None) -> Dowels | None:
    if dowel is None:
        return None
    return Dowels(
        count=dowel_count(joint.length, dowel.spacing),
        diameter=dowel.diameter,
        length=dowel.length,
        spacing=dowel.spacing,
    )
