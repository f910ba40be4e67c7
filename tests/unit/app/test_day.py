"""A placement day planned: orders, totals and costs that agree with each other."""

from dataclasses import replace

import pytest

from kerfline.app.day import plan_day
from kerfline.model.day import DayInput, Prices
from kerfline.units import MM3_PER_YD3, MM_PER_FOOT, Display
from parted import RULES, parted_day, parted_outcome
from shapes import workshop_layout, workshop_slab

SLAB = workshop_slab()


def planned(day):
    return plan_day(SLAB, workshop_layout(), RULES, day, Display.FEET_INCHES, job="Workshop")


def test_the_concrete_of_a_slab_4_in_thick_is_its_area_times_a_third_of_a_foot():
    plan = planned(DayInput())
    assert plan.body.volume() / MM3_PER_YD3 == pytest.approx(
        SLAB.concrete.area / MM_PER_FOOT**2 / 3 / 27
    )
    assert plan.order.net == pytest.approx(plan.body.volume())
    assert plan.order.ordered > plan.order.net
    assert (plan.job, plan.thickness) == ("Workshop", SLAB.thickness)


def test_each_order_is_a_part_of_the_whole_and_no_placement_is_without():
    plan = parted_day(parted_outcome())
    assert len(plan.placement.pours.pours) == 3
    named = [name for order in plan.orders for name in order.pours]
    assert named == [pour.id for pour in plan.placement.pours.pours]
    assert sum(o.delivery.net for o in plan.orders) == pytest.approx(plan.body.volume())
    assert sum(o.delivery.ordered for o in plan.orders) == pytest.approx(plan.order.ordered)


def test_placements_of_several_days_are_never_one_order():
    plan = parted_day(parted_outcome())
    day_of = {pour.id: pour.day for pour in plan.placement.pours.pours}
    for order in plan.orders:
        assert {day_of[name] for name in order.pours} == {order.day}


def test_prices_add_what_they_come_to_and_change_nothing_else():
    """Concrete at 200 a cubic yard as ordered, curing at a tenth a square foot, and their sum."""
    bare = planned(DayInput()).take_off.rows
    prices = Prices(currency="USD", concrete=200 / MM3_PER_YD3, curing=0.1 / MM_PER_FOOT**2)
    plan = planned(DayInput(prices=prices))
    rows = plan.take_off.rows
    concrete, curing, whole = rows[len(bare) :]
    assert rows[: len(bare)] == bare
    assert concrete.amount == pytest.approx(200 * plan.order.ordered / MM3_PER_YD3)
    assert curing.amount == pytest.approx(0.1 * SLAB.concrete.area / MM_PER_FOOT**2)
    assert whole.amount == pytest.approx(concrete.amount + curing.amount)
    assert replace(plan, day=DayInput(), take_off=replace(plan.take_off, rows=bare)).order == (
        planned(DayInput()).order
    )
