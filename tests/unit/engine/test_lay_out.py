"""Layouts that a finisher would expect, and the duties of the engine in their order."""

from collections import Counter
from itertools import pairwise

import pytest
import shapely

from kerfline.errors import InputRefused
from kerfline.geometry.ring import Ring
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.layout import Reason, Status
from kerfline.model.slab import (
    BearingRule,
    Boxout,
    Column,
    GivenJoint,
    JointKind,
    KeepOut,
    Meeting,
    Penetration,
    Slab,
    Zone,
)
from kerfline.units import MM_PER_FOOT, Display, in_words
from unit.engine.plans import EL, HOUSE, box, in_feet, layout, lines, ring, slab, wall


def at(x, y):
    return (x * MM_PER_FOOT, y * MM_PER_FOOT)


def test_a_hall_is_divided_evenly_both_ways():
    """40 x 24 ft at 10 ft: four bays by three (common practice)."""
    found = layout(slab(box(40, 24)))
    assert lines(found) == ([10, 20, 30], [8, 16])
    assert len(found.panels) == 12


@pytest.mark.parametrize(("length", "count"), [(150, 20), (300, 40), (400, 54), (997.25, 133)])
def test_a_long_walk_is_divided_evenly_however_many_joints_that_takes(length, count):
    """6 ft wide at an advised aspect of 1.25: bays of 7'-6" and as little less as comes out even."""
    xs, ys = lines(layout(slab(box(length, 6))))
    bays = [b - a for a, b in pairwise([0, *xs, length])]
    assert not ys
    assert len(bays) == count
    assert max(bays) - min(bays) <= 0.3
    assert max(bays) <= 7.5 + 1e-6


def test_the_corners_of_an_opening_six_inches_from_the_edge_get_their_joints():
    """15 x 30 ft, 3 1/2 in thick, an opening of 4 ft in its upper right corner."""
    hole = Ring(((3198.0, 7770.0), (3198.0, 8994.0), (4422.0, 8994.0), (4422.0, 7770.0)))
    given = Slab(
        outline=Ring(((0.0, 0.0), (4572.0, 0.0), (4572.0, 9144.0), (0.0, 9144.0))),
        thickness=88.9,
        openings=(hole,),
    )
    cuts = shapely.union_all([j.line for j in layout(given).joints])
    assert all(cuts.distance(shapely.Point(c.at)) <= TOUCH for c in given.reentrant_corners)


def test_a_pad_within_the_limits_gets_no_joint():
    found = layout(slab(box(8, 9)))
    assert not found.joints
    assert len(found.panels) == 1


def test_a_corridor_is_cut_where_its_width_asks_for_it():
    """5 ft wide at an aspect of 1.5: no panel longer than 7.5 ft."""
    found = layout(slab(box(60, 5)))
    assert max(p.aspect for p in found.panels) <= 1.5
    assert len({in_feet(p.length) for p in found.panels}) == 1


def test_the_answer_is_proven_and_its_bounds_hold():
    found = layout(slab(EL))
    assert found.solution.status is Status.OPTIMAL
    assert found.solution.gap == 0.0
    assert found.solution.length_bound <= found.joint_length


def test_joints_say_why_they_are_there():
    found = layout(HOUSE)
    notes = {in_words(j.note, Display.FEET_INCHES) for j in found.joints}
    assert "under wall W8" in notes
    assert "re-entrant corner at (36'-0\", 30'-0\")" in {
        in_words(j.note, Display.FEET_INCHES) for j in layout(slab(HOUSE.outline)).joints
    }
    assert any(n.startswith("open floor: ") and n.endswith("is more than 10'-0\"") for n in notes)


def test_every_wall_of_a_house_has_its_joint():
    found = layout(HOUSE)
    assert not found.walls_left
    assert found.solution.status is Status.OPTIMAL
    cuts = shapely.union_all([j.line for j in found.joints])
    for each in HOUSE.walls:
        assert each.line.difference(cuts.buffer(each.thickness / 2)).length < 160.0
    assert found.hidden_length > 150 * MM_PER_FOOT


def test_walls_a_little_out_of_line_share_one_joint_within_both():
    found = layout(
        slab(box(30, 20), walls=(wall("W1", (0, 10), (14, 10)), wall("W2", (14, 10.2), (30, 10.2))))
    )
    across = [j for j in found.joints if j.reason is Reason.WALL]
    assert len(across) == 1
    assert across[0].note == "under walls W1 and W2"
    y = across[0].path[0][1]
    assert abs(y - 10 * MM_PER_FOOT) < 57.15
    assert abs(y - 10.2 * MM_PER_FOOT) < 57.15
    assert set(found.wall_shifts) <= {"W1", "W2"}


