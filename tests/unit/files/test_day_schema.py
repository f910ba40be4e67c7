"""The values of a day file, read with their units and held within what a day has."""

import datetime

import pytest
from pydantic import TypeAdapter, ValidationError

from kerfline.files import day_schema as schema
from kerfline.files.day_schema import FASTEST, NARROWEST_SCREED, SLOWEST, DayFile
from kerfline.units import Unit


def read(kind, value):
    return TypeAdapter(kind).validate_python(value, context={"unit": Unit.MM})


def refused(kind, value) -> str:
    with pytest.raises(ValidationError) as caught:
        read(kind, value)
    return str(caught.value)


@pytest.mark.parametrize(
    ("said", "hours"), [("06:30", 6.5), ("00:00", 0), ("23:59", 23 + 59 / 60), ("02:00 +1 d", 26)]
)
def test_a_time_of_day(said, hours):
    assert read(schema.Clock, said) == pytest.approx(hours)


@pytest.mark.parametrize("said", ["24:00", "06:60", "6.30", "", 6.5])
def test_what_is_no_time_of_day(said):
    assert "this is no time of day" in refused(schema.Clock, said)


@pytest.mark.parametrize(
    ("said", "share"), [("5 %", 0.05), (0.05, 0.05), (0, 0), (1, 1), ("100 %", 1)]
)
def test_a_share(said, share):
    assert read(schema.Share, said) == pytest.approx(share)


def test_what_is_no_share():
    assert "this share is out of range" in refused(schema.Share, 1.01)
    assert "this share is out of range" in refused(schema.Share, "101 %")
    assert "this share is out of range" in refused(schema.Share, -0.01)
    assert "a share is needed here" in refused(schema.Share, True)
    assert "a share is needed here" in refused(schema.Share, "half")


def test_measures_have_their_unit_and_lie_above_zero():
    assert read(schema.Temperature, "-5 C") == pytest.approx(-5)
    assert read(schema.Temperature, "50 F") == pytest.approx(10)
    assert read(schema.Volume, "1 m3") == pytest.approx(1e9)
    assert "must be above 0" in refused(schema.Volume, "0 m3")
    assert "with its unit is needed here" in refused(schema.Volume, None)
    assert "with its unit is needed here" in refused(schema.Volume, True)


def test_a_rate_that_no_crew_places_at():
    assert read(schema.PlacingRate, "0.1 m3/h") == pytest.approx(SLOWEST)
    assert read(schema.PlacingRate, "10000 m3/h") == pytest.approx(FASTEST)
    assert "no crew places at this rate" in refused(schema.PlacingRate, "0.09 m3/h")
    assert "no crew places at this rate" in refused(schema.PlacingRate, "10001 m3/h")


def test_a_screed_narrower_than_any():
    assert read(schema.Screed, f"{NARROWEST_SCREED} mm") == NARROWEST_SCREED
    assert "no screed is as narrow" in refused(schema.Screed, f"{NARROWEST_SCREED - 1} mm")


def test_prices_are_for_one_of_what_they_are_for():
    assert read(schema.VolumePrice, "200 / m3") == pytest.approx(200 / 1e9)
    assert read(schema.LengthPrice, "3.5 / m") == pytest.approx(3.5 / 1000)
    assert read(schema.AreaPrice, "10 / m2") == pytest.approx(10 / 1e6)
    assert "a price with what it is for" in refused(schema.VolumePrice, "200 / ft")
    assert "a price with what it is for" in refused(schema.LengthPrice, 3.5)


def start(**day):
    return DayFile.model_validate({"day": day}, context={"unit": Unit.MM})


@pytest.mark.parametrize(
    ("key", "value", "words"),
    [
        ("time_zone", "America/Nowhere", "there is no such time zone"),
        ("date", "14.6.2026", "this is no date"),
        ("country", "USA", "a country is named by two letters"),
    ],
)
def test_a_day_is_named_by_what_there_is(key, value, words):
    with pytest.raises(ValidationError) as caught:
        start(**{key: value})
    assert words in str(caught.value)


def test_a_date_may_come_as_toml_knows_it():
    assert start(date=datetime.date(2026, 6, 14)).day.date == "2026-06-14"
    assert start(date="2026-06-14").day.date == "2026-06-14"
    assert start().day.date == ""


def test_a_country_may_be_written_small():
    assert start(country="us").day.country == "US"


def test_a_key_that_is_not_known_is_refused():
    with pytest.raises(ValidationError, match="Extra inputs are not permitted"):
        DayFile.model_validate({"wether": 1})
