"""The weather of the day as a curve, and the temperatures between which the concrete lies."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from kerfline.model.day import Batch, DayInput, Ledger, WeatherHour
from kerfline.placement.evaporation import (
    BAND,
    SLAB_WIND_HEIGHT,
    Evaporation,
    evaporation,
    wind_at_slab,
)
from kerfline.placement.mixing import ice_for, mixed_temperature, water_for
from kerfline.placement.setting import AgeCurve, Course, Setting
from kerfline.units import (
    HOURS_PER_DAY,
    MINUTES_PER_HOUR,
    Display,
    celsius,
    format_temperature,
    to_fahrenheit,
)

HOTTEST_CONCRETE = celsius(95)
"""Highest concrete temperature (degrees Celsius) at discharge; ACI 301-20 and 305.1-14, as quoted."""

COLDEST_CONCRETE = celsius(55)
"""Lowest for sections under 12 in (0.3 m), as placed and kept; ACI 306R, Table 3.1, line 1, as quoted."""

HOTTEST_WATER = celsius(140)
"""Mixing water (degrees Celsius) hotter than this may make cement set in a flash; common practice."""

MIN_CURVE = 2
"""Readings that make a curve."""

RULE_SPREAD = 0.2
"""Share by which the rules of maturity differ in the time of setting between 50 and 90 °F (10 and 32 °C):
the halving rule, the trade's table and the Arrhenius form agree to about that much."""

COLD_AIR = celsius(40)
"""Air below this during protection makes it cold weather; ACI 306R."""


@dataclass(frozen=True, kw_only=True)
class EvaporationHour:
    """The rate at one time: clock hours and kg/m2/h."""

    clock: float
    air: float
    rate: Evaporation


@dataclass(frozen=True, kw_only=True)
class Climate:
    """What is known of temperatures.

    Attributes:
        hours: The weather in order of time; empty where there is none.
        concrete: Temperature of the concrete as placed, degrees Celsius.
        known: Whether that temperature was given.
        kept: Temperature (degrees Celsius) below which blankets or heat keep the concrete from falling; None
            where nothing is provided.
    """

    hours: tuple[WeatherHour, ...]
    concrete: float
    known: bool
    kept: float | None = None

    def air(self, clock: Course) -> Course:
        """Air temperature at clock hours; beyond the weather file the same hours of its days repeat."""
        if not self.hours:
            return np.full_like(clock, self.concrete)
        times = np.array([h.clock for h in self.hours])
        air = np.array([h.air for h in self.hours])
        found: Course = np.interp(_within(clock, times), times, air)
        return found

    def warm(self, clock: Course) -> Course:
        """The warmer of concrete as placed and air: setting is never faster."""
        return self._kept(np.maximum(self.concrete, self.air(clock)))

    def cool(self, clock: Course) -> Course:
        """The cooler of the two: setting is never slower."""
        return self._kept(np.minimum(self.concrete, self.air(clock)))

    def likely(self, clock: Course) -> Course:
        """Halfway between the two."""
        return self._kept((self.concrete + self.air(clock)) / 2)

    def air_at(self, clock: float) -> float:
        """Air temperature at one clock hour."""
        return float(self.air(np.array([clock]))[0])

    def _kept(self, course: Course) -> Course:
        return course if self.kept is None else np.maximum(course, self.kept)

    def evaporation(self) -> tuple[EvaporationHour, ...]:
        """The rate at every time of the weather file."""
        return tuple(
            EvaporationHour(
                clock=h.clock,
                air=h.air,
                rate=evaporation(
                    self.concrete, h.air, h.humidity, wind_at_slab(h.wind, h.wind_height)
                ),
            )
            for h in self.hours
        )

    def covers(self, start: float, end: float) -> bool:
        """Whether the weather file reaches over a stretch of the clock."""
        return bool(self.hours) and self.hours[0].clock <= start and end <= self.hours[-1].clock


