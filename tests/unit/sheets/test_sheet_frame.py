"""Frame, title block and column of every sheet of a set."""

from kerfline.model.job import SheetChoice
from kerfline.sheets.paper import paper
from kerfline.sheets.sheet_frame import INSET, SheetSet, column_region, column_width, text_sheets
from kerfline.sheets.table import Column, Table
from kerfline.sheets.title_block import title_height
from shapes import workshop_job
from views import view

PAPER = paper("tabloid")


def sheet_set(**fields):
    return SheetSet(
        job=workshop_job(sheet=SheetChoice(fields=fields, mark="abc")),
        paper=PAPER,
        name="joint-plan",
        title="Joint plan",
    )


def said(sheet):
    return [text.text for text in sheet.texts]


def test_sheets_are_numbered_in_the_end_and_carry_the_run_mark():
    drawn = sheet_set()
    drawn.new([view(96.0)])
    drawn.new(title="Joint plan: tables")
    first, second = drawn.finished()
    assert (first.number, second.number, first.count) == (1, 2, 2)
    assert "1 of 2" in said(first)
    assert {"abc", "ANSI B", "Workshop", "joint plan", '1/8" = 1\'-0"'} <= set(said(first))
    assert "Joint plan: tables" in said(second)
    assert second.views == ()


def test_what_the_job_says_goes_before_what_the_program_does():
    drawn = sheet_set(project="Boathouse", title="Cuts", type="sketch")
    drawn.new()
    words = said(drawn.finished()[0])
    assert {"Boathouse", "Cuts", "sketch"} <= set(words)
    assert "Workshop" not in words


def test_a_sheet_across_which_tables_go_has_no_column_line():
    drawn = sheet_set()
    drawn.new()
    drawn.new(column=False)
    with_, without = drawn.finished()
    assert len(with_.marks) == len(without.marks) + 1


def test_the_column_stands_above_the_title_block():
    region = column_region(PAPER)
    _, bottom, right, top = PAPER.frame
    assert region.right - region.left == column_width(PAPER) == PAPER.column - 2 * INSET
    assert region.bottom == bottom + title_height(PAPER.small) + INSET
    assert (region.right, region.top) == (right - INSET, top - INSET)


def test_tables_too_many_for_one_sheet_go_on_and_none_is_lost():
    rows = tuple((f"row {n}", "x") for n in range(1200))
    drawn = sheet_set()
    text_sheets(drawn, [Table("Long", (Column("no."), Column("what")), rows, PAPER.small)])
    sheets = drawn.finished()
    assert len(sheets) > 1
    words = {w for s in sheets for w in said(s)}
    assert {f"row {n}" for n in range(1200)} <= words
    assert "Joint plan: tables" in words


def test_a_table_wider_than_the_sheet_is_wrapped_not_cut():
    wide = Table(
        "Wide",
        tuple(Column(f"c{n}", widest=90.0) for n in range(8)),
        (("several words " * 6,) * 8,),
        PAPER.small,
    )
    drawn = sheet_set()
    text_sheets(drawn, [wide])
    right = PAPER.frame[2]
    for text in drawn.finished()[0].texts:
        assert text.at[0] <= right
