"""Corners of zones and keep-outs, moved, added and taken away."""

from dataclasses import replace

import pytest

from kerfline.app.area_corners import (
    add_area_corner,
    area_of,
    move_area_corner,
    remove_area_corner,
)
from kerfline.errors import InputRefused
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Zone
from shapes import workshop_slab

SQUARE = ((0, 0), (3000, 0), (3000, 3000), (0, 3000))
SLAB = replace(workshop_slab(), zones=(Zone(id="Z1", outline=Ring(SQUARE), thickness=150.0),))


def test_a_corner_of_a_zone_moves_and_nothing_else_does():
    moved = move_area_corner(SLAB, "zone", "Z1", 2, (3500, 3200))
    assert area_of(moved, "zone", "Z1").points == (SQUARE[0], SQUARE[1], (3500, 3200), SQUARE[3])
    assert moved.zones[0].thickness == 150.0
    assert replace(moved, zones=()) == replace(SLAB, zones=())


def test_a_corner_goes_in_the_middle_of_the_edge_that_is_named():
    more = add_area_corner(SLAB, "zone", "Z1", segment=1)
    assert area_of(more, "zone", "Z1").points == (*SQUARE[:2], (3000, 1500), *SQUARE[2:])


def test_a_corner_goes_where_it_was_tapped_brought_onto_the_edge():
    more = add_area_corner(SLAB, "zone", "Z1", at=(1000, 60))
    assert area_of(more, "zone", "Z1").points == (SQUARE[0], (1000, 0), *SQUARE[1:])


def test_a_keep_out_loses_a_corner_but_not_its_third():
    less = remove_area_corner(SLAB, "keep-out", "K1", 0)
    assert area_of(less, "keep-out", "K1").points == area_of(SLAB, "keep-out", "K1").points[1:]
    with pytest.raises(InputRefused, match="keep-out K1"):
        remove_area_corner(less, "keep-out", "K1", 0)


@pytest.mark.parametrize(
    ("kind", "name", "words"),
    [
        ("wall", "W1", "wall W1: this has no corners."),
        ("zone", "Z9", "Z9: there is no such zone."),
        ("moat", "M1", "there is no such kind of thing; found moat."),
    ],
)
def test_what_is_no_area_is_refused(kind, name, words):
    with pytest.raises(InputRefused) as refused:
        area_of(SLAB, kind, name)
    assert str(refused.value) == words
