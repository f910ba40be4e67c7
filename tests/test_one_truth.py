"""Every fact that stands on two outputs of a job is the same on both: kinds, lengths, depths, numbers, sizes, totals, trucks."""

import csv
import io
import json
import re
from pathlib import Path

import ezdxf
import openpyxl
import pytest

from kerfline.app.day_job import DayOutcome, day_contents, plan_beside
from kerfline.app.deliver import contents
from kerfline.app.demo import demo
from kerfline.app.lay_out import lay_out_job
from kerfline.model.finding import Rule
from kerfline.model.slab import JointKind
from kerfline.units import MM_PER_FOOT, MM_PER_INCH, MM_PER_METRE, Unit
from twenty_jobs import JOBS


@pytest.fixture(scope="module", params=[*JOBS, "demo"], ids=lambda job: getattr(job, "name", job))
def made(request):
    if request.param == "demo":
        day = demo()
        outcome, plan = day.outcome, day.plan
    else:
        outcome = lay_out_job(request.param)
        plan = plan_beside(outcome, Path("job.toml"))
    files = contents(outcome, plan)
    return (
        outcome,
        plan,
        files | (day_contents(DayOutcome(outcome=outcome, plan=plan)) if plan else {}),
    )


def named(files, ending):
    return next(body for name, body in files.items() if name.endswith(ending))


def rows_of(files, ending):
    rows = csv.DictReader(io.StringIO(named(files, ending).decode()))
    return {next(iter(row.values())): row for row in rows}


def test_kinds_lengths_and_depths_of_joints(made):
    """The layout file, the joint table, the workbook, and the lines of both DXF files with their data."""
    outcome, _, files = made
    layout = json.loads(named(files, "-layout.json"))
    listed = rows_of(files, "-joints.csv")
    book = openpyxl.load_workbook(io.BytesIO(named(files, ".xlsx")))
    head, *cells = book["Joints"].values
    cells = {row[0]: row for row in cells}
    assert list(listed) == list(cells) == [j["id"] for j in layout["joints"]]
    unit, deep = unit_of(outcome), MM_PER_INCH if outcome.job.units is Unit.FT else 1.0
    for joint in layout["joints"]:
        row, cell = listed[joint["id"]], cells[joint["id"]]
        assert row["kind"] == cell[1] == joint["kind"]
        assert float(row["length_mm"]) == pytest.approx(joint["length"], abs=0.06)
        assert cell[
            head.index(next(h for h in head if h.startswith("length")))
        ] * unit == pytest.approx(joint["length"], abs=0.06)
        assert float(row["depth_mm"]) == pytest.approx(joint["depth"], abs=0.06)
        assert cell[
            head.index(next(h for h in head if h.startswith("depth")))
        ] * deep == pytest.approx(joint["depth"], abs=0.06)
    for ending in ("-joint-plan.dxf", "-joint-plan-flat.dxf"):
        document = ezdxf.read(io.StringIO(named(files, ending).decode()))
        seen = {}
        for line in document.modelspace():
            if line.dxf.layer.startswith("S-JNTS") and line.has_xdata("KERFLINE"):
                name, kind, length, depth = (tag.value for tag in line.get_xdata("KERFLINE")[:4])
                seen[name] = (kind, length, depth, line.dxf.layer)
        assert set(seen) == set(listed)
        codes = {"control": "CTLJ", "construction": "CNTJ", "isolation": "ISOL"}
        for joint in layout["joints"]:
            kind, length, depth, layer = seen[joint["id"]]
            assert kind == joint["kind"]
            assert codes[kind] in layer
            assert length == pytest.approx(joint["length"], abs=0.1)
            assert depth == pytest.approx(joint["depth"], abs=0.1)


def test_panels_in_their_tables(made):
    _, _, files = made
    layout = json.loads(named(files, "-layout.json"))
    listed = rows_of(files, "-panels.csv")
    assert list(listed) == [p["id"] for p in layout["panels"]]
    for panel in layout["panels"]:
        assert float(listed[panel["id"]]["length_mm"]) == pytest.approx(panel["length"], abs=0.06)
        assert float(listed[panel["id"]]["width_mm"]) == pytest.approx(panel["width"], abs=0.06)


def texts_of(files, start):
    """The words of every drawing of one kind, in order."""
    drawn = [
        body.decode() for name, body in files.items() if start in name and name.endswith(".svg")
    ]
    found = [w for svg in drawn for w in re.findall(r"<text[^>]*>([^<]*)</text>", svg)]
    return [w.replace("&quot;", '"').replace("&amp;", "&") for w in found]


