"""A part of a slab holds what stands on it, and nothing else; in its frame all is where it was."""

import itertools
import math
from dataclasses import replace

import pytest
import shapely
from shapely import LineString, affinity
from shapely import box as rectangle

from kerfline.engine.lay_out import lay_out
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.placing import (
    LITTLE,
    Move,
    Turn,
    canonical,
    clipped,
    moved,
    placed_region,
    reading,
    slab_region,
    stretch,
    unparted,
)
from kerfline.engine.regions.region import Cut
from kerfline.geometry.ring import Ring
from kerfline.geometry.tolerance import TOUCH
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
    PenetrationKind,
    Slab,
    Zone,
)
from unit.engine.plans import EL, MM_PER_FOOT, RULES, box, feet, region_of, slab, wall

WEST = rectangle(0, 0, 10 * MM_PER_FOOT, 20 * MM_PER_FOOT)


def west(**things):
    """The left 10 ft of a slab of 30 by 20 ft."""
    region = slab_region(slab(box(30, 20), **things), RULES, EngineOptions())
    return clipped(region, WEST, WEST)


def test_a_wall_is_cut_off_where_the_part_ends_and_kept_whole_inside_it():
    walls = (wall("W1", (4, 5), (16, 5)), wall("W2", (2, 2), (8, 2)), wall("W3", (12, 2), (18, 2)))
    found = [(w.id, w.path) for w in west(walls=walls).walls]
    assert found == [("W1", feet((4, 5), (10, 5))), ("W2", feet((2, 2), (8, 2)))]


def test_a_given_joint_along_the_border_belongs_to_the_part():
    border, beside = (
        GivenJoint(id=name, path=((x, 0.0), (x, 6096.0)))
        for name, x in (("G1", 3048.0 + TOUCH / 2), ("G2", 3048.0 + 3 * TOUCH))
    )
    assert [j.id for j in west(joints=(border, beside)).pinned] == ["G1"]


@pytest.mark.parametrize(("x", "on"), [(10.9, True), (11.1, False)])
def test_a_column_belongs_where_its_boxout_reaches(x, on):
    """A boxout of 2 ft reaches a foot to either side."""
    column = Column(id="C1", at=feet((x, 5))[0], size=2 * MM_PER_FOOT)
    assert bool(west(columns=(column,)).columns) is on


@pytest.mark.parametrize(("x", "on"), [(10.0, True), (10.1, False)])
def test_a_penetration_belongs_where_its_middle_is(x, on):
    pipe = Penetration(id="D1", at=feet((x, 5))[0], diameter=100, kind=PenetrationKind.DRAIN)
    assert bool(west(penetrations=(pipe,)).penetrations) is on


def test_zones_belong_by_area_and_keep_outs_by_touch():
    zones = tuple(
        Zone(id=name, outline=box(6, 6, x, 2), thickness=150.0)
        for name, x in (("Z1", 6), ("Z2", 10))
    )
    assert [z.id for z in west(zones=zones).zones] == ["Z1"]
    areas = tuple(KeepOut(id=name, outline=box(4, 4, x, 2)) for name, x in (("K1", 9), ("K2", 11)))
    assert [k.id for k in west(keep_outs=areas).keep_outs] == ["K1"]


def test_in_a_turned_frame_everything_turns_with_the_slab():
    plan = slab(box(30, 20), walls=(wall("W1", (4, 5), (16, 5)),))
    placed = placed_region(plan, RULES, EngineOptions(), gross=plan.gross, angle=30.0)
    (turned,) = placed.region.walls
    back = [placed.to_slab(at) for at in turned.path]
    assert back == [pytest.approx(at) for at in feet((4, 5), (16, 5))]
    assert placed.region.gross.area == pytest.approx(plan.gross.area)


def test_a_panel_may_be_a_little_longer_than_advised_and_never_beyond_the_greatest_span():
    """The rule set advises 30 times the thickness and allows 36 times: 1.2 times as much."""
    assert stretch(RULES, slab(box(30, 20))) == pytest.approx(LITTLE)


def square(name, x, size):
    """A square boxout on the middle line of a strip 5 ft wide."""
    return Column(id=name, at=feet((x, 2.5))[0], boxout=Boxout.SQUARE, size=size * MM_PER_FOOT)


def test_a_boxout_that_only_notches_a_piece_stays_in_it():
    gross = rectangle(0, 0, 1000, 200)
    parting, notch = rectangle(400, -10, 500, 210), rectangle(100, 150, 150, 250)
    left, right = unparted(gross, [parting, notch])
    assert left.equals(rectangle(0, 0, 400, 200))
    assert right.equals(rectangle(500, 0, 1000, 200))
    assert unparted(gross, [notch]) == [gross]


def test_pieces_and_boxouts_make_up_the_slab():
    plan = slab(box(40, 5), columns=(square("C1", 12, 6), square("C2", 30, 2)))
    parts = unparted(plan.gross, plan.boxouts)
    whole = shapely.union_all([*parts, *plan.boxouts])
    assert whole.covers(plan.gross.buffer(-0.01))


def test_of_a_wing_that_boxouts_cover_nothing_is_left():
    assert unparted(rectangle(0, 0, 500, 300), [rectangle(-10, -10, 600, 400)]) == []


def test_slits_of_no_width_between_boxouts_are_closed():
    """Five boxouts on a pad of a yard: two of them leave a slit of no width, which turned would cross itself."""
    outline = Ring(
        (
            (0.0, 0.0), (0.0, 992.1875), (-992.1875, 992.1875), (-992.1875, 927.1), (-857.25, 927.1),
            (-857.25, 255.5875), (-992.1875, 255.5875), (-992.1875, 0.0),
        )
    )  # fmt: skip
    columns = (
        Column(id="C1", at=(-303.6001966775683, 733.6585170818041), boxout=Boxout.CIRCLE),
        Column(
            id="C2",
            at=(-195.2676849367307, 435.0806984188588),
            boxout=Boxout.DIAMOND,
            size=496.09375,
        ),
        Column(id="C3", at=(-95.26768493673069, 435.0806984188588), boxout=Boxout.CIRCLE),
        Column(
            id="C4",
            at=(-475.8515981472327, 905.5266727055279),
            boxout=Boxout.DIAMOND,
            size=496.09375,
            turn=9.067420659404018,
        ),
    )
    pad = Slab(outline=outline, thickness=50.0, columns=columns)
    layout = lay_out(pad, RULES)
    assert sum(p.area for p in layout.panels) == pytest.approx(pad.concrete.area, rel=1e-4)


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
