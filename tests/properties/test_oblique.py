"""The general method under turning: the same layout, turned."""

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from kerfline.engine.oblique import lay_out_region
from kerfline.engine.oblique.frames import regions_of
from kerfline.engine.options import EngineOptions
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.tolerance import MEASURE
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from strategies import turned, turned_slabs
from unit.engine.oblique.slabs import SHAPES

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

    span = RULES.working(slab.thickness).span
    for place, layout in answers(slab):
        region = place.region
        panels = faces(region.concrete, [shapely.LineString(c.path) for c in layout.cuts])
        assert sum(p.area for p in panels) == pytest.approx(region.concrete.area, rel=1e-6)
        if not region.zones:
            assert max(enclosing_rectangle(p).length for p in panels) <= span + MEASURE
