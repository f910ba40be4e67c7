"""What to order: allowance apart, rounded up, in loads, with the time between trucks."""

import math
from dataclasses import dataclass

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
        share: Allowance as a share of the net volume.
        gross: Net and allowance.
        ordered: Gross, rounded up to a quarter yard or cubic metre.
        truck: Load of one truck.
        loads: Number of loads.
        last_load: What the last truck carries if nothing changes.
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
    loads: int
    last_load: float
    rate: float
    interval: float
    ring: int
    placing_time: float
    discharge_limit: float

    @property
    def allowance(self) -> float:
        """The allowance in mm3, shown apart from the net volume."""
        return self.gross - self.net

    def hold(self, display: Display) -> str:
        """What to do about the last load."""
        if self.loads <= 1:
            return "One load: measure forms and base once more before it is batched."
        before = self.truck * (self.loads - 1)
        return (
            f"Hold the last load ({format_volume(self.last_load, display)} as ordered): with "
            f"{format_volume(before, display)} in place, measure what is left and call the balance."
        )


def delivery(
    net: float, concrete: Concrete, display: Display, ledger: Ledger, *, earth_formed: bool
) -> Delivery:
    """The order for a net volume.

    Args:
        net: Concrete in place, mm3.
        concrete: What is known of it.
        display: Yards or cubic metres.
        ledger: Takes down what had to be assumed.
        earth_formed: Whether edges, strips or pads are part of it, which asks for a larger allowance.
    """
    share = ledger.take(concrete.allowance, EDGE_ALLOWANCE if earth_formed else PLAIN_ALLOWANCE)
    yards = display is Display.FEET_INCHES
    truck = ledger.take(concrete.truck, TRUCK_YARDS if yards else TRUCK_METRES)
    rate = placing_rate(concrete, display, ledger)
    cycle = ledger.take(concrete.cycle, CYCLE)
    gross = net * (1 + share)
    ordered = rounded_up(gross, QUARTER_YARD if yards else QUARTER_CUBIC_METRE)
    loads = load_count(ordered, truck)
    interval = truck_interval(truck, rate)
    return Delivery(
        net=net,
        share=share,
        gross=gross,
        ordered=ordered,
        truck=truck,
        loads=loads,
        last_load=ordered - truck * (loads - 1) if loads else 0.0,
        rate=rate,
        interval=interval,
        ring=max(1, math.ceil(cycle / interval - ROUNDING)),
        placing_time=ordered / rate,
        discharge_limit=ledger.take(concrete.discharge_limit, DISCHARGE),
    )


def placing_rate(concrete: Concrete, display: Display, ledger: Ledger) -> float:
    """The placing rate, mm3 per hour, a habit where none is given."""
    habit = PLACING_YARDS if display is Display.FEET_INCHES else PLACING_METRES
    return ledger.take(concrete.rate, habit)


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
