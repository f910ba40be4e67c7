"""When each point of each line may be cut: always a range, and always a trial cut first.

One clock: hours after placing at the reference temperature, stretched and shrunk by temperature as the
mix's own setting is. No publication gives one hour; each figure below is where the published pair of hot and
cold weather lies at 70 °F (21 °C), hot being 82 °F (28 °C) and cold 50 °F (10 °C) by the rule that 20 °F halve
or double the time:

* conventional saw, opens 6 h: 4 h hot to 12 h cold after placing, ACI 302.1R-15 as quoted in an ACI answer;
  CSA A23.1-94, 20.2, opens at 6 h too;
* conventional saw, closes 12 h: the later of that pair, held at the reference. CSA A23.1-94 gives 18 h, but the
  stresses are at their worst from 6 to 18 h after placing (PCA, as cited), so the earlier figure is taken;
* early-entry saw, opens 3 h: 2 h hot to 6 h cold after placing, ACI 325.12R-02; closes 6 h, the later of the pair;
* either saw, opens no sooner than 2 h after finishing: 1 h in hot to 4 h in cold weather, ACI 224.4R-13; an
  early-entry window stays open until 4 h after finishing, the later of that pair.
"""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import LineString

from kerfline.geometry.arrays import Flags
from kerfline.geometry.faces import lines_of
from kerfline.geometry.lines import stretch_of
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.day import Habit, Ledger, SawChoice, SawMethod, TrialCut
from kerfline.model.joint_lines import SawnLine
from kerfline.model.layout import Layout
from kerfline.placement.climate import Ageing
from kerfline.placement.pour_order import Pour
from kerfline.placement.setting import Course, Setting

TRIAL = "Make a trial cut first; wait where it ravels, stop where a crack runs ahead of the blade."

WARM, LIKELY, COOL = 0, 1, 2
"""The three courses of temperature, as ``Ageing.curves`` has them."""

STEP = 250.0
"""Points of a line at which it is looked at come no farther apart than this, mm."""

MOST_STRETCHES = 12
"""Stretches that a line is parted into at most."""

ROOM = 0.5
"""Least share of its points' own window for which a stretch is open as a whole."""

AFTER_PLACING = {SawMethod.CONVENTIONAL: (6.0, 12.0), SawMethod.EARLY_ENTRY: (3.0, 6.0)}
"""Opening and closing, hours after placing at 70 °F (21 °C)."""

AFTER_FINISHING = (2.0, 4.0)
"""Opening, and closing of an early-entry saw, hours after finishing at 70 °F (21 °C)."""

SOURCES = {
    SawMethod.CONVENTIONAL: "4 to 12 h after placing, ACI 302.1R-15 as quoted; ACI 224.4R-13 after finishing",
    SawMethod.EARLY_ENTRY: "2 to 6 h after placing, ACI 325.12R-02 as quoted; ACI 224.4R-13 after finishing",
}


@dataclass(frozen=True, kw_only=True)
class WindowHours:
    """When one kind of saw may cut, hours after placing at the reference temperature."""

    opens: float
    closes: float


@dataclass(frozen=True, kw_only=True)
class Span:
    """A clock time that is known to a range: at the warmest, likely and coolest temperature."""

    early: float
    likely: float
    late: float


@dataclass(frozen=True, kw_only=True, eq=False)
class Stations:
    """Points along a line, each with its own window; clock hours, one row for each course of temperature.

    Attributes:
        along: Distance of each from the line's start, mm.
        opens: When the last concrete there is ready.
        closes: When the first concrete there is at risk.
    """

    along: Course
    opens: Course
    closes: Course

    def backwards(self) -> "Stations":
        """The same points from the line's other end."""
        return Stations(
            along=self.along[-1] - self.along[::-1],
            opens=self.opens[:, ::-1],
            closes=self.closes[:, ::-1],
        )

    def shares(self) -> Course:
        """Length of line (mm) that each point stands for."""
        steps = np.diff(self.along) / 2
        shares: Course = np.concatenate([steps, [0.0]]) + np.concatenate([[0.0], steps])
        return shares


