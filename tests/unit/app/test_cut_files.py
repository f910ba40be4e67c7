"""The files of the cut sheets: one set for each placement, and all of them in one to print."""

import io
from dataclasses import replace

import pypdfium2
import pytest

from kerfline.app.cut_files import cut_files
from kerfline.app.day_job import DayOutcome, day_contents
from kerfline.app.deliver import contents
from kerfline.geometry.ring import Ring
from kerfline.model.job import CutAreaChoice, SheetChoice
from kerfline.units import MM_PER_FOOT
from parted import parted_day, parted_outcome


@pytest.fixture(scope="module")
def outcome():
    return parted_outcome()


@pytest.fixture(scope="module")
def plan(outcome):
    return parted_day(outcome)


def pages(data):
    return len(pypdfium2.PdfDocument(io.BytesIO(data)))


def test_each_placement_has_its_file_and_one_holds_them_all(outcome, plan):
    files = cut_files(outcome, plan)
    names = [f"workshop-cut-sheet-placement-{n}.pdf" for n in (1, 2, 3)]
    assert {n for n in files if n.endswith(".pdf")} == {"workshop-cut-sheet.pdf", *names}
    assert pages(files["workshop-cut-sheet.pdf"]) == sum(pages(files[n]) for n in names)
    assert "workshop-cut-sheet.svg" not in files
    assert "workshop-cut-sheet-placement-2.svg" in files


def test_a_slab_without_a_day_has_one_set_for_all_of_it(outcome):
    files = cut_files(outcome, None)
    assert "workshop-cut-sheet.svg" in files
    assert not any("placement" in name for name in files)


@pytest.mark.parametrize("told", [False, True], ids=["no day", "a day"])
def test_an_area_that_the_job_names_has_its_own_files(outcome, plan, told):
    """The hall alone, beside what is written in any case; its corner is A1a."""
    x0, y0, _, _ = outcome.job.slab.outline.polygon.bounds
    hall = ring_at((x0, y0), 20 * MM_PER_FOOT, 16 * MM_PER_FOOT)
    sheet = SheetChoice(areas=(CutAreaChoice(name="Hall", outline=hall),))
    with_area = replace(outcome, job=replace(outcome.job, sheet=sheet))
    files = cut_files(with_area, plan if told else None)
    plain = cut_files(outcome, plan if told else None)
    added = {"workshop-cut-sheet-area-1.pdf", "workshop-cut-sheet-area-1.svg"}
    assert {n for n in set(files) - set(plain) if "-2" not in n} == added
    drawing = files["workshop-cut-sheet-area-1.svg"].decode()
    assert "Cut sheet, Hall" in drawing
    assert "A1a" in drawing


def ring_at(at, width, height):
    x, y = at
    return Ring(((x, y), (x + width, y), (x + width, y + height), (x, y + height)))


def test_layout_and_day_write_the_same_cut_sheets(outcome, plan):
    """Whoever runs one command after the other never finds two that disagree."""
    both = contents(outcome, plan)
    day = day_contents(DayOutcome(outcome=outcome, plan=plan))
    sheets = [name for name in day if "-cut-sheet" in name]
    assert len(sheets) > 4
    assert {name: day[name] for name in sheets} == {name: both[name] for name in sheets}
