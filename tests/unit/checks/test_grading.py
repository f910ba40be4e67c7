"""How far a measure lies beyond a figure, and what that is called."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.checks.grading import Held, above, below, worst_held
from kerfline.model.finding import Severity
from kerfline.rules.limits import Figure, Source

BOUND, ADVICE = Source(publication="bound"), Source(publication="advice")
GREATEST = Figure(advised=3000.0, bound=4000.0, source=BOUND, advised_source=ADVICE)
LEAST = Figure(advised=75.0, bound=60.0, source=BOUND, advised_source=ADVICE)


def told(grade):
    return grade and (grade.severity, grade.limit, grade.source, grade.error)


WARNED = (Severity.WARNING, 3000.0, ADVICE, False)
BROKEN = (Severity.ERROR, 4000.0, BOUND, True)


@pytest.mark.parametrize(
    ("value", "found"),
    [
        (2000.0, None),
        (3000.5, None),
        (3000.6, WARNED),
        (4000.5, WARNED),
        (4000.6, BROKEN),
    ],
)
def test_a_greatest_value_is_kept_up_to_its_slack(value, found):
    assert told(above(value, GREATEST, 0.5)) == found


@pytest.mark.parametrize(
    ("value", "severity", "limit"),
    [
        (90.0, None, None),
        (74.95, None, None),
        (74.94, Severity.WARNING, 75.0),
        (59.95, Severity.WARNING, 75.0),
        (59.94, Severity.ERROR, 60.0),
    ],
)
def test_a_least_value_is_kept_down_to_its_slack(value, severity, limit):
    grade = below(value, LEAST, 0.05)
    assert (grade and grade.severity, grade and grade.limit) == (severity, limit)


@given(st.floats(0, 200), st.floats(0, 200), st.floats(0, 100), st.floats(0, 5))
def test_least_and_greatest_mirror_each_other(value, bound, apart, slack):
    high = Figure(advised=bound - apart, bound=bound, source=BOUND)
    low = Figure(advised=apart - bound, bound=-bound, source=BOUND)
    over, under = above(value, high, slack), below(-value, low, slack)
    assert (over and over.severity) == (under and under.severity)


def test_the_share_of_the_bound_that_is_used():
    assert Held(value=3000.0, figure=GREATEST).use == 0.75
    assert Held(value=80.0, figure=LEAST, greatest=False).use == 0.75
    assert Held(value=0.0, figure=LEAST, greatest=False).use == math.inf


def test_the_worst_is_nearest_to_breaking_its_figure_and_the_first_of_equals():
    near = Held(value=50.0, figure=LEAST, greatest=False)
    far, twin = Held(value=4400.0, figure=GREATEST), Held(value=4400.0, figure=GREATEST)
    assert worst_held([far, near]) is near
    assert worst_held([far, twin]) is far
    assert worst_held([]) is None
