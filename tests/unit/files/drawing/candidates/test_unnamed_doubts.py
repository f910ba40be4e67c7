"""Figures on layers of no telling name are asked about where they may be no slab at all: details, sections, sheets."""

from pathlib import Path

import ezdxf
import pytest
from ezdxf import units
from shapely import LineString, Polygon, box

from kerfline.files.drawing import SlabOpen, reading
from kerfline.files.drawing.opened import drawing_of

M = 1000.0


class Drawn:
    """A drawing in millimetres."""

    def __init__(self):
        self.document = ezdxf.new(units=units.MM)
        self.space = self.document.modelspace()

    def poly(self, layer, area: Polygon):
        for ring in (area.exterior, *area.interiors):
            points = list(ring.coords)[:-1]
            self.space.add_lwpolyline(points, close=True, dxfattribs={"layer": layer})

    def door(self, at, width=900):
        leaf = (at[0], at[1] + width)
        self.space.add_line(at, leaf, dxfattribs={"layer": "3"})
        self.space.add_arc(at, width, 0, 90, dxfattribs={"layer": "3"})

    def dimension(self, a, b):
        self.space.add_aligned_dim(p1=a, p2=b, distance=500).render()

    def read(self):
        return reading(drawing_of(self.document, Path("plan.dxf"))).parts.outline.polygon.area / 1e6


def house(layer, doors):
    """Walls of a house of 16 x 10 m, open at two entrances, with a wall across and doors in it."""
    drawn = Drawn()
    hall = box(0, 0, 16 * M, 10 * M)
    walls = hall.difference(hall.buffer(-200, join_style="mitre"))
    inner = LineString([(8 * M, 0), (8 * M, 10 * M)]).buffer(100, cap_style="flat")
    walls = walls.union(inner).intersection(hall)
    for x in (2 * M, 12 * M):
        walls = walls.difference(box(x, -M, x + 900, M))
    for n in range(doors):
        walls = walls.difference(box(7 * M, (2 + 3 * n) * M, 9 * M, (2 + 3 * n) * M + 900))
        drawn.door((8 * M, (2 + 3 * n) * M))
    for body in getattr(walls, "geoms", [walls]):
        drawn.poly(layer, body)
    return drawn


@pytest.mark.parametrize(
    ("layer", "doors", "taken"),
    [("7", 0, False), ("7", 1, False), ("7", 2, True), ("A-WALL", 0, True)],
)
def test_pairs_of_lines_are_a_building_by_its_doors_or_its_name(layer, doors, taken):
    drawn = house(layer, doors)
    if taken:
        assert drawn.read() == pytest.approx(160, rel=1e-3)
        return
    with pytest.raises(SlabOpen) as asked:
        drawn.read()
    assert "neither a layer's name nor doors say that its lines are walls" in str(asked.value)


def detail(side, layer="7"):
    drawn = Drawn()
    drawn.poly(layer, box(0, 0, side, side))
    return drawn


@pytest.mark.parametrize(
    ("side", "layer", "taken"),
    [(3.15 * M, "7", False), (3.17 * M, "7", True), (3.15 * M, "SLAB", True)],
)
def test_a_small_figure_is_a_slab_by_its_name_only(side, layer, taken):
    drawn = detail(side, layer)
    if taken:
        assert drawn.read() == pytest.approx(side**2 / 1e6)
    else:
        with pytest.raises(SlabOpen):
            drawn.read()


@pytest.mark.parametrize(
    ("stated", "taken"),
    [
        ((9.0, 2.0, 1.0, 1.5), True),
        ((8.92, 2.0, 1.0, 1.5), True),
        ((8.9, 2.0, 1.0, 1.5), False),
        ((4.0, 2.0, 1.0), True),
    ],
)
def test_dimensions_that_state_other_lengths_make_a_figure_doubtful(stated, taken):
    """A square of 9 m: one side stated, nearly stated, not stated, and too few dimensions to tell."""
    drawn = detail(9 * M)
    for n, length in enumerate(stated):
        drawn.dimension((0, -n * M), (length * M, -n * M))
    if taken:
        assert drawn.read() == pytest.approx(81)
        return
    with pytest.raises(SlabOpen) as asked:
        drawn.read()
    assert "the dimensions state other lengths than its own" in str(asked.value)


FRAME = "460 mm apart, more than walls are thick: a frame around the slab, perhaps"


@pytest.mark.parametrize(
    ("layer", "apart", "asked"),
    [("7", 440, "more than one slab"), ("7", 460, FRAME), ("A-WALL", 460, "")],
)
def test_two_lines_further_apart_than_walls_are_thick_may_be_a_frame(layer, apart, asked):
    drawn = Drawn()
    hall = box(0, 0, 24 * M, 16 * M)
    drawn.poly(layer, hall)
    drawn.poly(layer, hall.buffer(apart, join_style="mitre"))
    if not asked:
        assert drawn.read() == pytest.approx(24.92 * 16.92, rel=1e-3)
        return
    with pytest.raises(SlabOpen) as question:
        drawn.read()
    assert asked in str(question.value)
    assert ("a frame around" in str(question.value)) is (asked is FRAME)
