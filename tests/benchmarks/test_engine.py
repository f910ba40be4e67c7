"""How long the engine takes, against the number of panels; shown as a table, never held to a time."""

import pytest

from kerfline.model.slab import Column
from kerfline.units import MM_PER_FOOT
from unit.engine.plans import HOUSE, box, layout, slab


def warehouse(across, up, bay=50):
    columns = tuple(
        Column(id=f"C{i * up + j}", at=(bay * i * MM_PER_FOOT, bay * j * MM_PER_FOOT))
        for i in range(1, across)
        for j in range(1, up)
    )
    return slab(box(across * bay, up * bay), columns=columns)


PLANS = {
    "hall": slab(box(40, 24)),
    "house of ten rooms": HOUSE,
    "floor of 100 x 60 ft": slab(
        box(100, 60),
        columns=tuple(
            Column(id=f"C{i}", at=(20 * (1 + i % 4) * MM_PER_FOOT, 20 * (1 + i // 4) * MM_PER_FOOT))
            for i in range(8)
        ),
    ),
    "warehouse of 300 panels": warehouse(4, 3),
    "warehouse of 1200 panels": warehouse(8, 6),
    "warehouse of 5000 panels": warehouse(20, 10),
}


@pytest.mark.parametrize("name", PLANS)
def test_lay_out(benchmark, name):
    found = benchmark(layout, PLANS[name])
    benchmark.extra_info["panels"] = len(found.panels)
    benchmark.extra_info["gap"] = found.solution.gap
    benchmark.extra_info["over bound"] = found.joint_length / (found.solution.length_bound or 1.0)


def test_a_regular_floor_takes_time_in_step_with_its_panels(benchmark):
    """Four times the panels take no more than some eight times as long: about linear, with slack."""
    layout(PLANS["warehouse of 300 panels"])
    small = _seconds(PLANS["warehouse of 300 panels"])
    large = benchmark.pedantic(_seconds, args=(PLANS["warehouse of 1200 panels"],), rounds=1)
    assert large <= 8.0 * small


def _seconds(given):
    return layout(given).solution.seconds
