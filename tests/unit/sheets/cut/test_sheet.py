"""The cut sheet: every line once, in order, with offsets that a tape can follow."""

from dataclasses import replace

import pytest

from kerfline.app.day import plan_day
from kerfline.model.day import DayInput
from kerfline.model.slab import JointKind
from kerfline.sheets.baselines import baselines
from kerfline.sheets.cut.areas import pour_areas
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.sheets.marks import Layer, Path
from kerfline.sheets.plan_labels import path_line
from kerfline.sheets.plan_marks import TICK_WIDTH
from kerfline.units import Unit, format_length
from shapes import workshop_job, workshop_layout
from sheet_checks import assert_clean
from workshop_cuts import RULES, words_of


def test_the_sheet_says_what_the_crew_needs(sheets):
    for needed in (
        "both diagonals 64'-7 1/2\"", "1\" deep in 4\" slab: 13 lines, 225 ft", "measured", "time cut",
        "Silica dust", "Hearing protection", "guards on", "Trial cut first", "no cut: tubing",
        "boxout, stop at its edge", "Local rules",
    ):  # fmt: skip
        assert needed in words_of(sheets)


def test_numbers_stand_beside_every_line(sheets):
    numbers = [t.text for t in sheets[0].texts if t.in_plan and t.text.isdigit()]
    assert sorted(map(int, numbers)) == list(range(1, 14))


def test_the_table_has_boxes_to_write_in(sheets):
    rules = [
        m for m in sheets[-1].marks if m.layer is Layer.TABLE and len(getattr(m, "points", ())) == 2
    ]
    upright = [m for m in rules if m.points[0][0] == m.points[1][0]]
    assert len(upright) == 12 + 1  # beside each of its columns


def test_metric_sheets_are_clean_too():
    sheets = cut_sheet(workshop_job(Unit.MM), workshop_layout(), RULES)
    assert_clean(sheets)
    assert sheets[0].title == "Cut sheet"


def test_windows_are_written_beside_their_lines(sets, areas):
    for area, sheets in zip(areas, sets, strict=True):
        shown = [t.text for s in sheets for t in s.texts]
        for one in area.passes:
            assert " to " in one.window
            assert one.window in shown


def test_every_placement_has_its_own_sheets_named_with_its_day(areas, sets, plan):
    pours = plan.placement.pours.pours
    assert len(areas) == len(pours) > 2
    for pour, sheets in zip(pours, sets, strict=True):
        title = f"Cut sheet, placement {pour.id} of {len(pours)}, day {pour.day}"
        assert sheets[0].title == title
        assert_clean(sheets)


def test_construction_joints_are_thick_ticked_and_in_the_legend(areas, sets):
    for area, sheets in zip(areas, sets, strict=True):
        first = sheets[0]
        formed = [m for m in first.marks if m.layer is Layer.CONSTRUCTION and m.in_view]
        assert {m.ref for m in formed} >= {joint.id for joint in area.formed}
        drawn = sum(path_line(m).length for m in formed) * first.view.scale
        bounding = sum(j.length for j in area.formed)
        assert drawn >= bounding - 0.01 > 0
        assert "CNTJ  construction joint" in words_of(sheets)
        ticks = [
            m
            for m in first.marks
            if isinstance(m, Path) and m.layer is Layer.SYMBOL and m.width == TICK_WIDTH
        ]
        assert len(ticks) >= 2


def test_offsets_start_at_the_placement_s_own_corner_and_the_sheet_says_where_that_is(areas, sets):
    job = workshop_job()
    whole = baselines(job.slab)
    for area, sheets in zip(areas, sets, strict=True):
        x0, y0, *_ = area.region.bounds
        assert baselines(job.slab, area.region).origin == pytest.approx((x0, y0))
        x, y = (format_length(v, job.display) for v in whole.local((x0, y0)))
        said = words_of(sheets)
        assert f"Corner A{area.id} lies {x} right and {y} up" in said
        assert any(t.text == f"A{area.id}" for t in sheets[0].texts)


def test_one_placement_is_one_sheet_set_as_before():
    job = workshop_job()
    one = plan_day(job.slab, workshop_layout(), RULES, DayInput(), job.display)
    assert len(one.placement.pours.pours) == 2  # its planned construction joint parts it
    assert pour_areas(one)[0].formed[0].id == "J12"
    sawn = tuple(replace(j, kind=JointKind.CONTROL) for j in workshop_layout().joints)
    plain = replace(workshop_layout(), joints=sawn)
    assert pour_areas(plan_day(job.slab, plain, RULES, DayInput(), job.display)) == ()


def test_the_legend_of_a_placement_names_only_what_lies_in_it(areas, sets):
    """The keep-out is in the second placement alone, the drain in the first."""
    keeps = ["K  no cut here" in words_of(s) for s in sets]
    pipes = ["N  pipe, drain" in words_of(s) for s in sets]
    assert keeps == [
        a.region.intersects(workshop_job().slab.keep_outs[0].outline.polygon) for a in areas
    ]
    assert keeps.count(True) == 1
    assert pipes.count(True) == 1
