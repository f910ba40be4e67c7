"""The general method on slabs of many shapes: hard rules always, good shapes where they can be had."""

import math
from dataclasses import replace
from functools import cache
from types import SimpleNamespace

import pytest
import shapely
from shapely import LineString
from shapely.geometry import box as area

from kerfline.engine import general
from kerfline.engine.effort import Effort
from kerfline.engine.general import lay_out_region, limits_at
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions.frames import regions_of
from kerfline.engine.regions.region import Cut, RegionZone
from kerfline.geometry.faces import faces
from kerfline.geometry.rectangle import enclosing_rectangle
from kerfline.geometry.tolerance import MEASURE, TOUCH
from kerfline.model.layout import Reason, WorkingLimits
from kerfline.model.slab import Pattern
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from unit.engine import plans
from unit.engine.slabs import SHAPES

RULES = SlabRules(rule_set=load("floor"))


@cache
def joints_of(name):
    """The joints of a named slab."""
    return joints_by_the_general_method(SHAPES[name])


def joints_by_the_general_method(slab):
    """The cuts in the slab's frame, whichever method would take the regions."""
    lines = []
    for place in regions_of(slab, RULES, EngineOptions()):
        lines += [LineString(c.path) for c in place.borders]
        layout = lay_out_region(place.region)
        lines += [LineString([place.to_slab(p) for p in c.path]) for c in layout.cuts]
    return lines


@pytest.fixture(scope="module", params=sorted(SHAPES))
def laid_out(request):
    slab = SHAPES[request.param]
    lines = joints_of(request.param)
    return request.param, slab, lines, faces(slab.concrete, lines)


def test_panels_tile_and_keep_the_span(laid_out):
    _, slab, _, panels = laid_out
    span = 1.05 * RULES.working(slab.thickness).span
    assert sum(p.area for p in panels) == pytest.approx(slab.concrete.area, rel=1e-6)
    assert max(enclosing_rectangle(p).length for p in panels) <= span + MEASURE


def test_joints_stay_inside_and_end_on_something(laid_out):
    _, slab, lines, _ = laid_out
    assert all(slab.concrete.buffer(TOUCH).covers(line) for line in lines)
    for line in lines:
        others = shapely.union_all([slab.concrete.boundary, *(o for o in lines if o is not line)])
        for end in (line.coords[0], line.coords[-1]):
            assert others.distance(shapely.Point(end)) <= TOUCH


def test_no_panel_is_narrow_or_long(laid_out):
    name, slab, _, panels = laid_out
    limits = RULES.working(slab.thickness)
    boxes = [enclosing_rectangle(p) for p in panels]
    assert min(b.width for b in boxes) >= limits.width
    if name not in ("diagonal wall", "given joint", "triangle"):
        assert max(b.aspect for b in boxes) <= limits.aspect + 1e-3


def test_joints_of_a_curved_walk_run_to_its_centre():
    lines = joints_of("curved walk")
    assert len(lines) >= 4
    for line in lines:
        (x0, y0), (x1, y1) = line.coords[0], line.coords[-1]
        miss = abs(x0 * y1 - x1 * y0) / math.dist((x0, y0), (x1, y1))
        assert miss < 5.0


def test_drive_has_a_joint_on_its_bisector_and_the_others_square_to_it():
    for line in joints_of("tapered drive"):
        (x0, y0), (x1, y1) = line.coords[0], line.coords[-1]
        assert min(abs(x1 - x0), abs(y1 - y0)) < 2.0


def test_diagonal_wall_has_its_joint_beneath():
    slab = SHAPES["diagonal wall"]
    wall = slab.walls[0]
    under = shapely.union_all(joints_of("diagonal wall")).intersection(wall.footprint)
    assert under.length >= wall.line.length - 1.0


def test_keep_out_has_no_joint_in_it():
    slab = SHAPES["keep-out"]
    lines = shapely.union_all(joints_of("keep-out"))
    assert lines.intersection(slab.keep_outs[0].outline.polygon).length < 1.0


def test_same_slab_gives_the_same_joints_to_the_byte():
    again = joints_by_the_general_method(SHAPES["bay window"])
    assert [line.wkb for line in joints_of("bay window")] == [line.wkb for line in again]


def zone(name, span, *bounds):
    limits = WorkingLimits(span=span, aspect=1.5, width=600.0, angle=60.0)
    return RegionZone(id=name, area=area(*bounds), working=limits)


@pytest.mark.parametrize(
    ("bounds", "span"),
    [
        ((0, 0, 1000, 1000), 2000.0),  # in the stricter of two
        ((1000, 0, 2000, 1000), 9000.0),  # wholly in the laxer: it may be laxer than the floor
        ((1500, 0, 2500, 1000), 3048.0),  # half in the laxer
        ((2000, 0, 3000, 1000), 3048.0),
        ((991, 0, 1991, 1000), 9000.0),  # less than a hundredth in the stricter
        ((989, 0, 1989, 1000), 2000.0),
    ],
)
def test_a_piece_keeps_the_strictest_limits_that_hold_on_it(bounds, span):
    """10 ft, 3048 mm, on the floor; 2 m up to x = 1 m; 9 m up to x = 2 m."""
    region = replace(
        plans.region_of(plans.slab(plans.box(40, 30))),
        zones=(zone("Z1", 2000.0, 0, 0, 1000, 5000), zone("Z2", 9000.0, 0, 0, 2000, 5000)),
    )
    assert region.working.span == pytest.approx(3048.0)
    assert limits_at(region, area(*bounds)).span == pytest.approx(span)


