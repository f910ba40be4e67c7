"""How long the engine takes, against the number of panels; shown as a table, never held to a time.

Run as a script for the table in the developers' guide::

    PYTHONPATH=tests python tests/benchmarks/test_engine.py
"""

import math
import resource
import time

import pytest

from kerfline.model.layout import Status
from kerfline.model.slab import Column
from kerfline.units import MM_PER_FOOT
from unit.engine.plans import HOUSE, box, layout, slab
from unit.engine.slabs import SHAPES


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
    "wing at 45 degrees": SHAPES["wing at 45 degrees"],
    "tapered drive": SHAPES["tapered drive"],
    "floor with a diagonal wall": SHAPES["diagonal wall"],
    "warehouse of 300 panels": warehouse(4, 3),
    "warehouse of 1200 panels": warehouse(8, 6),
    "warehouse of 5000 panels": warehouse(20, 10),
    "warehouse of 10000 panels": warehouse(20, 20),
}
"""Rectangles, houses, angled plans and warehouses; that of 5000 panels is 1000 by 500 ft."""

REGULAR = [name for name in PLANS if name.startswith("warehouse")]


@pytest.mark.parametrize("name", PLANS)
def test_lay_out(benchmark, name):
    found = benchmark(layout, PLANS[name])
    benchmark.extra_info["panels"] = len(found.panels)
    benchmark.extra_info["gap"] = found.solution.gap
    benchmark.extra_info["over bound"] = found.joint_length / (found.solution.length_bound or 1.0)


def test_a_regular_floor_takes_time_in_step_with_its_panels(benchmark):
    """Four times the panels take no more than some eight times as long: about linear, with slack."""
    layout(PLANS["warehouse of 300 panels"])
    small, _ = measured(PLANS["warehouse of 300 panels"])
    large, _ = benchmark.pedantic(measured, args=(PLANS["warehouse of 1200 panels"],), rounds=1)
    assert large <= 8.0 * small


def measured(given):
    """Seconds of processor time, which other programs do not lengthen much, and the layout."""
    began = time.process_time()
    found = layout(given)
    return time.process_time() - began, found


def growth(points):
    """The exponent of time against panels: the slope of the straight line through their logarithms."""
    xs, ys = zip(*((math.log(n), math.log(t)) for n, t in points), strict=True)
    middle_x, middle_y = sum(xs) / len(xs), sum(ys) / len(ys)
    over = sum((x - middle_x) * (y - middle_y) for x, y in zip(xs, ys, strict=True))
    return over / sum((x - middle_x) ** 2 for x in xs)


def main():
    """Prints the table, the growth of regular floors and the memory taken at most."""
    print("| plan | panels | seconds | proven gap | joint length over its bound |")
    print("|---|---|---|---|---|")
    measured(PLANS["hall"])
    regular = []
    for name, given in PLANS.items():
        seconds, found = measured(given)
        over = found.joint_length / found.solution.length_bound - 1
        gap = "-" if found.solution.status is Status.HEURISTIC else f"{found.solution.gap:.1%}"
        print(f"| {name} | {len(found.panels)} | {seconds:.2f} | {gap} | {abs(over):.1%} |")
        if name in REGULAR:
            regular.append((len(found.panels), seconds))
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(
        f"\nGrowth of the regular floors: panels to the power {growth(regular):.2f}; at most {most:.0f} MB."
    )


if __name__ == "__main__":
    main()
