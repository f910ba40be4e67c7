"""The slab's outline and openings, however they are drawn; areas in closed form."""

import math

import pytest
from ezdxf import units

from drawn_curves import box_ring
from kerfline.errors import InputRefused
from kerfline.files.drawing import Layers, read_slab_parts
from kerfline.files.drawing.outline import joined_rings
from kerfline.geometry.tolerance import SAGITTA

INCH2 = 25.4**2
L_SHAPE = [(0, 0), (480, 0), (480, 240), (240, 240), (240, 360), (0, 360)]
L_AREA = 480 * 240 + 240 * 120
PIT = [(60, 60), (120, 60), (120, 100), (60, 100)]
PIT_AREA = 60 * 40

SLAB = Layers(outline=("SLAB*",))


def read(drawn, layers=SLAB):
    return read_slab_parts(drawn.save(), layers)


def area(ring) -> float:
    return ring.polygon.area / INCH2


def flat(length: float) -> float:
    """What flattening an arc of this length (in) to within its sagitta may take from an area (in2)."""
    return length * SAGITTA / 25.4


def refused(drawn, layers=SLAB) -> str:
    with pytest.raises(InputRefused) as caught:
        read(drawn, layers)
    return str(caught.value)


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


def test_a_notch_smaller_than_the_gap_that_is_closed_stays(sheet):
    notch = [
        (0, 0),
        (480, 0),
        (480, 100),
        (479.3, 100),
        (479.3, 100.8),
        (480, 100.8),
        (480, 240),
        (0, 240),
    ]
    area_of_notch = 0.7 * 0.8
    for draw in ("loop", "poly"):
        drawn = sheet()
        getattr(drawn, draw)("SLAB", notch)
        ring = read(drawn).outline
        assert len(ring.points) == 8
        assert area(ring) == pytest.approx(480 * 240 - area_of_notch, rel=1e-9)


def test_a_notch_beside_a_real_gap_stays(sheet):
    notch = [
        (0, 0),
        (480, 0),
        (480, 100),
        (479.3, 100),
        (479.3, 100.8),
        (480, 100.8),
        (480, 240),
        (0, 240),
    ]
    drawn = sheet()
    drawn.line("SLAB", *notch, (0, 0.6))
    assert area(read(drawn).outline) == pytest.approx(480 * 240 - 0.56, rel=1e-9)


def test_pieces_on_several_layers(sheet):
    drawn = sheet()
    drawn.line("SLAB-SOUTH", *L_SHAPE[:4])
    drawn.line("SLAB-NORTH", *L_SHAPE[3:], L_SHAPE[0])
    assert area(read(drawn).outline) == pytest.approx(L_AREA)


def test_the_layer_of_a_bound_or_attached_drawing_answers_to_its_last_part(sheet):
    drawn = sheet()
    drawn.line("PLAN-07$0$SLAB-EDGE", *L_SHAPE[:4])
    drawn.line("site|slab-edge", *L_SHAPE[3:], L_SHAPE[0])
    assert area(read(drawn, Layers(outline=("Slab-Edge",))).outline) == pytest.approx(L_AREA)


class TestGapsTooWide:
    """An outline that does not close says where."""

    def test_the_gap_is_named_with_its_ends_and_size(self, sheet):
        drawn = sheet()
        drawn.line("SLAB", (240, 0), (480, 0), *L_SHAPE[2:], (0, 0), (180, 0))
        words = refused(drawn)
        assert "the slab's outline is not closed" in words
        assert "a gap of 5'-0\" from" in words
        assert "(15'-0\", 0'-0\")" in words
        assert "(20'-0\", 0'-0\")" in words

    def test_several_gaps_are_named_the_smallest_first(self, sheet):
        drawn = sheet()
        drawn.line("SLAB", (0, 0), (200, 0))
        drawn.line("SLAB", (260, 0), (480, 0), (480, 200))
        drawn.line("SLAB", (480, 236), *L_SHAPE[2:], (0, 0))
        words = refused(drawn)
        assert words.index("3'-0\" from") < words.index("5'-0\" from")

    def test_nothing_closed_on_the_layer(self, sheet):
        drawn = sheet()
        drawn.poly("SLAB", [(0, 0), (10, 0), (10, 10), (0, 10)])
        drawn.poly("OTHER", L_SHAPE)
        assert "no closed outline of a slab on the layers named for it" in refused(drawn)


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


