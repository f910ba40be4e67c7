"""Sources and figures."""

import pytest

from kerfline.model.job import Mix
from kerfline.rules.limits import Figure, Source
from kerfline.rules.rule_set import load

BOOK = Source(publication="A book", edition="1996", section="2.3")


@pytest.mark.parametrize(
    ("source", "text"),
    [
        (BOOK, "A book, 1996, 2.3"),
        (Source(publication="A book"), "A book"),
        (Source(publication="A book", known="memory"), "A book (from memory)"),
        (Source(publication="A book", known="quoted"), "A book (as quoted)"),
        (Source(publication="common practice", known="practice"), "common practice"),
    ],
)
def test_a_source_as_it_stands_beside_a_finding(source, text):
    assert str(source) == text


def test_the_advised_value_has_the_source_of_the_bound_unless_it_has_its_own():
    own = Source(publication="Another")
    assert Figure(advised=1, bound=2, source=BOOK).advised_by is BOOK
    assert Figure(advised=1, bound=2, source=BOOK, advised_source=own).advised_by is own


def test_the_engine_works_to_the_advised_span_and_the_bounds_of_the_rest():
    limits = load("floor").limits(101.6, Mix())
    working = limits.working()
    assert (working.span, working.aspect) == (pytest.approx(3048), 1.5)
    assert (working.width, working.angle) == (pytest.approx(609.6), 60)
    assert limits.working(to_maximum=True).span == pytest.approx(3657.6)
