"""A file that is no good is refused with a sentence of its own; a damaged one is read as far as it goes."""

from itertools import pairwise

import ezdxf
import pytest
from ezdxf import units
from ezdxf.lldxf.tagger import binary_tags_loader

from kerfline.errors import InputRefused
from kerfline.files.drawing import Layers, open_file, read_drawing, read_slab_parts

L_SHAPE = [(0, 0), (480, 0), (480, 240), (240, 240), (240, 360), (0, 360)]


def refusal(path) -> str:
    with pytest.raises(InputRefused) as caught:
        read_drawing(path)
    assert len(caught.value.mistakes) == 1
    return str(caught.value)


@pytest.fixture
def sound(sheet):
    drawn = sheet()
    drawn.poly("SLAB", L_SHAPE)
    return drawn


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "the file is empty"),
        (b"  \r\n\n", "the file is empty"),
        (b"%PDF-1.7 and so on", "this is a PDF, not a DXF"),
        (b"\x89PNG\r\n\x1a\n" + bytes(40), "this is a PNG picture, not a DXF"),
        (b"PK\x03\x04" + bytes(40), "this is a ZIP archive, not a DXF"),
        (b"<?xml version='1.0'?><svg/>", "this is an XML or SVG file, not a DXF"),
        (b"name,x,y\n1,2,3\n", "this is not a DXF"),
        (bytes(range(256)) * 4, "this is not a DXF"),
        (b"0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1015\n", "the file is cut off"),
    ],
)
def test_what_is_no_drawing_is_refused(tmp_path, content, words):
    path = tmp_path / "plan.dxf"
    path.write_bytes(content)
    assert words in refusal(path)


def test_a_missing_file_and_a_folder_are_refused(tmp_path):
    assert "there is no such file" in refusal(tmp_path / "none.dxf")
    assert "this is a folder" in refusal(tmp_path)


def test_a_file_that_may_not_be_read_is_refused(sound, monkeypatch):
    path = sound.save()

    def forbidden(self):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(type(path), "read_bytes", forbidden)
    assert "the file cannot be read (Permission denied)" in refusal(path)


@pytest.mark.parametrize("share", [0.3, 0.5, 0.7])
def test_a_drawing_that_is_cut_off_is_refused(sheet, share):
    drawn = sheet()
    for i in range(300):
        drawn.line("SLAB", (0, i), (480, i))
    path = drawn.save()
    content = path.read_bytes()
    start, end = content.index(b"ENTITIES"), content.index(b"OBJECTS")
    path.write_bytes(content[: int(start + share * (end - start))])
    assert "the file is cut off" in refusal(path)


def test_a_drawing_cut_off_behind_its_entities_is_read(sound):
    path = sound.save()
    content = path.read_bytes()
    path.write_bytes(content[: content.index(b"OBJECTS") + 300])
    drawing = read_drawing(path)
    assert len(drawing.curves) == 1
    assert "recovery" in drawing.notes[0]


def test_a_binary_drawing_is_read_and_a_cut_one_refused(sound):
    path = sound.save(fmt="bin")
    parts = read_slab_parts(path, Layers(outline=("SLAB",)))
    assert parts.outline.polygon.area == pytest.approx(144000 * 25.4**2)
    path.write_bytes(path.read_bytes()[:-4000])
    assert "damaged or cut off" in refusal(path)


@pytest.mark.parametrize("version", ["R12", "R2000", "R2018"])
def test_a_binary_drawing_of_too_many_records_or_points_is_counted_first(
    sheet, monkeypatch, version
):
    """What is counted is what the library's own reader of binary tags finds in the file."""
    drawn = sheet(version=version)
    drawn.space.add_polyline2d([(0, 0), (480, 0), (480, 240), (0, 240)], close=True)
    for number in range(70):
        drawn.space.add_line((0, number), (-0.5, number + 1))
    path = drawn.save(fmt="bin")
    codes = [tag.code for tag in binary_tags_loader(path.read_bytes())]
    counts = {
        "MOST": (codes.count(0), "entities, layers and blocks"),
        "MOST_POINTS": (list(pairwise(codes)).count((10, 20)), "points"),
    }
    for name, (count, words) in counts.items():
        assert count > 70
        with monkeypatch.context() as limits:
            limits.setattr(open_file, name, count - 1)
            assert f"too large to read; found {count:,} {words}; allowed" in refusal(path)
            limits.setattr(open_file, name, count)
            assert len(open_file.open_document(path)[0].modelspace()) == 71


def test_windows_line_ends_and_a_byte_order_mark_do_not_matter(sound):
    path = sound.save()
    text = path.read_bytes().replace(b"\r\n", b"\n").replace(b"\n", b"\r\n")
    path.write_bytes(b"\xef\xbb\xbf" + text)
    assert len(read_drawing(path).curves) == 1


