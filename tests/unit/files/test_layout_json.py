"""The layout file for programs: its schema, its bytes, and the way back."""

import json
from dataclasses import replace
from importlib import resources

import jsonschema
import pytest
import shapely
from hypothesis import given
from shapely import Polygon, union_all

from kerfline.checks.check import check
from kerfline.checks.given import given_layout
from kerfline.errors import InputRefused
from kerfline.files.layout_json import layout_json, read_layout_json
from kerfline.files.layout_schema import SCHEMA, SCHEMA_FILE, LayoutFile
from kerfline.files.published_schema import schema_text
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job
from kerfline.model.layout import Layout, Panel, Solution, Status, WorkingLimits
from kerfline.model.slab import Boxout, Column, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM_PER_FOOT as FOOT
from kerfline.units import Unit
from shapes import workshop_job, workshop_layout
from strategies import turned_slabs

RULES = SlabRules(rule_set=load("floor"))
PUBLISHED = json.loads((resources.files("kerfline.files") / SCHEMA_FILE).read_text("utf-8"))


def written(layout=None, **kwargs):
    job = workshop_job()
    layout = layout or workshop_layout()
    return layout_json(job, layout, check(job.slab, layout, RULES, job.display), **kwargs)


def test_the_published_schema_is_that_of_the_code():
    """Made anew by: python -m kerfline.files.layout_schema."""
    assert json.loads(schema_text(LayoutFile, SCHEMA)) == PUBLISHED


def test_a_layout_file_meets_the_published_schema():
    jsonschema.Draft202012Validator.check_schema(PUBLISHED)
    jsonschema.validate(json.loads(written()), PUBLISHED)


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("schema",), "kerfline-layout/2"),
        (("joints", 0, "kind"), "sawn"),
        (("joints", 0, "path"), [[0, 0]]),
        (("panels", 0, "status"), "fine"),
        (("totals", "panels"), -1),
        (("extra",), 1),
    ],
)
def test_the_schema_refuses_what_is_no_layout(path, value):
    data = json.loads(written())
    place = data
    for key in path[:-1]:
        place = place[key]
    place[path[-1]] = value
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(data, PUBLISHED)


def test_walls_left_and_notes_come_back_with_their_lengths_in_mm(tmp_path):
    """They are put in words by whoever reads them, in his own unit."""
    said = {"W1": "a joint under it would leave a panel {305.00} wide"}
    layout = replace(workshop_layout(), walls_left=said, notes=("A1 takes {3048.00 run} more.",))
    path = tmp_path / "layout.json"
    path.write_bytes(written(layout))
    read = read_layout_json(path).layout
    assert (read.walls_left, read.notes) == (said, layout.notes)


def test_of_which_layouts_the_bound_holds_comes_back(tmp_path):
    path = tmp_path / "layout.json"
    for through in (True, False):
        layout = workshop_layout()
        bound = replace(layout.solution, length_bound=1000.0, through=through)
        path.write_bytes(written(replace(layout, solution=bound)))
        assert read_layout_json(path).layout.solution.through is through


def test_a_layout_file_without_them_is_still_read(tmp_path):
    """As files were before."""
    data = json.loads(written())
    del data["walls_left"], data["notes"]
    path = tmp_path / "layout.json"
    path.write_text(json.dumps(data))
    assert read_layout_json(path).layout.notes == ()


def test_the_keys_are_those_that_users_were_promised():
    data = json.loads(written())
    assert list(data) == [
        "schema", "job", "run", "rule_set", "slab", "limits", "joints", "panels", "findings", "totals",
        "solution", "walls_left", "notes",
    ]  # fmt: skip
    assert list(data["joints"][0]) == [
        "id", "kind", "path", "length", "hidden_length", "depth", "reason", "note",
    ]  # fmt: skip
    assert list(data["panels"][0]) == [
        "id", "outline", "openings", "length", "width", "aspect", "area", "status",
    ]  # fmt: skip
    assert list(data["findings"][0]) == [
        "rule", "severity", "at", "subject", "measured", "limit", "message", "source", "remedy",
    ]  # fmt: skip


def test_boxouts_are_listed_under_openings():
    assert len(json.loads(written())["slab"]["openings"]) == 4  # the pit and three columns


def test_totals_are_those_of_the_layout():
    totals = json.loads(written())["totals"]
    layout = workshop_layout()
    assert totals["panels"] == len(layout.panels)
    assert totals["joint_length"] == pytest.approx(layout.joint_length, abs=1e-4)


def test_only_a_run_that_asks_for_times_holds_one():
    layout = replace(workshop_layout(), solution=Solution(status=Status.GIVEN, seconds=1.25))
    assert json.loads(written(layout))["solution"]["seconds"] is None
    assert json.loads(written(layout, timings=True))["solution"]["seconds"] == 1.25


def test_the_same_layout_gives_the_same_bytes_however_long_it_took():
    fast, slow = (
        replace(workshop_layout(), solution=Solution(status=Status.GIVEN, seconds=s))
        for s in (0.1, 9.0)
    )
    assert written(fast) == written(slow)


