"""What is proposed for a drawing, by names and by what is drawn, and how it is reported."""

import math

import pytest
from ezdxf import units

from kerfline.errors import InputRefused
from kerfline.files.drawing import (
    ReadingWishes,
    gather,
    look_at,
    propose,
    read_drawing,
    read_slab_parts,
    report,
    taken,
)
from kerfline.files.drawing.joint_kinds import is_ambiguous, kind_in
from kerfline.files.drawing.names import decorates, outline_rank, part_named
from kerfline.files.drawing.size import drawn_unit

L_SHAPE = [(0, 0), (480, 0), (480, 240), (240, 240), (240, 360), (0, 360)]


def proposal(drawn):
    return propose(read_drawing(drawn.save()))


def told(drawn, unit=None):
    """The report on a drawing."""
    look = look_at(gather(drawn.save()), ReadingWishes(unit=drawn_unit(unit) if unit else None))
    try:
        return report(look, taken(look).parts)
    except InputRefused as refused:
        return report(look, refused)


@pytest.mark.parametrize(
    ("layer", "part"),
    [
        ("A-WALL", "walls"),
        ("A-WALL-PRTN", "walls"),
        ("Walls", "walls"),
        ("wall low", "walls"),
        ("PLAN$0$A-WALL", "walls"),
        ("S-STEM-WALL", ""),
        ("A-WALL-IDEN", ""),
        ("S-COLS", "columns"),
        ("Columns", "columns"),
        ("S-COLS-ABLT", ""),
        ("S-GRID-COLS", ""),
        ("P-DRAIN", "penetrations"),
        ("PIPES", "penetrations"),
        ("P-FLOR-DRAN", "penetrations"),
        ("S-SLAB-PENE", "penetrations"),
        ("OPEN", ""),
        ("S-SLAB-OPNG", "openings"),
        ("PIT", "openings"),
        ("PITCH", ""),
        ("A-DOOR-OPNG", ""),
        ("S-JNTS-CTLJ", "joints"),
        ("SAWCUTS", "joints"),
        ("CONTROL JOINTS", "joints"),
        ("S-CJ", "joints"),
        ("JOIST", ""),
        ("TUBING", "keep_outs"),
        ("A-NOTE-WALL", ""),
        ("FURNITURE", ""),
    ],
)
def test_what_a_name_speaks_of(layer, part):
    assert part_named(layer) == part


def test_the_plainest_name_of_an_edge_ranks_first():
    ranked = ["S-SLAB-EDGE", "S-SLAB", "A-FOOTPRINT", "S-FNDN", "OUTLINE", "A-FLOR"]
    assert [outline_rank(n) for n in ranked] == sorted({outline_rank(n) for n in ranked})
    for other in ("S-SLAB-OPNG", "S-SLAB-RBAR", "A-WALL", "0", "S-SLAB-TEXT", "Flooring"):
        assert outline_rank(other) is None


def test_names_that_decorate():
    assert all(
        map(decorates, ["A-ANNO-DIMS", "G-ANNO-TTLB", "HATCH", "A-NOTE", "Defpoints", "PLANTS"])
    )
    assert not any(map(decorates, ["A-WALL", "SLAB", "0", "PLANE"]))


def test_the_kind_is_unknown_where_a_name_says_two():
    assert kind_in("CONTROL AND CONSTRUCTION JOINTS") is None
    assert not is_ambiguous("CONTROL CJ")


def test_layers_by_their_names(sheet):
    drawn = sheet()
    drawn.poly("S-SLAB-EDGE", L_SHAPE)
    drawn.wall("A-WALL", (0, 120), (240, 120), 6)
    drawn.square("S-COLS", (120, 60), 12)
    drawn.circle("P-DRAIN", (60, 60), 4)
    drawn.loop("S-SLAB-OPNG", [(300, 60), (350, 60), (350, 100), (300, 100)])
    drawn.line("S-JNTS-CTLJ", (120, 0), (120, 360))
    drawn.line("A-FURN", (0, 0), (9, 9))
    drawn.loop("TUBING", [(10, 200), (60, 200), (60, 300), (10, 300)])
    found = proposal(drawn).layers
    assert found.outline == ("S-SLAB-EDGE",)
    assert found.walls == ("A-WALL",)
    assert found.columns == ("S-COLS",)
    assert found.penetrations == ("P-DRAIN",)
    assert found.openings == ("S-SLAB-OPNG",)
    assert found.joints == ("S-JNTS-CTLJ",)
    assert found.keep_outs == ("TUBING",)


