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
LONGEST_SHOWN = 40
MOST_TOLD = 1e12
"""Lengths from here on (mm) are told by their size alone, for only a slip of the pen is as long."""

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


def format_length(mm: float, display: Display) -> str:
    """A length for people: ``12'-6 1/2"`` or ``3810``  (metric drawings are in millimetres)."""
    return feet_inches(mm) if display is Display.FEET_INCHES else metric(mm)


def stored_length(mm: float) -> str:
    """A length inside a sentence that is kept: ``{3810.00}``, in mm whatever unit it is read in later."""
    return f"{{{mm:.2f}}}"


def stored_run(mm: float) -> str:
    """A total length inside a sentence that is kept: ``{151800.00 run}``, in mm."""
    return f"{{{mm:.2f} run}}"


def in_words(sentence: str, display: Display) -> str:
    """A sentence with its stored lengths written for people; any other braces stay as they are."""

    def written(found: re.Match[str]) -> str:
        return (format_run if found[2] else format_length)(float(found[1]), display)

    return _STORED.sub(written, sentence)


def feet_inches(mm: float) -> str:
    """Feet and inches to the nearest 1/16 in with reduced fractions, such as ``12'-6 1/2"``."""
    if _past_telling(mm):
        return f"{mm / MM_PER_FOOT:.3g} ft"
    sixteenths = round(abs(mm) / MM_PER_INCH * SIXTEENTHS)
    sign = "-" if mm < 0 and sixteenths else ""
    inches, part = divmod(sixteenths, SIXTEENTHS)
    feet, inches = divmod(inches, INCHES_PER_FOOT)
    fraction = f" {Fraction(part, SIXTEENTHS)}" if part else ""
    return f"{sign}{feet}'-{inches}{fraction}\""


def inches(mm: float) -> str:
    """Inches alone to the nearest 1/16 in, such as ``4 1/2"``, for thicknesses and depths."""
    if _past_telling(mm):
        return f"{mm / MM_PER_INCH:.3g} in"
    sixteenths = round(abs(mm) / MM_PER_INCH * SIXTEENTHS)
    sign = "-" if mm < 0 and sixteenths else ""
    whole, part = divmod(sixteenths, SIXTEENTHS)
    fraction = str(Fraction(part, SIXTEENTHS)) if part else ""
    body = " ".join(filter(None, [str(whole) if whole or not part else "", fraction]))
    return f'{sign}{body}"'


def metric(mm: float) -> str:
    """Whole millimetres with the unit, such as ``3810 mm``."""
    if _past_telling(mm):
        return f"{mm:.3g} mm"
    return f"{round(mm)} mm" if round(mm) else "0 mm"


def _past_telling(mm: float) -> bool:
    """Whether a length is endless or has so many digits that only its size is worth telling."""
    return not abs(mm) < MOST_TOLD


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


# Everything that is not a length: inside the program volumes are mm3, areas mm2, temperatures degrees
# Celsius, wind km/h, durations hours and rates of evaporation kg/m2/h.

MM3_PER_YD3 = MM_PER_YARD**3
MM3_PER_M3 = MM_PER_METRE**3
MM3_PER_LITRE = 1e6
MM3_PER_GALLON = 231 * MM_PER_INCH**3
KG_PER_POUND = 0.45359237
N_PER_POUND = 4.4482216152605
MPA_PER_PSI = N_PER_POUND / MM_PER_INCH**2
KMH_PER_MPH = 1.609344
KG_M2_PER_LB_FT2 = KG_PER_POUND / (MM_PER_FOOT / MM_PER_METRE) ** 2
MINUTES_PER_HOUR = 60.0
HOURS_PER_DAY = 24.0
FREEZING_F = 32.0
DEGREES_F_PER_C = 1.8


class Measure(StrEnum):
    """What a text with a unit measures."""

    AREA = "area"
    VOLUME = "volume"
    TEMPERATURE = "temperature"
    SPEED = "wind speed"
    DURATION = "duration"
    PLACING_RATE = "placing rate"
    CUTTING_RATE = "cutting rate"
    TEMPERATURE_STEP = "difference of temperature"
    EXPANSION = "coefficient of expansion"
    STRESS = "stress"
    SUBGRADE = "modulus of subgrade reaction"
    COVER = "cover"