def test_a_joint_shared_by_two_walls_lies_on_a_whole_inch():
    """Centres three inches apart, 4 1/2 in. thick: 10 and 11 in. past the foot are within both."""
    walls = (wall("W1", (0, 9.75), (14, 9.75)), wall("W2", (14, 10), (30, 10)))
    found = layout(slab(box(30, 20), walls=walls))
    y = next(j.path[0][1] for j in found.joints if j.reason is Reason.WALL)
    assert y / 25.4 == pytest.approx(round(y / 25.4), abs=1e-6)
    assert abs(y - 9.75 * MM_PER_FOOT) < 57.15
    assert abs(y - 10 * MM_PER_FOOT) < 57.15


def test_a_wall_too_near_the_edge_is_left_and_named():
    found = layout(slab(box(30, 20), walls=(wall("W7", (0, 1.2), (30, 1.2)),)))
    assert "W7" in found.walls_left
    assert "under the least width of 2'-0\"" in in_words(
        found.walls_left["W7"], Display.FEET_INCHES
    )
    assert "under the least width of 610 mm" in in_words(found.walls_left["W7"], Display.METRIC)


def test_no_joint_runs_along_the_strip_of_a_bearing_wall():
    bearing = wall("W1", (18, 0), (18, 30), bearing=True, strip_width=400.0, strip_depth=300.0)
    found = layout(slab(box(40, 30), walls=(bearing,)))
    strip = bearing.line.buffer(200.0, cap_style="flat")
    along = [j for j in found.joints if j.path[0][0] == j.path[-1][0]]
    assert along
    assert all(j.line.intersection(strip).length < TOUCH for j in along)
    doweled = wall("W1", (18, 0), (18, 30), bearing=True, bearing_rule=BearingRule.DOWELED)
    assert 18 in lines(layout(slab(box(40, 30), walls=(doweled,))))[0]


def test_joints_meet_the_four_points_of_a_diamond():
    column = Column(id="C1", at=at(18, 13))
    found = layout(slab(box(40, 30), columns=(column,)))
    ends = shapely.MultiPoint([p for j in found.joints for p in (j.path[0], j.path[-1])])
    assert all(ends.distance(shapely.Point(p)) <= TOUCH for p in column.points)


def test_a_large_square_boxout_has_a_joint_at_each_corner():
    column = Column(id="C1", at=at(20, 15), boxout=Boxout.SQUARE, size=1500.0)
    found = layout(slab(box(40, 30), columns=(column,)))
    cuts = shapely.union_all([j.line for j in found.joints])
    assert all(cuts.distance(shapely.Point(p)) <= TOUCH for p in column.outline.points)


def test_a_joint_runs_through_a_drain_and_clear_of_a_pipe():
    drain = Penetration(id="N1", at=at(8, 9), diameter=100.0, meeting=Meeting.THROUGH)
    pipe = Penetration(id="N2", at=at(27, 16), diameter=100.0, meeting=Meeting.CLEAR)
    found = layout(slab(box(36, 28), penetrations=(drain, pipe)))
    cuts = shapely.union_all([j.line for j in found.joints])
    assert cuts.distance(shapely.Point(drain.at)) <= 50.0
    assert cuts.distance(shapely.Point(pipe.at)) >= 304.0


def test_no_joint_enters_a_keep_out():
    tubes = KeepOut(id="K1", outline=box(6, 8, 12, 9), what="tubing")
    found = layout(slab(box(40, 30), keep_outs=(tubes,)))
    assert not any(j.line.intersects(tubes.outline.polygon) for j in found.joints)
    assert max(p.length for p in found.panels) <= 1.05 * found.limits.span + 0.5


def test_concrete_over_a_keep_out_wider_than_the_span_stays_whole():
    tubes = KeepOut(id="K1", outline=box(16, 14, 12, 9))
    found = layout(slab(box(40, 30), keep_outs=(tubes,)))
    assert not any(j.line.intersects(tubes.outline.polygon) for j in found.joints)
    assert sum(p.length > 1.05 * found.limits.span + 0.5 for p in found.panels) == 1


