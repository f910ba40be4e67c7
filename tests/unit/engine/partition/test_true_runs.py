"""Joints of the exact method on surveyed slabs: none ends in the open, however far the grid squared the outline."""

from random import Random

import pytest
import shapely
from shapely import LineString, Point

from kerfline.engine.effort import Effort
from kerfline.engine.method import exact_layout, nearly_square
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.frames import regions_of
from unit.engine.plans import RULES, ring, slab

TOUCH = 0.5
"""mm within which an end counts as on an edge or a joint."""


def surveyed(number):
    """A slab of four or six corners, each up to 2 ft from where a square slab has it."""
    rng = Random(number)
    w, h = rng.uniform(14, 34), rng.uniform(12, 26)

    def off(most=2.0):
        return rng.uniform(-most, most)

    points = [(0, 0), (w + off(), off(1)), (w + off(), h + off()), (off(1), h + off())]
    if number % 2:
        c = rng.uniform(0.3, 0.7)
        step = [(w + off(), h * 0.6 + off()), (w * c + off(), h * 0.6 + off())]
        points = [*points[:2], *step, (w * c + off(), h + off()), points[3]]
    return slab(ring(*points))


def exact_region(number):
    """The only region of such a slab and its exact layout; None where there is none."""
    options = EngineOptions(effort=0.2)
    places = regions_of(surveyed(number), RULES, options)
    if len(places) > 1 or not nearly_square(places[0].region):
        return None
    found = exact_layout(places[0].region, options, Effort(0.2), 2)
    return (places[0].region, found) if found else None


def loose_ends(concrete, paths):
    """Ends inside the concrete that lie on no other joint."""
    lines = [LineString(path) for path in paths]
    return [
        end
        for n, path in enumerate(paths)
        for end in (path[0], path[-1])
        if concrete.boundary.distance(Point(end)) > TOUCH
        and concrete.contains(Point(end))
        and all(line.distance(Point(end)) > TOUCH for m, line in enumerate(lines) if m != n)
    ]


@pytest.mark.parametrize("first", [0, 30, 60])
def test_no_joint_of_the_exact_method_ends_in_the_open(first):
    tried = [found for n in range(first, first + 30) if (found := exact_region(n))]
    assert len(tried) > 9
    for region, layout in tried:
        paths = [cut.path for cut in layout.cuts]
        assert not loose_ends(region.concrete, paths)
        cuts = shapely.union_all([region.concrete.boundary, *(LineString(p) for p in paths)])
        parts = shapely.get_parts(shapely.polygonize([cuts]))
        assert sum(p.area for p in parts) == pytest.approx(region.concrete.area)
