"""A wall under half a span only wishes for a joint, unless pieces in line with it make it long."""

import pytest

from kerfline.engine.regions.short_walls import DOORWAY, short_walls
from kerfline.units import MM_PER_FOOT
from unit.engine.plans import wall

SPAN = 10 * MM_PER_FOOT
DOOR = DOORWAY / MM_PER_FOOT


def test_half_a_span_is_long_enough_and_less_is_not():
    walls = [wall("long", (0, 0), (5, 0)), wall("short", (0, 8), (4.9, 8))]
    assert short_walls(walls, SPAN) == {"short"}


@pytest.mark.parametrize(
    ("start", "end", "short"),
    [
        ((3 + DOOR - 0.1, 0), (5.5 + DOOR, 0), set()),
        ((3 + DOOR + 0.1, 0), (5.7 + DOOR, 0), {"A", "B"}),
        ((4, 1), (6.5, 1), {"A", "B"}),
        ((4, 0), (4, 2.5), {"A", "B"}),
    ],
    ids=["a doorway apart", "farther apart", "out of line", "square to it"],
)
def test_pieces_in_line_with_a_doorway_between_them_are_one_wall(start, end, short):
    assert short_walls([wall("A", (0, 0), (3, 0)), wall("B", start, end)], SPAN) == short
