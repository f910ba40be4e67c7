"""CSA A23.1-94, 20.2, as quoted: 24 to 36 times the thickness, 5 m at most; cuts t/4 to t/3 (20.2.1)."""

import pytest

from kerfline.model.job import Mix
from kerfline.rules.rule_set import load


@pytest.mark.parametrize(
    ("mm", "metres"),
    [(125, 4.5), (150, 5.0), (200, 5.0)],  # 150: 36 x 150 is 5.4, worked from the clause
)
def test_thirty_six_times_the_thickness_and_five_metres_at_most(mm, metres):
    assert load("canada").limits(mm, Mix()).span.bound == pytest.approx(metres * 1000)


@pytest.mark.parametrize("mm", [100, 125, 150])
def test_the_advised_span_lies_within_the_range(mm):
    span = load("canada").limits(mm, Mix()).span
    assert 24 * mm <= span.advised <= 36 * mm


@pytest.mark.parametrize("mm", [100, 125, 150, 200])
def test_cuts_lie_between_a_quarter_and_a_third(mm):
    cut = load("canada").cut_limit(mm, "conventional")
    assert mm / 4 <= cut.bound <= cut.advised <= mm / 3
