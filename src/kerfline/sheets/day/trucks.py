"""The trucks of a day by the clock."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from kerfline.placement.pour_order import Pour
from kerfline.sheets.day.day_plan import DayOrder, DayPlan


@dataclass(frozen=True, kw_only=True)
class Truck:
    """One load.

    Attributes:
        number: From 1 on each day.
        day: Day of placing, from 1.
        pours: Ids of the placements that it serves.
        size: What it carries if nothing changes, mm3.
        discharge: Clock hours at which it begins to discharge.
        done: Clock hours at which it is empty at the placing rate.
        batched: Clock hours before which it must not be batched, for its limit on discharge.
    """

    number: int
    day: int
    pours: tuple[str, ...]
    size: float
    discharge: float
    done: float
    batched: float


@dataclass(frozen=True, kw_only=True)
class _Stretch:
    """Concrete of one placement as it is ordered: from when it is discharged, and how much there is."""

    pour: str
    start: float
    volume: float


def trucks(plan: DayPlan) -> tuple[Truck, ...]:
    """Every load of every day in order, each discharging when the one before is empty.

    The allowance is shared out over the placements, so that the last truck ends a little after the
    placing of the net volume would.
    """
    pours = {pour.id: pour for pour in plan.placement.pours.pours}
    out: list[Truck] = []
    for today in plan.orders:
        before = sum(truck.day == today.day for truck in out)
        out.extend(_of_order(today, [pours[name] for name in today.pours], before))
    return tuple(out)


def _of_order(today: DayOrder, pours: list[Pour], came: int) -> Iterator[Truck]:
    """The trucks of one order, numbered after those that came before it on the day."""
    order = today.delivery
    stretches = list(_stretches(today, pours))
    before = 0.0
    for number, size in enumerate(order.sizes, came + 1):
        start, first = _clock(before, stretches, order.rate, later=True)
        done, last = _clock(before + size, stretches, order.rate, later=False)
        before += size
        yield Truck(
            number=number,
            day=today.day,
            pours=tuple(each.pour for each in stretches[first : last + 1]),
            size=size,
            discharge=start,
            done=done,
            batched=done - order.discharge_limit,
        )


def _stretches(today: DayOrder, pours: list[Pour]) -> Iterator[_Stretch]:
    order = today.delivery
    free = -math.inf
    for pour in pours:
        volume = pour.volume * order.ordered / order.net
        start = max(free, pour.start)
        yield _Stretch(pour=pour.id, start=start, volume=volume)
        free = start + volume / order.rate


def _clock(
    placed: float, stretches: list[_Stretch], rate: float, *, later: bool
) -> tuple[float, int]:
    """When so much of a day's order is discharged, and in which stretch; between two, of either."""
    left = placed
    for index, each in enumerate(stretches[:-1]):
        through = math.isclose(left, each.volume, rel_tol=1e-9)
        if (left < each.volume and not through) or (through and not later):
            return each.start + left / rate, index
        left = max(0.0, left - each.volume)
    return stretches[-1].start + left / rate, len(stretches) - 1
