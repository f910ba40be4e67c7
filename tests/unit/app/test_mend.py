"""A mend of floors worked by hand: what is added, what it says, where bars go, what is left."""

from dataclasses import replace

import pytest
from shapely import LineString

from checked import box_ring, feet, grid_slab, joint, rules, with_joints
from kerfline.app.check import check_job
from kerfline.app.deliver_mend import mend_contents, mend_text
from kerfline.app.mend import additions, mend
from kerfline.app.mend_ends import landed
from kerfline.app.mend_plain import plain_additions
from kerfline.checks.given import given_layout
from kerfline.errors import InputRefused
from kerfline.geometry.ring import Ring
from kerfline.model.finding import Rule, Severity
from kerfline.model.job import Job
from kerfline.model.layout import Reason
from kerfline.model.slab import KeepOut, Slab, Zone
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.marks import Layer, Path
from kerfline.units import MM_PER_FOOT, MM_PER_INCH, Display, Unit


def job_of(slab, **more):
    return Job(name="Workshop", units=Unit.FT, slab=slab, effort=2.0, **more)


def in_feet(joint_):
    """The ends of a joint in feet, the lower or left one first."""
    return tuple(sorted(tuple(round(v / MM_PER_FOOT, 2) + 0.0 for v in p) for p in joint_.path))


def test_a_joint_left_out_comes_back_at_its_place():
    """Bays of 20 ft are halved: of 20 ft between joints no other place gives two bays within 12 ft square."""
    mended = mend(check_job(job_of(with_joints(grid_slab(), without=("V2",)))))
    assert [in_feet(j) for j in mended.added] == [((20, 0), (20, 30))]
    assert mended.after.clean
    assert mended.unmended == ()


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


def test_a_clean_floor_stays_as_it_is():
    mended = mend(check_job(job_of(grid_slab())))
    assert mended.added == ()
    assert mended.after.layout.joints == mended.before.layout.joints
    assert mended.after.layout.added == frozenset()


def test_what_nothing_can_mend_is_said():
    """A strip 1 ft wide between two joints stays too narrow whatever is added."""
    sliver = joint("S", (11, 0), (11, 30))
    mended = mend(check_job(job_of(with_joints(grid_slab(), sliver))))
    assert Rule.WIDTH in {f.rule for f in mended.unmended}
    assert mended.after.count(Severity.ERROR) <= mended.before.count(Severity.ERROR)
    assert "left      " in mend_text(mended)


def test_bars_stand_where_a_joint_cannot_help():
    """An end inside a keep-out: no saw may go on from there nor reach it, so bars go ahead of it."""
    tubing = KeepOut(id="K1", outline=box_ring(10.5, 13, 29.5, 19), what="tubing")
    slab = grid_slab(keep_outs=(tubing,))
    slab = with_joints(slab, joint("S", (20, 0), (20, 14)), without=("V2",))
    mended = mend(check_job(job_of(slab)))
    area = tubing.outline.polygon
    assert not [j for j in mended.added if j.line.intersection(area).length > 1.0]
    assert "S" in {f.subject for f in mended.bars if f.rule is Rule.FREE_END}
    assert "bars      " in mend_text(mended)
    assert any(n.startswith("Bars") for n in mended.after.layout.notes)


def test_a_job_without_joints_is_refused():
    with pytest.raises(InputRefused, match="no joints"):
        mend(check_job(job_of(grid_slab(joints=()))))


def test_additions_leave_out_what_is_there_whatever_its_pieces():
    """Of a whole joint of which the middle third exists, the two outer thirds are new."""
    slab = grid_slab(2, 1, bay=9.0)
    wished = given_layout(slab)
    there = replace(slab, joints=(joint("M", (9, 3), (9, 6)),))
    found = additions(slab, given_layout(there), wished)
    assert [in_feet(j) for j in found] == [((9, 0), (9, 3)), ((9, 6), (9, 9))]
    assert [j.id for j in found] == ["A1", "A2"]


def test_slivers_of_new_joint_are_no_additions():
    slab = grid_slab(2, 1, bay=9.0)
    there = replace(slab, joints=(joint("M", (9, 0.1), (9, 9)),))
    assert additions(slab, given_layout(there), given_layout(slab)) == ()


