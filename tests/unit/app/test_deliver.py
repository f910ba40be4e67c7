"""The tables of one layout hold the same numbers, whatever the file: CSV, workbook, JSON and the sheets."""

import csv
import html
import io
import json
import re
from pathlib import Path

import openpyxl
import pytest

from kerfline.app.deliver import contents
from kerfline.app.lay_out import lay_out_job
from kerfline.app.open_job import open_job
from kerfline.units import MM_PER_FOOT, MM_PER_INCH, Unit, feet_inches, parse_length

JOB = """\
[job]
name = "Boathouse"
units = "ft"

[slab]
thickness = "4 in"
outline = [[0, 0], [40, 0], [40, 24], [0, 24]]
openings = [[[10, 10], [14, 10], [14, 13], [10, 13]]]

[[wall]]
path = [[0, 12], [24, 12]]
thickness = "4 1/2 in"

[[column]]
at = [32, 12]
"""


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    """Every file of one layout."""
    path: Path = tmp_path_factory.mktemp("job") / "boathouse.toml"
    path.write_text(JOB, encoding="utf-8")
    return contents(lay_out_job(open_job(path)))


def table(files, name):
    """A CSV table by its first column."""
    rows = csv.DictReader(io.StringIO(files[name].decode()))
    return {next(iter(row.values())): row for row in rows}


def grid(files, title):
    """A table of the workbook by its first column, each row by heading."""
    rows = list(openpyxl.load_workbook(io.BytesIO(files["boathouse.xlsx"]))[title].values)
    return {row[0]: dict(zip(rows[0], row, strict=True)) for row in rows[1:]}


def test_panels_are_the_same_in_csv_workbook_and_json(files):
    layout = json.loads(files["boathouse-layout.json"])
    listed, cells = table(files, "boathouse-panels.csv"), grid(files, "Panels")
    assert list(listed) == list(cells) == [p["id"] for p in layout["panels"]]
    for panel in layout["panels"]:
        row, cell = listed[panel["id"]], cells[panel["id"]]
        for side in ("length", "width"):
            assert float(row[f"{side}_mm"]) == pytest.approx(panel[side], abs=0.051)
            assert cell[f"{side}, ft"] * MM_PER_FOOT == pytest.approx(panel[side], abs=0.016)
            written = parse_length(row[side], Unit.IN)
            assert written == pytest.approx(panel[side], abs=MM_PER_INCH / 16 + 0.01)
            assert row[side] == feet_inches(written)
        assert float(row["area_m2"]) * 1e6 == pytest.approx(panel["area"], abs=51)
        assert cell["area, ft2"] * MM_PER_FOOT**2 == pytest.approx(panel["area"], abs=6)
        assert row["status"] == cell["status"] == panel["status"]


def test_joints_are_the_same_in_csv_workbook_and_json(files):
    layout = json.loads(files["boathouse-layout.json"])
    listed, cells = table(files, "boathouse-joints.csv"), grid(files, "Joints")
    assert list(listed) == list(cells) == [j["id"] for j in layout["joints"]]
    for joint in layout["joints"]:
        row, cell = listed[joint["id"]], cells[joint["id"]]
        assert float(row["length_mm"]) == pytest.approx(joint["length"], abs=0.051)
        assert cell["length, ft"] * MM_PER_FOOT == pytest.approx(joint["length"], abs=0.016)
        assert float(row["depth_mm"]) == pytest.approx(joint["depth"], abs=0.051)
        assert cell["depth, in"] * MM_PER_INCH == pytest.approx(joint["depth"], abs=0.0013)
        start = (float(row["start_along_mm"]), float(row["start_across_mm"]))
        assert start == pytest.approx(joint["path"][0], abs=0.051)  # the baseline is the origin
        assert (cell["start along, ft"], cell["start across, ft"]) == pytest.approx(
            tuple(mm / MM_PER_FOOT for mm in joint["path"][0]), abs=5.1e-5
        )
    total = sum(float(row["length_mm"]) for row in listed.values())
    assert total == pytest.approx(layout["totals"]["joint_length"], abs=0.051 * len(listed))


def test_no_cell_reads_minus_nothing(files):
    """A place a hair before the baseline is shown with two decimals as 0.00, not -0.00."""
    for row in grid(files, "Joints").values():
        assert not [v for v in row.values() if isinstance(v, float) and -0.005 < v < 0]


def test_the_sheets_show_every_panel_and_joint_of_the_tables(files):
    """Each name with its sizes as the tables write them."""
    sheets = "\n".join(d.decode() for name, d in files.items() if name.endswith(".svg"))
    text = html.unescape(re.sub(r"<[^>]+>", "\n", sheets))
    shown = {word.strip() for word in text.split("\n")}
    for row in table(files, "boathouse-panels.csv").values():
        assert row["panel"] in shown
        assert f"{row['length']} x {row['width']}" in shown
    for row in table(files, "boathouse-joints.csv").values():
        assert row["joint"] in shown