class TestCurves:
    """Arcs stay arcs where the outline is one chain."""

    def test_bulges_of_a_polyline(self, sheet):
        # a slab of 40 x 20 ft with half circles of 10 ft radius at both ends
        drawn = sheet()
        drawn.poly("SLAB", [(0, 0), (480, 0, 1.0), (480, 240), (0, 240, 1.0)])
        ring = read(drawn).outline
        assert ring.bulges == pytest.approx((0, 1, 0, 1))
        assert area(ring) == pytest.approx(480 * 240 + math.pi * 120**2, abs=flat(754))

    def test_lines_and_arcs_in_a_chain(self, sheet):
        drawn = sheet()
        drawn.line("SLAB", (0, 0), (480, 0))
        drawn.line("SLAB", (480, 240), (0, 240))
        arc = {"layer": "SLAB"}
        drawn.space.add_arc((480, 120), 120, 270, 90, dxfattribs=arc)
        drawn.space.add_arc((0, 120), 120, 90, 270, dxfattribs=arc)
        ring = read(drawn).outline
        assert sorted(map(abs, ring.bulges)) == pytest.approx([0, 0, 1, 1])
        assert area(ring) == pytest.approx(480 * 240 + math.pi * 120**2, abs=flat(754))

    def test_an_arc_that_bows_inward(self, sheet):
        drawn = sheet()
        drawn.line("SLAB", (480, 0), (0, 0), (0, 240), (480, 240))
        drawn.space.add_arc((480, 120), 120, 90, 270, dxfattribs={"layer": "SLAB"})
        assert area(read(drawn).outline) == pytest.approx(
            480 * 240 - math.pi * 120**2 / 2, abs=flat(377)
        )

    def test_a_gap_between_an_arc_and_a_line_is_closed(self, sheet):
        drawn = sheet()
        drawn.line("SLAB", (480, 0.3), (479.5, 0), (0, 0), (0, 240), (480, 240))
        drawn.space.add_arc((480, 120), 120, 270.3, 90, dxfattribs={"layer": "SLAB"})
        parts = read(drawn)
        assert area(parts.outline) == pytest.approx(480 * 240 + math.pi * 120**2 / 2, rel=1e-4)
        assert any(n.startswith("Closed a gap") for n in parts.notes)

    def test_a_circle(self, sheet):
        drawn = sheet()
        drawn.circle("SLAB", (100, 100), 240)
        ring = read(drawn).outline
        assert ring.bulges == (1.0, 1.0)
        assert area(ring) == pytest.approx(math.pi * 120**2, rel=1e-3)

    def test_an_ellipse(self, sheet):
        drawn = sheet()
        drawn.space.add_ellipse((0, 0), (200, 0), 0.5, dxfattribs={"layer": "SLAB"})
        assert area(read(drawn).outline) == pytest.approx(math.pi * 200 * 100, abs=flat(969))

    def test_a_spline_by_control_points_and_one_by_fit_points_alone(self, sheet):
        # four quarter arcs of a circle of 100 in by rational splines are beyond this; a closed smooth curve
        # through points of a circle lies within a fraction of an inch of it
        ring = [
            (100 * math.cos(math.radians(a)), 100 * math.sin(math.radians(a)), 0)
            for a in range(0, 361, 10)
        ]
        for add in ("fit", "through"):
            drawn = sheet()
            if add == "fit":
                drawn.space.add_spline(ring, dxfattribs={"layer": "SLAB"})
            else:
                drawn.space.add_cad_spline_control_frame(ring, dxfattribs={"layer": "SLAB"})
            assert area(read(drawn).outline) == pytest.approx(math.pi * 100**2, rel=2e-3)

    def test_arcs_seen_from_below(self, sheet):
        # extrusion -z: drawn mirrored in its own plane, so (-480, 120) there is (480, 120) in plan
        drawn = sheet()
        drawn.line("SLAB", (480, 240), (0, 240), (0, 0), (480, 0))
        drawn.space.add_arc(
            (-480, 120), 120, 90, 270, dxfattribs={"layer": "SLAB", "extrusion": (0, 0, -1)}
        )
        assert area(read(drawn).outline) == pytest.approx(
            480 * 240 + math.pi * 120**2 / 2, abs=flat(377)
        )

    def test_a_polyline_seen_from_below(self, sheet):
        drawn = sheet()
        entity = drawn.space.add_lwpolyline(
            [(0, 0, 0), (-480, 0, -1), (-480, 240, 0), (0, 240, 0)],
            format="xyb",
            close=True,
            dxfattribs={"layer": "SLAB", "extrusion": (0, 0, -1)},
        )
        assert entity.dxf.extrusion.z == -1
        assert area(read(drawn).outline) == pytest.approx(
            480 * 240 + math.pi * 120**2 / 2, abs=flat(377)
        )