def test_a_file_reads_back_to_its_layout_and_findings(tmp_path):
    job, limits = workshop_job(), WorkingLimits(span=3048.0, aspect=1.5, width=609.6, angle=60.0)
    layout = replace(workshop_layout(), limits=limits)
    found = check(job.slab, layout, RULES, job.display)
    path = tmp_path / "layout.json"
    path.write_bytes(layout_json(job, layout, found))
    read = read_layout_json(path)
    assert (read.job, read.rule_set, read.thickness) == ("Workshop", "floor", 101.6)
    assert read.layout.limits == limits
    assert [j.id for j in read.layout.joints] == [j.id for j in layout.joints]
    assert [j.kind for j in read.layout.joints] == [j.kind for j in layout.joints]
    assert read.layout.joint_length == pytest.approx(layout.joint_length, abs=0.01)
    for before, after in zip(layout.panels, read.layout.panels, strict=True):
        assert after.polygon.symmetric_difference(before.polygon).area < 10.0
    assert [f.message for f in read.findings] == [f.message for f in found]
    assert [f.severity for f in read.findings] == [f.severity for f in found]


def test_reading_and_writing_again_changes_nothing(tmp_path):
    path = tmp_path / "layout.json"
    path.write_bytes(written())
    read = read_layout_json(path)
    again = json.loads(layout_json(workshop_job(), read.layout, read.findings))
    assert again["panels"] == json.loads(path.read_bytes())["panels"]
    assert again["joints"] == json.loads(path.read_bytes())["joints"]


@pytest.mark.parametrize("data", [b"", b"{}", b"[1]", b"\xff\xfe", b'{"schema": "other/1"}'])
def test_what_is_no_layout_file_is_refused(tmp_path, data):
    path = tmp_path / "layout.json"
    path.write_bytes(data)
    with pytest.raises(InputRefused, match=r"layout\.json.*not a layout file"):
        read_layout_json(path)


def test_a_file_that_is_not_there_is_refused(tmp_path):
    with pytest.raises(InputRefused, match="cannot be read"):
        read_layout_json(tmp_path / "none.json")


@given(turned_slabs())
def test_rounded_rings_stay_valid_and_keep_their_area(slab):
    job = replace(workshop_job(), slab=slab)
    panel = Panel(id="P1", polygon=slab.concrete)
    layout = Layout(joints=(), panels=(panel,), solution=Solution(status=Status.GIVEN))
    data = json.loads(layout_json(job, layout, ()))
    polygon = Polygon(data["slab"]["outline"], data["slab"]["openings"])
    assert polygon.is_valid
    assert polygon.area == pytest.approx(slab.concrete.area, rel=1e-6)


def test_a_ring_that_rounding_would_break_keeps_its_digits():
    needle = Polygon([(0, 0), (1000, 0), (1000, 1000), (500, 0.00001), (0, 1000)])
    assert needle.is_valid
    job = workshop_job()
    job = replace(job, slab=replace(job.slab, outline=Ring.of(needle), openings=(), columns=()))
    layout = Layout(joints=(), panels=(), solution=Solution(status=Status.GIVEN))
    data = json.loads(layout_json(job, layout, ()))
    assert Polygon(data["slab"]["outline"]).is_valid
    assert union_all([Polygon(data["slab"]["outline"])]).area == pytest.approx(needle.area)


def test_rings_start_at_their_lowest_point_and_run_anticlockwise():
    data = json.loads(written())
    for panel in data["panels"]:
        assert Polygon(panel["outline"]).exterior.is_ccw
        assert panel["outline"][0] == min(panel["outline"], key=lambda p: (p[1], p[0]))
    assert data["slab"]["outline"][:2] == [[0.0, 0.0], [18288.0, 0.0]]


def square(name, x, y, size):
    return Column(id=name, at=(x * FOOT, y * FOOT), boxout=Boxout.SQUARE, size=size * FOOT)


ACROSS = (square("C1", 20, 10, 25),)
"""One boxout right across a slab of 60 by 20 ft."""


ROUND = (
    square("C1", 20, 10, 8),
    square("C2", 28, 18, 8),
    square("C3", 28, 2, 8),
    square("C4", 36, 10, 8),
)
"""Four boxouts that touch at their corners, round an island of 8 by 8 ft."""


@pytest.mark.parametrize(("columns", "pieces"), [(ACROSS, 2), (ROUND, 3)])
def test_a_parted_slab_comes_back_whole(tmp_path, columns, pieces):
    points = ((0.0, 0.0), (60 * FOOT, 0.0), (60 * FOOT, 20 * FOOT), (0.0, 20 * FOOT))
    slab = Slab(outline=Ring(points), thickness=101.6, columns=columns)
    job = Job(name="Parted", units=Unit.FT, slab=slab)
    file = tmp_path / "parted-layout.json"
    file.write_bytes(layout_json(job, given_layout(slab), ()))
    read = read_layout_json(file)
    assert len(shapely.get_parts(read.concrete)) == len(slab.pieces) == pieces
    assert read.concrete.symmetric_difference(slab.concrete).area < 100.0
