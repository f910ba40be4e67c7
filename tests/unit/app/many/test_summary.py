"""The summary of many slabs: table, totals, what was not done, and the files."""

import csv
import io
from pathlib import Path

import pytest

from kerfline.app.many.line import Fate, Line
from kerfline.app.many.summary import LONGEST, summary_files, summary_text, worst
from kerfline.units import MM3_PER_YD3, MM_PER_FOOT

OAK = Line(
    source="oak.toml", name="Oak", area=800 * MM_PER_FOOT**2, panels=8, joints=100 * MM_PER_FOOT,
    sawn=80 * MM_PER_FOOT, dowels=12, concrete=10 * MM3_PER_YD3, warnings=2, folder="out/oak", files=11,
    mark="abc",
)  # fmt: skip
ELM = Line(
    source="elm.toml", name="Elm", fate=Fate.UNCHANGED, area=400 * MM_PER_FOOT**2, panels=1200,
    joints=50 * MM_PER_FOOT, sawn=50 * MM_PER_FOOT, concrete=5 * MM3_PER_YD3, errors=1,
)  # fmt: skip
BAD = Line(source="bad.toml", name="bad", fate=Fate.REFUSED, words="bad.toml line 6: no such key")
DEAD = Line(source="dead.toml", name="dead", fate=Fate.FAILED, words="not done after 5 seconds")


def parts(*lines, written=()):
    return [part.splitlines() for part in summary_text(lines, written).split("\n\n")]


def test_each_slab_is_a_row_and_the_totals_are_of_what_was_done():
    table, totals, left = parts(OAK, ELM, BAD)
    assert table[0].split() == [
        "slab",
        "area",
        "panels",
        "joints",
        "errors",
        "warnings",
        "concrete",
        "files",
    ]
    assert table[1].split() == ["Oak", "800.0", "ft2", "8", "100", "ft", "2", "10.00", "yd3", "11"]
    assert table[2].split()[:5] == ["Elm", "unchanged", "400.0", "ft2", "1,200"]
    assert table[3].split() == ["bad", "refused"]
    assert dict(line.split(maxsplit=1) for line in totals) == {
        "slabs": "2 of 3", "area": "1,200.0 ft2", "concrete": "15.00 yd3", "joints": "150 ft",
        "sawn": "130 ft", "dowels": "12", "errors": "1", "warnings": "2",
    }  # fmt: skip
    assert left == ["refused   bad.toml line 6: no such key"]


def test_what_failed_stands_before_what_was_refused_and_names_its_file_once():
    _, _, left, files = parts(BAD, DEAD, OAK, written=[Path("out/summary.csv")])
    assert left[0] == "failed    dead.toml: not done after 5 seconds"
    assert left[1] == "refused   bad.toml line 6: no such key"
    assert files == ["files     out/summary.csv"]


def test_totals_are_written_as_the_first_slab_that_was_read():
    metric = Line(source="m.toml", name="M", metric=True, area=2e6, concrete=1e9)
    _, totals, *_ = parts(BAD, metric, OAK)
    assert "m2" in totals[1]
    _, totals, *_ = parts(OAK, metric)
    assert "ft2" in totals[1]
    assert dict(line.split(maxsplit=1) for line in parts(BAD)[1])["slabs"] == "0 of 1"


@pytest.mark.parametrize(("letters", "cut"), [(LONGEST, False), (LONGEST + 1, True)])
def test_a_long_name_is_cut_on_the_terminal(letters, cut):
    name = "x" * letters
    row = parts(Line(source="x.toml", name=name))[0][1]
    assert row.startswith("x" * (LONGEST - 3) + "... " if cut else name + " ")


@pytest.mark.parametrize(
    ("lines", "status"), [((), 0), ((OAK,), 0), ((OAK, ELM), 1), ((ELM, BAD), 2)]
)
def test_the_worst_counts(lines, status):
    assert worst(lines) == status


def test_the_table_has_metres_and_no_figure_of_what_was_not_done():
    files = summary_files([OAK, BAD])
    assert {"summary.csv", "summary.pdf", "summary.svg"} <= set(files)
    oak, bad = csv.DictReader(io.StringIO(files["summary.csv"].decode("utf-8-sig")))
    assert oak["area_m2"] == "74.32", "800 ft2"
    assert oak["joints_m"] == "30.48"
    assert oak["concrete_m3"] == "7.646", "10 yd3"
    assert (oak["panels"], oak["dowels"], oak["run"]) == ("8", "12", "abc")
    assert (bad["state"], bad["why"]) == ("refused", BAD.words)
    assert {bad[k] for k in ("area_m2", "panels", "errors", "files", "run")} == {""}
