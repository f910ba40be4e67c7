"""The run mark: the same for the same job and layout, another for any other; on every sheet and table."""

import csv
import io
import json
import zipfile
from dataclasses import replace

import ezdxf
import pypdfium2
import pytest
from ezdxf.lldxf.const import DXF12

from kerfline.app.deliver import contents
from kerfline.app.outcome import Outcome
from kerfline.app.run_mark import marked, run_mark
from kerfline.model.job import SheetChoice
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import Unit
from shapes import workshop_job, workshop_layout

RULES = SlabRules(rule_set=load("floor"))


@pytest.fixture(scope="module")
def outcome():
    fields = {"date": "2026-06-14"}
    job = replace(workshop_job(), sheet=SheetChoice(fields=fields))
    return Outcome(job=job, layout=workshop_layout(), findings=(), rules=RULES)


def test_paper_and_unit_change_no_mark(outcome):
    job, layout = outcome.job, outcome.layout
    mark = run_mark(job, layout)
    assert len(mark) == 8
    other = replace(job, units=Unit.MM, sheet=SheetChoice(size="a3", scale=50.0), notes=("read",))
    assert run_mark(other, layout) == mark
    assert run_mark(marked(outcome).job, layout) == mark


def test_another_slab_or_another_joint_changes_the_mark(outcome):
    job, layout = outcome.job, outcome.layout
    marks = {
        run_mark(job, layout),
        run_mark(replace(job, slab=replace(job.slab, thickness=job.slab.thickness + 1)), layout),
        run_mark(job, replace(layout, joints=layout.joints[:-1])),
        run_mark(job, replace(layout, joints=(_moved(layout.joints[0]), *layout.joints[1:]))),
    }
    assert len(marks) == 4


def _moved(joint):
    return replace(joint, path=tuple((x + 0.02, y) for x, y in joint.path))


def test_a_shift_far_below_what_can_be_measured_changes_no_mark(outcome):
    layout = outcome.layout
    shifted = tuple(replace(j, path=tuple((x + 1e-7, y) for x, y in j.path)) for j in layout.joints)
    assert run_mark(outcome.job, replace(layout, joints=shifted)) == run_mark(outcome.job, layout)


def test_every_sheet_and_table_carries_the_mark(outcome):
    mark = run_mark(outcome.job, outcome.layout)
    for name, data in contents(outcome).items():
        assert holds(name, data, mark), name


def holds(name, data, mark):
    ending = name.rsplit(".", 1)[1]
    if ending == "pdf":
        pages = pypdfium2.PdfDocument(data)
        return all(mark in page.get_textpage().get_text_bounded() for page in pages)
    if ending == "csv":
        rows = list(csv.DictReader(io.StringIO(data.decode())))
        return rows and {row["run"] for row in rows} == {f"{mark} 2026-06-14"}
    if ending == "json":
        return json.loads(data)["run"] == f"{mark} 2026-06-14"
    if ending == "dxf":
        document = ezdxf.read(io.StringIO(data.decode()))
        if (
            document.dxfversion == DXF12
        ):  # it knows no properties: the mark stands in the title block
            return any(mark in text.dxf.text for text in document.modelspace().query("TEXT"))
        return document.header.custom_vars.get("RUN MARK") == f"{mark} 2026-06-14"
    if ending == "xlsx":
        book = zipfile.ZipFile(io.BytesIO(data))
        sheets = [n for n in book.namelist() if n.startswith("xl/worksheets/sheet")]
        return sheets and all(mark in book.read(n).decode() for n in sheets)
    return mark in data.decode()
