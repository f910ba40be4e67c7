"""When it is light: given, or reckoned from the date and the place.

Source: NOAA Global Monitoring Laboratory, "General Solar Position Calculations": equation of time and
declination by the series of Spencer (1971), sunrise and sunset where the sun's middle stands 0.833 degrees
below the horizon. The times hold within a few minutes below 72 degrees of latitude.
"""

import math
from dataclasses import dataclass
from datetime import date, timedelta

from kerfline.model.day import DayInput, Ledger
from kerfline.units import HOURS_PER_DAY, MINUTES_PER_HOUR

ZENITH = 90.833
"""Zenith distance (degrees) of the sun's middle at sunrise and sunset, refraction and half its width in it."""

MINUTES_PER_DEGREE = 4.0
NOON = 720.0


@dataclass(frozen=True, kw_only=True)
class Daylight:
    """Sunrise and sunset, hours after the midnight of their own day.

    Attributes:
        rise: When light comes; minus infinity where the sun never sets.
        set: When it fails; equal to ``rise`` where it never rises.
    """

    rise: float
    set: float

    def dark_from(self, start: float, end: float) -> float | None:
        """When it is dark for the first time in a stretch of the clock; None where all of it is light."""
        if not math.isfinite(end - start):
            return None
        midnight = math.floor(start / HOURS_PER_DAY) * HOURS_PER_DAY
        rise, dusk = midnight + self.rise, midnight + self.set
        if start < rise or start >= dusk:
            return start
        return dusk if end > dusk else None

    def dark(self, start: float, end: float) -> bool:
        """Whether any of a stretch of the clock lies in the dark."""
        return self.dark_from(start, end) is not None

    def dark_all_through(self, start: float, end: float) -> bool:
        """Whether a stretch of the clock begins in the dark and ends before it is light again."""
        if self.dark_from(start, end) != start:
            return False
        midnight = math.floor(start / HOURS_PER_DAY) * HOURS_PER_DAY
        morning = midnight + (0.0 if start < midnight + self.rise else HOURS_PER_DAY)
        return self.rise == self.set or end <= morning + self.rise

    def changes(self, start: float, end: float) -> tuple[tuple[float, str], ...]:
        """Sunrises and sunsets in a stretch of the clock, in their order."""
        days = range(math.floor(start / HOURS_PER_DAY), math.floor(end / HOURS_PER_DAY) + 1)
        found = [
            (day * HOURS_PER_DAY + own, name)
            for day in days
            for own, name in ((self.rise, "sunrise"), (self.set, "sunset"))
            if self.rise != self.set
        ]
        return tuple((clock, name) for clock, name in found if start < clock < end)


def daylight_of(day: DayInput, ledger: Ledger) -> Daylight | None:
    """Sunrise and sunset of the day: given, or from its place and date; None where neither is known."""
    if day.sunrise is not None and day.sunset is not None:
        return Daylight(rise=day.sunrise, set=day.sunset)
    place = (day.latitude, day.longitude, day.utc_offset)
    if day.date and all(value is not None for value in place):
        found = sun(date.fromisoformat(day.date), *(float(v or 0.0) for v in place))
        rise = found.rise if day.sunrise is None else day.sunrise
        return Daylight(rise=rise, set=found.set if day.sunset is None else day.sunset)
    ledger.ask(
        "When is it light? Give day.sunrise and day.sunset, or day.date with day.latitude, day.longitude and "
        "day.time_zone: work in the dark is not told without."
    )
    return None


def sun(when: date, latitude: float, longitude: float, utc_offset: float) -> Daylight:
    """Sunrise and sunset by the clock of a place.

    Args:
        when: The date.
        latitude: Degrees, north positive.
        longitude: Degrees, east positive.
        utc_offset: Hours of the clock before universal time.
    """
    year = math.tau / (365 + _leap(when)) * (when.timetuple().tm_yday - 1)
    equation = 229.18 * (
        0.000075
        + 0.001868 * math.cos(year)
        - 0.032077 * math.sin(year)
        - 0.014615 * math.cos(2 * year)
        - 0.040849 * math.sin(2 * year)
    )
    declination = (
        0.006918
        - 0.399912 * math.cos(year)
        + 0.070257 * math.sin(year)
        - 0.006758 * math.cos(2 * year)
        + 0.000907 * math.sin(2 * year)
        - 0.002697 * math.cos(3 * year)
        + 0.00148 * math.sin(3 * year)
    )
    north = math.radians(latitude)
    cosine = math.cos(math.radians(ZENITH)) / (math.cos(north) * math.cos(declination)) - math.tan(
        north
    ) * math.tan(declination)
    noon = (NOON - MINUTES_PER_DEGREE * longitude - equation) / MINUTES_PER_HOUR + utc_offset
    if cosine < -1:
        return Daylight(rise=-math.inf, set=math.inf)
    if cosine > 1:
        return Daylight(rise=noon, set=noon)
    half = math.degrees(math.acos(cosine)) * MINUTES_PER_DEGREE / MINUTES_PER_HOUR
    return Daylight(rise=noon - half, set=noon + half)


def _leap(when: date) -> int:
    return (date(when.year + 1, 1, 1) - date(when.year, 1, 1)) // timedelta(days=1) - 365
