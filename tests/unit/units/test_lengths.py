"""Lengths as text and as millimetres."""

import math

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from kerfline.errors import InputRefused
from kerfline.units import (
    Display,
    Unit,
    enumerated,
    feet_inches,
    format_area,
    format_depth,
    format_length,
    format_run,
    grid_step,
    in_words,
    inches,
    metric,
    parse_length,
    stored_length,
    stored_run,
)

SIXTEENTH = 25.4 / 16
TWELVE_SIX_AND_A_HALF = 150.5 * 25.4

lengths = st.floats(-1e7, 1e7)


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


@given(lengths)
def test_feet_and_inches_read_back_to_the_nearest_sixteenth(mm):
    assert parse_length(feet_inches(mm)) == pytest.approx(mm, abs=SIXTEENTH / 2 + 1e-6)


@given(st.floats(0, 1e7))
def test_inches_alone_read_back_to_the_nearest_sixteenth(mm):
    assert parse_length(inches(mm)) == pytest.approx(mm, abs=SIXTEENTH / 2 + 1e-6)


@given(lengths)
def test_metric_reads_back_to_the_nearest_millimetre(mm):
    assert parse_length(metric(mm)) == pytest.approx(mm, abs=0.5)


@given(st.integers(-(10**6), 10**6))
def test_a_whole_number_of_sixteenths_reads_back_exactly_and_writes_the_same(sixteenths):
    text = feet_inches(sixteenths * SIXTEENTH)
    assert parse_length(text) == pytest.approx(sixteenths * SIXTEENTH, abs=1e-9)
    assert feet_inches(parse_length(text)) == text


@given(st.integers(0, 15), st.integers(0, 11), st.integers(0, 500))
def test_fractions_are_reduced_and_inches_stay_below_twelve(part, inch, foot):
    text = feet_inches((foot * 12 + inch) * 25.4 + part * SIXTEENTH)
    assert text.startswith(f"{foot}'-{inch}")
    if "/" in text:
        top, bottom = (int(n) for n in text.split()[1].rstrip('"').split("/"))
        assert math.gcd(top, bottom) == 1
        assert 0 < top < bottom <= 16


@pytest.mark.parametrize(
    ("mm", "text"),
    [
        (TWELVE_SIX_AND_A_HALF, "12'-6 1/2\""), (3048.0, "10'-0\""), (0.0, "0'-0\""),
        (-0.1, "0'-0\""), (-457.2, "-1'-6\""), (304.7, "1'-0\""), (25.4 * 11.99, "1'-0\""),
    ],
)  # fmt: skip
def test_feet_and_inches_as_they_are_written(mm, text):
    assert feet_inches(mm) == text


@pytest.mark.parametrize(
    ("mm", "text"), [(114.3, '4 1/2"'), (101.6, '4"'), (19.05, '3/4"'), (0.0, '0"'), (304.8, '12"')]
)
def test_thicknesses_are_in_inches_alone(mm, text):
    assert format_depth(mm, Display.FEET_INCHES) == text


@pytest.mark.parametrize(("mm", "text"), [(3810.4, "3810 mm"), (-0.4, "0 mm"), (-12.0, "-12 mm")])
def test_metric_lengths_are_whole_millimetres(mm, text):
    assert format_length(mm, Display.METRIC) == format_depth(mm, Display.METRIC) == text


def test_areas_and_runs():
    assert format_area(100 * 304.8**2, Display.FEET_INCHES) == "100.0 ft2"
    assert format_area(10.45e6, Display.METRIC) == "10.45 m2"
    assert format_run(498.2 * 304.8, Display.FEET_INCHES) == "498 ft"
    assert format_run(151_800, Display.METRIC) == "151.8 m"


def test_a_unit_decides_how_lengths_are_shown_and_rounded():
    assert Unit.IN.display is Display.FEET_INCHES
    assert Unit.MM.display is Display.METRIC
    assert grid_step(Display.FEET_INCHES) == 25.4
    assert grid_step(Display.METRIC) == 10.0


def test_a_stored_length_is_written_in_the_unit_in_which_it_is_read():
    kept = f"open floor: {stored_length(12192)} is more than {stored_length(3810)}"
    assert in_words(kept, Display.FEET_INCHES) == "open floor: 40'-0\" is more than 12'-6\""
    assert in_words(kept, Display.METRIC) == "open floor: 12192 mm is more than 3810 mm"


def test_a_stored_total_is_written_as_for_ordering():
    kept = f"Pattern A1 takes {stored_run(151_800)} more joint."
    assert in_words(kept, Display.FEET_INCHES) == "Pattern A1 takes 498 ft more joint."
    assert in_words(kept, Display.METRIC) == "Pattern A1 takes 151.8 m more joint."


def test_other_braces_of_a_user_are_left_as_they_are():
    assert in_words("bay {A} at {12}", Display.METRIC) == "bay {A} at {12}"


@pytest.mark.parametrize(
    ("words", "said"),
    [([], ""), (["a"], "a"), (["a", "b"], "a and b"), (["a", "b", "c"], "a, b and c")],
)
def test_words_in_a_sentence(words, said):
    assert enumerated(words) == said
