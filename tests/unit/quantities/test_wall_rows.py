"""Bearing walls on the plain slab: a row, or a question."""

from dataclasses import replace

import pytest

from kerfline.geometry.ring import Ring
from kerfline.model.day import Ledger
from kerfline.model.layout import Dowels, Reason
from kerfline.model.slab import JointKind, Slab, Wall
from kerfline.quantities.wall_load import PCI
from kerfline.quantities.wall_rows import plain_joints, wall_rows
from kerfline.units import Display
from shapes import layout_of

BEARING = Wall(id="W1", path=((1000, 2000), (5000, 2000)), bearing=True, thickness=100.0)
FLOOR = Slab(
    outline=Ring(((0, 0), (12_000, 0), (12_000, 4000), (0, 4000))),
    thickness=101.6,
    walls=(BEARING,),
)
BARE = layout_of(FLOOR, [])


def joints(*paths, kind=JointKind.CONTROL):
    return layout_of(FLOOR, [(kind, Reason.SPAN, path) for path in paths])


def told(slab=FLOOR, layout=BARE, subgrade=None, display=Display.FEET_INCHES):
    ledger = Ledger()
    return wall_rows(slab, layout, subgrade, display, ledger), ledger.questions


def test_a_wall_away_from_joints_has_what_the_table_lets_the_slab_carry():
    """UFC 3-320-06A (2005), Table 3-2: 425 lb/ft on 4 in, 6.2 kN/m."""
    (row,), asked = told()
    assert (row.item, row.shown, asked) == ("W1 on the plain slab, at most", "425 lb/ft", [])
    assert "k 100 pci (27 MPa/m)" in row.note
    (metric,), _ = told(display=Display.METRIC)
    assert metric.shown == "6.2 kN/m"


def test_soft_ground_carries_a_wall_on_less():
    """At 50 pci a thickness is the table's times 1.1: 5 in there is 4 in in the table, and 4 in is none."""
    soft = 50 * PCI
    (row,), _ = told(replace(FLOOR, thickness=127.0), subgrade=soft)
    assert row.shown == "425 lb/ft"
    assert "k 50 pci (14 MPa/m)" in row.note
    assert told(FLOOR, subgrade=soft)[0] == []


def test_other_walls_have_no_row():
    """One that carries nothing, and one on a strip deeper than the slab."""
    light = replace(BEARING, bearing=False)
    footed = replace(BEARING, strip_depth=101.7, strip_width=300.0)
    assert told(replace(FLOOR, walls=(light, footed))) == ([], [])
    shallow = replace(BEARING, strip_depth=101.6, strip_width=300.0)
    assert len(told(replace(FLOOR, walls=(shallow,)))[0]) == 1


def test_below_the_table_it_is_asked_about():
    for slab, subgrade in ((replace(FLOOR, thickness=100.0), None), (FLOOR, 0.001)):
        rows, (asked,) = told(slab, subgrade=subgrade)
        assert rows == []
        assert asked.startswith("What carries bearing wall W1?")


def test_along_a_plain_joint_it_is_asked_about_by_name():
    rows, (asked,) = told(layout=joints(((0, 2000), (12_000, 2000))))
    assert rows == []
    assert asked.startswith("Bearing wall W1 stands along J1: ")


@pytest.mark.parametrize(("length", "found"), [(300.0, []), (301.0, ["J1"])])
def test_a_joint_of_less_than_300_mm_under_a_wall_only_crosses_it(length, found):
    under = joints(((4999 - length, 2000), (4999, 2000)))
    assert plain_joints(BEARING, under) == found


def test_a_joint_across_a_thick_wall_may_be_longer_under_it():
    thick = replace(BEARING, thickness=400.0)
    assert plain_joints(thick, joints(((3000, 0), (3000, 4000)))) == []
    assert plain_joints(thick, joints(((2000, 2000), (2801, 2000)))) == ["J1"]


def test_isolation_and_doweled_joints_bear_the_wall():
    along = ((0, 2000), (12_000, 2000))
    assert plain_joints(BEARING, joints(along, kind=JointKind.ISOLATION)) == []
    layout = joints(along, kind=JointKind.CONSTRUCTION)
    assert plain_joints(BEARING, layout) == ["J1"]
    dowels = Dowels(count=3, diameter=20.0, length=400.0, spacing=300.0)
    held = replace(layout, joints=(replace(layout.joints[0], dowels=dowels),))
    assert plain_joints(BEARING, held) == []
