"""A rule set in words."""

import pytest

from kerfline.rules.describe import describe, listing
from kerfline.rules.rule_set import load, names
from kerfline.units import Display


def test_the_listing_names_every_set_once():
    assert [line.split()[0] for line in listing().splitlines()] == list(names())


@pytest.mark.parametrize("name", names())
@pytest.mark.parametrize("display", list(Display))
def test_every_source_of_a_set_is_printed_with_how_it_is_known(name, display):
    rule_set = load(name)
    text = describe(rule_set, display)
    rows = [row for rows in rule_set.cut.values() for row in rows]
    figures = [rule_set.span, rule_set.aspect, rule_set.width, rule_set.angle, *rows]
    for figure in figures:
        assert f"{figure.source.publication}" in text
        assert f"[{figure.source.known}]" in text
        assert figure.source.page in text
    assert all(condition in text for condition in rule_set.conditions)


def test_the_default_reads_as_a_builder_would_say_it():
    text = describe(load("floor"), Display.FEET_INCHES)
    assert "advised   30 times the thickness, at most 15'-0\"" in text
    assert "maximum   36 times the thickness, at most 18'-0\"" in text
    assert '4": 10\'-0" to 12\'-0"' in text
    assert 'least 1"' in text


def test_a_table_shows_its_columns_and_what_is_assumed():
    text = describe(load("pca-table"), Display.FEET_INCHES)
    assert "column 3: slump below 4 in" in text
    assert 'from 7"       14\'-0"    18\'-0"    21\'-0"' in text
    assert "give slump and aggregate under [mix]" in text


def test_what_the_user_changed_is_marked():
    text = describe(load("floor", {"aspect": {"maximum": 1.4}}), Display.METRIC)
    assert "maximum   1.4\n    the job's own rules [user]" in text


def test_advice_is_shown_where_it_differs_from_the_bound_alone():
    apart = describe(load("floor", {"aspect": {"advised": 1.2, "maximum": 1.4}}), Display.METRIC)
    alike = describe(load("floor", {"aspect": {"advised": 1.4, "maximum": 1.4}}), Display.METRIC)
    assert "advised   1.2" in apart
    assert "advised   1.4" not in alike
    assert "maximum   1.4" in apart
    assert "maximum   1.4" in alike


def test_a_share_of_the_thickness_is_a_fraction_and_spans_are_worked_out():
    feet, metric = (describe(load("floor"), display) for display in Display)
    assert "1/4 of the thickness, " in feet
    (worked,) = [line for line in metric.splitlines() if "worked out" in line]
    assert [part.split(":")[0].split()[-2:] for part in worked.split(", ")] == [
        [size, "mm"] for size in ("100", "125", "150", "200")
    ]


def test_a_cap_that_holds_for_thin_slabs_says_for_which():
    text = describe(load("pavement"), Display.FEET_INCHES)
    assert '24 times the thickness, at most 15\'-0" for slabs thinner than 10"' in text


def test_each_row_of_a_cut_says_for_which_slabs_it_is():
    lines = describe(load("floor"), Display.FEET_INCHES).splitlines()
    rows = [line.strip() for line in lines if line.strip().startswith("early-entry")]
    assert rows == ['early-entry, slabs up to 9" thick', 'early-entry, slabs above 9" thick']


def test_the_rows_of_a_table_stand_under_its_title():
    """Each row and each column's title begins where the words after the name do."""
    lines = describe(load("pca-table"), Display.FEET_INCHES).splitlines()
    start = next(line for line in lines if "by thickness" in line).index("by thickness")
    rows = [line for line in lines if line.lstrip().startswith(("column ", "from "))]
    assert len(rows) > 5
    assert {len(line) - len(line.lstrip()) for line in rows} == {start}
