"""Ends that are a hair short are brought onto what they end on, and the panels then close."""

import pytest
from shapely import LineString, box

from kerfline.engine.finish.closing import closed, panels_between
from kerfline.engine.regions.region import Cut
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.layout import Reason

FLOOR = box(0, 0, 6000, 4000)


def cut(*path):
    return Cut(path=tuple((float(x), float(y)) for x, y in path), reason=Reason.SPAN, note="")


def test_an_end_just_short_of_the_edge_is_drawn_on_to_it():
    short = cut((3000, TOUCH), (3000, 4000))
    assert closed([short], FLOOR)[0].path == ((3000.0, 0.0), (3000.0, 4000.0))


def test_an_end_just_past_another_joint_is_brought_back_to_it():
    through, stub = cut((3000, 0), (3000, 4000)), cut((0, 2000), (3000 + TOUCH, 2000))
    assert closed([through, stub], FLOOR)[1].path[1] == pytest.approx((3000.0, 2000.0))


def test_an_end_in_the_open_stays_where_it_is():
    stub = cut((0, 2000), (2500, 2000))
    assert closed([stub], FLOOR)[0].path == stub.path


def test_panels_close_where_a_joint_is_a_hair_short():
    halves = panels_between(FLOOR, [LineString([(2000, TOUCH / 2), (2000, 4000)])])
    assert [p.area for p in halves] == pytest.approx([8e6, 16e6])


def test_a_joint_that_stops_in_the_open_parts_nothing():
    assert len(panels_between(FLOOR, [LineString([(2000, 500), (2000, 4000)])])) == 1