def test_deep_tubing_is_no_keep_out():
    """One inch of cut and half an inch of tolerance leave 2 in of cover untouched."""
    tubes = KeepOut(id="K1", outline=box(40, 30), cover=60.0)
    assert len(layout(slab(box(40, 30), keep_outs=(tubes,))).panels) == 12


def test_a_slab_that_may_not_be_cut_is_returned_whole():
    tubes = KeepOut(id="K1", outline=box(40, 30))
    assert len(layout(slab(box(40, 30), keep_outs=(tubes,))).panels) == 1


def test_a_zone_has_its_own_span_and_a_joint_at_its_border():
    pad = Zone(id="Z1", outline=box(12, 30, 28, 0), thickness=152.4)
    found = layout(slab(box(40, 30), zones=(pad,)))
    assert 28 in lines(found)[0]
    inside = [p for p in found.panels if p.polygon.representative_point().x > 28 * MM_PER_FOOT]
    assert all(p.length <= 15 * MM_PER_FOOT + 0.5 for p in inside)
    assert max(j.depth for j in found.joints) == pytest.approx(152.4 / 4)


def test_pinned_joints_stay_and_forbidden_lines_stay_free():
    pinned = GivenJoint(id="G1", path=(at(0, 13), at(40, 13)), kind=JointKind.CONSTRUCTION)
    free = GivenJoint(id="G2", path=(at(20, 0), at(20, 30)), forbidden=True)
    found = layout(slab(box(40, 30), joints=(pinned, free)))
    up, across = lines(found)
    assert 13 in across
    assert 20 not in up
    kept = next(j for j in found.joints if j.reason is Reason.PINNED)
    assert kept.kind is JointKind.CONSTRUCTION
    assert kept.depth == 0.0


@pytest.mark.parametrize("display", [Display.FEET_INCHES, Display.METRIC])
def test_positions_are_whole_steps_from_the_corner(display):
    found = layout(slab(Ring(((0, 0), (11013, 0), (11013, 7007), (0, 7007)))), display=display)
    step = 25.4 if display is Display.FEET_INCHES else 10.0
    places = [j.path[0][0] if j.path[0][0] == j.path[1][0] else j.path[0][1] for j in found.joints]
    assert places
    assert all(abs(p / step - round(p / step)) < 1e-6 for p in places)


def test_a_symmetric_slab_gets_a_symmetric_layout():
    tee = ring((0, 20), (15, 20), (15, 0), (30, 0), (30, 20), (45, 20), (45, 36), (0, 36))
    up, _ = lines(layout(slab(tee)))
    assert [45 - x for x in reversed(up)] == up


def test_a_surveyed_slab_is_cut_along_its_true_corners():
    """Edges up to two degrees out of square; the joints reach the true edges."""
    outline = ring((0, 0), (40.2, 0.3), (40, 18.2), (22.1, 18), (22.3, 36.2), (-0.2, 36))
    found = layout(slab(outline))
    area = sum(p.area for p in found.panels)
    assert area == pytest.approx(outline.polygon.area, rel=1e-6)
    assert max(p.length for p in found.panels) <= 1.05 * found.limits.span + 0.5
    cuts = shapely.union_all([j.line for j in found.joints])
    assert cuts.distance(shapely.Point(at(22.1, 18))) <= TOUCH


def test_a_jog_of_a_few_inches_still_gets_its_joint():
    outline = ring((0, 0), (30, 0), (30, 10), (30.3, 10), (30.3, 22), (0, 22))
    cuts = shapely.union_all([j.line for j in layout(slab(outline)).joints])
    assert cuts.distance(shapely.Point(at(30, 10))) <= TOUCH


def test_one_saw_pass_is_one_joint():
    """Joints are not chopped at crossings: 3 up and 2 across."""
    assert len(layout(slab(box(40, 24))).joints) == 5


def test_joints_and_panels_are_numbered_in_reading_order():
    found = layout(slab(box(40, 24)))
    assert [j.id for j in found.joints] == ["J1", "J2", "J3", "J4", "J5"]
    assert found.panels[0].polygon.bounds[:2] == (0.0, 0.0)
    assert found.panels[1].polygon.bounds[0] > 0


def test_an_unknown_weight_is_refused_with_the_names_that_exist():
    with pytest.raises(InputRefused, match="tees") as refused:
        layout(slab(box(20, 20)), weights={"tees": 1.0})
    assert "tee" in refused.value.mistakes[0].allowed
    with pytest.raises(InputRefused, match="from 0 upward"):
        layout(slab(box(20, 20)), weights={"tee": -1.0})


