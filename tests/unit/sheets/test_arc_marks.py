"""Curves of the edge on the plan: radius and centre, told once, and where joints end on them."""

import pytest
import shapely

from kerfline.geometry.ring import Ring, circle
from kerfline.model.slab import Slab
from kerfline.sheets.arc_marks import label_curves
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.curves import LEAST_RADIUS, curves
from kerfline.sheets.marks import Board, Layer
from kerfline.units import Display
from views import maker_on, paths, texts

BASE = Baselines(origin=(0, 0), turn=0.0, corner=True)
ROUND = Ring(((0, 0), (8000, 0), (8000, 6000), (0, 6000)), (0, 1.0, 0, 0))
"""A slab that ends in a half circle of 3 m about 8, 3 m."""

LINES = [("J1", ((0, 3000), (11000, 3000)))]
"""A joint that ends half way along it, a quarter of a turn from where it begins: pi/2 x 3 m = 4712 mm."""


def said(slab, **more):
    board = Board()
    maker = maker_on(board, display=Display.METRIC, **more)
    label_curves(maker, curves(slab, BASE), LINES, BASE)
    return texts(board), board


def test_a_curve_has_its_radius_and_where_its_centre_lies_and_a_cross_there():
    words, board = said(Slab(outline=ROUND, thickness=100))
    assert words == ["R1 = 3000, centre 8000 right, 3000 up", "arc 4712"]
    crosses = paths(board, Layer.SYMBOL)
    assert len(crosses) == 2
    assert all(
        shapely.LineString(m.points).distance(shapely.Point(130, 80)) < 1e-9 for m in crosses
    )


def test_two_arcs_of_one_circle_are_told_once():
    slab = Slab(outline=ROUND, thickness=100, openings=(circle((3000, 3000), 1000),))
    assert sum(" = 1000" in words for words in said(slab)[0]) == 1


@pytest.mark.parametrize(("radius", "told"), [(LEAST_RADIUS - 1, 0), (LEAST_RADIUS + 1, 1)])
def test_a_rounded_corner_is_no_curve(radius, told):
    slab = Slab(
        outline=Ring(((0, 0), (9000, 0), (9000, 6000), (0, 6000))),
        thickness=100,
        openings=(circle((3000, 3000), radius),),
    )
    assert sum(" = " in words for words in said(slab)[0]) == told
