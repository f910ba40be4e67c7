"""Copies of what is on the slab, once or in a row at even steps."""

from dataclasses import replace

import pytest

from drawn_joints import joint
from kerfline.app.repeat import MOST, Named, repeated
from kerfline.app.working import Working
from kerfline.errors import InputRefused
from kerfline.geometry.ring import Ring
from kerfline.geometry.tolerance import TOUCH
from kerfline.model.slab import Column, JointKind, Slab
from kerfline.units import Unit

BOX = ((0, 0), (9000, 0), (9000, 6000), (0, 6000))
APART = 2 * TOUCH
PIT = ((500, 500), (1500, 500), (1500, 1200), (500, 1200))
SLAB = Slab(
    outline=Ring(BOX), thickness=100, openings=(Ring(PIT),), columns=(Column(id="C1", at=(1000, 3000)),)
)  # fmt: skip
STATE = Working(name="Hall", units=Unit.MM, slab=SLAB, joints=(), rule_set="floor")


def with_joints(*joints):
    return replace(STATE, slab=replace(SLAB, openings=(), columns=()), joints=joints)


def test_a_row_of_columns_stands_at_even_steps_with_names_that_go_on():
    row = repeated(STATE, [Named("column", "C1")], (2000, 100), 3)
    assert [(c.id, c.at) for c in row.slab.columns] == [
        ("C1", (1000, 3000)), ("C2", (3000, 3100)), ("C3", (5000, 3200)), ("C4", (7000, 3300)),
    ]  # fmt: skip


def test_an_opening_is_copied_with_its_arcs():
    round_ = replace(SLAB, openings=(Ring(PIT, (0.5, 0, 0, 0)),))
    two = repeated(replace(STATE, slab=round_), [Named("opening", "1")], (3000, 0), 1)
    _, copy = two.slab.openings
    assert copy.points == tuple((x + 3000, y) for x, y in PIT)
    assert copy.bulges == (0.5, 0, 0, 0)


def test_a_straight_joint_is_carried_on_to_the_edge_and_keeps_its_kind():
    first = joint("J1", (2000, 500), (2000, 5000), kind=JointKind.CONSTRUCTION)
    state = repeated(with_joints(first), [Named("joint", "J1")], (2000, 0), 2)
    assert [(j.id, j.path, j.kind) for j in state.joints[1:]] == [
        ("J2", ((4000, 0), (4000, 6000)), JointKind.CONSTRUCTION),
        ("J3", ((6000, 0), (6000, 6000)), JointKind.CONSTRUCTION),
    ]


def test_a_bent_joint_is_cut_to_the_concrete_and_one_beside_it_is_not_made():
    bent = joint("J1", (1000, 0), (1000, 3000), (0, 4000))
    state = with_joints(bent)
    inside = repeated(state, [Named("joint", "J1")], (1000, 0), 1)
    assert inside.joints[1].path == ((2000, 0), (2000, 3000), (1000, 4000))
    assert inside.joints[1].pinned
    assert repeated(state, [Named("joint", "J1")], (20_000, 0), 1) == state


@pytest.mark.parametrize(
    ("items", "by", "times", "words"),
    [
        (1, (APART, 0), 1, "the copies would lie on each other; give a step."),
        (1, (0, 500), 0, f"that is too many copies at once; found 0; allowed is 1 to {MOST}."),
        (1, (0, 500), MOST + 1, f"found {MOST + 1}"),
        (2, (0, 500), MOST // 2 + 1, f"found {MOST + 2}"),
    ],
)
def test_a_step_that_is_none_and_too_many_copies_are_refused(items, by, times, words):
    with pytest.raises(InputRefused) as refused:
        repeated(STATE, [Named("column", "C1")] * items, by, times)
    assert words in str(refused.value)


def test_as_many_as_are_allowed_are_made():
    row = repeated(STATE, [Named("column", "C1")], (10, 10), MOST)
    assert len(row.slab.columns) == MOST + 1


@pytest.mark.parametrize(
    "item", [Named("joint", "J9"), Named("column", "C9"), Named("opening", "x")]
)
def test_what_is_not_there_is_refused(item):
    with pytest.raises(InputRefused, match=r"no such (joint|column|opening)"):
        repeated(STATE, [item], (500, 0), 1)
