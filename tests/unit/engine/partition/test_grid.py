"""The grid between candidate lines: what is slab, what lies on each piece, where joints may not lie or must."""

from dataclasses import replace

import numpy as np
import pytest

from kerfline.engine.lines.lattice import GridLine, Lattice
from kerfline.engine.measure.cost import cost_on
from kerfline.engine.options import Weights
from kerfline.engine.partition.grid import _overlap as overlap
from kerfline.engine.partition.grid import _served as served
from kerfline.engine.partition.grid import empty_pieces, grid, mark_beside
from kerfline.engine.regions.features import Rank
from kerfline.geometry.ring import Ring
from kerfline.model.slab import BearingRule, GivenJoint, KeepOut, Slab, Wall, Zone
from unit.engine.plans import EL, MM_PER_FOOT, box, feet, region_of, slab, wall

FOOT = MM_PER_FOOT
X, Y = 0, 1


def net(plan, xs, ys, region=None, weights=None):
    """The grid of a slab between lines at places in feet."""
    region = region or region_of(plan)
    lines = tuple(
        tuple(GridLine(at=at * FOOT, rank=Rank.EDGE) for at in places) for places in (xs, ys)
    )
    return grid(region, Lattice(lines=lines, outline=region.gross), weights or Weights())


HALL = slab(box(30, 20))
TENS = ((0, 10, 20, 30), (0, 10, 20))


def pieces(flags):
    return [tuple(p) for p in np.argwhere(flags).tolist()]


def test_a_hall_is_slab_in_every_cell_and_its_rim_is_no_joint():
    found = net(HALL, *TENS)
    assert found.inside.shape == (3, 2)
    assert found.inside.all()
    assert pieces(found.interior[X]) == [(1, 0), (1, 1), (2, 0), (2, 1)]
    assert pieces(found.interior[Y]) == [(1, 0), (1, 1), (1, 2)]
    assert found.price[X][0].tolist() == [0, 0]
    assert found.price[X][1].tolist() == pytest.approx([10 * FOOT] * 2)


def test_of_an_ell_the_notch_is_no_slab():
    found = net(slab(EL), (0, 22, 40), (0, 18, 36))
    assert pieces(~found.inside) == [(1, 1)]
    assert pieces(found.interior[X]) == [(1, 0)]
    assert pieces(found.interior[Y]) == [(1, 0)]


@pytest.mark.parametrize(("width", "slab_cells"), [(3.6, 3), (3.8, 2)])
def test_a_cell_is_slab_where_more_than_half_of_its_probes_are(width, slab_cells):
    """Four each way; an opening at the left of the middle cell takes one column of them, or two."""
    holed = slab(box(30, 10), openings=(box(width, 9.9, 10.05, 0.05),))
    found = net(holed, (0, 10, 20, 30), (0, 10))
    assert int(found.inside.sum()) == slab_cells


def test_a_wall_lies_on_the_pieces_of_the_line_that_serves_it():
    found = net(replace(HALL, walls=(wall("W1", (10, 5), (10, 20)),)), *TENS)
    assert found.wall[X][1].tolist() == pytest.approx([5 * FOOT, 10 * FOOT])
    assert found.hidden[X][1].tolist() == pytest.approx([5 * FOOT, 10 * FOOT])
    assert found.price[X][1].tolist() == pytest.approx([9 * FOOT, 8 * FOOT])
    assert found.wall[X][2].tolist() == [0, 0]
    assert found.wall[Y].max() == 0


def test_what_a_wall_costs_once_is_owed_in_shares_over_its_length():
    """Fifteen feet at ten feet a foot and sixty once: fourteen a foot; a short wall owes nothing."""
    walls = (wall("W1", (10, 5), (10, 20)), wall("W2", (20, 12), (20, 15)))
    found = net(replace(HALL, walls=walls), *TENS)
    assert found.owed[X][1].tolist() == pytest.approx([70 * FOOT, 140 * FOOT])
    assert found.owed[X][2].tolist() == [0, 0]
    assert found.owed[Y].max() == 0


@pytest.mark.parametrize(("off", "served"), [(57.0, True), (59.0, False)])
def test_a_line_serves_a_wall_up_to_its_face(off, served):
    """A wall of 114.3 mm, 57.15 mm to its face, and a millimetre for the touch."""
    x = 10 + off / FOOT
    found = net(replace(HALL, walls=(wall("W1", (x, 0), (x, 20)),)), *TENS)
    assert bool(found.wall[X][1].any()) is served


def test_every_line_within_a_walls_thickness_hides_a_joint():
    """Lines at ten feet and 50 mm beside: the wall lies on the nearer one, and its thickness over both."""
    found = net(
        replace(HALL, walls=(wall("W1", (10, 5), (10, 20)),)), (0, 10, 10 + 50 / FOOT, 30), TENS[1]
    )
    assert found.wall[X][2].tolist() == [0, 0]
    assert found.hidden[X][2].tolist() == pytest.approx(found.hidden[X][1].tolist())
    (part,) = found.beside
    assert (part.axis, part.line, part.first, part.last) == (X, 1, 1, 2)
    assert part.lengths.tolist() == pytest.approx([5 * FOOT, 10 * FOOT])


def test_a_short_walls_wish_is_kept_apart_from_duty():
    found = net(replace(HALL, walls=(wall("W1", (10, 12), (10, 15)),)), *TENS)
    assert found.wall[X][1].tolist() == [0, 0]
    assert found.wish[X][1].tolist() == pytest.approx([0, 3 * FOOT])
    assert found.hidden[X][1].tolist() == pytest.approx([0, 3 * FOOT])


