"""What texts state of the rooms they stand in, in drawing units of any size."""

import numpy as np
import pytest

from kerfline.files.drawing.room_sizes import units_of_rooms


def lines(width, depth):
    """Four walls about the origin's right and up, and a table in the middle."""
    c = [(0, 0), (width, 0), (width, depth), (0, depth)]
    walls = [(*a, *b) for a, b in zip(c, [*c[1:], c[0]], strict=True)]
    x, y = width / 2, depth / 2
    return np.asarray([*walls, (x - 0.001, y - 0.001, x + 0.001, y - 0.001)], dtype=float)


def said(text, width, depth, at=(0.3, 0.4)):
    place = (at[0] * width, at[1] * depth)
    return units_of_rooms([(text, place)], lines(width, depth), max(width, depth))


@pytest.mark.parametrize(
    ("text", "width", "depth", "unit"),
    [
        ("BEDROOM 1\n12.5' x 13.5'", 12.5, 13.5, "ft"),
        ("BED 2 12'-6\" X 13'-6\"", 150, 162, "in"),
        ("12\u2032 6\u2033 \u00d7 13\u2032 6\u2033", 12.5, 13.5, "ft"),
        ("3,20 x 4,15 m", 3200, 4150, "mm"),
        ("3200 mm by 4150 mm", 320, 415, "cm"),
        ("13.5' x 12.5'", 12.5, 13.5, "ft"),
        ("Kitchen 24.4 m2", 4.96, 4.92, "m"),
        ("24,40 m\u00b2", 496, 492, "cm"),
        ("415 SF", 183, 324, "in"),
        ("Кухня 12.0 кв.м", 3000, 4000, "mm"),
    ],
)
def test_a_size_or_an_area_says_the_unit(text, width, depth, unit):
    assert said(text, width, depth) == {unit: 1}


@pytest.mark.parametrize(
    "text", ["12 x 13", "BEDROOM 1", "600x600 TILES", "M20 x 30 m deep", "0 m2", "5' 6\" high"]
)
def test_what_states_no_size_or_another_one_says_nothing(text):
    assert said(text, 12.0, 13.0) == {}


def test_sizes_are_held_against_both_sides():
    assert said("12' x 13'", 13.4, 11.0) == {"ft": 1}
    assert said("12' x 13'", 12.0, 8.0) == {}
    assert said("5 m2", 12.0, 10.0) == {"": 1}


def test_a_text_with_an_open_side_stands_in_no_room():
    assert said("12' x 13'", 12.0, 13.0, at=(1.2, 0.5)) == {}


def test_furniture_is_no_wall():
    room = lines(12.0, 13.0)
    table = [[5, 5, 5.3, 5], [5.3, 5, 5.3, 6], [5, 5, 5, 6], [5, 6, 5.3, 6]]
    both = np.vstack([room, np.asarray(table, dtype=float)])
    assert units_of_rooms([("12' x 13'", (5.1, 5.5))], both, 50.0) == {"ft": 1}
