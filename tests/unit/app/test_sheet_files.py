"""Sheets as files: one PDF for the set, one SVG for each sheet."""

import io

import pypdfium2

from kerfline.app.sheet_files import sheet_files
from kerfline.sheets.joint_plan import joint_plan
from parted import RULES
from shapes import workshop_job, workshop_layout


def test_one_pdf_holds_all_sheets_and_each_has_a_numbered_svg_but_the_first():
    sheet = joint_plan(workshop_job(), workshop_layout(), (), RULES)[0]
    files = sheet_files("plan", [sheet, sheet, sheet])
    assert list(files) == ["plan.pdf", "plan.svg", "plan-2.svg", "plan-3.svg"]
    assert len(pypdfium2.PdfDocument(io.BytesIO(files["plan.pdf"]))) == 3
    assert b"<svg" in files["plan-2.svg"]
