"""Lengths as text and as millimetres: the only place where a unit factor stands.

Inside the program every length is a float in millimetres. Text comes in as ``12'-6 1/2"``,
``12' 6.5"``, ``150 1/2 in``, ``12.5 ft``, ``3.81 m`` or ``3810 mm`` and goes out as feet-inches to the
nearest 1/16 in or as metric. Factors are exact by the international yard (1959).
"""

import math
import re
from enum import StrEnum
from fractions import Fraction

from kerfline.errors import InputRefused, Mistake

MM_PER_INCH = 25.4
MM_PER_FOOT = 304.8
MM_PER_METRE = 1000.0
MM_PER_YARD = 914.4
SIXTEENTHS = 16
INCHES_PER_FOOT = 12


class Unit(StrEnum):
    """A unit that a bare number may be declared in."""

    FT = "ft"
    IN = "in"
    M = "m"
    MM = "mm"

    @property
    def mm(self) -> float:
        """Millimetres in one of this unit."""
        return _FACTORS[self]

    @property
    def display(self) -> "Display":
        """The way lengths are written for a user who works in this unit."""
        return Display.FEET_INCHES if self in (Unit.FT, Unit.IN) else Display.METRIC


class Display(StrEnum):
    """How lengths are written for people."""

    FEET_INCHES = "feet-inches"
    METRIC = "metric"


_FACTORS = {
    Unit.FT: MM_PER_FOOT,
    Unit.IN: MM_PER_INCH,
    Unit.M: MM_PER_METRE,
    Unit.MM: 1.0,
}
_WORDS = {
    "ft": Unit.FT, "foot": Unit.FT, "feet": Unit.FT,
    "in": Unit.IN, "inch": Unit.IN, "inches": Unit.IN,
    "m": Unit.M, "metre": Unit.M, "metres": Unit.M, "meter": Unit.M, "meters": Unit.M,
    "mm": Unit.MM,
}  # fmt: skip
_PRIMES = str.maketrans({"′": "'", "’": "'", "″": '"', "”": '"', "“": '"', "−": "-", "–": "-"})
_VULGAR = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}

_NUMBER = r"(?:\d+\s+\d+/\d+|\d+/\d+|\d+(?:\.\d*)?|\.\d+)"
_MIXED = r"(?:\d+[\s-]+\d+/\d+|\d+/\d+|\d+(?:\.\d*)?|\.\d+)"
_FEET_INCHES = re.compile(
    rf"(?P<sign>-)?\s*(?:(?P<feet>{_NUMBER})\s*(?:'|ft\.?|feet|foot)\s*-?\s*)?"
    rf"(?:(?P<inches>{_MIXED})\s*(?:\"|''|in\.?|inch|inches))?",
)
_ONE_UNIT = re.compile(
    rf"(?P<sign>[-+])?\s*(?P<number>{_MIXED}(?:e[-+]?\d+)?)\s*(?P<unit>[a-z]*)\.?"
)

EXAMPLES = "12'-6 1/2\", 12.5 ft, 150.5 in, 3.81 m or 3810 mm"


def parse_length(text: str | float, unit: Unit | None = None, *, where: str = "") -> float:
    """Reads a length.

    Args:
        text: The text, or a bare number.
        unit: The declared unit of bare numbers; None where none was declared.
        where: Place of the value, for the error message.

    Returns:
        The length in mm, which may be zero or negative; the caller knows what is allowed.

    Raises:
        InputRefused: The text is no length, is not finite, or is bare without a declared unit.
    """
    value = _read(text, unit, where)
    if not math.isfinite(value):
        raise InputRefused(
            Mistake(
                what="a length must be finite",
                where=where,
                found=str(text),
                remedy=f"write it as {EXAMPLES}",
            )
        )
    return value


def _read(text: str | float, unit: Unit | None, where: str) -> float:
    if isinstance(text, bool):
        raise InputRefused(_no_length(text, where))
    if isinstance(text, int | float):
        return _bare(float(text), unit, where)
    cleaned = _clean(text)
    if match := _ONE_UNIT.fullmatch(cleaned):
        number = _number(match["number"]) * (-1 if match["sign"] == "-" else 1)
        if not match["unit"]:
            return _bare(number, unit, where)
        if match["unit"] in _WORDS:
            return number * _WORDS[match["unit"]].mm
    match = _FEET_INCHES.fullmatch(cleaned)
    if match and (match["feet"] or match["inches"]):
        total = (
            _number(match["feet"] or "0") * MM_PER_FOOT
            + _number(match["inches"] or "0") * MM_PER_INCH
        )
        return -total if match["sign"] else total
    raise InputRefused(_no_length(text, where))


