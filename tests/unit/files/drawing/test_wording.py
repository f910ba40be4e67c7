"""How places, sizes and counts are written in notes."""

import pytest

from drawn_curves import box_ring
from kerfline.files.drawing.wording import fine, fine_point, place, wide
from kerfline.units import Display

METRIC, FEET = Display.METRIC, Display.FEET_INCHES


def test_a_place_is_its_coordinates_and_of_a_figure_its_middle():
    assert place((1000.0, -250.0), METRIC) == "(1000 mm, -250 mm)"
    assert place(box_ring(0, 0, 2000, 1000).polygon, METRIC) == "(1000 mm, 500 mm)"
    assert place((3048.0, 0.0), FEET) == "(10'-0\", 0'-0\")"


@pytest.mark.parametrize(
    ("length", "display", "words"),
    [
        (0.5, METRIC, "0.50 mm"),
        (0.999, METRIC, "1.00 mm"),
        (1.0, METRIC, "1 mm"),
        (0.5, FEET, '0.020"'),
        (25.4, FEET, "0'-1\""),
    ],
)
def test_less_than_a_millimetre_is_written_finely(length, display, words):
    assert wide(length, display) == words


def test_of_a_figure_its_area_is_written():
    assert wide(box_ring(0, 0, 2000, 1000).polygon, METRIC) == "2.00 m2"


def test_the_noise_of_arithmetic_is_taken_away():
    assert fine(1.00049) == 1.0
    assert fine(1.0006) == 1.001
    assert str(fine(-0.0001)) == "0.0"
    assert fine_point((2.9999999, -0.00001)) == (3.0, 0.0)
