"""One rule set's tables over another's: what is replaced, what stays, and whose it then is."""

import pytest

from kerfline.rules.merge import USER, inherit, override

BOOK = {"publication": "a book"}
BASE = {
    "title": "base",
    "conditions": ["dry"],
    "span": {"advised": {"times": 24, "cap": "12 ft"}, "maximum": {"times": 36}, "source": BOOK},
    "aspect": {"advised": 1.25, "maximum": 1.5, "source": BOOK},
    "width": {"advised": "3 ft", "least": "2 ft", "source": BOOK},
    "cut": {"conventional": [{"floor": "1 in", "source": BOOK}]},
}


def test_a_set_like_another_has_its_figures_but_whole_ones_of_its_own():
    own = {"title": "own", "aspect": {"advised": 1.0, "maximum": 1.2}}
    merged = inherit(BASE, own)
    assert merged["title"] == "own"
    assert merged["aspect"] == {"advised": 1.0, "maximum": 1.2}
    assert merged["span"] == BASE["span"]


def test_a_set_like_another_has_its_own_conditions_alone():
    assert inherit(BASE, {})["conditions"] == []
    assert inherit(BASE, {"conditions": ["wet"]})["conditions"] == ["wet"]


def test_methods_of_cutting_are_replaced_one_by_one():
    wet, dry = [{"floor": "2 in"}], [{"floor": "3 in"}]
    merged = inherit(BASE, {"cut": {"wet": wet, "dry": dry}})
    assert merged["cut"] == {"conventional": BASE["cut"]["conventional"], "wet": wet, "dry": dry}
    assert inherit(BASE, {"cut": {"conventional": wet}})["cut"] == {"conventional": wet}


def test_a_user_changes_single_values_and_the_bound_is_then_the_users():
    changed = override(BASE, {"aspect": {"maximum": 1.6}})["aspect"]
    assert changed == {"advised": 1.25, "maximum": 1.6, "source": USER, "advised_source": BOOK}


def test_changed_advice_leaves_the_bound_to_its_source():
    changed = override(BASE, {"width": {"advised": "4 ft"}})["width"]
    assert changed == {"advised": "4 ft", "least": "2 ft", "source": BOOK, "advised_source": USER}


def test_a_user_who_names_a_source_has_it():
    code = {"publication": "a town's code"}
    changed = override(BASE, {"width": {"least": "1 ft", "source": code}})["width"]
    assert (changed["source"], changed["advised_source"]) == (code, BOOK)
    advised = {"advised": 1.1, "advised_source": code}
    assert override(BASE, {"aspect": advised})["aspect"]["advised_source"] == code


def test_advice_that_has_a_source_keeps_it_when_the_bound_is_changed():
    paper = {"publication": "a paper"}
    base = {"aspect": {"advised": 1, "maximum": 2, "source": BOOK, "advised_source": paper}}
    assert override(base, {"aspect": {"maximum": 3}})["aspect"]["advised_source"] == paper


def test_what_has_no_source_yet_gets_none_for_its_advice():
    changed = override({}, {"area": {"maximum": "600 ft2"}})["area"]
    assert changed == {"maximum": "600 ft2", "source": USER}


def test_a_changed_multiple_keeps_the_cap_and_a_table_drops_both():
    step = override(BASE, {"span": {"advised": {"times": 30}}})["span"]["advised"]
    assert step == {"times": 30, "cap": "12 ft"}
    rows = {"rows": [{"from": "4 in", "spans": ["9 ft"]}]}
    assert override(BASE, {"span": {"advised": rows}})["span"]["advised"] == rows


def test_a_multiple_drops_a_table_and_a_new_cap_alone_keeps_the_multiple():
    table = {"rows": [1], "columns": [2]}
    base = {"span": {"advised": table, "source": BOOK}}
    assert override(base, {"span": {"advised": {"times": 30}}})["span"]["advised"] == {"times": 30}
    assert override(base, {"span": {"advised": {"rows": [3]}}})["span"]["advised"] == {
        "rows": [3],
        "columns": [2],
    }


def test_rows_of_a_cut_are_the_users_unless_they_name_a_source():
    rows = [{"floor": "1 in"}, {"floor": "2 in", "source": BOOK}]
    changed = override(BASE, {"cut": {"wet": rows}})["cut"]
    assert [row["source"] for row in changed["wet"]] == [USER, BOOK]
    assert changed["conventional"] == BASE["cut"]["conventional"]


@pytest.mark.parametrize("wrong", [5, None, "x", [1]])
def test_what_is_no_table_is_left_for_the_reader_to_refuse(wrong):
    assert override(BASE, {"aspect": wrong})["aspect"] == wrong
    assert override(BASE, {"cut": wrong})["cut"] == wrong
    assert override(BASE, {"cut": {"wet": wrong}})["cut"]["wet"] == wrong


def test_nothing_changed_is_the_set_itself_and_the_base_is_never_written_to():
    before = repr(BASE)
    assert override(BASE, {}) == BASE
    override(BASE, {"span": {"advised": {"times": 1}}, "cut": {"wet": []}})
    assert repr(BASE) == before