class TestBlocks:
    """What stands in blocks is read where it is shown."""

    def block(self, drawn, layer="0"):
        block = drawn.doc.blocks.new("FLOOR")
        block.add_lwpolyline(
            [(0, 0, 0), (480, 0, 1), (480, 240, 0), (0, 240, 0)],
            format="xyb",
            close=True,
            dxfattribs={"layer": layer},
        )
        return block

    AREA = 480 * 240 + math.pi * 120**2 / 2

    def test_moved_turned_and_mirrored(self, sheet):
        drawn = sheet()
        self.block(drawn)
        drawn.space.add_blockref(
            "FLOOR", (1000, -500), dxfattribs={"layer": "SLAB", "rotation": 33, "xscale": -1}
        )
        ring = read(drawn).outline
        assert area(ring) == pytest.approx(self.AREA, abs=flat(377))
        assert ring.has_arcs

    def test_scaled_alike_and_unlike_both_ways(self, sheet):
        drawn = sheet()
        self.block(drawn)
        drawn.space.add_blockref(
            "FLOOR", (0, 0), dxfattribs={"layer": "SLAB", "xscale": 0.5, "yscale": 0.5}
        )
        assert area(read(drawn).outline) == pytest.approx(self.AREA / 4, abs=flat(189))
        drawn = sheet()
        self.block(drawn)
        drawn.space.add_blockref(
            "FLOOR", (0, 0), dxfattribs={"layer": "SLAB", "xscale": 1.0, "yscale": 0.5}
        )
        assert area(read(drawn).outline) == pytest.approx(self.AREA / 2, abs=flat(377))

    def test_nested(self, sheet):
        drawn = sheet()
        self.block(drawn)
        outer = drawn.doc.blocks.new("SITE")
        outer.add_blockref("FLOOR", (50, 60), dxfattribs={"rotation": 90})
        drawn.space.add_blockref("SITE", (0, 0), dxfattribs={"layer": "SLAB", "xscale": -1})
        assert area(read(drawn).outline) == pytest.approx(self.AREA, abs=flat(377))

    def test_a_layer_of_its_own_inside_the_block_counts(self, sheet):
        drawn = sheet()
        self.block(drawn, "SLAB")
        drawn.space.add_blockref("FLOOR", (0, 0), dxfattribs={"layer": "PLAN"})
        assert area(read(drawn).outline) == pytest.approx(self.AREA, abs=flat(377))

    def test_arrayed(self, sheet):
        drawn = sheet()
        block = drawn.doc.blocks.new("PAD")
        block.add_lwpolyline([(0, 0), (20, 0), (20, 20), (0, 20)], close=True)
        drawn.poly("SLAB", L_SHAPE)
        drawn.space.add_blockref(
            "PAD",
            (40, 40),
            dxfattribs={
                "layer": "PITS",
                "row_count": 2,
                "column_count": 3,
                "row_spacing": 60,
                "column_spacing": 50,
            },
        )
        parts = read(drawn, Layers(outline=("SLAB",), openings=("PITS",)))
        assert len(parts.openings) == 6
        assert sum(map(area, parts.openings)) == pytest.approx(6 * 400)
        assert max(x for o in parts.openings for x, _ in o.points) == pytest.approx(160 * 25.4)

    def test_a_block_that_holds_itself_or_is_missing_stops_nothing(self, sheet):
        drawn = sheet()
        drawn.poly("SLAB", L_SHAPE)
        block = drawn.doc.blocks.new("LOOP")
        block.add_line((0, 0), (1, 0))
        block.add_blockref("LOOP", (1, 1))
        drawn.space.add_blockref("LOOP", (0, 0))
        drawn.space.add_blockref("NOWHERE", (0, 0))
        assert area(read(drawn).outline) == pytest.approx(L_AREA)


