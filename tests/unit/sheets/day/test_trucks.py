"""The trucks of a day by the clock."""

from itertools import pairwise

import pytest

from kerfline.sheets.day.trucks import trucks
from parted import parted_day, parted_outcome

PLAN = parted_day(parted_outcome())


def test_every_load_comes_once_and_none_waits_for_the_one_before():
    loads = trucks(PLAN)
    assert sum(t.size for t in loads) == pytest.approx(PLAN.order.ordered)
    for before, after in pairwise(loads):
        if before.day == after.day:
            assert after.number == before.number + 1
            assert after.discharge >= before.done - 1e-9
        else:
            assert after.number == 1


def test_a_truck_is_empty_after_its_load_at_the_placing_rate():
    rate = PLAN.order.rate
    for truck in trucks(PLAN):
        if len(truck.pours) == 1:
            assert truck.done - truck.discharge == pytest.approx(truck.size / rate)


def test_no_truck_is_batched_longer_before_it_is_empty_than_its_limit():
    limits = {o.day: o.delivery.discharge_limit for o in PLAN.orders}
    for truck in trucks(PLAN):
        assert truck.done - truck.batched == pytest.approx(limits[truck.day])


def test_a_placement_begins_with_a_truck():
    starts = {p.id: p.start for p in PLAN.placement.pours.pours}
    loads = trucks(PLAN)
    for order in PLAN.orders:
        first = next(t for t in loads if order.pours[0] in t.pours)
        assert first.discharge == pytest.approx(starts[order.pours[0]])
