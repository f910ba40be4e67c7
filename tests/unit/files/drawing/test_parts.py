"""The parts of a slab, read from the layers that hold them."""

import pytest
from ezdxf import units

from kerfline.files.drawing import Layers
from kerfline.model.slab import JointKind
from read_parts import L_AREA, L_SHAPE, area, read, refused


def test_pieces_on_several_layers(sheet):
    drawn = sheet()
    drawn.line("SLAB-SOUTH", *L_SHAPE[:4])
    drawn.line("SLAB-NORTH", *L_SHAPE[3:], L_SHAPE[0])
    assert area(read(drawn).outline) == pytest.approx(L_AREA)


def test_the_layer_of_a_bound_or_attached_drawing_answers_to_its_last_part(sheet):
    drawn = sheet()
    drawn.line("PLAN-07$0$SLAB-EDGE", *L_SHAPE[:4])
    drawn.line("site|slab-edge", *L_SHAPE[3:], L_SHAPE[0])
    assert area(read(drawn, Layers(outline=("Slab-Edge",))).outline) == pytest.approx(L_AREA)


def test_a_hidden_layer_that_is_named_is_read_and_it_is_said(sheet):
    drawn = sheet()
    drawn.poly("SLAB", L_SHAPE)
    drawn.doc.layers.add("SLAB").off()
    assert read(drawn).notes == ("Off or frozen in the drawing, and read as you say: SLAB.",)


def test_a_small_slab_makes_the_unit_doubtful(sheet):
    drawn = sheet(units.MM)
    drawn.poly("SLAB", [(x * 5, y * 5) for x, y in L_SHAPE])
    assert read(drawn).notes == (
        "The slab is only 2400 mm long: is the drawing's unit millimetres?",
    )


def test_a_layer_that_is_not_there_names_those_that_are_the_likest_first(sheet):
    drawn = sheet()
    drawn.poly("S-SLAB-EDGE", L_SHAPE)
    drawn.line("A-DOOR", (0, 0), (9, 9))
    words = refused(drawn, Layers(outline=("S-SLB-EDGE",), walls=("A-WALL*",)))
    assert "no layer of the drawing matches 'S-SLB-EDGE'" in words
    assert "no layer of the drawing matches 'A-WALL*'" in words
    assert words.index("S-SLAB-EDGE") < words.index("A-DOOR")


def test_things_in_paper_space_are_told_of(sheet):
    drawn = sheet()
    drawn.doc.layout("Layout1").add_lwpolyline(L_SHAPE, close=True)
    assert "found things on the paper-space sheet Layout1" in refused(drawn)


def test_parts_without_layers_stay_empty(sheet):
    drawn = sheet()
    drawn.poly("SLAB", L_SHAPE)
    drawn.wall("A-WALL", (0, 120), (480, 120), 6)
    parts = read(drawn)
    assert (parts.walls, parts.columns, parts.joints, parts.keep_outs) == ((), (), (), ())


def test_every_part_is_read_from_its_layers(sheet):
    drawn = sheet()
    drawn.poly("SLAB", L_SHAPE)
    drawn.poly("OPNG", [(60, 60), (120, 60), (120, 100), (60, 100)])
    drawn.wall("A-WALL", (0, 200), (400, 200), 6)
    drawn.square("COLS", (300, 100), 24)
    drawn.circle("PIPE", (40, 300), 4)
    drawn.line("CTLJ", (200, 0), (200, 240))
    drawn.square("KEEP", (420, 60), 30)
    layers = Layers(
        outline=("SLAB",), openings=("OPNG",), walls=("A-WALL",), columns=("COLS",),
        penetrations=("PIPE",), joints=("CTLJ",), keep_outs=("KEEP",),
    )  # fmt: skip
    parts = read(drawn, layers)
    counts = [
        len(getattr(parts, p))
        for p in ("openings", "walls", "columns", "penetrations", "joints", "keep_outs")
    ]
    assert counts == [1, 1, 1, 1, 1, 1]
    assert parts.joints[0].kind is JointKind.CONTROL


def test_a_slab_of_three_metres_raises_no_doubt(sheet):
    drawn = sheet(units.MM)
    drawn.poly("SLAB", [(0, 0), (3000, 0), (3000, 2000), (0, 2000)])
    assert read(drawn).notes == ()
