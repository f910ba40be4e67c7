"""Lengths and scales as people write them, read into millimetres."""

import math
import re
from fractions import Fraction

from kerfline.errors import InputRefused, Mistake
from kerfline.units.factors import MM_PER_FOOT, MM_PER_INCH
from kerfline.units.unit import Unit

LONGEST_SHOWN = 40

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
    rf"(?:(?P<inches>{_MIXED})\s*(?:\"|''|in\.?|inch|inches)?)?",
)
_ONE_UNIT = re.compile(
    rf"(?P<sign>[-+])?\s*(?P<number>{_MIXED}(?:e[-+]?\d+)?)\s*(?P<unit>[a-z]*)\.?"
)
_POWER = re.compile(r"[a-z]\d+$")
"""An area or a volume such as ``4 ft2``, which is not 4 feet and 2."""

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
                found=_shown(text),
                remedy=f"write it as {EXAMPLES}",
            )
        )
    return value


def _read(text: str | float, unit: Unit | None, where: str) -> float:
    if isinstance(text, bool):
        raise InputRefused(_no_length(text, where))
    if isinstance(text, int | float):
        return _bare(_as_float(text), unit, where)
    cleaned = _clean(text)
    if match := _ONE_UNIT.fullmatch(cleaned):
        number = _number(match["number"]) * (-1 if match["sign"] == "-" else 1)
        if not match["unit"]:
            return _bare(number, unit, where)
        if match["unit"] in _WORDS:
            return number * _WORDS[match["unit"]].mm
    match = None if _POWER.search(cleaned) else _FEET_INCHES.fullmatch(cleaned)
    if match and (match["feet"] or match["inches"]):
        total = (
            _number(match["feet"] or "0") * MM_PER_FOOT
            + _number(match["inches"] or "0") * MM_PER_INCH
        )
        return -total if match["sign"] else total
    raise InputRefused(_no_length(text, where))


def unit_written(text: str) -> Unit | None:
    """The unit that a length is written in, feet where it is in feet and inches; None where it is bare."""
    cleaned = _clean(text)
    if match := _ONE_UNIT.fullmatch(cleaned):
        return _WORDS.get(match["unit"])
    if match := _FEET_INCHES.fullmatch(cleaned):
        return Unit.FT if match["feet"] else Unit.IN
    return None


def _clean(text: str) -> str:
    for glyph, plain in _VULGAR.items():
        text = text.replace(glyph, f" {plain}")
    return re.sub(r"\s+", " ", text.translate(_PRIMES).strip().lower())


def _number(text: str) -> float:
    """A whole, mixed, broken or decimal number; not a number where it is endless or divides by zero."""
    parts = re.split(r"[\s]+|(?<=\d)-(?=\d)", text.strip())
    try:
        return sum(float(Fraction(p)) if "/" in p else float(p) for p in parts)
    except (ValueError, OverflowError, ZeroDivisionError):
        return math.nan


def _as_float(number: float) -> float:
    """A number as a float; endless where it is a whole number beyond every float."""
    try:
        return float(number)
    except OverflowError:
        return math.inf


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


def _shown(text: str | float) -> str:
    """What was written, unless it is too long to show."""
    shown = text if isinstance(text, str) else f"{_as_float(text):g}"
    return shown if len(shown) <= LONGEST_SHOWN else f"{shown[:LONGEST_SHOWN]}..."


def _no_length(text: object, where: str) -> Mistake:
    return Mistake(
        what="this is not a length", where=where, found=repr(text), remedy=f"write it as {EXAMPLES}"
    )


def parse_scale(text: str | float, *, where: str = "--scale") -> float:
    """Reads a drawing's scale as its denominator: ``1/8"=1'-0"`` and ``1:96`` and ``96`` are all 96.

    Raises:
        InputRefused: The text is no scale, or not one that makes a thing smaller.
    """
    words = str(text).strip()
    paper, _, real = words.replace(":", "=").partition("=")
    try:
        if not real:
            denominator = float(words)
        elif ":" in words:
            denominator = float(real) / float(paper)
        else:
            denominator = parse_length(real) / parse_length(paper)
    except (ValueError, ZeroDivisionError, InputRefused):
        denominator = math.nan
    if not 1.0 <= denominator < math.inf:
        raise InputRefused(
            Mistake(
                what="this is not a scale",
                where=where,
                found=repr(text),
                remedy='write it as 1/8"=1\'-0", 1:100 or 96',
            )
        )
    return denominator
