"""Layouts of surveyed footprints: hard rules always, shapes nearly always."""

import pytest
import shapely

from corpus.footprints import footprints, slab_on
from corpus.measures import floor_rules, laid_out, table
from kerfline.geometry.tolerance import MEASURE, RATIO, TOUCH

SAMPLE = range(7, 160, 13)
"""Every thirteenth footprint: twelve of them, from a bare rectangle to a house with a courtyard."""

THICKNESSES = (100.0, 150.0, 200.0)


def hard_rules_hold(slab):
    layout = laid_out(slab)
    span = 1.05 * floor_rules().working(slab.thickness).span
    concrete = slab.concrete
    polygons = [p.polygon for p in layout.panels]
    assert max(p.length for p in layout.panels) <= span + MEASURE
    assert sum(p.area for p in polygons) == pytest.approx(concrete.area, rel=1e-6)
    assert shapely.union_all(polygons).symmetric_difference(concrete).area < 1e-6 * concrete.area
    inside = concrete.buffer(TOUCH)
    assert all(inside.covers(j.line) for j in layout.joints)
    for joint in layout.joints:
        others = [j.line for j in layout.joints if j is not joint]
        stops = shapely.union_all([concrete.boundary, *others])
        for end in (joint.path[0], joint.path[-1]):
            assert stops.distance(shapely.Point(end)) <= TOUCH


@pytest.mark.parametrize("number", SAMPLE)
def test_sampled_footprint_keeps_every_hard_rule(number):
    _, outline = footprints()[number]
    hard_rules_hold(slab_on(outline, 150.0))


@pytest.mark.parametrize(("number", "thickness"), [(7, 150.0), (75, 200.0)])
def test_a_panel_that_came_out_too_long_is_mended_by_lines_beside_it(number, thickness):
    """Rows that corners leave too low for the bays beside them: only a line for their sake makes them square."""
    _, outline = footprints()[number]
    layout = laid_out(slab_on(outline, thickness))
    limits = floor_rules().working(thickness)
    assert all(p.aspect <= limits.aspect + RATIO for p in layout.panels)


@pytest.mark.long
@pytest.mark.parametrize("thickness", THICKNESSES)
@pytest.mark.parametrize("number", range(160))
def test_every_footprint_keeps_every_hard_rule(number, thickness):
    _, outline = footprints()[number]
    hard_rules_hold(slab_on(outline, thickness))


@pytest.mark.long
@pytest.mark.parametrize("thickness", THICKNESSES)
def test_shapes_are_good_over_the_whole_corpus(thickness):
    """Under 2 % of the panels over aspect, under 1 % narrow, under 1 % hooked."""
    total = table(slab_on(outline, thickness) for _, outline in footprints())
    assert total["hard"] == 0
    assert total["aspect"] < 0.02 * total["panels"]
    assert total["narrow"] < 0.01 * total["panels"]
    assert total["odd"] < 0.01 * total["panels"]
