"""A job file is read strictly, and every mistake in it is told with its place."""

import re
from functools import partial

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from kerfline.errors import InputRefused
from kerfline.files.job_file import job_text, read_job
from kerfline.geometry.ring import Ring
from kerfline.model.job import Mix
from kerfline.model.slab import (
    BearingRule,
    Boxout,
    EdgeKind,
    FallJoints,
    JointKind,
    Meeting,
    PatternKind,
    PenetrationKind,
)
from kerfline.units import Unit
from written_jobs import mistakes, written

HEAD = """\
[job]
name = "Boathouse"
units = "ft"

[slab]
thickness = "4 in"
outline = [[0, 0], [40, 0], [40, 24], [0, 24]]
"""

FULL = (
    HEAD
    + """\
openings = [[[10, 10], [14, 10], [14, 13], [10, 13]]]

[[edge]]
segment = 0
kind = "turndown"
depth = "16 in"
width = "12 in"
slope = 1.0

[[wall]]
path = [[0, "15 ft"], [24, 15]]
thickness = "4 1/2 in"
bearing = true
strip_width = "16 in"
strip_depth = "12 in"
bearing_rule = "doweled"

[[column]]
at = [20, 12]
boxout = "circle"
size = "24 in"
turn = 30

[[penetration]]
at = [6, 5]
diameter = "4 in"
kind = "drain"
meeting = "clear"
clear = "18 in"

[[zone]]
outline = [[30, 0], [40, 0], [40, 10], [30, 10]]
thickness = "6 in"
joint_at_border = false
level = "-2 in"

[[keep_out]]
outline = [[1, 1], [5, 1], [5, 5]]
what = "tubing"
cover = "2 in"

[[joint]]
path = [[0, 20, 0.2], [10, 20]]
kind = "construction"
existing = true
depth = "1 in"

[[pattern]]
area = [[0, 0], [10, 0], [10, 10], [0, 10]]
kind = "aligned"
along = [[0, 0], [1, 1]]
spacing = 8

[[fall]]
area = [[20, 2], [28, 2], [28, 9], [20, 9]]
to = [24, 5]
joints = "valleys"
slope = 1.5

[rules]
set = "residential"
to_maximum = true

[rules.overrides.aspect]
maximum = 1.4

[mix]
slump = "4 in"
aggregate = "3/4 in"

[cut]
method = "tooled"
depth = "1 1/4 in"

[sheet]
size = "arch-d"
scale = "1:96"
north = 15

[sheet.fields]
project = "Boathouse"
date = 2026-05-01

[engine]
effort = 5
weights = { tee = 2.5 }

[day.weather]
air = "30 degC"
"""
)


@pytest.fixture
def write(tmp_path):
    return partial(written, tmp_path)


@pytest.fixture
def full(write):
    return read_job(write(FULL))


def test_the_least_job(write):
    job = read_job(write(HEAD))
    assert (job.name, job.units, job.slab.thickness) == ("Boathouse", Unit.FT, 101.6)
    assert job.slab.outline.polygon.area == pytest.approx(40 * 24 * 304.8**2)
    assert job.rules.name == "floor"
    assert job.notes == ()


def test_lengths_are_text_with_a_unit_or_bare_numbers_in_the_jobs_unit(full):
    wall = full.slab.walls[0]
    assert wall.path[0] == pytest.approx((0, 4572))
    assert wall.path[1] == pytest.approx((7315.2, 4572))
    assert wall.thickness == pytest.approx(114.3)


