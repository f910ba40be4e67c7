"""The model of a drawing without its sheets: nothing of the slab goes, and what we write of a crowded floor is read."""

import re

import pytest

import kerfline
from benchmarks.test_sheets import crowded
from kerfline.app.outcome import held
from kerfline.errors import InputRefused
from kerfline.files.drawing import Layers, model_alone, open_file, read_drawing, read_slab_parts
from kerfline.files.sheet_dxf import dxf_bytes, flat_dxf_bytes
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.sheets.joint_plan import joint_plan

SLAB = [(0, 0), (480, 0), (480, 240), (0, 240)]


@pytest.fixture(scope="module")
def crowd():
    """Forty walls aslant, their layout, and our own drawings of them, layered and flat."""
    job, layout = crowded(40)
    rules = SlabRules(rule_set=load("floor"))
    plan = joint_plan(job, layout, (), rules)
    drawings = {
        "layered": dxf_bytes(job, layout, plan, cut_sheet(job, layout, rules)),
        "flat": flat_dxf_bytes(job, layout, plan),
    }
    return held(job, rules, layout), drawings


@pytest.mark.parametrize("kind", ["layered", "flat"])
def test_our_own_drawing_of_a_crowded_floor_is_read_back(crowd, tmp_path, monkeypatch, kind):
    """With its sheets it has ten times the records and points that are read here at most."""
    outcome, drawings = crowd
    path = tmp_path / "crowd.dxf"
    path.write_bytes(drawings[kind])
    records = sum(1 for _ in re.finditer(rb"\n *0\n[A-Z]", drawings[kind]))
    points = sum(1 for _ in re.finditer(rb"\n *10\n", drawings[kind]))
    monkeypatch.setattr(open_file, "MOST", records // 6)
    monkeypatch.setattr(open_file, "MOST_POINTS", points // 6)
    monkeypatch.setattr(open_file, "LARGEST_PLAN", len(drawings[kind]) // 6)
    monkeypatch.setattr(model_alone, "MANY", records)
    checked = kerfline.check(path, thickness="150 mm")
    assert len(checked.joints) == len(outcome.layout.joints)
    assert len(checked.panels) == len(outcome.layout.panels)
    assert sorted(f.rule for f in checked.findings) == sorted(f.rule for f in outcome.findings)
    monkeypatch.setattr(model_alone, "MANY", records + 1)
    with pytest.raises(InputRefused, match="too large to read"):
        kerfline.check(path, thickness="150 mm")


@pytest.fixture
def with_sheets(sheet, monkeypatch):
    """A slab with a dimension and a block in the model, and a line, a block and a dimension on a sheet."""
    monkeypatch.setattr(model_alone, "MANY", 1)
    drawn = sheet()
    drawn.poly("SLAB", SLAB)
    drawn.doc.blocks.new("DOT").add_line((0, 0), (9, 9))
    for space in (drawn.space, drawn.doc.paperspace(), drawn.doc.layouts.new("More")):
        space.add_blockref("DOT", (50, 50))
        space.add_linear_dim(base=(0, 300), p1=(0, 240), p2=(480, 240)).render()
    for number in range(20):
        drawn.doc.paperspace().add_line((0, number), (9, number))
        drawn.doc.layouts.get("More").add_line((0, number), (9, number))
    return drawn


def test_what_stands_on_sheets_goes_and_the_model_stays(with_sheets):
    path = with_sheets.save()
    content = path.read_bytes()
    alone = model_alone.model_alone(content)
    assert alone.count(b"\nLINE\n") == content.count(b"\nLINE\n") - 40 - 2 * 4
    assert alone.count(b"\nDIMENSION\n") == 1
    arrows = 2
    assert alone.count(b"\nINSERT\n") == content.count(b"\nINSERT\n") - 2 * (1 + arrows)
    assert alone.count(b"\nBLOCK\n") == content.count(b"\nBLOCK\n") - 2
    path.write_bytes(alone)
    assert len(read_drawing(path).curves) == len(read_drawing(with_sheets.save("b.dxf")).curves)
    assert read_slab_parts(path, Layers(outline=("SLAB",))).outline.polygon.area == pytest.approx(
        480 * 240 * 25.4**2
    )


def test_line_ends_of_windows_are_read_alike(with_sheets):
    content = with_sheets.save().read_bytes()
    other = content.replace(b"\n", b"\r\n")
    assert model_alone.model_alone(other) == model_alone.model_alone(content).replace(
        b"\n", b"\r\n"
    )


def test_a_value_that_looks_like_the_flag_of_a_sheet_is_none(sheet, monkeypatch):
    """A colour of 67 before a text (code 1) is two lines that read 67 and 1."""
    monkeypatch.setattr(model_alone, "MANY", 1)
    path = sheet().folder / "plan.dxf"
    text = "0\nTEXT\n8\nSLAB\n62\n67\n1\nroom\n10\n0\n20\n0\n40\n5\n"
    path.write_text(f"0\nSECTION\n2\nENTITIES\n{text}0\nENDSEC\n0\nEOF\n")
    assert model_alone.model_alone(path.read_bytes()) == path.read_bytes()


def test_a_drawing_without_a_model_and_a_small_one_stay_as_they_are(sheet, monkeypatch):
    drawn = sheet()
    drawn.doc.paperspace().add_line((0, 0), (100, 0))
    content = drawn.save().read_bytes()
    assert model_alone.model_alone(content) is content
    monkeypatch.setattr(model_alone, "MANY", 1)
    assert model_alone.model_alone(content) is content


def test_words_of_a_drawing_that_is_not_our_own_stay(sheet, monkeypatch):
    monkeypatch.setattr(model_alone, "MANY", 1)
    drawn = sheet()
    drawn.poly("SLAB", SLAB)
    drawn.text("S-ANNO-LEGN", "SLAB ON GRADE", (9, 9), 5)
    assert b"SLAB ON GRADE" in model_alone.model_alone(drawn.save().read_bytes())
    drawn.doc.appids.add("KERFLINE")
    drawn.space[0].set_xdata("KERFLINE", [(1000, "slab:")])
    assert b"SLAB ON GRADE" not in model_alone.model_alone(drawn.save().read_bytes())


def test_a_drawing_of_far_too_many_records_is_left_to_the_limits(with_sheets, monkeypatch):
    """Its records are not even listed: the memory of a small machine would not hold them."""
    content = with_sheets.save().read_bytes()
    records = sum(1 for _ in model_alone.RECORD.finditer(content))
    monkeypatch.setattr(model_alone, "MOST_RECORDS", records)
    assert len(model_alone.model_alone(content)) < len(content)
    monkeypatch.setattr(model_alone, "MOST_RECORDS", records - 1)
    assert model_alone.model_alone(content) is content
