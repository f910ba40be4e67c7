"""The drawing's unit: what it says, whether that can be right, and the question where it cannot."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from ezdxf.document import Drawing as Document

from kerfline.errors import InputRefused, Mistake
from kerfline.files.drawing.curves import Curve
from kerfline.units import MM_PER_FOOT, MM_PER_INCH, MM_PER_METRE, MM_PER_YARD, Unit, feet_inches

LEAST_SLAB = 1e6
"""An outline smaller than this (mm2, one square metre) is no slab."""

SMALLEST = 1.0 * MM_PER_METRE
"""A slab whose longer side is under this is a wrong unit."""

LARGEST = 2_000.0 * MM_PER_METRE
"""A slab whose longer side is over this is a wrong unit."""

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


def declared_factor(document: Document) -> tuple[float, str]:
    """Millimetres in one drawing unit and the unit's name; 0 where the drawing does not say."""
    try:
        code = int(document.header.get("$INSUNITS", 0))
    except (TypeError, ValueError):
        code = 0
    return INSUNITS.get(code, (0.0, ""))


def sizes_of(curves: Sequence[Curve]) -> tuple[Size, ...]:
    """Sizes that tell of the unit, the more telling first: the largest closed curve's and the bulk's.

    Where all that is closed is small, bubbles and furniture, it tells nothing of the slab and comes last;
    the bulk tells nothing where strays lie far out.
    """
    bulk = _bulk(curves)
    rings = [c.path.line.bounds for c in curves if c.path.closed]
    if not rings:
        return (bulk,)
    x0, y0, x1, y1 = max(rings, key=lambda b: (b[2] - b[0]) * (b[3] - b[1]))
    closed = Size(width=x1 - x0, height=y1 - y0, of="its largest closed outline")
    return (closed, bulk) if closed.longer > bulk.longer / 4 else (bulk, closed)


def _bulk(curves: Sequence[Curve]) -> Size:
    points = np.asarray([p for c in curves for p in c.path.points])
    share = (1.0, 99.0) if len(points) >= MANY else (0.0, 100.0)
    low, high = np.percentile(points, share, axis=0)
    width, height = (float(v) for v in high - low)
    return Size(width=width, height=height, of="what is drawn")


def unlikely(size: Size) -> bool:
    """Whether no slab has this size (mm)."""
    return not SMALLEST <= size.longer <= LARGEST


def read_as(width: float, height: float) -> str:
    """A size (mm) in both kinds of units, so that a drawing read in a wrong unit meets the eye."""
    metres = f"{width / MM_PER_METRE:,.2f} x {height / MM_PER_METRE:,.2f} m"
    return f"{feet_inches(width)} x {feet_inches(height)} ({metres})"


def ask_for_unit(path: Path, size: Size, what: str) -> InputRefused:
    """The question for the unit, with the size that each answer would mean.

    Args:
        path: The file.
        size: Size in drawing units.
        what: Why it is asked.
    """
    answers = "; ".join(f"--units {unit}: {_shown(size, unit)}" for unit in Unit)
    remedy = f"say which unit it is; the size would be {answers}"
    if all(unlikely(size.divided(1 / unit.mm)) for unit in Unit):
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


def _shown(size: Size, unit: Unit) -> str:
    width, height = size.width * unit.mm, size.height * unit.mm
    doubt = " (no slab has that size)" if unlikely(size.divided(1 / unit.mm)) else ""
    if unit in (Unit.FT, Unit.IN):
        return f"{feet_inches(width)} x {feet_inches(height)}{doubt}"
    return f"{width / MM_PER_METRE:,.3f} x {height / MM_PER_METRE:,.3f} m{doubt}"
