"""Figures of the trade: round in feet and yards, and round again where a job is metric.

One rule for all of them: the metric figure is the exact one to two digits (30 yd3 are 23 m3, 16 ft are 4.9 m), that
of a blade or another size in inches to whole 50 mm, as such sizes are sold.
"""

from dataclasses import dataclass
from math import floor, log10
from typing import Literal

from kerfline.units.factors import (
    MM3_PER_M3,
    MM3_PER_YD3,
    MM_PER_FOOT,
    MM_PER_INCH,
    MM_PER_METRE,
)

Customary = Literal["ft", "ft2", "yd3", "in"]
"""Units that figures of the trade are round in."""

DIGITS = 2
SIZE_STEP = 50.0
"""Step (mm) that sizes given in inches are rounded to."""

_FACTORS = {"ft": MM_PER_FOOT, "ft2": MM_PER_FOOT**2, "yd3": MM3_PER_YD3, "in": MM_PER_INCH}
_METRIC = {
    "ft": ("m", MM_PER_METRE),
    "ft2": ("m2", MM_PER_METRE**2),
    "yd3": ("m3", MM3_PER_M3),
    "in": ("mm", 1.0),
}


@dataclass(frozen=True, kw_only=True)
class RoundFigure:
    """A figure of the trade in both kinds of unit.

    Attributes:
        customary: In mm, mm2 or mm3, round in feet, yards or inches.
        customary_words: As it is written there.
        metric: In mm, mm2 or mm3, round in metres or millimetres.
        metric_words: As it is written there.
    """

    customary: float
    customary_words: str
    metric: float
    metric_words: str


def round_figure(number: float, unit: Customary) -> RoundFigure:
    """A figure that is round in a unit, with its round metric counterpart."""
    exact = number * _FACTORS[unit]
    name, factor = _METRIC[unit]
    metric = _sized(exact) if unit == "in" else _to_digits(exact / factor)
    return RoundFigure(
        customary=exact,
        customary_words=f"{number:,g} {unit}",
        metric=metric * factor,
        metric_words=f"{metric:,g} {name}",
    )


def _sized(mm: float) -> float:
    return max(1, round(mm / SIZE_STEP)) * SIZE_STEP


def _to_digits(value: float) -> float:
    return round(value, DIGITS - 1 - floor(log10(value)))
