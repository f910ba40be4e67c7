"""What the page draws of a slab, as plain data."""

import json
from dataclasses import replace

import pytest
from shapely import LineString, Polygon

from kerfline.geometry.ring import Ring
from kerfline.model.slab import Boxout, Column, Edge, EdgeKind, Zone
from kerfline.units import Display
from kerfline.web.slab_picture import point_of, points_of, ring_points, rings_data, slab_data
from shapes import workshop_slab

SLAB = replace(
    workshop_slab(),
    zones=(Zone(id="Z1", outline=Ring(((0, 0), (900, 0), (900, 900))), thickness=150.0),),
    edges=(Edge(ring=1, segment=3, kind=EdgeKind.TURNDOWN),),
)
DATA = slab_data(SLAB, Display.FEET_INCHES)


def test_everything_that_stands_on_it_is_told_once():
    for key, things in (
        ("walls", SLAB.walls), ("columns", SLAB.columns), ("penetrations", SLAB.penetrations),
        ("zones", SLAB.zones), ("keepOuts", SLAB.keep_outs),
    ):  # fmt: skip
        assert [each["id"] for each in DATA[key]] == [thing.id for thing in things]
    assert len(DATA["openings"]) == 1
    assert json.loads(json.dumps(DATA)) == DATA, "plain data"


def test_lengths_are_words_in_the_unit_of_the_job():
    assert DATA["thickness"] == '4"'
    assert DATA["penetrations"][0]["size"] == '4"'
    assert DATA["penetrations"][0]["radius"] == 50.8
    metric = slab_data(SLAB, Display.METRIC)
    assert (metric["thickness"], metric["zones"][0]["thickness"]) == ("102 mm", "150 mm")


def test_an_edge_that_is_no_plain_one_runs_from_its_point_to_the_next_round_the_ring():
    ring = SLAB.openings[0].points
    assert DATA["edges"] == [{"kind": "turndown", "path": points_of((ring[3], ring[0]))}]


def test_rings_with_corners_come_outline_first():
    rings = rings_data(SLAB, Display.FEET_INCHES)
    assert [(r["what"], r["id"]) for r in rings] == [
        ("outline", "outline"), ("opening", "1"), ("zone", "Z1"), ("keep-out", "K1"),
    ]  # fmt: skip
    opening = rings[1]
    assert (opening["left"], opening["bottom"]) == ("40'-0\"", "4'-0\"")
    assert opening["corners"][0]["x"] == "40'-0\""


def test_a_column_without_a_boxout_has_no_outline():
    column = Column(id="C9", at=(0, 0), boxout=Boxout.NONE)
    data = slab_data(replace(SLAB, columns=(column,)), Display.METRIC)["columns"]
    assert data == [{"id": "C9", "at": [0, 0], "outline": [], "boxout": "none", "size": "610 mm"}]


@pytest.mark.parametrize("points", [[(1.234, 5.678)], LineString([(1.234, 5.678), (1.234, 9)])])
def test_places_are_told_to_a_hundredth_of_a_millimetre(points):
    assert points_of(points)[0] == [1.23, 5.68]
    assert point_of((1.005, -1.996)) == [round(1.005, 2), -2.0]


def test_a_polygon_is_told_by_its_outer_corners_and_none_by_nothing():
    assert ring_points(Polygon([(0, 0), (2, 0), (2, 2)])) == [[0, 0], [2, 0], [2, 2]]
    assert ring_points(Polygon()) == []
