"""SVG, PDF and DXF of one sheet hold the same lines and texts, true to scale, by independent readers."""

import re
import xml.etree.ElementTree as ET
from collections import Counter

import pypdfium2
import pytest

from kerfline.files.sheet_pdf import pdf_bytes
from kerfline.files.sheet_svg import svg_bytes
from kerfline.model.job import SheetChoice
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.sheets.joint_plan import joint_plan
from kerfline.units import Unit
from shapes import workshop_job, workshop_layout
from sheet_checks import assert_clean
from sheet_lines import MM_PER_POINT, SVG, near, pdf_lines, scene_lines, svg_lines

RULES = SlabRules(rule_set=load("floor"))


def job_in(units):
    fields = {"project": "Community workshop", "owner": "Zoë Ünal & Co <½>"}
    return workshop_job(units, SheetChoice(fields=fields, north=30.0))


@pytest.fixture(scope="module", params=[Unit.FT, Unit.MM])
def sheets(request):
    return joint_plan(job_in(request.param), workshop_layout(), (), RULES)


def test_svg_holds_the_lines_of_the_scene(sheets):
    for sheet in sheets:
        near(svg_lines(sheet), scene_lines(sheet))


def test_svg_holds_the_texts_of_the_scene(sheets):
    for sheet in sheets:
        root = ET.fromstring(svg_bytes(sheet))
        found = [e.text for e in root.iter(f"{SVG}text")]
        assert Counter(found) == Counter(t.text for t in sheet.texts)


def test_the_pages_have_the_size_of_the_paper(sheets):
    document = pypdfium2.PdfDocument(pdf_bytes(sheets))
    for page, sheet in zip(document, sheets, strict=True):
        width, height = page.get_size()
        assert width * MM_PER_POINT == pytest.approx(sheet.paper.width, abs=0.01)
        assert height * MM_PER_POINT == pytest.approx(sheet.paper.height, abs=0.01)
    root = ET.fromstring(svg_bytes(sheets[0]))
    assert float(root.get("width").removesuffix("mm")) == pytest.approx(sheets[0].paper.width)
    box = [float(v) for v in re.split("[ ,]", root.get("viewBox"))]
    assert box == pytest.approx([0, 0, sheets[0].paper.width, sheets[0].paper.height])
    assert "@page{size:" in svg_bytes(sheets[0]).decode()


@pytest.mark.parametrize(("units", "length"), [(Unit.MM, 100.0), (Unit.FT, 101.6)])
def test_the_check_bar_measures_true_in_svg_and_pdf(units, length):
    sheet = joint_plan(job_in(units), workshop_layout(), (), RULES)[0]
    root = ET.fromstring(svg_bytes(sheet))
    bar = next(e for e in root.iter(f"{SVG}line") if e.get("data-ref") == "check bar")
    assert float(bar.get("x2")) - float(bar.get("x1")) == pytest.approx(length, abs=0.002)
    page = pypdfium2.PdfDocument(pdf_bytes([sheet]))[0]
    lengths = [b[0] - a[0] for a, b in pdf_lines(page) if a[1] == b[1]]
    assert any(v == pytest.approx(length, abs=0.02) for v in lengths)


def test_joints_carry_their_ids_in_the_svg():
    sheet = joint_plan(job_in(Unit.FT), workshop_layout(), (), RULES)[0]
    root = ET.fromstring(svg_bytes(sheet))
    groups = [g for g in root.iter(f"{SVG}g") if (g.get("data-layer") or "").startswith("S-JNTS")]
    refs = {e.get("data-ref") for g in groups for e in g if e.get("data-ref")}
    assert {j.id for j in workshop_layout().joints} <= refs


def test_lines_are_never_thinner_than_0_13_mm_nor_in_pixels():
    sheet = joint_plan(job_in(Unit.FT), workshop_layout(), (), RULES)[0]
    text = svg_bytes(sheet).decode()
    widths = [float(w) for w in re.findall(r"stroke-width:([0-9.]+)", text)]
    assert min(widths) >= 0.13
    assert "px" not in re.sub(r"base64,[^\"]+", "", text)


def test_the_same_sheet_gives_the_same_bytes(sheets):
    assert pdf_bytes(sheets) == pdf_bytes(sheets)
    assert [svg_bytes(s) for s in sheets] == [svg_bytes(s) for s in sheets]


def test_cut_sheets_are_written_the_same_way():
    sheets = cut_sheet(job_in(Unit.FT), workshop_layout(), RULES)
    assert_clean(sheets)
    document = pypdfium2.PdfDocument(pdf_bytes(sheets))
    for page, sheet in zip(document, sheets, strict=True):
        near(pdf_lines(page), scene_lines(sheet))
        near(svg_lines(sheet), scene_lines(sheet))
