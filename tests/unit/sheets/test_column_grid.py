"""Columns in rows make a grid whose lines are named at the rim of the plan, clear of everything else."""

import math

import pytest
import shapely

from kerfline.geometry.ring import Ring
from kerfline.model.job import Job, SheetChoice
from kerfline.model.layout import Reason
from kerfline.model.slab import Column, JointKind, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.baselines import baselines
from kerfline.sheets.column_grid import column_grid
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.marks import Layer
from kerfline.units import Unit
from shapes import feet, layout_of
from sheet_checks import assert_clean, grid_lines

RULES = SlabRules(rule_set=load("floor"))
HALL = ((0, 0), (80, 0), (80, 60), (0, 60))
ELL = ((0, 0), (80, 0), (80, 30), (40, 30), (40, 60), (0, 60))


def slab(outline, names, places):
    columns = tuple(Column(id=n, at=feet(p)[0]) for n, p in zip(names, places, strict=True))
    return Slab(outline=Ring(feet(*outline)), thickness=150.0, columns=columns)


def grid_of(names, places, outline=HALL):
    given = slab(outline, names, places)
    found = column_grid(given, baselines(given))
    return [
        [(g.name, round(g.offset / 304.8, 3)) for g in way] for way in (found.along, found.across)
    ]


SQUARE = [(x, y) for y in (20, 40) for x in (20, 40, 60)]


def test_lines_have_figures_one_way_and_letters_the_other():
    assert grid_of([f"C{n}" for n in range(1, 7)], SQUARE) == [
        [("1", 20.0), ("2", 40.0), ("3", 60.0)], [("B", 20.0), ("C", 40.0)],
    ]  # fmt: skip


def test_columns_that_are_named_after_their_lines_name_them():
    names = [f"{row}-{column}" for row in "KL" for column in (7, 8, 9)]
    assert grid_of(names, SQUARE) == [
        [("7", 20.0), ("8", 40.0), ("9", 60.0)], [("K", 20.0), ("L", 40.0)],
    ]  # fmt: skip


@pytest.mark.parametrize(
    "places", [[(20, 20), (40, 20), (60, 20)], [(10, 10), (23, 31), (41, 44)], []]
)
def test_columns_in_no_rows_make_no_grid(places):
    assert grid_of([f"C{n}" for n in range(len(places))], places) == [[], []]


def test_a_column_a_little_out_of_its_row_is_in_it():
    places = [(20, 20), (40, 20), (20.05, 40), (40, 40)]
    assert [len(way) for way in grid_of("wxyz", places)] == [2, 2]


@pytest.mark.parametrize("outline", [HALL, ELL])
@pytest.mark.parametrize("size", ["tabloid", "arch-d"])
def test_each_line_has_its_circle_over_its_columns_beyond_the_slab(outline, size):
    places = [(20, 15), (60, 15), (20, 45)] if outline is ELL else SQUARE
    if outline is ELL:
        places = [*places, (60, 20), (30, 45), (30, 15)]
    given = slab(outline, [f"C{n}" for n in range(len(places))], places)
    lines = [(JointKind.CONTROL, Reason.SPAN, list(g.coords)) for g in grid_lines(given, 3048.0)]
    job = Job(name="Hall", units=Unit.FT, slab=given, sheet=SheetChoice(size=size))
    sheet, *_ = joint_plan(job, layout_of(given, lines), (), RULES)
    names = {t.text: t for t in sheet.texts if t.layer is Layer.GRID_NAME and not t.in_plan}
    grid = column_grid(given, baselines(given))
    edge = sheet.view.shape(given.outline.polygon)
    for line in grid.along:
        x, _ = sheet.view.to_paper((line.offset, 0.0))
        spots = [t for t in sheet.texts if t.layer is Layer.GRID_NAME and t.text == line.name]
        assert any(math.isclose(t.at[0], x, abs_tol=0.01) for t in spots)
    for line in grid.across:
        assert line.name in names
    for text in (t for t in sheet.texts if t.layer is Layer.GRID_NAME):
        assert not edge.contains(shapely.Point(text.at))
    assert_clean([sheet])
