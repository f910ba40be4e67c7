"""The closed figures that may be the slab, each once."""

from pathlib import Path

import pytest

from drawn_curves import box, closed, line
from kerfline.files.drawing.candidates.candidate import Source
from kerfline.files.drawing.candidates.gather import MOST, gathered
from kerfline.files.drawing.candidates.scene import scene_of
from kerfline.files.drawing.opened import Drawing
from kerfline.files.own_records import SLAB, Record


def found(*curves, **more):
    counts = {(c.layer, c.kind): 1 for c in curves}
    return gathered(scene_of(Drawing(path=Path("a"), curves=curves, counts=counts, **more)))


def told(*curves, **more):
    return [(c.source, c.layers, round(c.polygon.area / 1e6)) for c in found(*curves, **more)]


def test_closed_outlines_come_the_largest_first():
    curves = (closed("A", *box(0, 0, 3000, 3000)), closed("B", *box(9000, 0, 5000, 4000)))
    assert told(*curves) == [(Source.CLOSED, ("B",), 20), (Source.CLOSED, ("A",), 9)]


@pytest.mark.parametrize(("side", "count"), [(1000, 1), (999, 0)])
def test_less_than_a_square_metre_is_no_slab(side, count):
    assert len(found(closed("A", *box(0, 0, side, side)))) == count


def test_layers_of_another_part_hold_no_outline():
    assert found(closed("S-COLS", *box(0, 0, 3000, 3000))) == []


def test_an_outline_drawn_again_is_counted_with_the_first():
    (one,) = found(closed("X", *box(0, 0, 9000, 6000)), closed("SLAB", *box(0, 0, 9000, 6010)))
    assert (one.layers, one.copies) == (("SLAB",), 2)
    assert len(found(closed("X", *box(0, 0, 9000, 6000)), closed("Y", *box(0, 0, 9000, 6300)))) == 2


@pytest.mark.parametrize(("overhang", "count"), [(300, 2), (150, 1)])
def test_the_roof_of_a_large_hall_is_another_outline_than_its_walls(overhang, count):
    """300 mm around 70 x 50 m is 2 % of its area; 150 mm may be a ledge, and the walls are kept."""
    walls = [closed("A-WALL", *box(d, d, 70_000 - 2 * d, 50_000 - 2 * d)) for d in (0, 240)]
    wide = (70_000 + 2 * overhang, 50_000 + 2 * overhang)
    kept = told(*walls, closed("A-ROOF", *box(-overhang, -overhang, *wide)))
    assert len(kept) == count
    assert (Source.WALLS, ("A-WALL",), 3500) in kept


def test_pieces_on_layers_that_speak_alike_are_one_outline():
    corner = line("S-SLAB-A", (0, 0), (9000, 0), (9000, 6000))
    rest = line("S-SLAB-B", (9000, 6000), (0, 6000), (0, 0))
    assert told(corner, rest) == [(Source.PIECES, ("S-SLAB-A", "S-SLAB-B"), 54)]


def test_adjoining_outlines_on_a_slabs_layer_are_one():
    two = [closed("SLAB", *box(x, 0, 5000, 4000)) for x in (0, 5000)]
    assert told(*two) == [(Source.CLOSED, ("SLAB",), 40)]
    other = [closed("X", *box(x, 0, 5000, 4000)) for x in (0, 5000)]
    assert [area for *_, area in told(*other)] == [20, 20]


def test_the_outer_faces_of_walls_are_one_too():
    walls = [closed("A-WALL", *box(0, 0, 9000, 6000)), closed("A-WALL", *box(200, 200, 8600, 5600))]
    (one,) = found(*walls)
    assert (one.source, one.layers) == (Source.WALLS, ("A-WALL",))
    assert one.polygon.area == pytest.approx(54e6)


def test_walls_on_a_slab_that_our_own_record_tells_are_wrapped_by_nothing():
    """The record tells the slab; what stands beside it is still sought."""
    slab = closed("S-SLAB-EDGE", *box(-1000, -1000, 12000, 9000))
    walls = [closed("S-WALL", *box(x, 0, 9000, 6000)) for x in (0, 20000)]
    walls += [closed("S-WALL", *box(x + 200, 200, 8600, 5600)) for x in (0, 20000)]
    sources = [c.source for c in found(slab, *walls)]
    assert sources == [Source.CLOSED, Source.WALLS, Source.WALLS]
    told_slab = Record(name=SLAB, path=slab.path)
    first, other = found(slab, *walls, records=(told_slab,))
    assert (first.source, other.source) == (Source.CLOSED, Source.WALLS)
    assert other.polygon.bounds == (20000, 0, 29000, 6000)


def test_the_edge_of_a_hatch_is_one():
    hatch = closed("X", *box(0, 0, 9000, 6000))
    assert told(line("X", (0, 9000), (9, 9000)), fills=(hatch,)) == [(Source.FILL, ("X",), 54)]
    assert (
        told(line("X", (0, 9000), (9, 9000)), fills=(closed("DIM", *box(0, 0, 9000, 6000)),)) == []
    )


def test_of_one_layer_the_forty_largest_are_looked_at():
    many = [closed("A", *box(3000 * n, 0, 2000 + n, 2000)) for n in range(MOST + 2)]
    assert len(found(*many)) == MOST


def crossing(thickness):
    """Walls whose faces run from centre line to centre line: inner ones cross, outer ones stop short of each other."""
    w, d, t = 24_000, 18_000, thickness
    faces = [line("7", (t / 2, y), (w - t / 2, y)) for y in (0, t, d - t, d)]
    return faces + [line("7", (x, t / 2), (x, d - t / 2)) for x in (0, t, w - t, w)]


@pytest.mark.parametrize(
    ("thickness", "sources"),
    [(150, [Source.WALLS, Source.WOVEN]), (50, [Source.WOVEN])],
)
def test_inner_faces_that_cross_are_another_figure_than_the_outer_ones(thickness, sources):
    both = found(*crossing(thickness))
    assert [c.source for c in both][:2] == sources
    if thickness > 50:
        assert both[0].polygon.area == pytest.approx(24 * 18e6, rel=1e-3)
