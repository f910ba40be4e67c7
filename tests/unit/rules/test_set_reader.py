"""A rule set as tables, read with every mistake gathered."""

import json
import math

import pytest

from kerfline.model.job import Mix
from kerfline.rules.set_reader import read_set
from kerfline.rules.table_reader import TableReader

BOOK = {
    "publication": "a book",
    "edition": "1999",
    "section": "2",
    "known": "quoted",
    "page": "https://b.example/2",
}
WHOLE = {
    "title": "Own",
    "use": "for tests",
    "span": {"advised": {"times": 24}, "maximum": {"times": 36, "cap": "18 ft"}, "source": BOOK},
    "aspect": {"advised": 1.25, "maximum": 1.5, "source": BOOK},
    "width": {"advised": "3 ft", "least": "2 ft", "source": BOOK},
    "angle": {"advised": 75, "least": 60, "source": BOOK},
    "cut": {"conventional": [{"advised": "1/4", "least": 0.2, "floor": "1 in", "source": BOOK}]},
}  # fmt: skip


def read(*path, value=None):
    """The whole set with one value changed, or taken out where it is None; and what was told."""
    tables = json.loads(json.dumps(WHOLE))
    at = tables
    for key in path[:-1]:
        at = at.setdefault(key, {})
    if path and value is None:
        del at[path[-1]]
    elif path:
        at[path[-1]] = value
    reader = TableReader(tables)
    rule_set = read_set("own", reader)
    return rule_set, [str(m) for m in reader.mistakes]


def test_a_whole_set_is_read_without_a_word():
    rule_set, told = read()
    assert told == []
    assert (rule_set.name, rule_set.title, rule_set.use) == ("own", "Own", "for tests")
    assert (rule_set.width.advised, rule_set.width.bound) == pytest.approx((914.4, 609.6))
    assert (rule_set.angle.advised, rule_set.angle.bound) == (75, 60)
    assert (rule_set.area, rule_set.conditions) == (None, ())
    source = rule_set.aspect.source
    assert str(source) == "a book, 1999, 2 (as quoted)"
    assert source.page == "https://b.example/2"


def test_a_cap_without_a_multiple_holds_at_every_thickness():
    rule_set, told = read("span", "maximum", value={"cap": "5 m"})
    assert told == []
    assert rule_set.span.maximum.times == math.inf
    assert rule_set.limits(100.0, Mix()).span.bound == 5000.0


@pytest.mark.parametrize(("words", "mm2"), [("600 ft2", 600 * 304.8**2), ("55.7 m2", 55.7e6)])
def test_an_area_has_its_unit(words, mm2):
    rule_set, told = read("area", value={"advised": words, "maximum": words, "source": BOOK})
    assert told == []
    assert rule_set.area.bound == pytest.approx(mm2)


@pytest.mark.parametrize("words", ["600", "600 yd2", "x m2", "1 2 m2", "-1 m2", 600])
def test_what_is_no_area_is_refused(words):
    _, told = read("area", value={"advised": words, "maximum": "600 ft2", "source": BOOK})
    assert len(told) == 1
    assert told[0].startswith("area.advised: ")


@pytest.mark.parametrize("part", ["span", "aspect", "width", "angle"])
def test_a_set_without_one_of_its_figures_is_none(part):
    rule_set, told = read(part)
    assert rule_set is None
    assert told == [f"{part}: a table is needed here; found None."]


@pytest.mark.parametrize(
    ("path", "value", "sentence"),
    [
        (("aspect", "advised"), 1.5, None),
        (("aspect", "advised"), 1.51, "aspect.advised: the advised value lies beyond the maximum"),
        (("width", "least"), "3 ft", None),
        (
            ("width", "least"),
            "3.1 ft",
            "width.advised: the advised value lies beyond the least one",
        ),
        (("angle", "advised"), 59, "angle.advised: the advised value lies beyond the least one"),
    ],
)
def test_advice_may_be_the_bound_and_no_more(path, value, sentence):
    _, told = read(*path, value=value)
    assert told == [] if sentence is None else told[0].startswith(sentence)


COLUMNS = [{"title": "wet", "slump_from": "4 in"}, {"title": "dry", "slump_below": "4 in"}]


def table(*rows, columns=None):
    return {"rows": list(rows), **({"columns": columns} if columns else {})}


def row(start, *spans, key="from"):
    return {key: start, "spans": list(spans)}


@pytest.mark.parametrize(
    "rows",
    [
        (row("4 in", "9 ft"), row("4 in", "12 ft", key="above"), row("6 in", "14 ft")),
        (row("4 in", "9 ft"),),
    ],
)
def test_rows_rise_and_one_above_a_thickness_follows_the_one_from_it(rows):
    assert read("span", "advised", value=table(*rows))[1] == []


@pytest.mark.parametrize(
    "rows",
    [
        (row("6 in", "14 ft"), row("4 in", "9 ft")),
        (row("4 in", "9 ft"), row("4 in", "10 ft")),
        (row("4 in", "9 ft", key="above"), row("4 in", "9 ft")),
    ],
)
def test_rows_out_of_order_are_refused(rows):
    told = read("span", "advised", value=table(*rows))[1]
    assert told == ["span.advised.rows: the rows must stand in order of rising thickness."]


@pytest.mark.parametrize(("count", "right"), [(1, False), (2, True), (3, False)])
def test_a_row_has_a_span_for_each_column(count, right):
    spans = ["9 ft"] * count
    told = read("span", "advised", value=table(row("4 in", *spans), columns=COLUMNS))[1]
    refused = f"span.advised.rows[0].spans: 2 of them are needed, one a column; found {count}."
    assert told == ([] if right else [refused])


def test_columns_say_which_mixes_they_are_for():
    value = table(row("4 in", "9 ft", "12 ft"), columns=COLUMNS)
    rule_set, _ = read("span", "advised", value=value)
    wet, dry = rule_set.span.advised.columns
    assert (wet.slump_from, wet.slump_below, dry.slump_below) == pytest.approx((101.6, None, 101.6))


@pytest.mark.parametrize(
    ("path", "value", "sentence"),
    [
        (("span", "advised"), {}, "span.advised: times, cap or rows are needed here; found {}."),
        (("span", "advised"), {"times": 2, "rows": []}, 'span.advised.times: there is no "times"'),
        (("aspect", "source"), None, "aspect.source: a table is needed here; found None."),
        (("aspect", "source", "known"), "hearsay", "aspect.source.known: this is not a way of knowing"),
        (("aspect", "source", "page"), "ftp://b", "aspect.source.page: this is no page's address"),
        (("aspect", "source", "author"), "x", 'aspect.source.author: there is no "author" here'),
        (("aspect", "least"), 1, 'aspect.least: there is no "least" here'),
        (("width", "maximum"), "9 ft", 'width.maximum: there is no "maximum" here'),
        (("cut",), None, "cut: a table is needed here; found None."),
        (("cut", "wet"), [], "cut.wet: a list of tables is needed here; found []."),
        (("depth",), 5, 'depth: there is no "depth" here'),
    ],
)  # fmt: skip
def test_a_mistake_is_told_at_its_place(path, value, sentence):
    assert read(*path, value=value)[1][0].startswith(sentence)


def test_a_row_of_cuts_without_shares_has_its_floor_alone():
    rule_set, told = read("cut", "wet", value=[{"floor": "2 in", "above": "9 in", "source": BOOK}])
    (wet,) = rule_set.cut["wet"]
    assert told == []
    assert (wet.advised, wet.least, wet.floor, wet.above) == pytest.approx((0, 0, 50.8, 228.6))
    assert rule_set.cut["conventional"][0].above == 0.0
