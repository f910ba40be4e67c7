"""What was taken from a drawing, in sentences."""

from dataclasses import replace
from pathlib import Path

from drawn_curves import box, box_ring, closed, line
from kerfline.files.drawing.account import MOST, Chosen, account
from kerfline.files.drawing.curves import Skipped
from kerfline.files.drawing.layers import Layers
from kerfline.files.drawing.opened import Drawing
from kerfline.files.drawing.size import drawn_unit
from kerfline.files.slab_parts import MOST_LINES, SlabParts
from kerfline.model.slab import Wall

DRAWING = Drawing(
    path=Path("plan.dxf"),
    curves=(closed("SLAB", *box(0, 0, 9000, 6000)), line("GRASS", (0, 0), (900, 0))),
    drawn_in=drawn_unit("mm"),
    declared=drawn_unit("mm"),
    counts={("SLAB", "LWPOLYLINE"): 1, ("GRASS", "LINE"): 1},
)
PARTS = SlabParts(outline=box_ring(0, 0, 9000, 6000))
BY = Chosen(layers=Layers(outline=("SLAB",)))


def test_the_slab_is_told_in_both_kinds_of_units_with_its_area():
    first = account(DRAWING, PARTS, BY)[0]
    assert first.startswith("Slab: 9.00 x 6.00 m (29'-6")
    assert first.endswith("54.00 m2; edge as drawn.")


def test_where_the_edge_was_found_and_who_says_so():
    told = replace(BY, told={"outline": ("SLAB", "PAD")})
    assert account(DRAWING, PARTS, told)[0].endswith("edge on SLAB, PAD, as you say.")
    noted = replace(BY, notes=("Outline: SLAB, by name.",))
    assert account(DRAWING, PARTS, noted)[0].endswith("edge: SLAB, by name.")


def test_no_slab_is_not_spoken_of():
    assert account(DRAWING, SlabParts(), BY)[0] == "Unit: millimetres, as the drawing says."


def test_the_unit_and_who_says_it():
    said = replace(DRAWING, told=True)
    assert "Unit: millimetres, as you say." in account(said, PARTS, BY)
    found = replace(DRAWING, declared=None, notes=("Doors speak for its unit.",))
    assert "Unit: millimetres. Doors speak for its unit." in account(found, PARTS, BY)
    silent = replace(DRAWING, declared=None)
    assert "Unit: millimetres." in account(silent, PARTS, BY)


def test_walls_are_counted_with_their_run_and_layers():
    wall = Wall(id="W1", path=((0, 3000), (6000, 3000)), thickness=100.0)
    parts = replace(PARTS, walls=(wall, wall))
    by = Chosen(layers=Layers(outline=("SLAB",), walls=("A-WALL",)), told={"walls": ("A-WALL",)})
    assert "Walls: 2 interior walls, 12.0 m on A-WALL, as you say." in account(DRAWING, parts, by)
    assert "Walls: 2 interior walls, 12.0 m on the slab's own layers." in account(
        DRAWING, parts, BY
    )


def test_layers_that_gave_nothing_are_told_too():
    by = Chosen(layers=Layers(outline=("SLAB",), keep_outs=("KEEP",)))
    assert "Keep-outs: 0 keep-outs on KEEP." in account(DRAWING, PARTS, by)


def test_more_layers_than_fit_are_counted():
    names = tuple(f"L{n}" for n in range(MOST + 2))
    by = Chosen(layers=Layers(outline=("SLAB",), columns=names))
    words = next(s for s in account(DRAWING, PARTS, by) if s.startswith("Columns"))
    assert words == "Columns: 0 columns on L0, L1, L2, L3, L4, L5, L6, L7 and 2 more."


def test_what_was_left_out_is_told():
    drawing = replace(
        DRAWING,
        ignored={"DIMENSION": 1200},
        skipped=(Skipped(kind="3DFACE", layer="X", why="it is no edge", count=2),),
    )
    said = account(drawing, PARTS, BY)
    assert "Not used, as nothing says that they hold a part of the slab: GRASS." in said
    assert "Passed over, as no edge of anything: 1,200 DIMENSION." in said
    assert "Not read: 2 3DFACE on X (it is no edge)." in said


def test_hidden_layers_are_not_called_unused():
    hidden = replace(DRAWING, hidden=frozenset({"GRASS"}))
    assert not any(s.startswith("Not used") for s in account(hidden, PARTS, BY))


def test_no_more_lines_than_fit():
    notes = tuple(f"Left out: {n}." for n in range(2 * MOST_LINES))
    assert len(account(DRAWING, PARTS, replace(BY, notes=notes))) == MOST_LINES
