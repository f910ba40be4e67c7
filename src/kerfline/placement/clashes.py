"""What the weather and the light do to a plan: frost, heat, drying, darkness, and what is not known."""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from kerfline.model.day import WeatherHour
from kerfline.placement.climate import Climate, EvaporationHour, worst
from kerfline.placement.cutting import CuttingPlan
from kerfline.placement.evaporation import Risk, threshold_words
from kerfline.placement.light import Daylight
from kerfline.placement.pour_hours import PourHours
from kerfline.placement.wording import are, placements
from kerfline.units import (
    Display,
    celsius,
    format_clock,
    format_evaporation,
    format_temperature,
)

PROTECTION = 36.0
"""Hours of curing after which concrete has 500 psi (3.5 MPa) and stands a first frost: the longer of the 24 to
36 h of the National Frame Building Association magazine, October 2020, p. 18."""

FREEZING = 0.0
HOT_AIR = celsius(90)
"""Air (degrees Celsius) from which the crew's heat stress is spoken of; common practice."""

LONGEST_GAP = 3.0
"""Hours between readings above which the weather between them is called unknown."""


Hours = Sequence[PourHours]


def weather_clashes(
    climate: Climate, hours: Hours, cutting: CuttingPlan, display: Display
) -> list[str]:
    """What the weather table asks for, in the order in which it matters."""
    return [
        *_frost(climate, hours, display),
        *_frozen_cuts(climate, cutting, display),
        *_heat(climate, hours, cutting, display),
        *_unknown(climate, hours, cutting),
    ]


def _within(readings: Sequence[WeatherHour], start: float, end: float) -> list[WeatherHour]:
    return [hour for hour in readings if start <= hour.clock <= end]


def _frost(climate: Climate, hours: Hours, display: Display) -> Iterator[str]:
    for each in hours:
        pour, end = each.pour, each.finished[1]
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


def _work(hours: Hours, cutting: CuttingPlan) -> list[tuple[float, float]]:
    """From the first truck of each placement to its last cut, clock hours."""
    out = []
    for each in hours:
        pour, end = each.pour, each.finished[1]
        cuts = [cut.end for cut in cutting.cuts if cut.window.pours[-1] == pour.id]
        ends = [time for time in (pour.end, end, *cuts) if math.isfinite(time)]
        out.append((pour.start, max(ends)))
    return out


def _heat(climate: Climate, hours: Hours, cutting: CuttingPlan, display: Display) -> Iterator[str]:
    hot = [
        hour
        for start, end in _work(hours, cutting)
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


def drying_clashes(hours: Hours, curve: Sequence[EvaporationHour], display: Display) -> list[str]:
    """Placements that dry faster than the published threshold for action."""
    return [
        f"Drying: placement {each.pour.id} loses up to {format_evaporation(highest.rate.rate, display)} at "
        f"{format_clock(highest.clock)}, {each.over_action:.1f} h over the {threshold_words(Risk.ACTION, display)} at "
        "which action is taken (FHWA-HRT-05-038, ch. 5, citing ACI 308): wind breaks, fog spray and evaporation "
        "retarder from the first screed pass on, or another hour."
        for each in hours
        if each.over_action
        and (highest := worst(curve, each.pour.start, each.finished[1])) is not None
    ]


def _unknown(climate: Climate, hours: Hours, cutting: CuttingPlan) -> Iterator[str]:
    """Gaps in the weather table and days that it does not reach, and what rests on them."""
    if not climate.hours or not hours:
        return
    start = hours[0].pour.start
    last, work = last_hour(hours, cutting), _work(hours, cutting)
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
        named = [h.pour.id for h in hours if h.finished[1] > climate.hours[-1].clock]
        of = f" of {placements(named).lower()}" if named else ""
        yield (
            f"The weather table ends at {format_clock(climate.hours[-1].clock)}. Evaporation{of} after that is "
            "unknown, and hours of setting and cutting after that are guessed from the hours before: get a forecast "
            "that reaches to the last cut."
        )


def last_hour(hours: Hours, cutting: CuttingPlan) -> float:
    """Clock hours at which all is finished and cut; what never comes to an end is left out."""
    ends = [h.finished[1] for h in hours] + [cut.end for cut in cutting.cuts]
    return max((end for end in ends if math.isfinite(end)), default=0.0)


def clock_clashes(
    change: tuple[float, float] | None, hours: Hours, cutting: CuttingPlan
) -> list[str]:
    """A change of the clock between the first truck and the closing of the last line."""
    closing = [w for w in (c.window.deadline for c in cutting.cuts) if math.isfinite(w)]
    end = max([last_hour(hours, cutting), *closing])
    if change is None or not hours or not hours[0].pour.start <= change[0] <= end:
        return []
    way, by = ("back", -change[1]) if change[1] < 0 else ("forward", change[1])
    return [
        (
            f"Clocks go {way} {by:g} h at {format_clock(change[0])}. Every time here is by the clock of the first "
            f"truck; from then on a wall clock shows {by:g} h {'less' if way == 'back' else 'more'}."
        )
    ]


def dark_clashes(light: Daylight | None, hours: Hours, cutting: CuttingPlan) -> list[str]:
    """Work that falls into the dark: what is placed, what is finished, what is cut."""
    if light is None:
        return []
    times = f"(sunrise {format_clock(light.rise)}, sunset {format_clock(light.set)})"
    stands: dict[str, list[str]] = {}
    for each in hours:
        how = _dark_work(light, each)
        if how:
            stands.setdefault(how, []).append(each.pour.id)
    out = [
        f"{placements(ids)} {are(ids)} {how} in the dark {times}: {_lit(how)}"
        for how, ids in stands.items()
    ]
    found = [(c, light.dark_from(c.start, c.end)) for c in cutting.cuts if math.isfinite(c.end)]
    dark = [clock for _, clock in found if clock is not None]
    if dark:
        out.append(
            f"{_some(len(dark), len(cutting.cuts))} in the dark, from {format_clock(min(dark))} on {times}: lights on "
            "stands, not headlights (UFGS 02753); no one saws alone."
        )
    return out


PLACED, FINISHED = "placed", "finished"
DUSK = 0.25
"""Hours of light at either end of a stretch of work that do not make it work by day."""


def _dark_work(light: Daylight, hours: PourHours) -> str:
    """What of a placement's work lies in the dark: placing, finishing, both, or parts of them."""
    work = {
        PLACED: (hours.pour.start, hours.pour.end),
        FINISHED: (hours.floated[0], hours.finished[1]),
    }
    said = []
    for name, (start, end) in work.items():
        dusk = min(DUSK, (end - start) / 4)
        if light.dark_all_through(start + dusk, end - dusk):
            said.append(name)
        elif light.dark(start, end):
            said.append(f"partly {name}")
    return " and ".join(said)


def _lit(how: str) -> str:
    if PLACED in how:
        return (
            "light the trucks' way, the discharge and all of the slab from stands before the first truck; reflective "
            "clothing for everyone."
        )
    return "lights on stands."


def _some(count: int, whole: int) -> str:
    """How many of the cuts, with their verb."""
    if count == whole:
        return "Every cut falls" if whole > 1 else "The cut falls"
    return f"{count} of {whole} cuts {'falls' if count == 1 else 'fall'}"
