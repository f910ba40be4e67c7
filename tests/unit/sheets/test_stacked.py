"""A long strip stands in parts one under the other on one sheet, and nothing of it is lost between them."""

import re

import ezdxf
import pytest
import shapely
from shapely import LineString

from kerfline.files.sheet_dxf import dxf_bytes
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job, SheetChoice
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.marks import Layer, Path
from kerfline.units import Unit
from shapes import feet, layout_of
from sheet_checks import assert_clean, assert_no_text_on_ink, grid_lines

RULES = SlabRules(rule_set=load("floor"))
LEVEL = feet((0, 0), (400, 0), (400, 6), (0, 6))
UPRIGHT = feet((0, 0), (6, 0), (6, 400), (0, 400))


def strip(points=LEVEL, **sheet):
    """A walk of 6 x 400 ft with a joint every 8 ft."""
    slab = Slab(outline=Ring(points), thickness=100.0)
    lines = [
        (JointKind.CONTROL, Reason.SPAN, list(line.coords)) for line in grid_lines(slab, 2438.4)
    ]
    return Job(name="Walk", units=Unit.FT, slab=slab, sheet=SheetChoice(**sheet)), layout_of(
        slab, lines
    )


@pytest.mark.parametrize("points", [LEVEL, UPRIGHT], ids=["level", "upright"])
def test_a_strip_of_400_feet_stands_on_one_sheet_that_can_be_read(points):
    job, layout = strip(points)
    sheets = joint_plan(job, layout, (), RULES)
    assert len(sheets) == 1
    assert len(sheets[0].views) > 1
    assert sheets[0].view.scale <= 96
    assert_clean(sheets)


def test_the_crews_sheets_hold_several_parts_each():
    job, layout = strip()
    plans = [s for s in cut_sheet(job, layout, RULES) if s.views]
    assert len(plans) == 2
    assert all(len(s.views) == 3 for s in plans)
    assert_clean(plans)


@pytest.mark.parametrize("size", ["letter", "tabloid", "arch-d", "a3"])
def test_the_parts_together_show_every_joint_once_and_whole(size):
    job, layout = strip(size=size)
    plans = [s for s in joint_plan(job, layout, (), RULES) if s.views]
    shown = {j.id: [] for j in layout.joints}
    for sheet in plans:
        for view in sheet.views:
            for mark in sheet.marks_of(view):
                if isinstance(mark, Path) and mark.in_view and mark.ref in shown:
                    line = LineString([view.to_world(p) for p in mark.points])
                    shown[mark.ref].append(line)
    for joint in layout.joints:
        once = shapely.union_all([line.buffer(0.5, cap_style="flat") for line in shown[joint.id]])
        assert once.area == pytest.approx(joint.length, abs=1.0)
    assert_clean(plans)
    assert_no_text_on_ink(plans)


@pytest.mark.parametrize("size", ["letter", "tabloid"])
def test_match_lines_name_each_other(size):
    """Part 2 says part 1 where part 1 says part 2, and the sheet where it is another one."""
    job, layout = strip(size=size)
    plans = [s for s in joint_plan(job, layout, (), RULES) if s.views]
    said, seat, part = set(), {}, 0
    for sheet in plans:
        for view in sheet.views:
            part += 1
            seat[part] = sheet.number
            words = [
                m.text
                for m in sheet.marks_of(view)
                if m.layer is Layer.MATCH and hasattr(m, "text")
            ]
            assert f"PART {part}" in words
            for text in words:
                found = re.fullmatch(r"MATCH LINE, PART (\d+)(?:, SHEET (\d+))?", text)
                if found:
                    said.add((part, int(found[1]), int(found[2] or sheet.number)))
    neighbours = {(a, b) for a in seat for b in seat if abs(a - b) == 1}
    assert {(a, b) for a, b, _ in said} == neighbours
    assert all(seat[b] == sheet for _, b, sheet in said)


def test_each_part_has_its_own_running_dimensions():
    job, layout = strip()
    (sheet,) = joint_plan(job, layout, (), RULES)
    for view in sheet.views:
        _, bottom, _, top = view.room
        here = [
            m
            for m in sheet.measures
            if m.running and not m.upright and bottom <= m.text.at[1] < top
        ]
        ends = sorted(view.to_world((m.end[0], view.window[1]))[0] for m in here)
        x0 = view.to_world((view.own[0], view.own[1]))[0]
        x1 = view.to_world((view.own[2], view.own[1]))[0]
        assert ends[0] == pytest.approx(x0, abs=1.0)
        assert ends[-1] == pytest.approx(x1, abs=1.0)
        assert len(here) == sum(x0 - 1 <= j.path[0][0] <= x1 + 1 for j in layout.joints) + (
            (x0 < 1) + (x1 > 400 * 304.8 - 1)
        )


def test_each_part_is_a_viewport_and_its_tags_stand_in_the_model_where_they_belong(tmp_path):
    job, layout = strip()
    sheets = joint_plan(job, layout, (), RULES)
    path = tmp_path / "strip.dxf"
    path.write_bytes(dxf_bytes(job, layout, sheets))
    document = ezdxf.readfile(path)
    ports = [p for p in document.layouts.get("Joint plan").query("VIEWPORT") if p.dxf.id != 1]
    assert len(ports) == len(sheets[0].views)
    tags = {
        attrib.dxf.text: insert.dxf.insert
        for insert in document.modelspace().query("INSERT")
        for attrib in insert.attribs
    }
    for joint in layout.joints:
        at = next(place for text, place in tags.items() if text.split(" ")[0] == joint.id)
        assert abs(at.x * 25.4 - joint.path[0][0]) < 800.0
