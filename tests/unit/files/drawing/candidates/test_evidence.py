"""What speaks for a candidate and against it, held against drawings that are made for each sign."""

import pytest
from ezdxf import units
from shapely import box

from drawn_candidates import house, rectangle, says, signs_of
from kerfline.files.drawing.candidates.candidate import Candidate, Source
from kerfline.files.drawing.candidates.evidence import NO_SLAB
from kerfline.geometry.ring import Ring


@pytest.fixture
def drawn(sheet):
    return sheet(units.MM)


@pytest.mark.parametrize(
    ("layer", "points"),
    [
        ("S-SLAB-EDGE", 6),
        ("SLAB", 5),
        ("FOOTPRINT", 4),
        ("FNDN", 2.5),
        ("OUTLINE", 1.5),
        ("FLOOR", 1),
    ],
)
def test_a_name_that_speaks_of_the_slab_speaks_for_it(drawn, layer, points):
    drawn.poly(layer, rectangle(0, 0, 12_000, 8_000))
    (sign,) = says(signs_of(drawn, (0, 0, 12_000, 8_000)), "speaks of the slab")
    assert sign.points == points


@pytest.mark.parametrize("layer", ["A-ROOF", "C-SITE", "Projection", "A-FLOR-OVHD", "ESCALERA"])
def test_a_name_of_something_else_speaks_against_it(drawn, layer):
    drawn.poly(layer, rectangle(0, 0, 12_000, 8_000))
    found = signs_of(drawn, (0, 0, 12_000, 8_000))
    (sign,) = says(found, "names something else")
    assert sign.points == -4
    assert sign.around


@pytest.mark.parametrize(("width", "strip"), [(505, True), (520, False), (1_000, False)])
def test_a_strip_is_no_slab(drawn, width, strip):
    """Twice the area over the perimeter is half a metre where 20 m are 513 mm wide: 20 w = 0.5 (20 + w)."""
    drawn.poly("1", rectangle(0, 0, 20_000, width))
    drawn.poly("1", rectangle(0, 5_000, 20_000, 9_000))
    found = signs_of(drawn, (0, 0, 20_000, width))
    assert bool(says(found, "strip")) is strip
    assert not strip or found.points < NO_SLAB / 2


def test_walls_on_it_speak_for_it_and_walls_beside_it_against(drawn):
    house(drawn)
    drawn.poly("1", rectangle(-50, -50, 12_050, 8_050))
    drawn.poly("2", rectangle(20_000, 0, 30_000, 9_000))
    on, off = (
        signs_of(drawn, (-50, -50, 12_050, 8_050)),
        signs_of(drawn, (20_000, 0, 30_000, 9_000)),
    )
    assert says(on, "100% of the walls stand on it")[0].points == pytest.approx(2)
    assert says(off, "0% of the walls stand on it")[0].points == pytest.approx(-2)
    assert says(on, "walls stand all along its edge")
    assert not says(off, "walls stand all along its edge")


def test_a_line_around_a_small_building_is_a_site(drawn):
    house(drawn)
    drawn.poly("9", [(-20_000, -15_000), (40_000, -16_000), (38_000, 30_000), (-21_000, 28_000)])
    found = signs_of(drawn, (-21_000, -16_000, 40_000, 30_000))
    (sign,) = says(found, "a site, or a frame")
    assert sign.around


@pytest.mark.parametrize(("side", "site"), [(6_000, False), (7_000, True)])
def test_a_closed_figure_of_a_buildings_size_makes_a_site_of_the_line_around_it(drawn, side, site):
    """Without walls nothing says whether 49 square metres are a house on a plot or a hole in a slab."""
    drawn.poly("1", rectangle(0, 0, 40_000, 25_000))
    drawn.poly("1", rectangle(5_000, 5_000, 5_000 + side, 5_000 + side))
    found = signs_of(drawn, (0, 0, 40_000, 25_000))
    assert bool(says(found, "a site with a building")) is site


def test_a_room_within_the_walls_and_a_figure_within_another_of_its_layer(drawn):
    house(drawn)
    drawn.poly("Z", rectangle(200, 200, 5_900, 7_800))
    assert says(signs_of(drawn, (200, 200, 5_900, 7_800)), "within the walls: a room")
    drawn.poly("S-SLAB", rectangle(0, 0, 12_000, 8_000))
    drawn.poly("S-SLAB", rectangle(3_000, 3_000, 5_000, 5_000))
    assert says(signs_of(drawn, (3_000, 3_000, 5_000, 5_000)), "in a larger outline of its layer")


