"""The hours of a placement between its first concrete and its finished surface."""

import math
from dataclasses import dataclass

from kerfline.placement.climate import Ageing, Climate, EvaporationHour, hours_over
from kerfline.placement.evaporation import ACTION, CAUTION
from kerfline.placement.pour_order import Pour
from kerfline.placement.setting import Setting
from kerfline.units import MM_PER_FOOT


@dataclass(frozen=True, kw_only=True)
class PourHours:
    """A placement's hours, clock hours.

    Attributes:
        pour: The placement.
        floated: When its first and its last concrete has bled and takes the float or the broom, at the likely
            temperature.
        finished: When its first and its last concrete is finished.
        over_caution: Hours over 0.1 lb/ft2/h (0.5 kg/m2/h) from the first concrete to the last finishing.
        over_action: Hours over 0.2 lb/ft2/h (1.0 kg/m2/h).
        finishers: Hands that finishing takes, at the published output, while it lasts.
        weather_known: Whether the weather file reaches over all of it.
    """

    pour: Pour
    floated: tuple[float, float]
    finished: tuple[float, float]
    over_caution: float
    over_action: float
    finishers: int
    weather_known: bool


FINISHED_IN_AN_HOUR = 100 * MM_PER_FOOT**2
"""Area (mm2) that one hand finishes with a machine trowel in an hour; estimating textbook, fig. 10.30."""


def finishers(area: float, first: float, last: float, start: float) -> int:
    """Hands that finish an area between half-way to the first concrete's finish and the last one's.

    Args:
        area: Of the placement, mm2.
        first: When its first concrete is finished, clock hours.
        last: When its last concrete is.
        start: When its first concrete was placed.
    """
    hours = last - (start + first) / 2
    return math.ceil(area / FINISHED_IN_AN_HOUR / hours) if math.isfinite(hours) else 0


def pour_hours(
    pour: Pour,
    ageing: Ageing,
    setting: Setting,
    climate: Climate,
    curve: tuple[EvaporationHour, ...],
) -> PourHours:
    """The hours of one placement.

    Args:
        pour: The placement.
        ageing: How the concrete ages.
        setting: How the mix sets.
        climate: The weather.
        curve: The rate of evaporation; empty where it is not known.
    """
    ends = (pour.start, pour.end)
    floated = tuple(ageing.likely.until(setting.floating, end) for end in ends)
    first, last = (ageing.likely.until(setting.finishing, end) for end in ends)
    return PourHours(
        pour=pour,
        floated=(floated[0], floated[1]),
        finished=(first, last),
        over_caution=hours_over(curve, CAUTION, pour.start, last),
        over_action=hours_over(curve, ACTION, pour.start, last),
        finishers=finishers(float(pour.area.area), first, last, pour.start),
        weather_known=climate.covers(pour.start, last),
    )