def test_a_wrong_subclass_marker_is_forgiven(sound):
    path = sound.save()
    path.write_bytes(path.read_bytes().replace(b"AcDbPolyline", b"AcDbPolygone"))
    assert len(read_drawing(path).curves) == 1


def test_an_empty_model_space_is_refused(sheet):
    assert "model space holds no lines" in refusal(sheet().save())


def test_a_model_space_of_text_alone_says_what_it_holds(sheet):
    drawn = sheet()
    drawn.space.add_text("SLAB PLAN")
    assert "1 TEXT" in refusal(drawn.save())


def test_what_stands_on_paper_is_not_read(sheet):
    drawn = sheet()
    drawn.doc.paperspace().add_line((0, 0), (100, 0))
    assert "model space holds no lines" in refusal(drawn.save())


class TestUnits:
    """The unit is the drawing's or the user's, never a guess."""

    @pytest.mark.parametrize(
        ("code", "factor", "name"),
        [
            (units.IN, 25.4, "inches"),
            (units.FT, 304.8, "feet"),
            (units.MM, 1.0, "millimetres"),
            (units.CM, 10.0, "centimetres"),
            (units.M, 1000.0, "metres"),
            (21, 304.800609601219, "US survey feet"),
        ],
    )
    def test_the_drawing_says_it(self, sheet, code, factor, name):
        # a slab of 12 m x 9 m
        drawn = sheet(code)
        w, h = 12000 / factor, 9000 / factor
        drawn.poly("SLAB", [(0, 0), (w, 0), (w, h), (0, h)])
        drawing = read_drawing(drawn.save())
        assert (drawing.unit_name, drawing.told) == (name, False)
        assert drawing.bounds == pytest.approx((0, 0, 12000, 9000))

    def test_no_unit_is_asked_for_with_the_size_each_answer_means(self, sheet):
        drawn = sheet(None)
        drawn.poly("SLAB", L_SHAPE)
        words = refusal(drawn.save())
        assert "does not say its unit" in words
        assert "480 x 360 units" in words
        for answer in (
            "--units ft: 480'-0\" x 360'-0\"",
            "--units in: 40'-0\" x 30'-0\"",
            "--units m: 480.000 x 360.000 m",
            "--units cm: 4.800 x 3.600 m",
            "--units survey-ft where",
        ):
            assert answer in words
        assert "--units mm" not in words  # no slab is half a metre long

    def test_a_unit_that_the_size_contradicts_is_asked_for(self, sheet):
        drawn = sheet(units.MM)
        drawn.poly("SLAB", L_SHAPE)
        assert "says its unit is millimetres, which cannot be right" in refusal(drawn.save())
        drawn = sheet(units.M)
        drawn.poly("SLAB", [(x * 25.4, y * 25.4) for x, y in L_SHAPE])
        assert "says its unit is metres, which cannot be right" in refusal(drawn.save())

    def test_the_users_unit_wins(self, sheet):
        from kerfline.units import Unit

        drawn = sheet(units.MM)
        drawn.poly("SLAB", L_SHAPE)
        drawing = read_drawing(drawn.save(), Unit.IN)
        assert drawing.told
        assert drawing.bounds == pytest.approx((0, 0, 480 * 25.4, 360 * 25.4))

    def test_a_users_unit_that_cannot_be_right_is_refused(self, sheet):
        from kerfline.units import Unit

        drawn = sheet(None)
        drawn.poly("SLAB", L_SHAPE)
        with pytest.raises(InputRefused, match="the unit millimetres cannot be right"):
            read_drawing(drawn.save(), Unit.MM)

    def test_far_strays_do_not_hide_the_size(self, sheet):
        drawn = sheet(units.IN)
        drawn.poly("SLAB", L_SHAPE)
        drawn.line("JUNK", (9e6, 9e6), (9.1e6, 9e6))
        assert read_drawing(drawn.save()).unit_name == "inches"

    def test_the_slab_itself_is_held_against_the_size_too(self, sheet):
        drawn = sheet(units.MM)
        drawn.poly("SLAB", [(x / 2, y / 2) for x, y in L_SHAPE])
        drawn.poly("SITE", [(-9000, -9000), (9000, -9000), (9000, 9000), (-9000, 9000)])
        with pytest.raises(InputRefused, match="no closed outline of a slab"):
            read_slab_parts(drawn.save(), Layers(outline=("SLAB",)))

    def test_the_metric_flag_alone_is_no_unit(self, sheet):
        drawn = sheet(None)
        drawn.doc.header["$MEASUREMENT"] = 1
        drawn.poly("SLAB", L_SHAPE)
        assert "does not say its unit" in refusal(drawn.save())


def test_a_release_12_drawing_has_no_unit(tmp_path):
    doc = ezdxf.new("R12")
    doc.modelspace().add_polyline2d([(0, 0), (480, 0), (480, 240)], close=True)
    doc.saveas(tmp_path / "old.dxf")
    assert "does not say its unit" in refusal(tmp_path / "old.dxf")