def test_totals_by_kind(made):
    """The plan's totals are the sums of the joint table."""
    outcome, _, files = made
    listed = rows_of(files, "-joints.csv").values()
    words = " ".join(texts_of(files, "-joint-plan"))
    feet_shown = outcome.job.units is Unit.FT
    for kind in JointKind:
        total = sum(float(r["length_mm"]) for r in listed if r["kind"] == kind.value)
        if total:
            said = (
                f"{total / MM_PER_FOOT:,.0f} ft" if feet_shown else f"{total / MM_PER_METRE:,.1f} m"
            )
            assert f"{kind.value} {said}" in words
    assert f"{len(outcome.layout.panels)} panel" in words


def test_the_cut_sheet_saws_what_the_table_calls_sawn_and_no_more(made):
    outcome, _, files = made
    listed = rows_of(files, "-joints.csv")
    sawn = {name for name, row in listed.items() if float(row["depth_mm"])}
    cells = set(texts_of(files, "-cut-sheet"))
    assert sawn <= cells
    formed = {name for name, row in listed.items() if row["kind"] == "construction"}
    tags = set(texts_of(files, "-joint-plan"))
    assert formed <= {w.split(" ")[0] for w in tags}
    assert sawn == {j.id for j in outcome.layout.joints if j.kind is JointKind.CONTROL}


def test_panel_sizes_on_the_panel_sheet_are_those_of_the_table(made):
    outcome, _, files = made
    listed = rows_of(files, "-panels.csv").values()
    words = " ".join(texts_of(files, "-panel-sheet"))
    for row in listed:
        sides = [row["length"], row["width"]]
        if outcome.job.units is not Unit.FT:
            sides = [side.removesuffix(" mm") for side in sides]
        assert f"{sides[0]} x {sides[1]}" in words


def test_a_day_names_the_joints_of_the_layout_and_orders_its_trucks_once(made):
    outcome, plan, files = made
    if plan is None:
        return
    formed = {j.id for j in outcome.layout.joints if j.kind is JointKind.CONSTRUCTION}
    assert {j.id for j in plan.construction_joints} == formed
    pours = plan.placement.pours.pours
    assert sum(p.area.area for p in pours) == pytest.approx(
        outcome.job.slab.concrete.area, rel=1e-6
    )
    words = named(files, "-day.txt").decode()
    book = openpyxl.load_workbook(io.BytesIO(named(files, ".xlsx")))
    rows = {row[0]: row for row in book["Construction joints"].values} if formed else {}
    for joint in outcome.layout.joints:
        if joint.id in formed:
            assert rows[joint.id][2] * unit_of(outcome) == pytest.approx(joint.length, abs=0.06)
    loads = sum(int(n) for n in re.findall(r"in (\d+) loads? of", words))
    total = re.search(r"loads: (\d+) truck", words)
    assert total is None or loads == int(total[1])


def test_bars_are_counted_where_they_are_drawn_and_where_the_checks_ask_for_them(made):
    """The take-off, the lines of both DXF files, and the corners that the checks find without a joint."""
    outcome, plan, files = made
    drawn = []
    for ending in ("-joint-plan.dxf", "-joint-plan-flat.dxf"):
        document = ezdxf.read(io.StringIO(named(files, ending).decode()))
        drawn.append(len(document.modelspace().query('LINE[layer=="S-SLAB-RBAR"]')))
    bare = sum(f.rule is Rule.CORNER for f in outcome.findings)
    stops = sum(f.rule is Rule.TEE_END for f in outcome.findings)
    usual = 2 * bare + 3 * stops
    assert drawn == [usual, usual]
    if plan is not None:
        rows = {row.item: row.amount for row in plan.take_off.rows}
        assert (rows.get("corner bars", 0), rows.get("tee bars", 0)) == (2 * bare, 3 * stops)


def test_lengths_are_told_in_eighths_wherever_they_are_told(made):
    """Findings, reasons, sheets and tables: one figure for one length, none finer than a crew sets out."""
    outcome, _, files = made
    told = [f.message for f in outcome.findings] + texts_of(files, "")
    told += [body.decode() for name, body in files.items() if name.endswith((".csv", ".txt"))]
    fine = [w for words in told for w in re.findall(r"\d+'-\d+ \d+/16", words)]
    assert fine == []


def unit_of(outcome):
    """Millimetres in the unit of lengths in the workbook."""
    return MM_PER_FOOT if outcome.job.units is Unit.FT else MM_PER_METRE
