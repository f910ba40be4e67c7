"""Details in plan: boxouts, and bars at corners and tees."""

import math
from dataclasses import replace

import pytest

from kerfline.model.bars import BAR_FIRST, BAR_LENGTH, BAR_PITCH, CORNER_BARS, TEE_BARS
from kerfline.sheets.marks import Board, Layer
from kerfline.sheets.plan_details import boxout_detail, corner_detail, tee_detail
from kerfline.units import Unit
from shapes import workshop_job, workshop_slab
from views import paths


def drawn(detail):
    board = Board()
    detail.draw(board, (100.0, 100.0))
    return board


def test_a_diamond_is_met_at_its_points_and_a_circle_at_its_rim():
    job = workshop_job()
    diamond, _, round_ = workshop_slab().columns
    for column, reach in ((diamond, diamond.size / 2 * 2**0.5), (round_, round_.size / 2)):
        detail = boxout_detail(job, column)
        starts = [m.points[0] for m in paths(drawn(detail), Layer.CONTROL)]
        assert len(starts) == 4
        middle = (100.0, 100.0 - detail.tall / 2)
        assert {round(math.dist(middle, s), 6) for s in starts} == {round(reach / detail.scale, 6)}
    assert "Diamond boxout 1'-6\" a side" in boxout_detail(job, diamond).words
    assert "Circle boxout 1'-6\" across" in boxout_detail(job, round_).words


@pytest.mark.parametrize(("asked", "count"), [(None, CORNER_BARS), (3, 3), (0, 0)])
def test_as_many_bars_cross_a_corner_as_the_job_asks_for(asked, count):
    job = replace(workshop_job(), steel=replace(workshop_job().steel, corner_bars=asked))
    detail = corner_detail(job)
    bars = paths(drawn(detail), Layer.BARS)
    assert len(bars) == count
    for bar in bars:
        (ax, ay), (bx, by) = bar.points
        assert bx - ax == pytest.approx(ay - by), "at 45 degrees"
        assert math.dist(bar.points[0], bar.points[1]) * detail.scale == pytest.approx(BAR_LENGTH)


def test_bars_lie_ahead_of_a_joint_that_stops_square_to_it():
    detail = tee_detail(workshop_job())
    board = drawn(detail)
    through = paths(board, Layer.CONTROL)[0].points[0][1]
    bars = paths(board, Layer.BARS)
    assert len(bars) == TEE_BARS
    assert [(m.points[0][1] - through) * detail.scale for m in bars] == pytest.approx(
        [BAR_FIRST + n * BAR_PITCH for n in range(TEE_BARS)]
    )


def test_bars_are_named_as_they_are_sold():
    assert "No. 4 bar" in corner_detail(workshop_job()).words
    metric = corner_detail(workshop_job(Unit.MM)).words
    assert "12 mm bar" in metric
    assert "common practice; the designer decides" in metric
