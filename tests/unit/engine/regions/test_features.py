"""What stands on a slab asks for few lines, however finely its curves are drawn."""

from dataclasses import replace

import pytest
import shapely
from shapely import LineString

from kerfline.engine.lay_out import lay_out
from kerfline.engine.options import EngineOptions, Weights
from kerfline.engine.regions.features import (
    Rank,
    features,
    is_opening,
    model_outline,
    passed_of,
)
from kerfline.engine.regions.frames import regions_of
from kerfline.engine.regions.region import X, Y
from kerfline.geometry.ring import Ring
from kerfline.geometry.tolerance import MEASURE, TOUCH
from kerfline.model.layout import Reason
from kerfline.model.slab import (
    Boxout,
    Column,
    GivenJoint,
    JointKind,
    KeepOut,
    Meeting,
    Penetration,
    Wall,
    Zone,
)
from unit.engine.plans import (
    EL,
    RULES,
    all_settled,
    box,
    feet,
    in_feet,
    region_of,
    ring,
    slab,
    wall,
)
from unit.engine.plans import MM_PER_FOOT as FT
from unit.engine.slabs import slab as slab_on

ROUND = Ring(feet((10, 10), (20, 10)), (1.0, 1.0))


def asked(*zones):
    """The places in feet that zones of a floor of 40 x 30 ft ask for, by axis."""
    region = region_of(slab(box(40, 30), zones=zones))
    found = [f for f in features(region) if f.rank is Rank.ZONE]
    return [sorted({in_feet(f.at) for f in found if f.axis == axis}) for axis in (0, 1)]


def test_a_square_zone_asks_for_its_four_edges():
    assert asked(Zone(id="Z1", outline=box(8, 6, 10, 4), thickness=150.0)) == [[10, 18], [4, 10]]


def test_a_slanting_zone_asks_for_its_corners_too():
    outline = Ring(feet((10, 4), (18, 4), (15, 10), (10, 10)))
    assert asked(Zone(id="Z1", outline=outline, thickness=150.0)) == [[10, 15, 18], [4, 10]]


def test_a_round_zone_asks_for_few_lines_not_for_one_at_each_chord_of_its_arc():
    across, up = asked(Zone(id="Z1", outline=ROUND, thickness=150.0, joint_at_border=False))
    assert len(across) <= 10
    assert len(up) <= 10
    for places, low, high in ((across, 10, 20), (up, 5, 15)):
        assert abs(places[0] - low) <= 0.5
        assert abs(places[-1] - high) <= 0.5


def found(plan, *ranks):
    """Axis, place and extent in feet of the features of some ranks."""
    return sorted(
        (f.axis, round(f.at / FT, 2), round(f.start / FT, 2), round(f.end / FT, 2))
        for f in features(region_of(plan))
        if f.rank in ranks
    )


def test_the_edges_of_an_ell():
    assert found(slab(EL), Rank.EDGE) == [
        (X, 0, 0, 36), (X, 22, 18, 36), (X, 40, 0, 18), (Y, 0, 0, 40), (Y, 18, 22, 40), (Y, 36, 0, 22),
    ]  # fmt: skip


def test_a_long_wall_is_a_line_with_its_slack_and_its_two_ends():
    plan = slab(box(40, 30), walls=(wall("W1", (13, 4), (13, 26)),))
    assert found(plan, Rank.WALL) == [(X, 13, 4, 26)]
    assert found(plan, Rank.WALL_END) == [(Y, 4, 13, 13), (Y, 26, 13, 13)]
    (line,) = [f for f in features(region_of(plan)) if f.rank is Rank.WALL]
    assert (line.slack, line.length, line.id) == (
        pytest.approx(57.15),
        pytest.approx(22 * FT),
        "W1",
    )


def test_a_short_wall_is_a_wish_without_ends():
    plan = slab(box(40, 30), walls=(wall("W1", (13, 4), (13, 8)),))
    assert found(plan, Rank.STUB) == [(X, 13, 4, 8)]
    assert found(plan, Rank.WALL, Rank.WALL_END) == []


def test_a_bearing_wall_wants_a_line_on_either_side_of_its_strip():
    """Half of 2 ft and two inches off."""
    strip = wall("W1", (13, 4), (13, 26), bearing=True, strip_width=2 * FT)
    plan = slab(box(40, 30), walls=(strip,))
    off = 1 + 2 / 12
    assert found(plan, Rank.BESIDE) == [
        (X, round(13 - off, 2), 4, 26),
        (X, round(13 + off, 2), 4, 26),
    ]
    assert found(plan, Rank.WALL) == []


