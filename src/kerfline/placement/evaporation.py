"""Evaporation of surface moisture from fresh concrete.

One formula only: Uno's single-operation form of the chart in ACI 305R (ACI Materials Journal 95-M34,
1998), in the units it was published in. Metric figures are conversions of its result, so that a metric
and a US user never read different rates for the same weather; the paper's rounded metric form, which
comes out 4 to 5 % lower, is not used.
"""

import math
from dataclasses import dataclass
from enum import StrEnum

from kerfline.errors import InputRefused, Mistake
from kerfline.units import (
    FREEZING_F,
    KG_M2_PER_LB_FT2,
    KMH_PER_MPH,
    Display,
    to_fahrenheit,
)

EXPONENT = 2.5
WIND_SHARE = 0.4
SCALE = 1e-6
BAND = 0.40
"""Share by which the true rate may lie off the estimate either way; ACI SP-338, paper 2, 2020, abstract."""

CAUTION = 0.1 * KG_M2_PER_LB_FT2
ACTION = 0.2 * KG_M2_PER_LB_FT2
"""Thresholds in kg/m2/h; FHWA-HRT-05-038, ch. 5, citing ACI 308 (0.5 and 1.0 kg/m2/h)."""

SLAB_WIND_HEIGHT = 500.0
"""Height (mm) over the slab at which the chart wants the wind; ACI 305R."""

ROUGHNESS = 30.0
"""Roughness length (mm) of open ground, for bringing a wind down; boundary-layer textbooks (from memory)."""

HOTTEST, COLDEST = 52.0, -40.0
"""Air or concrete outside these (degrees Celsius) is a slip of units, not weather."""

MOST_WIND = 150.0
"""Wind (km/h) above which nobody places concrete: a slip of units."""

LEAST_HUMIDITY = 0.02
"""Humidity below this share is seen nowhere: a percentage was divided twice."""


class Risk(StrEnum):
    """What a rate asks for."""

    LOW = "low"
    CAUTION = "caution"
    ACTION = "action"


@dataclass(frozen=True, kw_only=True)
class Evaporation:
    """A rate with its band, kg/m2/h."""

    rate: float
    low: float
    high: float

    @property
    def risk(self) -> Risk:
        """Which threshold the estimate itself has reached."""
        if self.rate >= ACTION:
            return Risk.ACTION
        return Risk.CAUTION if self.rate >= CAUTION else Risk.LOW


def evaporation(concrete: float, air: float, humidity: float, wind: float) -> Evaporation:
    """Rate of evaporation over fresh concrete.

    Args:
        concrete: Temperature of its surface, degrees Celsius.
        air: Temperature of the air, degrees Celsius.
        humidity: Relative humidity as a share, 0 to 1.
        wind: Speed half a metre over the slab, km/h.

    Raises:
        InputRefused: A value that can only be a slip of units, or one outside the formula's range.
    """
    mistakes = weather_mistakes(concrete, air, humidity, wind)
    if mistakes:
        raise InputRefused(*mistakes)
    rate = us_rate(to_fahrenheit(concrete), to_fahrenheit(air), humidity, wind / KMH_PER_MPH)
    metric = max(0.0, rate) * KG_M2_PER_LB_FT2
    return Evaporation(rate=metric, low=metric * (1 - BAND), high=metric * (1 + BAND))


def us_rate(concrete_f: float, air_f: float, humidity: float, wind_mph: float) -> float:
    """E = (Tc^2.5 - r Ta^2.5) (1 + 0.4 V) 1e-6, lb/ft2/h; may be negative where dew falls."""
    drive = math.pow(concrete_f, EXPONENT) - humidity * math.pow(max(air_f, 0.0), EXPONENT)
    return drive * (1 + WIND_SHARE * wind_mph) * SCALE


def weather_mistakes(
    concrete: float, air: float, humidity: float, wind: float, where: str = ""
) -> list[Mistake]:
    """What cannot be true of a set of readings, in the units of ``evaporation``."""
    return [
        *concrete_mistakes(concrete, where),
        *_range_mistakes("air temperature", air, where),
        *_humidity_mistakes(humidity, where),
        *_wind_mistakes(wind, where),
    ]


def concrete_mistakes(value: float, where: str = "") -> list[Mistake]:
    """What cannot be true of a concrete temperature, degrees Celsius."""
    if to_fahrenheit(value) >= FREEZING_F:
        return _range_mistakes("concrete temperature", value, where)
    return [
        Mistake(
            what="concrete below freezing has no rate of evaporation",
            where=where,
            found=f"{value:.1f} °C ({to_fahrenheit(value):.0f} °F)",
            allowed="0 °C (32 °F) and above",
            remedy="was Celsius taken for Fahrenheit?",
        )
    ]


def _range_mistakes(what: str, value: float, where: str) -> list[Mistake]:
    if COLDEST <= value <= HOTTEST:
        return []
    return [
        Mistake(
            what=f"the {what} is out of range",
            where=where,
            found=f"{value:.1f} °C ({to_fahrenheit(value):.0f} °F)",
            allowed=f"{COLDEST:.0f} to {HOTTEST:.0f} °C",
            remedy="was Fahrenheit taken for Celsius?",
        )
    ]


def _humidity_mistakes(value: float, where: str) -> list[Mistake]:
    if LEAST_HUMIDITY <= value <= 1:
        return []
    return [
        Mistake(
            what="the relative humidity is out of range",
            where=where,
            found=f"{value:g} as a share",
            allowed=f"{LEAST_HUMIDITY:g} to 1",
            remedy="write 50 % as 50 where percent is asked for and as 0.5 where a share is",
        )
    ]


def _wind_mistakes(value: float, where: str) -> list[Mistake]:
    if 0 <= value <= MOST_WIND:
        return []
    return [
        Mistake(
            what="the wind is out of range",
            where=where,
            found=f"{value:g} km/h",
            allowed=f"0 to {MOST_WIND:g} km/h",
        )
    ]


def wind_at_slab(wind: float, height: float) -> float:
    """Wind half a metre over the slab from one measured or forecast higher up, by the log law.

    Args:
        wind: Speed at the height.
        height: Above the ground, mm; 10 m (33 ft) for a forecast.
    """
    if height <= SLAB_WIND_HEIGHT:
        return wind
    return wind * math.log(SLAB_WIND_HEIGHT / ROUGHNESS) / math.log(height / ROUGHNESS)


def threshold_words(risk: Risk, display: Display) -> str:
    """A threshold as the publication prints it in either kind of unit."""
    feet = {Risk.CAUTION: "0.1 lb/ft2/h", Risk.ACTION: "0.2 lb/ft2/h"}
    metric = {Risk.CAUTION: "0.5 kg/m2/h", Risk.ACTION: "1.0 kg/m2/h"}
    return (feet if display is Display.FEET_INCHES else metric)[risk]


def remedies(risk: Risk) -> tuple[str, ...]:
    """What helps at a risk, mildest first."""
    if risk is Risk.LOW:
        return ()
    caution = (
        "have fog spray, evaporation retarder, wind breaks and shade ready before the first truck",
        "damp the base and forms, without puddles",
    )
    if risk is Risk.CAUTION:
        return caution
    return (
        *caution,
        "use them from the first screed pass on, or start earlier, later or on another day",
        "shade alone has cut measured evaporation by half or more (field study of slabs, 1989)",
        "cure as soon as finishing allows",
    )
