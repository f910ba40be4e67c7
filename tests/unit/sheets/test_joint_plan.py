"""The joint plan holds what a crew and a designer need, and nothing overlaps."""

from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings
from shapely import LineString, Polygon

from kerfline.geometry.ring import Ring
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.job import Job, SheetChoice
from kerfline.model.layout import Reason
from kerfline.model.site import ControlPoint, Site
from kerfline.model.slab import Edge, EdgeKind, JointKind, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.check_sheet import check_sheet
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.marks import PENS, Layer, Path
from kerfline.sheets.panel_sheet import panel_sheet
from kerfline.sheets.plan_labels import path_line
from kerfline.sheets.plan_tables import panel_table
from kerfline.units import Display, SiteUnit, Unit, feet_inches
from shapes import layout_of, workshop_job, workshop_layout
from sheet_checks import assert_clean, grid_lines, overlapping_texts
from strategies import slabs, turned

RULES = SlabRules(rule_set=load("floor"))
SPACING = 2743.2


def finding(at, subject, severity=Severity.WARNING):
    return Finding(
        rule=Rule.SPAN, severity=severity, at=at, subject=subject, measured=4000.0, limit=3048.0,
        message=f"{subject} is 13'-1\" long; the greatest advised is 10'-0\".",
        source="common practice", remedy="Divide it.",
    )  # fmt: skip


def plan(units=Unit.FT, **choice):
    job = workshop_job(units, SheetChoice(**choice))
    return joint_plan(job, workshop_layout(), (), RULES)


def texts(sheets):
    return [t.text for s in sheets for t in s.texts]


@pytest.mark.parametrize("size", ["letter", "tabloid", "arch-d", "a4", "a3", "a1"])
@pytest.mark.parametrize("units", [Unit.FT, Unit.MM])
def test_nothing_overlaps_on_any_paper(size, units):
    assert_clean(plan(units, size=size))


@settings(max_examples=12)
@given(slabs())
def test_nothing_overlaps_over_generated_slabs(slab):
    job = Job(name="Any", units=Unit.FT, slab=slab)
    lines = [
        (JointKind.CONTROL, Reason.SPAN, [c for line in [g] for c in line.coords])
        for g in grid_lines(slab, SPACING)
    ]
    layout = layout_of(slab, lines)
    places = [finding(p.polygon.representative_point().coords[0], p.id) for p in layout.panels[:6]]
    for sheets in (
        joint_plan(job, layout, places, RULES),
        panel_sheet(job, layout, places, RULES),
        check_sheet(job, layout, places, RULES),
    ):
        assert_clean(sheets)


def test_every_joint_and_panel_is_named_on_the_plan_and_in_the_tables():
    layout = workshop_layout()
    marks = [t for s in plan() for t in s.texts]
    tags = [t.ref for t in marks if t.in_plan]
    cells = [t.text for t in marks if t.layer is Layer.TABLE]
    for named in (*layout.joints, *layout.panels):
        assert tags.count(named.id) == 1
    assert all(cells.count(joint.id) == 1 for joint in layout.joints)
    table = panel_table(workshop_job(), layout, None, RULES, 3.0)
    by_name = {p.id: p for p in layout.panels}
    listed = [name for row in table.rows for name in _expanded(row[0])]
    assert sorted(listed) == sorted(by_name)
    for names, count, size, area, *_ in table.rows:
        assert int(count) == len(_expanded(names))
        for panel in (by_name[name] for name in _expanded(names)):
            assert size == " x ".join(feet_inches(v) for v in (panel.length, panel.width))
            assert area == f"{panel.polygon.area / 304.8**2:.1f} ft2"


def _expanded(names):
    """``P1 to P3, P7`` written out."""
    out = []
    for run in names.split(", "):
        first, *last = (int(name[1:]) for name in run.split(" to "))
        out += [f"P{n}" for n in range(first, (last or [first])[0] + 1)]
    return tuple(out)


def test_running_dimensions_start_at_corner_a_and_chains_close():
    words = texts(plan())
    assert words.count("0'-0\"") == 2
    assert {"12'-0\"", "24'-0\"", "36'-0\"", "48'-0\"", "60'-0\"", "A"} <= set(words)


def test_metric_sheets_say_millimetres_once_and_write_bare_numbers():
    words = texts(plan(Unit.MM))
    assert "3658" in words
    assert any("millimetres" in w for w in words)


