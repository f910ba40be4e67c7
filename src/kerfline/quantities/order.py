"""What to order: allowance apart, rounded up, in loads, with the time between trucks."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from kerfline.model.day import Concrete, Habit, Ledger
from kerfline.units import (
    MINUTES_PER_HOUR,
    MM3_PER_M3,
    MM3_PER_YD3,
    Display,
    format_volume,
)

QUARTER_YARD = MM3_PER_YD3 / 4
QUARTER_CUBIC_METRE = MM3_PER_M3 / 4
SHORT_LOAD_YARDS = 4 * MM3_PER_YD3
SHORT_LOAD_METRES = 3 * MM3_PER_M3
"""Loads below this cost extra at many plants and mix badly; common practice."""

ROUNDING = 1e-6
"""Share of a step by which a volume may exceed it and still be rounded down: noise, not concrete."""

PLAIN_ALLOWANCE = Habit(
    key="day.concrete.allowance",
    text="allowance over the net volume",
    amount=0.05,
    shown="5 %",
    source="home-improvement estimating handbook 2018, p. 42; NRMCA CIP 8 gives 4 to 10 %",
)
EDGE_ALLOWANCE = Habit(
    key="day.concrete.allowance",
    text="allowance over the net volume, thickened parts formed by earth",
    amount=0.10,
    shown="10 %",
    source="upper end of the 4 to 10 % of NRMCA CIP 8",
)
TRUCK_YARDS = Habit(
    key="day.concrete.truck", text="load of a truck", amount=10 * MM3_PER_YD3, shown="10 yd3"
)
TRUCK_METRES = Habit(
    key="day.concrete.truck", text="load of a truck", amount=7.5 * MM3_PER_M3, shown="7.5 m3"
)
PLACING_YARDS = Habit(
    key="day.concrete.rate", text="placing rate", amount=20 * MM3_PER_YD3, shown="20 yd3/h"
)
PLACING_METRES = Habit(
    key="day.concrete.rate", text="placing rate", amount=15 * MM3_PER_M3, shown="15 m3/h"
)
CYCLE = Habit(
    key="day.concrete.cycle", text="time of a truck from plant to plant", amount=1.5, shown="90 min"
)
DISCHARGE = Habit(
    key="day.concrete.discharge_limit",
    text="project's or producer's limit from batching to discharge",
    amount=1.5,
    shown="90 min",
    source="the fixed limit of older editions of ASTM C94; C94/C94M-21 leaves it to purchaser or producer",
)


@dataclass(frozen=True, kw_only=True)
class Delivery:
    """One day's order and how it arrives; volumes in mm3, times in hours.

    Attributes:
        net: Concrete in place.
        share: Allowance as a share of the net volume, that of the parts that the earth forms in it.
        gross: Net and allowance.
        ordered: Gross, rounded up to a quarter yard or cubic metre.
        truck: Load of one truck.
        sizes: What each truck carries if nothing changes, in their order.
        rate: Placing rate, mm3 per hour.
        interval: Time between trucks at the placing rate.
        ring: Trucks on the road at once to keep that interval.
        placing_time: From the first discharge to the last, order over rate.
        discharge_limit: Longest time from batching to discharge.
    """

    net: float
    share: float
    gross: float
    ordered: float
    truck: float
    sizes: tuple[float, ...]
    rate: float
    interval: float
    ring: int
    placing_time: float
    discharge_limit: float

    @property
    def allowance(self) -> float:
        """The allowance in mm3, shown apart from the net volume."""
        return self.gross - self.net

    @property
    def loads(self) -> int:
        """Number of loads."""
        return len(self.sizes)

    @property
    def last_load(self) -> float:
        """What the last truck carries if nothing changes."""
        return self.sizes[-1] if self.sizes else 0.0

    @property
    def shared(self) -> bool:
        """Whether the last two loads share what would leave a short one."""
        return self.loads > 1 and self.sizes[-2] < self.truck - ROUNDING * self.truck

    def hold(self, display: Display) -> str:
        """What to do about the last load."""
        if self.loads <= 1:
            short = (
                " Ask the plant what it charges for a short load." if self._short(display) else ""
            )
            return f"One load: measure forms and base once more before it is batched.{short}"
        before = self.ordered - self.last_load
        return (
            f"Hold the last load ({format_volume(self.last_load, display)} as ordered): with "
            f"{format_volume(before, display)} in place, measure what is left and call the balance."
            f"{' The last two loads are evened out, so that neither is a short load.' if self.shared else ''}"
        )

    def _short(self, display: Display) -> bool:
        return self.last_load < _short_load(display)


def delivery(
    net: float, concrete: Concrete, display: Display, ledger: Ledger, *, earth: float = 0.0
) -> Delivery:
    """The order for a net volume.

    Args:
        net: Concrete in place, mm3.
        concrete: What is known of it.
        display: Yards or cubic metres.
        ledger: Takes down what had to be assumed.
        earth: How much of it lies in edges, strips and pads that the earth forms (mm3), which take a larger
            allowance.
    """
    gross = net + _allowance(net, earth, concrete, ledger)
    yards = display is Display.FEET_INCHES
    truck = truck_load(concrete, display, ledger)
    rate = placing_rate(concrete, display, ledger)
    cycle = ledger.take(concrete.cycle, CYCLE)
    step = QUARTER_YARD if yards else QUARTER_CUBIC_METRE
    ordered = rounded_up(gross, step)
    interval = truck_interval(truck, rate)
    return Delivery(
        net=net,
        share=gross / net - 1 if net else 0.0,
        gross=gross,
        ordered=ordered,
        truck=truck,
        sizes=load_sizes(ordered, truck, _short_load(display), step),
        rate=rate,
        interval=interval,
        ring=max(1, math.ceil(cycle / interval - ROUNDING)),
        placing_time=ordered / rate,
        discharge_limit=ledger.take(concrete.discharge_limit, DISCHARGE),
    )


def total(orders: Sequence[Delivery]) -> Delivery:
    """All days' orders as one: what is ordered is ordered day by day, and so are its trucks."""
    net, gross = sum(o.net for o in orders), sum(o.gross for o in orders)
    return replace(
        orders[0],
        net=net,
        share=gross / net - 1 if net else 0.0,
        gross=gross,
        ordered=sum(o.ordered for o in orders),
        sizes=tuple(size for o in orders for size in o.sizes),
        placing_time=sum(o.placing_time for o in orders),
    )


