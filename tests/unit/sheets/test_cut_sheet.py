"""The cut sheet: every line once, in order, with offsets that a tape can follow."""

import math

import pytest

from kerfline.model.slab import JointKind
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.baselines import baselines
from kerfline.sheets.cut.lines import cut_lines, square_check
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.sheets.marks import Layer
from kerfline.units import MM_PER_FOOT, Unit
from shapes import workshop_job, workshop_layout
from sheet_checks import assert_clean

RULES = SlabRules(rule_set=load("floor"))


@pytest.fixture(scope="module")
def sheets():
    return cut_sheet(workshop_job(), workshop_layout(), RULES)


def cuts(order=(), units=Unit.FT):
    job = workshop_job(units)
    return cut_lines(job, workshop_layout(), baselines(job.slab), order=order)


def test_every_control_joint_is_cut_once_and_no_other():
    wanted = [j.id for j in workshop_layout().joints if j.kind is JointKind.CONTROL]
    assert sorted(c.joint for c in cuts()) == sorted(wanted)
    assert [c.number for c in cuts()] == list(range(1, len(wanted) + 1))


def test_a_given_order_is_kept_and_the_rest_follows():
    assert [c.joint for c in cuts(("J7", "J1"))][:2] == ["J7", "J1"]


def test_lines_are_cut_one_after_another_along_the_slab():
    middles = [(c.start[0] + c.end[0]) / 2 for c in cuts()]
    assert [round(m) for m in middles] == sorted(round(m) for m in middles)


def test_cuts_start_at_the_end_nearer_to_corner_a():
    for cut in cuts():
        assert sum(cut.start) <= sum(cut.end) + 1e-6
        assert math.dist(cut.start, cut.end) == pytest.approx(cut.length)


def test_the_square_check_is_the_largest_rectangle_at_corner_a():
    job = workshop_job()
    sides = square_check(job, workshop_layout(), baselines(job.slab))
    assert sides == pytest.approx((60 * MM_PER_FOOT, 24 * MM_PER_FOOT))


def test_the_sheet_says_what_the_crew_needs(sheets):
    words = " ".join(t.text for s in sheets for t in s.texts).replace("\u00a0", " ")
    for needed in (
        "both diagonals 64'-7 7/16\"", "1\" deep in 4\" slab: 13 lines, 225 ft", "measured", "time cut",
        "Silica dust", "Hearing protection", "guards on", "Trial cut first", "no cut: tubing",
        "boxout, stop at its edge", "Local rules",
    ):  # fmt: skip
        assert needed in words


def test_numbers_stand_beside_every_line(sheets):
    numbers = [t.text for t in sheets[0].texts if t.in_plan and t.text.isdigit()]
    assert sorted(map(int, numbers)) == list(range(1, 14))


def test_the_table_has_boxes_to_write_in(sheets):
    rules = [
        m for m in sheets[-1].marks if m.layer is Layer.TABLE and len(getattr(m, "points", ())) == 2
    ]
    upright = [m for m in rules if m.points[0][0] == m.points[1][0]]
    assert len(upright) == 14


def test_a_blade_of_14_inches_leaves_3_inches_at_an_isolated_wall():
    """14 in blade, 1-1/4 in deep: 3.008 in uncut at the surface (circle geometry; trade page: 2 to 4 in)."""
    from kerfline.placement.kerf import cut_end

    assert cut_end(14 * 25.4, 1.25 * 25.4).surface / 25.4 == pytest.approx(3.008, abs=5e-4)


def test_metric_sheets_are_clean_too():
    sheets = cut_sheet(workshop_job(Unit.MM), workshop_layout(), RULES, area="pour 1")
    assert_clean(sheets)
    assert sheets[0].title == "Cut sheet, pour 1"


def test_windows_are_written_beside_their_lines():
    sheets = cut_sheet(workshop_job(), workshop_layout(), RULES, windows={"J1": "21:00-23:30"})
    assert any(t.text == "21:00-23:30" for s in sheets for t in s.texts)
