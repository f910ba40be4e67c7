"""The corners that tapes are held at."""

import math

import pytest
import shapely

from kerfline.geometry.ring import circle
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.edges import form_edges
from kerfline.sheets.pegs import CROSSING, LEAN, LETTERS, Pegs, TieSpot

HALL = shapely.box(0, 0, 12000, 8000)
BASE = Baselines(origin=(0, 0), turn=0.0, corner=True)
EDGES = form_edges(HALL)
LOWER = next(e for e in EDGES if {(0, 0), (12000, 0)} == set(e.points))


def pegs():
    return Pegs(EDGES, BASE)


def spot(at, **more):
    return TieSpot(line="J1", at=at, inward=(0, 1), **more)


def test_a_point_on_a_straight_edge_is_taped_from_a_corner_that_has_its_letter():
    mine = pegs()
    assert mine.on_edge(spot((9000, 0), edge=LOWER)) == ((0, 0),), "A is there already"
    assert mine.on_edge(spot((9000, 0))) == ()


def test_a_round_edge_has_no_corner_to_tape_from():
    (ring,) = form_edges(circle((0, 0), 3000).polygon)
    assert Pegs([ring], BASE).on_edge(spot((3000, 0), edge=ring)) == ()


def test_a_tape_meets_the_line_that_a_point_lies_on_steeply():
    """From 0, 0 to 4000, 3000 a tape leans 37 degrees against a level line."""
    assert pegs().on_line(spot((4000, 3000), carrier=(1.0, 0.0))) == ((0, 0),)
    flat = pegs().on_line(spot((9000, 1000), carrier=(0.0, 1.0)))
    (corner,) = flat
    lean = math.degrees(math.atan2(abs(9000 - corner[0]), abs(1000 - corner[1])))
    assert lean <= LEAN
    assert pegs().on_line(spot((4000, 3000))) == ()


def test_two_tapes_cross_at_no_flat_angle():
    first, second = pegs().crossing(spot((6000, 1000)))
    ways = [math.degrees(math.atan2(1000 - y, 6000 - x)) % 180 for x, y in (first, second)]
    apart = abs(ways[0] - ways[1])
    assert min(apart, 180 - apart) >= CROSSING


def test_letters_go_round_the_edges_from_a_on_and_only_to_corners_that_are_used():
    mine = pegs()
    mine.on_edge(spot((12000, 6000), edge=next(e for e in EDGES if e.points[0] == (12000, 0))))
    lettered = {peg.letter: at for at, peg in mine.lettered("A").items()}
    assert lettered["A"] == (0, 0)
    assert set(lettered) == {"A", "B"}
    assert {peg.letter for peg in mine.lettered("A2").values()} == {"A2", "B2"}


@pytest.mark.parametrize("letter", ["A", "J", "P", "C", "W", "N", "K", "O", "I", "Z", "G", "F"])
def test_letters_that_tags_begin_with_are_left_out(letter):
    assert letter not in LETTERS
    assert len(set(LETTERS)) == len(LETTERS)
