"""The border of a sheet is known by its room, its paper, its words, and a second line along it."""

import pytest
from ezdxf import units

from drawn_candidates import house, rectangle, says, signs_of


@pytest.fixture
def drawn(sheet):
    return sheet(units.MM)


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


@pytest.mark.parametrize(("inset", "border"), [(400, True), (1_500, False)])
def test_a_second_line_along_a_border_is_of_the_border(drawn, inset, border):
    """Within a tenth of its area; what lies farther inside is a figure of its own."""
    house(drawn)
    for n in range(4):
        drawn.poly("8", rectangle(1_000 + 2_000 * n, 1_000, 2_000 + 2_000 * n, 2_000))
    outer = (-9_000, -6_000, 21_000, 14_000)
    inner = (outer[0] + inset, outer[1] + inset, outer[2] - inset, outer[3] - inset)
    drawn.poly("9", rectangle(*outer))
    drawn.poly("9", rectangle(*inner))
    for n in range(3):
        drawn.line("9", (-8_800, -5_900 + n * 50), (-8_700, -5_900 + n * 50))
    found = says(signs_of(drawn, inner), "along the border of the sheet")
    assert bool(found) is border
    assert all(s.around for s in found)
