"""The rows of a day's time line: placing, finishing, cutting windows and saws."""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from kerfline.model.day import Finish
from kerfline.placement.climate import between
from kerfline.placement.cutting import Cut
from kerfline.placement.light import Daylight
from kerfline.placement.plan import PlacementPlan
from kerfline.placement.pour_hours import PourHours
from kerfline.placement.window import LineWindow
from kerfline.sheets.day.time_line import DARK, LIGHT, MIDDLE, WHITE, Bar, Row, TimeLine
from kerfline.units import HOURS_PER_DAY, Display, counted

FINISHING = {Finish.FLOAT: "float", Finish.BROOM: "broom", Finish.TROWEL: "float, trowel"}
"""What is done to the surface once it has bled, in a bar."""

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
    rows = [
        *_pour_rows(hours, placement.setting.finish),
        *_window_rows(hours, cuts),
        *_saw_rows(cuts),
    ]
    covered = between(placement.evaporation, start, end)
    light = placement.light
    return TimeLine(
        heading=f"Day {day} against the clock" if count > 1 else "The day against the clock",
        rows=tuple(rows),
        curve=covered,
        start=start,
        end=end,
        text=text,
        display=display,
        changes=light.changes(start, end) if light else (),
        dark=tuple(_nights(light, start, end)) if light else (),
    )


def _nights(light: Daylight, start: float, end: float) -> Iterator[tuple[float, float]]:
    """Stretches of the clock between sunset and sunrise."""
    edges = [start, *(clock for clock, _ in light.changes(start, end)), end]
    for first, last in pairwise(edges):
        if light.dark_from(first, last) == first:
            yield first, last


def _pour_rows(hours: Sequence[PourHours], finish: Finish) -> Iterator[Row]:
    """Placing; bleeding until the first concrete takes the float; finishing; more and more of it finished."""
    for h in hours:
        placed, bled = h.pour.end, max(h.pour.end, h.floated[0])
        done = max(placed, h.finished[0])
        bars = (
            Bar(start=placed, end=bled, tone=WHITE, words="bleeds"),
            Bar(start=bled, end=h.finished[1], tone=LIGHT, words=""),
            Bar(start=bled, end=min(done, h.finished[1]), tone=LIGHT, words=FINISHING[finish]),
            Bar(start=done, end=h.finished[1], tone=MIDDLE, words="finished"),
            Bar(start=h.pour.start, end=placed, tone=DARK, words="place"),
        )
        yield Row(name=f"placement {h.pour.id}", bars=bars, each=True)


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
