"""Walls as single lines and as pairs of faces: centre lines and thicknesses known from how they were drawn."""

import math

import pytest
from shapely import LineString, Polygon, affinity

from drawn_curves import line
from kerfline.files.drawing import Layers, read_slab_parts
from kerfline.files.drawing.walls import read_walls
from kerfline.geometry.ring import Ring
from kerfline.units import Display

SLAB = [(0, 0), (480, 0), (480, 240), (0, 240)]
LAYERS = Layers(outline=("SLAB",), walls=("*WALL*",))


@pytest.fixture
def slab(sheet):
    drawn = sheet()
    drawn.poly("SLAB", SLAB)
    return drawn


def walls_of(drawn, layers=LAYERS):
    """The walls as (thickness, ends) in inches, rounded to 1/100, and the notes."""
    parts = read_slab_parts(drawn.save(), layers)
    rows = [
        (
            round(w.thickness / 25.4, 2),
            *((round(x / 25.4, 2) + 0.0, round(y / 25.4, 2) + 0.0) for x, y in w.path),
        )
        for w in parts.walls
    ]
    return rows, parts.notes


def test_single_lines_are_centre_lines_of_an_assumed_thickness(slab):
    slab.line("WALL", (0, 120), (240, 120), (240, 240))
    rows, notes = walls_of(slab)
    assert rows == [(4.5, (0, 120), (240, 120)), (4.5, (240, 120), (240, 240))]
    assert 'WALL: 2 single lines taken as centre lines of walls 4 1/2" thick (assumed).' in notes


def test_pieces_of_a_single_line_are_one_wall(slab):
    for x in range(0, 240, 40):
        slab.line("WALL", (x + 40, 120), (x, 120))
    slab.line("WALL", (100, 120), (160, 120))
    assert walls_of(slab)[0] == [(4.5, (0, 120), (240, 120))]


def test_a_pair_of_lines_is_one_wall(slab):
    slab.wall("A-WALL", (0, 120), (480, 120), 5.5)
    rows, notes = walls_of(slab)
    assert rows == [(5.5, (0, 120), (480, 120))]
    assert "A-WALL: walls recovered from pairs of lines (1 piece)." in notes


@pytest.mark.parametrize("turn", [17, 45, 133])
def test_a_pair_at_any_angle(sheet, turn):
    drawn = sheet()
    cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))

    def turned(x, y):
        return (x * cos - y * sin, x * sin + y * cos)

    drawn.poly("SLAB", [turned(*p) for p in SLAB])
    drawn.wall("WALL", turned(0, 120), turned(480, 120), 6)
    (wall,) = read_slab_parts(drawn.save(), LAYERS).walls
    assert wall.thickness == pytest.approx(6 * 25.4)
    expected = LineString([[c * 25.4 for c in turned(x, 120)] for x in (0, 480)])
    assert wall.line.hausdorff_distance(expected) < 0.01


def test_one_long_face_opposite_many_short_ones(slab):
    slab.line("WALL", (0, 117), (480, 117))
    for x in range(0, 480, 60):
        slab.line("WALL", (x, 123), (x + 60, 123))
    assert walls_of(slab)[0] == [(6, (0, 120), (480, 120))]


def test_a_face_broken_by_the_walls_that_meet_it(slab):
    # a tee: the long wall's north face is broken by the 4 in of the wall that meets it
    slab.line("WALL", (0, 117), (480, 117))
    slab.line("WALL", (0, 123), (238, 123), (238, 240))
    slab.line("WALL", (480, 123), (242, 123), (242, 240))
    rows, notes = walls_of(slab)
    assert rows == [(6, (0, 120), (480, 120)), (4, (240, 120), (240, 240))]
    assert not any("door" in n for n in notes)


def test_a_corner_is_closed_to_the_crossing_of_the_centre_lines(slab):
    slab.line("WALL", (0, 118), (242, 118), (242, 240))
    slab.line("WALL", (0, 122), (238, 122), (238, 240))
    assert walls_of(slab)[0] == [(4, (0, 120), (240, 120)), (4, (240, 120), (240, 240))]


def test_doors_are_bridged_up_to_a_width_and_listed(slab):
    slab.wall("WALL", (0, 120), (100, 120), 4)
    slab.wall("WALL", (136, 120), (300, 120), 4)
    slab.wall("WALL", (360, 120), (480, 120), 4)
    for x in (100, 136, 300, 360):
        slab.line("WALL", (x, 118), (x, 122))
    rows, notes = walls_of(slab)
    assert rows == [(4, (0, 120), (300, 120)), (4, (360, 120), (480, 120))]
    assert "Bridged a gap of 3'-0\" in a wall at (8'-4\", 10'-0\"), taken for a door." in notes
    assert sum("Bridged" in n for n in notes) == 1


def test_the_width_of_a_door_is_the_callers(slab):
    from kerfline.files.drawing import read_drawing
    from kerfline.files.drawing.walls import read_walls

    slab.wall("WALL", (0, 120), (100, 120), 4)
    slab.wall("WALL", (160, 120), (480, 120), 4)
    drawing = read_drawing(slab.save())
    assert len(read_walls(drawing.on("WALL"), None, drawing.unit.display)[0]) == 2
    assert len(read_walls(drawing.on("WALL"), None, drawing.unit.display, door=1600)[0]) == 1


def test_closed_polylines_around_pieces_of_wall(slab):
    slab.poly("WALL", [(0, 118), (200, 118), (200, 122), (0, 122)])
    slab.poly("WALL", [(230, 118), (480, 118), (480, 122), (230, 122)])
    assert walls_of(slab)[0] == [(4, (0, 120), (480, 120))]