def test_joints_by_kind_differ_in_black_and_white():
    looks = {
        (PENS[k].width, PENS[k].dash) for k in (Layer.CONTROL, Layer.CONSTRUCTION, Layer.ISOLATION)
    }
    assert len(looks) == 3
    words = " ".join(texts(plan()))
    assert all(code in words for code in ("CTLJ", "CNTJ", "ISOL"))


def test_the_usual_cautions_stand_on_the_plan_itself():
    first = " ".join(t.text for t in plan()[0].texts)
    for word in (
        "silica dust",
        "guards",
        "tendons",
        "burn skin",
        "licensed professional",
        "local codes",
    ):
        assert word in first.replace("\u00a0", " ")


def test_blank_fields_stay_blank():
    sheet = plan()[0]
    labels = ["owner", "drawn", "checked", "approved", "date", "number", "revision"]
    written = [t.text for t in sheet.texts]
    assert all(label in written for label in labels)
    filled = plan(fields={"owner": "Valley Trust", "number": "S-101"})[0]
    assert {"Valley Trust", "S-101"} == {t.text for t in filled.texts} - set(written)


def test_a_scale_asked_for_is_kept_and_the_slab_falls_into_parts_with_match_lines():
    sheets = plan(size="letter", scale=48)
    plans = [s for s in sheets if s.view]
    assert len(plans) > 1
    assert all(s.view.scale == 48 for s in plans)
    words = texts(plans)
    assert "Key plan" in words
    assert any(w.startswith("MATCH LINE, SHEET ") for w in words)
    assert_clean(sheets)
    for panel in workshop_layout().panels:
        assert (
            sum(w == panel.id for s in plans for w in [t.text for t in s.texts if t.in_plan]) == 1
        )


def test_parts_together_show_every_joint_at_its_full_length():
    plans = [s for s in plan(size="letter", scale=48) if s.view]
    shown = {j.id: [] for j in workshop_layout().joints}
    for sheet in plans:
        for mark in sheet.marks:
            if isinstance(mark, Path) and mark.in_view and mark.ref in shown:
                shown[mark.ref].append(LineString([sheet.view.to_world(p) for p in mark.points]))
    for joint in workshop_layout().joints:
        # A joint on a match line stands on both sheets.
        once = shapely.union_all([line.buffer(0.5, cap_style="flat") for line in shown[joint.id]])
        assert once.area == pytest.approx(joint.length, abs=1.0)


def test_match_lines_lie_on_joints_where_there_are_any():
    sheets = [s for s in plan(size="letter", scale=48) if s.view]
    lines = [
        LineString([s.view.to_world(p) for p in m.points])
        for s in sheets
        for m in s.marks
        if m.layer is Layer.MATCH and isinstance(m, Path)
    ]
    assert lines
    joints = shapely.MultiLineString([j.line for j in workshop_layout().joints])
    for line in lines:
        on = line.intersection(joints.buffer(10.0))
        assert on.length > 0.3 * line.length


def test_a_corner_without_a_joint_gets_bars_and_one_with_a_joint_does_not():
    bars = [
        m for m in plan()[0].marks if isinstance(m, Path) and m.layer is Layer.BARS and m.in_view
    ]
    assert len(bars) == 8  # two across each corner of the opening, none at the L's own corner


def test_a_slab_turned_by_30_degrees_is_drawn_along_the_paper():
    slab = turned(workshop_job().slab, 30.0)
    job = Job(name="Turned", units=Unit.FT, slab=slab)
    layout = layout_of(slab, [])
    sheets = joint_plan(job, layout, (), RULES)
    assert sheets[0].view.turn == pytest.approx(-30.0, abs=1e-6)
    edge = next(
        m for m in sheets[0].marks if isinstance(m, Path) and m.layer is Layer.EDGE and m.in_view
    )
    (ax, ay), (bx, by) = edge.points[:2]
    assert min(abs(ax - bx), abs(ay - by)) < 1e-6
    assert_clean(sheets)


def test_findings_of_one_place_share_one_label():
    at = (1828.8, 1828.8)
    findings = (finding(at, "P1"), finding(at, "P1", Severity.ERROR))
    job = workshop_job()
    words = texts(joint_plan(job.for_review(), workshop_layout(), findings, RULES))
    assert "F1 F2" in words
    issued = " ".join(texts(joint_plan(job, workshop_layout(), findings, RULES)))
    assert "F1" not in issued
    assert "indings" not in issued


def test_the_sheet_is_the_same_every_time():
    assert plan() == plan()


