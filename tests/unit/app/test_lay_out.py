"""A job laid out: rules, engine, placements, checks."""

from dataclasses import replace

import pytest

from kerfline.app.lay_out import engine_options, lay_out_job
from kerfline.model.slab import JointKind
from kerfline.units import Display, Unit
from twenty_jobs import job_of

BAY = job_of("bay", ((0, 0), (40, 0), (40, 24), (0, 24)))


def test_the_engine_is_told_what_the_job_asks_for():
    heard = []
    job = replace(BAY, units=Unit.MM, effort=1.5, weights={"tee": 3.0})
    options = engine_options(job, heard.append)
    assert options.display is Display.METRIC
    assert options.effort == 1.5
    assert options.weights == {"tee": 3.0}
    options.progress("said")
    assert heard == ["said"]
    assert engine_options(BAY).progress is None


def test_the_panels_of_a_layout_are_its_concrete_and_the_findings_are_those_of_the_rules():
    outcome = lay_out_job(BAY)
    panels = sum(panel.area for panel in outcome.layout.panels)
    assert panels == pytest.approx(outcome.job.slab.concrete.area)
    assert outcome.rules.rule_set.name == "floor"
    assert outcome.clean


def test_a_slab_for_several_days_is_divided_before_it_is_checked():
    day = {"pours": {"volume": "6 yd3", "access": ["left"]}}
    outcome = lay_out_job(replace(BAY, day=day))
    formed = [j for j in outcome.layout.joints if j.kind is JointKind.CONSTRUCTION]
    assert formed
    assert all(j.id.startswith("CNTJ") for j in formed)
