"""The slab's outline and openings, however they are drawn; areas in closed form."""

import math

import pytest

from kerfline.files.drawing import Layers, read_slab_parts
from read_parts import L_AREA, L_SHAPE, area, read, refused

PIT = [(60, 60), (120, 60), (120, 100), (60, 100)]


PIT_AREA = 60 * 40


def test_a_closed_polyline(sheet):
    drawn = sheet()
    drawn.poly("SLAB", L_SHAPE)
    parts = read(drawn)
    assert area(parts.outline) == pytest.approx(L_AREA)
    assert len(parts.outline.points) == 6
    assert parts.notes == ()


def test_an_old_style_polyline(sheet):
    drawn = sheet()
    drawn.space.add_polyline2d(L_SHAPE, close=True, dxfattribs={"layer": "SLAB"})
    assert area(read(drawn).outline) == pytest.approx(L_AREA)


def test_a_polyline_in_space_is_seen_in_plan(sheet):
    drawn = sheet()
    points = [(x, y, 5 + x / 100) for x, y in L_SHAPE]
    drawn.space.add_polyline3d(points, close=True, dxfattribs={"layer": "SLAB"})
    assert area(read(drawn).outline) == pytest.approx(L_AREA)


def test_a_polyline_that_ends_where_it_starts_is_closed(sheet):
    drawn = sheet()
    drawn.poly("SLAB", [*L_SHAPE, L_SHAPE[0]], close=False)
    assert area(read(drawn).outline) == pytest.approx(L_AREA)


def test_a_nearly_closed_polyline_is_closed_and_the_gap_is_told(sheet):
    drawn = sheet()
    drawn.poly("SLAB", [*L_SHAPE, (0, 0.5)], close=False)
    parts = read(drawn)
    assert area(parts.outline) == pytest.approx(L_AREA)
    assert parts.notes == ("Closed a gap of 0'-0 1/2\" in an outline at (0'-0\", 0'-0\").",)


def test_repeated_and_collinear_points_do_not_matter(sheet):
    drawn = sheet()
    drawn.poly("SLAB", [(0, 0), (0, 0), (240, 0), (480, 0), (480, 0), *L_SHAPE[2:]])
    assert area(read(drawn).outline) == pytest.approx(L_AREA)


def test_loose_lines_in_any_order_and_either_way(sheet):
    drawn = sheet()
    edges = list(zip(L_SHAPE, [*L_SHAPE[1:], L_SHAPE[0]], strict=True))
    for i in (3, 0, 5, 2, 4, 1):
        a, b = edges[i]
        drawn.line("SLAB", *((a, b) if i % 2 else (b, a)))
    parts = read(drawn)
    assert area(parts.outline) == pytest.approx(L_AREA)
    assert parts.notes == ()


def test_lines_that_stop_short_of_their_corners_are_carried_on_to_them(sheet):
    drawn = sheet()
    for a, b in zip(L_SHAPE, [*L_SHAPE[1:], L_SHAPE[0]], strict=True):
        size = math.dist(a, b)
        ux, uy = (b[0] - a[0]) / size, (b[1] - a[1]) / size
        drawn.line("SLAB", (a[0] + ux * 0.4, a[1] + uy * 0.4), (b[0] - ux * 0.3, b[1] - uy * 0.3))
    parts = read(drawn)
    assert area(parts.outline) == pytest.approx(L_AREA)
    assert len([n for n in parts.notes if n.startswith("Closed a gap of 0'-0 1/2\"")]) == 6


def test_lines_that_run_past_their_corners_are_cut_there(sheet):
    drawn = sheet()
    for a, b in zip(L_SHAPE, [*L_SHAPE[1:], L_SHAPE[0]], strict=True):
        size = math.dist(a, b)
        ux, uy = (b[0] - a[0]) / size, (b[1] - a[1]) / size
        drawn.line("SLAB", (a[0] - ux * 6, a[1] - uy * 6), (b[0] + ux * 9, b[1] + uy * 9))
    assert area(read(drawn).outline) == pytest.approx(L_AREA, rel=1e-5)


def test_a_line_with_a_gap_in_the_middle_is_bridged(sheet):
    drawn = sheet()
    drawn.line("SLAB", (200, 0), (0, 0), *L_SHAPE[:0:-1][::1], (200.9, 0))
    assert area(read(drawn).outline) == pytest.approx(L_AREA)


def test_an_outline_drawn_twice_counts_once(sheet):
    drawn = sheet()
    drawn.poly("SLAB", L_SHAPE)
    drawn.loop("SLAB", L_SHAPE[::-1])
    drawn.loop("SLAB", L_SHAPE)
    parts = read(drawn)
    assert area(parts.outline) == pytest.approx(L_AREA)
    assert parts.openings == ()


NOTCHED = [
    (0, 0),
    (480, 0),
    (480, 100),
    (479.3, 100),
    (479.3, 100.8),
    (480, 100.8),
    (480, 240),
    (0, 240),
]


def test_a_notch_smaller_than_the_gap_that_is_closed_stays(sheet):
    area_of_notch = 0.7 * 0.8
    for draw in ("loop", "poly"):
        drawn = sheet()
        getattr(drawn, draw)("SLAB", NOTCHED)
        ring = read(drawn).outline
        assert len(ring.points) == 8
        assert area(ring) == pytest.approx(480 * 240 - area_of_notch, rel=1e-9)


def test_a_notch_beside_a_real_gap_stays(sheet):
    drawn = sheet()
    drawn.line("SLAB", *NOTCHED, (0, 0.6))
    assert area(read(drawn).outline) == pytest.approx(480 * 240 - 0.56, rel=1e-9)


