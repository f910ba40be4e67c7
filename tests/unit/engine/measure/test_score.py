"""One order of layouts: rules broken first, then the weighted cost; and what each weight counts in it."""

import pytest
from shapely import LineString, box
from shapely.geometry import Point

from kerfline.engine.measure.cost import Cost
from kerfline.engine.measure.score import Floor, Score, panels_between, score_of
from kerfline.engine.options import Weights
from kerfline.engine.regions.features import AskingLine, Target
from kerfline.model.layout import Reason, WorkingLimits
from kerfline.units import MM_PER_FOOT

FOOT = MM_PER_FOOT
WORKING = WorkingLimits(span=10 * FOOT, aspect=1.5, width=2 * FOOT, angle=60.0)
FLOOR = box(0, 0, 18 * FOOT, 18 * FOOT)


def line(*points):
    return LineString([(x * FOOT, y * FOOT) for x, y in points])


CROSS = (line((9, 0), (9, 18)), line((0, 9), (18, 9)))
TEES = (line((9, 0), (9, 18)), line((0, 9), (9, 9)), line((9, 9.5), (18, 9.5)))


def scored(joints, weights=None, **more):
    cost = Cost(weights=weights or Weights(), working=WORKING, advised=WORKING)
    return score_of(Floor(concrete=FLOOR, cost=cost, **more), panels_between(FLOOR, joints), joints)


def test_fewer_broken_rules_come_before_any_cost():
    assert Score(0, 0, 10**9) < Score(0, 1, 0)
    assert Score(0, 10**9, 10**9) < Score(1, 0, 0)
    assert scored(CROSS).faults == 0
    assert scored(CROSS[:1]).faults == 4
    assert scored(CROSS) < scored(CROSS[:1])


def test_a_joint_that_ends_in_the_open_is_a_fault():
    assert scored((*CROSS, line((0, 4), (5, 4)))).faults == 1
    assert scored((*CROSS, line((0, 4), (5, 4)))).loose == 1


def test_corners_that_are_the_slabs_own_are_no_faults():
    wedge = shapely_wedge()
    cost = Cost(weights=Weights(), working=WORKING, advised=WORKING)
    whole = score_of(Floor(concrete=wedge, cost=cost), [wedge], [])
    assert whole.faults == 1  # over the aspect; not its tip besides


def shapely_wedge():
    return line((0, 0), (6, 0), (0, 3.4), (0, 0)).convex_hull


@pytest.mark.parametrize("name", ["length_open", "tee", "line"])
def test_length_tees_and_lines_count_by_their_weights(name):
    counts = {"length_open": 36.0, "tee": 2.0, "line": 3.0}
    more = scored(TEES, Weights(**{name: getattr(Weights(), name) + 1.0}))
    assert more.cost - scored(TEES).cost == pytest.approx(counts[name] * FOOT, abs=2.0)


def test_joints_and_tees_under_walls_count_by_weights_of_their_own():
    walls = (AskingLine(name="W1", path=line((9, 0), (9, 18)), slack=40.0),)
    plain = scored(TEES, walls=walls)
    for name, count in (("length_hidden", 18.0), ("tee_hidden", 2.0)):
        more = scored(TEES, Weights(**{name: getattr(Weights(), name) + 1.0}), walls=walls)
        assert more.cost - plain.cost == pytest.approx(count * FOOT, rel=0.02)


def test_a_wall_without_a_joint_costs_by_the_foot_and_once_a_short_one_by_the_foot():
    bare = line((4, 2), (4, 8))
    none = scored(CROSS).cost
    duty = scored(CROSS, walls=(AskingLine(name="W1", path=bare, slack=40.0),)).cost - none
    wish = (
        scored(CROSS, walls=(AskingLine(name="W1", path=bare, slack=40.0, short=True),)).cost - none
    )
    weights = Weights()
    assert duty == pytest.approx((6 * weights.wall_bare + weights.wall_bare_once) * FOOT, abs=2)
    assert wish == pytest.approx(6 * weights.wall_short * FOOT, abs=2)


def test_a_wall_with_a_joint_under_half_of_it_costs_half_of_what_a_bare_one_costs_once():
    """Ten feet of wall, of which a joint runs under the first five."""
    walls = (AskingLine(name="W1", path=line((4, 9), (14, 9)), slack=10.0),)
    dearer = Weights(wall_bare_once=Weights().wall_bare_once + 10.0)
    more = scored(TEES, dearer, walls=walls).cost - scored(TEES, walls=walls).cost
    assert more == pytest.approx(5 * FOOT, rel=0.02)


def test_a_wish_costs_where_no_joint_reaches_it():
    at = (4 * FOOT, 4 * FOOT)
    assert (
        scored(CROSS, targets=(Target(at=at, reason=Reason.COLUMN, weight=500.0),)).cost
        == scored(CROSS).cost + 500
    )
    met = (9 * FOOT, 4 * FOOT)
    assert (
        scored(CROSS, targets=(Target(at=met, reason=Reason.COLUMN, weight=500.0),)).cost
        == scored(CROSS).cost
    )


def test_a_neighbours_joint_that_is_not_met_costs_and_so_does_one_that_meets_none():
    rim = FLOOR.boundary.intersection(Point(0, 9 * FOOT).buffer(9 * FOOT))
    met = scored(CROSS, border=rim, landings=((0.0, 9 * FOOT),))
    missed = scored(CROSS, border=rim, landings=((0.0, 7 * FOOT),))
    assert met.cost == scored(CROSS).cost
    expected = (Weights().landing + Weights().tee) * FOOT
    assert missed.cost - met.cost == pytest.approx(expected, abs=2.0)