class TestNesting:
    """Rings in rings, rings beside rings."""

    def test_a_ring_in_the_outline_is_an_opening(self, sheet):
        drawn = sheet()
        drawn.poly("SLAB", L_SHAPE)
        drawn.loop("SLAB", PIT)
        drawn.circle("SLAB", (300, 100), 48)
        parts = read(drawn)
        pit, hole = map(area, parts.openings)
        assert pit == pytest.approx(PIT_AREA)
        assert hole == pytest.approx(math.pi * 24**2, abs=flat(151))

    def test_openings_on_a_layer_of_their_own(self, sheet):
        drawn = sheet()
        drawn.poly("SLAB", L_SHAPE)
        drawn.loop("PITS", PIT)
        drawn.square("PITS", (2000, 2000), 50)
        drawn.square("PITS", (90, 80), 20)
        parts = read(drawn, Layers(outline=("SLAB",), openings=("PITS",)))
        assert list(map(area, parts.openings)) == pytest.approx([PIT_AREA])
        assert any("outside the slab" in n for n in parts.notes)
        assert any("within an opening" in n for n in parts.notes)

    def test_a_line_along_the_edge_is_no_opening(self, sheet):
        drawn = sheet()
        drawn.poly("SLAB", [(0, 0), (480, 0), (480, 240), (0, 240)])
        drawn.poly("SLAB", [(12, 12), (468, 12), (468, 228), (12, 228)])
        parts = read(drawn)
        assert parts.openings == ()
        assert any("a line along the edge" in n for n in parts.notes)

    def test_a_ring_against_the_edge_or_over_an_opening_is_no_opening(self, sheet):
        drawn = sheet()
        drawn.poly("SLAB", L_SHAPE)
        drawn.poly("SLAB", PIT)
        drawn.poly("SLAB", [(0, 100), (40, 100), (40, 130), (0, 130)])
        drawn.poly("SLAB", [(110, 90), (140, 90), (140, 120), (110, 120)])
        parts = read(drawn)
        assert list(map(area, parts.openings)) == pytest.approx([PIT_AREA])
        assert any("lies against the slab's edge" in n for n in parts.notes)
        assert any("in, over or against an opening" in n for n in parts.notes)

    def test_adjoining_pieces_with_a_line_on_them_are_one_slab(self, sheet):
        drawn = sheet()
        drawn.poly("SLAB", [(0, 0), (240, 0), (240, 360), (0, 360)])
        drawn.poly("SLAB", [(240, 0), (480, 0), (480, 240), (240, 240)])
        drawn.line("SLAB", (0, 100), (240, 100))
        parts = read(drawn)
        assert area(parts.outline) == pytest.approx(L_AREA)
        assert parts.openings == ()

    def test_a_wall_that_closes_the_outline_elsewhere_is_no_opening(self, sheet):
        drawn = sheet()
        drawn.line("SLAB", *L_SHAPE)
        drawn.line("A-WALL", L_SHAPE[-1], L_SHAPE[0])
        drawn.poly("A-WALL", [(100, 100), (200, 100), (200, 108), (100, 108)])
        drawn.poly("SLAB", PIT)
        parts = read(drawn, Layers(outline=("SLAB", "A-WALL"), walls=("A-WALL",)))
        assert area(parts.outline) == pytest.approx(L_AREA)
        assert len(parts.openings) == 1
        assert len(parts.walls) == 1
        assert "Left out: 1 closed curve of walls, no openings." in parts.notes

    def test_of_several_drawings_on_a_sheet_the_largest_is_taken_and_it_is_said(self, sheet):
        drawn = sheet()
        drawn.poly("SLAB", L_SHAPE)
        for i in range(3):
            drawn.poly("SLAB", [(x / 4 + 600, y / 4 + 150 * i) for x, y in L_SHAPE])
        parts = read(drawn)
        assert area(parts.outline) == pytest.approx(L_AREA)
        assert any(
            "another closed outline" in n and "the largest one was taken" in n for n in parts.notes
        )
        assert any(n.startswith("3 closed outlines beside the largest") for n in parts.notes)

    def test_adjoining_pieces_are_one_slab(self, sheet):
        drawn = sheet()
        drawn.poly("SLAB", [(0, 0), (240, 0), (240, 360), (0, 360)])
        drawn.poly("SLAB", [(240, 0), (480, 0), (480, 240), (240, 240)])
        parts = read(drawn)
        assert area(parts.outline) == pytest.approx(L_AREA)
        assert any("2 closed curves that adjoin one another" in n for n in parts.notes)

    def test_a_line_across_the_slab_parts_nothing(self, sheet):
        drawn = sheet()
        drawn.loop("SLAB", L_SHAPE)
        drawn.line("SLAB", (240, 0), (240, 240))
        drawn.line("SLAB", (100, 50), (200, 90))
        parts = read(drawn)
        assert area(parts.outline) == pytest.approx(L_AREA)
        assert parts.openings == ()


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


