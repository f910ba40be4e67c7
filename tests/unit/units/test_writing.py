"""Lengths, areas and runs as people read them."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.units import (
    Display,
    counted,
    enumerated,
    exact_length,
    feet_inches,
    format_area,
    format_depth,
    format_length,
    format_run,
    in_steps,
    in_words,
    inches,
    listed,
    metric,
    parse_length,
    step,
    stored_length,
    stored_run,
    without_zeros,
)

FEET, METRIC = Display.FEET_INCHES, Display.METRIC
SIXTEENTH = 25.4 / 16
TWELVE_SIX_AND_A_HALF = 150.5 * 25.4

lengths = st.floats(-1e7, 1e7)


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


@pytest.mark.parametrize(
    ("mm", "feet", "whole"),
    [
        (3048.0, "10'-0\"", "3048 mm"),
        (3048.0 + 25.4 / 16, "10'-0 1/8\"", "3050 mm"),
        (3048.0 + 1.582, "10'-0 1/8\"", "3050 mm"),
        (3048.0 + 1.58, "10'-0\"", "3050 mm"),
        (-25.4 / 16, "0'-0\"", "-2 mm"),
        (0.5, "0'-0\"", "1 mm"),
        (0.49, "0'-0\"", "0 mm"),
    ],
)
def test_a_length_is_told_in_eighths_of_an_inch_or_millimetres_and_a_half_goes_up(mm, feet, whole):
    """A sixteenth is half a step; one short of it by less than two thousandths of a step goes up too."""
    assert (format_length(mm, FEET), format_length(mm, METRIC)) == (feet, whole)


@given(st.integers(-(10**5), 10**5))
def test_whole_steps_are_told_as_they_are(count):
    for display in Display:
        assert in_steps(count * step(display), display) == count


def test_a_length_that_is_read_again_keeps_its_sixteenth():
    assert exact_length(SIXTEENTH, FEET) == "0'-0 1/16\""
    assert exact_length(1.4, METRIC) == "1 mm"


@pytest.mark.parametrize(
    ("mm", "feet", "deep", "whole"),
    [
        (1e12, "3.28e+09 ft", "3.94e+10 in", "1e+12 mm"),
        (-1e12, "-3.28e+09 ft", "-3.94e+10 in", "-1e+12 mm"),
        (math.inf, "inf ft", "inf in", "inf mm"),
        (math.nan, "nan ft", "nan in", "nan mm"),
    ],
)
def test_a_length_beyond_all_slabs_is_told_by_its_size(mm, feet, deep, whole):
    assert format_length(mm, FEET) == feet_inches(mm) == feet
    assert inches(mm) == deep
    assert format_length(mm, METRIC) == metric(mm) == whole


def test_the_longest_length_that_is_told_to_the_millimetre():
    assert metric(999_999_999_999.0) == "999999999999 mm"


@pytest.mark.parametrize(
    ("count", "said"), [(0, "0 lines"), (1, "1 line"), (2, "2 lines"), (1200, "1,200 lines")]
)
def test_a_count_has_its_noun(count, said):
    assert counted(count, "line") == said


def test_a_noun_may_have_a_plural_of_its_own():
    assert (counted(1, "foot", "feet"), counted(2, "foot", "feet")) == ("1 foot", "2 feet")


def test_zeros_behind_the_point_go():
    assert without_zeros("more than 30.00 yd3") == "more than 30 yd3"
    assert without_zeros("4,000.0 ft2") == "4,000 ft2"
    assert without_zeros("30.25 yd3 and 10.05 m") == "30.25 yd3 and 10.05 m"


@pytest.mark.parametrize(
    ("count", "words"), [(0, ""), (1, "A"), (3, "A, B, C"), (4, "A, B, C and 1 more")]
)
def test_names_beyond_so_many_are_counted(count, words):
    assert listed("ABCD"[:count], 3) == words


def test_many_names_are_counted_in_thousands():
    assert listed(["x"] * 1203, 1) == "x and 1,202 more"