def test_a_wall_aslant_is_none_of_the_grids():
    plan = slab(box(40, 30), walls=(wall("W1", (5, 5), (25, 25)),))
    assert found(plan, Rank.WALL, Rank.WALL_END) == []


def test_a_column_and_a_pipe_are_a_line_on_either_axis():
    plan = slab(
        box(40, 30),
        columns=(Column(id="C1", at=feet((13, 9))[0]),),
        penetrations=(Penetration(id="N1", at=feet((20, 5))[0], diameter=100.0),),
    )
    assert found(plan, Rank.COLUMN) == [(X, 13, 9, 9), (Y, 9, 13, 13)]
    assert found(plan, Rank.PENETRATION) == [(X, 20, 5, 5), (Y, 5, 20, 20)]


def test_a_pipe_to_stay_clear_of_is_gone_round():
    clear = Penetration(
        id="N1", at=feet((20, 5))[0], diameter=100.0, meeting=Meeting.CLEAR, clear=FT
    )
    plan = slab(box(40, 30), penetrations=(clear,))
    places = [at for axis, at, *_ in found(plan, Rank.BESIDE) if axis == X]
    assert places == pytest.approx([20 - 1 - 2 / 12, 20 + 1 + 2 / 12], abs=0.01)


def test_a_keep_out_is_gone_round_two_inches_off():
    plan = slab(box(40, 30), keep_outs=(KeepOut(id="K1", outline=box(6, 4, 10, 8)),))
    inches = 2 / 12
    assert [at for axis, at, *_ in found(plan, Rank.BESIDE) if axis == X] == [
        round(10 - inches, 2), round(16 + inches, 2),
    ]  # fmt: skip


@pytest.mark.parametrize(("times", "is_one"), [(1.99, False), (2.0, True)])
def test_a_square_boxout_of_two_least_widths_is_an_opening(times, is_one):
    least = RULES.working(101.6).width
    column = Column(id="C1", at=feet((20, 15))[0], boxout=Boxout.SQUARE, size=times * least)
    region = region_of(slab(box(40, 30), columns=(column,)))
    assert is_opening(column, region) is is_one
    assert is_opening(replace(column, boxout=Boxout.DIAMOND), region) is False
    assert is_opening(replace(column, turn=90.5), region) is is_one
    assert is_opening(replace(column, turn=45.0), region) is False
    gone = region.gross.area - model_outline(region).area
    assert gone == pytest.approx((times * least) ** 2 if is_one else 0.0)


def test_a_given_joint_is_pinned_along_its_axis():
    plan = slab(box(40, 30), joints=(GivenJoint(id="G1", path=feet((0, 12), (40, 12))),))
    assert found(plan, Rank.PINNED) == [(Y, 12, 0, 40)]


SKEW = slab_on((0, 0), (36, 0), (42, 24), (0, 24))
"""A slab with one skew end, which the general method takes."""


SMALL = slab_on((0, 0), (22, 0), (25, 16), (0, 16))
"""A smaller one, for what is laid out to the end."""


def at(x, y):
    return feet((x, y))[0]


def settled(given):
    (place,) = regions_of(given, RULES, EngineOptions())
    return all_settled(place.region)


def all_joints(layout):
    return shapely.union_all([j.line for j in layout.joints])


def test_wall_joint_runs_on_to_the_next_edge():
    wall = Wall(id="W1", path=feet((0, 12), (20, 12)))
    (cut,) = settled(replace(SKEW, walls=(wall,))).cuts
    assert cut.reason is Reason.WALL
    assert LineString(cut.path).length == pytest.approx(at(39, 0)[0], abs=1.0)


def test_wall_joint_stops_on_the_joint_of_a_longer_wall():
    long, short = (
        Wall(id="W1", path=feet((20, 0), (20, 24))),
        Wall(id="W2", path=feet((4, 8), (12, 8))),
    )
    first, second = settled(replace(SKEW, walls=(long, short))).cuts
    assert LineString(first.path).length == pytest.approx(at(24, 0)[0], abs=1.0)
    assert LineString(second.path).length == pytest.approx(at(20, 0)[0], abs=1.0)


def test_walls_a_few_inches_out_of_line_share_a_joint():
    walls = (
        Wall(id="W1", path=feet((0, 12), (16, 12))),
        Wall(id="W2", path=feet((20, 12.1), (34, 12.1))),
    )
    found = settled(replace(SKEW, walls=walls))
    assert len(found.cuts) == 1
    assert found.wall_shifts["W2"] == pytest.approx(0.1 * at(1, 0)[0], abs=1.0)


