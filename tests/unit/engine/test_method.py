"""Between the exact and the general method the better layout is taken."""

from dataclasses import replace

import pytest

from kerfline.engine import method
from kerfline.engine.effort import Effort
from kerfline.engine.measure.score import Score
from kerfline.engine.method import (
    better,
    exact_layout,
    is_faultless,
    nearly_square,
    region_layout,
    region_score,
)
from kerfline.engine.options import EngineOptions, Weights
from kerfline.engine.regions.placing import placed_region
from kerfline.engine.regions.region import Cut, PlacedRegion, RegionLayout
from kerfline.geometry.ring import Ring
from kerfline.model.layout import Reason, Status
from kerfline.model.slab import Pattern
from unit.engine.plans import MM_PER_FOOT, RULES, box, feet, ring, slab


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


def test_of_two_layouts_that_are_equal_the_first_is_taken():
    region = region_of(slab(box(14, 9)))
    one, other = cut((7, 0), (7, 9)), cut((7, 9), (7, 0))
    assert better(region, [one, other], Weights()) is one
    assert better(region, [other, one], Weights()) is other


def test_a_layout_is_scored_by_loose_ends_then_broken_rules_then_its_cost():
    region = region_of(slab(box(14, 9)))
    halved, whole, loose = (
        region_score(region, given, Weights())
        for given in (cut((7, 0), (7, 9)), RegionLayout(cuts=()), cut((7, 0), (7, 5)))
    )
    assert (halved.loose, halved.faults, whole.loose, loose.loose) == (0, 0, 0, 1)
    assert whole.faults >= 1
    assert halved < whole < loose


@pytest.mark.parametrize(("leg", "square"), [(0.1, True), (12.4, True), (12.6, False)])
def test_edges_are_nearly_square_from_85_hundredths_on(leg, square):
    """100 ft along the axes and a slope: up to 17.65 ft of it, legs of 12.48 ft, are 15 hundredths."""
    outline = ring((0, 0), (30, 0), (30, 20), (30 - leg, 20 + leg), (0, 20 + leg))
    assert nearly_square(region_of(slab(outline))) is square


@pytest.mark.parametrize(("beside", "faultless"), [(0.0, True), (0.4, True), (0.6, False)])
def test_a_corner_is_bare_unless_a_joint_comes_to_it(monkeypatch, beside, faultless):
    """A joint straight down from the inner corner of an L, or so many mm beside it."""
    monkeypatch.setattr(method, "region_score", lambda *_: Score(0, 0, 0))
    ell = region_of(slab(ring((0, 0), (9, 0), (9, 4), (6, 4), (6, 8), (0, 8))))
    at = 6 - beside / MM_PER_FOOT
    assert is_faultless(ell, cut((at, 4), (at, 0)), Weights()) is faultless
    assert not is_faultless(ell, RegionLayout(cuts=()), Weights())


def test_an_ell_with_two_good_panels_is_faultless_and_with_a_hook_it_is_not():
    """6 x 8 and 3 x 4 ft; divided level from the corner 9 x 4 ft is too long for its width."""
    ell = region_of(slab(ring((0, 0), (9, 0), (9, 4), (6, 4), (6, 8), (0, 8))))
    assert is_faultless(ell, cut((6, 4), (6, 0)), Weights())
    assert not is_faultless(ell, cut((6, 4), (0, 4)), Weights())


EXACT, GENERAL = RegionLayout(cuts=(), cost=1.0), RegionLayout(cuts=(), cost=2.0)


@pytest.fixture
def asked(monkeypatch):
    """What each method is asked, with answers that are easy to tell apart."""
    calls = []

    def exact(region, options, effort, *more, beat=None):
        calls.append(("exact", effort.left, effort.patience, *more, *([beat] if beat else [])))
        return EXACT

    def general(region, options, effort):
        calls.append(("general", effort.left, effort.patience))
        return GENERAL

    monkeypatch.setattr(method, "exact_layout", exact)
    monkeypatch.setattr(method, "lay_out_region", general)
    return calls


