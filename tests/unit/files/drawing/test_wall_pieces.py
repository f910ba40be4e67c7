"""Stretches of wall out of the lines and arcs of one layer."""

import math

import pytest

from drawn_curves import bow, box, closed, line
from kerfline.files.drawing.wall_pieces import (
    ASSUMED,
    MASONRY,
    THICKEST,
    THINNEST,
    Piece,
    faces_of,
    faces_of_walls,
    pairs_of,
    pieces_of,
    pieces_of_width,
)
from kerfline.units import Display


def pair(thickness, length=6000.0, y=0.0):
    return [line("W", (0, y + side), (length, y + side)) for side in (0.0, thickness)]


def test_two_lines_a_wall_apart_are_its_faces():
    faces = faces_of(pair(120.0))
    assert faces.pieces == (Piece(path=((0, 60), (6000, 60)), thickness=120),)
    assert (faces.length, faces.left, faces.singles) == (12000, 0, ())
    assert faces.mostly
    assert len(faces.lines) == 2


@pytest.mark.parametrize(
    ("thickness", "count"), [(THINNEST - 1, 0), (THINNEST, 1), (THICKEST, 1), (THICKEST + 1, 0)]
)
def test_nearer_or_farther_they_are_none(thickness, count):
    assert len(faces_of(pair(thickness)).pieces) == count


@pytest.mark.parametrize(("thickness", "count"), [(600, 1), (MASONRY, 1), (MASONRY + 1, 0)])
def test_on_a_layer_of_walls_only_thick_ones_may_be_there(thickness, count):
    assert [p.thickness for p in faces_of_walls(pair(thickness)).pieces] == [thickness] * count


def test_where_thinner_walls_explain_a_layer_a_passage_between_them_is_no_wall():
    drawn = [*pair(120.0), *pair(120.0, y=720.0)]
    assert {p.thickness for p in faces_of_walls(drawn).pieces} == {120.0}
    names = [p.thickness for p in pieces_of(pair(600.0), "WALLS", Display.METRIC)[0]]
    assert names == [600.0]


def test_where_other_things_are_drawn_too_a_thick_pair_is_no_wall():
    assert pieces_of(pair(600.0), "0", Display.METRIC, singles=False)[0] == []


def test_a_row_of_columns_among_other_things_is_no_wall():
    row = [closed("0", *box(600 * n, 0, 400, 400)) for n in range(9)]
    assert pieces_of(row, "0", Display.METRIC, singles=False)[0] == []
    body = closed("0", *box(0, 0, 1_190, 200))
    assert len(pieces_of([body], "0", Display.METRIC, singles=False)[0]) == 1


def test_a_single_long_line_may_be_the_middle_of_a_wall():
    faces = faces_of([line("W", (0, 0), (6000, 0)), line("W", (0, 9000), (500, 9000))])
    assert faces.pieces == ()
    assert faces.singles == (Piece(path=((0, 0), (6000, 0)), thickness=ASSUMED),)
    assert not faces.mostly


def test_a_line_drawn_twice_is_there_once():
    assert faces_of([*pair(120.0), *pair(120.0)]).length == 12000


def test_a_wide_line_is_a_wall_of_its_width():
    wide = line("W", (0, 0), (3000, 0), (3000, 2000), width=150.0)
    assert [(p.thickness, p.line.length) for p in pieces_of_width([wide])] == [
        (150, 3000),
        (150, 2000),
    ]
    assert faces_of([wide]).pieces == tuple(pieces_of_width([wide]))
    assert pieces_of_width([line("W", (0, 0), (9, 0), width=THINNEST - 1)]) == []
    assert pieces_of_width([line("W", (0, 0), (9, 0), width=THICKEST + 1)]) == []


def test_two_arcs_about_one_middle_are_a_curved_wall():
    outer, inner = bow("W", (-3000, 0), (3000, 0), 1.0), bow("W", (-2800, 0), (2800, 0), 1.0)
    (piece,) = faces_of([outer, inner]).pieces
    assert piece.thickness == pytest.approx(200)
    assert not piece.straight
    assert piece.line.length == pytest.approx(math.pi * 2900, rel=1e-3)


def test_the_swing_of_a_door_is_no_wall_and_a_great_arc_may_be():
    quarter = math.tan(math.pi / 8)
    assert faces_of([bow("W", (900, 0), (0, 900), quarter)]).singles == ()
    assert len(faces_of([bow("W", (9000, 0), (0, 9000), quarter)]).singles) == 1


def test_a_straight_stretch_gives_its_ends_in_a_row():
    piece = Piece(path=((1, 2), (3, 4)), thickness=100)
    assert piece.straight
    assert piece.row == [1, 2, 3, 4]


def test_what_was_paired_is_told_and_what_is_left_over():
    found, notes = pieces_of(
        [*pair(120.0), line("W", (0, 9000), (2000, 9000))], "W", Display.METRIC
    )
    assert len(found) == 1
    assert notes == [
        "W: walls recovered from pairs of lines (1 piece).",
        "W: lines without a partner left out, 2000 mm in all (ends of walls, jambs, faces whose other side is not drawn).",
    ]
    assert (
        len(pieces_of([*pair(120.0), line("W", (0, 9000), (600, 9000))], "W", Display.METRIC)[1])
        == 1
    )


def test_single_lines_are_taken_where_nothing_else_is_drawn():
    curves = [line("W", (0, 0), (6000, 0)), line("W", (0, 4000), (6000, 4000))]
    found, notes = pieces_of(curves, "W", Display.METRIC)
    assert [p.thickness for p in found] == [ASSUMED, ASSUMED]
    assert notes == ["W: 2 single lines taken as centre lines of walls 114 mm thick (assumed)."]
    assert pieces_of(curves, "W", Display.METRIC, singles=False)[0] == []


def test_nothing_drawn_is_no_wall():
    assert faces_of([]).pieces == ()
    assert not faces_of([]).mostly
    assert pairs_of([]) == ()
    assert len(pairs_of(pair(120.0))) == 1
