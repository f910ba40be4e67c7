"""How long the page waits for its measures: compared as ratios, never asserted as times."""

import json

import pytest

from kerfline.app.demo import demo_job
from kerfline.app.live import measured
from kerfline.app.working import DrawnJoint, Working
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Slab
from kerfline.units import Unit
from kerfline.web.desk import Desk
from kerfline.web.picture import picture
from kerfline.web.wire import state_data
from paged import house

BAY = 3048.0


def floor(bays):
    """A hall of bays by bays panels of 10 ft."""
    side = bays * BAY
    slab = Slab(outline=Ring(((0, 0), (side, 0), (side, side), (0, side))), thickness=101.6)
    lines = [
        line
        for at in (number * BAY for number in range(1, bays))
        for line in (((at, 0.0), (at, side)), ((0.0, at), (side, at)))
    ]
    joints = tuple(DrawnJoint(id=f"J{i}", path=line) for i, line in enumerate(lines, start=1))
    return Working(name="Hall", units=Unit.FT, slab=slab, joints=joints, rule_set="floor")


@pytest.mark.benchmark(group="web: one step of a drag")
def test_one_step_of_a_drag_in_a_house(benchmark, tmp_path):
    """What the page waits for while the pointer moves: read, move, check, draw."""
    desk = Desk(house(tmp_path))
    state = json.loads(json.dumps(desk.open({})["state"]))
    said = {"state": state, "action": {"do": "slide", "id": "J2", "by": [25.4, 0]}}

    answer = benchmark(desk.change, said)

    assert len(answer["picture"]["panels"]) == 6


@pytest.mark.benchmark(group="web: measures by panels")
@pytest.mark.parametrize("bays", [4, 8, 16])
def test_measures_of_a_hall(benchmark, bays):
    """Grows with the number of panels: 16, 64 and 256."""
    working = floor(bays)
    job = demo_job()

    outcome = benchmark(measured, job, working)

    assert picture(outcome)["totals"]["panels"] == bays**2
    assert state_data(working)["name"] == "Hall"
