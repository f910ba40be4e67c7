"""Rain in the weather table: the plan stops, and every start is named that would keep the day dry."""

import math
from collections.abc import Sequence
from itertools import pairwise

from kerfline.model.day import WeatherHour
from kerfline.placement.climate import Climate
from kerfline.placement.pour_hours import PourHours
from kerfline.placement.wording import are, placements
from kerfline.units import HOURS_PER_DAY, enumerated, format_clock

LEAST_RAIN = 0.1
"""Rain (mm in an hour) below which the table says dry."""

STEP = 0.25
"""Starts are named to so much of an hour."""

FIRST_START, LAST_START = 4.0, 18.0
"""Hours of the clock between which a day is put off to; common practice."""

MOMENT = 1e-6
"""Hours by which two times may differ and still be one."""

Stretch = tuple[float, float]


def rain_clashes(climate: Climate, hours: Sequence[PourHours]) -> list[str]:
    """A sentence for every day on which rain falls on concrete that is not finished."""
    wet = wet_stretches(climate.hours)
    out = []
    for day in sorted({h.pour.day for h in hours}):
        own = [h for h in hours if h.pour.day == day]
        hit = [h for h in own if _wet(_work(h), wet)]
        if hit:
            out.append(_stop(own, hit, wet, climate))
    return out


def wet_stretches(hours: Sequence[WeatherHour]) -> list[Stretch]:
    """When it rains, clock hours: from a wet reading to the next reading, an hour after the last one."""
    ends = [after.clock for _, after in pairwise(hours)] + [h.clock + 1.0 for h in hours[-1:]]
    out: list[Stretch] = []
    for hour, end in zip(hours, ends, strict=True):
        if (hour.rain or 0.0) < LEAST_RAIN:
            continue
        if out and out[-1][1] == hour.clock:
            out[-1] = (out[-1][0], end)
        else:
            out.append((hour.clock, end))
    return out


def _work(hours: PourHours) -> Stretch:
    """From the first concrete to the finished surface."""
    end = hours.finished[1]
    return hours.pour.start, end if math.isfinite(end) else hours.pour.end


def _wet(work: Stretch, wet: Sequence[Stretch]) -> Stretch | None:
    """The first rain that falls on a stretch of work."""
    begin, end = work[0] + MOMENT, work[1] - MOMENT
    return next((rain for rain in wet if rain[0] < end and rain[1] > begin), None)


def _stop(
    own: Sequence[PourHours],
    hit: Sequence[PourHours],
    wet: Sequence[Stretch],
    climate: Climate,
) -> str:
    ids = [h.pour.id for h in hit]
    falls = [rain for h in hit if (rain := _wet(_work(h), wet))]
    begins, ends = min(falls)[0], max(rain[1] for rain in falls)
    return (
        f"STOP, rain from {format_clock(begins)} to {format_clock(ends)}: {placements(ids).lower()} {are(ids)} not "
        f"finished then. This plan does not hold as it stands. {_instead(own, wet, climate)} Have sheeting ready for all "
        "of it; stop at a planned joint, and work no rain water into the surface."
    )


def _instead(own: Sequence[PourHours], wet: Sequence[Stretch], climate: Climate) -> str:
    """The starts that would do, sooner or later, or that there are none."""
    begins, ends = climate.hours[0].clock, climate.hours[-1].clock
    sooner, later = sooner_starts(own, wet, begins), later_starts(own, wet, ends)
    ways = [
        f"{_named(own, sooner)} to be finished before it" if sooner else "",
        f"{_named(own, later)} to begin after it" if later else "",
    ]
    named = ", or ".join(way for way in ways if way)
    if not named:
        return "No dry stretch of the weather table is long enough: order no concrete for this day."
    return f"Move the first truck{'s' if len(own) > 1 else ''} to {named}; set day.start and plan anew."


def _named(own: Sequence[PourHours], starts: Sequence[float]) -> str:
    said = [f"about {format_clock(start)}" for start in starts]
    if len(said) == 1:
        return said[0]
    return enumerated([f"{word} ({h.pour.id})" for word, h in zip(said, own, strict=True)])


def sooner_starts(
    own: Sequence[PourHours], wet: Sequence[Stretch], begins: float
) -> list[float] | None:
    """The latest starts of a day's placements, none later than planned, that keep all of them dry.

    Args:
        own: The placements of the day in their order.
        wet: When it rains.
        begins: Clock hour from which on the weather is known.

    Returns:
        Clock hours, to quarters of an hour; None where the first would lie on the day before.
    """
    midnight = math.floor(own[0].pour.start / HOURS_PER_DAY) * HOURS_PER_DAY
    starts: list[float] = []
    before = math.inf
    for hours in reversed(own):
        start, end = _work(hours)
        placing = hours.pour.end - hours.pour.start
        taken = min(start, before - placing)
        while rain := _wet((taken, taken + end - start), wet):
            taken = rain[0] - (end - start)
        taken = taken if taken == start else math.floor(taken / STEP) * STEP
        starts.insert(0, taken)
        before = taken
    return starts if starts[0] >= max(midnight, begins) else None


def later_starts(
    own: Sequence[PourHours], wet: Sequence[Stretch], ends: float
) -> list[float] | None:
    """The earliest starts later than planned that keep all placements dry, all put off by as much.

    Args:
        own: The placements of the day in their order.
        wet: When it rains.
        ends: Clock hour to which the weather is known.

    Returns:
        Clock hours, to quarters of an hour; None where the table holds no such stretch.
    """
    work = [_work(hours) for hours in own]
    room = ends - max(end for _, end in work)
    for step in range(1, max(0, math.floor(room / STEP)) + 1):
        late = step * STEP
        hour = (work[0][0] + late) % HOURS_PER_DAY
        if not FIRST_START <= hour <= LAST_START:
            continue
        if not any(_wet((start + late, end + late), wet) for start, end in work):
            return [start + late for start, _ in work]
    return None