def test_everything_on_the_slab_is_read(full):
    slab = full.slab
    assert slab.openings[0].polygon.area == pytest.approx(12 * 304.8**2)
    assert (slab.walls[0].bearing, slab.walls[0].bearing_rule) == (True, BearingRule.DOWELED)
    assert slab.walls[0].strip_width == pytest.approx(406.4)
    assert (slab.columns[0].boxout, slab.columns[0].turn) == (Boxout.CIRCLE, 30)
    pipe = slab.penetrations[0]
    assert (pipe.kind, pipe.meeting) == (PenetrationKind.DRAIN, Meeting.CLEAR)
    assert pipe.clear == pytest.approx(457.2)
    assert (slab.zones[0].thickness, slab.zones[0].joint_at_border) == (pytest.approx(152.4), False)
    assert (slab.keep_outs[0].what, slab.keep_outs[0].cover) == ("tubing", pytest.approx(50.8))
    assert (slab.edges[0].kind, slab.edges[0].segment) == (EdgeKind.TURNDOWN, 0)
    assert slab.joints[0].kind is JointKind.CONSTRUCTION
    assert slab.joints[0].existing
    assert slab.patterns[0].kind is PatternKind.ALIGNED
    assert slab.patterns[0].spacing == pytest.approx(8 * 304.8)
    assert slab.falls[0].to == ((pytest.approx(24 * 304.8), pytest.approx(5 * 304.8)),)
    assert slab.falls[0].joints is FallJoints.VALLEYS
    assert slab.falls[0].slope == 1.5
    assert slab.zones[0].level == pytest.approx(-50.8)


def test_an_arc_in_a_joint_is_flattened(full):
    path = full.slab.joints[0].path
    assert len(path) > 3
    assert min(y for _, y in path) < 20 * 304.8  # a positive bulge runs anticlockwise: it sags


def test_the_choices_are_read(full):
    assert full.rules.name == "residential"
    assert full.rules.to_maximum
    assert full.rules.overrides == {"aspect": {"maximum": 1.4}}
    assert full.mix == Mix(slump=pytest.approx(101.6), aggregate=pytest.approx(19.05))
    assert (full.cut.method, full.cut.depth) == ("tooled", pytest.approx(31.75))
    assert (full.sheet.size, full.sheet.scale, full.sheet.north) == ("arch-d", 96, 15)
    assert full.sheet.fields == {"project": "Boathouse", "date": "2026-05-01"}
    assert (full.effort, full.weights) == (5, {"tee": 2.5})
    assert full.day == {"weather": {"air": "30 degC"}}


def test_things_are_numbered_in_the_order_of_the_file(write):
    walls = "\n".join(f"[[wall]]\npath = [[0, {y}], [40, {y}]]" for y in (5, 10, 15))
    assert [w.id for w in read_job(write(f"{HEAD}\n{walls}")).slab.walls] == ["W1", "W2", "W3"]


def test_an_edge_without_a_segment_stands_for_the_whole_ring(write):
    job = read_job(write(HEAD + '\n[[edge]]\nkind = "isolated"\n'))
    assert [e.segment for e in job.slab.edges] == [0, 1, 2, 3]


def test_a_segment_of_its_own_comes_before_its_whole_ring(write):
    """The order of the two tables does not matter."""
    whole, single = '[[edge]]\nkind = "free"\n', '[[edge]]\nsegment = 2\nkind = "isolated"\n'
    for tables in (whole + single, single + whole):
        slab = read_job(write(HEAD + "\n" + tables)).slab
        assert {e.segment: e.kind for e in slab.edges} == {
            0: EdgeKind.FREE,
            1: EdgeKind.FREE,
            2: EdgeKind.ISOLATED,
            3: EdgeKind.FREE,
        }
        assert len(slab.edges) == 4


def test_bulges_make_arcs_and_a_repeated_first_point_is_dropped(write):
    text = HEAD.replace("[0, 24]]", "[0, 24, 0.5], [0, 0]]")
    outline = read_job(write(text)).slab.outline
    assert len(outline.points) == 4
    assert outline.bulges == (0, 0, 0, 0.5)


def test_a_byte_order_mark_does_no_harm(write):
    assert read_job(write("\ufeff" + HEAD)).name == "Boathouse"


def test_notes_to_confirm_become_comments(write):
    from dataclasses import replace

    job = replace(read_job(write(HEAD)), notes=("The unit was taken\nas feet.",))
    text = job_text(job)
    assert "# Please confirm:\n# - The unit was taken\n# - as feet." in text
    assert read_job(write(text)) == replace(job, notes=())


