"""The cutting plan: lines in the order of placing, shared among saws, and how many saws that takes.

Default order: one line after another as the concrete was placed, none skipped (TM 5-822-7, "sawing
sequence"; UFGS 02753). Relief cuts come first in an emergency only, within each placement, and are marked.
A saw goes along a line from either end and waits for concrete that is not ready; what it passes after a
point's own closing is late, foot by foot.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from shapely import MultiPolygon, Polygon

from kerfline.model.day import Habit, Ledger, SawChoice, SawMethod
from kerfline.placement.relief import relief_first
from kerfline.placement.setting import Course
from kerfline.placement.window import COOL, LIKELY, WARM, LineWindow, Stations
from kerfline.units import MINUTES_PER_HOUR, round_figure

_A_MINUTE = round_figure(6, "ft")
RATE = Habit(
    key="day.saws.rate",
    text="length cut in a minute",
    amount=_A_MINUTE.customary * MINUTES_PER_HOUR,
    shown=_A_MINUTE.customary_words,
    metric=(_A_MINUTE.metric * MINUTES_PER_HOUR, _A_MINUTE.metric_words),
)
MOVE = Habit(
    key="day.saws.move",
    text="time per line for snapping, setting and turning",
    amount=5 / MINUTES_PER_HOUR,
    shown="5 min",
)
BLADE_LIFE = Habit.of(
    "day.saws.blade_life",
    "length cut with one blade in green concrete",
    round_figure(2000, "ft"),
)
BLADE_CHANGE = Habit(
    key="day.saws.blade_change",
    text="time to change a blade",
    amount=15 / MINUTES_PER_HOUR,
    shown="15 min",
)
MOST_SAWS = 20
STAND_BY = 1
"""Saws in reserve; common practice on airfield work, spare blades beside them (UFGS 03150A, 3.1.1.2)."""

PUNCTUAL = 1e-6
"""Hours by which a cut may overrun and still be in time: rounding."""

FOLLOWING = 0.5 / MINUTES_PER_HOUR
"""Hours by which a saw that starts before all of a line is open is told to follow the placing: what a clock shows."""

LEAST_LATE = 1.0
"""Length (mm) below which nothing is called late: rounding."""

Area = Polygon | MultiPolygon


@dataclass(frozen=True, kw_only=True)
class SawPace:
    """What a saw does; mm per hour, hours and mm."""

    rate: float
    move: float
    blade_life: float
    blade_change: float


@dataclass(frozen=True, kw_only=True)
class Run:
    """A saw's way along a line, clock hours.

    Attributes:
        start: When its blade goes in; infinite where the concrete is never ready.
        end: When it is through.
        late: Length (mm) that it cuts after the point's own closing.
        late_by: Greatest time by which it is late, hours.
        backwards: Whether it starts at the line's end.
    """

    start: float
    end: float
    late: float
    late_by: float
    backwards: bool = False


@dataclass(frozen=True, kw_only=True)
class Cut:
    """One line, or a stretch of one, as a saw cuts it.

    Attributes:
        order: Number on the sheet, from 1.
        window: The line and when it may be cut.
        saw: Number of the saw, from 1; 0 where the concrete is never ready.
        run: The saw's way along it.
        new_blade: Whether a blade is changed before it.
        relief: Whether it is a relief cut out of turn, in an emergency.
    """

    order: int
    window: LineWindow
    saw: int
    run: Run
    new_blade: bool = False
    relief: bool = False

    @property
    def start(self) -> float:
        """Clock hours at which the blade goes in."""
        return self.run.start

    @property
    def end(self) -> float:
        """Clock hours at which the saw is through."""
        return self.run.end

    @property
    def late(self) -> bool:
        """Whether any of it is cut too late."""
        return self.run.late > LEAST_LATE

    @property
    def follows(self) -> bool:
        """Whether the saw starts before all of the line is open, and goes behind the placing."""
        return self.run.start < self.window.opens.likely - FOLLOWING


@dataclass(frozen=True, kw_only=True)
class SawNeed:
    """Saws needed at the warmest, the likely and the coolest; None where no number gets every line in time."""

    warm: int | None
    likely: int | None
    cool: int | None

    @property
    def shown(self) -> str:
        """The range in words, such as ``1 to 2``."""
        counts = [self.warm, self.likely, self.cool]
        known = sorted({count for count in counts if count is not None})
        if None in counts:
            return f"{known[0]} or more" if known else "no number of saws will do"
        return f"{known[0]}" if len(known) == 1 else f"{known[0]} to {known[-1]}"


@dataclass(frozen=True, kw_only=True)
class CuttingPlan:
    """Who cuts what when.

    Attributes:
        cuts: In the order of cutting, with the saws that are planned.
        need: Saws needed.
        planned: Saws that the times are worked out for.
        given: Saws on site by the job file; None where it says nothing.
        blades: Blades used up and begun.
        hours: Hours of sawing in all, moves with them.
        emergency: Whether relief cuts come first.
        relief: Joints to be cut first within each placement if there are too few saws.
    """

    cuts: tuple[Cut, ...]
    need: SawNeed
    planned: int
    given: int | None
    blades: int
    hours: float
    emergency: bool
    relief: tuple[str, ...]

    @property
    def late(self) -> tuple[Cut, ...]:
        """The cuts of which something is cut too late."""
        return tuple(cut for cut in self.cuts if cut.late)

    @property
    def late_length(self) -> float:
        """Length that is cut too late, mm."""
        return sum(cut.run.late for cut in self.late)


def saw_pace(saws: SawChoice, ledger: Ledger) -> SawPace:
    """What a saw does, habits where the job file says nothing."""
    return SawPace(
        rate=ledger.take(saws.rate, RATE),
        move=ledger.take(saws.move, MOVE),
        blade_life=ledger.take(saws.blade_life, BLADE_LIFE),
        blade_change=ledger.take(saws.blade_change, BLADE_CHANGE),
    )


def plan_cutting(
    windows: Sequence[LineWindow], saws: SawChoice, pace: SawPace, areas: Mapping[str, Area]
) -> CuttingPlan:
    """Shares the lines among saws.

    Args:
        windows: The lines that can be cut at all.
        saws: Saws on site, and from when they can cut where that is late.
        pace: What a saw does.
        areas: The placements by id, in their order.
    """
    late_from = saws.late_from if saws.late_from is not None else -math.inf
    usual = sorted(windows, key=lambda w: (_day(w), *_placing_order(w)))
    urgent, relief = _relief_within(usual, areas, late_from)
    emergency = bool(relief) and math.isfinite(late_from)
    ordered = urgent if emergency else usual
    need = SawNeed(
        warm=_saws_needed(ordered, pace, late_from, WARM),
        likely=_saws_needed(ordered, pace, late_from, LIKELY),
        cool=_saws_needed(ordered, pace, late_from, COOL),
    )
    planned = saws.count or need.likely or 1
    cuts = tuple(
        replace(cut, relief=emergency and cut.window.sawn.joint in relief)
        for cut in schedule(ordered, planned, pace, late_from)
    )
    return CuttingPlan(
        cuts=cuts,
        need=need,
        planned=planned,
        given=saws.count,
        blades=planned + sum(cut.new_blade for cut in cuts) if cuts else 0,
        hours=sawing_time(sum(float(w.sawn.line.length) for w in ordered), len(ordered), pace),
        emergency=emergency,
        relief=tuple(dict.fromkeys(w.sawn.joint for w in urgent if w.sawn.joint in relief)),
    )


def _day(window: LineWindow) -> int:
    """Lines whose concrete is never ready come last."""
    return 0 if math.isfinite(window.ready) else 1


def _placing_order(window: LineWindow) -> tuple[float, float, tuple[float, ...]]:
    return (window.placed[1], window.placed[0], tuple(window.sawn.line.bounds))


def _relief_within(
    usual: Sequence[LineWindow], areas: Mapping[str, Area], late_from: float
) -> tuple[list[LineWindow], frozenset[str]]:
    """Relief cuts first within each placement that waits for its saw; placements keep their order."""
    out: list[LineWindow] = []
    relief: set[str] = set()
    for name, area in areas.items():
        own = [w for w in usual if w.pours[-1] == name]
        waits = not math.isfinite(late_from) or any(w.ready < late_from for w in own)
        if own and waits:
            own, first = relief_first(own, area)
            relief |= first
        out += own
    return out, frozenset(relief)


def _saws_needed(
    ordered: Sequence[LineWindow], pace: SawPace, late_from: float, case: int
) -> int | None:
    """Least number of saws with which no point is late; None where even many do not help."""
    if not ordered:
        return 1
    for count in range(1, min(MOST_SAWS, len(ordered)) + 1):
        if not any(cut.late for cut in _in_turn(ordered, count, pace, late_from, case)):
            return count
    return None


def schedule(
    ordered: Sequence[LineWindow],
    count: int,
    pace: SawPace,
    late_from: float = -math.inf,
    case: int = LIKELY,
) -> list[Cut]:
    """Each line in turn by the saw that is free first.

    Args:
        ordered: The lines in the order of cutting.
        count: Number of saws.
        pace: What a saw does.
        late_from: Clock hours before which no saw can start.
        case: Course of temperature.
    """
    return list(_in_turn(ordered, count, pace, late_from, case))


def _in_turn(
    ordered: Sequence[LineWindow], count: int, pace: SawPace, late_from: float, case: int
) -> Iterator[Cut]:
    """The cuts of a schedule one by one, so that whoever looks for a late one need not wait for the rest."""
    free = [late_from] * count
    cut_with = [0.0] * count
    for order, window in enumerate(ordered, 1):
        saw = min(range(count), key=lambda k: (free[k], k))
        length = float(window.sawn.line.length)
        new_blade = cut_with[saw] + length > pace.blade_life and cut_with[saw] > 0
        ready = free[saw] + (pace.blade_change if new_blade else 0.0) + pace.move
        run = best_run(window, ready, pace.rate, case)
        if math.isinf(run.end):
            yield Cut(order=order, window=window, saw=0, run=run)
            continue
        yield Cut(order=order, window=window, saw=saw + 1, run=run, new_blade=new_blade)
        free[saw] = run.end
        cut_with[saw] = length if new_blade else cut_with[saw] + length


def best_run(window: LineWindow, ready: float, rate: float, case: int) -> Run:
    """The way along a line with the least of it late, then the sooner through, then from its start."""
    runs = [_run(window, ready, rate, case, backwards=way) for way in (False, True)]
    return min(runs, key=lambda run: (round(run.late, 0), round(run.end, 6), run.backwards))


def _run(window: LineWindow, ready: float, rate: float, case: int, *, backwards: bool) -> Run:
    """A saw from one end to the other, at no point before it opens.

    It starts so late that it need not wait on the way, unless some of the line would close meanwhile.
    """
    stations = window.stations.backwards() if backwards else window.stations
    opens, travel = stations.opens[case], stations.along / rate
    if not np.all(np.isfinite(opens)):
        return Run(start=math.inf, end=math.inf, late=0.0, late_by=0.0, backwards=backwards)
    waiting = travel + np.maximum(np.maximum.accumulate(opens - travel), ready)
    steady = travel + (waiting[-1] - travel[-1])
    runs = [_timed(stations, times, case, backwards=backwards) for times in (steady, waiting)]
    return min(runs, key=lambda run: round(run.late, 0))


def _timed(stations: Stations, times: Course, case: int, *, backwards: bool) -> Run:
    """A run that passes the stations at some times."""
    over = times - stations.closes[case]
    late = over > PUNCTUAL
    return Run(
        start=float(times[0]),
        end=float(times[-1]),
        late=float(stations.shares()[late].sum()) if late.any() else 0.0,
        late_by=float(over[late].max(initial=0.0)),
        backwards=backwards,
    )


def method_of(saws: SawChoice, job_method: str) -> SawMethod:
    """The kind of saw: the day's own, else that of the job's cuts."""
    return saws.method or SawMethod(job_method)


def sawing_time(length: float, lines: int, pace: SawPace) -> float:
    """Hours of one saw for a total length (mm) in so many lines."""
    return length / pace.rate + lines * pace.move