PART = area(0, 0, 4000, 3000)


@pytest.mark.parametrize(
    ("path", "found"),
    [
        (((4000, 1000), (7000, 1000)), [(4000, 1000)]),
        (((4000.4, 1000), (7000, 1000)), [(4000.4, 1000)]),
        (((4000.6, 1000), (7000, 1000)), []),
        (((7000, 2000), (5000, 2000), (4000, 1000)), [(4000, 1000)]),
        (((2000, 1000), (7000, 1000)), []),  # it enters
        (((4000, 500), (4000, 2500)), []),  # it runs along the border
        (((4000, 3000), (4000, 6000)), [(4000, 3000)]),
        (((-3000, 3000), (0, 3000)), [(0, 3000)]),
    ],
)
def test_joints_arrive_at_a_part_where_they_end_on_its_border_from_outside(path, found):
    assert general._arrives(LineString(path), PART) == found


def test_sides_on_which_a_neighbours_joints_arrive_are_shared_with_it():
    right, top = ((4000.0, 0.0), (4000.0, 3000.0)), ((0.0, 3000.0), (4000.0, 3000.0))

    def sides(*landings):
        return [tuple(sorted(x.coords)) for x in general._sides_with(PART, landings)]

    assert sides() == []
    assert sides((4000.4, 1000.0)) == [right]
    assert sides((4000.6, 1000.0)) == []
    assert sorted(sides((4000.0, 1000.0), (2000.0, 3000.0))) == sorted([right, top])
    assert sorted(sides((4000.0, 3000.0))) == sorted([right, top])


def test_of_settled_joints_those_inside_a_part_are_followed_and_only_walls_as_walls():
    cuts = [
        Cut(path=((1000.0, -500.0), (1000.0, 9000.0)), reason=Reason.WALL),
        Cut(path=((0.0, 3000.0), (4000.0, 3000.0)), reason=Reason.WALL),
        Cut(path=((0.0, 2000.0), (4000.0, 2000.0)), reason=Reason.CORNER),
    ]
    found = general._to_follow(cuts, PART)
    assert [(x.reason, x.path.length) for x in found] == [
        (Reason.WALL, pytest.approx(3000.0)),
        (Reason.SPAN, pytest.approx(4000.0)),
    ]


def test_a_pattern_holds_on_a_piece_that_it_covers_but_for_a_millimetre():
    region = plans.region_of(plans.slab(plans.box(40, 30)))

    def wished(*bounds):
        pattern = Pattern(id="A1", area=plans.Ring.of(area(*bounds)))
        return general._pattern_on(replace(region, patterns=(pattern,)), PART)

    assert wished(0, 0, 4000, 3000).id == "A1"
    assert wished(0.9, 0, 4000, 3000).id == "A1"
    assert wished(1.1, 0, 4000, 3000) is None


def test_a_part_may_overspend_by_its_share_of_the_region():
    """A quarter of 40 x 30 ft: two of the eight seconds that the region may overspend, on top of one."""
    region = plans.region_of(plans.slab(plans.box(40, 30)))
    effort = Effort(5.0, patience=1.0)
    general._be_patient(
        SimpleNamespace(effort=effort, patience=8.0, region=region), region.concrete.area / 4
    )
    assert effort.patience == pytest.approx(3.0)
    assert effort.left == 5.0


def test_a_region_is_parted_where_its_limits_or_its_look_change_and_nowhere_else():
    region = plans.region_of(plans.slab(plans.box(40, 30)))
    _, y0, x1, y1 = region.concrete.bounds
    paths = [((x, y0), (x, y1)) for x in (1000.0, 3000.0, 7000.0)]
    reasons = (Reason.ZONE, Reason.PATTERN, Reason.WALL)
    cuts = [Cut(path=p, reason=r) for p, r in zip(paths, reasons, strict=True)]
    pieces = general._zone_pieces(region, SimpleNamespace(cuts=cuts))
    assert sorted(round(p.bounds[2] - p.bounds[0]) for p in pieces) == [
        1000,
        2000,
        round(x1 - 3000),
    ]
    assert general._zone_pieces(region, SimpleNamespace(cuts=cuts[2:])) == [region.concrete]


def test_it_is_told_which_piece_of_a_large_part_is_being_laid_out():
    told = []
    region = plans.region_of(plans.slab(plans.ring((0, 0), (150, 0), (180, 60), (0, 60))))
    lay_out_region(region, EngineOptions(effort=0.1, progress=told.append))
    assert len(told) > 1
    assert told == [f"Laying out piece {n} of {len(told)}" for n in range(1, len(told) + 1)]
