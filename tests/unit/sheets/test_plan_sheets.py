"""A set of sheets with a plan: parts, blocks that flow on, and what had no room."""

from kerfline.model.job import SheetChoice
from kerfline.sheets.plan_drawing import Kind
from kerfline.sheets.plan_labels import LeftOut
from kerfline.sheets.plan_sheets import plan_sheets
from kerfline.sheets.prose import Prose
from kerfline.sheets.stations import JOINT
from kerfline.sheets.table import Column, Table
from shapes import workshop_job, workshop_layout
from views import plans_of

SAID = Prose("Said", ("words " * 40,), 2.5, 80.0, first=0)


def drawn(write, draw=lambda *_: LeftOut(), job=None, **kind):
    job = job or workshop_job()
    named = Kind(name="plan", title="Plan", **kind)
    return plan_sheets(job, workshop_layout(), (), named, draw=draw, write=write)


def said(sheet):
    return " ".join(text.text for text in sheet.texts)


def test_blocks_stand_beside_the_plan_and_empty_ones_nowhere():
    empty = Table("Nothing", (Column("x"),), (), 2.5)
    (sheet,) = drawn(lambda *_: [SAID, None, empty])
    assert "Said" in said(sheet)
    assert "Nothing" not in said(sheet)
    assert (sheet.name, sheet.title, sheet.number, sheet.count) == ("plan", "Plan", 1, 1)
    assert sheet.view is not None


def test_a_table_that_finds_no_room_goes_on_to_a_sheet_of_its_own():
    rows = tuple((f"row {n}", "words " * 6) for n in range(150))
    sheets = drawn(
        lambda *_: [Table("Long", (Column("no."), Column("what", widest=40.0)), rows, 2.5)]
    )
    assert len(sheets) > 1
    assert [sheet.count for sheet in sheets] == [len(sheets)] * len(sheets)
    assert sheets[-1].view is None
    everywhere = " ".join(map(said, sheets))
    assert all(f"row {n}" in everywhere for n in (0, 75, 149))


def test_a_tape_without_room_is_said_beside_the_plan_and_the_plan_is_tried_larger():
    seen = []

    def draw(_, plan):
        seen.append(plan.view.scale)
        return LeftOut(ties=["B 12'-3\" at J1"] * 3)

    sheets = drawn(lambda *_: [], draw)
    assert "The plan has no room for B 12'-3\" at J1" in said(sheets[0])
    assert min(seen) < max(seen)


def test_a_plan_in_parts_has_a_key_to_them():
    _, sheets = plans_of(
        workshop_job(sheet=SheetChoice(size="letter", scale=96.0)), workshop_layout()
    )
    assert "Key plan" in said(sheets[0])
    (_,), (sheet,) = plans_of(workshop_job(), workshop_layout())
    assert "Key plan" not in said(sheet)


def test_stations_beyond_the_rank_of_the_set_are_not_dimensioned():
    (all_,), _ = plans_of(workshop_job(), workshop_layout())
    (few,), _ = plans_of(workshop_job(), workshop_layout(), rank=JOINT)
    assert len(few.along) < len(all_.along)
    assert {station.rank for station in few.along} == {JOINT}