def _within(clock: Course, times: Course) -> Course:
    """The same hours of other days that the weather covers, where it covers a whole day."""
    first, last = times[0], times[-1]
    if last - first < HOURS_PER_DAY - 1:
        return clock
    after = np.ceil(np.maximum(0.0, clock - last) / HOURS_PER_DAY)
    before = np.ceil(np.maximum(0.0, first - clock) / HOURS_PER_DAY)
    moved: Course = clock + (before - after) * HOURS_PER_DAY
    return moved


def climate_of(day: DayInput, start: float, reference: float, ledger: Ledger) -> Climate:
    """The temperatures of the day.

    Args:
        day: What is known of it.
        start: Clock hours of the first discharge.
        reference: Temperature (degrees Celsius) to fall back to.
        ledger: Takes down what had to be assumed or must be asked.
    """
    hours = tuple(sorted(day.weather, key=lambda h: h.clock))
    _wind_note(hours, ledger)
    if not hours:
        ledger.ask(
            "What will the weather be? Give day.weather, a CSV table by the hour: without it no rate of "
            "evaporation is worked out and the air is taken to be as warm as the concrete."
        )
    given = day.concrete.temperature
    if given is None and day.concrete.batch is not None:
        given = mixed_temperature(day.concrete.batch)
        ledger.note(
            "concrete temperature, from its ingredients",
            f"{given:.0f} °C ({to_fahrenheit(given):.0f} °F) as mixed",
            "heat balance of ACI 305R and CRD-C 307-91; the way to the site adds its own",
        )
    if given is not None:
        return Climate(hours=hours, concrete=given, known=True, kept=day.curing.kept_at)
    air = float(Climate(hours=hours, concrete=reference, known=False).air(np.array(start)))
    ledger.ask("How warm will the concrete be as placed? Give day.concrete.temperature.")
    what = "air at the first discharge" if hours else "reference temperature of setting"
    ledger.note("concrete temperature (day.concrete.temperature)", f"as the {what}", "a stopgap")
    return Climate(hours=hours, concrete=air, known=False, kept=day.curing.kept_at)


def _wind_note(hours: Sequence[WeatherHour], ledger: Ledger) -> None:
    """A wind from higher up is brought down, which makes the rate smaller: never without a word."""
    heights = sorted({h.wind_height for h in hours if h.wind_height > SLAB_WIND_HEIGHT})
    for height in heights:
        factor = wind_at_slab(1.0, height)
        ledger.note(
            f"wind at {height / 1000:.1f} m brought down to the slab",
            f"times {factor:.2f}, by the log law over open ground",
            "boundary-layer textbooks (from memory); measure 20 in (0.5 m) over the slab on the day",
        )


def hours_over(
    curve: Sequence[EvaporationHour], threshold: float, start: float, end: float
) -> float:
    """Hours between two clock times in which the rate, linear between readings, is over a threshold."""
    end = min(end, curve[-1].clock) if curve else start
    if end <= start:
        return 0.0
    minute = 1 / MINUTES_PER_HOUR
    minutes = np.arange(start, end, minute) + minute / 2
    rates = np.interp(minutes, [h.clock for h in curve], [h.rate.rate for h in curve])
    inside = (minutes >= curve[0].clock) & (minutes <= curve[-1].clock)
    return float(np.sum((rates >= threshold) & inside)) * minute


def between(
    curve: Sequence[EvaporationHour], start: float, end: float
) -> tuple[EvaporationHour, ...]:
    """The curve between two clock times, cut off there in straight lines; empty where it holds nothing."""
    if len(curve) < MIN_CURVE or end <= curve[0].clock or start >= curve[-1].clock:
        return ()
    first, last = max(start, curve[0].clock), min(end, curve[-1].clock)
    inside = [h for h in curve if first < h.clock < last]
    return (_between_readings(curve, first), *inside, _between_readings(curve, last))


