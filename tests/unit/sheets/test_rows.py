"""The rows of the panel table and the joint table."""

from dataclasses import replace

import pytest
from shapely.geometry import box

from kerfline.geometry.ring import Ring
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.layout import Panel
from kerfline.model.slab import JointKind, Zone
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.rows import PanelStatus, joint_rows, panel_rows, panel_statuses
from kerfline.units import Unit, stored_length
from shapes import feet, workshop_job, workshop_layout

RULES = SlabRules(rule_set=load("floor"))


def found(severity, subject):
    return Finding(
        rule=Rule.SPAN, severity=severity, at=(0, 0), subject=subject, measured=None, limit=None,
        message="", source="", remedy="",
    )  # fmt: skip


def test_a_row_holds_the_measures_of_its_panel():
    layout = workshop_layout()
    rows = panel_rows(workshop_job(), layout, (), RULES)
    assert [row.id for row in rows] == [panel.id for panel in layout.panels]
    assert rows[0].length == rows[0].width == pytest.approx(12 * 304.8)
    assert rows[0].area == layout.panels[0].area
    assert rows[0].aspect == pytest.approx(1.0)


def test_the_span_used_is_of_what_the_layout_works_to():
    """Four inches: 10 ft advised, 12 ft at most; the panels are 12 ft."""
    job, layout = workshop_job(), workshop_layout()
    assert panel_rows(job, layout, (), RULES)[0].span_used == pytest.approx(1.2)
    greatest = replace(RULES, to_maximum=True)
    assert panel_rows(job, layout, (), greatest)[0].span_used == pytest.approx(1.0)


def test_a_panel_in_a_thicker_zone_may_be_longer():
    job = workshop_job()
    corner = Ring(feet((0, 0), (12, 0), (12, 12), (0, 12)))
    zone = Zone(id="Z1", outline=corner, thickness=6 * 25.4)
    job = replace(job, slab=replace(job.slab, zones=(zone,)))
    used = [row.span_used for row in panel_rows(job, workshop_layout(), (), RULES)]
    assert used[0] == pytest.approx(12 / 15)
    assert used[1] == pytest.approx(1.2)


@pytest.mark.parametrize(
    ("severities", "status"),
    [
        ([], PanelStatus.OK),
        ([Severity.ADVICE], PanelStatus.OK),
        ([Severity.ADVICE, Severity.WARNING], PanelStatus.WARNING),
        ([Severity.WARNING, Severity.ERROR], PanelStatus.ERROR),
        ([Severity.ERROR, Severity.WARNING], PanelStatus.ERROR),
    ],
)
def test_the_worst_finding_is_the_status(severities, status):
    layout = workshop_layout()
    statuses = panel_statuses(layout, [found(s, "P2") for s in severities])
    assert statuses["P2"] is status
    assert statuses["P1"] is PanelStatus.OK
    assert len(statuses) == len(layout.panels)


def test_findings_about_other_things_leave_panels_alone():
    statuses = panel_statuses(workshop_layout(), [found(Severity.ERROR, "J1")])
    assert set(statuses.values()) == {PanelStatus.OK}


def test_joints_are_measured_from_the_baselines():
    rows = joint_rows(workshop_job(), workshop_layout())
    first = rows[0]
    assert (first.id, first.kind, first.depth) == ("J1", JointKind.CONTROL, 25.4)
    assert first.start == pytest.approx((0, 12 * 304.8))
    assert first.end[1] == pytest.approx(12 * 304.8)
    assert first.length == pytest.approx(first.end[0] - first.start[0])
    assert (first.reason, first.note) == ("span", "drawn by hand (span)")


def test_offsets_do_not_depend_on_the_drawings_origin():
    job, layout = workshop_job(), workshop_layout()
    moved = replace(
        job,
        slab=replace(
            job.slab, outline=Ring(tuple((x - 5e6, y + 3e6) for x, y in job.slab.outline.points))
        ),
    )
    joints = tuple(
        replace(j, path=tuple((x - 5e6, y + 3e6) for x, y in j.path)) for j in layout.joints
    )
    for here, there in zip(
        joint_rows(job, layout), joint_rows(moved, replace(layout, joints=joints)), strict=True
    ):
        assert there.start == pytest.approx(here.start, abs=1e-6)
        assert there.end == pytest.approx(here.end, abs=1e-6)


def test_a_layout_of_one_panel_and_no_joint():
    layout = replace(
        workshop_layout(), joints=(), panels=(Panel(id="P1", polygon=box(0, 0, 900, 600)),)
    )
    assert joint_rows(workshop_job(), layout) == ()
    assert panel_rows(workshop_job(), layout, (), RULES)[0].aspect == pytest.approx(1.5)


def test_a_reason_is_written_in_the_units_of_the_sheets_and_not_of_the_run_that_found_it():
    layout = workshop_layout()
    first = replace(layout.joints[0], note=f"open floor: more than {stored_length(3048)}")
    kept = replace(layout, joints=(first, *layout.joints[1:]))
    assert joint_rows(workshop_job(), kept)[0].note == "open floor: more than 10'-0\""
    assert joint_rows(workshop_job(Unit.MM), kept)[0].note == "open floor: more than 3048 mm"