@pytest.fixture(scope="module")
def amended():
    """An L of which a corner joint is missing, its existing joints kept."""
    ell = Ring(feet((0, 0), (30, 0), (30, 10), (10, 10), (10, 30), (0, 30)))
    joints = (joint("G1", (20, 0), (20, 10)), joint("G2", (0, 20), (10, 20)))
    slab = Slab(outline=ell, thickness=101.6, joints=joints)
    return mend(check_job(job_of(slab)))


def test_an_ell_without_its_corner_joints_gets_them(amended):
    assert sorted(in_feet(j) for j in amended.added) == [((0, 10), (10, 10)), ((10, 0), (10, 10))]
    assert all(j.reason is not Reason.PINNED for j in amended.added)


def test_the_amended_plan_draws_additions_heavier_and_on_their_own_layer(amended):
    out = amended.after
    sheets = joint_plan(out.job, out.layout, out.findings, out.rules)
    sheet = sheets[0]
    assert sheet.title == "Amended joint plan"
    paths = [m for m in sheet.marks if isinstance(m, Path) and m.ref]
    of = {m.ref: m.layer for m in paths if m.layer.value.startswith("S-JNTS")}
    assert of["A1"] is of["A2"] is Layer.CONTROL_NEW
    assert of["G1"] is of["G2"] is Layer.CONTROL_EXISTING
    assert Layer.CONTROL not in {m.layer for m in sheet.marks}
    words = " ".join(t.text for s in sheets for t in s.texts)
    assert "Added joints" in {t.text for t in sheet.texts}
    for said in (
        "added control joint",
        "existing control joint",
        "Mended for panels of",
    ):
        assert said in words


def test_the_amended_plan_states_the_limits_that_it_was_mended_to(amended):
    """The greatest span at 4 in, 36 t: 12 ft (ACI 302.1R, 1996), not the advised 10 ft."""
    assert amended.after.layout.limits.span == pytest.approx(12 * MM_PER_FOOT)


def test_the_files_of_a_mend(amended):
    names = set(mend_contents(amended))
    assert {
        f"workshop-amended{end}" for end in (".pdf", ".svg", ".dxf", "-joints.csv", "-layout.json")
    } <= names


def plain(slab):
    """What the plain way adds, before anything is taken out again."""
    return plain_additions(slab, given_layout(slab), rules(), Display.FEET_INCHES)


def test_the_plain_way_carries_an_end_on_to_the_next_joint():
    slab = with_joints(grid_slab(2, 2), joint("S", (5, 0), (5, 4)))
    assert in_feet(plain(slab)[0]) == ((5, 4), (5, 10))


def test_the_plain_way_cuts_no_keep_out():
    """Whatever it would clear: neither an end is carried on nor a panel cut across where tubing lies."""
    tubing = KeepOut(id="K1", outline=box_ring(18, 22, 22, 26), what="tubing")
    slab = with_joints(
        grid_slab(keep_outs=(tubing,)), joint("S", (20, 0), (20, 14)), without=("V2",)
    )
    assert not [j for j in plain(slab) if j.line.intersection(tubing.outline.polygon).length > 1.0]


def test_the_plain_way_cuts_a_row_of_long_panels_with_one_line():
    """Three bays of 20 x 10 ft one above the other: one cut of 30 ft, not three that may miss each other."""
    (added,) = plain(with_joints(grid_slab(), without=("V2",)))
    assert in_feet(added) == ((20, 0), (20, 30))
    assert added.depth == pytest.approx(25.4)


def test_the_plain_way_cuts_a_bare_slab_both_ways():
    """24 x 24 ft at 4 in: 12 ft at most each way (36 t, ACI 302.1R, 1996), so one cut each way."""
    bare = grid_slab(1, 1, bay=24.0, joints=(joint("E", (24, 0), (24, 24)),))
    assert sorted(in_feet(j) for j in plain(bare)) == [((0, 12), (24, 12)), ((12, 0), (12, 24))]


def test_the_plain_way_follows_a_turned_panel():
    """A panel at 45 degrees is cut square to its own long side."""
    outline = Ring(feet((0, 0), (14, 14), (7, 21), (-7, 7)))
    slab = Slab(outline=outline, thickness=101.6)
    added = plain(slab)
    (cut,) = added
    (x0, y0), (x1, y1) = cut.path
    assert abs(x1 - x0) == pytest.approx(abs(y1 - y0), abs=1e-3)
    assert cut.length == pytest.approx(7 * 2**0.5 * MM_PER_FOOT, abs=1e-3)
    inches = (x0 + y0) / 2**0.5 / MM_PER_INCH  # from the lowest corner along the long side
    assert round(inches) == 119  # half of 14 ft times the root of 2 is 118.8 in
    assert inches == pytest.approx(119, abs=1e-4)


