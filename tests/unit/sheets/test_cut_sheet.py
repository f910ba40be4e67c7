"""The cut sheet: every line once, in order, with offsets that a tape can follow."""

import math
import re
from dataclasses import replace

import pytest
import shapely

from kerfline.app.day import plan_day
from kerfline.app.placements import placed_layout
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.day import DayInput, PourChoice, SawChoice, Side, SteelChoice
from kerfline.model.slab import JointKind
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.baselines import baselines
from kerfline.sheets.cut.areas import layout_in, named_area, pour_areas
from kerfline.sheets.cut.lines import Saw, cut_lines, square_check
from kerfline.sheets.cut.passes import passes_along
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.sheets.cut.words import ends_words
from kerfline.sheets.marks import Layer, Path
from kerfline.sheets.plan_labels import path_line
from kerfline.sheets.plan_marks import TICK_WIDTH
from kerfline.units import MM3_PER_YD3, MM_PER_FOOT, MM_PER_INCH, Display, Unit, format_length
from shapes import workshop_job, workshop_layout
from sheet_checks import assert_clean

RULES = SlabRules(rule_set=load("floor"))


@pytest.fixture(scope="module")
def sheets():
    return cut_sheet(workshop_job(), workshop_layout(), RULES)


DAY = DayInput(
    pours=PourChoice(volume=14 * MM3_PER_YD3, access=(Side.BOTTOM,)),
    saws=SawChoice(blade=10 * MM_PER_INCH),
    steel=SteelChoice(dowels="ufc-3-260-02"),
)


def parted():
    return placed_layout(workshop_job().slab, workshop_layout(), DAY, workshop_job().display)


def cuts(units=Unit.FT):
    job = workshop_job(units)
    base = baselines(job.slab)
    return cut_lines(job, passes_along(workshop_layout(), base), base)


@pytest.fixture(scope="module")
def plan():
    job = workshop_job()
    return plan_day(job.slab, parted(), RULES, DAY, job.display)


@pytest.fixture(scope="module")
def areas(plan):
    return pour_areas(plan)


@pytest.fixture(scope="module")
def sets(areas, plan):
    saw = Saw.planned(plan.placement.method, DAY.saws, Display.FEET_INCHES)
    return [cut_sheet(workshop_job(), parted(), RULES, saw=saw, area=a) for a in areas]


def words_of(sheets):
    return " ".join(t.text for s in sheets for t in s.texts).replace("\u00a0", " ")


def test_every_control_joint_is_cut_once_and_no_other():
    wanted = [j.id for j in workshop_layout().joints if j.kind is JointKind.CONTROL]
    assert sorted(c.joint for c in cuts()) == sorted(wanted)
    assert [c.number for c in cuts()] == list(range(1, len(wanted) + 1))


def test_lines_are_cut_one_after_another_along_the_slab():
    middles = [(c.start[0] + c.end[0]) / 2 for c in cuts()]
    assert [round(m) for m in middles] == sorted(round(m) for m in middles)


def test_cuts_start_at_the_end_nearer_to_corner_a():
    for cut in cuts():
        assert sum(cut.start) <= sum(cut.end) + 1e-6
        assert math.dist(cut.start, cut.end) == pytest.approx(cut.length)


def test_the_square_check_is_the_largest_rectangle_at_corner_a():
    job = workshop_job()
    sides = square_check(job, workshop_layout(), baselines(job.slab))
    assert sides == pytest.approx((60 * MM_PER_FOOT, 24 * MM_PER_FOOT))


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


def test_a_blade_of_14_inches_leaves_3_inches_at_an_isolated_wall():
    """14 in blade, 1-1/4 in deep: 3.008 in uncut at the surface (circle geometry; trade page: 2 to 4 in)."""
    from kerfline.placement.kerf import cut_end

    assert cut_end(14 * 25.4, 1.25 * 25.4).surface / 25.4 == pytest.approx(3.008, abs=5e-4)


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


def test_the_placements_share_out_every_line_and_no_line_twice(areas, plan):
    """Sawn length and numbers over all sheets are those of the day sheet."""
    passes = [one for area in areas for one in area.passes]
    assert [one.number for one in passes] == sorted({c.order for c in plan.placement.cutting.cuts})
    whole = sum(w.sawn.line.length for w in plan.placement.windows)
    assert sum(one.sawn.line.length for one in passes) == pytest.approx(whole, abs=2 * len(passes))