def test_an_outline_that_crosses_itself_is_refused_with_the_place(sheet):
    drawn = sheet()
    drawn.poly("SLAB", [(0, 0), (480, 240), (480, 0), (0, 240)])
    assert "the slab's outline crosses itself; found the crossing at (20'-0\", 10'-0\")" in refused(
        drawn
    )


def test_an_outline_that_crosses_itself_by_a_hair_where_it_closes_is_mended(sheet):
    drawn = sheet()
    drawn.poly("SLAB", [(0, 0), *L_SHAPE[1:], (0, -0.2), (0.1, 0.3)])
    assert area(read(drawn).outline) == pytest.approx(L_AREA, rel=1e-3)


def test_a_grid_on_the_slab_leaves_no_hole(sheet):
    drawn = sheet()
    drawn.poly("SLAB", [(0, 0), (480, 0), (480, 240), (0, 240)])
    for x in range(60, 480, 60):
        drawn.line("SLAB", (x, 0), (x, 240))
    for y in range(60, 240, 60):
        drawn.line("SLAB", (0, y), (480, y))
    parts = read(drawn)
    assert parts.openings == ()
    assert len(parts.outline.points) == 4


def test_the_outer_faces_of_walls_serve_where_only_walls_are_drawn(sheet):
    drawn = sheet()
    outer = [(0, 0), (480, 0), (480, 240), (0, 240)]
    inner = [(6, 6), (474, 6), (474, 234), (6, 234)]
    for ring in (outer, inner):
        # a door of 3 ft in the south wall
        y = ring[0][1]
        drawn.line("A-WALL", (236, y), *ring[1:], ring[0], (200, y))
    drawn.line("A-WALL", (200, 0), (200, 6))
    drawn.line("A-WALL", (236, 0), (236, 6))
    parts = read(drawn, Layers(outline=("A-WALL",), walls=("A-WALL",)))
    assert area(parts.outline) == pytest.approx(480 * 240, rel=1e-6)
    assert parts.walls == ()
    assert any("along their outer faces" in n and "Check it" in n for n in parts.notes)


def boxes(count, side=36, step=40):
    """Corners of squares in a row along the bottom of the L, inches."""
    lows = [(10 + i * step, 20) for i in range(count)]
    return [[(x, y), (x + side, y), (x + side, y + side), (x, y + side)] for x, y in lows]


def test_curves_a_wall_apart_on_a_layer_of_any_name_are_rooms(sheet):
    drawn = sheet()
    drawn.poly("0", L_SHAPE)
    for box in boxes(3, side=100, step=106):
        drawn.poly("0", box)
    count, notes = inside(drawn, "0")
    assert count == 0
    assert "taken for rooms" in notes


def inside(drawn, layer):
    """How many openings are read from the outline's own layer, and what is said."""
    parts = read_slab_parts(drawn.save(), Layers(outline=(layer,)))
    return len(parts.openings), " ".join(parts.notes)


def test_a_few_bare_curves_on_a_layer_of_any_name_are_openings(sheet):
    drawn = sheet()
    drawn.poly("0", L_SHAPE)
    for box in boxes(3, step=60):
        drawn.poly("0", box)
    x, y = boxes(1)[0][0]
    drawn.line("0", (x, y), (x + 36, y + 36))  # crossed out, as openings are
    drawn.line("0", (x, y + 36), (x + 36, y))
    assert inside(drawn, "0")[0] == 3


def test_a_thing_drawn_on_a_layer_of_any_name_is_no_opening(sheet):
    """Furniture has more drawn in it; a hole in the slab has not."""
    drawn = sheet()
    drawn.poly("0", L_SHAPE)
    drawn.loop("0", PIT)
    for x in range(70, 120, 10):
        drawn.line("0", (x, 60), (x, 100))
    count, notes = inside(drawn, "0")
    assert count == 0
    assert "1 closed curve inside the outline, taken for rooms, a floor pattern or things" in notes
    assert "--openings" in notes


def test_a_floor_pattern_on_a_layer_of_any_name_is_no_opening(sheet):
    """Eleven tiles can be pits, many more cannot, unless the layer is named for the slab."""
    drawn = sheet()
    for layer in ("0", "SLAB"):
        drawn.poly(layer, [(p[0] * 2, p[1] * 2) for p in L_SHAPE])
        for box in boxes(20):
            drawn.loop(layer, box)
    assert inside(drawn, "0")[0] == 0
    assert inside(drawn, "SLAB")[0] == 20


def test_the_edge_of_a_hatch_is_the_slab_where_nothing_else_draws_it(sheet):
    drawn = sheet()
    hatch = drawn.space.add_hatch(dxfattribs={"layer": "SLAB"})
    hatch.paths.add_polyline_path(L_SHAPE, is_closed=True)
    hatch.paths.add_polyline_path(PIT, is_closed=True, flags=16)
    parts = read(drawn)
    assert area(parts.outline) == pytest.approx(L_AREA)
    assert [area(o) for o in parts.openings] == pytest.approx([PIT_AREA])


def test_a_hatch_beside_the_drawn_edge_is_passed_over(sheet):
    drawn = sheet()
    drawn.poly("SLAB", L_SHAPE)
    hatch = drawn.space.add_hatch(dxfattribs={"layer": "SLAB"})
    hatch.paths.add_polyline_path(PIT, is_closed=True)
    assert read(drawn).openings == ()