# Each row: what is put in place of what, and the sentence that the user must read.
MISTAKES = [
    ('units = "ft"', "", 'job.units: "units" is missing; write units = "ft", "in", "m" or "mm"'),
    ('units = "ft"', 'units = "furlong"', "line 3, job.units: this word is not allowed"),
    ('name = "Boathouse"', 'name = ""', "line 2, job.name: this must not be empty"),
    ('"4 in"', '"0 in"', "line 6, slab.thickness: this length must be above zero"),
    ('"4 in"', '"-4 in"', "line 6, slab.thickness: this length must be above zero"),
    ('"4 in"', "nan", "line 6, slab.thickness: a length must be finite"),
    ('"4 in"', "inf", "line 6, slab.thickness: a length must be finite"),
    ('"4 in"', "true", "line 6, slab.thickness: a length is needed here"),
    ('"4 in"', '"four"', "line 6, slab.thickness: this is not a length; found 'four'"),
    ('"4 in"', "4", "line 6, slab.thickness: a slab on ground does not have this thickness"),  # 4 ft
    ('thickness = "4 in"', "", 'slab.thickness: "thickness" is missing'),
    ("thickness", "thicknes", 'there is no "thicknes" here; did you mean "thickness"?'),
    ("[40, 24]", "[40]", "line 7, slab.outline[2]: a point is needed here"),
    ("[40, 24]", "[40, nan]", "line 7, slab.outline[2]: a length must be finite"),
    ("[40, 24]", "[40, 24, inf]", "line 7, slab.outline[2]: a finite number is needed here"),
    ("[40, 24], [0, 24]", "[0, 24], [40, 24]", "slab.outline: the line crosses or touches itself at (20'-0\", 12'-0\")"),
    ("[40, 24], [0, 24]", "[40, 0], [0, 0]", "slab.outline: a closed line needs three points"),
    ("[40, 24], [0, 24]", "[20, 0]", "slab.outline: the line encloses no area"),
    ("outline = [[0, 0], [40, 0], [40, 24], [0, 24]]", "", "slab.outline: there is no outline"),
    ("[40, 0], [40, 24], [0, 24]", '["1 in", 0], ["1 in", "1 in"], [0, "1 in"]', "slab.outline: this is too small for a slab; found 0'-1\" by 0'-1\""),
    ("[40, 0], [40, 24], [0, 24]", '["100000 m", 0], ["100000 m", 24], [0, 24]', "slab.outline: this is too large for a slab"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "sentence"), MISTAKES)
def test_a_mistake_in_the_job_or_slab(write, old, new, sentence):
    assert old in HEAD
    told = mistakes(write(HEAD.replace(old, new)))
    assert any(sentence in line for line in told), told