def test_weights_change_the_layout():
    """Where tees cost nothing the L is cut with less joint."""
    plain = layout(slab(EL))
    short = layout(slab(EL), weights={"tee": 0.0, "line": 0.0, "corner_passed": 0.0, "uneven": 0.0})
    assert short.joint_length < plain.joint_length


def test_progress_is_told_in_words():
    told = []
    layout(slab(box(20, 20)), progress=told.append)
    assert len(told) >= 3


def square(name, x, y, size):
    return Column(id=name, at=at(x, y), boxout=Boxout.SQUARE, size=size * MM_PER_FOOT)


@pytest.mark.parametrize(
    ("columns", "pieces", "area"),
    [
        ((square("C1", 22, 2.5, 5),), 2, 35 * 5),
        ((square("C1", 12, 2.5, 6), square("C2", 27, 2.5, 6)), 3, 28 * 5),
        ((square("C1", 20, 1.5, 3), square("C2", 20, 4.5, 3)), 2, 37 * 5),
    ],
)
def test_every_piece_that_boxouts_part_from_edge_to_edge_is_laid_out(columns, pieces, area):
    """The areas are those of the strips of 5 ft that are left between the boxouts, in square feet."""
    strip = slab(box(40, 5), columns=columns)
    assert len(strip.pieces) == pieces
    found = layout(strip)
    assert sum(p.area for p in found.panels) == pytest.approx(area * MM_PER_FOOT**2)
    assert max(p.length for p in found.panels) <= 10 * MM_PER_FOOT + 0.5
    for piece in strip.pieces:
        assert any(piece.covers(p.polygon.representative_point()) for p in found.panels)


LEVELS = (16.5, 33.0, 49.5)
"""Feet. A hall of 66 ft is seven even bays of 9'-5"; from column to column two bays of 8'-3" each."""


@pytest.mark.parametrize("boxout", list(Boxout))
def test_joints_run_on_the_lines_of_columns_that_stand_in_the_edge(boxout):
    columns = tuple(
        Column(id=f"C{n}", at=at(x, y), boxout=boxout, size=MM_PER_FOOT)
        for n, (x, y) in enumerate(((x, y) for y in LEVELS for x in (0, 40)), 1)
    )
    found = layout(slab(box(40, 66), columns=columns))
    up, across = lines(found)
    assert up == [10, 20, 30]
    assert set(LEVELS) <= set(across)
    assert len(across) == 7
    cuts = shapely.union_all([j.line for j in found.joints])
    assert all(cuts.distance(shapely.Point(c.at)) <= MM_PER_FOOT for c in columns)


def test_a_joint_leaves_one_corner_of_each_recess_in_the_edge():
    """Recesses of 16 x 16 in round pilasters: two joints 16 in apart would have a strip under the least width between them."""
    deep = 4 / 3
    recesses = [
        box(deep, deep, x=x, y=y - deep / 2).polygon for y in LEVELS for x in (0, 40 - deep)
    ]
    given = slab(Ring.of(box(40, 66).polygon.difference(shapely.union_all(recesses))))
    found = layout(given)
    cuts = shapely.union_all([j.line for j in found.joints])
    bare = [c.at for c in given.reentrant_corners if cuts.distance(shapely.Point(c.at)) > TOUCH]
    assert len(given.reentrant_corners) == 12
    assert len(bare) == len({(x > 6000, round(y / 2000)) for x, y in bare}) == 6
    assert min(p.width for p in found.panels) > 6 * MM_PER_FOOT
    assert len(found.panels) == 4 * 8


def test_on_a_large_floor_joints_run_through_from_recess_to_recess():
    """120 x 163 ft in blocks, recesses of 16 in every 18 ft along both long sides: each gets its joint, through the hall."""
    deep = 4 / 3
    levels = range(18, 160, 18)
    recesses = [box(deep, deep, x=x, y=y).polygon for y in levels for x in (0, 120 - deep)]
    given = slab(Ring.of(box(120, 162 + deep).polygon.difference(shapely.union_all(recesses))))
    found = layout(given)
    across = Counter()
    for joint in found.joints:
        (_, low), (_, high) = joint.path[0], joint.path[-1]
        across[in_feet(low)] += in_feet(joint.line.length) if low == high else 0.0
    for y in levels:
        reached = max(across[y], across[round(y + deep, 2)])
        assert reached >= 120 - 2 * deep - 0.05
    assert min(p.width for p in found.panels) > 6 * MM_PER_FOOT
