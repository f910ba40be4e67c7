"""A sheet as PDF holds what the sheet holds, in its true size."""

import re
from collections import Counter

import pypdfium2
import pytest

from kerfline.files.sheet_pdf import pdf_bytes
from kerfline.model.job import SheetChoice
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.joint_plan import joint_plan
from kerfline.units import Unit
from shapes import workshop_job, workshop_layout
from sheet_lines import near, pdf_lines, scene_lines

RULES = SlabRules(rule_set=load("floor"))


def job_in(units):
    fields = {"project": "Community workshop", "owner": "Zoë Ünal & Co <½>"}
    return workshop_job(units, SheetChoice(fields=fields, north=30.0))


@pytest.fixture(scope="module", params=[Unit.FT, Unit.MM])
def sheets(request):
    return joint_plan(job_in(request.param), workshop_layout(), (), RULES)


def test_pdf_holds_the_lines_of_the_scene(sheets):
    document = pypdfium2.PdfDocument(pdf_bytes(sheets))
    assert len(document) == len(sheets)
    for page, sheet in zip(document, sheets, strict=True):
        near(pdf_lines(page), scene_lines(sheet))


def test_pdf_holds_the_texts_of_the_scene_as_real_text(sheets):
    document = pypdfium2.PdfDocument(pdf_bytes(sheets))
    for page, sheet in zip(document, sheets, strict=True):
        found = "".join(page.get_textpage().get_text_range().split())
        wanted = "".join("".join(t.text.split()) for t in sheet.texts)
        assert Counter(found) == Counter(wanted.replace("\u00a0", ""))


def test_the_pdf_embeds_its_font_and_no_other():
    data = pdf_bytes(joint_plan(job_in(Unit.FT), workshop_layout(), (), RULES))
    names = set(re.findall(rb"/BaseFont\s*/([^\s/>]+)", data))
    assert names
    assert all(b"DejaVu" in name for name in names)
    assert b"/FontFile2" in data
