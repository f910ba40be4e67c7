"""Details called out on the plan where they apply."""

import shapely

from kerfline.model.slab import JointKind
from kerfline.sheets.callouts import DETAIL, call_out, text_radius
from kerfline.sheets.details import Shown, detail_numbers
from kerfline.sheets.marks import Board, Text
from shapes import workshop_job, workshop_layout
from views import maker_on, paths, texts, view


def called(job, layout, laid=(), **more):
    board = Board()
    numbers = detail_numbers(job, layout, laid)
    call_out(maker_on(board, **more), job, numbers, layout, laid)
    return board


def test_each_detail_is_called_out_once_in_a_circle():
    job, layout = workshop_job(), workshop_layout()
    board = called(job, layout)
    numbers = detail_numbers(job, layout, ())
    assert sorted(texts(board), key=int) == [str(n) for n in sorted(numbers.values())]
    rings = [m for m in paths(board) if m.closed]
    assert len(rings) == len(numbers)
    assert all(t.ref == f"{DETAIL} {t.text}" for t in board if isinstance(t, Text))


def test_the_number_of_a_joint_leads_to_a_joint_of_its_kind():
    job, layout = workshop_job(), workshop_layout()
    board = called(job, layout)
    number = str(detail_numbers(job, layout, ())[Shown.CONSTRUCTION])
    index = next(i for i, m in enumerate(board) if isinstance(m, Text) and m.text == number)
    leader = board.marks[index + 1]
    bulkheads = [view().shape(j.line) for j in layout.joints if j.kind is JointKind.CONSTRUCTION]
    assert min(line.distance(shapely.Point(leader.points[0])) for line in bulkheads) < 1e-6


def test_one_without_room_is_no_loss():
    board = called(workshop_job(), workshop_layout(), frame=(0.0, 0.0, 1.0, 1.0))
    assert texts(board) == []


def test_a_circle_holds_a_digit():
    assert text_radius(2.5) == 2.5
