"""Labels find room off lines and off each other."""

import itertools

import numpy as np
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon

from kerfline.sheets.lettering import text_corners
from kerfline.sheets.marks import Anchor, Layer, Text
from kerfline.sheets.placer import Placer, Spot, spread


def tag(x, y, turn=0.0, text="J12 CTLJ"):
    return Text(layer=Layer.TAG, at=(x, y), text=text, height=2.5, anchor=Anchor.MIDDLE, turn=turn)


places = st.tuples(st.floats(5, 95), st.floats(5, 95), st.floats(0, 360))


@given(st.lists(places, max_size=60))
def test_labels_that_found_room_never_overlap(wished):
    placer = Placer((0, 0, 100, 100))
    taken = [s for x, y, turn in wished if (s := placer.place([Spot(tag(x, y, turn))]))]
    boxes = [Polygon(text_corners(s.text)) for s in taken]
    found = np.array(boxes, dtype=object)
    hits = shapely.STRtree(boxes).query(found, predicate="intersects")
    assert np.all(hits[0] == hits[1])
    assert all(shapely.box(0, 0, 100, 100).covers(b) for b in boxes)


@given(st.lists(places, max_size=20))
def test_labels_keep_off_lines(wished):
    line = LineString([(0, 20), (100, 70)])
    placer = Placer((0, 0, 100, 100), [line])
    for x, y, turn in wished:
        spot = placer.place([Spot(tag(x, y, turn))])
        assert spot is None or not Polygon(text_corners(spot.text)).intersects(line)


def test_the_first_free_spot_is_taken():
    placer = Placer((0, 0, 100, 100))
    spots = [Spot(tag(50, 50)), Spot(tag(50, 60))]
    assert placer.place(spots) == spots[0]
    assert placer.place(spots) == spots[1]
    assert placer.place(spots) is None


def test_however_many_spots_are_looked_at_at_once_the_first_free_one_is_taken():
    """The first spots lie on a line, the next on a label that stands, and only the 70th is free."""
    placer = Placer((0, 0, 200, 100), [LineString([(0, 50), (200, 50)])])
    placer.reserve_text([tag(100, 80)])
    spots = [Spot(tag(100.0, 50.0 - 0.001 * n)) for n in range(40)]
    spots += [Spot(tag(100.0, 80.0 + 0.001 * n)) for n in range(29)]
    free = [Spot(tag(100.0, y)) for y in (20.0, 30.0)]
    looked = iter([*spots, *free])
    assert placer.place(looked) is free[0]


def test_a_label_goes_on_hatching_only_where_nothing_else_is_free():
    placer = Placer((0, 0, 100, 100), soft=[shapely.box(0, 0, 100, 55)])
    spots = [Spot(tag(50, 30)), Spot(tag(50, 80))]
    assert placer.place(spots) == spots[1]
    assert placer.place(spots) == spots[0]


def test_a_leader_does_not_cross_a_label():
    placer = Placer((0, 0, 100, 100))
    assert placer.place([Spot(tag(50, 50))])
    assert placer.place([Spot(tag(50, 70), ((50, 40), (50, 69)))]) is None


@given(st.lists(st.floats(0, 300), min_size=1, max_size=40), st.floats(0.5, 10))
def test_spread_positions_keep_their_gap_and_their_order(wished, gap):
    wished = sorted(wished)
    seats = spread(wished, gap)
    assert all(b - a >= gap - 1e-6 for a, b in itertools.pairwise(seats))


@given(st.lists(st.integers(0, 30), min_size=1, max_size=20, unique=True))
def test_positions_far_enough_apart_stay_where_they_are(steps):
    wished = [10.0 * s for s in sorted(steps)]
    assert np.allclose(spread(wished, 4.0), wished)
