"""The files of the cut sheets: one set for each placement, and all of them in one to print."""

import io
from dataclasses import replace

import pypdfium2
import pytest

from kerfline.app.cut_files import cut_files
from kerfline.app.day import plan_day
from kerfline.app.day_job import DayOutcome, day_contents, plan_beside
from kerfline.app.deliver import contents
from kerfline.app.open_job import open_job
from kerfline.app.outcome import Outcome
from kerfline.app.placements import placed_layout
from kerfline.app.redraw import redraw_job
from kerfline.errors import InputRefused
from kerfline.files.layout_json import layout_json
from kerfline.geometry.ring import Ring
from kerfline.model.day import DayInput, PourChoice, Side
from kerfline.model.job import CutAreaChoice, SheetChoice
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM3_PER_YD3, MM_PER_FOOT, Unit
from shapes import workshop_job, workshop_layout

RULES = SlabRules(rule_set=load("floor"))
DAY = DayInput(pours=PourChoice(volume=14 * MM3_PER_YD3, access=(Side.BOTTOM,)))


@pytest.fixture(scope="module")
def outcome():
    job = workshop_job()
    layout = placed_layout(job.slab, workshop_layout(), DAY, job.display)
    return Outcome(job=job, layout=layout, findings=(), rules=RULES)


@pytest.fixture(scope="module")
def plan(outcome):
    return plan_day(outcome.job.slab, outcome.layout, RULES, DAY, outcome.job.display)


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


JOB = """
[job]
name = "Bay"
units = "ft"

[slab]
thickness = "4 in"
outline = [[0, 0], [60, 0], [60, 24], [36, 24], [36, 40], [0, 40]]
"""


def test_sheets_drawn_anew_are_parted_as_the_day_of_the_job_says(tmp_path, outcome):
    path = tmp_path / "bay.toml"
    path.write_text(JOB + '\n[day.pours]\nvolume = "14 yd3"\naccess = ["bottom"]\n')
    job = open_job(path)
    saved = tmp_path / "bay-layout.json"
    saved.write_bytes(layout_json(replace(job, slab=outcome.job.slab), outcome.layout, ()))
    drawn = redraw_job(
        replace(job, slab=outcome.job.slab), saved, size="tabloid", scale=0, units=Unit.MM
    )
    planned = plan_beside(drawn, path)
    assert "bay-cut-sheet-placement-1.pdf" in contents(drawn, planned)


def test_a_job_that_tells_of_no_day_has_none(tmp_path):
    path = tmp_path / "bay.toml"
    path.write_text(JOB)
    job = open_job(path)
    assert (
        plan_beside(Outcome(job=job, layout=workshop_layout(), findings=(), rules=RULES), path)
        is None
    )


def test_a_day_that_cannot_be_used_is_refused(tmp_path):
    path = tmp_path / "bay.toml"
    path.write_text(JOB + '\n[day.pours]\nvolume = "much"\n')
    job = open_job(path)
    with pytest.raises(InputRefused, match="much"):
        plan_beside(Outcome(job=job, layout=workshop_layout(), findings=(), rules=RULES), path)
