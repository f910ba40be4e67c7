"""Weights count on every slab: each moves the layout the way that it says, on square edges and on slanted ones."""

from functools import cache

import pytest

from kerfline.engine.lay_out import lay_out
from kerfline.engine.options import EngineOptions
from kerfline.geometry.ends import EndKind, joint_ends
from unit.engine.plans import RULES, ring, slab, wall

SLABS = {
    "square": slab(
        ring((0, 0), (41, 0), (41, 23), (28, 23), (28, 34), (0, 34)),
        walls=(wall("W1", (0, 13), (17, 13)), wall("W2", (20, 23), (20, 34))),
    ),
    "slanted": slab(
        ring((0, 0), (41, 0), (43, 23), (28, 24), (28.5, 30), (0, 35)),
        walls=(wall("W1", (0, 13), (17, 13)), wall("W2", (20, 23), (20, 32))),
    ),
}


@cache
def laid_out(name, weight="", value=0.0):
    options = EngineOptions(weights={weight: value} if weight else {})
    return lay_out(SLABS[name], RULES, options)


def length(name, layout):
    return layout.joint_length


def over_advised(name, layout):
    return sum(panel.aspect > 1.25 + 1e-4 for panel in layout.panels)


def unsquare(name, layout):
    return sum(panel.aspect - 1.0 for panel in layout.panels) / len(layout.panels)


def tees(name, layout):
    ends = joint_ends(SLABS[name].concrete, [joint.line for joint in layout.joints])
    return sum(end.kind is EndKind.TEE for end in ends)


@pytest.mark.parametrize("name", SLABS)
@pytest.mark.parametrize(
    ("weight", "value", "measure"),
    [
        ("length_open", 8.0, length),
        ("square", 40.0, unsquare),
        ("aspect_advised", 60.0, over_advised),
        ("warned", 20.0, over_advised),
    ],
)
def test_a_weight_makes_small_what_it_names(name, weight, value, measure):
    plain, leaning = laid_out(name), laid_out(name, weight, value)
    assert measure(name, leaning) < measure(name, plain)


@pytest.mark.parametrize("name", SLABS)
def test_tees_are_fewer_the_more_they_cost(name):
    cheap, dear = laid_out(name, "tee", 0.0), laid_out(name, "tee", 60.0)
    assert tees(name, dear) < tees(name, cheap)
