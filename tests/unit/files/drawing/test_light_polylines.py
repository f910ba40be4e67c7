"""Polylines of a newer kind than their file says, or without markers, are read whole: layer, closing, bulge, width."""

import math

import pytest

from kerfline.files.drawing import read_drawing
from kerfline.files.drawing.light_polylines import as_older, too_new

CORNERS = "10\n0\n20\n0\n42\n1\n10\n4000\n20\n0\n10\n4000\n20\n3000\n10\n0\n20\n3000\n"
LINE = "0\nLINE\n8\nB-2\n10\n0\n20\n0\n11\n900\n21\n0\n"


def written(path, version, *, marked, more=""):
    """A slab of 4 x 3 m with half a circle below, drawn as a light polyline."""
    said = f"9\n$ACADVER\n1\n{version}\n" if version else ""
    entity, own = ("100\nAcDbEntity\n", "100\nAcDbPolyline\n") if marked else ("", "")
    path.write_text(
        f"0\nSECTION\n2\nHEADER\n{said}9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n"
        f"0\nLWPOLYLINE\n{entity}8\nSLAB\n62\n3\n{own}90\n4\n70\n1\n{more}{CORNERS}{LINE}0\nENDSEC\n0\nEOF\n",
        encoding="utf-8",
    )
    return path


@pytest.mark.parametrize("marked", [False, True])
@pytest.mark.parametrize("version", ["", "AC1009", "AC1015"])
def test_a_light_polyline_is_read_whole_in_a_file_of_any_release(tmp_path, version, marked):
    drawing = read_drawing(written(tmp_path / "plan.dxf", version, marked=marked))
    slab, line = drawing.curves
    assert (slab.layer, slab.path.closed, line.layer) == ("SLAB", True, "B-2")
    assert slab.path.ring().polygon.area == pytest.approx(12e6 + math.pi * 2000**2 / 2, rel=1e-3)
    assert drawing.notes == ()


def test_its_width_is_kept(tmp_path):
    path = written(tmp_path / "plan.dxf", "", marked=False, more="43\n200\n")
    assert read_drawing(path).curves[0].width == pytest.approx(200)


@pytest.mark.parametrize(
    ("version", "new"), [("", True), ("AC1009", True), ("AC1012", False), ("AC1032", False)]
)
def test_only_a_file_that_says_no_such_release_is_rewritten(tmp_path, version, new):
    content = written(tmp_path / "plan.dxf", version, marked=True).read_bytes()
    assert too_new(content) is new
    assert not too_new(content.replace(b"LWPOLYLINE", b"POLYLINE"))


def test_texts_of_other_encodings_stay(tmp_path):
    content = written(tmp_path / "plan.dxf", "", marked=False).read_bytes()
    assert "\nDécor\n" in as_older(content.replace(b"B-2", "Décor".encode("cp1252")))
    assert "\nDécor\n" in as_older(b"\xef\xbb\xbf" + content.replace(b"B-2", "Décor".encode()))
    russian = content.replace(b"B-2", "Стены".encode("cp1251"))
    page = b"9\n$DWGCODEPAGE\n3\nANSI_1251\n9\n$INSUNITS"
    assert "\nСтены\n" in as_older(russian.replace(b"9\n$INSUNITS", page))


@pytest.mark.parametrize("mark", ["\u2028", "\u0085", "\x0c", "\x1d"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_a_break_within_a_text_parts_no_line(tmp_path, mark, end):
    content = written(tmp_path / "plan.dxf", "", marked=False).read_bytes().decode()
    text = content.replace("B-2", f"one{mark}two").replace("\n", end)
    assert as_older(text.encode()).count("VERTEX") == 4
    assert f"\none{mark}two\n" in as_older(text.encode())
