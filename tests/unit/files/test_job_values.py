"""The kinds of value in a job file, read strictly."""

import datetime
import math

import pytest
from pydantic import TypeAdapter, ValidationError

from kerfline.files.job_values import (
    STEEPEST,
    Length,
    LengthFromZero,
    Number,
    NumberFromZero,
    Percent,
    PictureName,
    PicturePoint,
    PlanPoint,
    PointOrPath,
    PositiveLength,
    PositiveNumber,
    RingPoint,
    Scale,
    Share,
    SiteName,
    Text,
    Words,
)
from kerfline.geometry.ring import GREATEST_BULGE, LEAST_BULGE
from kerfline.geometry.tolerance import FARTHEST
from kerfline.units import Unit


def value(kind, given, unit=Unit.FT):
    return TypeAdapter(kind).validate_python(given, context={"unit": unit})


def refused(kind, given):
    with pytest.raises(ValidationError) as error:
        value(kind, given)
    return error.value.errors()[0]["ctx"]["what"]


def test_bare_numbers_are_in_the_unit_of_the_job():
    assert value(Length, 2) == pytest.approx(609.6)
    assert value(Length, 2, Unit.M) == pytest.approx(2000)
    assert value(Length, "4 in") == pytest.approx(101.6)
    assert value(PlanPoint, [1, "2 m"]) == pytest.approx((304.8, 2000))


@pytest.mark.parametrize("given", [True, None, [1], {}])
def test_a_length_is_a_number_or_text(given):
    assert refused(Length, given) == "a length is needed here"


def test_no_site_is_endless():
    assert value(Length, f"{FARTHEST / 1000} m") == pytest.approx(FARTHEST)
    assert refused(Length, f"{FARTHEST / 1000 * 1.001} m") == "this length is longer than any site"


@pytest.mark.parametrize(
    ("kind", "zero", "below"),
    [(PositiveLength, False, False), (LengthFromZero, True, False), (Length, True, True)],
)
def test_lengths_above_from_and_below_zero(kind, zero, below):
    for given, taken in ((0, zero), (-1, below), (1, True)):
        if taken:
            assert value(kind, given) == pytest.approx(given * 304.8)
        else:
            assert refused(kind, given).startswith("this length must")


def test_a_corner_may_have_a_bulge_and_one_too_flat_is_straight():
    assert value(RingPoint, [0, 0]) == (0, 0, 0)
    assert value(RingPoint, [0, 0, -1.5]) == (0, 0, -1.5)
    assert value(RingPoint, [0, 0, LEAST_BULGE / 2]) == (0, 0, 0)
    assert refused(RingPoint, [0, 0, GREATEST_BULGE * 1.1]) == "no arc has this bulge"
    assert refused(RingPoint, [0]) == "a point is needed here"
    assert refused(RingPoint, [0, 0, 0, 0]) == "a point is needed here"


@pytest.mark.parametrize("given", [math.inf, math.nan, True, "3", 10**400])
def test_a_number_is_finite(given):
    assert refused(Number, given) == "a finite number is needed here"


@pytest.mark.parametrize(
    ("kind", "least", "most"),
    [
        (Share, 0, 1),
        (NumberFromZero, 0, 1e9),
        (Percent, 1e-9, STEEPEST),
        (PositiveNumber, 1e-9, 1e9),
    ],
)
def test_bounds_of_numbers(kind, least, most):
    assert value(kind, least) == least
    assert value(kind, most) == most
    assert refused(kind, least - 1)
    if most < 1e9:
        assert refused(kind, most + 0.1)


@pytest.mark.parametrize(("given", "scale"), [(96, 96), ("1:50", 50), (" 1 : 20 ", 20)])
def test_a_scale_is_its_denominator(given, scale):
    assert value(Scale, given) == scale


@pytest.mark.parametrize("given", ["1:0", "2:50", "50", 0, "1:x"])
def test_what_is_no_scale(given):
    assert refused(Scale, given)


@pytest.mark.parametrize("name", ["../a.png", "a/b.png", ".hidden.png", "", "a\0.png", 3])
def test_a_picture_lies_beside_the_job_and_is_seen(name):
    assert refused(PictureName, name) == "a file's name is needed here"
    assert value(PictureName, "plan one.png") == "plan one.png"


@pytest.mark.parametrize("name", ["J1", "SLAB4", "COL-2", "CNTJ-1", "OPEN1"])
def test_a_control_point_has_no_name_of_ours(name):
    assert refused(SiteName, name) == "a point of the layout may have this name"


@pytest.mark.parametrize("name", ["CP1", "TBM 2", "J", "Jetty", " CP9 "])
def test_other_names_are_free(name):
    assert value(SiteName, name) == name.strip()


@pytest.mark.parametrize("name", ["", "a" * 17, "é1", "-x", None])
def test_a_name_that_a_field_controller_does_not_take(name):
    assert refused(SiteName, name) == "a control point's name is needed here"
    assert value(SiteName, "a" * 16) == "a" * 16


def test_a_lone_point_or_word_stands_for_a_list_of_one():
    assert value(PointOrPath, [1, 2]) == [pytest.approx((304.8, 609.6))]
    assert len(value(PointOrPath, [[1, 2], [3, 4]])) == 2
    assert value(Words, "A") == ["A"]
    assert value(Words, ["A", "B"]) == ["A", "B"]


def test_text_may_be_a_date_or_a_number():
    assert value(Text, datetime.date(2026, 6, 14)) == "2026-06-14"
    assert value(Text, 3) == "3"
    assert refused(Text, True) == "text is needed here"
    assert refused(Text, 1.5) == "text is needed here"


def test_a_point_of_a_picture_is_in_pixels():
    assert value(PicturePoint, [3, 4.5]) == (3.0, 4.5)
    assert refused(PicturePoint, [1]) == "a point of a picture is needed here"
    assert refused(PicturePoint, [0, FARTHEST * 1.1]) == "no picture reaches so far"
