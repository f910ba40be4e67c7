"""The scaled view: millimetres of the slab to millimetres of paper and back."""

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString

from views import view

places = st.floats(-1e5, 1e5)


@given(places, places, st.sampled_from([20.0, 96.0, 100.0]), st.floats(-45, 45))
def test_there_and_back_is_where_it_was(x, y, scale, turn):
    v = view(scale, turn)
    assert v.to_world(v.to_paper((x, y))) == pytest.approx((x, y), abs=1e-6)


def test_a_metre_at_one_to_a_hundred_is_a_centimetre():
    v = view()
    assert v.to_paper((1000, 2000)) == (60, 70)
    assert view(turn=90).to_paper((1000, 0)) == pytest.approx((50, 60)), "anticlockwise"
    assert v.points([(0, 0), (1000, 0)]) == ((50, 50), (60, 50))


def test_shapes_are_placed_as_points_are():
    v = view(96, 17)
    spot = (4321.0, -77.0)
    assert v.shape(shapely.Point(spot)).coords[0] == pytest.approx(v.to_paper(spot))


def test_what_reaches_beyond_the_window_is_cut_at_its_rim():
    v = view(window=(40, 40, 100, 100))
    cut = v.clipped(LineString([(-2000, 0), (9000, 0)]))
    assert cut.bounds == pytest.approx((40, 50, 100, 50))
    inside = v.clipped(LineString([(0, 0), (1000, 0)]))
    assert inside.bounds == pytest.approx((50, 50, 60, 50))


def test_what_may_show_is_found_by_its_bounds_and_told_with_what_does():
    v = view(window=(40, 40, 100, 100))
    lines = [LineString([(x, 0), (x, 9000)]) for x in (-5000, 0, 5000, 5001)]
    seen = v.among(lines, lambda line: line)
    assert [line.coords[0][0] for line, _ in seen] == [0, 5000]
    assert [part.length for _, part in seen] == pytest.approx([50, 50])
    assert v.among([], lambda line: line) == []
    assert v.sees(lines[2])
    assert not v.sees(lines[3])


def test_the_window_on_the_slab_holds_its_corners_however_it_is_turned():
    v = view(turn=30, window=(40, 40, 100, 100))
    x0, y0, x1, y1 = v.world_bounds
    for corner in ((40, 40), (100, 40), (100, 100), (40, 100)):
        x, y = v.to_world(corner)
        assert x0 - 1e-9 <= x <= x1 + 1e-9
        assert y0 - 1e-9 <= y <= y1 + 1e-9
