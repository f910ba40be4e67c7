"""Words of the page that stand for something here."""

import pytest

from kerfline.errors import InputRefused
from kerfline.rules.rule_set import names
from kerfline.units import Unit
from kerfline.web.asked import roles_of, rule_sets, unit_of


def test_every_rule_set_has_a_title():
    assert [each["name"] for each in rule_sets()] == list(names())
    assert all(each["title"] for each in rule_sets())


@pytest.mark.parametrize("word", ["cubit", "", None, 3, ["ft"], "FT"])
def test_a_unit_is_one_of_ours(word):
    assert unit_of("ft") is Unit.FT
    with pytest.raises(InputRefused, match="there is no such unit"):
        unit_of(word)


@pytest.mark.parametrize("roles", [None, "all", ["outline"], {"A": "moat"}, {"A": None}, {"A": 3}])
def test_it_is_said_of_each_layer_what_it_is(roles):
    with pytest.raises(InputRefused, match="say of each layer what it is"):
        roles_of({"roles": roles})


def test_a_layer_that_is_nothing_is_left_out():
    assert roles_of({"roles": {"A": "outline", "B": "", "C": "walls"}}) == {
        "A": "outline",
        "C": "walls",
    }
