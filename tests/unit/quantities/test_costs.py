"""What the day costs: amounts times the job's own prices."""

import pytest

from kerfline.model.day import Prices
from kerfline.quantities.costs import Amounts, cost_rows

AMOUNTS = Amounts(
    concrete=2e10,
    bulkhead=3000.0,
    sawn=5000.0,
    area=7e8,
    days=2,
    saw_hours=11.0,
    finisher_hours=13.0,
)


def costs(**prices):
    return {r.item: r.amount for r in cost_rows(AMOUNTS, Prices(currency="USD", **prices))}


def test_where_no_price_is_given_nothing_is_priced():
    assert cost_rows(AMOUNTS, Prices(currency="USD")) == []


@pytest.mark.parametrize(
    ("price", "item", "amount"),
    [
        ("concrete", "concrete as ordered", 2e10),
        ("bulkhead", "bulkheads with their dowels", 3000.0),
        ("sawing", "sawing, by length", 5000.0),
        ("saw_hour", "sawing, by the hour", 11.0),
        ("finisher_hour", "finishing, by the hour", 13.0),
        ("curing", "curing", 7e8),
        ("day", "days on site", 2.0),
    ],
)
def test_a_price_makes_its_own_row_and_the_sum(price, item, amount):
    assert costs(**{price: 0.5}) == {item: amount / 2, "in all": amount / 2}


def test_the_sum_is_of_all_that_is_priced():
    """By hand: 2 days at 100, 11 hours at 20 and 5000 mm at 0.01 are 200, 220 and 50."""
    found = costs(day=100.0, saw_hour=20.0, sawing=0.01)
    assert found["in all"] == pytest.approx(470.0)
    assert list(found)[-1] == "in all"
    assert len(found) == 4


def test_a_price_of_nothing_is_a_price():
    assert costs(day=0.0) == {"days on site": 0.0, "in all": 0.0}


def test_amounts_are_shown_in_the_jobs_currency_to_the_cent():
    (days, _) = cost_rows(AMOUNTS, Prices(currency="CAD", day=1234.5))
    assert days.shown == "2,469.00 CAD"
