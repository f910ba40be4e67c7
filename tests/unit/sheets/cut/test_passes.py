"""The passes of the saw in their order."""

from kerfline.sheets.baselines import Baselines, baselines
from kerfline.sheets.cut.lines import cut_lines
from kerfline.sheets.cut.passes import in_order, passes_along, planned_passes
from kerfline.units import Unit
from parted import parted_day, parted_outcome
from poured import sawn
from shapes import workshop_job, workshop_layout


def cuts(units=Unit.FT):
    job = workshop_job(units)
    base = baselines(job.slab)
    return cut_lines(job, passes_along(workshop_layout(), base), base)


def test_lines_are_cut_one_after_another_along_the_slab():
    middles = [(c.start[0] + c.end[0]) / 2 for c in cuts()]
    assert [round(m) for m in middles] == sorted(round(m) for m in middles)


def test_lines_go_by_the_longer_way_in_which_they_are_spread():
    base = Baselines(origin=(0, 0), turn=0.0, corner=True)
    wide = [sawn(f"J{x}", (x, 0), (x, 8000)) for x in (9000, 3000, 6000)]
    tall = [sawn(f"J{y}", (0, y), (8000, y)) for y in (9000, 3000, 6000)]
    assert [line.joint for line in in_order(wide, base)] == ["J3000", "J6000", "J9000"]
    assert [line.joint for line in in_order(tall, base)] == ["J3000", "J6000", "J9000"]
    assert in_order([], base) == ()


def test_a_planned_pass_has_the_number_and_the_window_of_the_day():
    plan = parted_day(parted_outcome())
    passes = planned_passes(plan)
    cuts = plan.placement.cutting.cuts
    assert [p.number for p in passes] == [cut.order for cut in cuts]
    assert all(p.window for p in passes)
