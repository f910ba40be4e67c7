"""One plan on one sheet."""

import re

import pytest

from checked import findings
from kerfline.model.job import SheetChoice
from kerfline.sheets.details import detail_numbers
from kerfline.sheets.marks import Board, Text
from kerfline.sheets.placer import Spot
from kerfline.sheets.plan_view import add_dimensions, draw_plan, label_frame, labeller
from kerfline.sheets.ties import Ties
from shapes import workshop_job, workshop_layout, workshop_slab
from views import plans_of, texts, workshop_plan


def test_the_shown_part_lies_on_the_paper_at_its_scale():
    (plan,) = workshop_plan()
    left, bottom, right, top = plan.bounds
    assert (right - left, top - bottom) == pytest.approx(
        (18288 / plan.view.scale, 12192 / plan.view.scale)
    )
    frame = label_frame(plan)
    assert frame == (left - 8, bottom - 8, right + 8, top + 8)


def test_a_plan_has_its_slab_dimensions_corner_flags_and_tags_and_nothing_is_left_out():
    (plan,) = workshop_plan(size="arch-d")
    board = Board()
    left = draw_plan(board, plan, Ties(), (), detail_numbers(plan.job, plan.layout, ()))
    assert (left.tags, left.ties) == ([], [])
    flags = [m for m in board if getattr(m, "ref", "") == "re-entrant corner"]
    assert len(flags) == len(plan.job.slab.reentrant_corners) > 0
    said = texts(board)
    assert "A" in said
    assert "60'-0\"" in said
    assert {p.id for p in plan.layout.panels} <= set(said)
    assert board.measures


def test_findings_stand_on_a_plan_for_review_alone():
    found = findings(workshop_slab(), layout=workshop_layout())
    for review in (False, True):
        job = workshop_job(sheet=SheetChoice(size="arch-d", review=review))
        (plan,), _ = plans_of(job, workshop_layout(), found)
        board = Board()
        draw_plan(board, plan, Ties(), (), detail_numbers(plan.job, plan.layout, ()))
        assert any(re.match(r"F\d", words) for words in texts(board)) is review


def test_the_corner_is_lettered_on_the_first_part_alone():
    plans = workshop_plan(size="letter", scale=96.0)
    lettered = []
    for plan in plans:
        board = Board()
        add_dimensions(board, plan)
        lettered.append("A" in texts(board))
    assert lettered == [True, *[False] * (len(plans) - 1)]


def test_tags_keep_off_hatched_areas_and_dimension_texts():
    (plan,) = workshop_plan(size="arch-d")
    strings, board = Board(), Board()
    add_dimensions(strings, plan)
    maker = labeller(board, strings, plan)
    text = next(m for m in strings if isinstance(m, Text))
    assert maker.placer.place([Spot(text)]) is None
    assert (maker.height, maker.display) == (plan.paper.text, plan.job.display)
