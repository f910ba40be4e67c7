"""Drawings without end are refused with a sentence before they are taken apart, and piles are told from plans."""

import contextlib
import math
from pathlib import Path as FilePath

import ezdxf
import pytest

from kerfline.errors import InputRefused
from kerfline.files.drawing import open_file, read_drawing
from kerfline.files.drawing.expansion import MOST, refuse_endless
from kerfline.files.largest import LARGEST_PLAN
from kerfline.geometry.near import MOST_PAIRS, Crowded, near_pairs, spots
from kerfline.geometry.paths import Path
from kerfline.geometry.regions import enclosed


@pytest.mark.parametrize("lines", [0, 1])
@pytest.mark.parametrize("copies", [1000, 30000])
def test_an_array_of_block_references(sheet, copies, lines):
    s = sheet()
    s.poly("SLAB", [(0, 0), (480, 0), (480, 240), (0, 240)])
    block = s.doc.blocks.new("TREE")
    for _ in range(lines):
        block.add_line((0, 0), (1, 1))
    array = {"row_count": copies, "column_count": copies, "row_spacing": 9, "column_spacing": 9}
    s.space.add_blockref("TREE", (0, 0), dxfattribs=array)
    with pytest.raises(InputRefused, match=rf"'TREE' in {copies**2:,} copies.*save the floor plan"):
        read_drawing(s.save())


def test_arrays_of_arrays(sheet):
    s = sheet()
    s.doc.blocks.new("INNER").add_line((0, 0), (1, 0))
    array = {"row_count": 300, "column_count": 300, "row_spacing": 2, "column_spacing": 2}
    s.doc.blocks.new("OUTER").add_blockref("INNER", (0, 0), dxfattribs=array)
    s.space.add_blockref("OUTER", (0, 0), dxfattribs=array)
    copies = 300 * 300
    with pytest.raises(InputRefused, match=f"found {copies * (1 + copies * 2):,} entities"):
        read_drawing(s.save())


def test_blocks_nested_two_by_two(sheet):
    s = sheet()
    s.doc.blocks.new("B0").add_line((0, 0), (1, 1))
    for depth in range(1, 30):
        block = s.doc.blocks.new(f"B{depth}")
        for x in (0, 1):
            block.add_blockref(f"B{depth - 1}", (x, 0))
    s.space.add_blockref("B29", (0, 0))
    # each of 29 levels doubles the references below it, and one line hangs at each of the 2^29 ends
    with pytest.raises(InputRefused, match=f"found {2**29 + 2**30 - 1:,} entities"):
        read_drawing(s.save())


def test_a_block_within_itself_is_no_endless_drawing(sheet):
    s = sheet()
    block = s.doc.blocks.new("LOOP")
    block.add_line((0, 0), (480, 240))
    block.add_blockref("LOOP", (0, 0))
    s.space.add_blockref("LOOP", (0, 0))
    drawing = read_drawing(s.save())
    assert any("contains itself" in skipped.why for skipped in drawing.skipped)


def test_as_many_as_may_be(sheet):
    s = sheet()
    s.doc.blocks.new("DOT")
    s.poly("SLAB", [(0, 0), (480, 0), (480, 240), (0, 240)])
    row = {"row_count": MOST - 1, "row_spacing": 1}
    s.space.add_blockref("DOT", (0, 0), dxfattribs=row)
    assert len(read_drawing(s.save()).curves) == 1
    s.poly("SLAB", [(0, 0), (48, 0), (48, 24), (0, 24)])
    with pytest.raises(InputRefused, match="too large to read"):
        read_drawing(s.save())


def test_a_large_file_is_not_even_opened(tmp_path):
    path = tmp_path / "city.dxf"
    with path.open("wb") as file:
        file.truncate(200_000_000)
    with pytest.raises(InputRefused, match=r"200\.0 MB; allowed is up to 40 MB"):
        read_drawing(path)
    assert LARGEST_PLAN == 40_000_000


