"""The summary of many slabs as a sheet."""

from kerfline.sheets.tract_sheet import tract_sheets
from kerfline.units import Display

HEAD = ("slab", "", "area", "panels")


def said(sheets):
    return [text.text for sheet in sheets for text in sheet.texts]


def drawn(rows=(("Oak", "", "800.0 ft2", "8"),), left=(), display=Display.FEET_INCHES):
    return tract_sheets("1 slab", display, HEAD, rows, [("slabs", "1")], left)


def test_it_has_the_slabs_the_totals_and_its_own_title():
    words = said(drawn())
    assert {"Totals", "Slabs", "Oak", "800.0 ft2", "Summary: tables"} <= set(words)
    assert "Not done" not in words


def test_what_was_not_done_is_told_with_its_reason():
    words = " ".join(said(drawn(left=[("bad.toml", "line 6: no such key")])))
    assert "Not done" in words
    assert "line 6: no such key" in words


def test_many_slabs_go_on_to_further_sheets_and_none_is_lost():
    rows = tuple((f"Oak {n}", "done", "800.0 ft2", "8") for n in range(900))
    sheets = drawn(rows)
    assert len(sheets) > 1
    assert [s.number for s in sheets] == list(range(1, len(sheets) + 1))
    assert {f"Oak {n}" for n in range(900)} <= set(said(sheets))


def test_the_paper_is_that_of_the_unit():
    assert drawn()[0].paper.name == "tabloid"
    assert drawn(display=Display.METRIC)[0].paper.name == "a3"
