"""The rows of a day's time line: placing, finishing, cutting windows and saws."""

import math
from collections.abc import Iterator, Sequence

from kerfline.placement.climate import between
from kerfline.placement.cutting import Cut
from kerfline.placement.plan import PlacementPlan, PourHours
from kerfline.placement.window import LineWindow
from kerfline.sheets.day.time_line import DARK, LIGHT, MIDDLE, WHITE, Bar, Row, TimeLine
from kerfline.units import HOURS_PER_DAY, Display, counted

LONGEST = 48.0
"""Hours that a time line shows at most."""


def time_lines(placement: PlacementPlan, text: float, display: Display) -> list[TimeLine]:
    """One time line a day."""
    days = sorted({h.pour.day for h in placement.hours})
    return [_time_line(placement, day, len(days), text, display) for day in days]


def _time_line(
    placement: PlacementPlan,
    day: int,
    count: int,
    text: float,
    display: Display,
) -> TimeLine:
    hours = [h for h in placement.hours if h.pour.day == day]
    names = {h.pour.id for h in hours}
    cuts = [c for c in placement.cutting.cuts if c.window.pours[-1] in names]
    start = math.floor(min(h.pour.start for h in hours)) - 1.0
    ends = [*(h.finished[1] for h in hours), *(c.end for c in cuts)]
    ends += [c.window.deadline for c in cuts]
    finite = [end for end in ends if math.isfinite(end)]
    end = min(math.ceil(max(finite, default=start + HOURS_PER_DAY)) + 1.0, start + LONGEST)
    rows = [*_pour_rows(hours), *_window_rows(hours, cuts), *_saw_rows(cuts)]
    covered = between(placement.evaporation, start, end)
    light = placement.light
    dusk = light.set + (day - 1) * HOURS_PER_DAY if light else None
    return TimeLine(
        heading=f"Day {day} against the clock" if count > 1 else "The day against the clock",
        rows=tuple(rows),
        curve=covered,
        start=start,
        end=end,
        text=text,
        display=display,
        sunset=dusk,
    )


def _pour_rows(hours: Sequence[PourHours]) -> Iterator[Row]:
    for h in hours:
        placing = Bar(start=h.pour.start, end=h.pour.end, tone=DARK, words="place")
        finishing = Bar(start=h.pour.start, end=h.finished[1], tone=LIGHT)
        ready = Bar(
            start=max(h.finished[0], h.pour.end), end=h.finished[1], tone=MIDDLE, words="finished"
        )
        yield Row(name=f"placement {h.pour.id}", bars=(finishing, ready, placing))


def _window_rows(hours: Sequence[PourHours], cuts: Sequence[Cut]) -> Iterator[Row]:
    """For each placement: possible (lightest), likely, and when every line of it is open."""
    for h in hours:
        windows = [c.window for c in cuts if c.window.pours[-1] == h.pour.id]
        finite = [w for w in windows if math.isfinite(w.closes.likely)]
        if finite:
            yield Row(name=f"cut placement {h.pour.id}", bars=tuple(_window_bars(finite)))


def _window_bars(windows: Sequence[LineWindow]) -> Iterator[Bar]:
    opens, closes = [w.opens for w in windows], [w.closes for w in windows]
    yield Bar(start=min(o.early for o in opens), end=max(c.late for c in closes), tone=WHITE)
    yield Bar(start=min(o.likely for o in opens), end=max(c.likely for c in closes), tone=LIGHT)
    yield Bar(
        start=max(o.likely for o in opens),
        end=min(c.likely for c in closes),
        tone=MIDDLE,
        words="every line open",
    )


def _saw_rows(cuts: Sequence[Cut]) -> Iterator[Row]:
    for saw in sorted({c.saw for c in cuts}):
        bars = tuple(
            Bar(start=c.start, end=c.end, tone=DARK, words=str(c.order))
            for c in cuts
            if c.saw == saw and math.isfinite(c.end)
        )
        orders = [c.order for c in cuts if c.saw == saw]
        yield Row(name=f"saw {saw}, {counted(len(orders), 'cut')}", bars=bars)
