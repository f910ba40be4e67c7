"""The lines that are cut, with all that the crew needs to know of each."""

import math

import pytest
import shapely

from kerfline.model.slab import JointKind
from kerfline.sheets.baselines import baselines
from kerfline.sheets.cut.areas import layout_in
from kerfline.sheets.cut.lines import cut_lines, diagonal, square_check
from kerfline.sheets.cut.passes import passes_along
from kerfline.units import MM_PER_FOOT, Unit
from shapes import workshop_job, workshop_layout
from workshop_cuts import parted


def cuts(units=Unit.FT):
    job = workshop_job(units)
    base = baselines(job.slab)
    return cut_lines(job, passes_along(workshop_layout(), base), base)


def test_every_control_joint_is_cut_once_and_no_other():
    wanted = [j.id for j in workshop_layout().joints if j.kind is JointKind.CONTROL]
    assert sorted(c.joint for c in cuts()) == sorted(wanted)
    assert [c.number for c in cuts()] == list(range(1, len(wanted) + 1))


def test_cuts_start_at_the_end_nearer_to_corner_a():
    for cut in cuts():
        assert sum(cut.start) <= sum(cut.end) + 1e-6
        assert math.dist(cut.start, cut.end) == pytest.approx(cut.length)


def test_the_square_check_is_the_largest_rectangle_at_corner_a():
    job = workshop_job()
    sides = square_check(job, workshop_layout(), baselines(job.slab))
    assert sides == pytest.approx((60 * MM_PER_FOOT, 24 * MM_PER_FOOT))


def test_a_blade_of_14_inches_leaves_3_inches_at_an_isolated_wall():
    """14 in blade, 1-1/4 in deep: 3.008 in uncut at the surface (circle geometry; trade page: 2 to 4 in)."""
    from kerfline.placement.kerf import cut_end

    assert cut_end(14 * 25.4, 1.25 * 25.4).surface / 25.4 == pytest.approx(3.008, abs=5e-4)


def test_the_square_check_of_a_placement_lies_in_it(areas):
    """The diagonal of the sides by Pythagoras; the rectangle keeps inside the placement's outline."""
    job = workshop_job()
    for area in areas:
        base = baselines(job.slab, area.region)
        x, y = square_check(job, layout_in(area, parted()), base, area.region)
        corner = base.origin
        rectangle = shapely.box(*corner, corner[0] + x, corner[1] + y)
        solid = shapely.union_all(
            [area.region, *job.slab.boxouts, *(o.polygon for o in job.slab.openings)]
        )
        assert rectangle.difference(solid.buffer(2.0)).area == pytest.approx(0.0, abs=1.0)


def test_the_diagonal_of_three_by_four_is_five():
    assert diagonal((3000.0, 4000.0)) == 5000.0
