"""A long set lists its sheets on the first one, and the list tells what stands on each."""

import re

import pytest

from kerfline.geometry.ring import Ring
from kerfline.model.job import Job, SheetChoice
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.blocks import HEAD
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.marks import Layer, Sheet, Text
from kerfline.sheets.paper import paper
from kerfline.sheets.sheet_list import listed_sheets
from kerfline.units import Unit
from shapes import closets, feet, layout_of
from sheet_checks import grid_lines

RULES = SlabRules(rule_set=load("floor"))


def sheets_of(size):
    slab = Slab(outline=Ring(feet((0, 0), (160, 0), (160, 96), (0, 96))), thickness=150.0)
    lines = [(JointKind.CONTROL, Reason.SPAN, list(g.coords)) for g in grid_lines(slab, 3657.6)]
    job = Job(name="Hall", units=Unit.FT, slab=slab, sheet=SheetChoice(size=size))
    return joint_plan(job, layout_of(slab, lines), (), RULES)


def listed(sheet):
    head = next((t for t in sheet.texts if t.ref == HEAD and t.text == "Sheets"), None)
    if head is None:
        return None
    return {
        int(found[1]): found[2]
        for t in sheet.texts
        if (found := re.fullmatch(r"(\d+): (.+)", t.text)) and t.at[1] < head.at[1]
    }


@pytest.mark.parametrize("size", ["letter", "a4"])
def test_a_long_set_lists_each_sheet_and_what_stands_on_it(size):
    sheets = sheets_of(size)
    assert len(sheets) >= 5
    lines = listed(sheets[0])
    for sheet in sheets:
        told = lines[sheet.number]
        if sheet.view:
            assert f"part {sheet.number} of" in told
        else:
            heads = {t.text for t in sheet.texts if t.ref == HEAD}
            assert any(head in told or told.startswith(head[:20]) for head in heads)
    assert all(listed(sheet) is None for sheet in sheets[1:])


def test_a_short_set_needs_none():
    sheets = sheets_of("arch-e")
    assert len(sheets) < 5
    assert listed(sheets[0]) is None


def test_stacked_parts_and_what_is_drawn_again_are_told_apart():
    """A walk in 13 parts on letter paper: two on a sheet, the last alone."""
    slab = Slab(outline=Ring(feet((0, 0), (400, 0), (400, 6), (0, 6))), thickness=100.0)
    lines = [(JointKind.CONTROL, Reason.SPAN, list(g.coords)) for g in grid_lines(slab, 2438.4)]
    job = Job(name="Walk", units=Unit.FT, slab=slab, sheet=SheetChoice(size="letter"))
    sheets = joint_plan(job, layout_of(slab, lines), (), RULES)
    count = sum(len(s.views) for s in sheets)
    told = listed(sheets[0])
    seen = 0
    for sheet in (s for s in sheets if s.views):
        first, seen = seen + 1, seen + len(sheet.views)
        parts = f"part {first}" if first == seen else f"parts {first} to {seen}"
        assert told[sheet.number] == f"Joint plan, {parts} of {count}"


def test_of_many_sheets_in_a_row_that_say_the_same_there_is_one_line():
    """Twenty parts on a sheet each, one of another title, nine sheets of one table and seven of another."""
    view = sheets_of("letter")[0].view
    size = paper("letter")

    def sheet(number, title, head, *, plan):
        text = Text(layer=Layer.TABLE, at=(0, 0), text=head, height=2.0, ref=HEAD)
        views = (view,) if plan else ()
        return Sheet(
            name="set", title=title, paper=size, number=number, count=37, views=views, marks=(text,)
        )

    sheets = [sheet(n, "Joint plan", "Key plan", plan=True) for n in range(1, 21)]
    sheets += [sheet(21, "Joint plan, part drawn larger", "Key plan", plan=True)]
    sheets += [sheet(n, "Joint plan", "Findings (continued)", plan=False) for n in range(22, 31)]
    sheets += [sheet(n, "Joint plan", "Joints (continued)", plan=False) for n in range(31, 38)]
    assert listed_sheets(sheets) == (
        "1 to 20: Joint plan, parts 1 to 20 of 20",
        "21: Joint plan, part drawn larger",
        "22 to 30: Findings (continued)",
        *(f"{n}: Joints (continued)" for n in range(31, 38)),
    )


def test_a_part_that_is_drawn_larger_is_listed_by_its_name():
    slab = closets()
    lines = [(JointKind.CONTROL, Reason.WALL, list(wall.line.coords)) for wall in slab.walls]
    job = Job(name="House", units=Unit.FT, slab=slab, sheet=SheetChoice(size="letter", scale=128.0))
    sheets = joint_plan(job, layout_of(slab, lines), (), RULES)
    larger = [s for s in sheets if s.views and s.view.scale != 128.0]
    assert larger
    assert all("drawn larger" in s.title for s in larger)
    told = listed(sheets[0])
    if told:
        assert all(told[s.number].startswith("Joint plan, part") for s in larger)
