"""The cuts for the crew's page: those of the cut sheets, one section for each placement."""

import pytest

from kerfline.app.crew_cuts import cut_sections
from parted import parted_day, parted_outcome


@pytest.fixture(scope="module")
def outcome():
    return parted_outcome()


@pytest.fixture(scope="module")
def plan(outcome):
    return parted_day(outcome)


def test_a_slab_without_a_day_is_one_section_without_hours(outcome):
    (section,) = cut_sections(outcome, None)
    assert section.name == ""
    assert section.start == "corner A"
    assert set(section.closes) == {None}
    assert len(section.rows) == len(section.cuts) == len(section.closes) > 0


def test_each_placement_is_a_section_and_the_numbers_are_those_of_the_day(outcome, plan):
    sections = cut_sections(outcome, plan)
    assert len(sections) == len(plan.placement.pours.pours) == 3
    assert len({section.name for section in sections}) == 3
    numbers = [cut.number for section in sections for cut in section.cuts]
    assert sorted(set(numbers)) == sorted(cut.order for cut in plan.placement.cutting.cuts)


def test_a_cut_closes_when_its_window_on_the_day_does(outcome, plan):
    closing = {cut.order: cut.window for cut in plan.placement.cutting.cuts}
    for section in cut_sections(outcome, plan):
        for cut, close in zip(section.cuts, section.closes, strict=True):
            window = closing[cut.number]
            assert close == (window.closes.likely if window.workable else window.deadline)
