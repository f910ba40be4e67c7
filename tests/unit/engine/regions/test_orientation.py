"""How a region lies: moves there and back, and the one reading of all eight images."""

import itertools
import math
from dataclasses import replace

import pytest
from shapely import LineString, affinity
from shapely import box as rectangle

from kerfline.engine.regions.orientation import Move, Turn, canonical, moved, reading
from kerfline.engine.regions.region import Cut
from kerfline.geometry.ring import Ring
from kerfline.model.layout import Reason
from kerfline.model.slab import (
    Boxout,
    Column,
    GivenJoint,
    KeepOut,
    Meeting,
    Pattern,
    PatternKind,
    Penetration,
    Zone,
)
from unit.engine.plans import EL, MM_PER_FOOT, box, feet, region_of, slab, wall

MOVES = [
    Move(*flags, shift=(700.0, -300.0)) for flags in itertools.product((False, True), repeat=3)
]


@pytest.mark.parametrize("move", MOVES)
def test_there_and_back_is_where_it_was(move):
    assert move.back(move.there((1200.5, 430.25))) == pytest.approx((1200.5, 430.25))


@pytest.mark.parametrize("move", MOVES)
def test_every_image_of_an_outline_reads_the_same(move):
    image = Ring.of(move.shape(EL.polygon))
    assert reading(canonical(region_of(slab(image)))[0]) == reading(
        canonical(region_of(slab(EL)))[0]
    )


def test_an_answer_is_turned_back_onto_its_own_region():
    """The image of one of the region's edges lies on the image's boundary, and comes back to where it was."""
    region = region_of(slab(Ring.of(affinity.rotate(EL.polygon, 90, origin=(0, 0)))))
    turned, move = canonical(region)
    first, second, *_ = region.gross.exterior.coords
    cut = Cut(path=tuple(move.there(p) for p in (first, second)), reason=Reason.SPAN, note="")
    assert LineString(cut.path).within(turned.gross.boundary.buffer(1.0))
    back = cut.moved(move.back).path
    assert back[0] == pytest.approx(first)
    assert back[1] == pytest.approx(second)


@pytest.mark.parametrize("move", MOVES)
@pytest.mark.parametrize("degrees", [0.0, 30.0, 100.0])
def test_a_direction_goes_where_its_points_go(move, degrees):
    """A unit step in that direction, moved, has the moved direction."""
    step = (math.cos(math.radians(degrees)), math.sin(math.radians(degrees)))
    (x0, y0), (x1, y1) = move.there((0.0, 0.0)), move.there(step)
    turn = math.degrees(math.atan2(y1 - y0, x1 - x0)) - move.angle(degrees)
    assert math.remainder(turn, 360.0) == pytest.approx(0.0, abs=1e-3)


@pytest.mark.parametrize("move", MOVES)
def test_a_moved_figure_is_as_large_and_runs_anticlockwise(move):
    moved_shape = move.shape(EL.polygon)
    assert moved_shape.area == pytest.approx(EL.polygon.area)
    assert moved_shape.exterior.is_ccw
    assert move.ring(EL).polygon.area == pytest.approx(EL.polygon.area)


def furnished():
    """An L with something of every kind on it."""
    return region_of(
        slab(
            EL,
            walls=(wall("W1", (5, 0), (5, 18)),),
            columns=(Column(id="C1", at=feet((10, 9))[0], turn=10.0),),
            penetrations=(Penetration(id="N1", at=feet((20, 5))[0], diameter=100.0),),
            keep_outs=(KeepOut(id="K1", outline=box(4, 4, 30, 4)),),
            zones=(Zone(id="Z1", outline=box(6, 6), thickness=150.0),),
            joints=(
                GivenJoint(id="G1", path=feet((0, 18), (22, 18))),
                GivenJoint(id="G2", path=feet((3, 20), (3, 30)), forbidden=True),
            ),
            patterns=(Pattern(id="A1", area=box(8, 8, 1, 22), along=feet((1, 22), (9, 22))),),
        )
    )


@pytest.mark.parametrize("move", [*MOVES, Turn(90.0), Turn(33.0)])
def test_everything_on_a_region_moves_with_it(move):
    """Distances between things stay; each still lies on the concrete where it did."""
    before, after = furnished(), moved(furnished(), move)
    spots = [
        (r.walls[0].path[0], r.columns[0].at, r.penetrations[0].at, r.pinned[0].path[1],
         r.forbidden[0].path[0], r.patterns[0].along[1], r.baseline)
        for r in (before, after)
    ]  # fmt: skip
    for one, two in itertools.combinations(range(7), 2):
        apart = [math.dist(s[one], s[two]) for s in spots]
        assert apart[0] == pytest.approx(apart[1], abs=1e-4)
    assert after.zones[0].area.area == pytest.approx(before.zones[0].area.area)
    assert after.gross.covers(after.keep_outs[0].outline.polygon.buffer(-1))
    assert after.gross.covers(after.patterns[0].area.polygon.buffer(-1))
    assert after.gross.covers(after.zones[0].area.buffer(-1))


@pytest.mark.parametrize("move", MOVES)
def test_every_image_of_a_furnished_region_has_one_canonical_form(move):
    plain, image = canonical(furnished())[0], canonical(moved(furnished(), move))[0]
    assert reading(plain) == reading(image)
    assert plain.gross.bounds[:2] == pytest.approx((0, 0))


def test_a_wall_that_only_wishes_makes_another_reading():
    before = furnished()
    wishing = replace(before, wishes=frozenset({"W1"}))
    assert reading(before) != reading(wishing)


@pytest.mark.parametrize(
    ("part", "values"),
    [
        ("walls", {"thickness": 300.0}),
        ("walls", {"bearing": True}),
        ("columns", {"boxout": Boxout.SQUARE}),
        ("columns", {"boxout": Boxout.CIRCLE}),
        ("columns", {"size": 300.0}),
        ("columns", {"turn": 20.0}),
        ("penetrations", {"meeting": Meeting.CLEAR}),
        ("penetrations", {"clear": 50.0}),
        ("penetrations", {"diameter": 300.0}),
        ("zones", {"joint_at_border": False}),
        ("zones", {"area": rectangle(0, 0, 7 * MM_PER_FOOT, 6 * MM_PER_FOOT)}),
        ("patterns", {"kind": PatternKind.DIAGONAL}),
        ("patterns", {"spacing": 1500.0}),
    ],
)
def test_whatever_bears_on_joints_makes_another_reading(part, values):
    before = furnished()
    things = getattr(before, part)
    after = replace(before, **{part: (replace(things[0], **values), *things[1:])})
    assert reading(before) != reading(after)


def test_a_zone_with_another_span_makes_another_reading_and_its_part_outside_none():
    before = furnished()
    zone = before.zones[0]
    thinner = replace(zone, working=replace(zone.working, span=zone.working.span / 2))
    assert reading(before) != reading(replace(before, zones=(thinner,)))
    beyond = rectangle(-9000, 0, 0, 6 * MM_PER_FOOT)
    longer = replace(zone, area=zone.area.union(beyond))
    assert reading(before) == reading(replace(before, zones=(longer,)))


def test_a_joint_that_must_stay_reads_otherwise_than_one_that_may_not_be():
    before = furnished()
    (stays,), (barred,) = before.pinned, before.forbidden
    assert reading(before) != reading(replace(before, pinned=(barred,), forbidden=(stays,)))
