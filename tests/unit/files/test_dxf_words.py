"""Paragraphs, title-block attributes and dimensions, as a drawing program knows them."""

from dataclasses import replace

import pytest

from kerfline.files.dxf_setup import new_document
from kerfline.files.dxf_words import TITLE_BLOCK, WordWriter, is_written_apart
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.lettering import ASCENT
from kerfline.sheets.marks import DIMENSION_TEXT, Layer, Path, Text
from kerfline.sheets.prose import PARAGRAPH
from kerfline.sheets.title_block import TITLE_FIELD
from kerfline.units import Unit
from shapes import workshop_job, workshop_layout


def text(words="A", ref="", at=(10.0, 20.0)):
    return Text(layer=Layer.NOTE, at=at, text=words, height=2.0, ref=ref)


@pytest.fixture(scope="module")
def sheet():
    rules = SlabRules(rule_set=load("floor"))
    return joint_plan(workshop_job(Unit.MM), workshop_layout(), (), rules)[0]


def written(sheet):
    document = new_document(workshop_job(Unit.MM), 100)
    paper = document.layout("Layout1")
    WordWriter(document, paper, 1.0).write(sheet)
    return paper


@pytest.mark.parametrize("ref", [DIMENSION_TEXT, f"{TITLE_FIELD}owner", f"{PARAGRAPH}1"])
def test_some_texts_are_written_apart(ref):
    assert is_written_apart(text(ref=ref))
    assert not is_written_apart(text(ref="J1"))
    assert not is_written_apart(Path(layer=Layer.EDGE, points=((0, 0), (1, 0)), ref=ref))


def test_the_lines_of_a_paragraph_are_one_text(sheet):
    lines = [text(w, f"{PARAGRAPH}1", (10, 20 - 4 * n)) for n, w in enumerate(("one", "{two}"))]
    paper = written(replace(sheet, marks=(*lines, text("three", f"{PARAGRAPH}2"))))
    first, second = paper.query("MTEXT")
    assert first.text == "one\\P\\{two\\}"
    assert tuple(first.dxf.insert)[:2] == (10, pytest.approx(20 + 2 * ASCENT))
    assert second.text == "three"


def test_the_title_block_holds_its_values_by_name(sheet):
    marks = (text("Zoë ½", f"{TITLE_FIELD}owner"), text("A1", f"{TITLE_FIELD}sheet"))
    paper = written(replace(sheet, marks=marks))
    (insert,) = paper.query(f"INSERT[name=='{TITLE_BLOCK}']")
    assert {a.dxf.tag: a.dxf.text for a in insert.attribs} == {"OWNER": "Zoë  1/2", "SHEET": "A1"}
    tags = [d.dxf.tag for d in paper.doc.blocks.get(TITLE_BLOCK).query("ATTDEF")]
    assert tags == ["OWNER", "SHEET"]


def test_every_measure_of_a_sheet_is_a_dimension(sheet):
    found = written(sheet).query("DIMENSION")
    assert len(found) == len(sheet.measures) > 0
    assert {d.dxf.dimtype & 7 for d in found} == {6 if m.running else 0 for m in sheet.measures}


def test_what_says_more_than_its_measure_keeps_its_words(sheet):
    one = sheet.measures[0]
    bays = replace(one, text=replace(one.text, text="3 @ 2000 = 6000"))
    plain = replace(one, text=replace(one.text, text="6000"))
    said = [d.dxf.text for d in written(replace(sheet, measures=(bays, plain))).query("DIMENSION")]
    assert said == ["3 @ 2000 = 6000", "<>"]