def test_a_line_keeps_inside_its_placement(areas):
    for area in areas:
        near = area.region.buffer(TOUCH)
        assert all(near.covers(one.sawn.line) for one in area.passes)


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


def test_a_cut_that_ends_on_a_construction_joint_says_so_and_reaches_it(areas):
    job = workshop_job()
    for area in areas:
        base = baselines(job.slab, area.region)
        lines = cut_lines(job, area.passes, base, formed=area.formed)
        fronts = shapely.union_all([joint.line for joint in area.formed])
        for cut in lines:
            for end, formed in zip(cut.ends, cut.formed, strict=True):
                assert formed == (fronts.distance(shapely.Point(end.at)) <= TOUCH)
                if formed:
                    assert fronts.distance(shapely.Point(end.at)) < 1e-6
                    assert "construction joint" in ends_words(cut, job.display)


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


def test_totals_of_a_placement_are_of_its_own_lines_and_name_the_blade(areas, sets):
    for area, sheets in zip(areas, sets, strict=True):
        length = sum(one.sawn.line.length for one in area.passes) / MM_PER_FOOT
        said = re.search(r"slab: (\d+) lines?, ([\d.]+) ft", words_of(sheets))
        assert int(said[1]) == len(area.passes)
        assert float(said[2]) == pytest.approx(length, abs=0.6)
        assert 'blade 10"' in words_of(sheets)


def test_the_square_check_of_a_placement_lies_in_it(areas):
    """The diagonal of the sides by Pythagoras; the rectangle keeps inside the placement's outline."""
    job = workshop_job()
    for area in areas:
        base = baselines(job.slab, area.region)
        x, y = square_check(job, layout_in(area, parted()), base, area.region)
        corner = base.origin
        rectangle = shapely.box(*corner, corner[0] + x, corner[1] + y)
        solid = shapely.union_all(
            [area.region, *job.slab.boxouts, *(o.polygon for o in job.slab.openings)]
        )
        assert rectangle.difference(solid.buffer(2.0)).area == pytest.approx(0.0, abs=1.0)


def test_the_key_plan_tones_this_placement_and_numbers_all(areas, sets):
    for sheets in sets:
        assert any(t.text == "Key plan" for t in sheets[0].texts)
        numbers = [t.text for t in sheets[0].texts if t.layer is Layer.SYMBOL]
        assert {area.id for area in areas} <= set(numbers)


def test_one_placement_is_one_sheet_set_as_before():
    job = workshop_job()
    one = plan_day(job.slab, workshop_layout(), RULES, DayInput(), job.display)
    assert len(one.placement.pours.pours) == 2  # its planned construction joint parts it
    assert pour_areas(one)[0].formed[0].id == "J12"
    sawn = tuple(replace(j, kind=JointKind.CONTROL) for j in workshop_layout().joints)
    plain = replace(workshop_layout(), joints=sawn)
    assert pour_areas(plan_day(job.slab, plain, RULES, DayInput(), job.display)) == ()


def test_an_area_that_someone_names_has_only_its_lines():
    job, layout = workshop_job(), workshop_layout()
    hall = shapely.box(0, 0, 36 * MM_PER_FOOT, 24 * MM_PER_FOOT)
    passes = passes_along(layout, baselines(job.slab))
    sheets = cut_sheet(job, layout, RULES, area=named_area("H", "hall", hall, passes))
    numbers = [int(t.text) for t in sheets[0].texts if t.in_plan and t.text.isdigit()]
    inside = [p.number for p in passes if p.sawn.line.intersection(hall).length > 10]
    assert sorted(numbers) == inside
    assert 0 < len(inside) < len(passes)
    assert sheets[0].title == "Cut sheet, hall"
    assert_clean(sheets)


def test_the_legend_of_a_placement_names_only_what_lies_in_it(areas, sets):
    """The keep-out is in the second placement alone, the drain in the first."""
    keeps = ["K  no cut here" in words_of(s) for s in sets]
    pipes = ["N  pipe, drain" in words_of(s) for s in sets]
    assert keeps == [
        a.region.intersects(workshop_job().slab.keep_outs[0].outline.polygon) for a in areas
    ]
    assert keeps.count(True) == 1
    assert pipes.count(True) == 1
