"""The workbook, read back by a library that did not write it."""

import io
import re
from dataclasses import replace

import openpyxl
import pytest

from kerfline.app.day import plan_day
from kerfline.app.placements import placed_layout
from kerfline.checks.check import check
from kerfline.files.day_grids import day_grids
from kerfline.files.workbook import Grid, workbook
from kerfline.model.day import DayInput, PourChoice, Side, SteelChoice
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM3_PER_YD3, Unit
from shapes import workshop_job, workshop_layout

RULES = SlabRules(rule_set=load("floor"))
TAKE_OFF = Grid(
    title="Take-off",
    headings=("item", "amount", "unit"),
    rows=(("concrete", 20.5, "yd3"), ("=danger()", None, "")),
)


def opened(job, layout, **kwargs):
    found = check(job.slab, layout, RULES, job.display)
    return openpyxl.load_workbook(io.BytesIO(workbook(job, layout, found, RULES, **kwargs)))


@pytest.fixture(scope="module")
def book():
    return opened(workshop_job(), workshop_layout(), more=[TAKE_OFF])


def test_there_is_a_sheet_for_each_table(book):
    assert book.sheetnames == ["Panels", "Joints", "Cuts", "Findings", "Take-off"]


def test_panels_are_real_numbers_with_their_unit_in_the_heading(book):
    sheet = book["Panels"]
    assert [cell.value for cell in sheet[1]][1] == "length, ft"
    assert sheet["B2"].value == pytest.approx(12.0)
    assert sheet["B2"].data_type == "n"
    assert sheet["F2"].value == pytest.approx(1.2)
    assert sheet["F2"].number_format == "0%"


def test_metric_jobs_are_in_metres_and_depths_in_millimetres():
    book = opened(workshop_job(Unit.MM), workshop_layout())
    assert book["Panels"]["B1"].value == "length, m"
    assert book["Panels"]["B2"].value == pytest.approx(3.6576)
    assert book["Joints"]["E1"].value == "depth, mm"
    assert book["Joints"]["E2"].value == pytest.approx(25.4)


def test_the_cuts_add_up_to_the_joints(book):
    cuts = [[cell.value for cell in row] for row in book["Cuts"].iter_rows(min_row=2)]
    assert sum(row[2] for row in cuts) == len(workshop_layout().joints)
    assert sum(row[3] for row in cuts) == pytest.approx(workshop_layout().joint_length / 304.8)


def test_text_is_never_a_formula(book):
    sheet = book["Take-off"]
    assert sheet["A3"].value == "=danger()"
    assert sheet["A3"].data_type == "s"
    assert sheet["B3"].value is None
    layout = workshop_layout()
    layout = replace(layout, joints=(replace(layout.joints[0], note="=1+1"),))
    cell = opened(workshop_job(), layout)["Joints"].cell(2, 11)
    assert (cell.value, cell.data_type) == ("=1+1", "s")


def test_the_same_layout_gives_the_same_bytes():
    one, two = (
        workbook(workshop_job(), workshop_layout(), (), RULES, [TAKE_OFF]) for _ in range(2)
    )
    assert one == two


DAY = DayInput(
    pours=PourChoice(volume=14 * MM3_PER_YD3, access=(Side.BOTTOM,)),
    steel=SteelChoice(dowels="ufc-3-260-02"),
)


def test_a_day_adds_construction_joints_with_their_dowels_cutting_order_and_take_off():
    """Dowels of UFC 3-260-02, table 12-8, under 8 in: 3/4 in by 16 in at 12 in; n = (L - 12 in) / 12 in + 1."""
    job = workshop_job()
    layout = placed_layout(job.slab, workshop_layout(), DAY, job.display)
    plan = plan_day(job.slab, layout, RULES, DAY, job.display)
    book = opened(job, layout, more=day_grids(plan, job))
    assert book.sheetnames[-4:] == [
        "Cutting order",
        "Construction joints",
        "Order list",
        "Take-off",
    ]
    bought = [row[0] for row in book["Order list"].iter_rows(min_row=2, values_only=True)]
    assert "order" in bought
    assert "dowels" in bought
    assert "net, in place" not in bought
    rows = list(book["Construction joints"].iter_rows(min_row=2, values_only=True))
    assert sum(row[2] for row in rows) == pytest.approx(plan.take_off.construction / 304.8)
    assert all(row[8:11] == pytest.approx((0.75, 16, 12)) for row in rows)
    assert all(row[7] == int(row[2] - 1 + 1e-9) + 1 for row in rows)
    taken = next(r for r in plan.take_off.rows if r.item == "dowels")
    assert sum(row[7] for row in rows) == taken.amount
    assert all(re.fullmatch(r"\d+( and \d+)+", row[1]) for row in rows)
    cuts = list(book["Cutting order"].iter_rows(min_row=2, values_only=True))
    assert sum(row[3] for row in cuts) == pytest.approx(plan.take_off.sawn / 304.8, abs=0.005)
