"""What the rules read of a panel and of a node: after a change only those are looked at again that it touches."""

from dataclasses import replace

import pytest

from checked import grid_slab, joint, rules, with_joints
from kerfline.checks.given import given_layout
from kerfline.checks.measures import measures_of
from kerfline.checks.parting import parted_again
from kerfline.checks.reading import NODES, PANELS, Reading
from kerfline.units import Display

SLAB = grid_slab(6, 4)
FIRST = measures_of(SLAB, given_layout(SLAB), rules(), Display.METRIC)


def after(slab, *, by=None, display=Display.METRIC):
    """The measures after a change, what did not change taken from before."""
    layout = given_layout(slab)
    known = parted_again(FIRST.parted, slab.concrete, [j.line for j in layout.joints])
    return measures_of(slab, layout, by or rules(), display, known, FIRST.panels)


def looked_at(reading, now):
    """What a reading looks at again after a change."""
    asked = []

    def find(measures, thing):
        asked.append(thing)
        return reading.find(measures, thing)

    before = reading.found(FIRST)
    found = Reading(reading.things, find, reading.context, reading.beside).found(now, before)
    assert tuple(found.by) == tuple(reading.things(now))
    return asked


def test_at_first_everything_is_looked_at():
    assert len(PANELS.found(FIRST).by) == 24
    assert len(NODES.found(FIRST).by) == len(FIRST.net.nodes)
    assert list(PANELS.found(FIRST).all) == []


def test_where_nothing_changed_nothing_is_looked_at_again():
    assert looked_at(PANELS, after(SLAB)) == []
    assert looked_at(NODES, after(SLAB)) == []


def test_a_new_joint_has_its_panels_and_those_that_touch_them_looked_at_again():
    """Through the last panel, at the upper right, and cut anew too the one below that its end meets (P18)."""
    now = after(with_joints(SLAB, joint("X", (55, 30), (55, 40))))
    names = sorted(p.id for p in looked_at(PANELS, now))
    assert names == ["P11", "P12", "P17", "P18", "P23", "P24", "P25"]


def test_another_name_has_the_nodes_of_that_joint_looked_at_again():
    renamed = replace(
        SLAB, joints=tuple(replace(j, id="X") if j.id == "V1" else j for j in SLAB.joints)
    )
    now = after(renamed)
    asked = looked_at(NODES, now)
    on_it = [n for n in now.net.nodes if any(now.joints[a.joint].id == "X" for a in n.joints)]
    assert set(asked) == set(on_it)
    assert len(on_it) == 5


@pytest.mark.parametrize(
    "now",
    [
        after(SLAB, by=rules("residential")),
        after(SLAB, display=Display.FEET_INCHES),
        after(replace(SLAB, thickness=150.0)),
    ],
    ids=["other rules", "other units", "another thickness"],
)
def test_what_every_rule_reads_has_everything_looked_at_again(now):
    assert len(looked_at(PANELS, now)) == 24
    assert len(looked_at(NODES, now)) == len(FIRST.net.nodes)