# Each row: what is added to the file, and the sentence that the user must read.
ADDED = [
    ("openings = [[[38, 20], [42, 20], [42, 22]]]", "line 8, slab.openings[0]: the opening crosses or touches the slab's edge"),
    ("openings = [[[50, 20], [52, 20], [52, 22]]]", "slab.openings[0]: the opening crosses or touches"),
    ("openings = [[[0, 5], [2, 5], [2, 7], [0, 7]]]", "slab.openings[0]: the opening crosses or touches"),
    ("openings = [[[1, 1], [5, 1], [5, 5]], [[3, 1], [8, 1], [8, 5], [3, 2]]]", "slab.openings[1]: the opening overlaps or touches opening 1"),
    ("openings = [[[1, 1], [5, 5], [5, 1], [1, 5]]]", "slab.openings[0]: the line crosses or touches itself"),
    ("openings = [[[0.1, 0.1], [39.9, 0.1], [39.9, 23.9], [0.1, 23.9]]]", None),
    ("[[wall]]\npath = [[0, 12], [24, 12]]\nthickness = 0", "line 10, wall[0].thickness: this length must be above zero"),
    ("[[wall]]\npath = [[0, 12], [60, 12]]", "line 8, wall[0]: wall W1 lies outside the slab: its point (60'-0\", 12'-0\") is 20'-0\" off; move it inside"),
    ("[[wall]]\npath = [[0, 12], [\"40 ft 2 in\", 12]]\nthickness = \"5 in\"", None),
    ("[[wall]]\npath = [[5, 12]]", "wall[0].path: the number of items does not fit"),
    ("[[wall]]\npath = [[5, 12], [5, 12]]", "wall[0]: wall W1 has no length"),
    ("[[wall]]\nid = \"W1\"\npath = [[0, 5], [40, 5]]\n[[column]]\nid = \"W1\"\nat = [5, 5]", "wall[0]: 2 things are called W1"),
    ("[[wall]]\npath = [[0, 5], [40, 5]]\nbearing = \"yes\"", "line 10, wall[0].bearing: true or false is needed here; found 'yes'"),
    ("[[column]]\nat = [50, 50]", "column[0]: column C1 stands off the concrete at (50'-0\", 50'-0\")"),
    ("[[column]]\nat = [5, 5]\nboxout = \"hexagon\"", "column[0].boxout: this word is not allowed here; found 'hexagon'; allowed is 'diamond', 'square', 'circle' or 'none'"),
    ("[[column]]\nat = [40, 12]", None),
    ("[[penetration]]\nat = [-1, 5]", "penetration[0]: penetration N1 lies outside the slab"),
    ("[[zone]]\noutline = [[50, 0], [60, 0], [60, 9]]\nthickness = \"6 in\"", "zone[0]: the zone Z1 does not lie on the slab"),
    ("[[zone]]\noutline = [[0, 0], [10, 0], [10, 9]]\nthickness = 0", "zone[0].thickness: this length must be above zero"),
    ("[[keep_out]]\noutline = [[0, 0], [10, 0]]", "keep_out[0]: a closed line needs three points"),
    ("[[edge]]\nring = 1\nkind = \"free\"", "edge[0]: there is no such segment; found ring 1, segment 0; allowed is ring 0"),
    ("[[edge]]\nsegment = 4\nkind = \"free\"", "edge[0]: there is no such segment; found ring 0, segment 4; allowed is segment 0 to 3"),
    ("[[edge]]\nsegment = -1\nkind = \"free\"", "edge[0].segment: this number is too small"),
    ("[[edge]]\nkind = \"free\"\n[[edge]]\nkind = \"isolated\"", "segment 0 of ring 0 is described 2 times"),
    ("[[edge]]\nsegment = 2\nkind = \"free\"\n[[edge]]\nsegment = 2\nkind = \"isolated\"", "segment 2 of ring 0 is described 2 times"),
    ("[[joint]]\npath = [[50, 0], [50, 10]]", "joint[0]: joint G1 does not lie on the slab"),
    ("[[pattern]]\narea = [[0, 0], [9, 0], [9, 9]]\nkind = \"aligned\"", "pattern[0]: an aligned pattern needs a line"),
    ("[[fall]]\narea = [[0, 0], [9, 0], [9, 9], [0, 9]]\nto = [12, 5]", "fall[0]: fall D1 has its drain outside its area, at (12'-0\", 5'-0\")"),
    ("[[fall]]\narea = [[0, 0], [9, 0], [9, 3], [3, 3], [3, 9], [0, 9]]\nto = [8, 1]", "fall[0]: the floor of fall D1 cannot run straight to its drain from the corner at"),
    ("[[fall]]\narea = [[0, 0], [9, 0], [9, 9], [0, 9]]\nto = []", "fall[0].to: "),
    ("[[fall]]\narea = [[0, 0], [9, 0], [9, 9], [0, 9]]\nto = [5, 5]\nslope = 25", "fall[0].slope: this is no slope of a floor in percent"),
    ("[[fall]]\narea = [[0, 0], [9, 0], [9, 9], [0, 9]]\nto = [5, 5]\nslope = 0", "fall[0].slope: this is no slope of a floor in percent"),
    ("[[fall]]\narea = [[0, 0], [9, 0], [9, 9], [0, 9]]\nto = [[5, 5], [5]]", "fall[0].to[1]: "),
    ("[[fall]]\narea = [[50, 0], [59, 0], [59, 9]]\nto = [58, 2]", "fall[0]: the area of fall D1 does not lie on the slab"),
    ("[rules]\nset = \"flor\"", "rules.set: there is no such rule set; found 'flor'"),
    ("[rules.overrides]\naspect = { maximun = 2 }", "line 9, rules.overrides.aspect.maximun: there is no \"maximun\" here; did you mean \"maximum\"?"),
    ("[rules.overrides.span.maximum]\ntimes = -1", "rules.overrides.span.maximum.times: a number above 0 is needed here; found -1"),
    ("[cut]\nmethod = \"laser\"", "cut.method: the rule set floor has no such method of cutting; found 'laser'; allowed is conventional or early-entry"),
    ("[sheet]\nscale = \"1:0\"", "sheet.scale: this is not a scale"),
    ("[sheet.fields]\nprojct = \"x\"", "sheet.fields.projct: there is no \"projct\" here; did you mean \"project\"?"),
    ("[engine]\nweights = { te = 1 }", "line 9, engine.weights.te: the engine has no weight of this name"),
    ("[sheet]\nsize = \"napkin\"", "line 9, sheet.size: there is no sheet of this size; found 'napkin'"),
    ("[engine]\neffort = 0", "engine.effort: this number must be above zero"),
    ("[engine]\nweights = { tee = -1 }", "engine.weights.tee: this number must not be below zero"),
    ("[walls]\npath = []", "walls: there is no \"walls\" here; did you mean \"wall\"?"),
    ("wall = 3", None),
    ("[drawing]\nfile = \"none.dxf\"\noutline = \"S-EDGE\"", "none.dxf"),
]  # fmt: skip


