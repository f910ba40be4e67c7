"""The order: what was given is used, what was not is written down."""

import pytest

from kerfline.model.day import Concrete, Ledger
from kerfline.quantities.order import delivery, load_sizes, rounded_up, total
from kerfline.units import MM3_PER_YD3, Display

YARD = MM3_PER_YD3


def test_nothing_is_assumed_where_everything_is_given():
    """A full [day.concrete] leaves no assumption."""
    concrete = Concrete(
        allowance=0.05, truck=9 * YARD, rate=20 * YARD, cycle=1.0, discharge_limit=1.5
    )
    ledger = Ledger()
    delivery(20 * YARD, concrete, Display.FEET_INCHES, ledger)
    assert ledger.assumptions == []
    assert ledger.questions == []


def test_every_missing_value_is_written_down_once_with_its_source():
    """Five habits, however often they are taken."""
    ledger = Ledger()
    for _ in range(2):
        delivery(20 * YARD, Concrete(), Display.METRIC, ledger)
    keys = [a.text.rpartition("(")[2] for a in ledger.assumptions]
    assert keys == [
        "day.concrete.allowance)",
        "day.concrete.truck)",
        "day.concrete.rate)",
        "day.concrete.cycle)",
        "day.concrete.discharge_limit)",
    ]
    assert all(a.source and a.value for a in ledger.assumptions)


def test_earth_formed_parts_ask_for_a_larger_allowance():
    """5 % on a graded base, 10 % with edges formed by the earth."""
    flat, edged = (
        delivery(YARD, Concrete(), Display.FEET_INCHES, Ledger(), earth=earth)
        for earth in (0.0, 0.4 * YARD)
    )
    assert flat.share == pytest.approx(0.05)
    assert edged.share == pytest.approx(0.6 * 0.05 + 0.4 * 0.10)


@pytest.mark.parametrize(
    ("yards", "ordered"), [(21.726, 21.75), (21.75, 21.75), (21.7500001, 21.75), (21.76, 22.0)]
)
def test_orders_are_rounded_up_but_noise_is_not(yards, ordered):
    """A quarter yard at a time."""
    assert rounded_up(yards * YARD, YARD / 4) / YARD == pytest.approx(ordered)


def test_the_last_load_is_held_with_the_others_in_place():
    """The sentence tells the volume before it; a lone load is told otherwise."""
    concrete = Concrete(allowance=0.0, truck=10 * YARD)
    three = delivery(23 * YARD, concrete, Display.FEET_INCHES, Ledger())
    one = delivery(6 * YARD, concrete, Display.FEET_INCHES, Ledger())
    assert "16.50 yd3 in place" in three.hold(Display.FEET_INCHES)
    assert "6.50 yd3 as ordered" in three.hold(Display.FEET_INCHES)
    assert "are evened out, so that neither is a short load" in three.hold(Display.FEET_INCHES)
    assert one.hold(Display.FEET_INCHES).startswith("One load")


@pytest.mark.parametrize(
    ("yards", "sizes"),
    [
        (30, [10, 10, 10]),
        (20.5, [10, 5.25, 5.25]),
        (23, [10, 6.5, 6.5]),
        (24, [10, 10, 4]),
        (10.25, [5.25, 5]),
        (3, [3]),
    ],
)
def test_no_truck_comes_with_half_a_yard(yards, sizes):
    """A last load under 4 yd3 is shared with the one before; the sizes make the order, none over a truck."""
    found = load_sizes(yards * YARD, 10 * YARD, 4 * YARD, YARD / 4)
    assert [size / YARD for size in found] == pytest.approx(sizes)
    assert sum(found) == pytest.approx(yards * YARD)


def test_a_single_short_load_has_its_word():
    one = delivery(2 * YARD, Concrete(allowance=0.0), Display.FEET_INCHES, Ledger())
    assert "short load" in one.hold(Display.FEET_INCHES)


def test_the_total_is_the_sum_of_the_days():
    days = [delivery(v * YARD, Concrete(), Display.FEET_INCHES, Ledger()) for v in (22.1, 17.3)]
    whole = total(days)
    assert whole.loads == sum(d.loads for d in days)
    assert whole.ordered == pytest.approx(sum(d.ordered for d in days))
    assert whole.allowance == pytest.approx(sum(d.allowance for d in days))
