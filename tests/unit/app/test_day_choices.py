"""Fewer days against fewer bulkheads: other divisions of the same joints."""

from dataclasses import replace

import pytest

from kerfline.app.day_choices import MOST_PANELS, day_choices
from kerfline.model.day import DayInput
from kerfline.model.layout import Layout
from kerfline.model.slab import JointKind
from kerfline.placement.formed import FORMED
from kerfline.quantities.concrete import concrete_body
from parted import DAY, parted_outcome
from shapes import workshop_layout, workshop_slab

SLAB = workshop_slab()
BODY = concrete_body(SLAB)


@pytest.fixture(scope="module")
def layout():
    return parted_outcome().layout


def test_a_slab_that_is_placed_whole_has_no_choice(layout):
    assert day_choices(SLAB, layout, DayInput(), BODY, 1) == ()


def test_a_floor_of_many_panels_is_not_divided_several_times_over():
    panel = workshop_layout().panels[0]
    panels = tuple(replace(panel, id=f"P{n}") for n in range(MOST_PANELS + 1))
    large = Layout(joints=(), panels=panels, solution=workshop_layout().solution)
    assert day_choices(SLAB, large, DAY, BODY, 3) == ()


def test_more_placements_mean_less_a_day_and_more_bulkhead(layout):
    choices = day_choices(SLAB, layout, DAY, BODY, 3)
    assert len(choices) > 1
    counts = [c.placements for c in choices]
    assert counts == sorted(set(counts))
    most, bulkheads = [c.most for c in choices], [c.bulkhead for c in choices]
    assert most == sorted(most, reverse=True)
    assert bulkheads == sorted(bulkheads)
    for choice in choices:
        assert choice.most * choice.placements >= BODY.volume() * (1 - 1e-9)


def test_a_bulkhead_that_was_given_stands_in_every_choice(layout):
    """The workshop has one of 24 ft; what placements formed besides counts as what it was before."""
    given = [j for j in workshop_layout().joints if j.kind is JointKind.CONSTRUCTION]
    choices = day_choices(SLAB, layout, DAY, BODY, 2)
    assert choices[0].placements == 2
    least = sum(j.length for j in given)
    assert all(choice.bulkhead >= least * (1 - 1e-9) for choice in choices)


def test_one_placement_has_no_bulkhead_and_takes_all(layout):
    sawn = tuple(
        replace(j, note=f"{FORMED} here") if j.kind is JointKind.CONSTRUCTION else j
        for j in layout.joints
    )
    whole, *_ = day_choices(SLAB, replace(layout, joints=sawn), DAY, BODY, 2)
    assert (whole.placements, whole.bulkhead) == (1, 0)
    assert whole.most == pytest.approx(BODY.volume())