_FT2, _YD2, _M2 = MM_PER_FOOT**2, MM_PER_YARD**2, MM_PER_METRE**2
_MEASURES: dict[Measure, dict[str, float]] = {
    Measure.AREA: {"ft2": _FT2, "yd2": _YD2, "m2": _M2},
    Measure.VOLUME: {"yd3": MM3_PER_YD3, "m3": MM3_PER_M3, "ft3": MM_PER_FOOT**3},
    Measure.SPEED: {"mph": KMH_PER_MPH, "km/h": 1.0, "m/s": 3.6},
    Measure.DURATION: {"h": 1.0, "min": 1 / MINUTES_PER_HOUR, "days": HOURS_PER_DAY},
    Measure.PLACING_RATE: {"yd3/h": MM3_PER_YD3, "m3/h": MM3_PER_M3},
    Measure.CUTTING_RATE: {
        "ft/min": MM_PER_FOOT * MINUTES_PER_HOUR,
        "m/min": MM_PER_METRE * MINUTES_PER_HOUR,
    },
    Measure.TEMPERATURE_STEP: {"f": 1 / DEGREES_F_PER_C, "c": 1.0, "k": 1.0},
    Measure.EXPANSION: {"/f": DEGREES_F_PER_C, "/c": 1.0, "/k": 1.0},
    Measure.STRESS: {"psi": MPA_PER_PSI, "mpa": 1.0, "n/mm2": 1.0},
    Measure.SUBGRADE: {"pci": N_PER_POUND / MM_PER_INCH**3, "mpa/m": 1e-3, "n/mm3": 1.0},
    Measure.COVER: {"ft2/gal": _FT2 / MM3_PER_GALLON, "m2/l": _M2 / MM3_PER_LITRE},
}
_STORED = re.compile(r"\{(-?\d+\.\d\d)( run)?\}")
_MEASURED = re.compile(r"(?P<number>[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[-+]?\d+)?)\s*(?P<unit>\S*)")


def parse_measure(text: object, measure: Measure, *, where: str = "") -> float:
    """Reads a number with its unit, such as ``60 yd3``, ``75 F`` or ``30 yd3/h``.

    Args:
        text: The text; a bare number is refused, for its unit would be a guess.
        measure: What it should measure.
        where: Place of the value, for the error message.

    Returns:
        The value in the program's own unit; cutting rates in mm per hour.

    Raises:
        InputRefused: The text has no unit of that measure or is not a finite number.
    """
    match = _MEASURED.fullmatch(str(text).strip().replace("°", ""))
    if match and math.isfinite(value := float(match["number"])):
        if measure is Measure.TEMPERATURE and match["unit"].upper() in ("F", "C"):
            return celsius(value) if match["unit"].upper() == "F" else value
        factor = _MEASURES.get(measure, {}).get(match["unit"].lower())
        if factor is not None:
            return value * factor
    units = ["F", "C"] if measure is Measure.TEMPERATURE else list(_MEASURES[measure])
    raise InputRefused(
        Mistake(
            what=f"this is not a {measure} with its unit",
            where=where,
            found=repr(text),
            remedy=f"write a number and one of {', '.join(units)}, such as '20 {units[0]}'",
        )
    )


def celsius(fahrenheit: float) -> float:
    """Degrees Celsius of degrees Fahrenheit."""
    return (fahrenheit - FREEZING_F) / DEGREES_F_PER_C


def to_fahrenheit(degrees: float) -> float:
    """Degrees Fahrenheit of degrees Celsius."""
    return degrees * DEGREES_F_PER_C + FREEZING_F


def format_volume(mm3: float, display: Display) -> str:
    """A volume of concrete: ``20.69 yd3`` or ``15.82 m3``."""
    if display is Display.FEET_INCHES:
        return f"{mm3 / MM3_PER_YD3:,.2f} yd3"
    return f"{mm3 / MM3_PER_M3:,.2f} m3"


def format_liquid(mm3: float, display: Display) -> str:
    """A volume of filler or curing compound: ``8.1 gal`` or ``30.7 L``."""
    if display is Display.FEET_INCHES:
        return f"{mm3 / MM3_PER_GALLON:,.1f} gal"
    return f"{mm3 / MM3_PER_LITRE:,.1f} L"


def format_temperature(degrees: float, display: Display) -> str:
    """A temperature: ``75 °F`` or ``24 °C``."""
    if display is Display.FEET_INCHES:
        return f"{to_fahrenheit(degrees):.0f} °F"
    return f"{degrees:.0f} °C"


def format_evaporation(rate: float, display: Display) -> str:
    """A rate of evaporation given in kg/m2/h: ``0.24 lb/ft2/h`` or ``1.2 kg/m2/h``."""
    if display is Display.FEET_INCHES:
        return f"{rate / KG_M2_PER_LB_FT2:.2f} lb/ft2/h"
    return f"{rate:.2f} kg/m2/h"


def format_clock(hours: float) -> str:
    """A time of day from hours after the first midnight: ``06:30``, or ``02:10 +1 d`` past the next."""
    minutes = round(hours * MINUTES_PER_HOUR)
    day, minutes = divmod(minutes, int(HOURS_PER_DAY * MINUTES_PER_HOUR))
    hour, minute = divmod(minutes, int(MINUTES_PER_HOUR))
    return f"{hour:02d}:{minute:02d}" + (f" +{day} d" if day else "")


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
