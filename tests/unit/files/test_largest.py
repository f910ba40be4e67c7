"""Files that are too large, or that would take without end, are refused with a sentence before they are read."""

import pytest

from kerfline.errors import InputRefused
from kerfline.files.job_file import read_job
from kerfline.files.largest import LARGEST_JOB, LARGEST_WEATHER, refuse_too_large
from kerfline.files.toml_file import MOST_PARTS, read_toml
from kerfline.files.weather_file import read_weather
from kerfline.web import guard, tracing


def sized(path, size):
    with path.open("wb") as file:
        file.truncate(size)
    return path


def test_the_last_byte_counts(tmp_path):
    refuse_too_large(sized(tmp_path / "a", 1000), "plan", 1000, "cut it")
    with pytest.raises(InputRefused, match=r"the plan is too large to read.*cut it"):
        refuse_too_large(sized(tmp_path / "a", 1001), "plan", 1000, "cut it")


def test_a_job_file_and_a_weather_table(tmp_path):
    with pytest.raises(
        InputRefused, match=r"job file is too large.*20.0 MB; allowed is up to 10 MB"
    ):
        read_job(sized(tmp_path / "big.toml", 2 * LARGEST_JOB))
    with pytest.raises(
        InputRefused, match=r"weather table is too large.*up to 2 MB; keep the days"
    ):
        read_weather(sized(tmp_path / "big.csv", LARGEST_WEATHER + 1))


@pytest.mark.parametrize("text", ["{} = 1\n", "[{}]\n", "x = {{ {} = 1 }}\n"])
def test_a_key_without_end(tmp_path, text):
    """Reading one takes a time that grows with the square of its parts."""
    path = tmp_path / "job.toml"
    path.write_text(text.format(".".join("a" * (MOST_PARTS + 2))))
    with pytest.raises(InputRefused, match=r"a key of it has no end"):
        read_toml(path, "job file")


def test_many_numbers_are_no_key(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text("x = [" + ", ".join(["0.5"] * 3 * MOST_PARTS) + "]\n")
    assert len(read_toml(path, "job file").tables["x"]) == 3 * MOST_PARTS


def test_a_cell_of_weather_without_end(tmp_path):
    path = tmp_path / "hours.csv"
    path.write_text('time,air F,humidity %,wind mph\n"' + "6" * 200_000 + '",60,50,3\n')
    with pytest.raises(InputRefused, match=r"the weather table cannot be read as one; write"):
        read_weather(path)


def test_the_page_takes_what_the_command_takes():
    assert guard.LARGEST_PLAN == tracing.LARGEST_PLAN == 40_000_000
