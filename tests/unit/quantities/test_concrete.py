"""The concrete held against solids of another library (manifold3d), on ten shapes.

The solids are built another way than the take-off works: whole bodies united in space, sloping faces
as hulls, instead of areas level by level. Metres.
"""

import pytest
import shapely
from manifold3d import CrossSection, FillRule, Manifold
from shapely import LineString, Polygon

from kerfline.geometry.ring import Ring, circle
from kerfline.model.slab import Boxout, Column, Edge, EdgeKind, Slab, Wall, Zone
from kerfline.quantities.concrete import concrete_body

T, D, WIDTH = 0.1, 0.45, 0.3
"""Thickness of the slab, depth and bottom width of its turned-down edges."""

RECTANGLE = ((0, 0), (12, 0), (12, 9), (0, 9))
TRAPEZIUM = ((0, 0), (12, 0), (9, 7), (2, 7))
HEXAGON = ((0, 0), (6, -2), (11, 1), (11, 7), (5, 9), (0, 6))
ELL = ((0, 0), (12, 0), (12, 5), (6, 5), (6, 9), (0, 9))
YOU = ((0, 0), (12, 0), (12, 9), (8, 9), (8, 4), (4, 4), (4, 9), (0, 9))


def ring(points):
    return Ring(tuple((x * 1000.0, y * 1000.0) for x, y in points))


def turned_down(count, slope=0.0, number=0, skip=()):
    return tuple(
        Edge(ring=number, segment=i, kind=EdgeKind.TURNDOWN, depth=450, width=300, slope=slope)
        for i in range(count)
        if i not in skip
    )


def prism(polygon, top, bottom):
    """A solid between two depths, in metres."""
    rings = [polygon.exterior, *polygon.interiors]
    section = CrossSection([list(r.coords)[:-1] for r in rings], FillRule.EvenOdd)
    return Manifold.extrude(section, bottom - top).translate((0, 0, -bottom))


def frustum(above, below, top, bottom):
    """The hull of two convex outlines at two depths."""
    points = [(x, y, -top) for x, y in above.exterior.coords]
    points += [(x, y, -bottom) for x, y in below.exterior.coords]
    return Manifold.hull_points(points)


def shrunk(polygon, distance):
    return polygon.buffer(-distance, join_style="mitre", mitre_limit=20)


def edge_solid(outline, slope):
    """A turned-down edge round a convex outline: the outer solid less the core."""
    top = WIDTH + slope * (D - T)
    core = frustum(shrunk(outline, top), shrunk(outline, WIDTH), T, D)
    return prism(outline, T, D) - core


def upright_edge(outline):
    return prism(outline, T, D) - prism(shrunk(outline, WIDTH), T, D)


def strip_solid(line, width, depth, slope, outline):
    """A strip with two sloping sides, clipped to the slab's outline."""
    top = line.buffer(width / 2 + slope * depth, cap_style="flat")
    bottom = line.buffer(width / 2, cap_style="flat")
    return frustum(top, bottom, 0.0, depth) ^ prism(outline, 0.0, 2.0)


def wall(name, *points, slope=0.0):
    path = tuple((x * 1000.0, y * 1000.0) for x, y in points)
    return Wall(
        id=name, path=path, bearing=True, strip_width=300, strip_depth=300, strip_slope=slope
    )


def measured(slab):
    """The take-off in m3."""
    return concrete_body(slab).volume() / 1e9


def same(slab, solid):
    assert measured(slab) == pytest.approx(solid.volume(), rel=1e-6)


def test_1_plain_rectangle():
    """A slab alone."""
    same(Slab(outline=ring(RECTANGLE), thickness=100), prism(Polygon(RECTANGLE), 0, T))


def test_2_rectangle_with_straight_edge():
    """Upright inner face."""
    slab = Slab(outline=ring(RECTANGLE), thickness=100, edges=turned_down(4))
    outline = Polygon(RECTANGLE)
    same(slab, prism(outline, 0, T) + upright_edge(outline))


def test_3_rectangle_with_sloping_edge():
    """Inner face at 45 degrees."""
    slab = Slab(outline=ring(RECTANGLE), thickness=100, edges=turned_down(4, 1.0))
    outline = Polygon(RECTANGLE)
    same(slab, prism(outline, 0, T) + edge_solid(outline, 1.0))


@pytest.mark.parametrize("points", [TRAPEZIUM, HEXAGON])
def test_4_and_5_oblique_outlines_with_sloping_edge(points):
    """Corners that are not square mitre the same in both."""
    slab = Slab(outline=ring(points), thickness=100, edges=turned_down(len(points), 0.5))
    outline = Polygon(points)
    same(slab, prism(outline, 0, T) + edge_solid(outline, 0.5))


@pytest.mark.parametrize("points", [ELL, YOU])
def test_6_and_7_reentrant_outlines(points):
    """A re-entrant corner's edge is mitred outward."""
    slab = Slab(outline=ring(points), thickness=100, edges=turned_down(len(points)))
    outline = Polygon(points)
    same(slab, prism(outline, 0, T) + upright_edge(outline))