def test_the_plain_way_cuts_at_whole_inches_from_the_corner_of_the_slab():
    """A bare strip of 30 ft 1/2 in has three bays of 10'-0 1/6": cut at 120 and 240 in, not between."""
    slab = Slab(outline=box_ring(1 / 24, 0, 30 + 1 / 12, 10), thickness=101.6)
    added = plain(slab)
    assert [round((j.path[0][0] - MM_PER_FOOT / 24) / MM_PER_INCH, 6) for j in added] == [120, 240]


def test_the_plain_way_keeps_even_bays_where_whole_inches_would_be_too_long():
    """24 ft 7/8 in in two bays of 12'-0 7/16" at 4.0122 in, 36 t: a whole inch would exceed 12'-0 7/16"."""
    half = 12 + 7 / 16 / 12
    slab = Slab(outline=box_ring(0, 0, 2 * half, half), thickness=half * MM_PER_FOOT / 36)
    (added,) = plain(slab)
    assert added.path[0][0] / MM_PER_FOOT == pytest.approx(half, abs=1e-6)


def test_the_plain_way_works_to_the_thickness_of_a_zone():
    """Half the floor is 6 in thick: 18 ft there (36 t, ACI 302.1R, 1996) need no cut, at 4 in they would."""
    pad = Zone(id="Z1", outline=box_ring(0, 0, 18, 18), thickness=6 * MM_PER_INCH)
    border = (
        joint("G1", (18, 0), (18, 18)),
        joint("G2", (27, 0), (27, 18)),
        joint("G3", (18, 9), (36, 9)),
    )
    slab = Slab(outline=box_ring(0, 0, 36, 18), thickness=101.6, zones=(pad,), joints=border)
    assert plain(slab) == ()
    assert len(plain(replace(slab, zones=()))) == 2


def test_an_addition_ends_exactly_on_what_it_meets():
    """An end drawn 0.4 mm short or over is set on the line: at a joint, at the edge, and end to end."""
    slab = box_ring(0, 0, 20, 20)
    lines = [LineString(feet((10, 0), (10, 20))), LineString(feet((10, 5), (20, 5)))]
    short, over, in_line = (
        ((0.4, 3000.0), (3048.0 - 0.4, 3000.0)),
        ((-0.4, 4000.0), (3048.0 + 0.4, 4000.0)),
        ((3048.0 - 0.4, 1524.0 + 0.1), (0.0, 1524.0)),
    )
    given = given_layout(Slab(outline=slab, thickness=101.6, joints=(joint("G", (0, 1), (1, 1)),)))
    drawn = [replace(given.joints[0], path=path) for path in (short, over, in_line)]
    set_ = landed(slab.polygon, lines, drawn)
    assert [j.path for j in set_] == [
        ((0.0, 3000.0), (3048.0, 3000.0)),
        ((0.0, 4000.0), (3048.0, 4000.0)),
        ((3048.0, 1524.0), (0.0, 1524.0)),
    ]


def test_around_slanted_joints_the_shorter_of_two_mends_is_taken():
    slant = (joint("G1", (10, 0), (14, 30)), joint("G2", (25, 0), (25, 30)))
    outline = box_ring(0, 0, 36, 30)
    slab = Slab(outline=outline, thickness=101.6, joints=slant)
    mended = mend(check_job(job_of(slab)))
    assert mended.after.clean
    assert sum(j.length for j in mended.added) <= 5 * 36 * MM_PER_FOOT


def test_the_plain_way_leaves_a_strip_that_is_too_narrow():
    """Cut into short lengths a strip of 1 ft would be many panels that are too narrow, in place of one."""
    slab = with_joints(grid_slab(), joint("S", (1, 0), (1, 30)))
    assert plain(slab) == ()


def test_what_can_be_mended_is_mended_beside_what_cannot():
    """A 1 ft strip stays; the bay of 20 ft on the other side of the floor is halved all the same."""
    slab = with_joints(grid_slab(), joint("S", (1, 0), (1, 30)), without=("V3",))
    mended = mend(check_job(job_of(slab)))
    assert [in_feet(j) for j in mended.added] == [((30, 0), (30, 30))]
    assert {f.rule for f in mended.unmended} == {Rule.WIDTH, Rule.ASPECT}
