"""Closed curves in a slab: openings, and what is none."""

import pytest

from drawn_curves import box, box_ring, closed, line
from kerfline.files.drawing.openings import MOST_UNNAMED, gap_notes, inner_rings, read_openings
from kerfline.geometry.paths import Path
from kerfline.geometry.regions import enclosed
from kerfline.units import Display

METRIC = Display.METRIC
SLAB = box_ring(0, 0, 12000, 9000)


def read(*rings, outline=SLAB):
    return read_openings([closed("OPNG", *box(*r)) for r in rings], outline, METRIC)


def inner(rings, layer="SLAB", more=()):
    """The openings among rings that are drawn within the slab on one layer."""
    curves = [closed(layer, *SLAB.points), *(closed(layer, *r.points) for r in rings), *more]
    return inner_rings(SLAB, rings, curves, METRIC)


def test_a_ring_in_the_slab_is_an_opening():
    found, notes = read((1000, 1000, 900, 600))
    assert [o.polygon.area for o in found] == [540000]
    assert notes == ()


@pytest.mark.parametrize(("side", "count"), [(100.0, 1), (99.9, 0)])
def test_less_than_a_tenth_of_a_metre_square_is_a_mark(side, count):
    found, notes = read((1000, 1000, side, side))
    assert len(found) == count
    assert len(notes) == 1 - count


def test_outside_the_slab_it_is_left_out_and_told():
    found, notes = read((20000, 0, 900, 900))
    assert found == ()
    assert notes == ("Left out: an opening at (20450 mm, 450 mm), which lies outside the slab.",)
    assert len(read((20000, 0, 900, 900), outline=None)[0]) == 1


def test_a_ring_within_an_opening_is_none():
    found, notes = read((1000, 1000, 3000, 3000), (2000, 2000, 500, 500))
    assert len(found) == 1
    assert notes == ("Left out: a closed curve at (2250 mm, 2250 mm) within an opening.",)


def test_a_gap_that_was_closed_is_told_for_the_rings_that_are_used():
    path = Path(((0, 0), (3000, 0), (3000, 2000), (0, 2000), (0, 10)))
    found = enclosed([path], 25.4)
    (note,) = gap_notes(found, found.rings, METRIC)
    assert note.startswith("Closed a gap of 10 mm in an outline at (0 mm, ")
    assert gap_notes(found, [box_ring(9000, 9000, 10, 10)], METRIC) == []


def test_rings_on_a_layer_named_for_the_slab_are_openings():
    found, notes = inner([box_ring(1000, 1000, 900, 900), box_ring(5000, 5000, 900, 900)])
    assert (len(found), notes) == (2, [])


@pytest.mark.parametrize(("width", "opening"), [(6470.0, True), (6490.0, False)])
def test_more_than_six_tenths_of_the_slab_is_a_line_along_its_edge(width, opening):
    found, notes = inner([box_ring(1000, 1000, 10000, width)])
    assert bool(found) is opening
    assert any("just inside the outline" in n for n in notes) is not opening


def test_a_ring_against_the_edge_or_another_opening_is_none():
    assert "lies against the slab's edge" in inner([box_ring(0, 1000, 900, 900)])[1][0]
    found, notes = inner([box_ring(1000, 1000, 900, 900), box_ring(1900, 1000, 500, 500)])
    assert len(found) == 1
    assert notes == [
        "Left out: a closed curve at (2150 mm, 1250 mm) in, over or against an opening."
    ]


def test_outlines_beside_the_slab_are_counted():
    beside = [box_ring(20000 + 5000 * i, 0, 4000, 4000) for i in range(3)]
    found, notes = inner(beside)
    assert found == ()
    assert notes[0].startswith("There is another closed outline, 16.00 m2 at (22000 mm, 2000 mm)")
    assert notes[1] == "3 closed outlines beside the largest one were left out in all."
    assert len(inner(beside[:1])[1]) == 1


def test_the_faces_of_walls_are_no_openings():
    room = box_ring(1000, 1000, 3000, 3000)
    found, notes = inner([room], more=[closed("A-WALL", *room.points)])
    assert found == ()
    assert "Left out: 1 closed curve of walls, no openings." in notes


@pytest.mark.parametrize(("count", "kept"), [(MOST_UNNAMED, MOST_UNNAMED), (MOST_UNNAMED + 1, 0)])
def test_many_curves_on_a_layer_of_any_name_are_a_pattern(count, kept):
    rings = [box_ring(500 + 800 * (i % 7), 500 + 1500 * (i // 7), 200, 200) for i in range(count)]
    assert len(inner(rings, layer="0")[0]) == kept


@pytest.mark.parametrize(("lines", "count"), [(3, 1), (4, 0)])
def test_more_than_three_lines_in_it_draw_a_thing(lines, count):
    more = [line("0", (1200 + 100 * i, 1300), (1200 + 100 * i, 1700)) for i in range(lines)]
    found, notes = inner([box_ring(1000, 1000, 1000, 1000)], layer="0", more=more)
    assert len(found) == count
    assert any("taken for rooms" in n for n in notes) is (count == 0)
