"""The drawing's unit: what it says, whether that can be right, and the question where it cannot.

The sizes and shares below are common practice, weighed on the drawings of the forge (``tests/forge``).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from ezdxf.document import Drawing as Document

from kerfline.errors import InputRefused, Mistake
from kerfline.files.drawing.curves import Curve
from kerfline.files.own_records import millimetres_in_unit
from kerfline.geometry.paths import Path as CurvePath
from kerfline.units import (
    MM_PER_FOOT,
    MM_PER_INCH,
    MM_PER_METRE,
    MM_PER_YARD,
    Display,
    Unit,
    feet_inches,
)

LEAST_SLAB = 1e6
"""An outline smaller than this (mm2, one square metre) is no slab."""

SMALLEST = 1.0 * MM_PER_METRE
"""A slab whose longer side is under this is a wrong unit."""

LARGEST = 2_000.0 * MM_PER_METRE
"""A slab whose longer side is over this is a wrong unit."""

SLIP = 1e-3
"""Share by which the unit that a drawing of ours carries may be off, for rounding."""

INSUNITS = {
    1: (MM_PER_INCH, "inches"),
    2: (MM_PER_FOOT, "feet"),
    3: (1760 * MM_PER_YARD, "miles"),
    4: (1.0, "millimetres"),
    5: (10.0, "centimetres"),
    6: (MM_PER_METRE, "metres"),
    7: (1e6, "kilometres"),
    9: (MM_PER_INCH / 1000, "mils"),
    10: (MM_PER_YARD, "yards"),
    14: (100.0, "decimetres"),
    15: (1e4, "decametres"),
    16: (1e5, "hectometres"),
    21: (1200 / 3937 * MM_PER_METRE, "US survey feet"),
    22: (100 / 3937 * MM_PER_METRE, "US survey inches"),
    23: (3600 / 3937 * MM_PER_METRE, "US survey yards"),
}
"""Millimetres and name by the value of $INSUNITS (DXF reference; the survey foot is 1200/3937 m)."""


@dataclass(frozen=True, kw_only=True)
class DrawnUnit:
    """A unit that a drawing may be in.

    Attributes:
        said: What the user writes for it.
        name: Its name in sentences.
        mm: Millimetres in one.
        job: The unit of a job on such a drawing: the one nearest in kind.
    """

    said: str
    name: str
    mm: float
    job: Unit


DRAWN = (
    DrawnUnit(said="ft", name="feet", mm=MM_PER_FOOT, job=Unit.FT),
    DrawnUnit(said="in", name="inches", mm=MM_PER_INCH, job=Unit.IN),
    DrawnUnit(said="m", name="metres", mm=MM_PER_METRE, job=Unit.M),
    DrawnUnit(said="mm", name="millimetres", mm=1.0, job=Unit.MM),
    DrawnUnit(said="cm", name="centimetres", mm=10.0, job=Unit.MM),
    DrawnUnit(said="survey-ft", name="US survey feet", mm=1200 / 3937 * MM_PER_METRE, job=Unit.FT),
)
"""The units that the user may say, the survey foot last: no evidence in a drawing tells it from the foot."""


def drawn_unit(said: str) -> DrawnUnit:
    """The unit that the user said.

    Raises:
        InputRefused: There is none of that name.
    """
    for unit in DRAWN:
        if unit.said == said:
            return unit
    raise InputRefused(
        Mistake(
            what="this is no unit of a drawing",
            found=repr(said),
            allowed=", ".join(u.said for u in DRAWN),
        )
    )


LOOKED_AT = 100
"""Closed curves, the ones that reach farthest, among which the largest is looked for."""

MANY = 200
"""Points from which on the outermost hundredth on each side is taken for strays."""


@dataclass(frozen=True, kw_only=True)
class Size:
    """Width and height of what is drawn, and what was measured."""

    width: float
    height: float
    of: str

    @property
    def longer(self) -> float:
        """The longer side."""
        return max(self.width, self.height)

    def divided(self, factor: float) -> "Size":
        """The same in a unit of so many millimetres."""
        return Size(width=self.width / factor, height=self.height / factor, of=self.of)


def declared_unit(document: Document) -> DrawnUnit | None:
    """The unit that the drawing says it is in; None where it does not say."""
    try:
        code = int(document.header.get("$INSUNITS", 0))
    except (TypeError, ValueError):
        code = 0
    mm, name = INSUNITS.get(code) or _own_unit(document)
    if not name:
        return None
    known = next((u for u in DRAWN if u.name == name), None)
    # A job on a drawing in centimetres is in millimetres.
    job = Unit.MM if "met" in name else Unit.FT
    return known or DrawnUnit(said="", name=name, mm=mm, job=job)


def _own_unit(document: Document) -> tuple[float, str]:
    """The unit that the slab's edge carries in a drawing of ours, whose oldest form has no header for it."""
    for entity in document.modelspace().query("LWPOLYLINE POLYLINE"):
        mm = millimetres_in_unit(entity)
        known = (pair for pair in INSUNITS.values() if abs(pair[0] - mm) <= SLIP * mm)
        if mm and (found := next(known, None)):
            return found
    return 0.0, ""