def test_walls_of_several_thicknesses_and_close_rooms(slab):
    slab.wall("WALL", (0, 60), (480, 60), 8)
    # a closet 24 in deep behind a 4 in partition: its two faces are 24 in apart, no wall
    slab.wall("WALL", (0, 90), (480, 90), 4)
    rows, _ = walls_of(slab)
    assert rows == [(8, (0, 60), (480, 60)), (4, (0, 90), (480, 90))]


def test_a_shaft_narrower_than_a_thick_wall_is_no_wall(slab):
    slab.wall("WALL", (0, 60), (480, 60), 4)
    slab.wall("WALL", (0, 76), (480, 76), 4)
    assert [r[0] for r in walls_of(slab)[0]] == [4, 4]


def test_a_curved_wall_between_two_arcs(slab):
    for r in (100, 106):
        slab.space.add_arc((240, 0), r, 0, 180, dxfattribs={"layer": "WALL"})
    (wall,) = read_slab_parts(slab.save(), LAYERS).walls
    assert wall.thickness == pytest.approx(6 * 25.4)
    assert wall.line.length == pytest.approx(math.pi * 103 * 25.4, rel=1e-4)


def test_many_circles_about_many_centres_are_no_walls(slab):
    slab.wall("WALL", (0, 120), (480, 120), 6)
    for i in range(300):
        slab.circle("WALL", (5 + i, 20), 6)
    assert len(walls_of(slab)[0]) == 1


def test_the_swing_of_a_door_is_no_wall(slab):
    slab.line("WALL", (0, 120), (480, 120))
    slab.space.add_arc((100, 120), 36, 0, 90, dxfattribs={"layer": "WALL"})
    assert walls_of(slab)[0] == [(4.5, (0, 120), (480, 120))]


def test_walls_along_the_edge_outside_and_too_short_are_left_out_and_told(slab):
    for a, b in zip(SLAB, [*SLAB[1:], SLAB[0]], strict=True):
        x0, y0 = (min(max(v, 3), m - 3) for v, m in zip(a, (480, 240), strict=True))
        x1, y1 = (min(max(v, 3), m - 3) for v, m in zip(b, (480, 240), strict=True))
        slab.wall("WALL", (x0, y0), (x1, y1), 6)
    slab.wall("WALL", (600, 0), (600, 240), 6)
    slab.wall("WALL", (240, 100), (240, 112), 4)
    slab.wall("WALL", (100, 3), (100, 300), 6)
    rows, notes = walls_of(slab)
    assert rows == [(6, (100, 3), (100, 240))]
    assert "4 walls left out where along the slab's edge: no joint goes there." in notes
    assert "2 walls outside the slab left out or cut at its edge." in notes
    assert any(n.startswith("1 wall under") for n in notes)


def test_walls_without_an_outline_are_read_as_they_stand(slab):
    slab.wall("WALL", (600, 0), (600, 240), 6)
    assert walls_of(slab, Layers(walls=("WALL",)))[0] == [(6, (600, 0), (600, 240))]


def test_walls_in_blocks_on_reference_layers(slab):
    block = slab.doc.blocks.new("ROOM")
    for y in (-3, 3):
        block.add_line((0, y), (480, y), dxfattribs={"layer": "0"})
    slab.space.add_blockref("ROOM", (0, 120), dxfattribs={"layer": "XR$0$A-WALL-INTR"})
    assert walls_of(slab)[0] == [(6, (0, 120), (480, 120))]


def test_leftover_lines_among_pairs_are_told(slab):
    slab.wall("WALL", (0, 120), (480, 120), 6)
    slab.line("WALL", (0, 60), (100, 60))
    rows, notes = walls_of(slab)
    assert len(rows) == 1
    assert any("lines without a partner left out, 8'-4\" in all" in n for n in notes)


def test_hundreds_of_pieces_are_walls_from_edge_to_edge(slab):
    # pieces of 9 in with gaps of 3 in, in lines 10 in apart: each line is one wall, the gaps are not told as doors
    for i in range(40):
        for j in range(1, 24):
            slab.wall("WALL", (12 * i, 10 * j), (12 * i + 9, 10 * j), 4)
    rows, notes = walls_of(slab)
    assert [round(r[1][1]) for r in rows] == [10 * j for j in range(1, 24)]
    assert not any("door" in n for n in notes)


@pytest.mark.parametrize("turn", [0, 17.3, 45, 101.7])
@pytest.mark.parametrize("at", [(0.1, 0.3), (28.6083, 8.3127), (1234.5678, 987.6543)])
def test_a_wall_along_the_edge_that_goes_on_into_the_slab_is_kept_where_it_is_free(turn, at):
    """An L of 20 x 8 m with a wing of 8 m; a wall stands along the wing's side and on across the rest."""
    corners = [(0, 0), (8_000, 0), (8_000, 6_000), (20_000, 6_000), (20_000, 14_000), (0, 14_000)]
    placed = affinity.rotate(Polygon(corners), turn, origin=at)
    middle = affinity.rotate(LineString([(7_875, 100), (7_875, 13_900)]), turn, origin=at)
    faces = [middle.offset_curve(side * 125) for side in (1, -1)]
    curves = [line("W", *f.coords) for f in faces]
    (wall,) = read_walls(curves, Ring.of(placed), Display.METRIC)[0]
    # Free beyond 275 mm from the corner, past which it stands 125 mm inside.
    assert wall.line.length == pytest.approx(13_900 - 6_000 - math.sqrt(275**2 - 125**2), abs=1)