def _between_readings(curve: Sequence[EvaporationHour], clock: float) -> EvaporationHour:
    times = [h.clock for h in curve]
    rate = float(np.interp(clock, times, [h.rate.rate for h in curve]))
    return EvaporationHour(
        clock=clock,
        air=float(np.interp(clock, times, [h.air for h in curve])),
        rate=Evaporation(rate=rate, low=rate * (1 - BAND), high=rate * (1 + BAND)),
    )


def worst(curve: Sequence[EvaporationHour], start: float, end: float) -> EvaporationHour | None:
    """The highest rate between two clock times; None where the curve holds nothing of them."""
    return max(between(curve, start, end), key=lambda h: h.rate.rate, default=None)


def temperature_cautions(
    climate: Climate, start: float, end: float, batch: Batch | None, display: Display
) -> list[str]:
    """Hot and cold limits that the day touches, and what ice or hot water would do."""
    out = []
    if climate.known and climate.concrete > HOTTEST_CONCRETE:
        out.append(
            "Concrete over 95 °F (35 °C) as placed: above the limit of ACI 301-20 and 305.1-14; ACI 305R "
            "sets no fixed limit where every other step is right. Ask the engineer."
            + _cooled(batch, display)
        )
    if climate.known and climate.concrete < COLDEST_CONCRETE:
        out.append(
            "Concrete under 55 °F (13 °C) as placed: below ACI 306R, Table 3.1, for thin sections; warm it "
            "and keep it warm." + _warmed(batch, display)
        )
    coldest = min((h.air for h in climate.hours if start <= h.clock <= end), default=None)
    if coldest is not None and coldest < COLD_AIR:
        out.append(
            "Air under 40 °F (4 °C) during placing or protection: cold weather by ACI 306R. Protect the "
            "concrete from frost until it reaches 500 psi (3.5 MPa), usually 24 to 36 h."
        )
    return out


def _cooled(batch: Batch | None, display: Display) -> str:
    """How much ice brings concrete to the hottest that is allowed."""
    if batch is None:
        return ""
    ice = ice_for(batch, HOTTEST_CONCRETE)
    limit = format_temperature(HOTTEST_CONCRETE, display)
    if ice > batch.water:
        return f" More than all mixing water as ice would be needed for {limit}: cool the aggregate too."
    return f" With {ice / batch.water:.0%} of the mixing water as ice it would come at {limit}."


def _warmed(batch: Batch | None, display: Display) -> str:
    """How warm the mixing water must be for the coldest that is allowed."""
    if batch is None:
        return ""
    water, limit = water_for(batch, COLDEST_CONCRETE), format_temperature(COLDEST_CONCRETE, display)
    if water > HOTTEST_WATER:
        return f" Hot water alone does not bring it to {limit}: warm the aggregate too."
    return f" With mixing water at {format_temperature(water, display)} it would come at {limit}."


@dataclass(frozen=True, kw_only=True)
class Ageing:
    """How the concrete ages at the warmest, the likely and the coolest course of its temperature.

    The concrete as placed and the air are the bounds; halfway between them is taken as likely. The bounds
    are set apart further by what the rules of maturity differ among themselves.
    """

    warm: AgeCurve
    likely: AgeCurve
    cool: AgeCurve

    @staticmethod
    def of(climate: Climate, setting: Setting, start: float, end: float) -> "Ageing":
        """The three courses for concrete that is placed between two clock hours."""

        def curve(temperature: Callable[[Course], Course], factor: float = 1.0) -> AgeCurve:
            return AgeCurve.of(temperature, setting, start, end, factor)

        return Ageing(
            warm=curve(climate.warm, 1 + RULE_SPREAD),
            likely=curve(climate.likely),
            cool=curve(climate.cool, 1 / (1 + RULE_SPREAD)),
        )

    @property
    def curves(self) -> tuple[AgeCurve, AgeCurve, AgeCurve]:
        """Warm, likely and cool."""
        return self.warm, self.likely, self.cool