def _clean(text: str) -> str:
    for glyph, plain in _VULGAR.items():
        text = text.replace(glyph, f" {plain}")
    return re.sub(r"\s+", " ", text.translate(_PRIMES).strip().lower())


def _number(text: str) -> float:
    parts = re.split(r"[\s]+|(?<=\d)-(?=\d)", text.strip())
    if any("/" in p and int(p.split("/")[1]) == 0 for p in parts):
        return math.nan
    return (
        float(sum(Fraction(p) if "/" in p else Fraction(float(p)) for p in parts))
        if len(parts) > 1
        else (float(Fraction(parts[0])) if "/" in parts[0] else float(parts[0]))
    )


def _bare(number: float, unit: Unit | None, where: str) -> float:
    if unit is None:
        raise InputRefused(
            Mistake(
                what="a bare number needs a unit",
                where=where,
                found=f"{number:g}",
                remedy=f"write it as {EXAMPLES}, or declare the unit of bare numbers",
            )
        )
    return number * unit.mm


def _no_length(text: object, where: str) -> Mistake:
    return Mistake(
        what="this is not a length", where=where, found=repr(text), remedy=f"write it as {EXAMPLES}"
    )


def format_length(mm: float, display: Display) -> str:
    """A length for people: ``12'-6 1/2"`` or ``3810``  (metric drawings are in millimetres)."""
    return feet_inches(mm) if display is Display.FEET_INCHES else metric(mm)


def feet_inches(mm: float) -> str:
    """Feet and inches to the nearest 1/16 in with reduced fractions, such as ``12'-6 1/2"``."""
    sixteenths = round(abs(mm) / MM_PER_INCH * SIXTEENTHS)
    sign = "-" if mm < 0 and sixteenths else ""
    inches, part = divmod(sixteenths, SIXTEENTHS)
    feet, inches = divmod(inches, INCHES_PER_FOOT)
    fraction = f" {Fraction(part, SIXTEENTHS)}" if part else ""
    return f"{sign}{feet}'-{inches}{fraction}\""


def inches(mm: float) -> str:
    """Inches alone to the nearest 1/16 in, such as ``4 1/2"``, for thicknesses and depths."""
    sixteenths = round(abs(mm) / MM_PER_INCH * SIXTEENTHS)
    sign = "-" if mm < 0 and sixteenths else ""
    whole, part = divmod(sixteenths, SIXTEENTHS)
    fraction = str(Fraction(part, SIXTEENTHS)) if part else ""
    body = " ".join(filter(None, [str(whole) if whole or not part else "", fraction]))
    return f'{sign}{body}"'


def metric(mm: float) -> str:
    """Whole millimetres with the unit, such as ``3810 mm``."""
    return f"{round(mm)} mm" if round(mm) else "0 mm"


def format_depth(mm: float, display: Display) -> str:
    """A thickness or a depth of cut: ``1 1/4"`` or ``32 mm``."""
    return inches(mm) if display is Display.FEET_INCHES else metric(mm)


def format_area(mm2: float, display: Display) -> str:
    """An area: ``112.5 ft2`` or ``10.45 m2``."""
    if display is Display.FEET_INCHES:
        return f"{mm2 / MM_PER_FOOT**2:,.1f} ft2"
    return f"{mm2 / MM_PER_METRE**2:,.2f} m2"


def format_run(mm: float, display: Display) -> str:
    """A total length for ordering: ``498 ft`` or ``151.8 m``."""
    if display is Display.FEET_INCHES:
        return f"{mm / MM_PER_FOOT:,.0f} ft"
    return f"{mm / MM_PER_METRE:,.1f} m"


def grid_step(display: Display) -> float:
    """The step that positions are rounded to: one inch, or 10 mm in metric jobs."""
    return MM_PER_INCH if display is Display.FEET_INCHES else 10.0
