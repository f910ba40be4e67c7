"""What rectangles cost: each thing on the slab prices the panels that it bears on, and no others."""

from dataclasses import replace

import numpy as np
import pytest
from shapely import Polygon

from kerfline.engine.options import Weights, feet
from kerfline.engine.partition.rectangle_costs import (
    breaks_nothing,
    departures,
    jog_corners,
    panel_costs,
)
from kerfline.engine.partition.rectangles import all_panels
from kerfline.geometry.ring import Ring
from kerfline.model.slab import Boxout, Column, Meeting, Penetration, PenetrationKind, Slab, Wall
from unit.engine.grids import boxes, grid_of
from unit.engine.plans import region_of

SIZE = 2500.0
PLACES = (0.0, 2500.0, 5000.0)
REGION = region_of(
    Slab(outline=Ring(((0, 0), (5000, 0), (5000, 5000), (0, 5000))), thickness=101.6)
)
GRID = grid_of(PLACES, PLACES)
"""Four cells of 2.5 m, all boxes of which are panels within a span of 5 m."""
PANELS = all_panels(GRID, REGION, 5000.0)
WEIGHTS = Weights()
WHOLE = (0, 2, 0, 2)
LOWER, UPPER = (0, 2, 0, 1), (0, 2, 1, 2)
LEFT, RIGHT = (0, 1, 0, 2), (1, 2, 0, 2)
CELLS = {(i, i + 1, j, j + 1) for i in (0, 1) for j in (0, 1)}


def costs(region=REGION, grid=GRID, weights=WEIGHTS, panels=PANELS):
    return dict(
        zip(boxes(panels), panel_costs(grid, region, panels, weights).tolist(), strict=True)
    )


def dearer(**more):
    """What each panel costs more with something on the slab; panels that cost the same are left out."""
    plain, found = costs(), costs(replace(REGION, **more))
    return {b: round(found[b] - plain[b], 1) for b in plain if abs(found[b] - plain[b]) > 0.05}


def column(x, y, boxout=Boxout.DIAMOND):
    return Column(id="C1", at=(x, y), boxout=boxout, size=600.0)


def test_a_panel_pays_for_half_of_each_joint_around_it():
    """A cell has two sides of 2.5 m inside: half of 5 m; a half of the slab one of 5 m; the whole none."""
    free = Weights(
        **dict.fromkeys(
            (
                "square",
                "aspect_advised",
                "small",
                "uneven",
                "width_advised",
                "span_advised",
                "warned",
                "over_aspect",
                "too_narrow",
            ),
            0.0,
        )
    )
    found = costs(weights=free)
    assert {found[b] for b in CELLS} == {2500.0}
    assert found[LEFT] == found[LOWER] == 2500.0
    assert found[WHOLE] == 0.0


def test_a_column_inside_a_panel_costs_that_panel_alone():
    found = dearer(columns=(column(1250, 1250),))
    inside = {b for b in costs() if b[0] == 0 and b[2] == 0}
    assert set(found) >= inside
    assert found[(0, 1, 0, 1)] >= feet(WEIGHTS.column_inside)


def test_a_column_on_a_side_costs_each_neighbour_half_and_at_a_crossing_nothing():
    side = dearer(columns=(column(2500, 1250),))
    half = round(feet(WEIGHTS.column_points) / 2, 1)
    assert side[(0, 1, 0, 1)] == side[(1, 2, 0, 1)] == half
    crossing = dearer(columns=(column(2500, 2500),))
    assert not set(crossing) & CELLS


def test_a_round_or_square_boxout_that_is_passed_costs_less_than_a_diamond():
    round_one = dearer(columns=(column(2500, 1250, Boxout.CIRCLE),))
    assert round_one[(0, 1, 0, 1)] == round(feet(WEIGHTS.column_side) / 2, 1)


def pipe(x, y, **more):
    fields = {"diameter": 100.0, "kind": PenetrationKind.DRAIN, "clear": 300.0}
    return Penetration(id="N1", at=(x, y), **{**fields, **more})


def test_a_drain_in_a_panel_is_a_wish_unmet_and_near_its_side_also_too_near():
    far, near = dearer(penetrations=(pipe(1250, 1250),)), dearer(penetrations=(pipe(2300, 1250),))
    wish, beside = (round(feet(w), 1) for w in (WEIGHTS.penetration_auto, WEIGHTS.penetration_near))
    cell = (0, 1, 0, 1)
    assert far[cell] == wish
    assert near[cell] == pytest.approx(wish + beside, abs=0.2)
    assert cell not in dearer(penetrations=(pipe(2500, 1250),))


def test_a_pipe_to_stay_clear_of_costs_where_a_joint_runs_through_it():
    found = dearer(penetrations=(pipe(2500, 1250, meeting=Meeting.CLEAR),))
    half = round(feet(WEIGHTS.penetration) / 2, 1)
    assert found[(0, 1, 0, 1)] == found[(1, 2, 0, 1)] == half
    assert (0, 2, 0, 1) not in found


