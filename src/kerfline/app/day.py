"""Plans the placement day: quantities and placement, put together."""

from kerfline.model.day import DayInput, Ledger
from kerfline.model.layout import Layout
from kerfline.model.slab import EdgeKind, Slab
from kerfline.placement.plan import PlacementPlan, Supply, plan_placement
from kerfline.quantities.concrete import ConcreteBody, concrete_body
from kerfline.quantities.order import delivery
from kerfline.quantities.take_off import take_off
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
    ledger = Ledger()
    body = concrete_body(slab)
    order = delivery(body.volume(), day.concrete, display, ledger, earth_formed=_earth_formed(slab))
    supply = Supply(rate=order.rate, interval=order.interval, volume_of=body.volume)
    placement = plan_placement(slab, layout, rules, day, supply, display, ledger)
    rows = take_off(slab, layout, day, body, order, display, ledger)
    return DayPlan(
        job=job,
        day=day,
        thickness=slab.thickness,
        body=body,
        order=order,
        orders=_orders(placement, body, day, display, slab),
        placement=placement,
        take_off=rows,
        assumptions=tuple(ledger.assumptions),
        questions=tuple(ledger.questions),
    )


def _earth_formed(slab: Slab) -> bool:
    """Whether anything below the slab is formed by the earth."""
    edges = any(e.kind is EdgeKind.TURNDOWN and e.depth > slab.thickness for e in slab.edges)
    strips = any(w.bearing and w.strip_depth > slab.thickness for w in slab.walls)
    return edges or strips or any(z.thickness > slab.thickness for z in slab.zones)


def _orders(
    placement: PlacementPlan, body: ConcreteBody, day: DayInput, display: Display, slab: Slab
) -> tuple[DayOrder, ...]:
    """The order of each day; habits are those of the whole order and written down with it."""
    out = []
    pours = placement.pours.pours
    for number in sorted({p.day for p in pours}):
        today = [p for p in pours if p.day == number]
        net = sum(body.volume(p.area) for p in today)
        taken = delivery(net, day.concrete, display, Ledger(), earth_formed=_earth_formed(slab))
        out.append(DayOrder(day=number, pours=tuple(p.id for p in today), delivery=taken))
    return tuple(out)
