"""What the weather and the light do to a plan: frost, heat, rain, wind, darkness, and what is not known."""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from kerfline.model.day import WeatherHour
from kerfline.placement.climate import Climate
from kerfline.placement.cutting import CuttingPlan
from kerfline.placement.light import Daylight
from kerfline.placement.pour_order import Pour
from kerfline.placement.wording import are, placements
from kerfline.units import HOURS_PER_DAY, Display, celsius, format_clock, format_temperature

PROTECTION = 36.0
"""Hours of curing after which concrete has 500 psi (3.5 MPa) and stands a first frost: the longer of the 24 to
36 h of the National Frame Building Association magazine, October 2020, p. 18."""

FREEZING = 0.0
HOT_AIR = celsius(90)
"""Air (degrees Celsius) from which the crew's heat stress is spoken of; common practice."""

LONGEST_GAP = 3.0
"""Hours between readings above which the weather between them is called unknown."""

LEAST_RAIN = 0.1
"""Rain (mm in an hour) below which the table says dry."""

Finished = Sequence[tuple[Pour, float]]
"""Each placement with the clock hour at which its last concrete is finished."""


def weather_clashes(
    climate: Climate, finished: Finished, cutting: CuttingPlan, display: Display
) -> list[str]:
    """What the weather table asks for, in the order in which it matters."""
    return [
        *_frost(climate, finished, display),
        *_frozen_cuts(climate, cutting, display),
        *_rain(climate, finished),
        *_heat(climate, finished, cutting, display),
        *_unknown(climate, finished, cutting),
    ]


def _within(hours: Sequence[WeatherHour], start: float, end: float) -> list[WeatherHour]:
    return [hour for hour in hours if start <= hour.clock <= end]


def _frost(climate: Climate, finished: Finished, display: Display) -> Iterator[str]:
    for pour, end in finished:
        kept = end + PROTECTION if math.isfinite(end) else pour.end + PROTECTION
        cold = [h for h in _within(climate.hours, pour.start, kept) if h.air < FREEZING]
        if not cold:
            continue
        first, worst = cold[0], min(cold, key=lambda hour: hour.air)
        yield (
            f"Frost on placement {pour.id}: below freezing from {format_clock(first.clock)}, down to "
            f"{format_temperature(worst.air, display)} at {format_clock(worst.clock)}, before the concrete has "
            "500 psi (3.5 MPa), which takes 24 to 36 h of cure. Never place on frozen ground. Insulating blankets or a heated enclosure must be "
            "ready before the first truck, and stay on but where a saw is at work; keep the concrete at 55 °F "
            "(13 °C) or more (ACI 306R, Table 3.1, line 1, as quoted; NFBA magazine, October 2020, p. 18). Vent "
            "heaters: unvented fumes harm the crew and soften the surface."
        )


def _frozen_cuts(climate: Climate, cutting: CuttingPlan, display: Display) -> Iterator[str]:
    found = [
        (cut, climate.air_at(cut.start))
        for cut in cutting.cuts
        if math.isfinite(cut.end) and climate.hours and climate.air_at(cut.start) < FREEZING
    ]
    if found:
        cut, coldest = min(found, key=lambda each: each[1])
        yield (
            f"{_some(len(found), len(cutting.cuts))} in frost, the coldest at {format_clock(cut.start)} in "
            f"{format_temperature(coldest, display)}: uncover one line at a time and cover it again at once, keep the "
            "saw's water and the slurry from freezing on the walkways (common practice)."
        )


def _rain(climate: Climate, finished: Finished) -> Iterator[str]:
    for pour, end in finished:
        wet = [h for h in _within(climate.hours, pour.start, end) if (h.rain or 0.0) >= LEAST_RAIN]
        if not wet:
            continue
        begins = wet[0].clock
        latest = begins - (end - pour.start)
        day = math.floor(pour.start / HOURS_PER_DAY) * HOURS_PER_DAY
        before = (
            f"start by about {format_clock(latest)} to be finished before it, or move the day"
            if latest >= day
            else "it cannot be finished before it on this day: move it"
        )
        yield (
            f"Rain from {format_clock(begins)} while placement {pour.id} is placed or finished (until "
            f"{format_clock(end)}): {before}. Have sheeting ready for all of it; stop at a planned joint, and work no "
            "rain water into the surface."
        )


def _work(finished: Finished, cutting: CuttingPlan) -> list[tuple[float, float]]:
    """From the first truck of each placement to its last cut, clock hours."""
    out = []
    for pour, end in finished:
        cuts = [cut.end for cut in cutting.cuts if cut.window.pours[-1] == pour.id]
        ends = [time for time in (pour.end, end, *cuts) if math.isfinite(time)]
        out.append((pour.start, max(ends)))
    return out