def laid_out(given, *, orthogonal=False):
    place = PlacedRegion(region=region_of(given), orthogonal=orthogonal)
    return region_layout(place, EngineOptions(), Effort(10.0, patience=4.0))


TRIANGLE = slab(ring((0, 0), (20, 0), (10, 15)))
SURVEYED = slab(ring((0, 0), (20, 0.3), (20.2, 12), (0.1, 12.1)))


def test_a_square_region_goes_to_the_exact_search_alone(asked):
    assert laid_out(slab(box(14, 9)), orthogonal=True) is EXACT
    assert asked == [("exact", 10.0, 4.0)]


def test_a_slanted_or_patterned_region_goes_to_the_general_method_alone(asked):
    pattern = Pattern(id="A1", area=box(10, 8))
    for given in (TRIANGLE, replace(SURVEYED, patterns=(pattern,))):
        assert laid_out(given) is GENERAL
    assert [call[0] for call in asked] == ["general", "general"]


@pytest.mark.parametrize(("faultless", "patience"), [(True, 0.0), (False, 10.0)])
def test_between_both_the_exact_one_has_three_tenths_and_patience_only_for_faults(
    asked, monkeypatch, faultless, patience
):
    monkeypatch.setattr(method, "is_faultless", lambda *_: faultless)
    assert laid_out(SURVEYED) is EXACT
    assert asked == [
        ("general", 10.0, 4.0),
        ("exact", 3.0, patience, method.SECOND, method.ENOUGH, GENERAL.cost),
    ]


def test_where_no_exact_layout_fits_the_general_one_is_turned_back(asked, monkeypatch):
    """A region that stands upright is laid out lying, and its joint comes back to where it stands."""
    monkeypatch.setattr(method, "exact_layout", lambda *_, **_more: None)
    assert laid_out(SURVEYED) is GENERAL
    seen = []

    def general(region, options, effort):
        seen.append(region.gross.bounds)
        x0, y0, x1, y1 = region.gross.bounds
        middle = (x0 + x1) / 2
        return RegionLayout(cuts=(Cut(path=((middle, y0), (middle, y1))),))

    monkeypatch.setattr(method, "lay_out_region", general)
    for width, height in ((14, 9), (9, 14)):
        found = laid_out(slab(box(width, height)), orthogonal=True)
        x0, _, x1, _ = seen.pop()
        lying = (x1 - x0) / MM_PER_FOOT == pytest.approx(width)
        ends = (
            feet((width / 2, 0), (width / 2, height))
            if lying
            else feet((0, height / 2), (width, height / 2))
        )
        assert sorted(found.cuts[0].path) == [pytest.approx(end) for end in ends]


def test_the_exact_layout_of_a_rectangle_has_its_proof():
    """14 x 9 ft at 10 ft: one joint of 9 ft, proven cheapest."""
    region = region_of(slab(box(14, 9)))
    found = exact_layout(region, EngineOptions(), Effort(5.0))
    (joint,) = found.cuts
    assert sorted(joint.path) == [pytest.approx(end) for end in feet((7, 0), (7, 9))]
    assert found.status is Status.OPTIMAL
    assert found.bound == pytest.approx(found.cost)
    assert found.walls_left == found.wall_shifts == {}


@pytest.mark.parametrize(("most", "asked"), [(1, True), (0, False)])
def test_a_region_of_too_many_joints_has_no_bound_of_its_own(monkeypatch, most, asked):
    seen = []
    least = method.least_lengths
    monkeypatch.setattr(method, "least_lengths", lambda *given: seen.append(1) or least(*given))
    monkeypatch.setattr(method, "MOST_SWEPT", most)
    monkeypatch.setattr(method, "_best_layout", lambda *_: cut((7, 0), (7, 9)))
    found = laid_out(slab(box(14, 9)))
    assert bool(seen) is asked
    assert found.length_bound == pytest.approx(9 * MM_PER_FOOT if asked else 0.0, abs=1.0)
