"""The [day] tables: units are read, every mistake is told with its line."""

import pytest

from kerfline.errors import InputRefused
from kerfline.files.day_file import read_day
from kerfline.files.job_file import read_job
from kerfline.model.day import DayInput, SawMethod, SettingRule, Side
from kerfline.units import MM3_PER_M3, MM3_PER_YD3, MM_PER_FOOT, celsius

HEAD = """\
[job]
name = "Boathouse"
units = "ft"

[slab]
thickness = "4 in"
outline = [[0, 0], [40, 0], [40, 24], [0, 24]]
"""
FULL = """
[day]
sunset = "20:45"
date = 2026-06-14
start = "06:30"

[day.concrete]
temperature = "79 F"
allowance = "6 %"
truck = "10 yd3"
rate = "15 m3/h"
cycle = "75 min"
discharge_limit = "1.5 h"

[day.setting]
initial_set = "5 h"
reference = "20 C"
rule = "equivalent-age"
activation = 4800

[day.pours]
volume = "30 yd3"
screed = 16
access = ["bottom", "left"]
always_split = true

[day.saws]
method = "early-entry"
count = 2
rate = "6 ft/min"
move = "4 min"
blade = "6 in"
late_from = "02:00 +1 d"

[day.steel]
dowels = "ufc-3-260-02"
filler_width = "1/8 in"
filler_depth = "1 in"
temperature_drop = "76 F"
expansion = "5.5e-6 /F"
steel_stress = "30000 psi"
subgrade = "100 pci"
curing_cover = "200 ft2/gal"
"""


def day_of(folder, text, **files):
    path = folder / "job.toml"
    path.write_text(HEAD + text, encoding="utf-8")
    for name, content in files.items():
        (folder / f"{name}.csv").write_text(content, encoding="utf-8")
    return read_day(read_job(path), path)


def mistakes(folder, text, **files):
    with pytest.raises(InputRefused) as refused:
        day_of(folder, text, **files)
    return [str(m) for m in refused.value.mistakes]


def test_a_job_without_a_day_knows_nothing(tmp_path):
    """Nothing is filled in."""
    assert day_of(tmp_path, "") == DayInput()


def test_every_unit_is_read(tmp_path):
    """Feet, yards, metres, Fahrenheit and Celsius side by side."""
    day = day_of(tmp_path, FULL)
    assert (day.date, day.starts) == ("2026-06-14", (6.5,))
    assert day.concrete.temperature == pytest.approx(celsius(79))
    assert day.concrete.allowance == pytest.approx(0.06)
    assert day.concrete.truck == pytest.approx(10 * MM3_PER_YD3)
    assert day.concrete.rate == pytest.approx(15 * MM3_PER_M3)
    assert day.concrete.cycle == pytest.approx(1.25)
    assert day.setting.rule is SettingRule.EQUIVALENT_AGE
    assert day.setting.reference == pytest.approx(20)
    assert day.pours.screed == pytest.approx(16 * MM_PER_FOOT)
    assert day.pours.access == (Side.BOTTOM, Side.LEFT)
    assert day.pours.always_split
    assert day.saws.method is SawMethod.EARLY_ENTRY
    assert day.saws.rate == pytest.approx(6 * MM_PER_FOOT * 60)
    assert day.sunset == pytest.approx(20.75)
    assert day.saws.late_from == pytest.approx(26.0)
    assert day.steel.temperature_drop == pytest.approx(76 / 1.8)
    assert day.steel.expansion == pytest.approx(9.9e-6)
    assert day.steel.steel_stress == pytest.approx(206.843, abs=0.001)
    assert day.steel.subgrade == pytest.approx(0.0271447, abs=1e-6)
    assert day.steel.curing_cover == pytest.approx(4.9085, abs=0.0001)
    assert day.steel.modulus is None


def test_all_mistakes_are_told_at_once_each_with_its_line(tmp_path):
    """Five of them in four tables."""
    text = (
        FULL.replace('"06:30"', '"6.30"')
        .replace('"10 yd3"', "10")
        .replace("volume =", "volum =")
        .replace("count = 2", "count = 0")
        .replace('"30000 psi"', '"30000"')
    )
    found = mistakes(tmp_path, text)
    assert len(found) == 5
    assert "job.toml line 12, day.start" in found[0]
    assert "day.concrete.truck" in found[1]
    assert 'did you mean "volume"' in found[2]
    assert "day.saws.count" in found[3]
    assert "psi, mpa, n/mm2" in found[4]


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ('temperature = "26"', "not a temperature with its unit"),
        ('temperature = "24 F"', "Celsius taken for Fahrenheit"),
        ('temperature = "79 C"', "Fahrenheit taken for Celsius"),
        ("allowance = 5", "write 5 % as 0.05"),
        ("allowance = true", "a share is needed"),
        ("truck = true", "a volume with its unit is needed"),
        ('allowance = "500 %"', "0 to 1"),
        ('truck = "-8 yd3"', "must be above 0"),
        ('rate = "20 yd3"', "placing rate"),
        ('rate = "1e300 yd3/h"', "no crew places at this rate"),
        ('rate = "1e-9 yd3/h"', "no crew places at this rate"),
        ('cycle = "inf min"', "not a duration"),
    ],
)
def test_slips_in_the_concrete(tmp_path, line, words):
    """One wrong value a case."""
    assert words in mistakes(tmp_path, f"[day.concrete]\n{line}\n")[0]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('[day]\nstart = "25:00"\n', "no time of day"),
        ('[day]\ndate = "June 14"\n', "no date"),
        ('[day.pours]\naccess = "north"\n', "left"),
        ('[day.pours]\nscreed = "1/4 in"\n', "no screed is as narrow"),
        ('[day.saws]\nopens = "8 h"\ncloses = "6 h"\n', "closes before it opens"),
        ('[day.steel]\ndowels = "best"\n', "no dowel table"),
        ('[day.setting]\nreference = "5 C"\ndatum = "10 C"\n', "above the datum"),
        ('[day]\nweather = "none.csv"\n', "cannot be read"),
    ],
)
def test_slips_elsewhere(tmp_path, text, words):
    """A word that is none, two values that do not go together, a file that is not there."""
    assert words in mistakes(tmp_path, text)[0]


WEATHER = "time, air F, humidity %, wind mph, wind height ft\n06:00, 61, 78, 3, 33\n12:00, 80, 45, 9, 33\n"


def test_the_weather_is_read_from_beside_the_job(tmp_path):
    """Named in [day]."""
    day = day_of(tmp_path, '[day]\nweather = "hours.csv"\n', hours=WEATHER)
    assert [h.clock for h in day.weather] == [6.0, 12.0]


def test_mistakes_of_the_weather_are_told_with_those_of_the_tables(tmp_path):
    """One of each."""
    text = '[day]\nweather = "hours.csv"\n[day.steel]\ndowels = "best"\n'
    found = mistakes(tmp_path, text, hours=WEATHER.replace("80", "800"))
    assert len(found) == 2
    assert "dowel table" in found[0]
    assert "hours.csv line 3" in found[1]


def test_a_job_that_came_without_a_file_is_told_by_its_keys(tmp_path):
    """Drafts have no file yet: the place is the key alone."""
    path = tmp_path / "job.toml"
    path.write_text(HEAD + "[day.concrete]\nallowance = 5\n", encoding="utf-8")
    job = read_job(path)
    with pytest.raises(InputRefused, match=r"draft\.toml, day\.concrete\.allowance"):
        read_day(job, tmp_path / "draft.toml")