class TestFarAndMany:
    """Coordinates far out, and drawings full of other things."""

    def test_far_from_the_origin(self, sheet):
        drawn = sheet(units.M)
        x0, y0 = 512_345.678, 5_312_345.123
        drawn.loop("SLAB", [(x0 + x / 50, y0 + y / 50) for x, y in L_SHAPE])
        ring = read(drawn).outline
        assert ring.polygon.area == pytest.approx(L_AREA * 20**2, rel=1e-6)
        assert min(x for x, _ in ring.points) == pytest.approx(x0 * 1000)

    def test_crossing_lines_far_from_the_origin(self, sheet):
        drawn = sheet(units.MM)
        x0 = 3.5e9
        for a, b in [
            ((-5, 0), (9005, 0)),
            ((0, -5), (0, 6005)),
            ((9000, -9), (9000, 6003)),
            ((-1, 6000), (9001, 6000)),
        ]:
            drawn.line("SLAB", (a[0] + x0, a[1] + x0), (b[0] + x0, b[1] + x0))
        assert read(drawn).outline.polygon.area == pytest.approx(54e6, rel=1e-6)

    def test_thousands_of_other_entities(self, sheet):
        drawn = sheet()
        drawn.loop("SLAB", L_SHAPE)
        for i in range(3000):
            drawn.space.add_line(
                (i % 60, i // 60), (i % 60 + 0.7, i // 60), dxfattribs={"layer": "GRASS"}
            )
        drawn.space.add_text("NOTE")
        parts = read(drawn)
        assert area(parts.outline) == pytest.approx(L_AREA)

    def test_damaged_entities_are_skipped_and_counted(self, sheet):
        from kerfline.files.drawing import read_drawing

        drawn = sheet()
        drawn.loop("SLAB", L_SHAPE)
        drawn.space.add_line((5, 5), (5, 5), dxfattribs={"layer": "SLAB"})
        drawn.space.add_line((math.nan, 5), (5, 5), dxfattribs={"layer": "SLAB"})
        drawn.space.add_lwpolyline([(1, 1)], dxfattribs={"layer": "SLAB"})
        drawn.space.add_circle((50, 50), 0, dxfattribs={"layer": "SLAB"})
        drawn.space.add_arc((50, 50), math.nan, 0, 90, dxfattribs={"layer": "SLAB"})
        drawn.space.add_lwpolyline(
            [(0, 0, math.inf), (5, 5, 0)], format="xyb", dxfattribs={"layer": "SLAB"}
        )
        path = drawn.save()
        why = {(s.kind, s.why): s.count for s in read_drawing(path).skipped}
        assert why[("LINE", "it has no length in plan")] == 1
        assert why[("LINE", "a coordinate is not a number")] == 1
        assert why[("CIRCLE", "its radius is nothing")] == 1
        parts = read_slab_parts(path, SLAB)
        assert area(parts.outline) == pytest.approx(L_AREA)
        assert "SLAB: 1 LINE not read, it has no length in plan." in parts.notes


def test_a_hidden_layer_that_is_named_is_read_and_it_is_said(sheet):
    drawn = sheet()
    drawn.poly("SLAB", L_SHAPE)
    drawn.doc.layers.add("SLAB").off()
    assert read(drawn).notes == ("Off or frozen in the drawing, and read as you say: SLAB.",)


def test_a_small_slab_makes_the_unit_doubtful(sheet):
    drawn = sheet(units.MM)
    drawn.poly("SLAB", [(x * 5, y * 5) for x, y in L_SHAPE])
    assert read(drawn).notes == (
        "The slab is only 2400 mm long: is the drawing's unit millimetres?",
    )


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


def test_a_layer_that_is_not_there_names_those_that_are_the_likest_first(sheet):
    drawn = sheet()
    drawn.poly("S-SLAB-EDGE", L_SHAPE)
    drawn.line("A-DOOR", (0, 0), (9, 9))
    words = refused(drawn, Layers(outline=("S-SLB-EDGE",), walls=("A-WALL*",)))
    assert "no layer of the drawing matches 'S-SLB-EDGE'" in words
    assert "no layer of the drawing matches 'A-WALL*'" in words
    assert words.index("S-SLAB-EDGE") < words.index("A-DOOR")


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


def test_things_in_paper_space_are_told_of(sheet):
    drawn = sheet()
    drawn.doc.layout("Layout1").add_lwpolyline(L_SHAPE, close=True)
    assert "found things on the paper-space sheet Layout1" in refused(drawn)


class TestJoinedRings:
    """Rings that share an edge are one."""

    def test_two_that_adjoin_are_one_and_a_third_stays(self):
        rings = [
            box_ring(0, 0, 5000, 4000),
            box_ring(5000, 0, 4000, 4000),
            box_ring(20000, 0, 99, 99),
        ]
        assert [r.polygon.area for r in joined_rings(rings)] == pytest.approx([36e6, 9801])

    @pytest.mark.parametrize(("shared", "count"), [(90.0, 2), (110.0, 1)])
    def test_a_touch_of_a_tenth_of_a_metre_joins_nothing(self, shared, count):
        rings = [box_ring(0, 0, 5000, 4000), box_ring(5000, 4000 - shared, 4000, 4000)]
        assert len(joined_rings(rings)) == count

    def test_a_ring_within_another_is_not_joined_and_none_give_none(self):
        assert len(joined_rings([box_ring(0, 0, 5000, 4000), box_ring(9, 9, 99, 99)])) == 2
        assert joined_rings([]) == []
