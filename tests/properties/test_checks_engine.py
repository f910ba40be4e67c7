"""The engine's own layouts, held against the rules by measures that the engine had no part in."""

from hypothesis import given, settings

from checked import errors, rules
from kerfline.checks.check import check
from kerfline.engine.lay_out import lay_out
from kerfline.engine.options import EngineOptions
from kerfline.geometry.tolerance import MEASURE
from kerfline.model.finding import Rule
from kerfline.units import Display
from strategies import slabs

HARD = {Rule.SPAN, Rule.FREE_END, Rule.KEEP_OUT, Rule.EDGE, Rule.DEPTH}
"""Rules that the engine never gives up."""


@settings(max_examples=30)
@given(slabs())
def test_no_hard_rule_is_broken_and_the_panels_tile(slab):
    by = rules()
    layout = lay_out(slab, by, EngineOptions(display=Display.FEET_INCHES, effort=2.0))
    found = check(slab, layout, by, Display.FEET_INCHES)
    assert not errors(found) & HARD, [f.message for f in found if f.rule in HARD]
    assert not [f for f in found if f.rule is Rule.SHAPE and f.measured is None]
    area = sum(p.area for p in layout.panels)
    assert abs(area - slab.concrete.area) <= MEASURE * slab.concrete.length
