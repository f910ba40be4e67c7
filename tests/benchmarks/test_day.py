"""How the day's planning grows with the floor."""

import pytest

from kerfline.app.day import plan_day
from kerfline.app.placements import placed_layout
from kerfline.geometry.ring import Ring
from kerfline.model.day import DayInput, PourChoice, Side
from kerfline.model.layout import Reason
from kerfline.model.slab import Edge, EdgeKind, JointKind, Slab
from kerfline.quantities.concrete import concrete_body
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM3_PER_YD3, MM_PER_FOOT, Display
from shapes import feet, layout_of


def floor(bays):
    """A square floor of so many 15 ft bays each way with a turned-down edge."""
    side = 15 * bays
    outline = Ring(feet((0, 0), (side, 0), (side, side), (0, side)))
    edges = tuple(
        Edge(ring=0, segment=i, kind=EdgeKind.TURNDOWN, depth=450.0, width=300.0, slope=1.0)
        for i in range(4)
    )
    slab = Slab(outline=outline, thickness=152.4, edges=edges)
    lines = [feet((15 * i, 0), (15 * i, side)) for i in range(1, bays)]
    lines += [feet((0, 15 * i), (side, 15 * i)) for i in range(1, bays)]
    return slab, layout_of(slab, [(JointKind.CONTROL, Reason.SPAN, li) for li in lines])


@pytest.mark.parametrize("bays", [4, 8, 16])
def test_plan_day(benchmark, bays):
    """Division, placements, windows, cutting and take-off."""
    slab, layout = floor(bays)
    day = DayInput(
        pours=PourChoice(volume=80 * MM3_PER_YD3, access=(Side.LEFT,), screed=16 * MM_PER_FOOT)
    )
    rules = SlabRules(rule_set=load("floor"))

    def planned():
        parted = placed_layout(slab, layout, day, Display.FEET_INCHES)
        return plan_day(slab, parted, rules, day, Display.FEET_INCHES)

    plan = benchmark.pedantic(planned, rounds=1)
    assert len(plan.placement.pours.pours) >= bays * bays * 225 / 54 / 80


@pytest.mark.parametrize("bays", [4, 16])
def test_take_off_of_concrete(benchmark, bays):
    """The body of the slab alone does not grow with the number of bays."""
    slab, _ = floor(bays)
    body = benchmark(concrete_body, slab)
    assert body.volume() > 0
