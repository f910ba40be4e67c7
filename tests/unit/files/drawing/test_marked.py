"""Openings on layers of any name need a cross or a word; rooms, tables and floor patterns have neither."""

import pytest

from kerfline.files.drawing import gather, reading

SLAB = [(0, 0), (480, 0), (480, 288), (0, 288)]
PIT = [(60, 60), (100, 60), (100, 90), (60, 90)]


def openings(drawn):
    drawn.poly("S-SLAB", SLAB)
    return reading(gather(drawn.save())).parts.openings


def test_crossed_from_corner_to_corner(sheet):
    drawn = sheet()
    drawn.poly("7", PIT)
    drawn.line("7", PIT[0], PIT[2])
    assert openings(drawn) == ()  # one line is a table's, or a hatch's
    drawn.line("7", PIT[1], PIT[3])
    (found,) = openings(drawn)
    assert found.polygon.area == pytest.approx(40 * 30 * 25.4**2)


@pytest.mark.parametrize("word", ["FLOOR PIT", "Schacht", "TRÉMIE", "open shaft"])
def test_named_by_a_word_inside(sheet, word):
    drawn = sheet()
    drawn.poly("7", PIT)
    drawn.space.add_text(word, dxfattribs={"insert": (65, 75)})
    assert len(openings(drawn)) == 1


@pytest.mark.parametrize("word", ["KITCHEN", "PITCH 1:50", ""])
def test_no_word_for_an_opening(sheet, word):
    drawn = sheet()
    drawn.poly("7", PIT)
    drawn.space.add_text(word or "X", dxfattribs={"insert": (65, 75) if word else (300, 200)})
    assert openings(drawn) == ()


def test_furniture_stays_furniture(sheet):
    drawn = sheet()
    drawn.poly("A-FURN", PIT)
    drawn.line("A-FURN", PIT[0], PIT[2])
    drawn.line("A-FURN", PIT[1], PIT[3])
    assert openings(drawn) == ()


@pytest.mark.parametrize(
    ("count", "diameter", "found"),
    [(4, 20, 0), (3, 20, 3), (4, 31, 4)],
    ids=["signs", "few", "wide"],
)
def test_many_small_crossed_circles_alike_are_lamps_or_detectors(sheet, count, diameter, found):
    drawn = sheet()
    r = diameter / 2
    for n in range(count):
        x, y = 60 + 80 * n, 60
        drawn.space.add_circle((x, y), r, dxfattribs={"layer": "7"})
        s = r * 0.705
        drawn.line("7", (x - s, y - s), (x + s, y + s))
        drawn.line("7", (x - s, y + s), (x + s, y - s))
    assert len(openings(drawn)) == found