def test_bearing_wall_is_left_without_a_joint_and_says_why():
    wall = Wall(id="W1", path=feet((0, 8), (22, 8)), bearing=True, strip_width=609.6)
    given = replace(SMALL, walls=(wall,))
    assert "bears" in settled(given).walls_left["W1"]
    joints = all_joints(lay_out(given, RULES))
    along = joints.intersection(wall.line.buffer(250.0, cap_style="flat"))
    assert along.length < at(22, 0)[0] / 4


def test_wall_that_would_leave_a_narrow_panel_is_left():
    wall = Wall(id="W1", path=feet((0, 1), (36, 1)))
    assert "narrower" in settled(replace(SKEW, walls=(wall,))).walls_left["W1"]


def test_given_joint_keeps_its_kind_and_depth():
    given = GivenJoint(
        id="G1", path=feet((18, 0), (18, 24)), kind=JointKind.CONSTRUCTION, depth=40.0
    )
    (cut,) = settled(replace(SKEW, joints=(given,))).cuts
    assert (cut.kind, cut.depth) == (JointKind.CONSTRUCTION, 40.0)


def test_no_joint_lies_along_a_forbidden_line():
    line = feet((11, 0), (11, 16))
    given = replace(SMALL, joints=(GivenJoint(id="G1", path=line, forbidden=True),))
    assert (
        all_joints(lay_out(given, RULES)).intersection(LineString(line).buffer(1.0)).length
        < at(1, 0)[0]
    )


@pytest.mark.parametrize("boxout", [Boxout.DIAMOND, Boxout.CIRCLE])
def test_column_is_met_by_a_joint(boxout):
    column = Column(id="C1", at=at(11, 8), boxout=boxout)
    layout = lay_out(replace(SMALL, columns=(column,)), RULES)
    assert all_joints(layout).distance(column.outline.polygon) <= TOUCH
    assert all(not p.polygon.interiors for p in layout.panels)


def test_joint_runs_through_a_drain_that_asks_for_it():
    drain = Penetration(id="N1", at=at(8, 6), diameter=101.6, meeting=Meeting.THROUGH)
    assert (
        all_joints(lay_out(replace(SMALL, penetrations=(drain,)), RULES)).distance(
            shapely.Point(drain.at)
        )
        < TOUCH
    )


def test_border_of_a_zone_is_a_joint_and_the_span_follows_the_zone():
    zone = Zone(id="Z1", outline=ring((0, 0), (11, 0), (11, 16), (0, 16)), thickness=152.4)
    layout = lay_out(replace(SMALL, zones=(zone,)), RULES)
    border = LineString(feet((11, 0), (11, 16)))
    assert all_joints(layout).buffer(1.0).intersection(border).length >= border.length - 2.0
    thin, thick = RULES.working(101.6).span, RULES.working(152.4).span
    for panel in layout.panels:
        in_zone = zone.outline.polygon.buffer(1.0).covers(panel.polygon)
        assert panel.length <= (thick if in_zone else thin) + MEASURE


def test_most_joints_of_two_wings_meet_on_the_shared_line():
    given = slab_on((0, 0), (30, 0), (50, 20), (36, 34), (22, 20), (0, 20))
    first, second = regions_of(given, RULES, EngineOptions())
    (border,) = first.borders
    shared = LineString(border.path)
    layout = lay_out(given, RULES)
    ends = [
        shapely.Point(p)
        for joint in layout.joints
        for p in (joint.path[0], joint.path[-1])
        if shared.distance(shapely.Point(p)) <= TOUCH and joint.line.distance(shared) <= TOUCH
    ]
    inner = [e for e in ends if min(e.distance(shapely.Point(p)) for p in border.path) > 10.0]
    met = [any(e is not o and e.distance(o) <= 2.0 for o in inner) for e in inner]
    assert sum(met) >= len(inner) / 2
    assert second.angle != first.angle


def test_no_side_should_run_on_past_a_corner_or_a_column_without_a_boxout():
    """Two panels run on past such a column, each for half its price; one past a corner."""
    bare = Column(id="C1", at=feet((10, 9))[0], boxout=Boxout.NONE)
    cut_out = Column(id="C2", at=feet((30, 9))[0], boxout=Boxout.SQUARE)
    weights = Weights(corner_passed=3.0, column_side=14.0)
    found = passed_of(region_of(slab(EL, columns=(bare, cut_out))), weights)
    assert [(tuple(round(v / FT, 3) for v in at), price) for at, price in found] == [
        ((22.0, 18.0), pytest.approx(3.0 * FT)),
        ((10.0, 9.0), pytest.approx(7.0 * FT)),
    ]