def test_a_name_is_not_believed_where_nothing_closes(sheet):
    drawn = sheet()
    drawn.line("S-SLAB", (0, 0), (480, 0))
    drawn.poly("A-FOOTPRINT", L_SHAPE)
    assert proposal(drawn).layers.outline == ("A-FOOTPRINT",)


def test_an_outline_in_pieces_on_several_layers_of_like_names(sheet):
    drawn = sheet()
    drawn.line("SLAB-EDGE-S", *L_SHAPE[:4])
    drawn.line("SLAB-EDGE-N", *L_SHAPE[3:], L_SHAPE[0])
    found = proposal(drawn)
    assert found.layers.outline == ("SLAB-EDGE-N", "SLAB-EDGE-S")
    assert any("pieces on the layers" in n for n in found.notes)


def test_the_largest_closed_outline_where_no_name_speaks(sheet):
    drawn = sheet()
    drawn.poly("LAYER 7", L_SHAPE)
    drawn.square("LAYER 8", (100, 100), 60)
    found = proposal(drawn)
    assert found.layers.outline == ("LAYER 7",)
    assert any("though no name says so" in n and "Check it" in n for n in found.notes)


def test_the_frame_of_a_sheet_is_not_the_slab(sheet):
    drawn = sheet()
    drawn.poly("LAYER 1", [(-100, -100), (900, -100), (900, 600), (-100, 600)])
    drawn.poly("LAYER 2", L_SHAPE)
    for i in range(25):
        drawn.line("LAYER 3", (100 + i, 0), (100 + i, 50))
    found = proposal(drawn)
    assert found.layers.outline == ("LAYER 2",)
    frame = next(c for c in found.decision.candidates if c.layers == ("LAYER 1",))
    assert "it is a rectangle around everything, with room to spare: a frame" in frame.doubts


def test_the_walls_outer_faces_where_there_is_no_outline(sheet):
    drawn = sheet()
    for inset in (0, 6):
        drawn.loop(
            "A-WALL",
            [
                (inset, inset),
                (480 - inset, inset),
                (480 - inset, 240 - inset),
                (inset, 240 - inset),
            ],
        )
    drawn.wall("A-WALL", (240, 6), (240, 234), 4)
    found = proposal(drawn)
    assert found.layers.outline == ("A-WALL",)
    assert found.layers.walls == ("A-WALL",)


def test_an_outline_with_a_gap_is_proposed_by_its_name_so_that_the_gap_is_told(sheet):
    drawn = sheet()
    drawn.line("SLAB", (0, 0), (480, 0), (480, 240), (0, 240), (0, 30))
    found = proposal(drawn)
    assert found.layers.outline == ("SLAB",)
    assert "Outline: SLAB, by name, although nothing there closes yet." in found.notes
    with pytest.raises(InputRefused, match=r"a gap of 2'-6\" from"):
        read_slab_parts(drawn.save(), found.layers)


def test_without_any_outline_it_is_asked_for(sheet):
    drawn = sheet()
    drawn.line("SLAB", (0, 0), (480, 0))
    found = proposal(drawn)
    assert found.layers.outline == ()
    assert "which layers is the slab's edge drawn on?" in found.questions[0]
    assert "To be answered" in told(drawn)


def test_hidden_layers_are_passed_over_and_it_is_said(sheet):
    drawn = sheet()
    drawn.poly("SLAB", L_SHAPE)
    drawn.poly("SLAB-OLD", [(0, 0), (900, 0), (900, 900), (0, 900)])
    drawn.doc.layers.add("SLAB-OLD").off()
    drawn.doc.layers.add("A-WALL").freeze()
    drawn.wall("A-WALL", (0, 120), (240, 120), 6)
    found = proposal(drawn)
    assert found.layers.outline == ("SLAB",)
    assert found.layers.walls == ()
    assert any("off or frozen" in n and "A-WALL, SLAB-OLD" in n for n in found.notes)


