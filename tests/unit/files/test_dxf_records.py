"""Texts and lines written as ready-made records are what a reader takes them for."""

import io

import ezdxf
import pytest

from kerfline.files.dxf_records import RecordWriter, Ring, TagBlock
from kerfline.files.dxf_setup import OLDEST, STYLE, new_document
from kerfline.units import Unit
from shapes import workshop_job

LAYER = "S-SLAB-EDGE"


def read(write, version="R2010", *, paper=False):
    """What a reader finds of what was written."""
    document = new_document(workshop_job(Unit.MM), 100, version)
    space = document.layout("Layout1") if paper else document.modelspace()
    writer = RecordWriter(space)
    write(writer)
    writer.finish()
    out = io.StringIO()
    document.write(out)
    again = ezdxf.read(io.StringIO(out.getvalue()))
    assert not again.audit().errors
    return list(again.layout("Layout1") if paper else again.modelspace())


def text(writer, words="A 1", align=0, turn=370.0):
    writer.text(LAYER, (1.5, 2.5), words, 2.0, turn=turn, align=align, style=STYLE)


@pytest.mark.parametrize("version", ["R2010", OLDEST])
@pytest.mark.parametrize("align", [0, 1, 2])
def test_a_text_has_its_place_height_and_turn(version, align):
    (found,) = read(lambda w: text(w, align=align), version)
    assert (found.dxf.text, found.dxf.layer, found.dxf.height) == ("A 1", LAYER, 2.0)
    assert found.dxf.rotation == 10.0
    assert found.dxf.halign == align
    at = found.dxf.align_point if align else found.dxf.insert
    assert tuple(at)[:2] == (1.5, 2.5)


@pytest.mark.parametrize("version", ["R2010", OLDEST])
def test_a_line_has_its_ends_and_look(version):
    look = {"layer": LAYER, "linetype": "DASHED", "lineweight": 35, "color": 3}
    (found,) = read(lambda w: w.line((0.5, 1), (3, 4), look), version)
    assert (tuple(found.dxf.start)[:2], tuple(found.dxf.end)[:2]) == ((0.5, 1), (3, 4))
    assert (found.dxf.linetype, found.dxf.color) == ("DASHED", 3)
    assert found.dxf.get("lineweight", None) == (None if version == OLDEST else 35)


def test_extended_data_comes_along():
    data = "1001\nKERFLINE\n1000\nJ1\n"
    (found,) = read(lambda w: w.line((0, 0), (1, 0), {"layer": LAYER}, data))
    assert [tag.value for tag in found.get_xdata("KERFLINE")][1:] == ["J1"] or [
        tag.value for tag in found.get_xdata("KERFLINE")
    ] == ["J1"]


def test_a_tag_is_a_reference_with_its_text():
    def write(writer):
        writer.tag(TagBlock("TAG"), LAYER, (5, 6), "J1", 2.0, turn=0.0, align=1, style=STYLE)

    (found,) = read(write)
    assert (found.dxftype(), found.dxf.name, tuple(found.dxf.insert)[:2]) == (
        "INSERT",
        "TAG",
        (5, 6),
    )
    (attrib,) = found.attribs
    assert (attrib.dxf.tag, attrib.dxf.text, attrib.dxf.height) == ("NAME", "J1", 2.0)


def test_a_tag_in_a_circle_has_the_circles_place_and_size():
    def write(writer):
        block = TagBlock("CUT_NUMBER", Ring((5, 7), 3.0, 25))
        writer.tag(block, LAYER, (5, 6), "7", 2.0, turn=0.0, align=1, style=STYLE)

    (found,) = read(write)
    assert (tuple(found.dxf.insert)[:2], found.dxf.xscale, found.dxf.lineweight) == (
        (5, 7),
        3.0,
        25,
    )
    assert tuple(found.attribs[0].dxf.align_point)[:2] == (5, 6)


def test_on_paper_they_lie_in_paper_space():
    (found,) = [e for e in read(text, paper=True) if e.dxftype() == "TEXT"]
    assert found.dxf.paperspace == 1


def test_nothing_collected_writes_nothing():
    assert read(lambda _: None) == []
