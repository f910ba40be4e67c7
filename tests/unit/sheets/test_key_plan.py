"""The key plan: which parts of the slab a sheet shows."""

import pytest

from kerfline.sheets.key_plan import TALL, key_plan
from kerfline.sheets.marks import Board
from kerfline.sheets.parts import part_name
from views import fills, paths, texts, workshop_plan


def key(here):
    plan = workshop_plan(size="letter", scale=96.0)[0]
    figure = key_plan(plan.job.slab, plan.base, plan.choice, here)
    board = Board()
    figure.draw(board, (10.0, 200.0), figure.width)
    return plan.choice, figure, board


def test_every_part_is_named_and_those_of_this_sheet_are_shaded():
    choice, _, board = key([0])
    assert len(choice.parts) > 1
    assert set(texts(board)) == {"Key plan", *(part_name(i) for i in range(len(choice.cells)))}
    assert len(fills(board)) == 1
    assert len(fills(key(list(range(len(choice.cells))))[2])) == len(choice.cells)


def test_it_keeps_inside_the_room_that_it_asks_for():
    _, figure, board = key([0])
    ys = [y for m in paths(board) for _, y in m.points]
    assert min(ys) >= 200.0 - figure.tall
    assert figure.tall <= TALL + 20.0


def test_the_slab_is_drawn_over_its_parts_in_its_own_shape():
    _, _, board = key([0])
    outline = next(m for m in paths(board) if len(m.points) == 6)
    xs, ys = zip(*outline.points, strict=True)
    assert (max(xs) - min(xs)) / (max(ys) - min(ys)) == pytest.approx(60 / 40)
