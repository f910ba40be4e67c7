"""What speaks for a candidate and against it, held against drawings that are made for each sign."""

import pytest
from ezdxf import units
from shapely import box

from kerfline.files.drawing import read_drawing
from kerfline.files.drawing.candidates import gathered, judged, scene_of
from kerfline.files.drawing.candidates.candidate import Candidate, Source
from kerfline.files.drawing.candidates.evidence import NO_SLAB
from kerfline.geometry.ring import Ring


@pytest.fixture
def drawn(sheet):
    return sheet(units.MM)


def rectangle(x0, y0, x1, y1):
    return [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]


def signs_of(drawn, bounds):
    """The candidate of these bounds, judged among all that the drawing holds."""
    scene = scene_of(read_drawing(drawn.save()))
    candidates = judged(scene, gathered(scene))
    near = [
        c
        for c in candidates
        if max(abs(a - b) for a, b in zip(c.polygon.bounds, bounds, strict=True)) < 5
    ]
    assert near, [c.polygon.bounds for c in candidates]
    return near[0]


def says(candidate, words):
    return [s for s in candidate.signs if words in s.words]


def house(drawn, layer="A-WALL", at=(0, 0)):
    """Walls of 200 mm around 12 x 8 m and one across."""
    x, y = at
    drawn.poly(layer, rectangle(x, y, x + 12_000, y + 8_000))
    drawn.poly(layer, rectangle(x + 200, y + 200, x + 11_800, y + 7_800))
    drawn.wall(layer, (x + 6_000, y + 200), (x + 6_000, y + 7_800), 200)


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


@pytest.mark.parametrize("room", [2_000, 100])
def test_a_frame_lies_around_everything_with_room_to_spare(drawn, room):
    """A rectangle close around the plan is no frame: things come near its edge."""
    house(drawn)
    wide, high = 12_000 + 2 * room, 8_000 + 2 * room
    for n in range(12):
        drawn.line("3", (n * 900, -room + 40), (n * 900 + 500, -room + 40))
    frame = rectangle(-room, -room, wide - room, high - room)
    drawn.poly("9", frame)
    found = signs_of(drawn, (-room, -room, wide - room, high - room))
    assert bool(says(found, "with room to spare: a frame")) is False

    drawn.poly("9", rectangle(-9_000, -9_000, 21_000, 17_000))
    outer = signs_of(drawn, (-9_000, -9_000, 21_000, 17_000))
    (sign,) = says(outer, "with room to spare: a frame")
    assert sign.around
    assert sign.points == -4


@pytest.mark.parametrize(("layer", "frame"), [("S-SLAB", False), ("OUTLINE", True), ("9", True)])
def test_a_slab_by_its_name_is_no_frame_however_little_stands_on_it(drawn, layer, frame):
    drawn.poly(layer, rectangle(0, 0, 30_000, 20_000))
    for n in range(9):
        drawn.poly("8", rectangle(2_500 * n + 4_000, 8_000, 2_500 * n + 6_000, 11_000))
    found = signs_of(drawn, (0, 0, 30_000, 20_000))
    assert bool(says(found, "with room to spare: a frame")) is frame


@pytest.mark.parametrize(("within", "frame"), [(8, True), (7, False)])
def test_around_a_handful_of_lines_an_edge_looks_like_a_sheets(drawn, within, frame):
    """A house and a room in it, drawn as two rectangles, are no plan in a frame."""
    drawn.poly("9", rectangle(0, 0, 30_000, 20_000))
    for n in range(within):
        drawn.poly("9", rectangle(2_500 * n + 4_000, 8_000, 2_500 * n + 6_000, 11_000))
    found = signs_of(drawn, (0, 0, 30_000, 20_000))
    assert bool(says(found, "with room to spare: a frame")) is frame


@pytest.mark.parametrize(
    ("width", "height", "paper"),
    [(42_045, 29_730, True), (43_200, 27_900, True), (40_000, 40_000, False)],
)
def test_a_frame_in_the_proportions_of_paper(drawn, width, height, paper):
    """ISO 216: the square root of two to one; ANSI/ASME Y14.1 B: 17 to 11."""
    house(drawn)
    for n in range(4):
        drawn.poly("8", rectangle(1_000 + 2_000 * n, 1_000, 2_000 + 2_000 * n, 2_000))
    drawn.poly("9", rectangle(-15_000, -10_000, -15_000 + width, -10_000 + height))
    found = signs_of(drawn, (-15_000, -10_000, -15_000 + width, -10_000 + height))
    assert bool(says(found, "sheet of paper")) is paper


def test_the_words_of_a_title_block_speak_of_a_frame(drawn):
    house(drawn)
    drawn.poly("9", rectangle(-9_000, -9_000, 30_000, 17_000))
    for n, words in enumerate(("SCALE 1:100", "SHEET S1", "a room")):
        drawn.space.add_text(words, height=200, dxfattribs={"insert": (25_000, -8_000 + n * 400)})
    found = signs_of(drawn, (-9_000, -9_000, 30_000, 17_000))
    assert says(found, "2 texts of a title block")


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
