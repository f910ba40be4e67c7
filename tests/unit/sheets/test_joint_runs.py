"""Alike joints at equal distances are one row of the joint table; everything else has a row of its own."""

from kerfline.geometry.ring import Ring
from kerfline.model.job import Job
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab
from kerfline.sheets.plan_tables import joint_table
from kerfline.units import Unit
from shapes import feet, layout_of


def table(size, *paths):
    slab = Slab(outline=Ring(feet((0, 0), (size[0], 0), size, (0, size[1]))), thickness=125.0)
    lines = [(JointKind.CONTROL, Reason.SPAN, list(feet(*path))) for path in paths]
    return joint_table(Job(name="Hall", units=Unit.FT, slab=slab), layout_of(slab, lines), 2.4)


def upright(*xs, top=40):
    return [((x, 0), (x, top)) for x in xs]


def test_equal_bays_are_one_row_with_their_count_and_distance():
    drawn = table((120, 40), *upright(12, 24, 36, 48, 60))
    (row,) = drawn.rows
    assert row[:5] == ("J1 to J5", "5", "12'-0\" right", "CTLJ", "12'-0\", 0'-0\"")
    assert [c.title for c in drawn.columns][1:3] == ["count", "one every"]


def test_another_distance_begins_another_row():
    drawn = table((120, 40), *upright(12, 24, 36, 48, 61, 74, 87, 100))
    assert [row[0] for row in drawn.rows] == ["J1 to J4", "J5 to J8"]


def test_a_joint_of_another_length_stands_alone():
    drawn = table((120, 40), *upright(12, 24, 36, 48), ((60, 0), (60, 20)), ((72, 0), (72, 20)))
    assert [row[0] for row in drawn.rows] == ["J1 to J4", "J5", "J6"]
    assert drawn.rows[1][1:3] == ("", "")


def test_three_are_no_run():
    drawn = table((60, 40), *upright(12, 24, 36))
    assert [row[0] for row in drawn.rows] == ["J1", "J2", "J3"]
    assert "count" not in [c.title for c in drawn.columns]