def sizes_of(curves: Sequence[Curve]) -> tuple[Size, ...]:
    """Sizes that tell of the unit, the more telling first: the largest closed curve's and the bulk's.

    Where all that is closed is small, bubbles and furniture, it tells nothing of the slab and comes last;
    the bulk tells nothing where strays lie far out.
    """
    bulk = _bulk(curves)
    closed = sorted((c.path for c in curves if c.path.closed), key=_reach, reverse=True)
    rings = [path.line.bounds for path in closed[:LOOKED_AT]]
    if not rings:
        return (bulk,)
    x0, y0, x1, y1 = max(rings, key=lambda b: (b[2] - b[0]) * (b[3] - b[1]))
    largest = Size(width=x1 - x0, height=y1 - y0, of="its largest closed outline")
    return (largest, bulk) if largest.longer > bulk.longer / 4 else (bulk, largest)


def _reach(path: CurvePath) -> float:
    """Area of the extents that a path has at most."""
    x0, y0, x1, y1 = path.reach
    return (x1 - x0) * (y1 - y0)


def _bulk(curves: Sequence[Curve]) -> Size:
    points = np.asarray([p for c in curves for p in c.path.points])
    share = (1.0, 99.0) if len(points) >= MANY else (0.0, 100.0)
    low, high = np.percentile(points, share, axis=0)
    width, height = (float(v) for v in high - low)
    return Size(width=width, height=height, of="what is drawn")


def unlikely(size: Size) -> bool:
    """Whether no slab has this size (mm)."""
    return not SMALLEST <= size.longer <= LARGEST


def read_as(width: float, height: float, display: Display) -> str:
    """A size (mm) in both kinds of units, the user's first, so that a drawing read in a wrong unit meets the eye."""
    metres = f"{width / MM_PER_METRE:,.2f} x {height / MM_PER_METRE:,.2f} m"
    feet = f"{feet_inches(width)} x {feet_inches(height)}"
    first, other = (feet, metres) if display is Display.FEET_INCHES else (metres, feet)
    return f"{first} ({other})"


def ask_for_unit(path: Path, size: Size, what: str) -> InputRefused:
    """The question for the unit, with the size that each answer would mean.

    Args:
        path: The file.
        size: Size in drawing units.
        what: Why it is asked.
    """
    likely = [unit for unit in DRAWN if not unlikely(size.divided(1 / unit.mm))]
    answers = "; ".join(
        f"--units {u.said}: {_shown(size, u)}" for u in likely if u.said != "survey-ft"
    )
    if any(u.said == "survey-ft" for u in likely):
        answers += "; --units survey-ft where the coordinates are in US survey feet"
    remedy = f"say which unit it is; the size would be {answers}"
    if not likely:
        remedy = "no unit makes a slab of it: draw the slab at its true size, or name its layer with --outline"
    return InputRefused(
        Mistake(
            what=what,
            where=str(path),
            found=f"{size.of}, {_plain(size.width)} x {_plain(size.height)} units",
            remedy=remedy,
        )
    )


def _plain(units: float) -> str:
    """A number of drawing units without powers of ten: to a hundredth, small ones to four digits."""
    if units < 1:
        return f"{units:.4g}"
    return f"{units:,.2f}".rstrip("0").rstrip(".")


def _shown(size: Size, unit: DrawnUnit) -> str:
    width, height = size.width * unit.mm, size.height * unit.mm
    if unit.job in (Unit.FT, Unit.IN):
        return f"{feet_inches(width)} x {feet_inches(height)}"
    return f"{width / MM_PER_METRE:,.3f} x {height / MM_PER_METRE:,.3f} m"
