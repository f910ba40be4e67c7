"""What was not given is taken from a habit and written down, or asked; once."""

import pytest

from kerfline.model.day import Assumption, Habit, Ledger
from kerfline.units import Display, round_figure

TRUCK = Habit.of("day.concrete.truck", "truck load", round_figure(10, "yd3"))
DATUM = Habit(key="day.setting.datum", text="datum", amount=0.0, shown="0 °C", source="a standard")


def test_a_given_value_is_taken_without_a_word():
    ledger = Ledger()
    assert ledger.take(7.0, TRUCK) == 7.0
    assert ledger.take(0.0, TRUCK) == 0.0
    assert ledger.assumptions == []


@pytest.mark.parametrize(
    ("display", "amount", "shown"),
    [(Display.FEET_INCHES, 10 * 914.4**3, "10 yd3"), (Display.METRIC, 7.6e9, "7.6 m3")],
)
def test_a_missing_one_is_the_habits_round_figure_of_the_jobs_units_and_is_noted(
    display, amount, shown
):
    ledger = Ledger(display=display)
    assert ledger.take(None, TRUCK) == pytest.approx(amount)
    noted = Assumption(
        text="truck load (day.concrete.truck)", value=shown, source="common practice"
    )
    assert ledger.assumptions == [noted]


def test_a_habit_of_one_figure_is_the_same_in_every_unit():
    ledger = Ledger(display=Display.METRIC)
    assert ledger.take(None, DATUM) == 0.0
    assert ledger.assumptions[0].value == "0 °C"
    assert ledger.assumptions[0].source == "a standard"


def test_what_is_assumed_or_asked_twice_stands_once_in_the_order_it_came():
    ledger = Ledger()
    for habit in (TRUCK, DATUM, TRUCK):
        ledger.take(None, habit)
    for question in ("How warm?", "How thick?", "How warm?"):
        ledger.ask(question)
    assert [a.text.split()[0] for a in ledger.assumptions] == ["truck", "datum"]
    assert ledger.questions == ["How warm?", "How thick?"]


def test_the_same_thing_with_another_value_is_another_assumption():
    ledger = Ledger()
    ledger.note("wind", "times 0.5", "a book")
    ledger.note("wind", "times 0.6", "a book")
    assert len(ledger.assumptions) == 2


def test_ledgers_share_nothing():
    Ledger().ask("How warm?")
    assert Ledger().questions == []