@dataclass(frozen=True, kw_only=True)
class LineWindow:
    """When one line, or a stretch of one, may be cut; clock hours.

    Attributes:
        sawn: The line.
        pours: Ids of the placements it lies in, in their order.
        placed: First and last concrete on it.
        stations: Its points with their own windows.
        opens: When every point of it is open.
        closes: When the first point of it closes.
    """

    sawn: SawnLine
    pours: tuple[str, ...]
    placed: tuple[float, float]
    stations: Stations
    opens: Span
    closes: Span

    @property
    def workable(self) -> bool:
        """Whether there is a time at which all of it may be cut, at the likely temperature."""
        return self.opens.likely < self.closes.likely

    @property
    def ready(self) -> float:
        """When the first point of it opens, so that a saw may start there."""
        return float(self.stations.opens[LIKELY].min())

    @property
    def deadline(self) -> float:
        """When the last point of it closes."""
        return float(self.stations.closes[LIKELY].max())


def window_hours(
    saws: SawChoice, method: SawMethod, setting: Setting, ledger: Ledger
) -> WindowHours:
    """The hours of the saw in use, from the publications where the job file gives none."""
    first, last = (hours + setting.shift for hours in AFTER_PLACING[method])
    opens = max(first, setting.finishing + AFTER_FINISHING[0])
    closes = max(last, setting.finishing + AFTER_FINISHING[1])

    def taken(given: float | None, key: str, text: str, amount: float) -> float:
        habit = Habit(
            key=f"day.saws.{key}",
            text=f"{text} at the reference temperature",
            amount=amount,
            shown=f"{amount:g} h after placing, {method.value} saw",
            source=SOURCES[method],
        )
        return ledger.take(given, habit)

    return WindowHours(
        opens=taken(saws.opens, "opens", "first cut", opens),
        closes=taken(saws.closes, "closes", "last cut", closes),
    )


def calibrated(
    hours: WindowHours, trial: TrialCut | None, ageing: Ageing, setting: Setting
) -> WindowHours:
    """The hours as the user's own trial cut has shown them: both are moved in the same measure.

    The concrete's age at the trial, in reference hours, is what it takes to stand the saw today. Where no
    temperature is given with the trial, the likely course of the day is taken.
    """
    if trial is None:
        return hours
    if trial.temperature is None:
        age = ageing.likely.age_between(trial.placed, trial.cut)
    else:
        speed = float(setting.speeds(np.array([trial.temperature]))[0])
        age = speed * (trial.cut - trial.placed)
    factor = age / hours.opens
    return WindowHours(opens=age, closes=hours.closes * factor)


def crossings(sawn: Sequence[SawnLine], layout: Layout) -> dict[str, list[float]]:
    """Where other joints meet each line, mm from its start, by the joint's id."""
    lines = [joint.line for joint in layout.joints]
    tree = shapely.STRtree(lines)
    out: dict[str, list[float]] = {}
    for one in sawn:
        near = [lines[int(k)] for k in sorted(tree.query(one.line, "dwithin", TOUCH))]
        met = [shapely.intersection(one.line, other) for other in near if other != one.line]
        spots = [shapely.Point(xy) for shape in met for xy in shapely.get_coordinates(shape)]
        out[one.joint] = sorted({round(one.line.project(spot), 1) for spot in spots})
    return out


def line_windows(
    sawn: SawnLine,
    pours: Sequence[Pour],
    ageing: Ageing,
    hours: WindowHours,
    nodes: Sequence[float] = (),
) -> list[LineWindow]:
    """When a line may be cut, whole or in stretches that each have a time of their own.

    A line that was placed over hours is parted so that every stretch is wholly open for at least half as
    long as its points are, at joints that cross it where some lie near.

    Args:
        sawn: The line.
        pours: The placements.
        ageing: How the concrete ages.
        hours: Of the saw.
        nodes: Where other joints meet the line, mm from its start.

    Returns:
        Stretches from the line's start; empty where it lies in none of the placements.
    """
    whole = _window(sawn, pours, ageing, hours)
    if whole is None:
        return []
    for count in range(_fewest(whole), MOST_STRETCHES + 1):
        parts = [_window(part, pours, ageing, hours) for part in _parted(sawn, count, nodes)]
        found = [part for part in parts if part is not None]
        if all(_roomy(part) for part in found) or len(found) < count:
            return found if len(found) == count else [whole]
    return found


