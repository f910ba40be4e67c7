"""Our DXF through other hands: opened, saved and audited, GDAL, and two readers of another language."""

import json
import shutil
import subprocess
from collections import Counter

import ezdxf
import pytest

from kerfline.files.sheet_dxf import dxf_bytes, flat_dxf_bytes
from kerfline.model.slab import JointKind
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.marks import Layer
from shapes import workshop_job, workshop_layout

RULES = SlabRules(rule_set=load("floor"))
SCRIPT = """\
const text = require('fs').readFileSync(process.argv[1], 'utf8');
const Parser = require('dxf-parser');
const { Helper } = require('dxf');
const count = (entities) => entities.reduce((n, e) => ({ ...n, [e.layer]: (n[e.layer] || 0) + 1 }), {});
const one = new (Parser.default || Parser)().parseSync(text);
const two = new Helper(text).parsed;
console.log(JSON.stringify({ one: count(one.entities), two: count(two.entities), unit: one.header['$INSUNITS'] || 0 }));
"""


@pytest.fixture(scope="module", params=["plan", "flat"])
def written(request, tmp_path_factory):
    job, layout = workshop_job(), workshop_layout()
    sheets = joint_plan(job, layout, (), RULES)
    write = dxf_bytes if request.param == "plan" else flat_dxf_bytes
    path = tmp_path_factory.mktemp("dxf") / f"{request.param}.dxf"
    path.write_bytes(write(job, layout, sheets))
    return path, sheets, layout


def kinds_of(document):
    return {
        name: Counter((e.dxftype(), e.dxf.layer) for e in document.layout(name))
        for name in document.layout_names_in_taborder()
    }


def test_nothing_breaks_when_it_is_opened_saved_and_opened_again(written, tmp_path):
    path, _, _ = written
    first = ezdxf.readfile(path)
    first.saveas(tmp_path / "again.dxf")
    again = ezdxf.readfile(tmp_path / "again.dxf")
    auditor = again.audit()
    assert (auditor.errors, auditor.fixes) == ([], [])
    assert kinds_of(again) == kinds_of(first)
    told = [
        [(t.code, t.value) for t in e.get_xdata("KERFLINE")]
        for document in (first, again)
        for e in document.modelspace()
        if e.has_xdata("KERFLINE")
    ]
    half = len(told) // 2
    assert half > 10
    assert told[:half] == told[half:]


def test_tags_are_references_to_blocks_with_their_text_as_attribute(written):
    path, sheets, layout = written
    if path.stem == "flat":
        texts = Counter(t.dxf.text for t in ezdxf.readfile(path).modelspace().query("TEXT"))
        assert all(texts[p.id] for p in layout.panels)
        return
    document = ezdxf.readfile(path)
    for space in (document.modelspace(), document.layout(document.layout_names_in_taborder()[1])):
        found = {
            (insert.dxf.name, attrib.dxf.tag, attrib.dxf.text, attrib.dxf.layer)
            for insert in space.query("INSERT")
            for attrib in insert.attribs
            if insert.dxf.name != "TITLE_BLOCK"
        }
        panels = {("PANEL_NUMBER", "NAME", p.id, Layer.PANEL.value) for p in layout.panels}
        assert panels <= found
        joints = {text.split(" ")[0] for name, _, text, _ in found if name == "TAG"}
        assert {j.id for j in layout.joints} <= joints
    assert [d.dxf.tag for d in document.blocks.get("TAG").query("ATTDEF")] == ["NAME"]
    placed = {t.text: t.at for t in sheets[0].texts if t.in_plan and t.layer is Layer.PANEL}
    paper = document.layout(document.layout_names_in_taborder()[1])
    for insert in paper.query("INSERT[name=='PANEL_NUMBER']"):
        (attrib,) = insert.attribs
        x, y = placed[attrib.dxf.text]
        assert (attrib.dxf.align_point.x * 25.4, attrib.dxf.align_point.y * 25.4) == (
            pytest.approx(x, abs=1e-3), pytest.approx(y, abs=1e-3)
        )  # fmt: skip


def test_two_readers_of_another_language_see_the_same_joints(written):
    """Needs node, and the packages dxf-parser and dxf where NODE_PATH says."""
    node = shutil.which("node")
    if node is None:
        pytest.skip("node is not installed")
    able = subprocess.run(
        [node, "-e", "require('dxf-parser'); require('dxf')"], capture_output=True, check=False
    )
    if able.returncode:
        pytest.skip("the packages dxf-parser and dxf are not where NODE_PATH says")
    path, _, layout = written
    done = subprocess.run(
        [node, "-e", SCRIPT, str(path)], capture_output=True, check=True, text=True
    )
    seen = json.loads(done.stdout)
    if path.stem == "plan":
        assert seen["unit"] == 1  # inches
    sawn = sum(j.kind is JointKind.CONTROL for j in layout.joints)
    for reader in ("one", "two"):
        assert seen[reader][Layer.CONTROL.value] == sawn
        assert seen[reader][Layer.EDGE.value] == 1