def test_a_joint_along_a_forbidden_line_or_a_bearing_strip_is_dear():
    barred = GivenJoint(id="G1", path=feet((10, 0), (10, 10)), forbidden=True)
    strip = wall("W1", (20, 0), (20, 20), bearing=True, bearing_rule=BearingRule.BESIDE)
    found = net(replace(HALL, joints=(barred,), walls=(strip,)), *TENS)
    plain = 10 * FOOT
    assert found.price[X][1].tolist() == pytest.approx([plain * 101, plain])
    assert found.price[X][2].tolist() == pytest.approx([plain * 101] * 2)


def test_no_joint_runs_through_a_keep_out_but_along_its_border_one_may():
    def banned(x):
        return pieces(
            net(
                replace(HALL, keep_outs=(KeepOut(id="K1", outline=box(4, 6, x, 2)),)), *TENS
            ).banned[X]
        )

    assert banned(8) == [(1, 0)]
    assert banned(10) == []
    assert banned(6.1) == [(1, 0)]


def test_a_pinned_joint_must_be_where_it_covers_most_of_a_piece():
    def must(y):
        pinned = GivenJoint(id="G1", path=feet((10, 0), (10, y)))
        return pieces(net(replace(HALL, joints=(pinned,)), *TENS).must[X])

    assert must(20) == [(1, 0), (1, 1)]
    assert must(15.1) == [(1, 0), (1, 1)]
    assert must(14.9) == [(1, 0)]
    assert must(4.9) == []


def test_the_border_of_a_zone_must_be_a_joint_where_it_is_one():
    zone = Zone(id="Z1", outline=box(10, 20), thickness=150.0)
    assert pieces(net(replace(HALL, zones=(zone,)), *TENS).must[X]) == [(1, 0), (1, 1)]
    free = replace(zone, joint_at_border=False)
    assert pieces(net(replace(HALL, zones=(free,)), *TENS).must[X]) == []


def test_mirrored_plans_have_mirrored_grids():
    walls = (wall("W1", (10, 5), (10, 20)), wall("W2", (0, 10), (14, 10)))
    mirrored = (wall("W1", (20, 5), (20, 20)), wall("W2", (30, 10), (16, 10)))
    one, other = (net(replace(HALL, walls=w), *TENS) for w in (walls, mirrored))
    assert np.allclose(one.price[X], other.price[X][::-1])
    assert np.allclose(one.price[Y], other.price[Y][:, ::-1])


STOPS = np.array([0.0, 2000.0, 5000.0])


def lines_serving(*walls, places):
    ring = Ring(((0, 0), (5000, 0), (5000, 5000), (0, 5000)))
    region = region_of(Slab(outline=ring, thickness=101.6, walls=walls))
    return list(served(region, (np.array(places), STOPS), cost_on(region, Weights())))


def upright(x, low=0.0, high=5000.0, **more):
    return Wall(id="W1", path=((x, low), (x, high)), thickness=200.0, **more)


@pytest.mark.parametrize(
    ("start", "end", "lengths"),
    [
        (0, 5000, [2000, 3000]),
        (500, 4000, [1500, 2000]),
        (2500, 4000, [0, 1500]),
        (-900, 1000, [1000, 0]),
    ],
)
def test_a_wall_lies_on_the_pieces_that_it_reaches_over(start, end, lengths):
    assert overlap(STOPS, start, end).tolist() == lengths


def test_lines_within_half_a_walls_thickness_serve_it_and_the_nearest_is_its_own():
    (found,) = lines_serving(upright(2500.0), places=(0.0, 2300.0, 2420.0, 2510.0, 2590.0, 2700.0))
    assert (found.axis, found.first, found.line, found.last) == (0, 2, 3, 4)
    assert found.lengths.tolist() == [2000.0, 3000.0]
    assert found.rate == pytest.approx(10 + 60 * FOOT / 5000)
    assert not found.short


def test_no_line_serves_a_wall_that_all_pass_by():
    assert lines_serving(upright(2500.0), places=(0.0, 2350.0, 2650.0)) == []


def test_a_stub_only_wishes_for_its_line():
    (found,) = lines_serving(upright(2500.0, 0.0, 900.0), places=(0.0, 2500.0))
    assert found.short
    assert found.lengths.tolist() == [900.0, 0.0]


def test_a_wall_with_a_corner_is_served_part_by_part():
    bent = Wall(id="W1", path=((2500.0, 0.0), (2500.0, 2000.0), (5000.0, 2000.0)), thickness=200.0)
    found = lines_serving(bent, places=(0.0, 2500.0, 5000.0))
    assert [(part.axis, part.line, part.lengths.tolist()) for part in found] == [
        (0, 1, [2000.0, 0.0]),
        (1, 1, [0.0, 2500.0]),
    ]


def test_a_wall_on_the_slant_has_no_line():
    assert (
        lines_serving(
            Wall(id="W1", path=((1000.0, 0.0), (4000.0, 5000.0)), thickness=200.0),
            places=(0.0, 2500.0),
        )
        == []
    )


def test_what_runs_aslant_marks_no_piece_of_a_line():
    """A path of which the first part runs along x = 10 ft and the second neither way."""
    places = net(HALL, *TENS).places
    out = empty_pieces(places)
    mark_beside(out, places, feet((10, 0), (10, 10), (20, 20)), 1.0)
    assert pieces(out[X] > 0) == [(1, 0)]
    assert not out[Y].any()
