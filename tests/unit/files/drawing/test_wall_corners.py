"""Where walls butt at a corner, each to the other's centre line, the slab's edge runs straight past."""

import pytest
from shapely import LineString, Polygon, affinity, box

from kerfline.files.drawing.wall_corners import DEEPEST, straight_past
from kerfline.files.drawing.wall_outline import around_walls

LONG, WIDE = 10_000.0, 8_000.0
CENTRES = [
    ((0, 0), (LONG, 0)),
    ((LONG, 0), (LONG, WIDE)),
    ((LONG, WIDE), (0, WIDE)),
    ((0, WIDE), (0, 0)),
]


def butted(thickness: float, *, caps: bool) -> list[LineString]:
    """The faces of four walls, each from centre line to centre line, with the lines across their ends or without."""
    found = []
    for ends in CENTRES:
        line = LineString(ends)
        if caps:
            found.append(LineString(line.buffer(thickness / 2, cap_style="flat").exterior))
        else:
            found += [line.parallel_offset(thickness / 2, side) for side in ("left", "right")]
    return found


@pytest.mark.parametrize("caps", [True, False])
@pytest.mark.parametrize("thickness", [100.0, 150.0, 365.0, 600.0])
@pytest.mark.parametrize("turn", [0.0, 17.3])
def test_the_edge_runs_straight_past_butted_corners(thickness, caps, turn):
    faces = [affinity.rotate(f, turn, origin=(0, 0)) for f in butted(thickness, caps=caps)]
    (found,) = around_walls(faces)
    half = thickness / 2
    meant = affinity.rotate(box(-half, -half, LONG + half, WIDE + half), turn, origin=(0, 0))
    assert found.butted == 4
    assert found.area.symmetric_difference(meant).area < 1e-4 * meant.area
    assert len(found.area.exterior.coords) == 5


def notched(depth: float) -> Polygon:
    """A rectangle with a notch in one corner."""
    return box(0, 0, LONG, WIDE).difference(box(LONG - depth, WIDE - depth, LONG, WIDE))


def test_a_notch_that_is_drawn_stays():
    area = notched(150)
    assert straight_past(area, [LineString(area.exterior)]) == (area, 0)


@pytest.mark.parametrize(("depth", "count"), [(DEEPEST - 1, 1), (DEEPEST + 1, 0)])
def test_only_a_notch_of_half_a_wall_is_one_of_butted_walls(depth, count):
    area, filled = straight_past(notched(depth), [])
    assert filled == count
    assert area.area == pytest.approx(LONG * WIDE if count else notched(depth).area)


def test_a_side_that_no_line_goes_along_is_an_open_end():
    area = notched(150)
    drawn = [
        LineString(area.exterior).difference(box(LONG - 200, WIDE - 160, LONG - 140, WIDE + 1))
    ]
    assert straight_past(area, drawn)[1] == 1


def test_a_step_in_a_facade_is_no_corner():
    step = Polygon(
        [(0, 0), (LONG, 0), (LONG, WIDE - 150), (LONG / 2, WIDE - 150), (LONG / 2, WIDE), (0, WIDE)]
    )
    assert straight_past(step, []) == (step, 0)


def test_what_stands_out_at_a_corner_stays():
    pier = box(0, 0, LONG, WIDE).union(box(-150, -150, 150, 150))
    assert straight_past(pier, []) == (pier, 0)


def test_what_is_short_beside_a_notch_is_part_of_something_else():
    """A bay with small returns: the edges beside its corners are no outer faces of walls."""
    bay = Polygon(
        [
            (0, 0),
            (LONG, 0),
            (LONG, 400),
            (LONG - 250, 400),
            (LONG - 250, 650),
            (LONG - 700, 650),
            (0, 650),
        ]
    )
    assert straight_past(bay, []) == (bay, 0)


def test_a_line_along_less_than_a_side_does_not_make_the_notch_a_drawn_one():
    area = notched(150)
    half = [LineString([(LONG - 150, WIDE), (LONG - 150, WIDE - 80)])]
    side = [LineString([(LONG, WIDE - 150), (LONG - 150, WIDE - 150)])]
    assert straight_past(area, half + side)[1] == 1


def test_a_jog_that_turns_outwards_first_is_no_notch():
    """The edge steps out by 150 mm, back and on: what would be cut off is not where two faces meet."""
    nib = Polygon(
        [
            (0, 0),
            (LONG, 0),
            (LONG, 3_000),
            (LONG + 150, 3_000),
            (LONG + 150, 3_150),
            (LONG, 3_150),
            (LONG, WIDE),
            (0, WIDE),
        ]
    )
    assert straight_past(nib, []) == (nib, 0)
