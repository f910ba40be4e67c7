"""The weather by the hour: units in the headings, slips refused, every mistake with its line."""

import pytest

from kerfline.errors import InputRefused
from kerfline.files.time_zone import SiteClock, zone_of
from kerfline.files.weather_file import read_weather
from kerfline.units import KMH_PER_MPH, MM_PER_FOOT, celsius

IMPERIAL = """\
time, air F, humidity %, wind mph, wind height ft, sun W/m2
06:00, 61, 78, 3, 33, 40
12:00, 80, 45, 9, 33, 820
23:00, 66, 70, 2, 33, 0
05:00, 60, 80, 2, 33, 5
"""


def read(folder, text, **options):
    path = folder / "hours.csv"
    path.write_text(text, encoding="utf-8")
    return read_weather(path, **options)


def mistakes(folder, text, **options):
    with pytest.raises(InputRefused) as refused:
        read(folder, text, **options)
    return [str(m) for m in refused.value.mistakes]


def test_imperial_units(tmp_path):
    """Fahrenheit, percent, miles per hour and feet; the last hour lies past midnight."""
    found = read(tmp_path, IMPERIAL)
    assert [h.clock for h in found] == [6.0, 12.0, 23.0, 29.0]
    assert found[1].air == pytest.approx(celsius(80))
    assert found[1].humidity == pytest.approx(0.45)
    assert found[1].wind == pytest.approx(9 * KMH_PER_MPH)
    assert found[1].wind_height == pytest.approx(33 * MM_PER_FOOT)
    assert found[1].sun == 820


@pytest.mark.parametrize(("unit", "factor"), [("km/h", 1.0), ("m/s", 3.6)])
def test_metric_units(tmp_path, unit, factor):
    """Celsius, metres, and either way of telling wind; columns in any order, sun left out."""
    text = (
        f"wind height m,time,Air C,humidity %,wind {unit}\n10,06:00,16,78,2\n0.5,07:30,17,77,2.5\n"
    )
    found = read(tmp_path, text)
    assert [h.wind for h in found] == [2 * factor, 2.5 * factor]
    assert [h.wind_height for h in found] == [10_000, 500]
    assert found[0].air == 16
    assert found[0].sun is None


def test_times_with_dates(tmp_path):
    """Reckoned from the day of placing, before and after it."""
    text = IMPERIAL.replace("06:00", "2026-06-13 22:00").replace("12:00", "2026-06-14T12:00")
    text = text.replace("23:00", "2026-06-14 23:00").replace("05:00", "2026-06-15 05:00")
    found = read(tmp_path, text, day="2026-06-14")
    assert [h.clock for h in found] == [-2.0, 12.0, 23.0, 29.0]
    assert "needs day.date" in mistakes(tmp_path, text)[0]
    wrong = text.replace("2026-06-14 23:00", "2026-06-14 23:99")
    assert "this is no time" in mistakes(tmp_path, wrong, day="2026-06-14")[0]


def test_every_mistake_is_told_with_its_line(tmp_path):
    """Humidity as a share, a height that is no number, an hour that is none, heat past reason."""
    text = IMPERIAL.replace("78", "0.78", 1).replace("12:00", "24:30").replace("66", "166")
    text = text.replace("2, 33, 5", "2, high, 5")
    found = mistakes(tmp_path, text)
    assert [m.split(":")[0] for m in found] == [f"hours.csv line {n}" for n in (2, 3, 4, 5)]
    assert "not 0.5" in found[0]


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("air F", "air", "not known"),
        ("air F", "temperature", "not known"),
        (", wind height ft", "", "one column for wind height"),
        ("humidity %", "air C", "one column for"),
        ("12:00", "06:00", "not after the one before"),
        ("12:00", "noon", "no time of day"),
        ("12:00", "12:75", "no time of day"),
        ("9, 33", "900, 33", "out of range"),
        ("45", "145", "out of range"),
        ("820", "8200", "out of range"),
        ("80, 45", "80", "6 values are needed"),
        ("80, 45", "nan, 45", "a number is needed"),
    ],
)
def test_one_mistake_at_a_time(tmp_path, old, new, words):
    """The sentence names it."""
    found = mistakes(tmp_path, IMPERIAL.replace(old, new, 1))
    assert any(words in m for m in found)


def test_celsius_under_a_heading_of_fahrenheit(tmp_path):
    """A day that never passes 30 'F' over concrete at 26 °C; told in Celsius it is taken as it is."""
    text = "time,air F,humidity %,wind mph,wind height ft\n06:00,16,78,3,33\n12:00,30,45,9,33\n"
    assert "looks like Celsius" in mistakes(tmp_path, text, concrete=26.0)[0]
    assert "looks like Celsius" in mistakes(tmp_path, text, concrete=24.0)[0]
    assert len(read(tmp_path, text)) == 2
    assert len(read(tmp_path, text.replace("air F", "air C"), concrete=26.0)) == 2


