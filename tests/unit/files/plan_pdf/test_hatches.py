"""Rows of strokes are hatches; stairs, walls, grids and loose lines are not."""

import math
from itertools import accumulate
from random import Random

import pytest

from kerfline.files.plan_pdf.hatches import hatch_strokes
from kerfline.geometry.paths import Path

PEN = "0.10 mm black"
CHANCE = Random(3)
UNEVEN = [CHANCE.uniform(0.3, 2.5) for _ in range(60)]


def stroke(ax, ay, bx, by):
    return Path(((ax, ay), (bx, by)))


def row(count, spacing, length=8.0, turn=45.0, at=(0.0, 0.0)):
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    x, y = at
    return [
        stroke(
            x - s * i * spacing, y + c * i * spacing,
            x - s * i * spacing + c * length, y + c * i * spacing + s * length,
        )
        for i in range(count)
    ]  # fmt: skip


def taken(strokes, pen=PEN):
    return hatch_strokes([(pen, each) for each in strokes])


@pytest.mark.parametrize("turn", [0.0, 30.0, 45.0, 90.0, 135.0, 179.9])
def test_a_row_of_strokes(turn):
    assert taken(row(60, 0.7, turn=turn)) == set(range(60))


def test_strokes_the_other_way_round_and_in_any_order():
    strokes = [Path(p.points[::-1]) if i % 3 else p for i, p in enumerate(row(80, 0.4))]
    Random(5).shuffle(strokes)
    assert len(taken(strokes)) == 80


def test_two_hatches_over_each_other_and_one_beside():
    strokes = [*row(50, 0.5), *row(50, 0.5, turn=135.0), *row(40, 1.3, at=(100, 0))]
    assert len(taken(strokes)) == 140


def test_a_wall_is_hatched_between_its_faces():
    """The faces of a wall stay: they are two, and of another direction than its hatch."""
    faces = [stroke(0, 0, 200, 0), stroke(0, 3, 200, 3)]
    hatch = [stroke(x, 0, x + 3, 3) for x in range(180)]
    assert taken([*faces, *hatch]) == set(range(2, 182))


@pytest.mark.parametrize(
    "strokes",
    [
        row(20, 2.8, length=11, turn=0),  # the treads of a stair
        row(24, 0.5),
        row(60, 6.0),  # lines of a grid, far apart
        [stroke(0, y, 9, y) for y in accumulate(UNEVEN)],
        [stroke(12 * i, 0.8 * i, 12 * i + 9, 0.8 * i) for i in range(60)],  # steps, not side by side
        [s for i in range(30) for s in (stroke(9 * i, 0, 9 * i, 40), stroke(9 * i + 1, 0, 9 * i + 1, 40))],
    ],
    ids=["stair", "too few", "grid", "uneven", "one behind another", "thin walls in a row"],
)  # fmt: skip
def test_what_is_no_hatch(strokes):
    assert taken(strokes) == set()


def test_closed_bent_and_curved_lines_are_never_strokes():
    bent = [Path(((0, y), (9, y), (9, y + 50))) for y in range(60)]
    curved = [Path(((0, y), (9, y)), (0.5, 0.0)) for y in range(60)]
    assert taken([*bent, *curved]) == set()


def test_strokes_of_several_pens_are_no_row():
    strokes = row(48, 0.5)
    assert hatch_strokes([(f"pen {i % 2}", s) for i, s in enumerate(strokes)][:40]) == set()
    assert hatch_strokes([]) == set()
