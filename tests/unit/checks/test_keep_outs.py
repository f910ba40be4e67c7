"""No saw reaches what lies below, and no joint lies where none may."""

import pytest

from checked import Rule, Severity, box_ring, findings, grid_slab, joint, of, rules, with_joints
from kerfline.model.job import CutChoice
from kerfline.model.slab import JointKind, KeepOut
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM_PER_FOOT, MM_PER_INCH


def found_with(cover_inches, **more):
    cover = None if cover_inches is None else cover_inches * MM_PER_INCH
    area = KeepOut(id="K1", outline=box_ring(12, 8, 18, 12), what="tubing", cover=cover)
    return of(Rule.KEEP_OUT, findings(grid_slab(keep_outs=(area,), **more)))


def test_a_cut_where_no_cover_is_known_is_an_error():
    found = found_with(None)
    assert [(f.severity, f.subject) for f in found] == [(Severity.ERROR, "H1 in K1")]
    assert "tubing" in found[0].message
    assert "locate what is buried" in found[0].remedy


@pytest.mark.parametrize(
    ("cover", "severity", "spare"),
    [
        (0.9, "error", -0.1),
        (1.0, "error", 0.0),
        (1.24, "error", 0.24),
        (1.25, "warning", 0.25),
        (1.5, "warning", 0.5),
        (1.74, "warning", 0.74),
        (1.75, None, 0.75),
        (3, None, 2),
    ],
)
def test_what_stays_between_the_cut_and_the_tubing_is_held_in_two_steps(cover, severity, spare):
    found = found_with(cover)
    assert {f.severity.value for f in found} == ({severity} if severity else set())
    assert all(f.measured == pytest.approx(spare * MM_PER_INCH) for f in found)


def test_a_joint_without_a_depth_is_taken_to_be_cut_as_the_job_says():
    bare = with_joints(
        grid_slab(
            keep_outs=(KeepOut(id="K1", outline=box_ring(12, 8, 18, 12), cover=1.4 * MM_PER_INCH),)
        ),
        joint("H1", (0, 10), (40, 10), depth=None),
        without=("H1",),
    )
    assert [f.severity for f in of(Rule.KEEP_OUT, findings(bare))] == [Severity.WARNING]
    deep = SlabRules(rule_set=rules().rule_set, cut=CutChoice(depth=38.0))
    assert [f.severity for f in of(Rule.KEEP_OUT, findings(bare, by=deep))] == [Severity.ERROR]


def test_a_formed_joint_in_a_keep_out_is_a_warning():
    area = KeepOut(id="K1", outline=box_ring(12, 8, 18, 12))
    slab = with_joints(
        grid_slab(keep_outs=(area,)),
        joint("H1", (0, 10), (40, 10), kind=JointKind.CONSTRUCTION),
        without=("H1",),
    )
    assert [f.severity for f in of(Rule.KEEP_OUT, findings(slab))] == [Severity.WARNING]


def test_a_joint_that_only_touches_a_keep_out_is_clean():
    area = KeepOut(id="K1", outline=box_ring(12, 10, 18, 14))
    assert not of(Rule.KEEP_OUT, findings(grid_slab(keep_outs=(area,))))


def test_a_joint_along_a_forbidden_line_is_an_error_and_one_across_it_is_not():
    along = with_joints(grid_slab(), joint("F1", (5, 10), (15, 10), forbidden=True))
    found = of(Rule.KEEP_OUT, findings(along))
    assert [(f.severity, f.subject) for f in found] == [(Severity.ERROR, "H1")]
    assert found[0].measured == pytest.approx(10 * MM_PER_FOOT)
    across = with_joints(grid_slab(), joint("F1", (5, 5), (5, 15), forbidden=True))
    assert findings(across) == ()


@pytest.mark.parametrize(
    ("cover", "words"),
    [
        (0.9, 'under 7/8" of cover reaches it.'),
        (1.4, 'cover leaves 3/8".'),
        (1.125, 'leaves 1/8", less than the 1/4" that it may'),
    ],
)
def test_the_message_says_whether_the_cut_reaches_what_lies_below(cover, words):
    (found,) = found_with(cover)
    assert words in found.message


@pytest.mark.parametrize(("overlap", "count"), [(0.9, 0), (2.9, 1)])
def test_a_joint_that_ends_a_millimetre_inside_does_not_enter(overlap, count):
    """A joint from the edge of the slab to within a little of the area's border, half a millimetre in from it."""
    border = 12 * MM_PER_FOOT
    area = KeepOut(id="K1", outline=box_ring(12, 8, 18, 12))
    end = (border + 0.5 + overlap) / MM_PER_FOOT
    slab = with_joints(
        grid_slab(keep_outs=(area,)), joint("S1", (0, 10), (end, 10)), without=("H1",)
    )
    assert len(of(Rule.KEEP_OUT, findings(slab))) == count


@pytest.mark.parametrize(("shared", "told"), [(48.0, False), (55.0, True)])
def test_a_joint_that_shares_two_inches_with_a_forbidden_line_runs_along_it(shared, told):
    line = joint("F1", (5, 10), (5 + shared / MM_PER_FOOT, 10), forbidden=True)
    found = of(Rule.KEEP_OUT, findings(with_joints(grid_slab(), line)))
    assert [f.subject for f in found] == (["H1"] if told else [])
