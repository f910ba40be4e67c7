"""Blocks flow down columns, region by region."""

from kerfline.sheets.flow import BLOCK_GAP, COLUMN_GAP, LONG, Region, fill, fill_around
from kerfline.sheets.marks import Board


class Brick:
    """A block of a width and a height that notes where it is drawn; one that may be split is cut at any height."""

    def __init__(self, name, width, tall, *, whole=True):
        self.name, self.width, self.tall, self.whole, self.drawn = name, width, tall, whole, []

    def height(self, width):
        return self.tall

    def split(self, width, room):
        if self.tall <= room:
            return self, None
        if self.whole or room <= 0:
            return None, self
        rest = Brick(f"{self.name}+", self.width, self.tall - room, whole=False)
        part = Brick(self.name, self.width, room, whole=False)
        part.drawn = self.drawn
        return part, rest

    def draw(self, board, at, width):
        self.drawn.append((at, width))


REGION = Region(0.0, 0.0, 100.0, 100.0)


def test_blocks_go_down_and_then_into_the_next_column():
    a, b, c = Brick("a", 40, 50), Brick("b", 30, 40), Brick("c", 40, 50)
    assert fill(Board(), REGION, [a, b, c]) == []
    assert a.drawn == [((0, 100), 40)]
    assert b.drawn == [((0, 100 - 50 - BLOCK_GAP), 40)], "as wide as its column"
    assert c.drawn == [((40 + COLUMN_GAP, 100), 40)]


def test_what_finds_no_room_comes_back_in_order():
    a, b, c = Brick("a", 60, 90), Brick("b", 60, 90), Brick("c", 10, 10)
    assert fill(Board(), REGION, [a, b, c]) == [b, c]
    assert fill(Board(), REGION, [Brick("w", 101, 5)])[0].name == "w"


def test_a_block_that_may_be_split_fills_its_column_and_goes_on_in_the_next():
    a = Brick("a", 40, 150, whole=False)
    assert fill(Board(), REGION, [a]) == []
    assert a.drawn == [((0, 100), 40)]


def test_a_block_taller_than_the_region_comes_back_rather_than_turn_for_ever():
    tall = Brick("t", 40, 101)
    assert fill(Board(), REGION, [tall]) == [tall]


def test_beside_a_plan_each_goes_into_the_first_region_that_holds_it_whole():
    low, high = Region(0, 0, 100, 30), Region(0, 40, 100, 100)
    a, b = Brick("a", 40, 50), Brick("b", 40, 20)
    assert fill_around(Board(), [low, high], [a, b]) == []
    assert a.drawn == [((0, 100), 40)]
    assert b.drawn == [((0, 30), 40)]


def test_a_whole_table_goes_to_another_sheet_and_a_list_begins_here():
    whole, loose = Brick("w", 40, 120), Brick("l", 40, 120, whole=False)
    assert fill_around(Board(), [REGION], [whole]) == [whole]
    (rest,) = fill_around(Board(), [REGION], [loose])
    assert (rest.name, rest.tall) == ("l+", 20)


def test_only_one_block_is_begun_on_a_sheet():
    first, second = (Brick(n, 40, 120, whole=False) for n in "ab")
    left = fill_around(Board(), [REGION], [first, second])
    assert [block.name for block in left] == ["a+", "b"]


def test_a_table_of_more_than_four_columns_is_split_wherever_it_begins():
    longest = Brick("x", 10, LONG * 100)
    longer = Brick("y", 10, LONG * 100 + 1)
    longer.split = lambda width, room: (Brick("y", 10, room), Brick("y+", 10, longer.tall - room))
    assert fill_around(Board(), [REGION], [longest])[0] is longest
    assert fill_around(Board(), [REGION], [longer])[0].name == "y+"