def test_cj_is_a_question_unless_the_drawing_answers(sheet):
    drawn = sheet()
    drawn.poly("SLAB", L_SHAPE)
    drawn.line("S-CJ", (120, 0), (120, 360))
    found = proposal(drawn)
    assert found.layers.joints == ()
    assert "CJ means construction joint in some offices" in found.questions[0]
    drawn.space.add_mtext("LEGEND\\PCJ: CONTRACTION JOINT")
    assert proposal(drawn).layers.joints == ("S-CJ",)


def test_alike_small_figures_are_proposed_as_columns_and_others_only_named(sheet):
    drawn = sheet()
    drawn.poly("SLAB", L_SHAPE)
    for n, x in enumerate((100, 200, 300)):
        drawn.square("LAYER 4", (x, 100), 16)
        drawn.circle("LAYER 5", (x, 150), 10 + 20 * n)
    found = proposal(drawn)
    assert found.layers.columns == ("LAYER 4",)
    assert any("Columns: LAYER 4" in n and "Check it" in n for n in found.notes)
    assert any("columns perhaps: LAYER 5" in n for n in found.notes)


def test_pairs_of_lines_are_proposed_as_walls(sheet):
    drawn = sheet()
    drawn.poly("SLAB", L_SHAPE)
    drawn.wall("LAYER 4", (0, 120), (240, 120), 6)
    drawn.wall("LAYER 4", (240, 0), (240, 120), 6)
    drawn.wall("DOORS", (0, 60), (480, 60), 4)
    drawn.loop("LAYER 6", [(0, 200), (100, 200), (100, 300)])
    found = proposal(drawn)
    assert found.layers.walls == ("LAYER 4",)
    assert any("by the pairs of parallel lines" in n for n in found.notes)


def test_the_report(sheet):
    drawn = sheet()
    drawn.poly("S-SLAB-EDGE", L_SHAPE)
    drawn.loop("S-SLAB-EDGE", [(60, 60), (120, 60), (120, 100), (60, 100)])
    drawn.wall("A-WALL", (0, 120), (240, 120), 6)
    drawn.wall("A-WALL", (240, 120), (240, 0), 4.5)
    drawn.square("S-COLS", (300, 150), 24, turn=45)
    drawn.line("JUNK", (3, 3), (3, 3))
    drawn.space.add_text("SLAB PLAN")
    drawn.space.add_hatch()
    text = told(drawn)
    for words in (
        "plan.dxf: drawn in inches (as the drawing says)",
        "extents 40'-0\" x 30'-0\", from (0'-0\", 0'-0\") to (40'-0\", 30'-0\")",
        "A-WALL       4 LINE",
        "S-SLAB-EDGE  4 LINE, 1 LWPOLYLINE",
        "1,000.0 ft2  40'-0\" x 30'-0\"",
        "16.7 ft2  5'-0\" x 3'-4\"",
        "Outline: layer S-SLAB-EDGE, by its name.",
        "This gives a slab of 1,000.0 ft2 with 1 opening, 2 walls, 1 column",
        "The outline is read as 40'-0\" x 30'-0\" (12.19 x 9.14 m)",
        'walls: 1 of 4 1/2", 1 of 6" thick, 30 ft in all',
        'columns: 1 of diamond 24"',
        "Passed over, as no edge of anything: 1 HATCH, 1 TEXT",
        "1 LINE on JUNK: it has no length in plan",
    ):
        assert words in text
    assert text.index("1,000.0 ft2") < text.index("16.7 ft2")


def test_the_report_in_metric_and_as_told(sheet):
    drawn = sheet(None)
    drawn.poly("SLAB", [(x * 25, y * 25) for x, y in L_SHAPE])
    text = told(drawn, "mm")
    assert "drawn in millimetres (as you say)" in text
    assert "extents 12000 mm x 9000 mm" in text
    assert "90.00 m2" in text


def test_a_round_slab_reports_its_area(sheet):
    drawn = sheet(units.M)
    drawn.circle("SLAB", (0, 0), 10)
    text = told(drawn)
    assert f"{math.pi * 25:.2f} m2" in text
