"""Cuts in one line become saw passes whose ends lie on what they end on."""

from dataclasses import replace

import pytest
from shapely import LineString, box

from kerfline.engine.finish import closed, saw_passes
from kerfline.engine.measure.score import panels_between
from kerfline.engine.regions.region import Cut
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind


def cut(*path, reason=Reason.SPAN, **more):
    return Cut(path=tuple((float(x), float(y)) for x, y in path), reason=reason, note="", **more)


FIRST, SECOND = cut((0, 500), (1000, 500)), cut((1000, 500), (2500, 500))


def test_two_pieces_that_meet_end_to_end_are_one_pass():
    assert [c.path for c in saw_passes([SECOND, FIRST])] == [((0.0, 500.0), (2500.0, 500.0))]


def test_a_pass_takes_its_strongest_reason():
    under = replace(SECOND, reason=Reason.WALL)
    assert [c.reason for c in saw_passes([FIRST, under])] == [Reason.WALL]


@pytest.mark.parametrize(
    "other",
    [
        replace(SECOND, kind=JointKind.CONSTRUCTION),
        replace(SECOND, depth=30.0),
        cut((1000, 500), (1000, 2000)),
        cut((1001, 500), (2500, 500)),
        cut((1000, 501), (2500, 501)),
        cut((1000, 500), (2500, 502)),
    ],
    ids=["another kind", "another depth", "square", "a gap", "beside", "aslant"],
)
def test_what_differs_stays_a_pass_of_its_own(other):
    assert len(saw_passes([FIRST, other])) == 2


def test_a_slanted_line_is_joined_as_one_along_an_axis():
    pieces = [cut((0, 0), (300, 400)), cut((300, 400), (900, 1200))]
    assert [c.path for c in saw_passes(pieces)] == [((0.0, 0.0), (900.0, 1200.0))]


FLOOR = box(0, 0, 6000, 4000)


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
