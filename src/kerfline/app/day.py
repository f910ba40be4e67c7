"""Plans the placement day: quantities and placement, put together."""

from collections.abc import Sequence
from dataclasses import replace

from kerfline.app.day_choices import day_choices
from kerfline.model.day import DayInput, Ledger
from kerfline.model.layout import Layout
from kerfline.model.slab import Slab
from kerfline.placement.front import STOP
from kerfline.placement.plan import PlacementPlan, Supply, plan_placement
from kerfline.placement.pour_hours import FINISHED_IN_AN_HOUR
from kerfline.placement.pour_order import Pour
from kerfline.quantities.concrete import ConcreteBody, concrete_body
from kerfline.quantities.costs import Amounts, cost_rows
from kerfline.quantities.order import (
    Delivery,
    delivery,
    placing_rate,
    total,
    truck_interval,
    truck_load,
)
from kerfline.quantities.take_off import TakeOff, take_off
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.day.day_plan import DayOrder, DayPlan
from kerfline.units import Display


def plan_day(
    slab: Slab, layout: Layout, rules: SlabRules, day: DayInput, display: Display, *, job: str = ""
) -> DayPlan:
    """Works the placement day out.

    Args:
        slab: What is given.
        layout: Its joints and panels; construction joints part the placements (``placed_layout``).
        rules: For the depth and method of the cuts.
        day: What is known of the day; what is missing is assumed in plain sight or asked for.
        display: Feet and yards, or metres.
        job: Name of the job.

    Raises:
        InputRefused: A weather reading or a choice that cannot be meant.
    """
    ledger = Ledger(display=display)
    body = concrete_body(slab)
    rate = placing_rate(day.concrete, display, ledger)
    truck = truck_load(day.concrete, display, ledger)
    supply = Supply(rate=rate, interval=truck_interval(truck, rate), volume_of=body.volume)
    placement = plan_placement(slab, layout, rules, day, supply, display, ledger)
    orders = _orders(placement, body, day, display, ledger)
    order = total([today.delivery for today in orders])
    rows = take_off(slab, layout, day, body, order, display, ledger)
    costs = cost_rows(_amounts(slab, placement, rows, order), day.prices)
    return DayPlan(
        job=job,
        day=day,
        thickness=slab.thickness,
        body=body,
        order=order,
        orders=orders,
        placement=placement,
        take_off=replace(rows, rows=(*rows.rows, *costs)),
        choices=day_choices(slab, layout, day, body, len(placement.pours.pours)),
        assumptions=tuple(ledger.assumptions),
        questions=tuple(ledger.questions),
    )


def _orders(
    placement: PlacementPlan, body: ConcreteBody, day: DayInput, display: Display, ledger: Ledger
) -> tuple[DayOrder, ...]:
    """The order of each day, or of each run of placements where a day has a pause between them."""
    out = []
    for run in _runs(placement.pours.pours):
        net = sum(body.volume(p.area) for p in run)
        earth = sum(body.below_slab(p.area) for p in run)
        taken = delivery(net, day.concrete, display, ledger, earth=earth)
        out.append(DayOrder(day=run[0].day, pours=tuple(p.id for p in run), delivery=taken))
    return tuple(out)


def _runs(pours: Sequence[Pour]) -> list[list[Pour]]:
    """Placements that follow one another without a stop: no truck waits over a pause with half its load."""
    out: list[list[Pour]] = []
    for pour in pours:
        if out and out[-1][-1].day == pour.day and pour.start - out[-1][-1].end < STOP:
            out[-1].append(pour)
        else:
            out.append([pour])
    return out


def _amounts(slab: Slab, placement: PlacementPlan, rows: TakeOff, order: Delivery) -> Amounts:
    """What prices are held against."""
    hours = placement.hours
    return Amounts(
        concrete=order.ordered,
        bulkhead=rows.construction,
        sawn=rows.sawn,
        area=float(slab.concrete.area),
        days=max(h.pour.day for h in hours),
        saw_hours=placement.cutting.hours,
        finisher_hours=sum(float(h.pour.area.area) for h in hours) / FINISHED_IN_AN_HOUR,
    )
