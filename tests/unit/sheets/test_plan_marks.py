"""The slab and its joints as marks."""

from dataclasses import replace

import pytest
import shapely
from shapely import LineString

from kerfline.geometry.ring import Ring
from kerfline.model.slab import Edge, EdgeKind, JointKind, Slab, Wall
from kerfline.sheets.marks import Layer, Path
from kerfline.sheets.plan_labels import path_line
from kerfline.sheets.plan_marks import (
    SMALLEST_HOLE,
    TICK_PITCH,
    cross_ticks,
    edge_beside,
    edge_line,
    elsewhere,
    joint_layer,
    opening_cross,
    rings_of,
    slab_marks,
    thickened_lines,
)
from shapes import feet, workshop_layout, workshop_slab
from views import view

SLAB, LAYOUT = workshop_slab(), workshop_layout()


def refs(marks, layer):
    return {m.ref for m in marks if m.layer is layer}


def test_everything_of_the_slab_lies_on_its_layer():
    marks = slab_marks(SLAB, LAYOUT, view())
    assert refs(marks, Layer.EDGE) == {"slab edge"}
    assert refs(marks, Layer.OPENING) == {"opening 1"}
    assert refs(marks, Layer.WALL) == {"W1", "W2", "W3"}
    assert refs(marks, Layer.PENETRATION) == {"N1"}
    assert refs(marks, Layer.KEEP_OUT) == {"K1"}
    assert refs(marks, Layer.ISOLATION) == {"C1", "C2", "C3"}
    control = {j.id for j in LAYOUT.joints if j.kind is JointKind.CONTROL}
    assert refs(marks, Layer.CONTROL) == control
    assert len(refs(marks, Layer.CONSTRUCTION)) == len(LAYOUT.joints) - len(control)


def test_joints_are_drawn_at_scale_and_only_where_the_window_shows_them():
    small = view(window=(50, 50, 100, 100))
    for mark in slab_marks(SLAB, LAYOUT, small):
        if isinstance(mark, Path) and mark.layer is Layer.CONTROL:
            assert all(50 - 1e-6 <= c <= 100 + 1e-6 for point in mark.points for c in point)
    whole = sum(
        path_line(m).length for m in slab_marks(SLAB, LAYOUT, view()) if m.layer is Layer.CONTROL
    )
    control = sum(j.length for j in LAYOUT.joints if j.kind is JointKind.CONTROL)
    assert whole == pytest.approx(control / 100)


def test_on_an_amended_plan_additions_and_what_exists_have_layers_of_their_own():
    amended = replace(LAYOUT, added=frozenset({"J1"}))
    first, second = LAYOUT.joints[:2]
    assert joint_layer(first, LAYOUT) is Layer.CONTROL
    assert joint_layer(first, amended) is Layer.CONTROL_NEW
    assert joint_layer(second, amended) is Layer.CONTROL_EXISTING


def test_a_hole_is_never_drawn_smaller_than_a_dot():
    (ring,) = [
        m for m in slab_marks(SLAB, LAYOUT, view(1000)) if m.layer is Layer.PENETRATION and m.closed
    ]
    assert ring.points[1][0] - ring.points[0][0] == pytest.approx(2 * SMALLEST_HOLE)


@pytest.mark.parametrize(
    ("length", "ticks"), [(TICK_PITCH - 0.1, 0), (TICK_PITCH, 1), (3.5 * TICK_PITCH, 3)]
)
def test_ticks_stand_square_across_a_bulkhead_about_its_middle(length, ticks):
    marks = list(cross_ticks(LineString([(0, 0), (length, 0)])))
    assert len(marks) == ticks
    places = [m.points[0][0] for m in marks]
    assert all(m.points[0][0] == pytest.approx(m.points[1][0]) for m in marks)
    if places:
        assert sum(places) / len(places) == pytest.approx(length / 2)


def test_the_line_beside_an_edge_lies_off_the_concrete():
    for ring, segment in ((0, 0), (0, 3), (1, 0), (1, 2)):
        edge = Edge(ring=ring, segment=segment, kind=EdgeKind.ISOLATED)
        beside = edge_beside(SLAB, edge, 100.0)
        assert beside.length == pytest.approx(edge_line(SLAB, edge).length)
        middle = beside.interpolate(0.5, normalized=True)
        assert SLAB.gross.distance(middle) == pytest.approx(100.0)


def test_a_turned_edge_and_a_strip_show_their_inner_lines_alone():
    slab = replace(
        SLAB,
        walls=(Wall(id="W1", path=feet((0, 12), (36, 12)), strip_width=600.0, strip_depth=300.0),),
        edges=(Edge(ring=0, segment=0, kind=EdgeKind.TURNDOWN, width=300.0, depth=450.0),),
    )
    found = dict(thickened_lines(slab))
    assert set(found) == {"W1", "edge 0.0"}
    ys = {round(y) for _, y in found["edge 0.0"].coords}
    assert 300 in ys


def test_diagonals_of_an_opening_run_from_corner_to_corner_within_it():
    lines = opening_cross(shapely.box(0, 0, 40, 30))
    assert [line.length for line in lines] == pytest.approx([50, 50])
    ell = shapely.Polygon([(0, 0), (40, 0), (40, 10), (10, 10), (10, 30), (0, 30)])
    assert all(ell.buffer(1e-6).covers(line) for line in opening_cross(ell))


def test_concrete_of_other_sheets_is_toned_and_no_other():
    slab = Slab(outline=Ring(((0, 0), (9000, 0), (9000, 4000), (0, 4000))), thickness=100)
    (fill,) = elsewhere(slab, shapely.box(0, 0, 5000, 4000), view())
    xs = [x for x, _ in fill.rings[0]]
    assert (min(xs), max(xs)) == (pytest.approx(100, abs=0.01), 140)


def test_rings_as_points():
    holed = shapely.box(0, 0, 9, 9).difference(shapely.box(3, 3, 6, 6))
    outer, inner = rings_of(holed)
    assert (len(outer), len(inner)) == (4, 4)