def test_8_courtyard_with_its_own_edge():
    """An opening with a turned-down edge of its own, and a boxout."""
    hole = ((4, 3), (8, 3), (8, 6), (4, 6))
    column = Column(id="C1", at=(2000.0, 2000.0), boxout=Boxout.SQUARE, size=600)
    slab = Slab(
        outline=ring(RECTANGLE),
        openings=(ring(hole),),
        thickness=100,
        columns=(column,),
        edges=turned_down(4, number=1),
    )
    box = shapely.box(1.7, 1.7, 2.3, 2.3)
    court = Polygon(hole)
    concrete = Polygon(RECTANGLE).difference(court).difference(box)
    rim = court.buffer(WIDTH, join_style="mitre").difference(court)
    same(slab, prism(concrete, 0, T) + prism(rim, T, D))


def test_9_crossing_strips_meet_edges_and_a_pad():
    """Everything overlaps everything: strips cross, run into the edge and through a pad."""
    first, second = ((0, 4), (12, 4)), ((5, 0), (5, 9))
    pad = ((4, 3), (6.5, 3), (6.5, 5.5), (4, 5.5))
    slab = Slab(
        outline=ring(RECTANGLE),
        thickness=100,
        edges=turned_down(4),
        walls=(wall("W1", *first, slope=1.0), wall("W2", *second, slope=0.5)),
        zones=(Zone(id="Z1", outline=ring(pad), thickness=250),),
    )
    outline = Polygon(RECTANGLE)
    solid = (
        prism(outline, 0, T)
        + upright_edge(outline)
        + strip_solid(LineString(first), 0.3, 0.3, 1.0, outline)
        + strip_solid(LineString(second), 0.3, 0.3, 0.5, outline)
        + prism(Polygon(pad), 0, 0.25)
    )
    # the levels at which the two strips' sides part from the pad fall between quadrature nodes
    assert measured(slab) == pytest.approx(solid.volume(), rel=1e-5)


def test_10_round_slab_with_edge_on_half_of_it():
    """A circle of two arcs, one of them turned down, and a thinner zone inside."""
    outline = circle((6000.0, 6000.0), 5000.0)
    thin = ((4, 6.5), (7, 6.5), (7, 9), (4, 9))
    slab = Slab(
        outline=outline,
        thickness=100,
        edges=turned_down(1),
        zones=(Zone(id="Z1", outline=ring(thin), thickness=60),),
    )
    chords = Polygon([(x / 1000, y / 1000) for x, y in outline.coordinates])
    half = LineString([p for p in chords.exterior.coords[:-1] if p[1] <= 6.0 + 1e-9])
    band = half.buffer(WIDTH, cap_style="flat", join_style="mitre").intersection(chords)
    solid = (
        prism(chords.difference(Polygon(thin)), 0, T)
        + prism(Polygon(thin), 0, 0.06)
        + prism(max(band.geoms, key=lambda g: g.area) if hasattr(band, "geoms") else band, T, D)
    )
    same(slab, solid)


def test_a_zone_thinner_than_the_slab_takes_concrete_away_and_a_thicker_one_adds_below():
    """12 x 9 m at 100 mm are 10.8 m3; 3 x 3 m at 60 mm take 0.36 away and at 250 mm add 1.35."""
    square = ring(((1, 1), (4, 1), (4, 4), (1, 4)))
    thin, thick = (Zone(id="Z1", outline=square, thickness=t) for t in (60, 250))
    assert measured(Slab(outline=ring(RECTANGLE), thickness=100, zones=(thin,))) == pytest.approx(
        10.44
    )
    body = concrete_body(Slab(outline=ring(RECTANGLE), thickness=100, zones=(thick,)))
    parts = {name: volume / 1e9 for name, volume in body.by_component().items()}
    assert parts == pytest.approx({"slab": 10.8, "thicker zone Z1": 1.35})
    assert body.below_slab() / 1e9 == pytest.approx(1.35)


def test_where_zones_overlap_the_first_one_counts():
    """Of 2 x 9 m of each the second has 1 x 9 m: 1.8 m3 + 0.9 x 2 m3 more than 10.8."""
    first = Zone(id="Z1", outline=ring(((1, 0), (3, 0), (3, 9), (1, 9))), thickness=200)
    second = Zone(id="Z2", outline=ring(((2, 0), (4, 0), (4, 9), (2, 9))), thickness=300)
    slab = Slab(outline=ring(RECTANGLE), thickness=100, zones=(first, second))
    assert measured(slab) == pytest.approx(10.8 + 1.8 + 1.8)


@pytest.mark.parametrize(
    ("bearing", "width", "depth"), [(False, 400, 400), (True, 0, 400), (True, 400, 0)]
)
def test_a_wall_without_a_strip_adds_nothing(bearing, width, depth):
    own = Wall(
        id="W1",
        path=((0, 4000), (12_000, 4000)),
        bearing=bearing,
        strip_width=width,
        strip_depth=depth,
    )
    assert measured(Slab(outline=ring(RECTANGLE), thickness=100, walls=(own,))) == pytest.approx(
        10.8
    )


@pytest.mark.parametrize("cut", [0.5, 5.0, 11.9])
def test_the_concrete_of_two_parts_is_that_of_the_whole(cut):
    slab = Slab(outline=ring(RECTANGLE), thickness=100, edges=turned_down(4, 1.0))
    body = concrete_body(slab)
    left = shapely.box(-1, -1, cut * 1000, 10_000)
    right = shapely.box(cut * 1000, -1, 13_000, 10_000)
    assert body.volume(left) + body.volume(right) == pytest.approx(body.volume())
    assert body.volume(shapely.box(20_000, 0, 30_000, 9000)) == 0