@pytest.mark.parametrize("fahrenheit", [55, 65, 75])
def test_a_winter_day_is_taken_as_it_is(tmp_path, fahrenheit):
    """Concrete as warm as ACI 306R asks for in the cold, under air of at most 43 °F."""
    text = "time,air F,humidity %,wind mph,wind height ft\n06:00,31,78,3,33\n12:00,43,45,9,33\n"
    hours = read(tmp_path, text, concrete=(fahrenheit - 32) / 1.8)
    assert [h.air for h in hours] == pytest.approx([(31 - 32) / 1.8, (43 - 32) / 1.8])


def test_empty_files(tmp_path):
    """Nothing at all, and headings alone."""
    assert "is empty" in mistakes(tmp_path, "")[0]
    assert "no row" in mistakes(tmp_path, IMPERIAL.splitlines()[0])[0]


def test_a_file_that_is_no_text(tmp_path):
    """And one that is not there."""
    path = tmp_path / "hours.csv"
    path.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(InputRefused, match="not UTF-8"):
        read_weather(path)
    with pytest.raises(InputRefused, match="cannot be read"):
        read_weather(tmp_path / "none.csv")


@pytest.mark.parametrize("mark", [";", "\t"])
def test_cells_may_be_parted_as_where_commas_are_decimal(tmp_path, mark):
    """Spreadsheets there part cells by semicolons or tabs (RFC 4180 knows only the comma)."""
    rows = IMPERIAL.replace(", ", mark).replace(f"{mark}61{mark}", f"{mark}61,5{mark}")
    found = read(tmp_path, rows)
    assert found[0].air == pytest.approx(celsius(61.5))
    assert [h.clock for h in found] == [6.0, 12.0, 23.0, 29.0]


def dated(*rows):
    return "time,air C,humidity %,wind km/h,wind height m,rain mm\n" + "".join(
        f"{row},10,50,5,10,0.4\n" for row in rows
    )


def site(zone, day="2026-06-14", start=7.0):
    return SiteClock.at(day, start, zone_of(zone))


def test_universal_time_and_offsets_are_brought_to_the_sites_clock(tmp_path):
    """18:00 Z is 12:00 in Denver in June (UTC-6), and so are 14:00 at -04:00 and 12:00 by the wall."""
    for text in ("2026-06-14T18:00Z", "2026-06-14T14:00-04:00", "2026-06-14 12:00"):
        (hour,) = read(tmp_path, dated(text), day="2026-06-14", site=site("America/Denver"))
        assert hour.clock == pytest.approx(12.0)
        assert hour.rain == pytest.approx(0.4)
    told = mistakes(tmp_path, dated("2026-06-14T18:00Z"), day="2026-06-14")
    assert "day.time_zone" in told[0]


def test_the_hour_that_comes_twice_in_autumn(tmp_path):
    """1 November 2026 in Denver: 01:30 comes twice, an hour apart; by the clock after the change."""
    rows = dated("2026-11-01 00:30", "2026-11-01 01:30", "2026-11-01 01:30", "2026-11-01 02:30")
    clock = site("America/Denver", "2026-11-01")
    found = read(tmp_path, rows, day="2026-11-01", site=clock)
    assert [h.clock for h in found] == pytest.approx([-0.5, 0.5, 1.5, 2.5])
    assert clock.change() is not None
    evening = site("America/Denver", "2026-10-31", 15.0)
    found = read(tmp_path, rows, day="2026-10-31", site=evening)
    assert [h.clock for h in found] == pytest.approx([24.5, 25.5, 26.5, 27.5])
    assert evening.change() == (26.0, -1.0)
    assert site("-07:00").change() is None


def test_a_table_of_another_date_is_refused(tmp_path):
    assert "another date" in mistakes(tmp_path, dated("2026-05-01 06:00"), day="2026-06-14")[0]
    assert "another date" in mistakes(tmp_path, dated("2026-08-01 06:00"), day="2026-06-14")[0]
    assert read(tmp_path, dated("2026-06-14 06:00"), day="2026-06-14")


def test_zones_by_name_and_by_offset():
    assert zone_of("Europe/Berlin") is not None
    assert site("+05:30").utc_offset == 5.5
    assert zone_of("Middle-earth/Shire") is None
    assert zone_of("+19:00") is None
    assert zone_of("-07:75") is None
