"""Patterns of tiles are told from axes by how many and how large their cells are."""

import pytest
from ezdxf import units

from drawn_candidates import rectangle, tiles
from kerfline.files.drawing import read_drawing
from kerfline.files.drawing.candidates import scene_of
from kerfline.files.drawing.candidates.tiles import tile_side


@pytest.fixture
def drawn(sheet):
    return sheet(units.MM)


@pytest.mark.parametrize(
    ("size", "side"), [((6_000, 8_000), 0), ((6_000, 9_000), 1_000), ((9_000, 9_000), 1_000)]
)
def test_fewer_cells_are_axes(drawn, size, side):
    tiles(drawn, 0, 0, *size)
    assert tile_side(read_drawing(drawn.save()), "Flooring") == side


@pytest.mark.parametrize(("pitch", "tiled"), [(1_900, True), (2_100, False)])
def test_larger_cells_are_bays(drawn, pitch, tiled):
    for n in range(10):
        drawn.line("1", (n * pitch, 0), (n * pitch, 9 * pitch))
        drawn.line("1", (0, n * pitch), (9 * pitch, n * pitch))
    assert bool(tile_side(read_drawing(drawn.save()), "1")) is tiled


def test_cells_of_all_sizes_are_no_tiles(drawn):
    places = [sum(range(300, 300 + 100 * n, 100)) for n in range(12)]
    for at in places:
        drawn.line("1", (at, 0), (at, places[-1]))
        drawn.line("1", (0, at), (places[-1], at))
    assert tile_side(read_drawing(drawn.save()), "1") == 0


@pytest.mark.parametrize(("tile", "walls"), [(500, 0), (600, 4)])
def test_tiles_a_wall_apart_are_no_walls_and_larger_ones_hide_none(drawn, tile, walls):
    """On a layer of no telling name; a house of 240 mm walls stands around the larger tiles."""
    tiles(drawn, 0, 0, 6_000, 6_000, layer="1", tile=tile)
    if walls:
        drawn.poly("1", rectangle(-240, -240, 6_240, 6_240))
    assert len(scene_of(read_drawing(drawn.save())).walls) == walls
