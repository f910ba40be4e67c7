"""What a job ends in: a layout and its findings."""

from checked import FOUR_INCHES, findings, grid_slab, rules
from kerfline.app.outcome import held
from kerfline.checks.given import given_layout
from kerfline.model.finding import Severity
from kerfline.model.job import Job
from kerfline.units import Unit


def held_of(slab):
    job = Job(name="Workshop", units=Unit.FT, slab=slab)
    return held(job, rules(), given_layout(slab))


def test_the_findings_are_those_of_the_checks_counted_by_how_much_they_matter():
    slab = grid_slab(2, 1, bay=20.0, thickness=FOUR_INCHES)
    outcome = held_of(slab)
    assert outcome.findings == tuple(findings(slab))
    for severity in Severity:
        alike = [f for f in outcome.findings if f.severity is severity]
        assert outcome.count(severity) == len(alike)
    assert outcome.count(Severity.ERROR) > 0


def test_a_layout_is_clean_where_nothing_is_an_error():
    assert held_of(grid_slab()).clean
    assert not held_of(grid_slab(2, 1, bay=20.0)).clean
    assert held_of(grid_slab()).held is not None
