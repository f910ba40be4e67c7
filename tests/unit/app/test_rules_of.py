"""The rules of a job make sense for its slab before anything is laid out."""

from dataclasses import replace

import pytest

from kerfline.app.rules_of import rules_of
from kerfline.errors import InputRefused
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job, RuleChoice
from kerfline.model.slab import Slab
from kerfline.rules.rule_set import names
from kerfline.units import Unit

JOB = Job(
    name="Boathouse",
    units=Unit.MM,
    slab=Slab(outline=Ring(((0, 0), (9000, 0), (9000, 6000), (0, 6000))), thickness=100.0),
)


def test_a_span_that_no_floor_has_is_refused() -> None:
    """A slip such as 0.03 times the thickness for 30 would ask for thousands of joints."""
    slip = RuleChoice(overrides={"span": {"maximum": {"times": 0.03}}})
    with pytest.raises(InputRefused, match=r"no span that a floor can have; found 3 mm"):
        rules_of(replace(JOB, rules=slip))


@pytest.mark.parametrize("name", names())
def test_every_rule_set_has_a_span_for_a_common_slab(name: str) -> None:
    """Rule sets as shipped are not refused at 100 mm."""
    assert rules_of(replace(JOB, rules=RuleChoice(name=name))).limits(100.0).span.bound > 1000
