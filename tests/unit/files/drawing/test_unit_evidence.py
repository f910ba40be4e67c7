"""What speaks for each unit that a drawing could be in."""

from dataclasses import replace
from pathlib import Path

import pytest

from drawn_curves import bow, box, closed, line
from kerfline.files.drawing.curves import Label, Stated
from kerfline.files.drawing.opened import Drawing
from kerfline.files.drawing.size import drawn_unit
from kerfline.files.drawing.unit_evidence import (
    ALONE,
    DIMENSIONS,
    DOORS,
    HEADER,
    NO_WALLS,
    ONE_DIMENSION,
    ROOMS,
    TEXTS,
    TOLD_APART,
    WALLS,
    swings,
    unit_evidence,
)

QUARTER = 0.41421356


def door(x, radius=900.0, layer="DOOR"):
    """A leaf, and its swing about the hinge."""
    return [line(layer, (x, 0), (x, radius)), bow(layer, (x + radius, 0), (x, radius), QUARTER)]


def drawing(*curves, **more):
    edge = closed("0", *box(-20000, -20000, 40000, 30000))
    return Drawing(path=Path("plan.dxf"), curves=(edge, *curves), **more)


def points(one, unit):
    return next(e for e in unit_evidence(one) if e.unit.said == unit)


def test_every_unit_that_can_be_told_apart_is_weighed():
    assert {e.unit for e in unit_evidence(drawing())} == set(TOLD_APART)


def test_what_the_drawing_says_of_itself():
    said = points(drawing(declared=drawn_unit("cm")), "cm")
    assert said.words == ("the drawing says so",)
    assert said.points - points(drawing(), "cm").points == HEADER


@pytest.mark.parametrize(("count", "more"), [(1, ONE_DIMENSION), (2, DIMENSIONS)])
def test_dimensions_state_a_unit_and_one_may_be_a_slip(count, more):
    stated = (Stated(drawn=3600.0, text="3600 mm"),) * count
    with_them = points(drawing(stated=stated), "in"), points(drawing(stated=stated), "mm")
    assert with_them[0] == points(drawing(), "in")
    assert any("dimension" in w for w in with_them[1].words)
    gained = with_them[1].points - points(drawing(), "mm").points
    assert gained in (more, pytest.approx(more + 1.5))


def test_dimensions_that_disagree_state_nothing():
    stated = (Stated(drawn=3600.0, text="3600 mm"), Stated(drawn=12.0, text="1 ft"))
    assert points(drawing(stated=stated), "mm").words == ()


def test_doors_of_a_doors_width_speak_for_their_unit_and_against_others():
    found = unit_evidence(drawing(*door(0), *door(5000)))
    assert found[0].unit.said == "mm"
    assert "2 door swings of a door's width" in found[0].words
    assert found[0].points - points(drawing(), "mm").points >= DOORS
    assert points(drawing(*door(0)), "m").points < points(drawing(), "m").points


def test_walls_a_wall_apart_speak_for_their_unit():
    pair = [line("A", (0, y), (9000, y)) for y in (0, 200)]
    found = points(Drawing(path=Path("a"), curves=tuple(pair)), "mm")
    assert "walls of a wall's thickness" in found.words
    assert found.points >= WALLS


@pytest.mark.parametrize(
    ("layer", "apart", "less"),
    [("A-WALL", 0.787, True), ("A", 0.787, False), ("A-WALL", 0.24, False), ("A-WALL", 3.0, False)],
)
def test_a_stated_unit_that_makes_no_walls_where_another_does_is_doubted(layer, apart, less):
    """Faces 0.787 apart are 787 mm in metres and 240 mm in feet; 3.0 apart they are walls in neither."""
    pair = tuple(line(layer, (0, y), (12, y)) for y in (0, apart))
    doubted, plain = (
        points(Drawing(path=Path("a"), curves=pair, declared=said), "m")
        for said in (drawn_unit("m"), None)
    )
    assert doubted.points - plain.points == HEADER + (NO_WALLS if less else 0)