def _heat(
    climate: Climate, finished: Finished, cutting: CuttingPlan, display: Display
) -> Iterator[str]:
    hot = [
        hour
        for start, end in _work(finished, cutting)
        for hour in _within(climate.hours, start, end)
        if hour.air >= HOT_AIR
    ]
    if hot:
        worst = max(hot, key=lambda hour: hour.air)
        yield (
            f"Heat stress: air up to {format_temperature(worst.air, display)} at {format_clock(worst.clock)}. Water, "
            "rest and shade for the crew, a watch kept on each other, new hands brought on slowly; local rules on "
            "heat come first (common practice)."
        )


def _unknown(climate: Climate, finished: Finished, cutting: CuttingPlan) -> Iterator[str]:
    """Gaps in the weather table and days that it does not reach, and what rests on them."""
    if not climate.hours or not finished:
        return
    start = finished[0][0].start
    last, work = last_hour(finished, cutting), _work(finished, cutting)
    for before, after in pairwise(climate.hours):
        missed = any(before.clock < end and after.clock > begin for begin, end in work)
        if after.clock - before.clock > LONGEST_GAP and missed:
            yield (
                f"No reading between {format_clock(before.clock)} and {format_clock(after.clock)}: the weather of "
                "those hours is not known, and what is said of them is a guess on a straight line."
            )
    if climate.hours[0].clock > start:
        yield (
            f"The weather table begins at {format_clock(climate.hours[0].clock)}, after the first truck: what is said "
            "of the time before is a guess."
        )
    if climate.hours[-1].clock < last:
        named = [p.id for p, end in finished if end > climate.hours[-1].clock]
        of = f" of {placements(named).lower()}" if named else ""
        yield (
            f"The weather table ends at {format_clock(climate.hours[-1].clock)}. Evaporation{of} after that is "
            "unknown, and hours of setting and cutting after that are guessed from the hours before: get a forecast "
            "that reaches to the last cut."
        )


def last_hour(finished: Finished, cutting: CuttingPlan) -> float:
    """Clock hours at which all is finished and cut; what never comes to an end is left out."""
    ends = [end for _, end in finished] + [cut.end for cut in cutting.cuts]
    return max((end for end in ends if math.isfinite(end)), default=0.0)


def clock_clashes(
    change: tuple[float, float] | None, finished: Finished, cutting: CuttingPlan
) -> list[str]:
    """A change of the clock between the first truck and the closing of the last line."""
    closing = [w for w in (c.window.deadline for c in cutting.cuts) if math.isfinite(w)]
    end = max([last_hour(finished, cutting), *closing])
    if change is None or not finished or not finished[0][0].start <= change[0] <= end:
        return []
    way, hours = ("back", -change[1]) if change[1] < 0 else ("forward", change[1])
    return [
        (
            f"Clocks go {way} {hours:g} h at {format_clock(change[0])}. Every time here is by the clock of the first "
            f"truck; from then on a wall clock shows {hours:g} h {'less' if way == 'back' else 'more'}."
        )
    ]


def dark_clashes(light: Daylight | None, finished: Finished, cutting: CuttingPlan) -> list[str]:
    """Work that falls into the dark."""
    if light is None:
        return []
    out = []
    placed = [p.id for p, _ in finished if light.dark(p.start, p.end)]
    late = [p.id for p, end in finished if p.id not in placed and light.dark(p.start, end)]
    cuts = [c for c in cutting.cuts if math.isfinite(c.end) and light.dark(c.start, c.end)]
    times = f"(sunrise {format_clock(light.rise)}, sunset {format_clock(light.set)})"
    if placed:
        out.append(
            f"{placements(placed)} {are(placed)} placed in the dark {times}: light the trucks' way, the discharge and "
            "all of the slab from stands before the first truck; reflective clothing for everyone."
        )
    if late:
        out.append(
            f"{placements(late)} {are(late)} finished in the dark {times}: lights on stands."
        )
    if cuts:
        out.append(
            f"{_some(len(cuts), len(cutting.cuts))} in the dark, from {format_clock(cuts[0].start)} on {times}: "
            "lights on stands, not headlights (UFGS 02753); no one saws alone."
        )
    return out


def _some(count: int, whole: int) -> str:
    """How many of the cuts, with their verb."""
    if count == whole:
        return "Every cut falls" if whole > 1 else "The cut falls"
    return f"{count} of {whole} cuts {'falls' if count == 1 else 'fall'}"