def _fewest(whole: LineWindow) -> int:
    """The fewest stretches that can do where the placing goes evenly along a line."""
    opens, closes = whole.stations.opens[LIKELY], whole.stations.closes[LIKELY]
    if not np.all(np.isfinite(closes)):
        return 1
    own = float((closes - opens).max())
    spread = float(opens.max() - opens.min())
    even = spread / ((1 - ROOM) * own) if own > 0 else MOST_STRETCHES
    return max(1, min(MOST_STRETCHES, int(even)))


def _roomy(window: LineWindow) -> bool:
    opens, closes = window.stations.opens[LIKELY], window.stations.closes[LIKELY]
    if not np.all(np.isfinite(closes)):
        return True
    longest = float((closes - opens).max())
    return float(closes.min() - opens.max()) >= ROOM * longest


def _parted(sawn: SawnLine, count: int, nodes: Sequence[float]) -> list[SawnLine]:
    """A line in so many stretches of about one length, parted at nodes where some lie near."""
    length = float(sawn.line.length)
    step = length / count
    cuts = [0.0]
    for number in range(1, count):
        ideal = number * step
        near = min(nodes, key=lambda node: (abs(node - ideal), node), default=ideal)
        cuts.append(near if abs(near - ideal) < step / 2 and near > cuts[-1] + TOUCH else ideal)
    cuts.append(length)
    if count == 1:
        return [sawn]
    return [
        replace(sawn, line=stretch_of(sawn.line, a, b), part=f"{number} of {count}")
        for number, (a, b) in enumerate(itertools.pairwise(cuts), 1)
    ]


def _window(
    sawn: SawnLine, pours: Sequence[Pour], ageing: Ageing, hours: WindowHours
) -> LineWindow | None:
    touched = [(p, parts) for p in pours if (parts := _within(p, sawn))]
    if not touched:
        return None
    count = max(1, int(np.ceil(sawn.line.length / STEP)))
    along = np.linspace(0.0, float(sawn.line.length), count + 1)
    spots = shapely.get_coordinates(shapely.line_interpolate_point(sawn.line, along))
    first = np.full(len(along), np.inf)
    last = np.full(len(along), -np.inf)
    for pour, parts in touched:
        here = _near(parts, sawn.line, along)
        early, late = pour.clock.times(spots[here])
        first[here] = np.minimum(first[here], early)
        last[here] = np.maximum(last[here], late)
    known = np.isfinite(first)
    along, first, last = along[known], first[known], last[known]
    opens = np.array([curve.until_all(hours.opens, last) for curve in ageing.curves])
    closes = np.array([curve.until_all(hours.closes, first) for curve in ageing.curves])
    return LineWindow(
        sawn=sawn,
        pours=tuple(pour.id for pour, _ in touched),
        placed=(float(first.min()), float(last.max())),
        stations=Stations(along=along, opens=opens, closes=closes),
        opens=_span(opens.max(axis=1)),
        closes=_span(closes.min(axis=1)),
    )


def _span(times: Course) -> Span:
    early, likely, late = (float(time) for time in times)
    return Span(early=early, likely=likely, late=late)


def _within(pour: Pour, sawn: SawnLine) -> list[LineString]:
    """The parts of a line in or along a placement; a mere end in it is none."""
    if not pour.near.intersects(sawn.line):
        return []
    return [p for p in lines_of(sawn.line.intersection(pour.near)) if p.length > 4 * TOUCH]


def _near(parts: Sequence[LineString], line: LineString, along: Course) -> Flags:
    """Which stations of a line lie on its parts in a placement."""
    here = np.zeros(len(along), dtype=bool)
    for part in parts:
        ends = sorted(line.project(shapely.Point(part.coords[i])) for i in (0, -1))
        here |= (along >= ends[0] - 2 * TOUCH) & (along <= ends[1] + 2 * TOUCH)
    return here