def test_a_neighbours_joint_that_arrives_amid_a_side_costs_the_panel_with_that_side():
    """At half of the left edge: met by the line across, so that the whole and the left half alone pay."""
    found = dearer(landings=((0.0, 2500.0),))
    assert set(found) == {WHOLE, LEFT}
    assert found[LEFT] == round(feet(WEIGHTS.landing), 1)


def test_a_wall_in_a_panel_is_bare_and_on_its_side_is_not():
    walled = grid_of(PLACES, PLACES, walls=((0, 1, 0), (0, 1, 1)))
    plain, found = costs(), costs(grid=walled)
    bare = {b for b in plain if found[b] - plain[b] > 1000}
    assert bare == {WHOLE, LOWER, UPPER}
    assert found[WHOLE] - plain[WHOLE] > found[LOWER] - plain[LOWER]


def test_a_strip_under_a_bearing_wall_inside_a_panel_costs_unless_a_joint_runs_beside_it():
    wall = Wall(id="W1", path=((1250, 0), (1250, 5000)), bearing=True, strip_width=300.0)
    found = dearer(walls=(wall,))
    assert {b for b in found if found[b] > 1000} == {b for b in costs() if b[0] == 0}
    beside = replace(wall, path=((2500 - 150 - 457, 0), (2500 - 150 - 457, 5000)))
    assert (0, 1, 0, 1) not in dearer(walls=(beside,))


def test_what_breaks_nothing():
    """All but the whole, which is beyond the span that is advised, and what a column stands in."""
    free = dict(zip(boxes(PANELS), breaks_nothing(GRID, REGION, PANELS, WEIGHTS), strict=True))
    assert all(free[b] for b in CELLS)
    assert not free[LEFT]
    columned = replace(REGION, columns=(column(1250, 1250),))
    held = dict(zip(boxes(PANELS), breaks_nothing(GRID, columned, PANELS, WEIGHTS), strict=True))
    assert [b for b in CELLS if not held[b]] == [(0, 1, 0, 1)]
    walled = grid_of(PLACES, PLACES, walls=((0, 1, 0),))
    bare = dict(zip(boxes(PANELS), breaks_nothing(walled, REGION, PANELS, WEIGHTS), strict=True))
    assert not bare[LOWER]


ROW = grid_of((0, 3000, 6000, 9000), (0, 3000))


def departure(grid, panel, span=3048.0):
    region = replace(REGION, gross=Polygon([(0, 0), (9000, 0), (9000, 3000), (0, 3000)]))
    panels = all_panels(grid, region, 6000.0)
    panels = replace(panels, span=np.full(len(panels), span))
    return dict(zip(boxes(panels), departures(grid, region, panels).tolist(), strict=True))[panel]


@pytest.mark.parametrize(
    ("grid", "panel", "off"),
    [
        (ROW, (0, 1, 0, 1), 0.0),
        (ROW, (1, 2, 0, 1), 0.0),
        (ROW, (0, 2, 0, 1), 1.0),
        (grid_of((0, 3300, 6000, 9000), (0, 3000)), (0, 1, 0, 1), 0.1),
        (grid_of((0, 2250, 6000, 9000), (0, 3000)), (0, 1, 0, 1), 0.0),
    ],
)
def test_a_bay_departs_from_an_even_division_by_its_share(grid, panel, off):
    """9 m at 3048 mm is three bays of 3 m, or one more of 2250 mm, which is as even."""
    assert departure(grid, panel) == pytest.approx(off)


def test_a_wall_divides_the_span_that_is_to_be_even():
    """A wall at 4 m: two bays of 2 m beside it are even, and one of 3 m is not."""
    walled = grid_of((0, 2000, 4000, 9000), (0, 3000), walls=((0, 2, 0),))
    assert departure(walled, (0, 1, 0, 1)) == pytest.approx(0.0)
    bare = grid_of((0, 2000, 4000, 9000), (0, 3000))
    assert departure(bare, (0, 1, 0, 1)) > 0.1


def test_a_jog_smaller_than_lines_are_merged_still_wants_a_joint():
    """150 mm at half of the upper edge; one of 300 mm is a corner of the grid itself."""

    def found(jog):
        outline = (
            (0, 0),
            (5000, 0),
            (5000, 5000 - jog),
            (2500, 5000 - jog),
            (2500, 5000),
            (0, 5000),
        )
        return jog_corners(GRID, region_of(Slab(outline=Ring(outline), thickness=101.6)))

    assert found(150.0) == [(2500.0, 5000.0)]
    assert found(300.0) == []


def test_costs_are_told_to_a_hundredth_of_a_millimetre():
    """What lies beyond decides nothing."""
    assert all(round(cost, 2) == cost for cost in costs().values())
