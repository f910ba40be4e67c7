"""A legend that shows a line beside the words for a joint says what is drawn so; nothing else does."""

import pytest
from ezdxf import units

from kerfline.files.drawing import gather, reading
from kerfline.model.slab import JointKind


@pytest.fixture
def drawn(sheet):
    """A slab of 12 x 8 m with a line each way on layers that say nothing, and room for a legend below."""
    made = sheet(units.MM)
    made.poly("S-SLAB", [(0, 0), (12_000, 0), (12_000, 8_000), (0, 8_000)])
    made.line("7", (6_000, 0), (6_000, 8_000))
    made.line("8", (0, 4_000), (12_000, 4_000))
    return made


def words(drawn, text, at):
    drawn.space.add_text(text, height=200, dxfattribs={"insert": at, "layer": "TEXT"})


def joints_of(drawn):
    return {j.kind for j in reading(gather(drawn.save())).parts.joints}


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("CONTROL JOINT", JointKind.CONTROL),
        ("Sawcut joint, 1/4 of the depth", JointKind.CONTROL),
        ("CONSTRUCTION JOINTS", JointKind.CONSTRUCTION),
        ("EXPANSION JT", JointKind.ISOLATION),
    ],
)
def test_a_sample_beside_its_words(drawn, text, kind):
    drawn.line("7", (0, -3_000), (1_500, -3_000))
    words(drawn, text, (2_000, -3_100))

    read = reading(gather(drawn.save()))

    assert [j.kind for j in read.parts.joints] == [kind]
    assert read.parts.joints[0].path[0][0] == pytest.approx(6_000)
    assert "Joints: 7, as the drawing's own legend shows." in read.look.proposal.notes


def test_types_of_line_tell_two_kinds_on_one_layer_apart(drawn):
    for n, (name, text) in enumerate(
        (("DASHED", "CONTROL JOINT"), ("CENTER", "CONSTRUCTION JOINT"))
    ):
        drawn.doc.linetypes.add(name, [0.2, 0.1, -0.1])
        attribs = {"layer": "7", "linetype": name}
        y = -3_000 - 600 * n
        drawn.space.add_line((0, y), (1_500, y), dxfattribs=attribs)
        words(drawn, text, (2_000, y - 100))
        drawn.space.add_line((3_000 + 6_000 * n, 0), (3_000 + 6_000 * n, 8_000), dxfattribs=attribs)

    joints = reading(gather(drawn.save())).parts.joints
    kinds = {round(j.path[0][0]): j.kind for j in joints}

    assert kinds[3_000] is JointKind.CONTROL
    assert kinds[9_000] is JointKind.CONSTRUCTION


def test_a_layer_cj_whose_sample_says_what_it_is_needs_no_question(drawn):
    drawn.line("CJ", (3_000, 0), (3_000, 8_000))
    drawn.line("CJ", (0, -3_000), (1_500, -3_000))
    words(drawn, "CONSTRUCTION JOINT", (2_000, -3_100))
    assert joints_of(drawn) == {JointKind.CONSTRUCTION}


@pytest.mark.parametrize(
    ("line", "at"),
    [
        (((0, -3_000), (1_500, -3_000)), (4_000, -3_000)),  # too far away
        (((0, -3_000), (1_500, -3_000)), (2_000, -3_600)),  # not level with it
        (((0, -3_000), (1_500, -3_000)), (-900, -3_000)),  # on its left
        (((0, -3_000), (5_000, -3_000)), (5_200, -3_000)),  # too long for a sample
        (((0, -3_000), (1_500, -2_000)), (2_000, -3_000)),  # slanting
        (((0, -3_000), (1_500, -3_000), (1_500, -2_500)), (2_000, -3_000)),  # a part of something
    ],
)
def test_what_is_no_sample(drawn, line, at):
    drawn.line("7", *line)
    words(drawn, "CONTROL JOINT", at)
    assert joints_of(drawn) == set()


@pytest.mark.parametrize(
    "text", ["WALL", "CONTROL JOINT OR CONSTRUCTION JOINT", "CONTROL JOINT " * 9]
)
def test_words_that_say_no_kind(drawn, text):
    drawn.line("7", (0, -3_000), (1_500, -3_000))
    words(drawn, text, (2_000, -3_000))
    assert joints_of(drawn) == set()


def test_a_sample_at_odds_with_another_says_nothing(drawn):
    for n, text in enumerate(("CONTROL JOINT", "CONSTRUCTION JOINT")):
        drawn.line("7", (0, -3_000 - 600 * n), (1_500, -3_000 - 600 * n))
        words(drawn, text, (2_000, -3_000 - 600 * n))
    assert joints_of(drawn) == set()


def test_layers_of_walls_and_decoration_are_no_samples(drawn):
    for n, layer in enumerate(("A-WALL", "A-ANNO-NOTE")):
        drawn.line(layer, (0, -3_000 - 600 * n), (1_500, -3_000 - 600 * n))
        words(drawn, "CONTROL JOINT", (2_000, -3_000 - 600 * n))
    assert joints_of(drawn) == set()


def test_an_attached_drawing_is_named(drawn):
    block = drawn.doc.blocks.new("GRID-REF")
    block.block.dxf.flags = 4
    block.block.dxf.xref_path = "..\\shared\\Ground Floor.dwg"
    drawn.space.add_blockref("GRID-REF", (0, 0))
    drawing = gather(drawn.save())
    assert drawing.attached
    assert any(
        "The drawing Ground Floor.dwg is attached and not in this file" in n for n in drawing.notes
    )