def text(height, layer="T"):
    return Label(layer=layer, text="HALL", at=(0.0, 0.0), height=height)


@pytest.mark.parametrize(
    ("height", "unit", "tells"),
    [(80.0, "mm", True), (79.0, "mm", False), (700.0, "mm", True), (701.0, "mm", False)],
)
def test_texts_that_are_read_on_paper_speak_for_their_unit(height, unit, tells):
    found = points(drawing(labels=(text(height),)), unit)
    assert ("texts of a height that is read on paper" in found.words) is tells
    assert found.points - points(drawing(), unit).points in (
        (TEXTS, pytest.approx(TEXTS + ALONE)) if tells else (0.0,)
    )


def test_texts_speak_by_most_of_them_and_hidden_ones_and_those_of_no_height_not_at_all():
    words = "texts of a height that is read on paper"
    half = drawing(labels=(text(250.0), text(2.5)))
    assert words not in points(half, "mm").words
    hidden = text(2.5, "OFF")
    most = drawing(labels=(text(250.0), hidden, text(0.0)), hidden=frozenset({"OFF"}))
    assert words in points(most, "mm").words


def test_texts_are_measured_in_the_units_of_the_drawing_whatever_it_was_read_in():
    read = drawing(labels=(text(250.0),)).read_in(drawn_unit("m"))
    assert points(read, "mm").points == points(drawing(labels=(text(250.0),)), "mm").points


def test_a_unit_that_makes_no_slab_of_it_is_not_possible():
    assert points(drawing(), "mm").possible
    assert not points(drawing(), "m").possible
    assert unit_evidence(drawing())[-1].possible is False


def test_hidden_layers_say_nothing():
    hidden = drawing(*door(0), hidden=frozenset({"DOOR"}))
    assert not any("door" in w for w in points(hidden, "mm").words)


def test_it_does_not_matter_which_unit_it_was_read_in():
    plain = drawing(*door(0))
    in_metres = plain.read_in(drawn_unit("m"))
    assert points(replace(in_metres, declared=None), "mm") == points(plain, "mm")


@pytest.mark.parametrize(("bulge", "count"), [(QUARTER, 1), (0.2, 0), (1.0, 0)])
def test_a_swing_is_a_quarter_circle(bulge, count):
    hinge = {QUARTER: (0, 0), 1.0: (450, 450), 0.2: (-630, -630)}[bulge]
    leaf = line("DOOR", hinge, (0, 900))
    assert len(swings([leaf, bow("DOOR", (900, 0), (0, 900), bulge)])) == count


def test_a_swing_has_its_leaf_at_the_hinge():
    arc = bow("DOOR", (900, 0), (0, 900), QUARTER)
    assert len(swings([arc, line("DOOR", (100, 0), (100, 900))])) == 1
    assert swings([arc, line("DOOR", (200, 200), (200, 900))]) == []
    assert swings([arc]) == []
    assert swings([]) == []


def test_arcs_on_layers_of_something_else_are_no_swings():
    assert swings(door(0, layer="S-COLS")) == []
    assert swings(door(0, layer="SLAB")) == []
    assert len(swings(door(0, layer="A-WALL"))) == 1


@pytest.mark.parametrize(("rooms", "more"), [(1, 0.0), (2, ROOMS + ALONE)])
def test_sizes_that_texts_state_of_their_rooms_speak_for_a_unit(rooms, more):
    cells = [closed("0", *box(7000 * n, 0, 6000, 4000)) for n in range(rooms)]
    texts = [
        Label(layer="0", text=text, at=(7000 * n + 2000, 1500), height=0.0)
        for n in range(rooms)
        for text in ("OFFICE", "6.0 x 4.0 m")
    ]
    bare = points(drawing(*cells), "mm")
    told = points(drawing(*cells, labels=tuple(texts)), "mm")
    assert told.points - bare.points == more
    assert ("the sizes of 2 rooms that texts state" in told.words) is bool(more)
