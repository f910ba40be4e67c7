"""The day sheet and its text: what stands on them and that it fits."""

import math
import re
from dataclasses import replace

import pytest
import shapely

from kerfline.app.day import plan_day
from kerfline.files.sheet_pdf import pdf_bytes
from kerfline.files.sheet_svg import svg_bytes
from kerfline.geometry.ring import Ring
from kerfline.model.day import (
    Concrete,
    DayInput,
    MixSetting,
    PourChoice,
    SawChoice,
    SettingRule,
)
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab
from kerfline.sheets.day.sheet import day_sheets, map_view
from kerfline.sheets.day.text import day_text
from kerfline.sheets.lettering import text_corners
from kerfline.sheets.marks import Fill, Layer, Path, Text
from kerfline.units import MM3_PER_YD3, Display, Unit
from shapes import feet, layout_of, workshop_job, workshop_layout, workshop_slab
from workshop_days import DAY, RULES, WEATHER, parted, planned


def words(sheets):
    return " ".join(text.text for sheet in sheets for text in sheet.texts)


def test_everything_lies_inside_the_frame(sheets):
    """No mark of any sheet leaves the paper's frame; no text runs over it."""
    for sheet in sheets:
        left, bottom, right, top = sheet.paper.frame
        frame = shapely.box(left, bottom, right, top).buffer(0.5)
        for mark in sheet.marks:
            if isinstance(mark, Text):
                assert frame.covers(shapely.Polygon(text_corners(mark))), mark.text
            elif isinstance(mark, Path):
                assert frame.covers(shapely.MultiPoint(mark.points))
            else:
                assert isinstance(mark, Fill)
                assert all(frame.covers(shapely.MultiPoint(ring)) for ring in mark.rings)


def test_no_two_texts_of_the_first_sheet_overlap(sheets):
    """Map, time line, tables and cautions leave each other room."""
    boxes = [(t.text, shapely.Polygon(text_corners(t)).buffer(-0.05)) for t in sheets[0].texts]
    clashes = [
        (a, b)
        for i, (a, first) in enumerate(boxes)
        for b, second in boxes[i + 1 :]
        if first.intersects(second)
    ]
    assert clashes == []


def test_the_set_says_everything_the_crew_needs(sheets, plan):
    """Orders, windows, saws, weather, take-off, cautions and assumptions."""
    said = words(sheets)
    for head in (
        "Concrete to order",
        "Placements in order",
        "Trucks, day 1",
        "Mind today",
        "Safety",
        "Last load",
        "Saws",
        "Weather",
        "Cutting, one line after another",
        "Take-off",
        "Assumptions, to be confirmed",
    ):
        assert head in said
    assert f"{len(sheets)} of {len(sheets)}" in said
    assert all(str(cut.window.sawn.joint) in said for cut in plan.placement.cutting.cuts)


@pytest.mark.parametrize("size", ["letter", "tabloid", "arch-d", "a4", "a3", "a1"])
def test_every_paper_holds_the_day(plan, size):
    """Frames hold their marks on all six papers."""
    job = workshop_job()
    job = replace(job, sheet=replace(job.sheet, size=size))
    sheets = day_sheets(job, parted(), plan)
    for sheet in sheets:
        left, bottom, right, top = sheet.paper.frame
        frame = shapely.box(left, bottom, right, top).buffer(0.5)
        assert all(frame.covers(shapely.Polygon(text_corners(t))) for t in sheet.texts)
    first = words([sheets[0]])
    for head in ("Concrete to order", "Mind today", "Fresh concrete is caustic", "day 1"):
        assert head.lower() in first.lower()


def test_a_turned_slab_lies_along_the_paper():
    """A slab at 30 degrees is drawn along its own faces, inside the region that it was given."""
    turned = shapely.affinity.rotate(workshop_slab().outline.polygon, 30, origin=(0, 0))
    job = replace(workshop_job(), slab=Slab(outline=Ring.of(turned), thickness=101.6))
    region = (20.0, 20.0, 300.0, 200.0)
    view = map_view(job, region)
    assert shapely.box(*region).buffer(0.1).covers(view.shape(turned))


