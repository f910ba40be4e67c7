"""Scales of drawings as people write them."""

import pytest

from kerfline.errors import InputRefused
from kerfline.units import parse_scale


@pytest.mark.parametrize(
    ("text", "scale"),
    [
        ('1/8"=1\'-0"', 96.0),
        ('1/4" = 1\'-0"', 48.0),
        ("1:100", 100.0),
        ("96", 96.0),
        (50, 50.0),
        ("1", 1.0),
        ("1:1", 1.0),
        ("10 mm = 1 m", 100.0),
    ],
)
def test_a_scale_is_read_as_its_denominator(text, scale):
    assert parse_scale(text) == pytest.approx(scale)


@pytest.mark.parametrize(
    "text",
    [
        "0.5",
        "0.999",
        "2:1",
        "1:0.5",
        "1:0",
        "0:1",
        "0",
        "-96",
        "1:-100",
        "inf",
        "nan",
        "",
        "x",
        "1'=1\"",
    ],
)
def test_what_is_no_scale_or_makes_things_larger_is_refused(text):
    with pytest.raises(InputRefused, match="this is not a scale") as refused:
        parse_scale(text)
    assert "--scale" in str(refused.value)
