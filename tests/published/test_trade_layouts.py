"""Layouts that trade questions and answers state as numbers, laid out by the engine.

Concrete trade Q&A columns (garage and driveway jointing answers, read), checked under the ``floor`` set;
4 in x 3 = 12 ft is common practice.
"""

import pytest

from kerfline.engine.lay_out import lay_out
from kerfline.geometry.ring import Ring
from kerfline.model.layout import Layout
from kerfline.model.slab import Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules

FOOT = 304.8


def rectangle(length_ft: float, width_ft: float, thickness_in: float) -> Slab:
    x, y = length_ft * FOOT, width_ft * FOOT
    return Slab(outline=Ring(((0, 0), (x, 0), (x, y), (0, y))), thickness=thickness_in * 25.4)


def laid_out(slab: Slab) -> Layout:
    return lay_out(slab, SlabRules(rule_set=load("floor")))


def sizes_ft(layout: Layout) -> list[tuple[float, float]]:
    return sorted((round(p.length / FOOT, 3), round(p.width / FOOT, 3)) for p in layout.panels)


def test_a_garage_of_20_by_20_ft_gets_four_panels_of_10_by_10() -> None:
    """One joint each way (trade Q&A on garages, W6)."""
    layout = laid_out(rectangle(20, 20, 4))
    assert sizes_ft(layout) == [(10.0, 10.0)] * 4
    assert len(layout.joints) == 2


def test_a_drive_section_of_15_by_18_ft_gets_four_panels_of_9_by_7_and_a_half() -> None:
    """One joint each way (trade Q&A on drives, W7)."""
    layout = laid_out(rectangle(18, 15, 4))
    assert sizes_ft(layout) == [(9.0, 7.5)] * 4
    assert len(layout.joints) == 2


@pytest.mark.parametrize("side", [8, 10])
def test_a_small_pad_within_the_span_needs_no_joint(side: int) -> None:
    """A square pad within 30 t is one panel (ACI 302.1R spacing range as the trade quotes it)."""
    layout = laid_out(rectangle(side, side, 4))
    assert layout.joints == ()
    assert len(layout.panels) == 1
