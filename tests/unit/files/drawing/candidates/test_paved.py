"""A floor that is drawn by its tiles is listed whole, with what holds no tile and without it."""

import pytest
from ezdxf import units

from drawn_candidates import rectangle, tiles
from kerfline.files.drawing import SlabOpen, read_drawing, reading
from kerfline.files.drawing.candidates import Source, gathered, scene_of
from kerfline.files.drawing.candidates.question import court_words
from kerfline.units import Display


def terrace(drawn):
    """Tiles of 20 x 10 m around a pool of 8 x 4 m, free walls on them and around the corner beyond."""
    for area in ((0, 0, 20_000, 3_000), (0, 7_000, 20_000, 10_000), (0, 3_000, 6_000, 7_000)):
        tiles(drawn, *area)
    tiles(drawn, 14_000, 3_000, 20_000, 7_000)
    drawn.poly("Walls", rectangle(3_000, 1_400, 12_000, 1_600))
    drawn.poly("Walls", rectangle(19_800, 4_000, 20_200, 10_000))


def paved(drawn):
    scene = scene_of(read_drawing(drawn.save()))
    return [c for c in gathered(scene) if c.source is Source.TILES]


@pytest.fixture
def drawn(sheet):
    return sheet(units.MM)


def test_tiles_and_walls_give_the_floor_with_its_pool_and_without(drawn):
    terrace(drawn)
    whole, dry = sorted(paved(drawn), key=lambda c: -c.floor.area)
    assert whole.floor.area == pytest.approx(200e6 + 200 * 6_000, rel=1e-6)
    assert dry.floor.area == pytest.approx(whole.floor.area - 32e6, rel=1e-3)
    assert set(whole.layers) == {"Flooring", "Walls"}
    assert "no tile lies in" in court_words(dry, Display.METRIC)


def test_which_is_asked(drawn):
    terrace(drawn)
    with pytest.raises(SlabOpen) as asked:
        reading(read_drawing(drawn.save()))
    first, second = asked.value.candidates[:2]
    assert {bool(first.courts), bool(second.courts)} == {True, False}
    assert not any(c.source is Source.WOVEN for c in asked.value.candidates)


def test_tiles_whose_outermost_lines_close_are_a_closed_outline(drawn):
    tiles(drawn, 0, 0, 20_000, 10_000)
    scene = scene_of(read_drawing(drawn.save()))
    assert [(c.source, round(c.floor.area / 1e6)) for c in gathered(scene)] == [
        (Source.CLOSED, 200)
    ]


@pytest.mark.parametrize("drawn_edge", [False, True])
def test_an_edge_of_tiles_is_asked_about_with_the_pool_in_it_but_not_a_curve_around_them(
    drawn, drawn_edge
):
    """Five strips of tiles leave 8 x 4 m bare; a closed curve around all of them on their layer is believed."""
    for area in ((0, 0, 20_000, 3_000), (0, 7_000, 20_000, 10_000), (0, 3_000, 6_000, 7_000)):
        tiles(drawn, *area)
    tiles(drawn, 14_000, 3_000, 20_000, 7_000)
    if drawn_edge:
        drawn.poly("Flooring", rectangle(-60, -60, 20_060, 10_060))
    found = sorted((c.source, round(c.floor.area / 1e6)) for c in paved(drawn))
    assert found == ([] if drawn_edge else [(Source.TILES, 168), (Source.TILES, 200)])


def test_tiles_within_a_house_are_none_of_its_edge(drawn):
    drawn.poly("A-WALL", rectangle(0, 0, 12_000, 8_000))
    drawn.poly("A-WALL", rectangle(200, 200, 11_800, 7_800))
    tiles(drawn, 1_000, 1_000, 9_000, 7_000)
    assert paved(drawn) == []
    read = reading(read_drawing(drawn.save()))
    assert read.parts.outline.polygon.area == pytest.approx(96e6)