def test_a_text_without_end(tmp_path):
    path = tmp_path / "long.dxf"
    for size, words in (
        (100_000, "no lines, arcs or other curves"),
        (100_001, "a line of it has no end"),
    ):
        path.write_text(text_dxf(f"0\nTEXT\n10\n1\n20\n1\n40\n1\n1\n{'a' * size}\n"))
        with pytest.raises(InputRefused, match=words):
            read_drawing(path)


def text_dxf(body):
    return f"0\nSECTION\n2\nENTITIES\n{body}0\nENDSEC\n0\nEOF\n"


@pytest.mark.parametrize(
    ("one", "body", "words"),
    [
        ("0\nVERTEX\n8\nSLAB\n10\n1.0\n20\n0\n", "{}", "entities, layers and blocks"),
        ("  0\r\nLAYER\r\n  2\r\nL\r\n 70\r\n0\r\n", "{}", "entities, layers and blocks"),
        (" 10\n1.0\n 20\n0\n", "0\nLWPOLYLINE\n8\nSLAB\n{}", "points"),
    ],
)
def test_a_drawing_of_too_many_records_or_points_is_counted_first(
    tmp_path, monkeypatch, one, body, words
):
    """Values of 0 and 10 are no records and no points; the one over the limit is refused."""
    monkeypatch.setattr(open_file, "MOST", 12)
    monkeypatch.setattr(open_file, "MOST_POINTS", 10)
    path = tmp_path / "many.dxf"
    few, many = (text_dxf(body.format(one * count)) for count in (10, 12))
    path.write_text(few, newline="")
    with contextlib.suppress(InputRefused):
        read_drawing(path)  # whatever is wrong with it, it is not too large
    counts = [(open_file.RECORD, 13), (open_file.POINT, 10)]
    for pattern, most in counts:
        assert len(pattern.findall(few.encode())) <= most
    path.write_text(many, newline="")
    with pytest.raises(InputRefused, match=rf"too large to read; found 1[0-9] {words}; allowed"):
        read_drawing(path)


def test_piles_are_refused_while_they_are_counted():
    many = math.isqrt(2 * MOST_PAIRS) + 2
    with pytest.raises(Crowded, match="too much is drawn on one spot"):
        near_pairs(spots([(0.0, 0.0)] * many), 1.0)
    few = math.isqrt(2 * MOST_PAIRS) - 2
    first, second = near_pairs(spots([(0.0, 0.0)] * few), 1.0)
    assert len(first) == len(second) == few * (few - 1) // 2


def test_linework_that_crosses_without_end():
    lines = [Path(((0.0, 10.0 * i), (1e5, 10.0 * i))) for i in range(800)]
    lines += [Path(((10.0 * i, -1.0), (10.0 * i, 1e5))) for i in range(800)]
    with pytest.raises(Crowded):
        enclosed(lines, 1.0)


def test_small_linework_is_left_out_and_what_hangs_together_is_not():
    side = [Path(((i * 500.0, 0.0), (i * 500.0 + 500.0, 0.0))) for i in range(4)]
    rest = [Path(((2000.0, 0.0), (2000.0, 2000.0), (0.0, 2000.0), (0.0, 0.0)))]
    mark = [Path(((5000.0, 0.0), (5100.0, 0.0), (5000.0, 100.0)), closed=True)]
    assert [r.polygon.area for r in enclosed([*side, *rest, *mark], 1.0, 1e6).rings] == [4e6]
    assert len(enclosed([*side, *rest, *mark], 1.0).rings) == 2


def test_what_a_block_asks_for_is_counted_without_taking_it_apart():
    document = ezdxf.new()
    document.blocks.new("ROW").add_line((0, 0), (1, 0))
    row = {"row_count": MOST // 2, "row_spacing": 1}
    document.modelspace().add_blockref("ROW", (0, 0), dxfattribs=row)
    refuse_endless(FilePath("plan.dxf"), document)
    document.modelspace().add_line((0, 0), (1, 0))
    with pytest.raises(InputRefused, match="found 200,001 entities in the model space, 200,000 of"):
        refuse_endless(FilePath("plan.dxf"), document)