def test_writers_take_the_sheets(sheets):
    """SVG and PDF of every sheet; the same input gives the same bytes."""
    again = day_sheets(workshop_job(), parted(), planned())
    assert [svg_bytes(s) for s in sheets] == [svg_bytes(s) for s in again]
    assert pdf_bytes(sheets).startswith(b"%PDF")


def test_a_metric_job_has_a_metric_sheet():
    """A3, scale as 1:n."""
    plan = planned(display=Display.METRIC)
    sheet = day_sheets(workshop_job(Unit.MM), workshop_layout(), plan)[0]
    assert sheet.paper.name == "a3"
    assert "scale 1:" in words([sheet])


def test_a_crowded_map_leaves_numbers_out_and_says_so():
    """A floor of 360 bays on a letter sheet: every cut's number is drawn or counted as left out."""
    slab = Slab(outline=Ring(feet((0, 0), (240, 0), (240, 150), (0, 150))), thickness=152.4)
    lines = [feet((x, 0), (x, 150)) for x in range(10, 240, 10)]
    lines += [feet((0, y), (240, y)) for y in range(10, 150, 10)]
    layout = layout_of(slab, [(JointKind.CONTROL, Reason.SPAN, li) for li in lines])
    day = DayInput(starts=(6.0,), concrete=Concrete(rate=100 * MM3_PER_YD3))
    plan = plan_day(slab, layout, RULES, day, Display.FEET_INCHES)
    job = replace(workshop_job(), slab=slab)
    sheet = day_sheets(replace(job, sheet=replace(job.sheet, size="letter")), layout, plan)[0]
    tags = [t.text for t in sheet.texts if t.layer is Layer.TAG and t.height == sheet.paper.small]
    drawn = sum(tag.isdigit() for tag in tags)
    told = re.search(r"no room for the numbers of (?:(\d+) lines|([J\d, ]+))", words([sheet]))
    left_out = int(told[1]) if told[1] else told[2].count("J")
    assert left_out > 0
    assert drawn + left_out == len(plan.placement.cutting.cuts)


def test_concrete_too_cold_to_set_is_told_and_drawn():
    """Nurse-Saul above its datum only: at 1 °C of concrete under frost no line ever opens for sure."""
    frost = tuple(replace(hour, air=-6.0) for hour in WEATHER)
    cold = replace(
        DAY,
        weather=frost,
        concrete=Concrete(temperature=1.0),
        setting=MixSetting(rule=SettingRule.NURSE_SAUL),
    )
    plan = planned(cold)
    text = day_text(plan, Display.FEET_INCHES)
    assert "not within ten days" in text
    assert "too cold to be cut" in text
    assert "cold weather by ACI 306R" in text
    sheets = day_sheets(workshop_job(), parted(), plan)
    assert "not within ten days" in words(sheets)


def test_a_slab_without_joints_is_one_placement_with_nothing_to_cut():
    """A landing of 8 x 6 ft."""
    slab = Slab(outline=Ring(feet((0, 0), (8, 0), (8, 6), (0, 6))), thickness=101.6)
    layout = layout_of(slab, [])
    plan = plan_day(slab, layout, RULES, DAY, Display.FEET_INCHES)
    assert len(plan.placement.pours.pours) == 1
    assert "no line is sawn" in day_text(plan, Display.FEET_INCHES)
    sheets = day_sheets(replace(workshop_job(), slab=slab), layout, plan)
    assert "Cutting, one line after another" not in words(sheets)


def test_the_sun_is_told_where_it_is_known():
    """Strongest while concrete is placed and finished, not after."""
    sunny = tuple(replace(hour, sun=60.0 * hour.clock) for hour in WEATHER)
    one_day = replace(DAY, weather=sunny, pours=PourChoice())
    plan = planned(one_day)
    last = math.floor(plan.placement.hours[-1].finished[1])
    assert f"sun up to {60 * last} W/m2" in day_text(plan, Display.FEET_INCHES)
    assert "sun up to" not in day_text(planned(), Display.FEET_INCHES)


def test_more_lines_than_any_saw_can_cut_in_time():
    """A saw that crawls: the text and the sheet say that no number of saws is enough."""
    crawl = replace(DAY, saws=SawChoice(rate=100.0))
    text = day_text(planned(crawl), Display.FEET_INCHES)
    assert "no number of saws gets every line within its window" in text
    assert "LATE: " in text
