"""What a file is, told by what stands in it."""

import pytest

from kerfline.errors import InputRefused
from kerfline.files.kinds import Kind, kind_of, words_for

TEXT_DXF = b"  0\r\nSECTION\r\n  2\r\nHEADER\r\n"
MODEL = b"ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((''),'2;1');\nFILE_SCHEMA(('IFC4'));\nENDSEC;\n"


@pytest.mark.parametrize(
    ("content", "kind"),
    [
        (TEXT_DXF, Kind.DXF),
        (b"999\nmade by hand\n" + TEXT_DXF, Kind.DXF),
        (b"\xef\xbb\xbf" + TEXT_DXF, Kind.DXF),
        (b"AutoCAD Binary DXF\r\n\x1a\x00" + bytes(20), Kind.DXF),
        (b"AC1012" + bytes(20), Kind.DWG),
        (b"AC1032" + bytes(20), Kind.DWG),
        (b"AC1.40" + bytes(20), Kind.DWG),
        (MODEL, Kind.IFC),
        (b"%PDF-1.7\n", Kind.PDF),
        (b"\x00junk before it" * 9 + b"%PDF-1.4\n", Kind.PDF),
        (b"\x89PNG\r\n\x1a\n", Kind.PICTURE),
        (b"\xff\xd8\xff\xe0", Kind.PICTURE),
        (b"RIFF\x10\x00\x00\x00WEBPVP8 ", Kind.PICTURE),
        (b"\x00\x00\x00\x18ftypheic\x00\x00", Kind.PICTURE),
        (b"BM\x36\x00\x00\x00\x00\x00\x00\x00\x36", Kind.PICTURE),
        (b"[job]\nname = 'x'\n", Kind.JOB),
        (b"# a job\n\n[[wall]]\n", Kind.JOB),
        (b'\xef\xbb\xbf"name" = 3\n', Kind.JOB),
        (b"BM = 3\n", Kind.JOB),
        (b"AC1032 = 3\n", Kind.JOB),
        (b'{"schema": "kerfline-layout/1"}', Kind.LAYOUT),
    ],
)
@pytest.mark.parametrize("name", ["plan", "plan.toml", "plan.dxf", "plan.png"])
def test_the_content_tells_whatever_the_name(tmp_path, content, kind, name):
    path = tmp_path / name
    path.write_bytes(content)
    assert kind_of(path) is kind


def test_the_name_decides_where_text_could_be_either(tmp_path):
    """A job file with a slip in its first line, a drawing with another: their own readers say more."""
    for ending, kind in ((".toml", Kind.JOB), (".dxf", Kind.DXF)):
        path = tmp_path / f"slip{ending}"
        path.write_bytes(b"job]\n")
        assert kind_of(path) is kind


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "an empty file"),
        (b"  \n", "an empty file"),
        (b"PK\x03\x04" + bytes(30), "a ZIP archive"),
        (b"<?xml version='1.0'?><svg/>", "an XML or SVG file"),
        (b"<!DOCTYPE html><html>", "a web page"),
        (b"ISO-10303-21;\nHEADER;\nFILE_SCHEMA(('CONFIG_CONTROL_DESIGN'));", "a STEP file"),
        (bytes(range(256)), "nothing that can be read here"),
        (b"Dear Sir,\nplease find", "nothing that can be read here"),
        (b"x,y\n1,2\n", "nothing that can be read here"),
    ],
)
def test_anything_else_gets_one_sentence_with_what_can_be_read(tmp_path, content, words):
    path = tmp_path / "thing"
    path.write_bytes(content)
    with pytest.raises(InputRefused) as refused:
        kind_of(path)
    (mistake,) = refused.value.mistakes
    assert words in mistake.what
    assert "a job file (.toml), a drawing" in mistake.allowed


def test_a_name_does_not_make_a_job_of_what_is_none(tmp_path):
    path = tmp_path / "job.toml"
    path.write_bytes(b"PK\x03\x04" + bytes(30))
    with pytest.raises(InputRefused, match="a ZIP archive"):
        kind_of(path)


def test_no_file(tmp_path):
    with pytest.raises(InputRefused, match="there is no such file"):
        kind_of(tmp_path / "gone.toml")
    with pytest.raises(InputRefused, match="this is a folder"):
        kind_of(tmp_path)


def test_pictures_are_named():
    assert words_for(b"\x89PNG\r\n\x1a\n") == "a PNG picture"
    assert words_for(b"AC1015" + bytes(9)) == "a DWG"
