"""The tables of a job file, and what a drawing holds, become one slab."""

import math
from itertools import pairwise

import pytest

from drawn_curves import box, box_ring
from kerfline.files.job_build import (
    bent_path,
    build_slab,
    column,
    distinct,
    edges,
    joint,
    penetration,
    ring,
    wall,
    zone,
)
from kerfline.files.job_schema import (
    ColumnTable,
    EdgeTable,
    JobFile,
    JointTable,
    PenetrationTable,
    WallTable,
    ZoneTable,
)
from kerfline.files.slab_parts import SlabParts
from kerfline.model.slab import Column, Penetration, Wall
from kerfline.units import Unit

SQUARE = [[0, 0], [9000, 0], [9000, 6000], [0, 6000]]


def table(model, /, **values):
    """A checked table of a job in millimetres."""
    return model.model_validate(values, context={"unit": Unit.MM})


def file(**tables):
    return table(
        JobFile,
        job={"name": "x", "units": "mm"},
        slab={"outline": SQUARE, "thickness": "100 mm", **tables.pop("slab", {})},
        **tables,
    )


def test_a_ring_drops_points_that_repeat():
    assert ring([(0, 0, 0), (9, 0, 0), (9, 0, 0), (9, 9, 0), (0, 0, 0)]).points == (
        (0, 0),
        (9, 0),
        (9, 9),
    )
    assert ring([(0, 0, 0), (9, 0, 0), (9, 9, 0)]).bulges == ()


def test_of_points_that_repeat_the_last_ones_bulge_counts():
    assert ring([(0, 0, 0), (9, 0, 0), (9, 0, 1), (9, 9, 0)]).bulges == (0, 1, 0)


def test_an_arc_of_a_line_is_flattened_and_one_of_no_length_is_not():
    points = bent_path([(0, 0, 1), (2000, 0, 0), (3000, 0, 0)])
    assert (points[0], points[-1]) == ((0, 0), (3000, 0))
    length = sum(math.dist(a, b) for a, b in pairwise(points))
    assert length == pytest.approx(math.pi * 1000 + 1000, rel=1e-3)
    assert bent_path([(0, 0, 1), (0, 0, 0)]) == [(0, 0), (0, 0)]


def test_a_line_drops_points_that_repeat_the_one_before():
    assert distinct([(0, 0), (0, 0), (5, 0), (0, 0)]) == ((0, 0), (5, 0), (0, 0))
    assert distinct([]) == ()


def test_a_wall_or_column_without_its_measure_has_the_usual_one():
    path = [[0, 0], [5000, 0]]
    plain = wall(table(WallTable, path=path), 3)
    assert (plain.id, plain.thickness) == ("W3", Wall(id="", path=()).thickness)
    assert wall(table(WallTable, path=path, id="A", thickness="200 mm"), 3).thickness == 200
    assert column(table(ColumnTable, at=[1, 2]), 1).size == Column(id="", at=(0, 0)).size
    hole = penetration(table(PenetrationTable, at=[1, 2], diameter="110 mm"), 2)
    assert (hole.id, hole.clear) == ("N2", Penetration(id="", at=(0, 0), diameter=1).clear)


def test_an_edge_without_a_segment_is_its_whole_ring():
    rings = [box_ring(0, 0, 9, 9)]
    said = table(EdgeTable, kind="isolated")
    assert [(e.ring, e.segment) for e in edges(said, rings)] == [(0, n) for n in range(4)]
    one = table(EdgeTable, kind="isolated", segment=2)
    assert [(e.ring, e.segment) for e in edges(one, rings)] == [(0, 2)]
    beyond = table(EdgeTable, kind="isolated", ring=5)
    assert [(e.ring, e.segment) for e in edges(beyond, rings)] == [(5, 0)]


def test_a_segment_that_is_named_of_its_own_is_left_out_of_its_ring():
    slab = build_slab(
        file(edge=[{"kind": "isolated"}, {"kind": "free", "segment": 1}]), SlabParts()
    )
    assert sorted((e.segment, e.kind.value) for e in slab.edges) == [
        (0, "isolated"),
        (1, "free"),
        (2, "isolated"),
        (3, "isolated"),
    ]


def test_the_files_own_outline_comes_before_the_drawings():
    drawn = SlabParts(
        outline=box_ring(0, 0, 5000, 5000), openings=(box_ring(1000, 1000, 900, 900),)
    )
    slab = build_slab(
        file(slab={"openings": [[list(p) for p in box(3000, 3000, 500, 500)]]}), drawn
    )
    assert slab.outline.points == tuple(map(tuple, SQUARE))
    assert [o.polygon.area for o in slab.openings] == [810000, 250000]


def test_a_thing_of_the_file_stands_in_place_of_the_drawings_of_its_name():
    drawn = SlabParts(columns=(Column(id="C1", at=(1000, 1000)), Column(id="C2", at=(2000, 1000))))
    given = file(column=[{"id": "C1", "at": [5000, 5000]}, {"at": [7000, 5000]}])
    found = {c.id: c.at for c in build_slab(given, drawn).columns}
    assert found == {"C1": (5000, 5000), "C2": (2000, 1000), "C4": (7000, 5000)}


def test_joints_and_zones_take_what_their_tables_say():
    said = joint(
        table(JointTable, path=[[0, 0], [5000, 0]], kind="construction", forbidden=True), 1
    )
    assert (said.id, said.kind.value, said.forbidden, said.path) == (
        "G1",
        "construction",
        True,
        ((0, 0), (5000, 0)),
    )
    made = zone(table(ZoneTable, outline=SQUARE, thickness="200 mm", joint_at_border=False), 4)
    assert (made.id, made.thickness, made.joint_at_border) == ("Z4", 200, False)
