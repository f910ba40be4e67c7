"""Whether what stands on a slab or goes through it lies on the slab."""

import math

import pytest

from drawn_curves import box_ring
from kerfline.files.sense_features import THICKEST_WALL, endless, features
from kerfline.files.sense_teller import Teller, place_in
from kerfline.model.slab import (
    Column,
    Fall,
    GivenJoint,
    KeepOut,
    Pattern,
    PatternKind,
    Penetration,
    Slab,
    Wall,
    Zone,
)
from kerfline.units import Display

TELLER = Teller(place_in(""), Display.METRIC)
OFF = box_ring(20000, 0, 500, 500)


def told(check=features, **things):
    slab = Slab(outline=box_ring(0, 0, 9000, 6000), thickness=100.0, **things)
    return [(m.where, m.what) for m in check(TELLER, slab)]


def wall(*path, thickness=100.0):
    return Wall(id="W1", path=path, thickness=thickness)


def fall(area, *to):
    return Fall(id="D1", area=area, to=to)


@pytest.mark.parametrize(
    ("kind", "thing"),
    [
        ("walls", wall((0, 0), (math.inf, 0))),
        ("joints", GivenJoint(id="G1", path=((0, math.nan), (1, 0)))),
        ("columns", Column(id="C1", at=(1e30, 0))),
        ("penetrations", Penetration(id="N1", at=(0, math.nan), diameter=100)),
    ],
)
def test_coordinates_that_no_site_has_are_told(kind, thing):
    what = "a coordinate is not finite, or farther away than any site"
    assert told(endless, **{kind: (thing,)}) == [(thing.id, what)]


def test_a_slab_with_all_things_in_place_has_no_mistake():
    inside = box_ring(1000, 1000, 500, 500)
    things = {
        "walls": (wall((0, 3000), (9000, 3000)),),
        "columns": (Column(id="C1", at=(9000, 3000)),),
        "penetrations": (Penetration(id="N1", at=(9000, 3000), diameter=110),),
        "joints": (GivenJoint(id="G1", path=((-500, 3000), (9500, 3000))),),
        "zones": (Zone(id="Z1", outline=inside, thickness=200),),
        "keep_outs": (KeepOut(id="K1", outline=inside),),
        "falls": (fall(inside, (1250, 1250)),),
    }
    assert told(**things) == []
    assert told(endless, **things) == []


@pytest.mark.parametrize(
    ("thickness", "fine"), [(THICKEST_WALL, True), (THICKEST_WALL + 1, False), (0, False)]
)
def test_a_wall_has_a_thickness_that_walls_have(thickness, fine):
    found = told(walls=(wall((0, 3000), (9000, 3000), thickness=thickness),))
    assert found == ([] if fine else [("W1", "a wall does not have this thickness")])


@pytest.mark.parametrize(("past", "fine"), [(50, True), (60, False)])
def test_a_wall_may_run_half_its_thickness_past_the_edge(past, fine):
    found = told(walls=(wall((-past, 3000), (9000, 3000)),))
    assert (found == []) is fine
    if not fine:
        assert (
            found[0][1] == "wall W1 lies outside the slab: its point (-60 mm, 3000 mm) is 60 mm off"
        )


def test_lines_of_one_point_have_no_length():
    assert told(walls=(wall((0, 0)),)) == [("W1", "wall W1 has no length")]
    assert told(joints=(GivenJoint(id="G1", path=((0, 0),)),)) == [("G1", "joint G1 has no length")]


def test_what_lies_off_the_slab_is_told_by_name():
    assert told(columns=(Column(id="C1", at=(20000, 0)),)) == [
        ("C1", "column C1 stands off the concrete at (20000 mm, 0 mm)")
    ]
    assert told(penetrations=(Penetration(id="N1", at=(9100, 0), diameter=110),)) == [
        ("N1", "penetration N1 lies outside the slab at (9100 mm, 0 mm)")
    ]
    assert told(joints=(GivenJoint(id="G1", path=((0, 7000), (9000, 7000))),)) == [
        ("G1", "joint G1 does not lie on the slab")
    ]
    assert told(zones=(Zone(id="Z1", outline=OFF, thickness=200),)) == [
        ("Z1", "the zone Z1 does not lie on the slab")
    ]
    assert told(keep_outs=(KeepOut(id="K1", outline=OFF),)) == [
        ("K1", "the keep-out K1 does not lie on the slab")
    ]


def test_a_penetration_larger_than_the_slab_is_no_penetration():
    assert told(penetrations=(Penetration(id="N1", at=(0, 0), diameter=9000),)) == []
    assert told(penetrations=(Penetration(id="N1", at=(0, 0), diameter=9001),)) == [
        ("N1", "the penetration is larger than the slab")
    ]


def test_an_aligned_pattern_needs_its_line():
    area = box_ring(1000, 1000, 500, 500)
    bare = Pattern(id="A1", area=area, kind=PatternKind.ALIGNED)
    assert told(patterns=(bare,)) == [("A1", "an aligned pattern needs a line to follow")]
    lined = Pattern(id="A1", area=area, kind=PatternKind.ALIGNED, along=((0, 0), (9, 0)))
    assert told(patterns=(lined,)) == []


def test_a_drain_lies_in_its_area():
    area = box_ring(1000, 1000, 3000, 3000)
    assert told(falls=(fall(area, (1000, 1000)),)) == []
    assert told(falls=(fall(area, (5000, 1000)),)) == [
        ("D1", "fall D1 has its drain outside its area, at (5000 mm, 1000 mm)")
    ]
