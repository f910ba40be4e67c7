"""How temperature moves setting and finishing: maturity.

Three ways to say how much faster concrete ages at one temperature than at the reference:

* ``halving``: the time halves for every 20 °F (11.1 K) more and doubles for every 20 °F less; National
  Frame Building Association magazine, October 2020, p. 17, citing ACI 305R and 306R.
* ``equivalent-age``: Arrhenius, ASTM C1074; Q = 5000 K and 23 °C by memory, both editable.
* ``nurse-saul``: linear above a datum temperature, ASTM C1074; poor for setting in heat.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from kerfline.geometry.arrays import Numbers
from kerfline.model.day import Finish, Habit, Ledger, MixSetting, SettingRule
from kerfline.units import celsius

Course = Numbers
"""Values along the clock."""

HALVING_STEP = 20 / 1.8
"""Kelvin that halve or double the time."""

KELVIN = 273.15
STEP = 0.05
"""Step (hours) of the sum over a changing temperature."""

LONGEST = 240.0
"""Hours after which a sum that has not come to its end is given up: it is too cold to set."""

SET_SOURCE = "question-and-answer page with a trade table of setting times (6 h at 70 °F)"
INITIAL_SET = Habit(
    key="day.setting.initial_set",
    text="initial set at the reference temperature",
    amount=4.0,
    shown="4 h, two thirds of the 6 h in which concrete has set",
    source=SET_SOURCE,
)
FLOATING = Habit(
    key="day.setting.floating",
    text="from placing until the concrete has bled and takes float or broom, at the reference temperature",
    amount=2.75,
    shown="2 3/4 h: no bleed water, a footprint of 1/4 in (6 mm) at most",
    source="ASCC Position Statement 15: what contractors wait for at 70 °F",
)
FINISHED = {Finish.FLOAT: 3.0, Finish.BROOM: 3.0, Finish.TROWEL: 5.0}
"""Hours from placing to the end of finishing at the reference temperature; common practice. A float or a
broom is done while the concrete is plastic, a trowel passes over it until after initial set."""

REFERENCE = Habit(
    key="day.setting.reference",
    text="reference temperature of setting",
    amount=celsius(70),
    shown="70 °F (21 °C)",
    source=SET_SOURCE,
)
ACTIVATION = Habit(
    key="day.setting.activation",
    text="activation energy over the gas constant",
    amount=5000.0,
    shown="5000 K",
    source="ASTM C1074 (from memory)",
)
DATUM = Habit(
    key="day.setting.datum",
    text="datum temperature",
    amount=0.0,
    shown="0 °C",
    source="ASTM C1074, Type I without admixtures (from memory)",
)


@dataclass(frozen=True, kw_only=True)
class Setting:
    """How one mix sets, everything known.

    Attributes:
        initial_set: Hours from placing to initial set at the reference temperature.
        finishing: Hours from placing to the end of finishing there.
        reference: Degrees Celsius.
        finish: How the surface is finished.
        floating: Hours from placing until it has bled there and takes the float or the broom.
        shift: Hours by which an admixture puts all of this off, below 0 where it brings it forward.
        rule: How temperature moves them.
        activation: Kelvin, for ``equivalent-age``.
        datum: Degrees Celsius, for ``nurse-saul``.
    """

    initial_set: float
    finishing: float
    reference: float
    rule: SettingRule
    finish: Finish = Finish.TROWEL
    floating: float = FLOATING.amount
    shift: float = 0.0
    activation: float = ACTIVATION.amount
    datum: float = DATUM.amount

    def speeds(self, temperatures: Course) -> Course:
        """How many reference hours pass in one hour at each of some temperatures (degrees Celsius)."""
        if self.rule is SettingRule.HALVING:
            return halving_speeds(temperatures, self.reference)
        if self.rule is SettingRule.EQUIVALENT_AGE:
            return age_speeds(temperatures, self.reference, self.activation)
        return np.maximum(0.0, temperatures - self.datum) / (self.reference - self.datum)


def setting_of(mix: MixSetting, ledger: Ledger) -> Setting:
    """How the mix sets, habits taken where the job file says nothing."""
    rule = mix.rule or SettingRule.HALVING
    if mix.rule is None:
        ledger.note(
            "how temperature moves setting (day.setting.rule)",
            "halves for every 20 °F (11 °C) more",
            "National Frame Building Association magazine, October 2020, p. 17",
        )
    reference = ledger.take(mix.reference, REFERENCE)
    finish = mix.finish or Finish.TROWEL
    if mix.finish is None and mix.finishing is None:
        ledger.ask("How is the surface finished? Give day.setting.finish: float, broom or trowel.")
        ledger.note("finish (day.setting.finish)", "troweled", "a stopgap")
    shift = mix.shift
    if shift:
        way, source = ("later", "retarder") if shift > 0 else ("sooner", "accelerator")
        ledger.note(
            f"setting, finishing and cutting {way} by the {source}",
            f"{abs(shift):g} h at the reference temperature",
            "as given: the admixture's own data and a trial on the day",
        )
    finishing = _shifted(ledger.take(mix.finishing, _finishing(finish)), shift)
    floating = min(_shifted(ledger.take(mix.floating, FLOATING), shift), finishing)
    arrhenius, linear = rule is SettingRule.EQUIVALENT_AGE, rule is SettingRule.NURSE_SAUL
    return Setting(
        initial_set=_shifted(ledger.take(mix.initial_set, INITIAL_SET), shift),
        finish=finish,
        floating=floating,
        finishing=finishing,
        shift=shift,
        reference=reference,
        rule=rule,
        activation=ledger.take(mix.activation, ACTIVATION) if arrhenius else ACTIVATION.amount,
        datum=ledger.take(mix.datum, DATUM) if linear else DATUM.amount,
    )


LEAST_HOURS = 0.5
"""Hours below which no admixture brings setting or finishing."""


def _shifted(hours: float, shift: float) -> float:
    return max(LEAST_HOURS, hours + shift)


def _finishing(finish: Finish) -> Habit:
    hours = FINISHED[finish]
    return Habit(
        key="day.setting.finishing",
        text=f"from placing to the end of finishing ({finish.value}) at the reference temperature",
        amount=hours,
        shown=f"{hours:g} h",
    )


def halving_speeds(temperatures: Course, reference: float) -> Course:
    """Speeds by the halving rule."""
    return np.exp2((temperatures - reference) / HALVING_STEP)


def age_speeds(temperatures: Course, reference: float, activation: float) -> Course:
    """Speeds by the Arrhenius form of equivalent age."""
    return np.exp(-activation * (1 / (temperatures + KELVIN) - 1 / (reference + KELVIN)))


@dataclass(frozen=True, kw_only=True)
class AgeCurve:
    """Reference hours that have passed at every clock hour, at one course of temperature."""

    clock: Course
    age: Course

    @staticmethod
    def of(
        temperature: Callable[[Course], Course],
        setting: Setting,
        start: float,
        end: float,
        factor: float = 1.0,
    ) -> "AgeCurve":
        """The curve between two clock hours and ten days on.

        Args:
            temperature: Of the concrete at clock hours, degrees Celsius.
            setting: How the mix sets.
            start: Clock hours of the first concrete.
            end: Clock hours of the last.
            factor: On the speed, for the bounds of what is likely.
        """
        count = math.ceil((end - start + LONGEST) / STEP)
        clock = np.linspace(start, start + STEP * count, count + 1, dtype=np.float64)
        speeds = setting.speeds(temperature(clock[:-1] + STEP / 2))
        age = np.concatenate([np.zeros(1), np.cumsum(speeds * factor * STEP)])
        return AgeCurve(clock=clock, age=age)

    def until(self, age: float, start: float) -> float:
        """Clock hours at which so many reference hours have passed since a start; infinite if never."""
        return float(self.until_all(age, np.array([start]))[0])

    def until_all(self, age: float, starts: Course) -> Course:
        """The same for several starts at once."""
        goals = np.interp(starts, self.clock, self.age) + age
        times: Course = np.interp(goals, self.age, self.clock, right=math.inf)
        return times

    def age_between(self, start: float, end: float) -> float:
        """Reference hours that pass between two clock hours."""
        first, last = np.interp([start, end], self.clock, self.age)
        return float(last - first)
