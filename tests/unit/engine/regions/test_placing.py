"""A part of a slab holds what stands on it, and nothing else; in its frame all is where it was."""

import pytest
import shapely
from shapely import box as rectangle

from kerfline.engine.lay_out import lay_out
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.placing import (
    LITTLE,
    clipped,
    placed_region,
    slab_region,
    stretch,
    unparted,
)
from kerfline.geometry.ring import Ring
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.slab import (
    Boxout,
    Column,
    GivenJoint,
    KeepOut,
    Penetration,
    PenetrationKind,
    Slab,
    Zone,
)
from unit.engine.plans import MM_PER_FOOT, RULES, box, feet, slab, wall

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
