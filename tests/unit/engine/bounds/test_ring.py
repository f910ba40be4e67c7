"""The bound of strips between two arcs, against every division of small ones into rays and rings."""

import math
from functools import cache

import pytest
import shapely
from shapely import LineString

from kerfline.engine.bounds.ring import Strip, _centre_of, least_of_strip, ring_bound, strip_of
from kerfline.engine.measure.score import panels_between
from kerfline.engine.regions.region import Cut
from kerfline.units import MM_PER_FOOT
from unit.engine.plans import box, region_of, slab
from unit.engine.slabs import SHAPES

FULL = 2.0 * math.pi

THIN = 2e-3
"""Share that is lost because a strip is seen as a thousand thin rings."""


def shortest(radii, angles, step, limits, *, closes):
    """The least length of rays and rings on a net of radii and of so many equal angles; infinite where none fits."""
    span, share = limits
    cells = [(i, j) for i in range(angles) for j in range(len(radii) - 1)]

    def length(i0, wide, j0, j1):
        p, q, t = radii[j0], radii[j1], wide * step
        chord = 2 * q * math.sin(min(t, math.pi) / 2)
        fits = chord <= span and chord <= share * (q - p) and q - p <= span
        if not fits or (not closes and i0 + wide > angles):
            return None
        return 2 * (q - p) + t * (p + q)

    @cache
    def rest(done):
        start = next((c for c in cells if c not in done), None)
        if start is None:
            return 0.0
        best = math.inf
        for first in range(start[0] - angles + 1, start[0] + 1) if closes else (start[0],):
            for wide in range(start[0] - first + 1, angles):
                for j1 in range(start[1] + 1, len(radii)):
                    own = length(first, wide, start[1], j1)
                    covered = frozenset(
                        ((first + n) % angles, j) for n in range(wide) for j in range(start[1], j1)
                    )
                    if own is not None and not covered & done:
                        best = min(best, own + rest(done | covered))
        return best

    edge = angles * step * (radii[0] + radii[-1])
    edge += 0.0 if closes else 2 * (radii[-1] - radii[0])
    return (rest(frozenset()) - edge) / 2


NETS = [
    ((11, 16), 8, FULL / 8, True),
    ((4, 6), 6, FULL / 6, True),
    ((4, 6, 8), 6, FULL / 6, True),
    ((5, 7, 10, 13), 4, 0.3, False),
    ((20, 25), 9, 0.1, False),
    ((20, 25, 32), 6, 0.15, False),
]


@pytest.mark.parametrize("limits", [(20, 9.0), (8.5, 4.0), (6.3, 1.6), (13, 2.5), (4.5, 2.0)])
@pytest.mark.parametrize("net", NETS)
def test_no_division_of_a_strip_is_shorter(net, limits):
    radii, angles, step, closes = net
    found = least_of_strip(Strip(radii[0], radii[-1], angles * step), *limits, closes=closes)
    assert found <= shortest(radii, angles, step, limits, closes=closes) + 1e-9


@pytest.mark.parametrize(
    ("strip", "limits", "closes", "expected"),
    [
        (Strip(11, 16, FULL), (12, 9.0), True, None),
        (Strip(20, 25, 0.9), (100.0, 0.55), False, 8 * 5),
        (Strip(20, 25, 0.9), (100.0, 99.0), False, 0),
        (Strip(10, 30, 0.5), (8.0, 99.0), False, None),
        (Strip(1, 3, 0.2), (1.2, 99.0), False, 0.2 * 1.8),
        (Strip(2, 5, FULL), (8, 9.0), True, 3 + 5 - 4 / math.sin(math.pi / 3)),
    ],
)
def test_strips_by_hand(strip, limits, closes, expected):
    """Of 25 ft and 0.9 rad, 5 ft deep: chords of 0.55 x 5 ft are nine over the outer arc. A ring at 3 - 1.2.
    A small ring: within 4 ft one panel could go round, beyond two rays are needed, beyond 4.62 ft three."""
    found = least_of_strip(strip, *limits, closes=closes)
    if expected is None:
        assert found > strip.depth
    else:
        assert (1.0 - THIN) * expected <= found <= expected + 1e-9


