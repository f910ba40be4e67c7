"""When each line may be cut: always a range, and always a trial cut first.

No publication gives one hour. The habits used where the job file gives none are fitted to what is
published: conventional saws within 4 h in hot and 12 h in cold weather after finishing (ACI 302.1R-15, as
quoted in an ACI answer), early-entry saws 1 h in hot and 4 h in cold weather after finishing (ACI
224.4R-13, same place), stretched and shrunk by temperature as the mix's own setting is.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from shapely import LineString

from kerfline.geometry.faces import lines_of
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.day import Habit, Ledger, SawChoice, SawMethod
from kerfline.model.joint_lines import SawnLine
from kerfline.placement.climate import Ageing
from kerfline.placement.pour_order import Pour
from kerfline.placement.setting import AgeCurve, Setting

TRIAL = "Make a trial cut first; wait where it ravels, stop where a crack runs ahead of the blade."


@dataclass(frozen=True, kw_only=True)
class WindowHours:
    """When one kind of saw may cut, hours after finishing at the reference temperature.

    Attributes:
        opens: First cut.
        closes: Last cut.
        least: Earliest opening published for any weather, real hours.
        most: Latest opening published for any weather, real hours.
    """

    opens: float
    closes: float
    least: float
    most: float


HABITS = {
    SawMethod.CONVENTIONAL: WindowHours(opens=6.0, closes=12.0, least=4.0, most=12.0),
    SawMethod.EARLY_ENTRY: WindowHours(opens=2.0, closes=6.0, least=1.0, most=4.0),
}
SOURCES = {
    SawMethod.CONVENTIONAL: "fitted to 4 to 12 h of ACI 302.1R-15, as quoted",
    SawMethod.EARLY_ENTRY: "fitted to 1 to 4 h of ACI 224.4R-13, as quoted",
}


@dataclass(frozen=True, kw_only=True)
class Span:
    """A clock time that is known to a range: at the warmest, likely and coolest temperature."""

    early: float
    likely: float
    late: float


@dataclass(frozen=True, kw_only=True)
class LineWindow:
    """When one line may be cut, clock hours.

    Attributes:
        sawn: The line.
        pours: Ids of the placements it lies in, in their order.
        placed: First and last concrete on it.
        opens: When the last concrete on it is ready.
        closes: When the first concrete on it is at risk.
        follow: Where it closes before it opens as a whole: when a saw that follows the placing may start,
            and when it must be through; None where even that does not serve.
    """

    sawn: SawnLine
    pours: tuple[str, ...]
    placed: tuple[float, float]
    opens: Span
    closes: Span
    follow: tuple[float, float] | None = None

    @property
    def workable(self) -> bool:
        """Whether it opens before it closes, at the likely temperature."""
        return self.opens.likely < self.closes.likely

    @property
    def ready(self) -> float:
        """When a saw may start on it."""
        return self.follow[0] if self.follow else self.opens.likely

    @property
    def deadline(self) -> float:
        """When a saw must be through with it."""
        return self.follow[1] if self.follow else self.closes.likely


def window_hours(saws: SawChoice, method: SawMethod, ledger: Ledger) -> WindowHours:
    """The hours of the saw in use, habits where the job file gives none."""
    habit = HABITS[method]

    def taken(given: float | None, key: str, text: str, amount: float) -> float:
        shown = f"{amount:g} h after finishing, {method.value} saw"
        source = SOURCES[method]
        return ledger.take(
            given,
            Habit(key=f"day.saws.{key}", text=text, amount=amount, shown=shown, source=source),
        )

    return WindowHours(
        opens=taken(saws.opens, "opens", "first cut at the reference temperature", habit.opens),
        closes=taken(saws.closes, "closes", "last cut at the reference temperature", habit.closes),
        least=habit.least if saws.opens is None else 0.0,
        most=habit.most if saws.opens is None else math.inf,
    )


def line_window(
    sawn: SawnLine, pours: tuple[Pour, ...], ageing: Ageing, setting: Setting, hours: WindowHours
) -> LineWindow | None:
    """When a line may be cut; None where it lies in none of the placements."""
    touched = [(p, parts) for p in pours if (parts := _within(p, sawn))]
    if not touched:
        return None
    points = [at for pour, parts in touched for part in parts for at in pour.clock.along(part)]
    first, last = min(p[0] for p in points), max(p[1] for p in points)
    opens = _span(last, ageing, setting, hours, closing=False)
    closes = _span(first, ageing, setting, hours, closing=True)
    whole = opens.likely < closes.likely
    return LineWindow(
        sawn=sawn,
        pours=tuple(pour.id for pour, _ in touched),
        placed=(first, last),
        opens=opens,
        closes=closes,
        follow=None if whole else _following(points, ageing.likely, setting, hours),
    )


def _following(
    points: Sequence[tuple[float, float]], curve: AgeCurve, setting: Setting, hours: WindowHours
) -> tuple[float, float] | None:
    """When a saw that follows the placing may start and must be through; None where a point has no window."""
    opens = [window_at(last, curve, setting, hours)[0] for _, last in points]
    closes = [window_at(first, curve, setting, hours)[1] for first, _ in points]
    if any(late >= early for late, early in zip(opens, closes, strict=True)):
        return None
    return min(opens), max(closes)


def _within(pour: Pour, sawn: SawnLine) -> list[LineString]:
    """The parts of a line in or along a placement; a mere end in it is none."""
    near = pour.area.buffer(TOUCH)
    return [p for p in lines_of(sawn.line.intersection(near)) if p.length > 4 * TOUCH]


def _span(
    placed: float, ageing: Ageing, setting: Setting, hours: WindowHours, *, closing: bool
) -> Span:
    opened = [window_at(placed, curve, setting, hours)[closing] for curve in ageing.curves]
    return Span(early=opened[0], likely=opened[1], late=opened[2])


def window_at(
    placed: float, curve: AgeCurve, setting: Setting, hours: WindowHours
) -> tuple[float, float]:
    """Clock hours at which concrete placed at an hour may first and may last be cut."""
    finished = curve.until(setting.finishing, placed)
    opens = curve.until(hours.opens, finished) - finished if math.isfinite(finished) else math.inf
    if math.isinf(opens):
        return math.inf, math.inf
    opens = min(max(opens, hours.least), hours.most)
    closes = curve.until(hours.closes, finished) - finished
    return finished + opens, finished + max(closes, opens)