def test_the_panel_sheet_writes_sides_and_area_inside_the_panels():
    sheets = panel_sheet(workshop_job(), workshop_layout(), (), RULES)
    inside = [t.text for t in sheets[0].texts if t.in_plan]
    assert inside.count("12'-0\" x 8'-0\"") == 6
    assert "96.0 ft2" in inside
    assert_clean(sheets)


def test_the_check_sheet_hatches_only_the_panels_that_findings_are_about():
    found = (finding((1828.8, 1828.8), "P1"), finding((9144.0, 1828.8), "P3", Severity.ADVICE))
    sheets = check_sheet(workshop_job(), workshop_layout(), found, RULES)
    hatched = {m.ref for m in sheets[0].marks if m.layer is Layer.HATCH}
    assert hatched == {"P1"}
    assert_clean(sheets)


def test_a_checker_would_see_two_texts_that_overlap():
    sheet = plan()[0]
    first = sheet.texts[0]
    twice = type(sheet)(
        name=sheet.name, title=sheet.title, number=1, count=1, paper=sheet.paper,
        marks=(*sheet.marks, first),
    )  # fmt: skip
    assert overlapping_texts(twice) == [(first, first)]


def test_display_follows_the_jobs_units():
    assert workshop_job(Unit.MM).display is Display.METRIC


def edged(*edges, clockwise=False):
    points = ((0.0, 0.0), (9000.0, 0.0), (9000.0, 6000.0), (0.0, 6000.0))
    ring = Ring(points[::-1] if clockwise else points)
    slab = Slab(outline=ring, thickness=100.0, edges=edges)
    return joint_plan(Job(name="Edges", units=Unit.M, slab=slab), layout_of(slab, []), (), RULES)


@pytest.mark.parametrize("clockwise", [False, True])
def test_isolated_edges_are_drawn_just_outside_the_concrete(clockwise):
    sheets = edged(Edge(ring=0, segment=0, kind=EdgeKind.ISOLATED), clockwise=clockwise)
    lines = [m for m in sheets[0].marks if isinstance(m, Path) and m.in_view]
    edge = path_line(next(m for m in lines if m.layer is Layer.EDGE))
    beside = path_line(next(m for m in lines if m.layer is Layer.ISOLATION))
    assert beside.distance(edge) == pytest.approx(1.0)
    assert not Polygon(edge.coords).intersects(beside)
    assert_clean(sheets)


def test_turned_down_edges_and_strips_show_their_hidden_outline():
    sheets = edged(Edge(ring=0, segment=0, kind=EdgeKind.TURNDOWN, depth=450.0, width=300.0))
    hidden = [
        m for m in sheets[0].marks if isinstance(m, Path) and m.layer is Layer.ZONE and m.in_view
    ]
    assert len(hidden) == 1
    outline = path_line(next(m for m in sheets[0].marks if m.layer is Layer.EDGE and m.in_view))
    scale = sheets[0].view.scale
    assert max(outline.bounds[3] - y for _, y in hidden[0].points) > 0
    assert hidden[0].points[0][1] - outline.bounds[1] == pytest.approx(300.0 / scale)
    assert any("other thickness" in t for t in texts(sheets))


@pytest.mark.parametrize(
    ("units", "level", "said"),
    [
        (Unit.FT, 30632.4, "top of slab +100'-6\""),
        (Unit.FT, -50.8, "top of slab -0'-2\""),
        (Unit.MM, 0.0, "top of slab +0 mm"),
    ],
)
def test_top_of_slab_stands_under_the_plan_and_in_the_notes_where_it_is_told(units, level, said):
    job = workshop_job(units, SheetChoice(size="arch-d" if units is Unit.FT else "a1"))
    told = replace(job, slab=replace(job.slab, level=level))
    words = " ".join(texts(joint_plan(told, workshop_layout(), (), RULES)))
    assert said in words.replace("\u00a0", " ")
    assert said.replace("top", "Top") in words.replace("\u00a0", " ")
    silent = " ".join(texts(joint_plan(job, workshop_layout(), (), RULES)))
    assert "op of slab" not in silent


def test_the_level_of_the_site_is_that_of_the_slab():
    job = workshop_job()
    points = (
        ControlPoint(name="N", plan=(0.0, 0.0), easting=0.0, northing=0.0),
        ControlPoint(name="S", plan=(9000.0, 0.0), easting=9000.0, northing=0.0),
    )
    assert replace(job, site=Site(control=points, unit=SiteUnit.M, level=1234.0)).level == 1234.0
    assert replace(job, site=Site(control=points, unit=SiteUnit.M)).level is None
