"""The general method under turning and mirroring: the same layout, turned or mirrored."""

import math

import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st
from shapely import affinity

from kerfline.engine.general import lay_out_region
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.frames import regions_of
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.tolerance import MEASURE
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from strategies import turned, turned_slabs
from unit.engine.slabs import SHAPES
from unit.engine.slabs import slab as slab_in_feet

RULES = SlabRules(rule_set=load("floor"))


def answers(slab):
    return [
        (place, lay_out_region(place.region)) for place in regions_of(slab, RULES, EngineOptions())
    ]


def length(slab):
    lines = [
        shapely.LineString(cut.path)
        for place, layout in answers(slab)
        for cut in (*layout.cuts, *place.borders)
    ]
    return sum(line.length for line in lines)


@pytest.mark.parametrize("name", ["tapered drive", "parallelogram", "bay window"])
@given(turn=st.floats(1.0, 359.0))
@settings(max_examples=2)
def test_turned_slab_has_as_much_joint(name, turn):
    slab = SHAPES[name]
    assert length(turned(slab, turn)) == pytest.approx(length(slab), rel=1e-4)


@given(slab=turned_slabs(most_boxes=2))
@settings(max_examples=8)
def test_any_slab_gets_panels_within_the_span(slab):
    from kerfline.geometry.faces import faces

    span = 1.05 * RULES.working(slab.thickness).span
    for place, layout in answers(slab):
        region = place.region
        panels = faces(region.concrete, [shapely.LineString(c.path) for c in layout.cuts])
        assert sum(p.area for p in panels) == pytest.approx(region.concrete.area, rel=1e-6)
        if not region.zones:
            assert max(enclosing_rectangle(p).length for p in panels) <= span + MEASURE


WHOLE_INCHES = 2 * 25.4
"""Places on either side of a mirror are rounded to whole inches each."""


def joints_of(slab):
    return shapely.union_all(
        [
            shapely.LineString([place.to_slab(p) for p in cut.path])
            for place, layout in answers(slab)
            for cut in layout.cuts
        ]
    )


def mirrored_in_x(shape, at):
    return affinity.scale(shape, -1.0, 1.0, origin=(at, 0.0))


def assert_mirrored(slab, at):
    joints = joints_of(slab)
    image = mirrored_in_x(joints, at)
    assert joints.is_empty or joints.hausdorff_distance(image) <= WHOLE_INCHES


@given(bottom=st.floats(9.0, 30.0), narrowing=st.floats(0.5, 8.0), height=st.floats(6.0, 30.0))
@settings(max_examples=8)
@example(bottom=17.0, narrowing=6.0, height=10.0)
def test_a_symmetric_taper_gets_a_symmetric_layout(bottom, narrowing, height):
    inset = min(narrowing, bottom / 3)
    given_slab = slab_in_feet((0, 0), (bottom, 0), (bottom - inset, height), (inset, height))
    assert_mirrored(given_slab, bottom / 2 * 304.8)


@given(sides=st.sampled_from([6, 8]), radius=st.floats(8.0, 16.0))
@example(sides=6, radius=15.5)
@settings(max_examples=4)
def test_a_regular_pavilion_on_one_of_its_sides_gets_a_symmetric_layout(sides, radius):
    start = math.pi / sides - math.pi / 2
    points = [
        (radius * math.cos(start + turn), radius * math.sin(start + turn))
        for turn in (2 * math.pi * i / sides for i in range(sides))
    ]
    assert_mirrored(slab_in_feet(*points), 0.0)


@given(radius=st.floats(6.0, 24.0))
@settings(max_examples=5)
def test_a_round_slab_gets_a_symmetric_layout(radius):
    round_slab = slab_in_feet((-radius, 0), (radius, 0), bulges=(1, 1))
    assert_mirrored(round_slab, 0.0)


def test_a_slab_with_a_bay_in_its_middle_gets_a_symmetric_layout():
    bay = slab_in_feet((0, 0), (10, 0), (13, -3), (19, -3), (22, 0), (32, 0), (32, 20), (0, 20))
    assert_mirrored(bay, 16 * 304.8)
