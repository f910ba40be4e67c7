"""What stands under the plan: its title and scale, the bars and the north arrow."""

import math

import pytest

from kerfline.sheets.marks import Board
from kerfline.sheets.parts import is_narrow
from kerfline.sheets.plan_footer import add_footer
from views import fills, texts, workshop_plan


def footer(plan):
    board = Board()
    add_footer(board, plan)
    return texts(board), board


def test_the_title_the_scale_and_the_bars_stand_under_the_plan():
    (plan,) = workshop_plan(size="arch-d", scale=48.0)
    said, _ = footer(plan)
    assert "Plan" in said
    assert 'scale 1/4" = 1\'-0", slab 4" thick' in said
    assert "check bar 4 in: measure before use" in said
    assert "N" in said


def test_on_small_paper_the_bars_are_stacked_and_the_notes_say_the_thickness():
    plan = workshop_plan(size="letter", scale=192.0)[0]
    assert is_narrow(plan.paper)
    said, board = footer(plan)
    assert not any("thick" in words for words in said)
    check = next(m for m in board if getattr(m, "ref", "") == "check bar")
    left, _, right, _ = plan.paper.frame
    assert all(left < x < right - plan.paper.column for x, _ in check.points)


def test_a_part_is_told_by_its_number_among_all():
    plans = workshop_plan(size="letter", scale=96.0)
    count = len(plans)
    said = [" ".join(footer(plans[parts[0]])[0]) for parts in plans[0].choice.sheets]
    assert count > 1
    for words in said:
        assert f"of {count}" in words or f"/{count}" in words


def test_the_arrow_turns_with_the_slab_on_the_paper():
    (plan,) = workshop_plan(size="arch-d", north=30.0)
    _, board = footer(plan)
    tip, _, notch = fills(board)[0].rings[0]
    lean = math.degrees(math.atan2(tip[1] - notch[1], tip[0] - notch[0]))
    assert lean == pytest.approx(90 + 30 + plan.view.turn)
