"""The order list and the costs, worked by hand."""

import pytest

from kerfline.app.day import plan_day
from kerfline.app.day_choices import day_choices
from kerfline.app.placements import placed_layout
from kerfline.geometry.ring import Ring
from kerfline.model.day import DayInput, MaterialChoice, PourChoice, Prices
from kerfline.model.layout import Reason
from kerfline.model.slab import Edge, EdgeKind, JointKind, Slab
from kerfline.quantities.concrete import concrete_body
from kerfline.quantities.materials import lapped
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM3_PER_YD3, MM_PER_FOOT, MM_PER_INCH, Display
from shapes import feet, layout_of

RULES = SlabRules(rule_set=load("floor"))
FOOT = MM_PER_FOOT


def hall():
    """60 x 30 ft, 6 in, its left edge against a wall; joints every 10 ft each way."""
    slab = Slab(
        outline=Ring(feet((0, 0), (60, 0), (60, 30), (0, 30))),
        thickness=6 * MM_PER_INCH,
        edges=(Edge(ring=0, segment=3, kind=EdgeKind.ISOLATED),),
    )
    lines = [feet((x, 0), (x, 30)) for x in range(10, 60, 10)]
    lines += [feet((0, y), (60, y)) for y in (10, 20)]
    return slab, layout_of(slab, [(JointKind.CONTROL, Reason.SPAN, li) for li in lines])


def rows(day):
    slab, layout = hall()
    parted = placed_layout(slab, layout, day, Display.FEET_INCHES)
    plan = plan_day(slab, parted, RULES, day, Display.FEET_INCHES)
    return {row.item: row for row in plan.take_off.rows}


def test_the_order_list():
    """1,800 ft2. Base 6 in: 33.33 yd3 and 15 %. Rolls of 10 ft lapped 6 in: x 10 / 9.5. Mesh 10 x 5 ft lapped
    6 in: 42.75 ft2 net, 43 sheets. No. 4 at 18 in both ways: 2,400 ft, 0.668 lb/ft. Chairs every 3 ft: 200."""
    order = MaterialChoice(
        base_depth=6 * MM_PER_INCH, retarder_roll=10 * FOOT, retarder_lap=6 * MM_PER_INCH,
        mesh_sheet=(10 * FOOT, 5 * FOOT), mesh_lap=6 * MM_PER_INCH, mat_bar=4,
        mat_spacing=18 * MM_PER_INCH, chairs_every=3 * FOOT, baskets=True, backer_rod=True,
    )  # fmt: skip
    found = rows(DayInput(order=order))
    assert found["base stone"].amount == pytest.approx(1800 * 0.5 / 27 * 1.15)
    assert found["vapour retarder"].amount == pytest.approx(1800 * 10 / 9.5)
    assert found["mesh"].amount == 43
    assert found["bars of the mat"].amount == pytest.approx(2400)
    assert found["bars of the mat, weight"].amount == pytest.approx(2400 * 0.668, rel=0.002)
    assert found["chairs"].amount == 200
    assert found["edge forms"].amount == pytest.approx(150)
    assert found["dowel baskets"].amount == pytest.approx(270)
    assert found["backer rod"].amount == pytest.approx(270)
    assert "bulkheads" not in found


def test_what_is_not_told_of_is_not_ordered():
    assert not {"base stone", "mesh", "vapour retarder", "chairs"} & set(rows(DayInput()))


def test_laps_by_hand():
    """A sheet of 10 x 5 that laps 1 each way covers 9 x 4 = 36 of its 50."""
    assert lapped(36.0, (10.0, 5.0), 1.0) == pytest.approx(50.0)


def test_costs_are_amounts_times_the_job_s_own_prices():
    """Two days of 16.67 yd3: 17.5 each at 5 %; one bulkhead of 30 ft; sawing 240 ft."""
    prices = Prices(
        currency="USD", concrete=160 / MM3_PER_YD3, bulkhead=12 / FOOT, sawing=1.5 / FOOT, day=900
    )
    day = DayInput(pours=PourChoice(volume=18 * MM3_PER_YD3), prices=prices)
    found = rows(day)
    assert found["concrete as ordered"].amount == pytest.approx(35 * 160)
    assert found["bulkheads"].unit == "ft"
    assert found["bulkheads with their dowels"].amount == pytest.approx(360)
    costs = [r for r in found.values() if r.group == "costs"]
    assert {r.unit for r in costs} == {"USD"}
    assert found["in all"].amount == pytest.approx(35 * 160 + 30 * 12 + 240 * 1.5 + 2 * 900)
    assert not [r for r in rows(DayInput()).values() if r.group == "costs"]


def test_fewer_days_take_fewer_bulkheads():
    """33.3 yd3: one placement has none, two have 30 ft, three 60 ft across the hall."""
    slab, layout = hall()
    day = DayInput(pours=PourChoice(volume=18 * MM3_PER_YD3))
    parted = placed_layout(slab, layout, day, Display.FEET_INCHES)
    found = day_choices(slab, parted, day, concrete_body(slab), 2)
    told = {c.placements: (c.bulkhead / FOOT, c.most / MM3_PER_YD3) for c in found}
    assert told[1] == pytest.approx((0.0, 33.33), abs=0.01)
    assert told[2] == pytest.approx((30.0, 16.67), abs=0.05)
    assert told[3] == pytest.approx((60.0, 11.11), abs=0.05)
    assert day_choices(slab, parted, DayInput(), concrete_body(slab), 1) == ()
