"""Only what changed is touched in a job file; the user's own comments, order and spelling stay."""

from dataclasses import replace

import pytest

from kerfline.files.job_file import read_job
from kerfline.files.job_revise import revise, without_drawing
from kerfline.model.slab import Column, GivenJoint, Wall

FILE = """\
# The shed. Walls first.
[[wall]]
path = [["0 ft", "6 ft"], ["12 ft", "6 ft"]]     # along the bench
id = "W1"

[job]
units = "mm"   # as drawn
name = 'Shed'

[slab]
outline = [
    [0, 0],      # by the door
    [6000, 0],
    [6000, 4000],
    [0, 4000],
]
thickness = 100   # to be cored

[[column]]
at = [3000.0, 2000]
id = "C1"
boxout = "square"  # cast tube
"""


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "shed.toml"
    path.write_text(FILE)
    return read_job(path)


def again(tmp_path, text):
    path = tmp_path / "again.toml"
    path.write_text(text)
    return read_job(path)


def test_nothing_changed_leaves_every_byte(job):
    assert revise(FILE, job, job) == FILE


def test_one_value_changes_in_its_line_and_keeps_its_comment(job):
    text = revise(FILE, job, replace(job, slab=replace(job.slab, thickness=125.0)))

    assert text == FILE.replace("thickness = 100   # to", 'thickness = "125 mm"   # to')


def test_one_things_value_changes_among_its_own(job):
    (column,) = job.slab.columns
    moved = replace(job.slab, columns=(replace(column, at=(3025.4, 2000.0)),))

    text = revise(FILE, job, replace(job, slab=moved))

    assert text == FILE.replace("at = [3000.0, 2000]", "at = [3025.4, 2000]")


def test_what_is_added_comes_after_its_kind_and_what_is_dropped_goes(job, tmp_path):
    walls = (*job.slab.walls, Wall(id="W2", path=((0.0, 500.0), (900.0, 500.0))))
    joints = (GivenJoint(id="J1", path=((0.0, 1.0), (6000.0, 1.0)), reason="span", note="why"),)
    slab = replace(job.slab, walls=walls, columns=(), joints=joints)

    text = revise(FILE, job, replace(job, slab=slab))

    assert text.index("along the bench") < text.index('id = "W2"') < text.index("[job]")
    assert "[[column]]" not in text
    assert again(tmp_path, text).slab == slab


def test_a_rule_set_is_written_where_there_was_no_table(job, tmp_path):
    rules = replace(job.rules, to_maximum=True)

    text = revise(FILE, job, replace(job, rules=rules))

    assert again(tmp_path, text).rules == rules


def test_things_that_stand_in_one_line_become_tables(job, tmp_path):
    text = FILE.split("[[column]]", maxsplit=1)[0]
    text = 'column = [{ id = "C1", at = [3000, 2000] }]\n' + text
    before = again(tmp_path, text)
    more = (*before.slab.columns, Column(id="C2", at=(1000.0, 1000.0)))

    revised = revise(text, before, replace(before, slab=replace(before.slab, columns=more)))

    assert again(tmp_path, revised).slab.columns == more


def test_written_out_whole_it_says_the_same_without_a_drawing(job, tmp_path):
    text = without_drawing(FILE, job, job)

    assert again(tmp_path, text).slab == job.slab
    assert "# The shed. Walls first." in text
    assert "# as drawn" in text


AREAS = (
    FILE.replace(
        "thickness = 100",
        "openings = [[[100, 100], [400, 100], [400, 400]]]  # sump\nthickness = 100",
    )
    + """
[[zone]]           # under the press
outline = [[1000, 1000], [2000, 1000], [2000, 2000]]
thickness = 200    # as the maker asks

[[edge]]
ring = 1
kind = "isolated"  # all round the sump
"""
)


def test_an_edge_of_the_slab_moves_and_zones_and_words_on_edges_keep_their_comments(tmp_path):
    (tmp_path / "shed.toml").write_text(AREAS)
    job = read_job(tmp_path / "shed.toml")
    outline = replace(job.slab.outline, points=(*job.slab.outline.points[:3], (-500.0, 4000.0)))
    zone = replace(job.slab.zones[0], thickness=250.0)
    changed = replace(job, slab=replace(job.slab, outline=outline, zones=(zone,)))

    text = revise(AREAS, job, changed)

    assert again(tmp_path, text).slab == changed.slab
    for comment in ("# sump", "# under the press", "# as the maker asks", "# all round the sump"):
        assert comment in text


def test_an_opening_that_is_gone_takes_the_words_on_its_edges_along(tmp_path):
    (tmp_path / "shed.toml").write_text(AREAS)
    job = read_job(tmp_path / "shed.toml")
    changed = replace(job, slab=replace(job.slab, openings=(), edges=()))

    text = revise(AREAS, job, changed)

    assert again(tmp_path, text).slab == changed.slab
    assert "openings" not in text
    assert "[[edge]]" not in text
    assert "# to be cored" in text


FLAGS = """\
[job]
name = "Shed"
units = "mm"

[rules]
set = "floor"
to_maximum = true  # agreed with the engineer

[slab]
outline = [[0, 0], [6000, 0], [6000, 4000], [0, 4000]]
thickness = 100

[[wall]]
id = "W1"
path = [[0, 2000], [4000, 2000]]
bearing = true     # carries the loft
strip_width = 300
strip_depth = 200
"""


WALL = FLAGS[FLAGS.index("[[wall]]") :]
RULES = FLAGS[FLAGS.index("[rules]") : FLAGS.index("[slab]")]


@pytest.mark.parametrize(
    "text",
    [
        FLAGS,
        FLAGS.replace("[slab]", "[rules.overrides]\naspect = { maximum = 1.4 }\n\n[slab]"),
        FLAGS + "\n[rules.overrides]\naspect = { maximum = 1.4 }\n",
        'rules.set = "floor"\nrules.to_maximum = true\n' + FLAGS.replace(RULES, ""),
        "rules = { set = 'floor', to_maximum = true }\n" + FLAGS.replace(RULES, ""),
        'wall = [{ id = "W1", path = [[0, 2000], [4000, 2000]], bearing = true }]\n'
        + FLAGS.replace(WALL, ""),
    ],
    ids=["plain", "overrides", "in two places", "dotted", "inline", "wall inline"],
)
def test_a_yes_that_becomes_no_keeps_its_comment(tmp_path, text):
    """A yes or no that the file holds is set to what the program would take anyway."""
    path = tmp_path / "job.toml"
    path.write_text(text)
    job = read_job(path)
    assert job.slab.walls[0].bearing
    assert job.rules.to_maximum
    walls = tuple(replace(wall, bearing=False) for wall in job.slab.walls)
    rules = replace(job.rules, to_maximum=False)
    changed = replace(job, slab=replace(job.slab, walls=walls), rules=rules)

    written = revise(text, job, changed)

    assert again(tmp_path, written).slab.walls == walls
    assert again(tmp_path, written).rules == rules
    if (
        text.count("[rules") < 2
    ):  # a table in two places keeps the value's comment only as far as it can
        for comment in ("# agreed with the engineer", "# carries the loft"):
            assert (comment in written) == (comment in text)
