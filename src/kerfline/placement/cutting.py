"""The cutting plan: lines in the order of placing, shared among saws, and how many saws that takes.

Default order: one line after another as the concrete was placed, none skipped (TM 5-822-7, "sawing
sequence"; UFGS 02753). Relief cuts come first in an emergency only and are marked as such.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from shapely import Polygon

from kerfline.model.day import Habit, Ledger, SawChoice, SawMethod
from kerfline.placement.relief import relief_first
from kerfline.placement.window import LineWindow
from kerfline.units import MINUTES_PER_HOUR, MM_PER_FOOT

RATE = Habit(
    key="day.saws.rate",
    text="length cut in a minute",
    amount=6 * MM_PER_FOOT * MINUTES_PER_HOUR,
    shown="6 ft (1.8 m)",
)
MOVE = Habit(
    key="day.saws.move",
    text="time per line for snapping, setting and turning",
    amount=5 / MINUTES_PER_HOUR,
    shown="5 min",
)
BLADE_LIFE = Habit(
    key="day.saws.blade_life",
    text="length cut with one blade in green concrete",
    amount=2000 * MM_PER_FOOT,
    shown="2000 ft (610 m)",
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


@dataclass(frozen=True, kw_only=True)
class SawPace:
    """What a saw does; mm per hour, hours and mm."""

    rate: float
    move: float
    blade_life: float
    blade_change: float


@dataclass(frozen=True, kw_only=True)
class Cut:
    """One line as a saw cuts it.

    Attributes:
        order: Number on the sheet, from 1.
        window: The line and when it may be cut.
        saw: Number of the saw, from 1.
        start: Clock hours.
        end: Clock hours.
        new_blade: Whether a blade is changed before it.
        relief: Whether it is a relief cut out of turn, in an emergency.
    """

    order: int
    window: LineWindow
    saw: int
    start: float
    end: float
    new_blade: bool = False
    relief: bool = False

    @property
    def late(self) -> bool:
        """Whether it ends after the line should be through."""
        return self.end > self.window.deadline + PUNCTUAL


@dataclass(frozen=True, kw_only=True)
class CuttingPlan:
    """Who cuts what when.

    Attributes:
        cuts: In the order of cutting, with the saws that are planned.
        one_enough: Whether one saw gets every line within its window.
        saws: Saws needed; None where no number of saws gets every line in time.
        planned: Saws that the times are worked out for.
        given: Saws on site by the job file; None where it says nothing.
        blades: Blades used up and begun.
        hours: Hours of sawing in all, moves with them.
        emergency: Whether relief cuts come first.
    """

    cuts: tuple[Cut, ...]
    one_enough: bool
    saws: int | None
    planned: int
    given: int | None
    blades: int
    hours: float
    emergency: bool

    @property
    def late(self) -> tuple[Cut, ...]:
        """The cuts that end too late."""
        return tuple(cut for cut in self.cuts if cut.late)


def saw_pace(saws: SawChoice, ledger: Ledger) -> SawPace:
    """What a saw does, habits where the job file says nothing."""
    return SawPace(
        rate=ledger.take(saws.rate, RATE),
        move=ledger.take(saws.move, MOVE),
        blade_life=ledger.take(saws.blade_life, BLADE_LIFE),
        blade_change=ledger.take(saws.blade_change, BLADE_CHANGE),
    )


def plan_cutting(
    windows: Sequence[LineWindow], saws: SawChoice, pace: SawPace, concrete: Polygon
) -> CuttingPlan:
    """Shares the lines among saws.

    Args:
        windows: The lines that can be cut at all.
        saws: Saws on site, and from when they can cut where that is late.
        pace: What a saw does.
        concrete: The slab.
    """
    ordered = sorted(windows, key=_placing_order)
    relief: frozenset[str] = frozenset()
    late_from = saws.late_from if saws.late_from is not None else -math.inf
    emergency = bool(ordered) and late_from > ordered[0].ready
    if emergency:
        ordered, relief = relief_first(ordered, concrete)
    count = _saws_needed(ordered, pace, late_from)
    planned = saws.count or count or 1
    cuts = tuple(
        replace(cut, relief=cut.window.sawn.joint in relief)
        for cut in schedule(ordered, planned, pace, late_from)
    )
    return CuttingPlan(
        cuts=cuts,
        one_enough=count == 1,
        saws=count,
        planned=planned,
        given=saws.count,
        blades=planned + sum(cut.new_blade for cut in cuts) if cuts else 0,
        hours=sawing_time(sum(float(w.sawn.line.length) for w in ordered), len(ordered), pace),
        emergency=emergency,
    )


def _placing_order(window: LineWindow) -> tuple[float, float, tuple[float, ...]]:
    return (window.placed[1], window.placed[0], tuple(window.sawn.line.bounds))


def _saws_needed(ordered: Sequence[LineWindow], pace: SawPace, late_from: float) -> int | None:
    """Least number of saws with which no line is late; None where even many do not help."""
    if not ordered:
        return 1
    for count in range(1, min(MOST_SAWS, len(ordered)) + 1):
        if not any(cut.late for cut in schedule(ordered, count, pace, late_from)):
            return count
    return None


def schedule(
    ordered: Sequence[LineWindow], count: int, pace: SawPace, late_from: float = -math.inf
) -> list[Cut]:
    """Each line in turn by the saw that is free first, not before it opens.

    Args:
        ordered: The lines in the order of cutting.
        count: Number of saws.
        pace: What a saw does.
        late_from: Clock hours before which no saw can start.
    """
    free = [late_from] * count
    cut_with = [0.0] * count
    out = []
    for order, window in enumerate(ordered, 1):
        saw = min(range(count), key=lambda k: (free[k], k))
        length = float(window.sawn.line.length)
        new_blade = cut_with[saw] + length > pace.blade_life and cut_with[saw] > 0
        ready = free[saw] + (pace.blade_change if new_blade else 0.0)
        start = max(ready, window.ready)
        end = start + pace.move + length / pace.rate
        if window.follow:
            end = max(end, window.opens.likely)
        out.append(
            Cut(order=order, window=window, saw=saw + 1, start=start, end=end, new_blade=new_blade)
        )
        free[saw] = end
        cut_with[saw] = length if new_blade else cut_with[saw] + length
    return out


def method_of(saws: SawChoice, job_method: str) -> SawMethod:
    """The kind of saw: the day's own, else that of the job's cuts."""
    return saws.method or SawMethod(job_method)


def sawing_time(length: float, lines: int, pace: SawPace) -> float:
    """Hours of one saw for a total length (mm) in so many lines."""
    return length / pace.rate + lines * pace.move
