"""A joint runs through a penetration, or stays clear of it."""

import pytest

from checked import Rule, Severity, feet, findings, grid_slab, of
from kerfline.model.slab import Meeting, Penetration, PenetrationKind
from kerfline.units import MM_PER_FOOT, MM_PER_INCH


def pipe(off_inches, meeting=Meeting.AUTO, diameter=101.6, y=5):
    """A pipe beside the first upright joint of a grid, its centre so many inches off."""
    return Penetration(
        id="N1",
        at=feet((10 + off_inches / 12, y))[0],
        diameter=diameter,
        kind=PenetrationKind.DRAIN,
        meeting=meeting,
    )


def found_at(off_inches, *args, **more):
    return of(
        Rule.PENETRATION, findings(grid_slab(penetrations=(pipe(off_inches, *args, **more),)))
    )


@pytest.mark.parametrize("off", [0.0, 1.0, 2.0])
def test_a_joint_through_the_pipe_is_clean(off):
    assert not found_at(off)


@pytest.mark.parametrize("off", [2.1, 6.0, 11.9])
def test_a_joint_beside_the_pipe_is_a_warning_with_the_distance(off):
    found = found_at(off)
    assert [(f.severity, f.subject) for f in found] == [(Severity.WARNING, "V1 at N1")]
    assert found[0].measured == pytest.approx(off * MM_PER_INCH)
    assert found[0].limit == pytest.approx(MM_PER_FOOT)
    assert "drain N1" in found[0].message


@pytest.mark.parametrize("off", [12.0, 30.0])
def test_a_joint_clear_of_the_pipe_is_clean(off):
    assert not found_at(off)


def test_a_second_joint_beside_a_pipe_that_one_runs_through_is_clean():
    # On H1, six inches from its crossing with V1.
    assert not found_at(6.0, y=10)


def test_a_pipe_of_unknown_diameter_is_met_within_half_an_inch():
    assert not found_at(0.4, diameter=0.0)
    assert found_at(0.6, diameter=0.0)


def test_a_pipe_that_a_joint_must_run_through_and_misses_is_a_warning_at_any_distance():
    assert found_at(6.0, Meeting.THROUGH)
    found = found_at(36.0, Meeting.THROUGH)
    assert [f.severity for f in found] == [Severity.WARNING]
    assert found[0].measured is None


def test_a_pipe_that_wants_clear_concrete_and_has_a_joint_through_it_is_a_warning():
    found = found_at(0.0, Meeting.CLEAR)
    assert [f.measured for f in found] == [0.0]


def test_of_two_remedies_the_second_goes_on_in_the_sentence():
    (found,) = found_at(6.0)
    assert found.remedy.startswith("Run the joint through it, or keep joints ")
