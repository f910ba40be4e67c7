"""Concrete Society: notes on joint spacing, and TR34 as the society describes it.

Nominally reinforced (fabric), sawn: 6 m at most with 150 mm at least, 40 times the thickness. Unreinforced:
typically 4.5 m. Length over width up to 1.5 acceptable; 1.2 is called ideal (British floors).
"""

import pytest

from kerfline.model.job import Mix
from kerfline.rules.rule_set import load


def test_six_metres_at_one_hundred_and_fifty_millimetres():
    span = load("fabric-reinforced").limits(150.0, Mix()).span
    assert span.bound == pytest.approx(6000)
    assert span.bound / 150 == pytest.approx(40)


@pytest.mark.parametrize("mm", [175, 200, 250])
def test_never_above_six_metres(mm):
    assert load("fabric-reinforced").limits(mm, Mix()).span.bound == pytest.approx(6000)


def test_the_steel_and_the_thickness_are_said_as_conditions():
    words = " ".join(load("fabric-reinforced").conditions)
    assert "fabric" in words
    assert "150 mm" in words


@pytest.mark.parametrize("mm", [150, 200])
def test_unreinforced_floors(mm):
    assert load("plain-british").limits(mm, Mix()).span.bound == pytest.approx(4500)


@pytest.mark.parametrize("name", ["fabric-reinforced", "plain-british"])
def test_length_over_width(name):
    aspect = load(name).limits(150.0, Mix()).aspect
    assert (aspect.advised, aspect.bound) == (1.2, 1.5)
