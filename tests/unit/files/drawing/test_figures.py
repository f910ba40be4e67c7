"""Small closed figures, each one thing."""

import math

import pytest

from drawn_curves import bow, box, box_ring, closed, line
from kerfline.files.drawing.curves import Spot
from kerfline.files.drawing.figures import Form, figure_of, figures, small_figure
from kerfline.geometry.paths import Path
from kerfline.geometry.ring import Ring

CIRCLE = Ring(((0.0, 0.0), (200.0, 0.0)), (1.0, 1.0))


def test_a_circle_is_round_and_has_its_exact_diameter():
    figure = figure_of(CIRCLE, "COLS")
    assert (figure.form, figure.layer) == (Form.ROUND, "COLS")
    assert figure.size == figure.width == pytest.approx(200.0)
    assert figure.at == pytest.approx((100.0, 0.0), abs=1e-6)


def test_a_circle_of_chords_has_the_diameter_of_its_area():
    count = 48
    corners = [math.tau * i / count for i in range(count)]
    figure = figure_of(Ring(tuple((100 * math.cos(a), 100 * math.sin(a)) for a in corners)))
    assert figure.form is Form.ROUND
    area = count / 2 * 100**2 * math.sin(math.tau / count)
    assert figure.size == pytest.approx(2 * math.sqrt(area / math.pi))


def test_squares_oblongs_and_others():
    square, oblong = figure_of(box_ring(0, 0, 300, 300)), figure_of(box_ring(0, 0, 300, 200))
    assert (square.form, square.size, square.at) == (Form.SQUARE, 300, (150, 150))
    assert (oblong.form, oblong.size, oblong.width) == (Form.OBLONG, 300, 200)
    tee = Ring(
        ((0, 0), (300, 0), (300, 100), (200, 100), (200, 300), (100, 300), (100, 100), (0, 100))
    )
    assert figure_of(tee).form is Form.OTHER


@pytest.mark.parametrize(("side", "form"), [(285.0, Form.OBLONG), (287.0, Form.SQUARE)])
def test_a_side_a_twentieth_longer_makes_an_oblong(side, form):
    assert figure_of(box_ring(0, 0, 300, side)).form is form


def test_a_diamond_is_a_square_turned_by_45_degrees():
    figure = figure_of(Ring(((100, 0), (200, 100), (100, 200), (0, 100))))
    assert figure.form is Form.SQUARE
    assert figure.size == pytest.approx(100 * math.sqrt(2))
    assert figure.turn == pytest.approx(45)


def test_what_is_larger_than_asked_is_no_small_figure():
    assert small_figure(box_ring(0, 0, 300, 100), 300.0).size == 300
    assert small_figure(box_ring(0, 0, 300, 100), 299.0) is None
    assert small_figure(box_ring(0, 0, 3000, 100), 299.0) is None


def test_a_thing_drawn_in_another_is_not_another():
    found = figures(
        [closed("A", *box(0, 0, 300, 300)), closed("A", *box(100, 100, 50, 50))], [], 900.0
    )
    assert [f.size for f in found] == [300]


def test_the_same_thing_on_two_layers_counts_once():
    found = figures(
        [closed("B", *box(0, 0, 300, 300)), closed("A", *box(0, 0, 300, 300))], [], 900.0
    )
    assert [f.layer for f in found] == ["A"]


def test_they_come_in_reading_order():
    curves = [closed("A", *box(x, y, 90, 90)) for x, y in ((500, 500), (500, 0), (0, 500))]
    assert [f.at for f in figures(curves, [], 900.0)] == [(545, 45), (45, 545), (545, 545)]


def test_a_block_of_open_lines_is_the_rectangle_around_them():
    cross = [line("A", (0, 0), (200, 100), group=1), line("A", (0, 100), (200, 0), group=1)]
    (figure,) = figures(cross, [], 900.0)
    assert (figure.form, figure.size, figure.width) == (Form.OBLONG, 200, 100)
    loose = [line("A", (0, 0), (200, 100)), line("A", (0, 100), (200, 0))]
    assert figures(loose, [], 900.0) == []


def test_a_point_counts_where_no_figure_lies_around_it_and_once():
    spots = [Spot(layer="P", kind="POINT", at=at) for at in ((50, 50), (900, 0), (900.2, 0))]
    found = figures([closed("A", *box(0, 0, 100, 100))], spots, 900.0)
    assert [(f.form, f.at) for f in found] == [(Form.POINT, (900, 0)), (Form.SQUARE, (50, 50))]


def test_nothing_drawn_gives_nothing():
    assert figures([], [], 900.0) == []
    assert figures([bow("A", (0, 0), (100, 0), 0.5)], [], 900.0) == []
    assert Path(((0, 0), (1, 0))).closed is False
