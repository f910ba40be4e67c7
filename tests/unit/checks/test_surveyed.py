"""Points measured on site held against the points that were set out."""

import pytest

from checked import grid_slab
from kerfline.checks.given import given_layout
from kerfline.checks.surveyed import Measured, off_plan, surveyed
from kerfline.model.finding import Rule, Severity
from kerfline.units import Display

SLAB = grid_slab(2, 1)
PLAN = given_layout(SLAB)
LINES = {j.id: j.line for j in PLAN.joints}
"""One joint, V1, up at 10 ft (3048 mm)."""


def point(found, planned=(3048.0, 0.0), joint="V1"):
    return Measured(name="101", what="end of V1", planned=planned, found=found, joint=joint)


def told(*points, display=Display.METRIC):
    return surveyed(SLAB, PLAN, points, display)


@pytest.mark.parametrize(
    ("found", "off"),
    [
        ((3048.0, 0.0), 0.0),
        ((3058.0, 0.0), 10.0),
        ((3038.0, 1500.0), 10.0),
        ((3048.0, -70.0), 0.0),
        ((3048.0, 3148.0), 0.0),
    ],
)
def test_a_joints_point_is_held_sideways_from_its_line(found, off):
    """A saw may stop short or run on by what two cuts of one joint may be apart."""
    assert off_plan(point(found), LINES) == pytest.approx(off)


def test_past_what_a_saw_runs_on_the_distance_counts():
    far, farther = (off_plan(point((3048.0, -y)), LINES) for y in (1000.0, 2000.0))
    assert farther - far == pytest.approx(1000.0)


def test_another_point_is_held_to_its_place():
    """3, 4 and 5."""
    corner = point((3.0, 4.0), planned=(0.0, 0.0), joint="")
    assert (corner.apart, off_plan(corner, LINES)) == (5.0, 5.0)
    assert off_plan(point((3.0, 4.0), planned=(0.0, 0.0), joint="unknown"), LINES) == 5.0


@pytest.mark.parametrize(("off", "count"), [(19.05, 0), (19.5, 0), (19.6, 1)])
def test_three_quarters_of_an_inch_is_allowed(off, count):
    """ACI 117, as tabulated in UFGS 03700, with half a millimetre for the tape."""
    assert len(told(point((3048.0 + off, 500.0)))) == count


def test_a_point_off_its_place_is_a_warning_that_says_where_and_how_far():
    (found,) = told(point((3073.0, 0.0)), point((3048.0, 3048.0)))
    assert (found.rule, found.severity, found.subject) == (Rule.EDGE, Severity.WARNING, "V1")
    assert (found.at, found.measured, found.limit) == ((3073.0, 0.0), pytest.approx(25.0), 19.05)
    assert found.message == (
        "Point 101 (end of V1) at (3073 mm, 0 mm) lies 25 mm off its planned place; 19 mm is allowed."
    )


def test_a_point_of_no_joint_is_named_itself_and_a_figure_near_the_limit_is_told_apart():
    (found,) = told(point((0.0, 19.6), planned=(0.0, 0.0), joint=""), display=Display.FEET_INCHES)
    assert found.subject == "101"
    assert (
        "lies 19.6 mm off its planned place; 19.1 mm is allowed" in found.message
        or '3/4"' in found.message
    )