@pytest.mark.parametrize(("added", "sentence"), [row for row in ADDED if row[1]])
def test_a_mistake_in_what_lies_on_the_slab_or_in_the_choices(write, added, sentence):
    told = mistakes(write(HEAD + added))
    assert any(sentence in line for line in told), told


@pytest.mark.parametrize("added", [row[0] for row in ADDED[:-2] if not row[1]])
def test_what_the_site_has_is_no_mistake(write, added):
    """A thin rim, a wall to the face outside and a column on the edge."""
    assert read_job(write(HEAD + added)).slab.outline == Ring(
        read_job(write(HEAD)).slab.outline.points
    )


def test_all_mistakes_are_told_at_once(write):
    text = HEAD.replace('"4 in"', '"thin"').replace("[40, 0]", "[40, nan]")
    told = mistakes(write(text + '[rules]\nset = "flor"\n[cut]\nmethod = "laser"\n'))
    assert len(told) == 3
    assert all(re.match(r"job\.toml line \d+, ", line) for line in told)


def test_mistakes_of_sense_are_told_with_those_of_choice(write):
    text = HEAD + '[[wall]]\npath = [[0, 12], [60, 12]]\n[rules]\nset = "flor"\n'
    assert len(mistakes(write(text))) == 2


def test_a_missing_unit_is_told_once_not_for_every_number(write):
    assert len(mistakes(write(HEAD.replace('units = "ft"', "")))) == 1


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"[job\nname = 1", "this is not valid TOML"),
        (b"[job]\nname = 'a'\nname = 'b'", "this is not valid TOML"),
        (b"\xff\xfe[job]", "this is not UTF-8 text"),
        (b"", "job"),
    ],
)
def test_what_is_no_job_file_is_refused(tmp_path, data, sentence):
    path = tmp_path / "job.toml"
    path.write_bytes(data)
    assert sentence in mistakes(path)[0]


def test_a_file_that_is_not_there_or_is_a_folder_is_refused(tmp_path):
    assert "there is no such job file" in mistakes(tmp_path / "none.toml")[0]
    assert "this is a folder; name the job file in it" in mistakes(tmp_path)[0]


@pytest.mark.parametrize(
    "text",
    [
        HEAD.replace('"4 in"', "9" * 5000),
        HEAD.replace('"4 in"', "9" * 400),
        HEAD.replace("[40, 0]", f"[{'9' * 400}, 0]"),
        HEAD.replace("[40, 0]", f"[40, 0, {'9' * 400}]"),
        HEAD + f"wall = {'[' * 9999}",
        HEAD + f"[rules.overrides.aspect]\nmaximum = {'9' * 400}",
        HEAD + '[rules.overrides.aspect]\nmaximum = "1e999999999"',
        HEAD + '[rules.overrides.cut]\nwet = [{ advised = "9e99999/1", floor = "1 in" }]',
        HEAD + f"[engine]\neffort = {'9' * 400}",
    ],
)
def test_endless_numbers_and_nests_are_refused(write, text):
    assert mistakes(write(text))


VALUES = [
    "1", "-1", "0", "nan", "-inf", "1e308", "true", '""', '"x"', '"4 in"', "[]", "[[]]", "[1, 2]",
    "[[0, 0], [1, 1]]", "[[0, 0], [9, 0], [9, 9]]", "{}", "{ a = 1 }", "[{}]", "2026-05-01", "10:30:00",
]  # fmt: skip
PLACES = [m.span(1) for m in re.finditer(r"^[a-z_]+ = (.*)$", FULL, re.MULTILINE)]


