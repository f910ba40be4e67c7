"""What holds for every layout of every orthogonal slab, whatever stands on it."""

import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity

from kerfline.engine.lay_out import lay_out
from kerfline.engine.options import EngineOptions
from kerfline.geometry.ends import EndKind, joint_ends
from kerfline.geometry.tolerance import MEASURE, TOUCH
from kerfline.model.slab import Boxout
from kerfline.rules import rule_set
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import Display
from strategies import moved, shifted, slabs, turned

SMALL = {"most_boxes": 3, "cells": 6}
"""Plans up to 30 ft: what holds there holds on larger ones, which take longer."""

few = settings(max_examples=12)
RULES = SlabRules(rule_set=rule_set.load("floor"))
TILES = 1e-6
LENGTH = 30.0
"""A moved slab's joints may differ by this (mm): positions are rounded from another corner."""


def laid_out(slab, **options):
    return lay_out(slab, RULES, EngineOptions(effort=5.0, **options))


def shape_of(layout):
    """What must not change when a slab is moved, turned or mirrored."""
    return len(layout.panels), len(layout.joints)


@few
@given(slabs(**SMALL))
def test_panels_tile_the_concrete_within_the_span(slab):
    layout = laid_out(slab)
    area = sum(p.area for p in layout.panels)
    assert abs(area - slab.concrete.area) <= TILES * slab.concrete.area
    assert max(p.length for p in layout.panels) <= 1.05 * layout.limits.span + MEASURE


@few
@given(slabs(**SMALL))
def test_joints_lie_in_the_concrete_and_end_on_something(slab):
    layout = laid_out(slab)
    grown = slab.concrete.buffer(TOUCH)
    assert all(grown.covers(j.line) for j in layout.joints)
    ends = joint_ends(slab.concrete, [j.line for j in layout.joints])
    assert not [e for e in ends if e.kind is EndKind.FREE]


@few
@given(slabs(**SMALL))
def test_a_joint_leaves_every_re_entrant_corner(slab):
    """Corners of boxouts are left to bars: their joints meet the middle of the sides."""
    layout = laid_out(slab)
    cuts = shapely.MultiLineString([j.line for j in layout.joints])
    boxouts = shapely.union_all(
        [c.outline.polygon for c in slab.columns if c.boxout is Boxout.SQUARE]
    )
    for corner in slab.reentrant_corners:
        spot = shapely.Point(corner.at)
        if boxouts.is_empty or boxouts.distance(spot) > TOUCH:
            assert not cuts.is_empty
            assert cuts.distance(spot) <= TOUCH


@few
@given(slabs(**SMALL))
def test_the_same_slab_gets_the_same_layout(slab):
    one, other = laid_out(slab), laid_out(slab)
    assert one.joints == other.joints
    assert [p.polygon.wkb for p in one.panels] == [p.polygon.wkb for p in other.panels]


@few
@given(slabs(**SMALL), st.integers(-40, 40), st.integers(-40, 40))
def test_a_moved_slab_gets_the_layout_moved(slab, across, up):
    far = laid_out(shifted(slab, across * 304.8, up * 304.8))
    near = laid_out(slab)
    assert shape_of(far) == shape_of(near)
    assert abs(far.joint_length - near.joint_length) <= LENGTH


@few
@given(slabs(off_grid=False, **SMALL), st.sampled_from([90.0, 180.0, 270.0]))
def test_a_slab_turned_by_right_angles_gets_the_layout_turned(slab, degrees):
    there = laid_out(turned(slab, degrees))
    here = laid_out(slab)
    assert shape_of(there) == shape_of(here)
    assert abs(there.joint_length - here.joint_length) <= LENGTH


@few
@given(slabs(off_grid=False, **SMALL))
def test_a_mirrored_slab_gets_the_layout_mirrored(slab):
    mirrored = moved(slab, lambda p: affinity.scale(p, -1.0, 1.0, origin=(0, 0)))
    there, here = laid_out(mirrored), laid_out(slab)
    assert shape_of(there) == shape_of(here)
    assert abs(there.joint_length - here.joint_length) <= LENGTH


@few
@given(slabs(**SMALL))
def test_the_bound_on_length_is_never_above_the_length(slab):
    layout = laid_out(slab)
    assert layout.solution.length_bound <= layout.joint_length + LENGTH
    assert layout.solution.bound <= layout.solution.cost + MEASURE


@few
@given(slabs(most_walls=0, most_columns=0, most_penetrations=0, openings=False, **SMALL))
def test_feet_and_millimetres_agree_on_plain_slabs(slab):
    """Positions are whole inches in the one and 10 mm in the other: the same to within rounding."""
    feet, metric = laid_out(slab), laid_out(slab, display=Display.METRIC)
    assert len(feet.panels) == len(metric.panels)
    assert abs(feet.joint_length - metric.joint_length) <= 0.01 * feet.joint_length + LENGTH
