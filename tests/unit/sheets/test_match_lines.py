"""Match lines: where the slab goes on, and what that part is called."""

import re

from kerfline.sheets.marks import Board, Layer, Path, Text
from kerfline.sheets.plan_view import add_dimensions
from views import workshop_plan


def lines_of_part(plans, part):
    plan = plans[part]
    board = Board()
    add_dimensions(board, plan)
    return [m for m in board if getattr(m, "layer", None) is Layer.MATCH]


def test_a_slab_on_one_sheet_has_none():
    (plan,) = workshop_plan()
    board = Board()
    add_dimensions(board, plan)
    assert not [m for m in board if m.layer is Layer.MATCH]


def test_every_border_between_parts_is_drawn_on_both_with_the_sheet_or_part_beyond():
    plans = workshop_plan(size="letter", scale=96.0)
    assert len(plans) > 1
    choice = plans[0].choice
    for part, _ in enumerate(plans):
        said = " ".join(m.text for m in lines_of_part(plans, part) if isinstance(m, Text))
        lines = [m for m in lines_of_part(plans, part) if isinstance(m, Path)]
        assert lines
        assert said.count("MATCH LINE") == len(lines)
        others = {choice.seats[o] + 1 for o in range(len(plans)) if o != part}
        told = {int(n) for n in re.findall(r"SHEET (\d+)", said)}
        assert told <= others
