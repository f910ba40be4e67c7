"""Where joints end."""

import pytest

from checked import Rule, Severity, feet, findings, grid_slab, joint, of, with_joints
from kerfline.checks.given import given_layout
from kerfline.geometry.ends import EndKind, joint_ends
from kerfline.model.slab import JointKind, Penetration
from kerfline.units import MM_PER_FOOT
from shapes import workshop_layout, workshop_slab


def short_of(gap_mm):
    """A grid whose middle upright joint stops short of the upper edge."""
    gap = gap_mm / MM_PER_FOOT
    return with_joints(grid_slab(), joint("V2", (20, 0), (20, 30 - gap)), without=("V2",))


def test_a_joint_that_stops_inside_the_concrete_is_an_error_with_what_it_is_short_of():
    found = of(Rule.FREE_END, findings(short_of(152.4)))
    assert [(f.severity, f.subject) for f in found] == [(Severity.ERROR, "V2")]
    assert found[0].measured == pytest.approx(152.4, abs=0.01)
    assert found[0].at == pytest.approx((20 * MM_PER_FOOT, 30 * MM_PER_FOOT - 152.4))
    assert (
        "V2 stops inside the concrete at (20'-0\", 29'-6\"), 0'-6\" short of the edge"
        in found[0].message
    )
    assert "Carry it on to the edge" in found[0].remedy


@pytest.mark.parametrize("gap", [0.0, 0.4])
def test_an_end_within_the_tolerance_is_on_the_edge(gap):
    assert findings(short_of(gap)) == ()


def test_an_end_short_of_another_joint_names_it():
    slab = with_joints(grid_slab(), joint("V2", (20, 0), (20, 19)), without=("V2",))
    found = of(Rule.FREE_END, findings(slab))
    assert found[0].measured == pytest.approx(MM_PER_FOOT, abs=0.01)
    assert "short of H2" in found[0].message


def test_an_end_with_nothing_ahead_says_so():
    found = of(Rule.FREE_END, findings(grid_slab(9, 9, joints=(joint("A", (0, 45), (40, 45)),))))
    assert found[0].measured is None
    assert "nothing near ahead" in found[0].message


def test_an_end_at_a_drain_is_a_warning():
    drain = Penetration(id="N1", at=feet((15, 5))[0], diameter=150.0)
    stop = 15 - 75 / MM_PER_FOOT
    slab = with_joints(grid_slab(penetrations=(drain,)), joint("A", (10, 5), (stop, 5)))
    found = of(Rule.FREE_END, findings(slab))
    assert [f.severity for f in found] == [Severity.WARNING]
    assert "at N1" in found[0].message


def test_a_joint_that_stops_on_another_is_advice():
    slab = with_joints(grid_slab(), joint("V2", (20, 0), (20, 20)), without=("V2",))
    found = of(Rule.TEE_END, findings(slab))
    assert [(f.severity, f.subject, f.at) for f in found] == [
        (Severity.ADVICE, "V2", pytest.approx(feet((20, 20))[0]))
    ]
    assert "stops on H2" in found[0].message
    assert "UFC 3-320-06A" in found[0].source


def test_a_joint_that_stops_on_an_isolation_joint_ends_as_on_an_edge():
    slab = with_joints(
        grid_slab(),
        joint("V2", (20, 0), (20, 20)),
        joint("H2", (0, 20), (40, 20), kind=JointKind.ISOLATION),
        without=("V2", "H2"),
    )
    assert not of(Rule.TEE_END, findings(slab))


def test_joints_that_face_each_other_across_a_line_go_on():
    slab = with_joints(
        grid_slab(), joint("A", (20, 0), (20, 10)), joint("B", (20, 10), (20, 30)), without=("V2",)
    )
    assert findings(slab) == ()


def test_ends_that_miss_each_other_by_less_than_the_tolerance_go_on():
    off = 0.3 / MM_PER_FOOT
    slab = with_joints(
        grid_slab(),
        joint("A", (20, 0), (20, 10)),
        joint("B", (20 + off, 10), (20 + off, 30)),
        without=("V2",),
    )
    assert findings(slab) == ()


def test_staggered_ends_are_two_tees():
    slab = with_joints(
        grid_slab(), joint("A", (20, 0), (20, 10)), joint("B", (21, 10), (21, 30)), without=("V2",)
    )
    assert sorted(f.subject for f in of(Rule.TEE_END, findings(slab))) == ["A", "B"]


@pytest.mark.parametrize(
    "slab_and_layout",
    [
        (workshop_slab(), workshop_layout()),
        (short_of(152.4), given_layout(short_of(152.4))),
        (grid_slab(6, 5), given_layout(grid_slab(6, 5))),
    ],
)
def test_ends_agree_with_the_measure_that_the_rest_of_the_program_counts_by(slab_and_layout):
    slab, layout = slab_and_layout
    counted = joint_ends(slab.concrete, [j.line for j in layout.joints])
    found = findings(slab, layout=layout)
    assert len(of(Rule.FREE_END, found)) == sum(e.kind is EndKind.FREE for e in counted)
    assert len(of(Rule.TEE_END, found)) == sum(e.kind is EndKind.TEE for e in counted)


@pytest.mark.parametrize(("off", "ends"), [(0.9, 0), (3.0, 2)])
def test_joints_that_meet_a_third_a_millimetre_apart_cross_it(off, ends):
    """Farther apart each of the two ends on it by itself."""
    aside = 10 + off / MM_PER_FOOT
    pieces = (joint("A", (10, 0), (10, 10)), joint("B", (aside, 10), (aside, 30)))
    found = of(Rule.TEE_END, findings(with_joints(grid_slab(), *pieces, without=("V1",))))
    assert len(found) == ends
