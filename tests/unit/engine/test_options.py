"""What the user may choose about the search; wrong weights are refused, all of them at once."""

from dataclasses import fields

import pytest

from kerfline.engine.options import EngineOptions, Weights, feet
from kerfline.errors import InputRefused


def test_weights_are_changed_by_name_and_the_others_stay():
    changed = Weights.of({"tee": 7, "line": 0})
    assert (changed.tee, changed.line) == (7.0, 0.0)
    assert isinstance(changed.tee, float)
    rest = {f.name for f in fields(Weights)} - {"tee", "line"}
    assert all(getattr(changed, name) == getattr(Weights(), name) for name in rest)
    assert Weights.of({}) == Weights()


@pytest.mark.parametrize("value", [-0.001, float("inf"), float("nan")])
def test_a_weight_below_nought_or_without_end_is_refused(value):
    with pytest.raises(InputRefused) as refused:
        Weights.of({"tee": value})
    assert str(refused.value) == (
        f"weights: the weight tee must be a number from 0 upward; found {value:g}; "
        "give it in feet of joint, such as 3."
    )


def test_all_wrong_weights_are_told_at_once_by_alphabet_unknown_ones_first():
    with pytest.raises(InputRefused) as refused:
        Weights.of({"tee": -1.0, "zebra": 1.0, "line": -1.0, "ant": 1.0})
    told = [(m.what.split()[-1], m.found) for m in refused.value.mistakes]
    assert told == [("name", "ant"), ("name", "zebra"), ("upward", "-1"), ("upward", "-1")]
    assert "length_open, length_hidden, tee" in refused.value.mistakes[0].allowed


def test_a_wrong_weight_is_refused_before_there_is_a_slab():
    """Where nothing is laid out, as on a slab that stays whole, nobody reads the weights."""
    with pytest.raises(InputRefused, match="no weight of this name"):
        EngineOptions(weights={"tees": 1.0})


def test_rules_weigh_more_than_looks():
    """The last group stands for rules: none of it is outweighed by a tee or a chalk line."""
    weights = Weights()
    looks = max(weights.tee, weights.line, weights.square, weights.aspect_advised)
    rules = (
        weights.corner,
        weights.column_inside,
        weights.over_aspect,
        weights.too_narrow,
        weights.hooked,
        weights.around,
    )
    assert min(*rules, weights.around) >= 10 * looks


def test_a_weight_in_feet_is_that_much_joint():
    assert feet(10.0) == 3048.0


def test_whoever_listens_is_told_and_nobody_need():
    told = []
    EngineOptions(progress=told.append).say("dividing")
    EngineOptions().say("dividing")
    assert told == ["dividing"]