def _allowance(net: float, earth: float, concrete: Concrete, ledger: Ledger) -> float:
    """The allowance (mm3): each habit on what it is meant for, a share that is given on all of it."""
    if concrete.allowance is not None:
        return net * concrete.allowance
    plain = (net - earth) * ledger.take(None, PLAIN_ALLOWANCE)
    return plain + (earth * ledger.take(None, EDGE_ALLOWANCE) if earth else 0.0)


def _short_load(display: Display) -> float:
    return SHORT_LOAD_YARDS if display is Display.FEET_INCHES else SHORT_LOAD_METRES


def load_sizes(volume: float, truck: float, short: float, step: float) -> tuple[float, ...]:
    """What each truck carries: full ones, and a last one that is not too short.

    Args:
        volume: What is ordered.
        truck: Load of a truck.
        short: A last load below this is shared with the one before.
        step: Loads are ordered in whole steps.
    """
    count = load_count(volume, truck)
    if count <= 1:
        return (volume,) * count
    last = volume - truck * (count - 1)
    if last >= short * (1 - ROUNDING):
        return (*(truck,) * (count - 1), last)
    first = rounded_up((truck + last) / 2, step)
    return (*(truck,) * (count - 2), first, truck + last - first)


def placing_rate(concrete: Concrete, display: Display, ledger: Ledger) -> float:
    """The placing rate, mm3 per hour, a habit where none is given."""
    habit = PLACING_YARDS if display is Display.FEET_INCHES else PLACING_METRES
    return ledger.take(concrete.rate, habit)


def truck_load(concrete: Concrete, display: Display, ledger: Ledger) -> float:
    """Load of a truck, mm3, a habit where none is given."""
    habit = TRUCK_YARDS if display is Display.FEET_INCHES else TRUCK_METRES
    return ledger.take(concrete.truck, habit)


def rounded_up(volume: float, step: float) -> float:
    """A volume rounded up to whole steps."""
    return math.ceil(volume / step - ROUNDING) * step


def load_count(volume: float, truck: float) -> int:
    """Trucks that a volume takes."""
    return math.ceil(volume / truck - ROUNDING)


def truck_interval(truck: float, rate: float) -> float:
    """Hours between trucks that keep a placing rate."""
    return truck / rate


def minutes(hours: float) -> str:
    """A time as whole minutes."""
    return f"{hours * MINUTES_PER_HOUR:.0f} min"


def coverage(thickness: float, volume: float = MM3_PER_YD3) -> float:
    """Area (mm2) that a volume covers at a thickness (mm)."""
    return volume / thickness


def shortfall(extra_depth: float, thickness: float) -> float:
    """Share by which the concrete runs short where the base lies too low by a depth (mm)."""
    return extra_depth / thickness
