"""Lengths and scales as people write them, read into millimetres."""

import math

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from kerfline.errors import InputRefused
from kerfline.units import Unit, parse_length, parse_scale, unit_written

TWELVE_SIX_AND_A_HALF = 150.5 * 25.4


@pytest.mark.parametrize(
    "text",
    [
        "12'-6 1/2\"", "12' 6.5\"", "12'6.5\"", "12'-6-1/2\"", "12 ft 6 1/2 in", "150 1/2 in",
        "150.5 in", "150-1/2\"", "150.5\"", "12.541666666666666 ft", "3822.7 mm", "3.8227 m",
        " 12'-6 1/2\" ", "12′-6 1/2″", "12’-6½”", "12 feet 6 1/2 inches", "12FT 6.5IN", "150.5 in.",
        "3.8227e3 mm", "12'-6.5", "+3822.7 mm",
    ],
)  # fmt: skip
def test_the_ways_to_write_one_length(text):
    assert parse_length(text) == pytest.approx(TWELVE_SIX_AND_A_HALF)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("1 in", 25.4), ("1 ft", 304.8), ("1 m", 1000.0), ("1 mm", 1.0), ("1'", 304.8),
        ('1"', 25.4), ("3/4 in", 19.05), ("½ in", 12.7), ("-1'-6\"", -457.2), ("−2 ft", -609.6),
        ("0 ft", 0.0), (".5 m", 500.0), ("5. ft", 1524.0), ("1''", 25.4),
    ],
)  # fmt: skip
def test_factors_are_those_of_the_international_yard(text, mm):
    """International yard and pound agreement, 1959: the yard is 0.9144 m, so the inch 25.4 mm."""
    assert parse_length(text) == pytest.approx(mm)


@pytest.mark.parametrize(("unit", "mm"), [("ft", 3810), ("in", 317.5), ("m", 12500), ("mm", 12.5)])
@pytest.mark.parametrize("number", [12.5, "12.5", "12 1/2"])
def test_a_bare_number_is_in_the_declared_unit(unit, mm, number):
    assert parse_length(number, Unit(unit)) == pytest.approx(mm)


@pytest.mark.parametrize("number", [12, 12.5, "12", "-3 1/2"])
def test_a_bare_number_without_a_unit_is_refused_with_what_to_write(number):
    with pytest.raises(InputRefused, match=r"a bare number needs a unit.*12.5 ft"):
        parse_length(number)


@pytest.mark.parametrize(
    "text",
    [
        "", " ", "ft", "four ft", "12 yards", "12 ft2", "3 m2", "12 ft 6 ft", "5 3", "1/2/3 in", "1,5 m", "12'6'",
        "--5 ft", "1 ft -2 in -3", "nan", "inf ft", "0x10 mm", True, False,
    ],
)  # fmt: skip
def test_what_is_no_length_is_refused(text):
    with pytest.raises(InputRefused, match="this is not a length"):
        parse_length(text, Unit.FT)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, "1e999 ft", "1/0 in", "5 1/0 in"])
def test_what_is_not_finite_is_refused(value):
    with pytest.raises(InputRefused, match="a length must be finite"):
        parse_length(value, Unit.MM)


@pytest.mark.parametrize("text", ["9" * 400 + " 1/2 in", "9" * 5000 + "/3 in", "9" * 5000 + " mm"])
def test_numbers_without_end_are_refused_as_not_finite(text):
    with pytest.raises(InputRefused, match="a length must be finite"):
        parse_length(text)


def test_the_place_is_told():
    with pytest.raises(InputRefused, match="wall 3: this is not a length"):
        parse_length("x", where="wall 3")


@given(st.text() | st.text(st.sampled_from("0123456789 -/.'\"eftinm")))
@example("1/0")
def test_any_text_is_a_finite_length_or_refused(text):
    try:
        value = parse_length(text, Unit.FT)
    except InputRefused:
        return
    assert math.isfinite(value)


def test_what_is_too_long_to_show_is_cut():
    with pytest.raises(InputRefused) as refused:
        parse_length("9" * 400 + " 1/2 in")
    assert refused.value.mistakes[0].found == "9" * 40 + "..."
    with pytest.raises(InputRefused) as refused:
        parse_length("9" * 34 + "1/0 in")
    assert refused.value.mistakes[0].found == "9" * 34 + "1/0 in"


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("12 ft", Unit.FT), ("12'-6\"", Unit.FT), ("5'", Unit.FT), ("6 in", Unit.IN),
        ("6 1/2\"", Unit.IN), ("3.81 metres", Unit.M), ("3810 mm", Unit.MM), ("12", None),
        ("12 yards", None), ("", Unit.IN),
    ],
)  # fmt: skip
def test_the_unit_that_a_length_is_written_in(text, unit):
    assert unit_written(text) is unit


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
