"""What a section shows in and under the slab."""

from dataclasses import replace

import pytest

from kerfline.model.day import MaterialChoice
from kerfline.sheets.marks import Board
from kerfline.sheets.under_slab import SHEET, Under
from kerfline.units import Unit
from shapes import workshop_job


def under(display=Unit.FT, **order):
    return Under(replace(workshop_job(display), order=MaterialChoice(**order)))


def test_a_job_that_tells_nothing_shows_nothing():
    nothing = under()
    assert (nothing.words, nothing.depth(8.0)) == ("", 0.0)
    board = Board()
    nothing.steel(board, (0, 44), 10.0, 8.0)
    nothing.ground(board, (0, 44), 0.0, 8.0)
    assert board.marks == []


def test_a_base_is_as_deep_as_it_is_at_scale_and_its_stones_lie_in_it():
    base = under(base_depth=152.4)
    assert base.words == 'On 6" of compacted base.'
    assert base.depth(8.0) == pytest.approx(152.4 / 8)
    board = Board()
    base.ground(board, (0.0, 44.0), 0.0, 8.0)
    line, *stones = board.marks
    assert line.points == ((0.0, -152.4 / 8), (44.0, -152.4 / 8))
    assert stones
    for stone in stones:
        assert all(0 < x < 44 and -152.4 / 8 < y < 0 for x, y in stone.points)


def test_a_retarder_is_a_dashed_line_under_the_slab():
    sheet = under(retarder_roll=(3000.0, 30000.0), retarder_lap=152.4)
    assert sheet.words == 'On a vapour retarder, laps 6".'
    board = Board()
    sheet.ground(board, (0.0, 44.0), 0.0, 8.0)
    assert {y for m in board for _, y in m.points} == {-SHEET}
    assert max(x for m in board for x, _ in m.points) <= 44.0


def test_a_mat_lies_in_the_upper_third_and_says_its_bars():
    mat = under(mat_spacing=457.2, mat_bar=4)
    assert mat.words.startswith('No. 4 bars 18" apart each way in the upper third')
    metric = under(Unit.MM, mat_spacing=450.0, mat_bar=4)
    assert metric.words.startswith("Bars 12 mm 450 mm apart each way")
    board = Board()
    mat.steel(board, (0.0, 44.0), 30.0, 8.0)
    assert board.marks[0].points[0][1] == pytest.approx(30.0 - 101.6 / 3 / 8)
