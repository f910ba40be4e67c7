"""Parts of a slab that have a cut sheet of their own."""

from dataclasses import replace

import pytest
import shapely

from kerfline.app.day import plan_day
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.day import DayInput
from kerfline.model.slab import JointKind
from kerfline.sheets.baselines import baselines
from kerfline.sheets.cut.areas import SHORTEST, named_area, passes_in, pour_areas, slab_in
from kerfline.sheets.cut.lines import cut_lines
from kerfline.sheets.cut.passes import CutPass, passes_along
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.sheets.cut.words import ends_words
from kerfline.units import MM_PER_FOOT, Display
from poured import sawn
from shapes import workshop_job, workshop_layout, workshop_slab
from sheet_checks import assert_clean
from workshop_cuts import RULES


def test_the_placements_share_out_every_line_and_no_line_twice(areas, plan):
    """Sawn length and numbers over all sheets are those of the day sheet."""
    passes = [one for area in areas for one in area.passes]
    assert [one.number for one in passes] == sorted({c.order for c in plan.placement.cutting.cuts})
    whole = sum(w.sawn.line.length for w in plan.placement.windows)
    assert sum(one.sawn.line.length for one in passes) == pytest.approx(whole, abs=2 * len(passes))


def test_a_line_keeps_inside_its_placement(areas):
    for area in areas:
        near = area.region.buffer(TOUCH)
        assert all(near.covers(one.sawn.line) for one in area.passes)


def test_a_cut_that_ends_on_a_construction_joint_says_so_and_reaches_it(areas):
    job = workshop_job()
    for area in areas:
        base = baselines(job.slab, area.region)
        lines = cut_lines(job, area.passes, base, formed=area.formed)
        fronts = shapely.union_all([joint.line for joint in area.formed])
        for cut in lines:
            for end, formed in zip(cut.ends, cut.formed, strict=True):
                assert formed == (fronts.distance(shapely.Point(end.at)) <= TOUCH)
                if formed:
                    assert fronts.distance(shapely.Point(end.at)) < 1e-6
                    assert "construction joint" in ends_words(cut, job.display)


def test_an_area_that_someone_names_has_only_its_lines():
    job, layout = workshop_job(), workshop_layout()
    hall = shapely.box(0, 0, 36 * MM_PER_FOOT, 24 * MM_PER_FOOT)
    passes = passes_along(layout, baselines(job.slab))
    sheets = cut_sheet(job, layout, RULES, area=named_area("H", "hall", hall, passes))
    numbers = [int(t.text) for t in sheets[0].texts if t.in_plan and t.text.isdigit()]
    inside = [p.number for p in passes if p.sawn.line.intersection(hall).length > 10]
    assert sorted(numbers) == inside
    assert 0 < len(inside) < len(passes)
    assert sheets[0].title == "Cut sheet, hall"
    assert_clean(sheets)


def test_a_slab_placed_as_one_is_no_division():
    joints = tuple(replace(j, kind=JointKind.CONTROL) for j in workshop_layout().joints)
    layout = replace(workshop_layout(), joints=joints)
    whole = plan_day(workshop_slab(), layout, RULES, DayInput(), Display.FEET_INCHES)
    assert len(whole.placement.pours.pours) == 1
    assert pour_areas(whole) == ()


@pytest.mark.parametrize(("length", "kept"), [(SHORTEST - 0.1, 0), (SHORTEST + 0.1, 1)])
def test_a_mere_end_of_a_line_is_none_in_an_area(length, kept):
    line = CutPass(number=1, sawn=sawn("J1", (-5000, 500), (length, 500)))
    region = shapely.box(TOUCH, 0, 9000, 1000)
    assert len(passes_in(region, [line], ())) == kept


def test_the_legend_of_an_area_knows_only_what_lies_in_it():
    area = named_area("N", "north bay", shapely.box(0, 24 * FT, 12 * FT, 40 * FT), ())
    slab = slab_in(area, workshop_slab())
    assert [w.id for w in slab.walls] == ["W1", "W3"]
    assert slab.columns == ()
    assert [n.id for n in slab.penetrations] == ["N1"]
    assert slab.keep_outs == ()


FT = MM_PER_FOOT