def test_what_is_drawn_in_it_speaks_by_its_share(drawn):
    drawn.poly("1", rectangle(0, 0, 20_000, 10_000))
    for n in range(10):
        drawn.line("2", (1_000 + 900 * n, 1_000), (1_000 + 900 * n, 2_000))
    full = signs_of(drawn, (0, 0, 20_000, 10_000))
    assert says(full, "100% of what is drawn lies in it")[0].points == pytest.approx(1)
    assert says(full, "everything lies in it")
    for n in range(11):
        drawn.line("2", (41_000 + 900 * n, 1_000), (41_000 + 900 * n, 2_000))
    half = signs_of(drawn, (0, 0, 20_000, 10_000))
    assert says(half, "50% of what is drawn lies in it")[0].points == pytest.approx(0)
    assert not says(half, "everything lies in it")


def test_signs_are_told_gravest_first(drawn):
    drawn.poly("A-ROOF", rectangle(0, 0, 3_000, 2_000))
    found = signs_of(drawn, (0, 0, 3_000, 2_000))
    assert found.doubts == ("its layer A-ROOF names something else", "it is small")
    assert found.points == pytest.approx(sum(s.points for s in found.signs))


def test_a_candidate_knows_its_area():
    ring = Ring.of(box(0, 0, 3_000, 2_000))
    assert Candidate(ring=ring, layers=("1",), source=Source.FILL).polygon.area == 6e6


@pytest.mark.parametrize(("beyond", "axes"), [(600, True), (400, False)])
def test_lines_that_run_on_beyond_a_figure_are_axes(drawn, beyond, axes):
    """An edge drawn too long ends within half a metre; an axis runs on to its bubble."""
    for n in range(3):
        drawn.line("3", (5_000 * n, -beyond), (5_000 * n, 10_000 + beyond))
        drawn.line("3", (-beyond, 5_000 * n), (10_000 + beyond, 5_000 * n))
    found = says(signs_of(drawn, (0, 0, 10_000, 10_000)), "a grid of axes")
    assert [s.around for s in found] == ([True] if axes else [])


def floor_with_doors(drawn, *, doors):
    """A house with a line along the inner faces of its outer walls, and doors that swing in it."""
    house(drawn)
    for n in range(doors):
        x = 1_000 + 2_000 * n
        drawn.line("5", (x, 200), (x, 1_100))
        drawn.space.add_arc((x, 200), 900, 0, 90, dxfattribs={"layer": "5"})


INNER = (200, 200, 11_800, 7_800)


@pytest.mark.parametrize(
    ("layer", "doors", "room"), [("9", 1, True), ("9", 0, False), ("S-SLAB", 1, False)]
)
def test_a_line_along_the_inner_faces_of_walls_is_the_area_of_a_room(drawn, layer, doors, room):
    """On a plan with doors, and where no name says that the slab ends between the walls."""
    floor_with_doors(drawn, doors=doors)
    drawn.poly(layer, rectangle(*INNER))
    assert bool(says(signs_of(drawn, INNER), "inner faces of the walls")) is room


@pytest.mark.parametrize("off", [0, 60, -60])
def test_a_line_away_from_the_faces_of_the_walls_is_none(drawn, off):
    floor_with_doors(drawn, doors=1)
    x0, y0, x1, y1 = INNER
    ring = (x0 + off, y0 + off, x1 - off, y1 - off)
    drawn.poly("9", rectangle(*ring))
    assert bool(says(signs_of(drawn, ring), "inner faces of the walls")) is (off == 0)


@pytest.mark.parametrize("layer", ["7", "A-ROOF"])
def test_a_line_along_the_outer_faces_is_no_room_within_a_roof(drawn, layer):
    floor_with_doors(drawn, doors=1)
    drawn.poly("9", rectangle(0, 0, 12_000, 8_000))
    drawn.poly(layer, rectangle(-300, -300, 12_300, 8_300))
    assert not says(signs_of(drawn, (0, 0, 12_000, 8_000)), "inner faces of the walls")


def test_a_line_along_the_inner_faces_is_a_room_beside_a_line_along_the_outer_ones(drawn):
    """The slab's line stands for the walls that it is drawn over; what takes up most of it is the floor within."""
    floor_with_doors(drawn, doors=1)
    drawn.poly("9", rectangle(0, 0, 12_000, 8_000))
    drawn.poly("8", rectangle(*INNER))
    outer, inner = signs_of(drawn, (0, 0, 12_000, 8_000)), signs_of(drawn, INNER)
    assert outer.source is Source.CLOSED
    assert says(inner, "inner faces of the walls")
    assert not says(outer, "inner faces of the walls")
