"""The rules of one job, asked by thickness."""

import pytest

from kerfline.errors import InputRefused
from kerfline.model.job import CutChoice, Mix
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import MM_PER_FOOT, MM_PER_INCH

FT, IN = MM_PER_FOOT, MM_PER_INCH
FOUR_INCHES = 4 * IN


def test_a_slabs_rules_work_to_the_advised_span_or_to_the_maximum():
    rules = SlabRules(rule_set=load("floor"))
    assert rules.working(FOUR_INCHES).span == pytest.approx(10 * FT)
    greatest = SlabRules(rule_set=load("floor"), to_maximum=True)
    assert greatest.working(FOUR_INCHES).span == pytest.approx(12 * FT)
    assert greatest.working(FOUR_INCHES).aspect == 1.5


def test_the_users_own_depth_of_cut_comes_before_the_advised_one():
    rules = SlabRules(rule_set=load("floor"), cut=CutChoice(depth=40.0))
    assert rules.cut_depth(FOUR_INCHES) == 40.0
    assert SlabRules(rule_set=load("floor")).cut_depth(6 * IN) == pytest.approx(1.5 * IN)


def test_conditions_and_assumptions_are_for_the_sheets():
    rules = SlabRules(rule_set=load("pca-table"))
    assert rules.assumptions == (
        *load("pca-table").assumptions(Mix()),
        *load("pca-table").conditions,
    )


def test_a_floor_that_meets_its_conditions_has_none_of_the_mix():
    rules = SlabRules(rule_set=load("pca-table"), mix=Mix(slump=100.0, aggregate=25.0))
    assert rules.assumptions == load("pca-table").conditions


def test_the_limits_are_those_of_the_jobs_own_mix():
    """Less water or larger stone allows a longer span: the PCA table's first column is the most cautious."""
    rule_set = load("pca-table")
    dry = SlabRules(rule_set=rule_set, mix=Mix(slump=75.0)).limits(6 * IN).span.bound
    assert dry > SlabRules(rule_set=rule_set).limits(6 * IN).span.bound


def test_the_depth_of_cut_is_that_of_the_jobs_method_and_one_that_is_none_is_refused():
    early = SlabRules(rule_set=load("floor"), cut=CutChoice(method="early-entry"))
    assert early.cut_depth(6 * IN) < SlabRules(rule_set=load("floor")).cut_depth(6 * IN)
    with pytest.raises(InputRefused, match="no such method of cutting"):
        SlabRules(rule_set=load("floor"), cut=CutChoice(method="chisel")).cut_limit(100.0)
