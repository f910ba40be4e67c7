"""The unit comes from the header, dimensions, doors and walls; where they disagree it is asked, never guessed."""

import math

import pytest
from ezdxf import units

from kerfline.errors import InputRefused
from kerfline.files.drawing import gather, read_drawing
from kerfline.files.drawing.curves import Stated
from kerfline.files.drawing.stated import units_stated
from kerfline.files.drawing.unit_evidence import unit_evidence

FACTORS = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "ft": 304.8}


def house(drawn, mm, *, doors=2):
    """A house of 12 x 8 m with walls of 200 mm and doors of 900 mm, in a unit of so many millimetres."""
    drawn.poly(
        "SLAB", [(x / mm, y / mm) for x, y in ((0, 0), (12000, 0), (12000, 8000), (0, 8000))]
    )
    drawn.wall("A-WALL", (0, 4000 / mm), (12000 / mm, 4000 / mm), 200 / mm)
    drawn.wall("A-WALL", (6000 / mm, 0), (6000 / mm, 3900 / mm), 200 / mm)
    for n in range(doors):
        x, y, r = (1000 + 3000 * n) / mm, 4100 / mm, 900 / mm
        drawn.line("A-DOOR", (x, y), (x, y + r))
        drawn.space.add_arc((x, y), r, 0, 90, dxfattribs={"layer": "A-DOOR"})


@pytest.mark.parametrize(("unit", "mm"), FACTORS.items())
def test_doors_and_walls_tell_a_missing_unit(sheet, unit, mm):
    drawn = sheet(None)
    house(drawn, mm)
    drawing = read_drawing(drawn.save())
    assert drawing.factor == mm
    assert any("does not say its unit" in n and "door swings" in n for n in drawing.notes)
    assert not drawing.told


@pytest.mark.parametrize(("unit", "mm"), FACTORS.items())
def test_without_doors_a_missing_unit_is_asked(sheet, unit, mm):
    drawn = sheet(None)
    house(drawn, mm, doors=0)
    with pytest.raises(InputRefused, match="does not say its unit"):
        read_drawing(drawn.save())


@pytest.mark.parametrize(
    ("said", "mm", "words"),
    [
        (units.FT, 1000.0, "its unit is feet, but what is drawn looks like metres: 2 door swings"),
        (units.M, 304.8, "its unit is metres, but what is drawn looks like feet"),
        (units.IN, 10.0, "its unit is inches, but what is drawn looks like centimetres"),
    ],
)
def test_a_header_that_the_drawing_contradicts_is_asked_about(sheet, said, mm, words):
    drawn = sheet(said)
    house(drawn, mm)
    with pytest.raises(InputRefused, match=words):
        read_drawing(drawn.save())


@pytest.mark.parametrize(("said", "mm"), [(units.MM, 25.4), (units.MM, 304.8), (units.KM, 1000.0)])
def test_a_header_that_cannot_be_right_gives_way_to_what_is_drawn(sheet, said, mm):
    """A house of 12 m is no 472 mm; doors and walls tell what it is, and it is said."""
    drawn = sheet(said)
    house(drawn, mm)
    drawing = read_drawing(drawn.save())
    assert drawing.factor == mm
    assert any("which cannot be right: read in" in n and "door swings" in n for n in drawing.notes)


def test_a_header_that_cannot_be_right_is_asked_about_where_nothing_tells(sheet):
    drawn = sheet(units.MM)
    house(drawn, 25.4, doors=0)
    with pytest.raises(InputRefused, match="its unit is millimetres, which cannot be right"):
        read_drawing(drawn.save())


def test_the_one_unit_of_a_common_size_needs_walls_beside_it(sheet):
    """45,000 units are 45 m in mm, 450 m in cm and more in all others; that alone says nothing."""
    for walls, settled in ((True, True), (False, False)):
        drawn = sheet(None)
        drawn.poly("SLAB", [(0, 0), (45000, 0), (45000, 20000), (0, 20000)])
        for n in range(6 if walls else 0):
            drawn.wall("A-WALL", (6000 * n + 3000, 0), (6000 * n + 3000, 20000), 200)
        path = drawn.save()
        if settled:
            assert read_drawing(path).factor == 1.0
            continue
        with pytest.raises(InputRefused, match="does not say its unit"):
            read_drawing(path)


def test_a_swing_without_a_leaf_or_a_hinge_is_no_door(sheet):
    drawn = sheet(None)
    house(drawn, 1.0, doors=0)
    for n in range(3):
        drawn.space.add_arc((3000 * n + 1500.0, 2000), 900, 0, 90, dxfattribs={"layer": "X"})
    best = unit_evidence(gather(drawn.save()))[0]
    assert not any("door" in w for w in best.words)


@pytest.mark.parametrize(
    ("drawn", "text", "unit"),
    [
        (144.0, "12'-0\"", "in"),
        (12.0, "12'-0\"", "ft"),
        (3.6, "3600", "m"),
        (360.0, "3600", "cm"),
        (3600.0, "3.60 m", "mm"),
        (3600.0, "3600", None),
        (141.73, "3600", "in"),
        (100.0, "SEE PLAN", None),
        (100.0, "7'-7\"", None),
    ],
)
def test_what_a_dimension_states(drawn, text, unit):
    assert units_stated([Stated(drawn=drawn, text=text)]) == ({unit: 1} if unit else {})


def test_a_turn_and_a_mirror_change_nothing(sheet):
    drawn = sheet(None)
    house(drawn, 1000.0)
    block = drawn.doc.blocks.new("ALL")
    for entity in list(drawn.space):
        drawn.space.unlink_entity(entity)
        block.add_entity(entity)
    turned = {"rotation": 17.0, "xscale": -1}
    drawn.space.add_blockref("ALL", (5.0, math.pi), dxfattribs=turned)
    assert read_drawing(drawn.save()).factor == 1000.0