def test_a_ring_needs_a_ray_for_each_panel_and_an_open_strip_one_less():
    """At 16 ft out 12 ft of chord is 44 degrees: nine panels, at 11 ft 66 degrees: six."""
    ring, strip = (least_of_strip(Strip(11, 16, FULL), 12, 99.0, closes=c) for c in (True, False))
    assert ring == pytest.approx(strip + 5)
    changes = [12 / (2 * math.sin(math.pi / n)) for n in (6, 7, 8)]
    exact = 6 * 5 + sum(16 - at for at in changes if 11 < at < 16)
    assert (1.0 - THIN) * exact <= ring <= exact


def ray(inner, outer):
    """A cut across the ring walk from one angle to another, degrees."""
    ends = ((11, inner), (16, outer))
    turned = ((r * MM_PER_FOOT, math.radians(angle)) for r, angle in ends)
    return Cut(path=tuple((r * math.cos(a), r * math.sin(a)) for r, a in turned))


def told(region, cuts):
    panels = panels_between(region.concrete, [LineString(cut.path) for cut in cuts])
    return ring_bound(region, cuts, panels)


def test_other_layouts_and_other_figures_have_none():
    """Joints that do not run towards one point, a ring of other shape, and no joint at all."""
    ring = region_of(SHAPES["ring walk"])
    rays = [ray(24.0 * n, 24.0 * n) for n in range(15)]
    astray = [*rays[1:], ray(0.0, 10.0)]
    assert told(ring, rays) > 0.0
    assert told(ring, astray) == 0.0
    assert told(ring, []) == 0.0
    assert told(ring, rays[:1]) == 0.0
    assert told(region_of(slab(box(20, 20))), rays) == 0.0


def test_no_even_ring_is_told_more_than_its_own_rays():
    """15 panels of 24 degrees on five ft of depth: any with panels no longer for their depth has as many."""
    ring = region_of(SHAPES["ring walk"])
    rays = [ray(24.0 * n, 24.0 * n) for n in range(15)]
    assert 0.999 * 75 * MM_PER_FOOT < told(ring, rays) <= 75 * MM_PER_FOOT


def test_where_a_panel_is_no_strip_there_is_none():
    """A joint from ray to ray that bends outward from 13 ft to 15."""
    ring = region_of(SHAPES["ring walk"])
    rays = [ray(24.0 * n, 24.0 * n) for n in range(15)]
    ends = ((13, 0.0), (15, 12.0), (13, 24.0))
    polar = ((r * MM_PER_FOOT, math.radians(angle)) for r, angle in ends)
    across = Cut(path=tuple((r * math.cos(a), r * math.sin(a)) for r, a in polar))
    assert told(ring, [*rays, across]) == 0.0


@pytest.mark.parametrize("count", range(2, 40))
def test_a_strip_that_some_panels_just_fill_needs_no_more(count):
    each = 0.07
    share = 2.0 * math.sin(each / 2.0) * 25 / 5
    found = least_of_strip(Strip(20, 25, count * each), 100.0, share, closes=False)
    assert found == pytest.approx((count - 1) * 5)


def test_a_strip_is_known_by_its_corners():
    ring = region_of(SHAPES["ring walk"]).concrete
    found = strip_of(ring, shapely.get_coordinates(shapely.Point(0, 0))[0])
    assert found.inner == pytest.approx(11 * MM_PER_FOOT, abs=0.2)
    assert found.outer == pytest.approx(16 * MM_PER_FOOT, abs=0.2)
    assert found.angle == pytest.approx(FULL, rel=1e-3)
    assert strip_of(ring, shapely.get_coordinates(shapely.Point(50, 0))[0]) is None


def test_rays_to_one_point_are_known_though_two_of_them_are_in_line():
    rays = [LineString(ray(at, at).path) for at in (0.0, 180.0, 90.0)]
    assert _centre_of(rays) == pytest.approx([0.0, 0.0], abs=0.01)
    assert _centre_of(rays[:2]) is None
