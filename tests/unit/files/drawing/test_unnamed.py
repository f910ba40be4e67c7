"""Columns on layers whose names say nothing, and blocks that say what they are."""

from pathlib import Path

import pytest

from drawn_curves import box, closed, line
from kerfline.files.drawing.curves import Label
from kerfline.files.drawing.opened import Drawing
from kerfline.files.drawing.unnamed import SMALLEST, WIDEST, add_unnamed, holds_small_figures

EDGE = closed("SLAB", *box(0, 0, 12000, 9000))


def drawing(*curves, **more):
    every = (EDGE, *curves)
    return Drawing(
        path=Path("a"), curves=every, counts={(c.layer, c.kind): 1 for c in every}, **more
    )


def posts(layer, *sides, x=1000, group=0):
    return [closed(layer, *box(x + 2000 * n, 1000, s, s), group=group) for n, s in enumerate(sides)]


def added(one, parts=None, outline=("SLAB",)):
    parts = {} if parts is None else parts
    return parts, add_unnamed(one, outline, parts)


def test_alike_small_figures_in_the_slab_are_columns():
    parts, notes = added(drawing(*posts("L7", 300, 300)))
    assert parts == {"columns": ["L7"]}
    assert notes == [
        "Columns: L7, by their small closed curves, all alike; no name says so. Check it."
    ]


@pytest.mark.parametrize(
    ("sides", "x"),
    [((300,), 1000), ((300, 361), 1000), ((300, 300), 11500), ((WIDEST + 1, WIDEST + 1), 1000)],
    ids=["one", "unlike", "outside", "machines"],
)
def test_others_may_be_columns_and_are_only_told(sides, x):
    parts, notes = added(drawing(*posts("L7", *sides, x=x)))
    assert parts == {}
    assert notes == ["Layers of small closed curves, columns perhaps: L7."]


@pytest.mark.parametrize(("at", "taken"), [((1150, 1150), False), ((1150, 1400), True)])
def test_boxes_with_a_word_inside_are_signs(at, taken):
    word = Label(layer="L7", text="EXIT", at=at, height=100.0)
    parts, _ = added(drawing(*posts("L7", 300, 300), labels=(word,)))
    assert bool(parts) is taken


@pytest.mark.parametrize(("side", "found"), [(SMALLEST, True), (SMALLEST - 1, False)])
def test_bolts_and_marks_are_too_small(side, found):
    assert holds_small_figures(drawing(*posts("L7", side, side)), "L7") is found


def test_a_layer_with_anything_else_on_it_holds_no_columns():
    assert not holds_small_figures(
        drawing(*posts("L7", 300, 300), line("L7", (0, 0), (900, 0))), "L7"
    )
    assert not holds_small_figures(drawing(), "L7")
    assert not holds_small_figures(drawing(*posts("L7", 300, 5000)), "L7")


@pytest.mark.parametrize("layer", ["A-FURN", "P-PIPE", "SLAB-2"])
def test_layers_whose_names_say_something_are_left_alone(layer):
    assert added(drawing(*posts(layer, 300, 300))) == ({}, [])


def test_hidden_layers_and_those_of_another_part_are_left_alone():
    assert added(drawing(*posts("L7", 300, 300), hidden=frozenset({"L7"}))) == ({}, [])
    assert added(drawing(*posts("L7", 300, 300)), {"openings": ["L7"]})[1] == []


def test_where_columns_are_named_no_others_are_looked_for():
    assert added(drawing(*posts("L7", 300, 300)), {"columns": ["COLS"]}) == (
        {"columns": ["COLS"]},
        [],
    )


def test_without_an_outline_nothing_is_added():
    assert added(drawing(*posts("L7", 300, 300)), outline=()) == ({}, [])


def test_blocks_are_taken_by_their_names():
    parts, notes = added(
        drawing(*posts("L7", 300, group=1), blocks={1: "COLUMN"}), {"columns": ["A"]}
    )
    assert parts["columns"] == ["A", "block:COLUMN"]
    assert notes == ["Columns: block COLUMN, by name."]


def test_a_block_on_a_layer_that_is_taken_already_is_not_taken_again():
    one = drawing(*posts("L7", 300, group=1), blocks={1: "COLUMN"})
    assert added(one, {"columns": ["L7"]})[1] == []
