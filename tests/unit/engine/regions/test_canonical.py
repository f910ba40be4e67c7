"""A region that is turned or mirrored is the same problem, and its answer comes back where it belongs."""

import itertools

import pytest
from shapely import LineString, affinity

from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.canonical import Move, canonical, cut_back, reading
from kerfline.engine.regions.placing import placed_region
from kerfline.engine.regions.region import Cut
from kerfline.geometry.ring import Ring
from kerfline.model.layout import Reason
from unit.engine.plans import EL, RULES, slab

MOVES = [
    Move(*flags, shift=(700.0, -300.0)) for flags in itertools.product((False, True), repeat=3)
]


def region_of(outline):
    given = slab(outline)
    return placed_region(given, RULES, EngineOptions(), gross=given.gross, angle=0.0).region


@pytest.mark.parametrize("move", MOVES)
def test_there_and_back_is_where_it_was(move):
    assert move.back(move.there((1200.5, 430.25))) == pytest.approx((1200.5, 430.25))


@pytest.mark.parametrize("move", MOVES)
def test_every_image_of_an_outline_reads_the_same(move):
    image = Ring.of(move.shape(EL.polygon))
    assert reading(canonical(region_of(image))[0]) == reading(canonical(region_of(EL))[0])


def test_an_answer_is_turned_back_onto_its_own_region():
    """The image of one of the region's edges lies on the image's boundary, and comes back to where it was."""
    region = region_of(Ring.of(affinity.rotate(EL.polygon, 90, origin=(0, 0))))
    turned, move = canonical(region)
    first, second, *_ = region.gross.exterior.coords
    cut = Cut(path=move.path((first, second)), reason=Reason.SPAN, note="")
    assert LineString(cut.path).within(turned.gross.boundary.buffer(1.0))
    back = cut_back(cut, move).path
    assert back[0] == pytest.approx(first)
    assert back[1] == pytest.approx(second)
