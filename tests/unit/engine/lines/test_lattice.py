"""The candidate lines of a rectangular grid: merged features, and even divisions of the floor between them."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from shapely import Polygon
from shapely import box as area

from kerfline.engine.lines.features import Feature, Rank
from kerfline.engine.lines.lattice import CLOSE, MERGE, inside_spans, lattice, merged
from kerfline.engine.regions.region import X, Y
from kerfline.engine.steps import Steps
from kerfline.model.slab import Boxout, Column, GivenJoint, Zone
from strategies import slabs
from unit.engine.plans import EL, MM_PER_FOOT, RULES, box, feet, region_of, slab, wall

FOOT = MM_PER_FOOT
STEPS = Steps(0.0, 25.4)
INCH = 25.4


def feature(at, rank=Rank.WALL, *, slack=0.0, start=0.0, end=3000.0, name=""):
    return Feature(axis=X, at=at, slack=slack, start=start, end=end, rank=rank, id=name)


def places(*features):
    return [(round(line.at, 1), len(line.features)) for line in merged(features, STEPS)]


@pytest.mark.parametrize(("apart", "lines"), [(MERGE, 1), (MERGE + 0.1, 2)])
def test_edges_within_eight_inches_share_a_line(apart, lines):
    found = places(feature(0.0, Rank.EDGE), feature(apart, Rank.EDGE))
    assert len(found) == lines


def test_the_line_of_edges_lies_on_the_longest_of_them_and_amid_equals():
    long, short = feature(0.0, Rank.EDGE), feature(100.0, Rank.EDGE, end=1000.0)
    assert places(long, short) == [(0.0, 2)]
    assert places(long, feature(100.0, Rank.EDGE)) == [(50.0, 2)]


def test_edges_in_a_row_are_merged_from_the_first_on():
    """0, 150 and 300 mm: the third is farther from the first than lines are merged."""
    found = places(*(feature(at, Rank.EDGE) for at in (0.0, 150.0, 300.0)))
    assert [n for _, n in found] == [2, 1]


@pytest.mark.parametrize(("off", "shared"), [(57.0, True), (58.0, False)])
def test_a_wall_within_its_slack_of_a_line_is_served_by_it(off, shared):
    edge, own = feature(0.0, Rank.EDGE), feature(off, slack=57.15)
    assert len(places(edge, own)) == (1 if shared else 2)


@pytest.mark.parametrize(
    ("rank", "off", "shared"),
    [(Rank.COLUMN, 200.0, True), (Rank.COLUMN, 204.0, False), (Rank.LANDING, 200.0, True), (Rank.PINNED, 1.0, False)],
)  # fmt: skip
def test_a_column_lets_itself_be_drawn_to_a_line_and_a_given_joint_does_not(rank, off, shared):
    found = places(feature(0.0, Rank.EDGE), feature(off, rank))
    assert len(found) == (1 if shared else 2)


def test_walls_whose_ranges_meet_share_a_line_on_a_whole_inch_in_both():
    """At 1000 and 1080 mm, each 57 mm to its faces: 1023 to 1057 mm is common; 1041.4 is 41 in."""
    found = places(feature(1000.0, slack=57.0), feature(1080.0, slack=57.0))
    assert found == [(1041.4, 2)]
    assert len(places(feature(1000.0, slack=57.0), feature(1120.0, slack=57.0))) == 2


def test_a_stronger_feature_places_the_line_of_a_weaker_one():
    found = places(feature(1040.0, slack=57.0), feature(1000.0, Rank.PINNED))
    assert found == [(1000.0, 2)]


@pytest.mark.parametrize(
    ("axis", "level", "spans"),
    [
        (X, 9, [(0, 40)]),
        (X, 27, [(0, 22)]),
        (Y, 11, [(0, 36)]),
        (Y, 31, [(0, 18)]),
        (X, 50, []),
    ],
)
def test_where_a_line_lies_inside_a_figure(axis, level, spans):
    found = inside_spans(axis, EL.polygon, level * FOOT)
    assert [(round(a / FOOT), round(b / FOOT)) for a, b in found] == spans


def test_an_opening_parts_a_line_and_slivers_do_not_count():
    holed = area(0, 0, 9000, 9000) - area(3000, 3000, 6000, 6000)
    assert inside_spans(X, holed, 4000.0) == [(0, 3000), (6000, 9000)]
    sliver = Polygon([(0, 0), (CLOSE - 1, 0), (CLOSE - 1, 9000), (0, 9000)])
    assert inside_spans(X, sliver, 100.0) == []


def lines(plan, most=40, more=((), ())):
    """Places of the lines of both axes, in feet."""
    region = region_of(plan)
    found = lattice(region, most, region.working.span, more)
    return tuple([round(line.at / FOOT, 2) for line in found.lines[a]] for a in (X, Y))


def test_a_hall_has_its_fewest_even_bays_and_one_more():
    """40 x 30 ft at 10 ft: quarters and fifths, thirds and quarters."""
    up, across = lines(slab(box(40, 30)))
    assert {0, 10, 20, 30, 40} <= set(up)
    assert {8, 16, 24, 32} <= set(up)
    assert {0, 10, 20, 30} <= set(across)
    assert {7.5, 15, 22.5} <= set(across)


def test_walls_columns_and_given_joints_have_lines_and_so_do_edges_of_the_notch():
    plan = slab(
        EL,
        walls=(wall("W1", (13, 0), (13, 18)),),
        columns=(Column(id="C1", at=feet((5, 9))[0], boxout=Boxout.NONE),),
        joints=(GivenJoint(id="G1", path=feet((0, 31), (22, 31))),),
    )
    up, across = lines(plan)
    assert {5, 13, 22} <= set(up)
    assert {9, 18, 31} <= set(across)


def test_lines_asked_for_come_before_divisions():
    plan = slab(box(40, 30))
    region = region_of(plan)
    wanted = (3.1 * FOOT,)
    few = lattice(region, 2, region.working.span, (wanted, ()))
    ranks = {round(line.at / FOOT, 2): line.rank for line in few.lines[X]}
    assert ranks[3.1] is Rank.LANDING
    assert Rank.BAY not in ranks.values()
    assert 3.1 not in lines(plan)[0]


def test_the_weakest_are_left_out_first_and_single_cells_stay_within_the_span():
    region = region_of(slab(box(100, 30)))
    few, many = (lattice(region, most, region.working.span).lines[X] for most in (4, 40))
    assert len(few) < len(many)
    assert max(b.at - a.at for a, b in pairwise(few)) <= region.working.span + 0.5


@settings(max_examples=30)
@given(slabs(most_boxes=3, most_columns=1, openings=True))
def test_no_two_neighbouring_lines_are_farther_apart_than_the_span(plan):
    for piece in plan.pieces[:1]:
        made = region_of(replace(plan, columns=()))
        found = lattice(made, 36, made.working.span)
        assert found.has_cells
        for axis in (X, Y):
            at = found.places(axis).tolist()
            assert at == sorted(at)
            assert max(b - a for a, b in pairwise(at)) <= made.working.span + 0.5
            bounds = piece.bounds
            assert at[0] == pytest.approx(bounds[axis], abs=MERGE)
            assert at[-1] == pytest.approx(bounds[axis + 2], abs=MERGE)


def test_a_zone_with_a_shorter_span_is_divided_by_it():
    thin = slab(box(40, 30), zones=(Zone(id="Z1", outline=box(20, 30), thickness=76.2),))
    up, _ = lines(thin)
    span = RULES.working(76.2).span / FOOT
    assert span < 10
    assert max(b - a for a, b in pairwise(up)) <= span + 0.01
