"""The terminal sums the files of a set up by kind."""

from pathlib import Path

from kerfline.app.files_told import files_told


def told(*names):
    return files_told([Path("out") / name for name in names])


def test_sheets_are_counted_and_forms_named_once():
    plan = ("hall-joint-plan.pdf", *(f"hall-joint-plan-{n}.svg" for n in range(2, 14)))
    words = told(
        *plan, "hall-joint-plan.svg", "hall-joint-plan.dxf", "hall-joint-plan-flat.dxf", "hall.xlsx"
    )
    assert words == "out (joint plan: 13 sheets, PDF, SVG, DXF; tables: XLSX)"


def test_placements_are_one_kind():
    names = (
        "cut-sheet.pdf",
        "cut-sheet-placement-1.svg",
        "cut-sheet-placement-1-2.svg",
        "cut-sheet-placement-2.svg",
    )
    assert told(*(f"a-1-{n}" for n in names), "a-1-layout.json") == (
        "out (cut sheet: 3 sheets, PDF, SVG; layout: JSON)"
    )


def test_one_file_is_named():
    assert told("hall-day.txt") == str(Path("out") / "hall-day.txt")
