"""What may be a part of the slab without saying so is offered, with the words that take it; the rest is not."""

import pytest
from ezdxf import units

from kerfline.app.check import check_job
from kerfline.app.open_job import open_job
from kerfline.app.wishes import Wishes
from kerfline.errors import InputRefused
from kerfline.files.drawing import ReadingWishes, gather, reading
from kerfline.files.drawing.perhaps import offers
from kerfline.model.slab import Boxout, PenetrationKind


@pytest.fixture
def drawn(sheet):
    """A slab of 12 x 8 m."""
    made = sheet(units.MM)
    made.poly("S-SLAB", [(0, 0), (12_000, 0), (12_000, 8_000), (0, 8_000)])
    return made


def block(drawn, name, layer, places, side=200):
    """References to a block with a cross in it, on layer 0 of the block: nothing that is closed."""
    made = drawn.doc.blocks.new(name)
    made.add_line((0, 0), (side, side))
    made.add_line((0, side), (side, 0))
    for at in places:
        drawn.space.add_blockref(name, at, dxfattribs={"layer": layer})


ROW = [(1_000 + 2_000 * n, 4_000) for n in range(5)]


def read_of(drawn, **layers):
    return reading(gather(drawn.save()), ReadingWishes(layers=layers))


def offered(drawn, *, joints=False):
    read = read_of(drawn)
    return " ".join(offers(read.drawing, read.parts, read.look.layers, joints=joints))


def test_blocks_that_repeat_are_offered(drawn):
    block(drawn, "POST-A", "S-MISC", ROW)
    said = offered(drawn)
    assert "5 of POST-A on S-MISC" in said
    assert '--columns "block:POST-A" or --penetrations "block:POST-A"' in said


@pytest.mark.parametrize(
    ("name", "layer", "places", "side"),
    [
        ("POST-A", "S-MISC", ROW[:3], 200),  # too few
        ("CHAIR", "S-MISC", ROW, 200),
        ("POST-A", "A-FURN", ROW, 200),
        ("POST-A", "S-MISC", [(x, 20_000) for x, _ in ROW], 200),  # beside the slab
        ("POST-A", "S-MISC", ROW, 4_000),  # too large
    ],
)
def test_other_blocks_are_not(drawn, name, layer, places, side):
    block(drawn, name, layer, places, side)
    assert "blocks that repeat" not in offered(drawn)


def test_a_block_can_be_named_in_place_of_a_layer(drawn):
    block(drawn, "POST-A", "S-MISC", ROW)
    drawn.square("S-MISC", (6_000, 6_000), 300)
    parts = read_of(drawn, columns=("block:post*",)).parts
    assert [c.boxout for c in parts.columns] == [Boxout.SQUARE] * 5
    assert {c.size for c in parts.columns} == {200.0}

    parts = read_of(drawn, penetrations=("block:POST-A",)).parts
    assert len(parts.penetrations) == 5


def test_a_block_whose_name_says_what_it_is_needs_no_answer(drawn):
    block(drawn, "FLOOR DRAIN", "S-MISC", ROW[:2])
    block(drawn, "COLUMN-200", "S-MISC", [(3_000, 2_000)])
    read = read_of(drawn)
    assert [p.kind for p in read.parts.penetrations] == [PenetrationKind.DRAIN] * 2
    assert len(read.parts.columns) == 1
    assert "Penetrations: block FLOOR DRAIN, by name." in read.look.proposal.notes


def test_a_block_that_is_not_there_is_refused_with_those_that_are(drawn):
    block(drawn, "POST-A", "S-MISC", ROW)
    with pytest.raises(InputRefused, match=r"no block that is drawn matches 'PILE'.*POST-A"):
        read_of(drawn, columns=("block:PILE",))


def test_lines_on_the_slab_are_offered_as_joints_the_longest_first(drawn):
    drawn.line("7", (6_000, 0), (6_000, 8_000))
    drawn.line("8", (0, 4_000), (12_000, 4_000))
    drawn.line("8", (0, 2_000), (12_000, 2_000))
    drawn.line("9", (0, 10), (12_000, 10))  # along the edge
    drawn.line("9", (2_000, 9_000), (2_000, 12_000))  # outside
    drawn.line("9", (2_000, 3_000), (2_500, 3_000))  # short
    drawn.line("A-DOOR", (2_000, 3_000), (2_000, 5_000))
    said = offered(drawn, joints=True)
    assert "Joints perhaps, as lines on the slab: 8 (2 lines, 24.0 m); 7 (1 line, 8.0 m). " in said
    assert '--joints "8"' in said
    assert "Joints" not in offered(drawn)


def test_a_check_without_joints_names_the_layers_that_may_hold_them(drawn):
    drawn.line("7", (6_000, 0), (6_000, 8_000))
    job = open_job(drawn.save(), Wishes(thickness="150 mm", asks=True))
    with pytest.raises(
        InputRefused, match=r'no joints to check.*7 \(1 line, 8.0 m\).*--joints "7"'
    ):
        check_job(job)


@pytest.mark.parametrize(("width", "told"), [(400, True), (200, False)])
def test_footings_under_inner_walls_are_offered_as_bearing_strips(drawn, width, told):
    drawn.wall("A-WALL", (6_000, 0), (6_000, 8_000), 150)
    drawn.wall("A-WALL", (9_000, 0), (9_000, 8_000), 150)
    drawn.wall("S-FOOTER", (6_000, 0), (6_000, 8_000), width)
    said = offered(drawn)
    words = "Footings on S-FOOTER, 400 mm wide, lie under 1 interior wall (W1)."
    assert (words in said) is told
    assert ('strip_width = "400 mm"' in said) is told


@pytest.mark.parametrize("joints", [False, True])
def test_lines_on_the_layer_of_an_unnamed_edge_are_left_out_with_a_word(sheet, joints):
    made = sheet(units.MM)
    made.poly("0", [(0, 0), (12_000, 0), (12_000, 8_000), (0, 8_000)])
    made.line("0", (6_000, 0), (6_000, 8_000))
    made.line("0", (6_000, 4_000), (12_000, 4_000))
    made.line("0", (1_000, 1_000), (1_500, 1_000))  # too short
    made.line("0", (0, 10), (12_000, 10))  # along the edge
    said = offered(made, joints=joints)
    what, more = ("walls or joints", ' or --joints "0"') if joints else ("walls", "")
    assert (
        f"Left out: 2 lines on the slab on 0, the layer of its edge, 14.0 m in all; {what} perhaps"
        in said
    )
    assert f'Name them with --walls "0"{more}.' in said
    assert not read_of(made).parts.walls
    assert len(read_of(made, walls=("0",)).parts.walls) == 2


def test_lines_on_a_slabs_own_layer_are_not_offered_as_walls(drawn):
    drawn.line("S-SLAB", (6_000, 0), (6_000, 8_000))
    assert "walls perhaps" not in offered(drawn)
