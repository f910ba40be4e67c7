"""Values out of nested tables: every mistake is told with its place, and reading goes on."""

import math

import pytest

from kerfline.rules.table_reader import TableReader
from kerfline.units import Unit


def reader(**values):
    return TableReader(values, "rules", lambda path: f"job.toml, {path}", Unit.FT)


def told(table):
    return [str(mistake) for mistake in table.mistakes]


def test_a_table_in_a_table_has_its_path_and_its_mistakes_in_common():
    top = reader(span={"advised": {"times": "x"}})
    assert math.isnan(top.table("span").table("advised").number("times"))
    assert told(top) == [
        "job.toml, rules.span.advised.times: a number above 0 is needed here; found 'x'."
    ]


@pytest.mark.parametrize("value", [3, "x", [{}], None])
def test_what_is_no_table_is_refused(value):
    top = reader(span=value)
    assert top.table("span") is None
    assert "rules.span: a table is needed here" in told(top)[0]


def test_tables_in_a_list_are_numbered():
    first, second = reader(rows=[{"a": "b"}, {"a": 2}]).tables("rows")
    assert first.text("a") == "b"
    assert second.text("a") == ""
    assert "rules.rows[1].a: text is needed here" in told(second)[0]


@pytest.mark.parametrize("value", [[], {}, [1], [{}, 1], "x", None])
def test_what_is_no_list_of_tables_is_refused(value):
    top = reader(rows=value)
    assert list(top.tables("rows")) == []
    assert len(top.mistakes) == 1


def test_an_unknown_key_is_answered_with_the_one_that_was_meant_or_with_those_known():
    top = reader(maximun=1, zebra=2, maximum=3)
    top.only(("maximum", "advised"))
    assert told(top) == [
        'job.toml, rules.maximun: there is no "maximun" here; did you mean "maximum"?',
        'job.toml, rules.zebra: there is no "zebra" here; known here: maximum, advised.',
    ]


@pytest.mark.parametrize(
    ("value", "number"),
    [(3, 3.0), (0.25, 0.25), ("1/4", 0.25), ("2.5", 2.5), ("3/", 3.0), (" 1 / 2 ", 0.5)],
)
def test_a_number_or_a_fraction_as_text(value, number):
    assert reader(n=value).number("n") == number


@pytest.mark.parametrize(
    "value", [0, -1, "0", "1/0", "-1/2", "x", "", True, None, [], math.nan, math.inf, 10**400]
)
def test_what_is_no_number_above_nought_is_refused(value):
    top = reader(n=value)
    assert math.isnan(top.number("n"))
    assert "a number above 0 is needed here" in told(top)[0]


def test_a_missing_value_is_its_default_or_refused():
    top = reader()
    assert (top.number("n", 2.0), top.text("t", "x"), top.texts("list")) == (2.0, "x", ())
    assert top.optional_length("l") is None
    assert top.mistakes == []
    top.number("n"), top.text("t"), top.length("l"), top.lengths("ls")
    assert len(top.mistakes) == 4


def test_lengths_are_in_the_unit_of_the_job_unless_they_say_their_own():
    table = reader(bare=2, own="2 in", many=[1, "1 m"])
    assert table.length("bare") == pytest.approx(609.6)
    assert table.optional_length("own") == pytest.approx(50.8)
    assert table.lengths("many") == pytest.approx((304.8, 1000))


@pytest.mark.parametrize(
    ("value", "sentence"),
    [
        (0, "a length above 0 is needed here"),
        ("-2 in", "a length above 0 is needed here"),
        ([], "a length is needed here"),
        (None, "a length is needed here"),
        ("two feet", "this is not a length"),
        (True, "this is not a length"),
    ],
)
def test_what_is_no_length_is_refused_at_its_place(value, sentence):
    top = reader(l=value)
    assert math.isnan(top.length("l"))
    assert told(top)[0].startswith(f"job.toml, rules.l: {sentence}")


def test_of_a_list_of_lengths_the_wrong_one_is_named():
    top = reader(spans=["9 ft", "x"])
    assert top.lengths("spans")[0] == pytest.approx(9 * 304.8)
    assert "rules.spans[1]: this is not a length" in told(top)[0]


@pytest.mark.parametrize("value", [[], "9 ft", None, {}])
def test_what_is_no_list_of_lengths_is_refused(value):
    top = reader(spans=value)
    assert top.lengths("spans") == ()
    assert "a list of lengths is needed here" in told(top)[0]


@pytest.mark.parametrize("value", ["x", ["x", 1], {}, None])
def test_what_is_no_list_of_texts_is_refused(value):
    top = reader(conditions=value)
    assert top.texts("conditions") == ()
    assert "a list of texts is needed here" in told(top)[0]
    assert reader(conditions=["a", "b"]).texts("conditions") == ("a", "b")


def test_a_table_of_its_own_has_no_path():
    top = TableReader({"a": 1})
    top.refuse("", "it is empty")
    top.refuse("a", "it is short", found="", remedy="write more")
    assert told(top) == ["it is empty.", "a: it is short; write more."]
