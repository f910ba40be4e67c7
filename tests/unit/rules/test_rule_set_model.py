"""A set of limits asked for one slab."""

import pytest

from kerfline.errors import InputRefused
from kerfline.model.job import Mix
from kerfline.rules.cut import CutRow
from kerfline.rules.limits import Figure, Source
from kerfline.rules.rule_set_model import RuleSet
from kerfline.rules.span import Column, Multiple, Row, SpanRule, Table

OWN = Source(publication="own")


def figure(advised, bound):
    return Figure(advised=advised, bound=bound, source=OWN)


TABLE = Table(
    rows=(Row(start=100.0, spans=(3000.0, 4000.0)),),
    columns=(Column(title="wet", slump_from=100.0), Column(title="dry", slump_below=100.0)),
)
RULES = RuleSet(
    name="own",
    title="Own",
    use="for tests",
    span=SpanRule(advised=Multiple(times=24), maximum=TABLE, source=OWN),
    aspect=figure(1.25, 1.5),
    width=figure(900.0, 600.0),
    angle=figure(75.0, 60.0),
    cut={
        "conventional": (
            CutRow(advised=0.25, least=0.2, floor=25.0, source=OWN),
            CutRow(advised=0.0, least=0.0, floor=50.0, source=OWN, above=200.0),
        ),
        "early-entry": (CutRow(advised=0.0, least=0.0, floor=25.0, source=OWN),),
    },
)


def test_the_limits_of_a_slab_are_the_sets_with_the_span_at_its_thickness():
    limits = RULES.limits(100.0, Mix(slump=150.0))
    assert (limits.rule_set, limits.thickness) == ("own", 100.0)
    assert (limits.span.advised, limits.span.bound) == (2400.0, 3000.0)
    assert limits.aspect is RULES.aspect
    assert limits.width is RULES.width
    assert limits.angle is RULES.angle
    assert limits.area is None


def test_the_mix_chooses_the_column_and_what_is_not_known_is_assumed_and_said():
    assert RULES.limits(100.0, Mix(slump=50.0)).span.bound == 4000.0
    assert RULES.limits(100.0, Mix()).span.bound == 3000.0
    assert RULES.assumptions(Mix(slump=50.0)) == ()
    (said,) = RULES.assumptions(Mix())
    assert "most cautious column of the spacing table that may hold was used (wet)" in said


@pytest.mark.parametrize(
    ("thickness", "method", "bound"),
    [
        (150.0, "conventional", 30.0),
        (204.0, "conventional", 40.8),
        (205.0, "conventional", 50.0),
        (300.0, "early-entry", 25.0),
    ],
)
def test_the_depth_of_a_cut_is_of_its_method_and_of_the_row_of_the_thickness(
    thickness, method, bound
):
    """A row above 200 mm holds from 204.08 mm on, 2 % more: nominal sizes stay in their own row."""
    assert RULES.cut_limit(thickness, method).bound == pytest.approx(bound)


def test_a_method_that_the_set_does_not_have_is_refused_with_those_that_it_has():
    with pytest.raises(InputRefused) as refused:
        RULES.cut_limit(100.0, "wet")
    assert str(refused.value) == (
        "cut.method: the rule set own has no such method of cutting; found 'wet'; "
        "allowed is conventional or early-entry."
    )
