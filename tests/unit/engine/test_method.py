"""Between the exact and the general method the better layout is taken."""

from dataclasses import replace

from kerfline.engine.method import better, is_faultless, nearly_square
from kerfline.engine.options import EngineOptions, Weights
from kerfline.engine.regions.placing import placed_region
from kerfline.engine.regions.region import Cut, RegionLayout
from kerfline.geometry.ring import Ring
from kerfline.model.layout import Reason
from unit.engine.plans import RULES, box, feet, slab


def region_of(given):
    return placed_region(given, RULES, EngineOptions(), gross=given.gross, angle=0.0).region


def cut(*points):
    return RegionLayout(cuts=(Cut(path=feet(*points), reason=Reason.SPAN, note=""),))


def test_a_layout_within_the_span_beats_a_shorter_one_beyond_it():
    region = region_of(slab(box(14, 9)))
    whole, halved = RegionLayout(cuts=()), cut((7, 0), (7, 9))
    assert better(region, [whole, halved], Weights()) is halved


def test_a_layout_without_a_sharp_corner_beats_one_with_two():
    region = region_of(slab(box(14, 9)))
    square, slanted = cut((7, 0), (7, 9)), cut((4, 0), (10, 9))
    assert better(region, [slanted, square], Weights()) is square


def test_a_surveyed_rectangle_is_nearly_square_and_a_triangle_is_not():
    surveyed = Ring(feet((0, 0), (20, 0.3), (20.2, 12), (0.1, 12.1)))
    assert nearly_square(region_of(slab(surveyed)))
    assert not nearly_square(region_of(slab(Ring(feet((0, 0), (20, 0), (10, 15))))))


def test_a_layout_with_a_long_panel_or_a_bare_corner_is_not_faultless():
    plain = region_of(slab(box(14, 9)))
    assert is_faultless(plain, cut((7, 0), (7, 9)), Weights())
    assert not is_faultless(plain, RegionLayout(cuts=()), Weights())
    ell = region_of(slab(Ring(feet((0, 0), (9, 0), (9, 4), (4, 4), (4, 9), (0, 9)))))
    assert not is_faultless(ell, RegionLayout(cuts=()), Weights())
    unwalled = replace(cut((7, 0), (7, 9)), walls_left={"W1": "too narrow"})
    assert not is_faultless(plain, unwalled, Weights())
