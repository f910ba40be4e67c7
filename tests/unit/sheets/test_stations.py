"""Which offsets along the baselines a crew needs."""

from dataclasses import replace

import pytest

from kerfline.geometry.ring import Ring
from kerfline.model.slab import Slab
from kerfline.sheets.baselines import Baselines
from kerfline.sheets.stations import (
    CORNER,
    EXTENT,
    JOINT,
    OPENING,
    PLACE,
    Station,
    departure,
    stations,
    thinned,
)
from kerfline.units import Display
from shapes import workshop_layout

BASE = Baselines(origin=(0, 0), turn=0.0, corner=True)
BOX = Ring(((0, 0), (12000, 0), (12000, 8000), (0, 8000)))
CONTROL = workshop_layout().joints[0]


def found(*lines, slab=None):
    joints = tuple(replace(CONTROL, id=f"J{n}", path=path) for n, path in enumerate(lines, 1))
    layout = replace(workshop_layout(), joints=joints)
    return stations(slab or Slab(outline=BOX, thickness=100), layout, BASE)


def offsets(part):
    return [round(s.offset, 1) for s in part]


def test_square_joints_have_a_station_on_the_baseline_that_they_are_square_to():
    along, across = found(((4000, 0), (4000, 8000)), ((0, 3000), (12000, 3000)))
    assert offsets(along) == [0, 4000, 12000]
    assert offsets(across) == [0, 3000, 8000]
    assert [s.rank for s in along] == [EXTENT, JOINT, EXTENT]
    assert along[1].spans == ((0.0, 8000.0),)


def test_a_slanting_joint_has_one_where_it_ends_on_a_baseline_and_only_there():
    along, across = found(((4000, 0), (9000, 8000)))
    assert offsets(along) == [0, 4000, 12000]
    assert along[1].here
    assert offsets(across) == [0, 8000]


@pytest.mark.parametrize(("apart", "count"), [(PLACE - 0.1, 3), (PLACE + 0.1, 4)])
def test_lines_nearer_than_they_can_be_placed_share_one(apart, count):
    along, _ = found(((4000, 0), (4000, 8000)), ((4000 + apart, 0), (4000 + apart, 2000)))
    assert len(along) == count
    assert 4000 in offsets(along), "the longer joint's"


def test_corners_and_openings_rank_after_joints():
    slab = Slab(
        outline=Ring(((0, 0), (12000, 0), (12000, 5000), (7000, 5000), (7000, 8000), (0, 8000))),
        thickness=100, openings=(Ring(((1000, 1000), (2000, 1000), (2000, 2000), (1000, 2000))),),
    )  # fmt: skip
    along, _ = found(slab=slab)
    assert {offset: s.rank for offset, s in zip(offsets(along), along, strict=True)} == {
        0: EXTENT, 1000: OPENING, 2000: OPENING, 7000: CORNER, 12000: EXTENT,
    }  # fmt: skip


def test_a_bent_joint_is_measured_by_its_long_legs_and_a_curve_by_none():
    jog = ((4000, 0), (4000, 3000), (4100, 3100), (4100, 8000))
    along, across = found(jog)
    assert offsets(along) == [0, 4000, 4100, 12000]
    assert offsets(across) == [0, 8000], "the short leg slants"
    curve = ((4000, 0), (4100, 2000), (4400, 4000), (4900, 6000), (5600, 8000))
    assert offsets(found(curve)[0]) == [0, 4000, 12000]


def test_a_surveyed_edge_departs_from_the_line_that_was_meant():
    surveyed = Ring(((0, 0), (12000, 6), (12000, 8000), (0, 8000)))
    layout = replace(workshop_layout(), joints=())
    assert departure(Slab(outline=BOX, thickness=100), layout, BASE) == 0
    assert departure(Slab(outline=surveyed, thickness=100), layout, BASE) == pytest.approx(6)


def ranked(*ranks):
    return [Station(1000.0 * n, rank) for n, rank in enumerate(ranks)]


def test_where_there_is_no_room_all_openings_go_then_all_corners_and_the_ends_stay():
    some = ranked(EXTENT, OPENING, JOINT, CORNER, OPENING, JOINT, EXTENT)

    def kept(room):
        return [s.rank for s in thinned(some, Display.METRIC, room)]

    assert kept(7) == [s.rank for s in some]
    assert kept(6) == [EXTENT, JOINT, CORNER, JOINT, EXTENT]
    assert kept(4) == [EXTENT, JOINT, JOINT, EXTENT]
    assert kept(3) == [EXTENT, JOINT, EXTENT]


def test_of_two_that_read_alike_the_joint_stays():
    (one,) = thinned([Station(1000.2, CORNER), Station(1000.4, JOINT)], Display.METRIC, 9)
    assert one.rank == JOINT


def test_a_station_reaches_between_two_places_where_something_at_it_does():
    station = Station(0.0, JOINT, spans=((10.0, 20.0),))
    assert station.reaches(20.0, 30.0)
    assert not station.reaches(20.1, 30.0)
