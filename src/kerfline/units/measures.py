"""Everything that is not a length, read and written.

Inside the program volumes are mm3, areas mm2, temperatures degrees Celsius, wind km/h, durations hours,
cutting rates mm/h and rates of evaporation kg/m2/h.
"""

import math
import re
from enum import StrEnum

from kerfline.errors import InputRefused, Mistake
from kerfline.units.factors import (
    DEGREES_F_PER_C,
    FREEZING_F,
    HOURS_PER_DAY,
    KG_M2_PER_LB_FT2,
    KMH_PER_MPH,
    MINUTES_PER_HOUR,
    MM3_PER_GALLON,
    MM3_PER_LITRE,
    MM3_PER_M3,
    MM3_PER_YD3,
    MM_PER_FOOT,
    MM_PER_INCH,
    MM_PER_METRE,
    MM_PER_YARD,
    MPA_PER_PSI,
    N_PER_POUND,
)
from kerfline.units.unit import Display


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