@pytest.mark.parametrize(
    "added",
    [
        "[[wall]]\npath = [[0, 1e300], [5, 5]]",
        '[[wall]]\npath = [[0, 5], [9, 5]]\nthickness = "40 ft"',
        "[[penetration]]\nat = [5, 5]\ndiameter = 1e15",
        '[[penetration]]\nat = [5, 5]\ndiameter = "50 ft"',
        '[[zone]]\noutline = [[0, 0], [10, 0, 1e300], [0, 10]]\nthickness = "6 in"',
        "[[joint]]\npath = [[0, 5, -1e300], [40, 5]]",
        f'[[edge]]\nsegment = {10**400}\nkind = "free"',
        f"[rules.overrides]\naspect = {{ maximum = {10**400} }}",
        "[cut]\ndepth = 1e300",
    ],
)
def test_a_number_out_of_this_world_is_refused_in_a_short_sentence(write, added):
    (told,) = mistakes(write(HEAD + added))
    assert len(told) < 300


def test_an_arc_too_flat_to_tell_is_straight(write):
    job = read_job(write(HEAD + "\n[[joint]]\npath = [[0, 5, 1e-300], [40, 5]]\n"))
    assert len(job.slab.joints[0].path) == 2


@given(place=st.sampled_from(PLACES), value=st.sampled_from(VALUES))
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_value_anywhere_is_read_or_refused_in_our_words(write, place, value):
    told = mistakes_in(write(FULL[: place[0]] + value + FULL[place[1] :]))
    assert all(line.startswith("job.toml") for line in told)


def mistakes_in(path):
    try:
        read_job(path)
    except InputRefused as refusal:
        return [str(mistake) for mistake in refusal.mistakes]
    return []


SHARED = '[aspect]\nmaximum = 1.4\n\n[span.maximum]\ncap = "16 ft"\n'


def test_changes_to_the_rules_may_stand_in_a_file_that_jobs_share(write, tmp_path):
    (tmp_path / "office.toml").write_text(SHARED, encoding="utf-8")
    own = '[rules]\nfile = "office.toml"\noverrides = { aspect = { advised = 1.1 } }\n'
    assert read_job(write(HEAD + own)).rules.overrides == {
        "aspect": {"maximum": 1.4, "advised": 1.1},
        "span": {"maximum": {"cap": "16 ft"}},
    }


def test_the_jobs_own_change_comes_before_the_shared_one(write, tmp_path):
    (tmp_path / "office.toml").write_text(SHARED, encoding="utf-8")
    own = '[rules]\nfile = "office.toml"\noverrides = { aspect = { maximum = 1.3 } }\n'
    assert read_job(write(HEAD + own)).rules.overrides["aspect"] == {"maximum": 1.3}


def test_a_mistake_in_the_shared_file_names_that_file(write, tmp_path):
    (tmp_path / "office.toml").write_text(SHARED.replace("1.4", "-1"), encoding="utf-8")
    (told,) = mistakes(write(HEAD + '[rules]\nfile = "office.toml"\n'))
    assert told.startswith("office.toml line 2, aspect.maximum: a number above 0 is needed here")


def test_a_shared_file_that_is_not_there_is_refused(write):
    (told,) = mistakes(write(HEAD + '[rules]\nfile = "office.toml"\n'))
    assert "office.toml: there is no such file of rules" in told


def test_a_mistake_about_an_edge_names_the_last_table_that_speaks_of_it(write):
    added = '[[edge]]\nkind = "free"\n[[edge]]\nkind = "isolated"\n'
    told = mistakes(write(HEAD + added))
    assert len(told) == 4
    assert all("line 10, edge[1]" in line for line in told)


@pytest.mark.parametrize(
    "tables",
    [
        "[[column]]\nat = [10, 10]\nturn = 1e308\n",
        "[[column]]\nat = [10, 10]\nturn = -361\n",
        "[sheet]\nnorth = 1e308\n",
    ],
)
def test_an_angle_is_no_more_than_once_round(write, tables):
    with pytest.raises(InputRefused, match=r"this is no angle in degrees.*-360 to 360"):
        read_job(write(f"{HEAD}\n{tables}"))
