"""What an amended plan says of its additions."""

from dataclasses import replace

import pytest

from checked import grid_slab, joint, with_joints
from kerfline.app.check import check_job
from kerfline.app.mend import mend
from kerfline.app.mend_notes import with_notes
from kerfline.model.job import Job
from kerfline.units import MM_PER_FOOT, Display, Unit, in_words


def job_of(slab, **more):
    return Job(name="Workshop", units=Unit.FT, slab=slab, effort=2.0, **more)


def in_feet(joint_):
    """The ends of a joint in feet, the lower or left one first."""
    return tuple(sorted(tuple(round(v / MM_PER_FOOT, 2) + 0.0 for v in p) for p in joint_.path))


def test_a_free_end_is_carried_on_and_says_so():
    short = joint("S", (20, 0), (20, 14))
    mended = mend(check_job(job_of(with_joints(grid_slab(), short, without=("V2",)))))
    (added,) = mended.added
    assert in_feet(added) == ((20, 14), (20, 30))
    assert added.note == "carries S on to the edge"
    assert mended.after.clean


def test_an_end_just_off_the_edge_is_carried_across():
    """A joint that ends on the floor's middle line leaves that line at the edge, 8 ft before it."""
    short = joint("S", (0, 20), (2, 20))
    mended = mend(check_job(job_of(with_joints(grid_slab(1, 3), short, without=("H2",)))))
    (added,) = mended.added
    assert in_feet(added) == ((2, 20), (10, 20))
    assert added.note == "carries S on to the edge"


def test_a_gap_in_a_joint_is_joined():
    parts = (joint("S", (20, 0), (20, 12)), joint("R", (20, 18), (20, 30)))
    mended = mend(check_job(job_of(with_joints(grid_slab(), *parts, without=("V2",)))))
    (added,) = mended.added
    assert in_feet(added) == ((20, 12), (20, 18))
    assert added.note == "joins S and R"


def test_the_sheet_says_that_nothing_is_added_and_where_bars_go():
    before = check_job(job_of(grid_slab(2, 1, bay=20.0)))
    bars = before.findings[:1]
    said = with_notes(before, bars)
    assert said.layout.notes == (
        *before.layout.notes,
        "No joint is added: none would clear an error. Existing joints stay as they are.",
        f"Bars, where the engineer agrees: {bars[0].message} {bars[0].remedy}",
    )
    assert said.layout.joints == before.layout.joints


def test_added_joints_are_summed_up_and_those_that_carry_nothing_on_say_why():
    before = check_job(job_of(grid_slab(3, 1)))
    first, second = before.layout.joints
    added = replace(first, note="keeps panels within the span")
    layout = replace(before.layout, joints=(added, second), added=frozenset({added.id}))
    said = with_notes(replace(before, layout=layout), ())
    assert said.layout.joints[0].note == "added: keeps panels within the span"
    assert said.layout.joints[1] == second
    (note,) = (in_words(n, Display.FEET_INCHES) for n in said.layout.notes)
    assert note == ("Added joints, 10 ft in all: V1 10'-0\". Existing joints stay as they are.")


@pytest.mark.parametrize(("aside", "words"), [(0.0, "carries S on to the edge"), (1.0, "added: ")])
def test_only_a_joint_in_line_is_carried_on(aside, words):
    """From where the other ends, 1 ft aside over 6 ft is 9 degrees off its line."""
    parts = (joint("S", (20, 0), (20, 24)), joint("R", (20, 24), (20 + aside, 30)))
    before = check_job(job_of(with_joints(grid_slab(), *parts, without=("V2",))))
    layout = replace(before.layout, added=frozenset({"R"}))
    said = with_notes(replace(before, layout=layout), ())
    assert next(j for j in said.layout.joints if j.id == "R").note.startswith(words)
