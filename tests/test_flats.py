"""Floors of many piers and stubs are laid out calmly: walls are served, joints run through, no rule is broken."""

import pytest

from flats import FLOORS
from kerfline.checks.check import check
from kerfline.engine.lay_out import lay_out
from kerfline.engine.options import EngineOptions
from kerfline.model.finding import Rule, Severity
from kerfline.units import Display
from unit.engine.plans import RULES

COVERED = 0.9
"""Share of the wall that has its joint."""


@pytest.mark.parametrize(
    ("name", "warnings", "tees"), [("lodgings", 21, 28), ("sick bay", 2, 19), ("net lofts", 14, 15)]
)
def test_joints_do_not_chase_every_stub(name, warnings, tees):
    """As many warnings and tees as were found, not more."""
    slab = FLOORS[name]
    layout = lay_out(slab, RULES, EngineOptions(display=Display.METRIC))
    found = check(slab, layout, RULES, Display.METRIC)
    assert [f.message for f in found if f.severity is Severity.ERROR] == []
    assert sum(f.severity is Severity.WARNING for f in found) <= warnings
    assert sum(f.rule is Rule.TEE_END for f in found) <= tees
    left = sum(w.line.length for w in slab.walls if w.id in layout.walls_left)
    assert left <= (1 - COVERED) * sum(w.line.length for w in slab.walls)
