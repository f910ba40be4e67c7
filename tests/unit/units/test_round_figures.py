"""Figures of the trade, round in feet and yards, and round again in metric."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.units import round_figure


@pytest.mark.parametrize(
    ("number", "unit", "feet", "metric"),
    [
        (30, "yd3", "30 yd3", "23 m3"),
        (4000, "ft2", "4,000 ft2", "370 m2"),
        (16, "ft", "16 ft", "4.9 m"),
        (3, "ft", "3 ft", "0.91 m"),
        (2000, "ft", "2,000 ft", "610 m"),
        (14, "in", "14 in", "350 mm"),
        (6, "in", "6 in", "150 mm"),
        (0.5, "in", "0.5 in", "50 mm"),
    ],
)
def test_a_figure_of_the_trade_is_round_in_either_unit(number, unit, feet, metric):
    """By hand: the metric figure to two digits, a size in inches to whole 50 mm."""
    figure = round_figure(number, unit)
    assert (figure.customary_words, figure.metric_words) == (feet, metric)
    amount = float(metric.split()[0])
    scale = {"m": 1e3, "m2": 1e6, "m3": 1e9, "mm": 1.0}[metric.split()[1]]
    assert figure.metric == pytest.approx(amount * scale)


@pytest.mark.parametrize(
    ("number", "metric"),
    [(0.1, "50 mm"), (2.9, "50 mm"), (3, "100 mm"), (4.9, "100 mm"), (5, "150 mm")],
)
def test_a_blade_goes_to_the_nearest_50_mm_and_never_to_none(number, metric):
    """By hand: 2.9 in are 73.7 mm and 3 in 76.2 mm, on either side of 75; 4.9 in are 124.5 and 5 in 127 mm."""
    assert round_figure(number, "in").metric_words == metric


@given(st.floats(0.01, 1e6))
def test_the_metric_figure_lies_within_half_of_its_second_digit(feet):
    """At most 5 in 101 off, as for 10.05 rounded to 10."""
    figure = round_figure(feet, "ft")
    assert figure.customary == pytest.approx(feet * 304.8)
    assert abs(figure.metric - figure.customary) <= figure.customary * 0.05
