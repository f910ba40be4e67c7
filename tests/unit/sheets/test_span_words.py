"""How the spacing that a layout is worked to is put into words."""

import pytest

from checked import rules
from kerfline.sheets.span_words import span_words
from kerfline.units import Display

INCH = 25.4


@pytest.mark.parametrize(
    ("worked", "words"),
    [
        (0.0, "10'-0\" a side, 12'-0\" at most"),
        (11 * 12 * INCH, "11'-0\" a side, 12'-0\" at most"),
        (12 * 12 * INCH, "12'-0\" a side at most"),
    ],
)
def test_the_side_that_is_aimed_at_and_the_most(worked, words):
    """A slab of 4 in, 36 t at most and 30 t advised (ACI 302.1R, 1996): 12 ft and 10 ft."""
    assert span_words(rules(), 4 * INCH, Display.FEET_INCHES, worked) == words


def test_in_millimetres():
    assert span_words(rules(), 4 * INCH, Display.METRIC) == "3048 mm a side, 3658 mm at most"
