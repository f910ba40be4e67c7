"""Circles of the column grid above and right of the plan."""

from dataclasses import replace

import shapely

from kerfline.model.job import SheetChoice
from kerfline.model.slab import Column
from kerfline.sheets.lettering import text_corners
from kerfline.sheets.marks import Board, Layer, Path, Text
from kerfline.sheets.plan_labels import path_line
from kerfline.sheets.plan_view import add_dimensions
from shapes import feet, workshop_job, workshop_layout, workshop_slab
from views import plans_of

ROWS = tuple(
    Column(id=f"C{n}", at=at) for n, at in enumerate(feet((12, 8), (24, 8), (12, 16), (24, 16)), 1)
)


def grid_of(columns):
    slab = replace(workshop_slab(), columns=columns)
    job = replace(workshop_job(sheet=SheetChoice(size="arch-d")), slab=slab)
    (plan,), _ = plans_of(job, workshop_layout())
    board = Board()
    add_dimensions(board, plan)
    marks = [m for m in board if m.layer in (Layer.GRID, Layer.GRID_NAME)]
    return plan, board, marks


def test_each_line_of_columns_has_its_circle_and_name_off_the_slab():
    """Letters leave out A, which is the corner that everything is measured from."""
    plan, _, marks = grid_of(ROWS)
    names = [m.text for m in marks if isinstance(m, Text)]
    assert sorted(names) == ["1", "2", "B", "C"]
    slab = plan.view.shape(plan.job.slab.outline.polygon)
    for mark in marks:
        if isinstance(mark, Path) and mark.closed:
            assert not slab.intersects(path_line(mark))


def test_a_circle_stands_on_its_line():
    plan, _, marks = grid_of(ROWS)
    xs = {round(plan.view.to_paper(c.at)[0], 3) for c in ROWS}
    upper = [m for m in marks if isinstance(m, Text) and round(m.at[0], 3) in xs]
    assert len(upper) == 2


def test_circles_keep_clear_of_the_dimensions():
    _, board, marks = grid_of(ROWS)
    rings = [shapely.Polygon(path_line(m)) for m in marks if isinstance(m, Path) and m.closed]
    dims = [
        shapely.Polygon(text_corners(t))
        for t in board
        if isinstance(t, Text) and t.layer is Layer.DIMENSION
    ]
    for ring in rings:
        assert not any(ring.intersects(d) for d in dims)


def test_columns_in_no_rows_make_no_grid():
    assert grid_of((ROWS[0],))[2] == []
