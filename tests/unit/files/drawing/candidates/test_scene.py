"""What surrounds the candidates: the walls and all that is drawn."""

from pathlib import Path

import numpy as np
import pytest
import shapely

from drawn_curves import bow, box, closed, line, said
from kerfline.files.drawing.candidates.scene import ENOUGH, scene_of, share_inside
from kerfline.files.drawing.opened import Drawing


def scene(*curves, **more):
    counts = {(c.layer, c.kind): 1 for c in curves}
    return scene_of(Drawing(path=Path("a"), curves=curves, counts=counts, **more))


def room(layer, x=0, thickness=200, width=9000, height=6000):
    """The two faces of the walls of a room."""
    t = thickness
    return [
        closed(layer, *box(x, 0, width, height)),
        closed(layer, *box(x + t, t, width - 2 * t, height - 2 * t)),
    ]


def test_walls_are_taken_by_name():
    found = scene(*room("A-WALL"), *room("OTHER", x=20000))
    assert found.wall_layers == ("A-WALL",)
    assert found.walls_named
    assert {w.thickness for w in found.walls} == {200}
    assert found.wall_length == pytest.approx(2 * 8800 + 2 * 5800, abs=801)


def test_else_by_their_pairs_of_lines():
    found = scene(*room("L1"))
    assert found.wall_layers == ("L1",)
    assert not found.walls_named


@pytest.mark.parametrize(("length", "count"), [(ENOUGH + 1, 1), (ENOUGH - 1, 0)])
def test_a_few_pairs_do_not_make_a_layer_of_walls(length, count):
    pair = [line("L1", (0, y), (length, y)) for y in (0, 200)]
    assert len(scene(*pair).wall_layers) == count


def test_layers_named_for_something_else_hold_no_walls():
    assert scene(*room("S-SLAB")).walls == ()
    assert scene(*room("A-ROOF")).walls == ()
    assert scene(*room("S-COLS")).walls == ()


def test_what_is_hidden_or_only_decorates_is_not_seen():
    found = scene(
        *room("L1"),
        line("DIM", (0, 0), (9, 0)),
        line("L2", (0, 0), (9, 0)),
        hidden=frozenset({"L2"}),
    )
    assert found.layers == ("L1",)
    assert len(found.spots) == 2


def test_the_border_of_a_sheet_is_no_wall():
    border = room("L1", x=-30000, width=70000, height=50000)
    inner = [line("L1", (0, y), (9000, y)) for y in (20000, 20200)]
    found = scene(*border, *inner)
    assert [round(w.line.length) for w in found.walls] == [9000]


def test_doors_are_swings_of_a_doors_width():
    def door(x, radius):
        return [line("D", (x, 0), (x, radius)), bow("D", (x + radius, 0), (x, radius), 0.41421356)]

    found = scene(*door(0, 900), *door(20000, 3000), *door(40000, 500))
    assert [round(d.radius) for d in found.doors] == [900]


def test_texts_are_told_by_where_they_stand():
    found = scene(line("L1", (0, 0), (9, 0)), labels=(said("HALL", (5, 6)),))
    assert [(p.x, p.y) for p in found.texts] == [(5, 6)]
    assert len(scene(line("L1", (0, 0), (9, 0))).texts) == 0


def test_the_share_of_points_in_an_area():
    spots = np.asarray(shapely.points([(1, 1), (2, 2), (9, 9), (3, 0)]), dtype=object)
    assert share_inside(shapely.box(0, 0, 3, 3), spots) == 0.75
    assert share_inside(shapely.box(0, 0, 3, 3), np.empty(0, dtype=object)) == 0.0
