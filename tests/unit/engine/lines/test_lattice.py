"""The candidate lines of a rectangular grid: merged features, and even divisions of the floor between them."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from shapely import Polygon
from shapely import box as area

from kerfline.engine.lines.lattice import (
    CLOSE,
    MERGE,
    Asked,
    _thinned,
    _Wish,
    inside_spans,
    lattice,
    merged,
)
from kerfline.engine.regions.features import Feature, Rank
from kerfline.engine.regions.region import X, Y
from kerfline.engine.steps import Steps
from kerfline.geometry.ring import Ring
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
    assert inside_spans(X, holed, 4000.0) == ((0, 3000), (6000, 9000))
    sliver = Polygon([(0, 0), (CLOSE - 1, 0), (CLOSE - 1, 9000), (0, 9000)])
    assert inside_spans(X, sliver, 100.0) == ()


def lines(plan, most=40):
    """Places of the lines of both axes, in feet."""
    region = region_of(plan)
    found = lattice(region, most, region.working.span)
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
    few = lattice(region, 2, region.working.span, Asked(stay=(wanted, ())))
    ranks = {round(line.at / FOOT, 2): line.rank for line in few.lines[X]}
    assert ranks[3.1] is Rank.LANDING
    assert Rank.BAY not in ranks.values()
    assert 3.1 not in lines(plan)[0]


def test_of_further_lines_the_most_wanted_come_first_and_all_before_divisions():
    """Two edges, one line that stays, and one more place: for the first that is asked for."""
    region = region_of(slab(box(16, 14)))
    stay, more = (5.0 * FOOT,), (11.0 * FOOT, 7.0 * FOOT)
    found = lattice(region, 4, region.working.span, Asked(stay=(stay, ()), more=(more, ())))
    assert (found.places(X) / FOOT).tolist() == pytest.approx([0, 5, 11, 16])
    none = lattice(region, 2, region.working.span, Asked(stay=((0.0, 16 * FOOT), ())))
    assert len(none.lines[X]) == 3


def test_the_squarest_bays_come_first_in_a_strip_though_they_are_the_fewest_too():
    """26 x 9 ft: three bays of 8 ft 8 in are the fewest and the squarest; fours are the finer ones."""
    found = lattice(region_of(slab(box(26, 9))), 4, 10 * FOOT).lines[X]
    assert [round(line.at / FOOT, 1) for line in found] == [0.0, 8.7, 17.3, 26.0]
    assert {line.rank for line in found[1:-1]} == {Rank.BAY}


@pytest.mark.parametrize(("wide", "offered"), [(31.5, True), (31.6, False)])
def test_bays_a_little_longer_than_advised_are_offered_where_the_span_allows_them(wide, offered):
    """Three bays of 10 ft 6 in at the most, a twentieth over the advised 10 ft."""
    found = lattice(region_of(slab(box(wide, 20))), 200, 10 * FOOT).lines[X]
    assert (round(wide / 3 * 12) in {round(line.at / FOOT * 12) for line in found}) == offered


@pytest.mark.parametrize(("out", "at"), [(200.0, 6100.0), (210.0, 6000.0)])
def test_a_wall_that_juts_out_has_its_line_along_the_face_that_its_joint_will_follow(out, at):
    """Edges as long as the wall is thick are the two faces of its end; longer ones are a bay, with a line between."""
    edges = [Feature(axis=X, at=x, start=-out, end=0.0, rank=Rank.EDGE) for x in (5900.0, 6100.0)]
    (line,) = merged(edges, Steps(0.0, 10.0))
    assert line.at == at


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


@pytest.mark.parametrize(("longer", "at"), [(0, 1016.0), (1, 1066.8)])
def test_a_shared_line_lies_nearer_to_the_longer_wall(longer, at):
    """3 m against 1 m: a quarter of the 80 mm between them from the longer, 1020 or 1060; then to the inch, 40 or 42."""
    ends = [1000.0, 1000.0]
    ends[longer] = 3000.0
    walls = [feature(p, slack=100.0, end=e) for p, e in zip((1000.0, 1080.0), ends, strict=True)]
    assert places(*walls) == [(at, 2)]


def test_a_line_served_by_several_features_has_the_rank_of_the_strongest():
    (line,) = merged([feature(1010.0, slack=57.0), feature(1000.0, Rank.PINNED)], STEPS)
    assert line.rank is Rank.PINNED
    assert [f.rank for f in line.features] == [Rank.PINNED, Rank.WALL]


def test_a_wall_between_two_lines_goes_to_the_nearer():
    edges = feature(0.0, Rank.EDGE), feature(300.0, Rank.EDGE)
    assert places(*edges, feature(149.0, slack=200.0)) == [(0.0, 2), (300.0, 1)]
    assert places(*edges, feature(151.0, slack=200.0)) == [(0.0, 1), (300.0, 2)]


def test_in_a_corridor_the_squarest_bays_come_first():
    """60 x 6 ft: advised are 1.25 x 6 = 7.5 ft, eight bays; six of 10 ft and seven of the aspect 1.5 come after."""
    region = region_of(slab(box(60, 6)))
    first = lattice(region, 9, region.working.span).places(X) / FOOT
    assert first.tolist() == pytest.approx([7.5 * n for n in range(9)])
    every = lines(slab(box(60, 6)))[0]
    assert {10, 20, 40, 50} <= set(every)


@pytest.mark.parametrize(("most", "rank"), [(5, Rank.BAY), (4, Rank.FINER_BAY)])
def test_what_the_greatest_number_leaves_too_wide_is_divided_all_the_same(most, rank):
    """40 ft with two edges and three lines between bays of 10 ft; where only two may be had the last is added."""
    region = region_of(slab(box(40, 14)))
    found = lattice(region, most, region.working.span).lines[X]
    assert [round(line.at / FOOT, 6) for line in found] == [0, 10, 20, 30, 40]
    assert found[3].rank is rank


@pytest.mark.parametrize(("length", "halved"), [(24.0, True), (23.9, False)])
def test_a_wall_over_three_fifths_of_a_hall_halves_its_free_height(length, halved):
    """10 ft high, or 5: then a bay is 6.25 ft at best, seven in 40 ft, the five inner ones of 69 in each."""
    up, _ = lines(slab(box(40, 10), walls=(wall("W1", (0, 5), (length, 5)),)))
    sevenths = {round(inches / 12, 2) for inches in (67, 136, 205, 274, 343, 412)}
    assert (sevenths <= set(up)) is halved
    assert len(sevenths & set(up)) == (6 if halved else 0)
    assert {10, 20, 30} <= set(up)


@pytest.mark.parametrize(("height", "divides"), [(12.0, True), (11.9, False)])
def test_a_wall_over_three_fifths_of_a_strip_divides_it(height, divides):
    """A wall at 13 ft in 40 by 20: the 27 ft beyond have bays of 9 ft; those of the whole are left out if it divides."""
    up, _ = lines(slab(box(40, 20), walls=(wall("W1", (13, 0), (13, height)),)))
    assert {6.5, 13, 22, 31} <= set(up)
    assert len({10, 20, 30} & set(up)) == (0 if divides else 3)


@pytest.mark.parametrize(("inches", "own"), [(241, False), (243, True)])
def test_the_end_of_a_wall_has_a_line_unless_one_lies_within_two_inches(inches, own):
    """A hall of 40 ft has a line at its middle, 240 in."""
    up, _ = lines(slab(box(40, 20), walls=(wall("W1", (0, 10), (inches / 12, 10)),)))
    assert 20 in up
    assert (round(inches / 12, 2) in up) is own


@pytest.mark.parametrize(("at", "own"), [(0.15, False), (0.2, True), (39.8, True), (39.85, False)])
def test_a_given_joint_within_two_inches_of_an_edge_has_no_line(at, own):
    """Two inches are 0.167 ft."""
    plan = slab(box(40, 30), joints=(GivenJoint(id="G1", path=feet((at, 0), (at, 30))),))
    assert (at in lines(plan)[0]) is own


def test_the_two_edges_of_a_strip_lower_than_lines_are_merged_are_one_line():
    low, high = (region_of(slab(box(40, h / FOOT))) for h in (MERGE - 1, MERGE + 1))
    assert not lattice(low, 40, low.working.span).has_cells
    assert lattice(high, 40, high.working.span).has_cells


FURNISHED = slab(
    EL,
    walls=(wall("W1", (13, 0), (13, 18)), wall("W2", (0, 21), (22, 21))),
    columns=(Column(id="C1", at=feet((31, 9))[0], boxout=Boxout.NONE),),
)


def changed(plan, change):
    """A plan with every point moved."""
    return replace(
        plan,
        outline=Ring(tuple(change(p) for p in plan.outline.points)),
        walls=tuple(replace(w, path=tuple(change(p) for p in w.path)) for w in plan.walls),
        columns=tuple(replace(c, at=change(c.at)) for c in plan.columns),
    )


def test_the_axes_are_treated_alike():
    up, across = lines(FURNISHED)
    assert lines(changed(FURNISHED, lambda p: (p[1], p[0]))) == (across, up)
    assert {13, 22, 31} <= set(up)
    assert {9, 18, 21} <= set(across)


def test_a_plan_elsewhere_has_the_same_lines_there():
    up, across = lines(FURNISHED)
    moved = lines(changed(FURNISHED, lambda p: (p[0] + 7 * FOOT, p[1] - 3 * FOOT)))
    assert moved[0] == pytest.approx([at + 7 for at in up], abs=0.011)
    assert moved[1] == pytest.approx([at - 3 for at in across], abs=0.011)


@pytest.mark.parametrize("size", [(40, 30), (60, 20), (24, 36)])
def test_the_lines_of_an_even_hall_are_even_to_the_inch(size):
    """Seven bays in 60 ft are of 102.86 in: five of 103 and an odd inch that one end has."""
    for axis, found in enumerate(lines(slab(box(*size)))):
        assert found == pytest.approx(sorted(size[axis] - at for at in found), abs=1.1 / 12)


@pytest.mark.parametrize("steps", [1, 2, 3])
def test_wishes_an_inch_apart_share_a_line_wherever_they_lie_and_two_inches_apart_do_not(steps):
    wishes = ([(n * INCH, (n + steps) * INCH)] for n in range(600))
    found = [
        len(_thinned([], [_Wish(at, Rank.BAY, 1.0, tight=False) for at in pair], 9))
        for [pair] in wishes
    ]
    assert found == [1 if steps == 1 else 2] * 600
