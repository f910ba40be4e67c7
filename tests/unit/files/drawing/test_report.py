"""What a drawing holds, in words and columns."""

import pytest

from kerfline.errors import InputRefused, Mistake
from kerfline.files.drawing import gather, look_at, slab_parts
from kerfline.files.drawing.reading import ReadingWishes
from kerfline.files.drawing.report import LAYERS_SHOWN, NOTES_SHOWN, OUTLINES_SHOWN, report
from kerfline.files.slab_parts import SlabParts


@pytest.fixture
def drawn(sheet):
    made = sheet()
    made.poly("SLAB", [(0, 0), (480, 0), (480, 240), (0, 240)])
    made.wall("A-WALL", (0, 120), (480, 120), 6)
    made.square("S-COLS", (100, 60), 24)
    made.space.add_text("HALL", dxfattribs={"layer": "TEXT"})
    made.space.add_3dface([(0, 0), (1, 0), (1, 1)], dxfattribs={"layer": "ODD"})
    return made


def looked(drawn):
    look = look_at(gather(drawn.save()), ReadingWishes())
    return look, slab_parts(look.drawing, look.layers, slab=look.slab)


def lines(drawn, outcome=None):
    look, parts = looked(drawn)
    return report(look, outcome or parts).splitlines()


def test_it_begins_with_the_unit_and_the_extents(drawn):
    first, second, *_ = lines(drawn)
    assert first == "plan.dxf: drawn in inches (as the drawing says)"
    assert second == "extents 40'-0\" x 20'-0\", from (0'-0\", 0'-0\") to (40'-0\", 20'-0\")"


def test_layers_are_listed_with_what_is_drawn_on_them(drawn):
    drawn.doc.layers.add("A-WALL").off()
    said = lines(drawn)
    assert "  A-WALL  2 LINE (off or frozen)" in said
    assert "  SLAB    1 LWPOLYLINE" in said


def test_closed_outlines_are_listed_with_their_size(drawn):
    said = lines(drawn)
    at = said.index("Closed outlines, largest first")
    assert said[at + 1].split() == ["800.0", "ft2", "40'-0\"", "x", "20'-0\"", "SLAB"]


def test_the_reading_tells_what_it_gives(drawn):
    said = lines(drawn)
    assert (
        "This gives a slab of 800.0 ft2 with 0 openings, 1 wall, 1 column, 0 penetrations, 0 joints"
        in said
    )
    assert '  walls: 1 of 6" thick, 40 ft in all' in said
    assert '  columns: 1 of square 24"' in said


def test_what_was_left_out_is_told_with_its_reason(drawn):
    said = lines(drawn)
    assert "Passed over, as no edge of anything: 1 TEXT" in said
    assert "  1 3DFACE on ODD: this kind is not understood; explode it to lines and arcs" in said


def test_why_it_cannot_be_read_is_told(drawn):
    refused = InputRefused(Mistake(what="the slab's outline is not closed"))
    assert "  It cannot be read that way: the slab's outline is not closed." in lines(
        drawn, refused
    )


def test_no_outline_is_said(sheet):
    made = sheet()
    made.line("A", (0, 0), (480, 0))
    look = look_at(gather(made.save()), ReadingWishes())
    said = report(look, SlabParts()).splitlines()
    assert "No closed outline of a square metre or more" in said


def test_long_lists_are_cut_and_counted(sheet):
    made = sheet()
    made.poly("SLAB", [(0, 0), (4800, 0), (4800, 2400), (0, 2400)])
    for n in range(OUTLINES_SHOWN):
        made.poly(
            f"X{n}",
            [(5000 + 100 * n, 0), (5090 + 100 * n, 0), (5090 + 100 * n, 90), (5000 + 100 * n, 90)],
        )
    for n in range(LAYERS_SHOWN):
        made.line(f"L{n}", (0, -100 - n), (9, -100 - n))
    look, parts = looked(made)
    notes = tuple(f"note {n}" for n in range(NOTES_SHOWN + 3))
    said = report(look, SlabParts(outline=parts.outline, notes=notes)).splitlines()
    assert "  and 1 more" in said
    assert f"  and {OUTLINES_SHOWN + 1} more" in said
    assert "  note 39" in said
    assert "  note 40" not in said
    assert "  and 3 more notes" in said
