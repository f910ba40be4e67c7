"""The points that are set out: which, where, and under what names."""

import math
from itertools import pairwise

import pytest
import shapely

from kerfline.geometry.ring import Ring, arc_of
from kerfline.model.layout import Joint, Layout, Reason, Solution, Status
from kerfline.model.slab import Column, JointKind, Slab
from kerfline.placement.survey_points import survey_points


def layout_of(*paths, kind=JointKind.CONTROL) -> Layout:
    joints = tuple(
        Joint(id=f"J{n}", kind=kind, path=path, depth=25.0, reason=Reason.SPAN, note="")
        for n, path in enumerate(paths, start=1)
    )
    return Layout(joints=joints, panels=(), solution=Solution(status=Status.GIVEN))


SQUARE = Ring(((0.0, 0.0), (9000.0, 0.0), (9000.0, 6000.0), (0.0, 6000.0)))
PIT = Ring(((1000.0, 1000.0), (2000.0, 1000.0), (2000.0, 2000.0), (1000.0, 2000.0)))


def named(slab: Slab, layout: Layout) -> dict[str, tuple[tuple[float, float], str]]:
    points = survey_points(slab, layout)
    assert len({p.name for p in points}) == len(points)
    assert not any("," in p.what or '"' in p.what for p in points)
    return {p.name: (p.at, p.what) for p in points}


def test_corners_openings_and_joint_ends():
    slab = Slab(outline=SQUARE, thickness=100.0, openings=(PIT,))
    points = named(slab, layout_of(((3000.0, 0.0), (3000.0, 6000.0))))
    assert points["SLAB3"] == ((9000.0, 6000.0), "slab corner")
    assert points["OPEN1-4"] == ((1000.0, 2000.0), "opening 1 corner")
    assert points["J1-1"] == ((3000.0, 0.0), "control joint J1 end")
    assert points["J1-2"][0] == (3000.0, 6000.0)
    assert len(points) == 4 + 4 + 2


def test_bends_and_curves_of_joints():
    arc = arc_of((3000.0, 0.0), (3000.0, 6000.0), 0.3)
    curve = tuple(arc.at(i / 60) for i in range(61))
    slab = Slab(outline=SQUARE, thickness=100.0)
    bent = ((0.0, 3000.0), (8000.0, 3000.0), (9000.0, 3600.0))
    points = named(slab, layout_of(bent, curve))
    assert points["J1-2"] == ((8000.0, 3000.0), "control joint J1 bend")
    along = [at for name, (at, what) in points.items() if what == "control joint J2 on the curve"]
    drawn = shapely.LineString([points["J2-1"][0], *along, curve[-1]])
    assert drawn.hausdorff_distance(shapely.LineString(curve)) <= 10.0
    assert len(along) < 20


def test_an_arc_of_the_edge_is_divided_evenly():
    bulge = math.tan(math.radians(90 / 4))
    outline = Ring(((0.0, 0.0), (9000.0, 0.0), (9000.0, 6000.0), (0.0, 6000.0)), (0, 0, bulge, 0))
    points = named(Slab(outline=outline, thickness=100.0), layout_of())
    on_curve = [at for at, what in points.values() if "curve" in what]
    assert [what for _, what in points.values()].count("slab corner") == 4
    chain = [(9000.0, 6000.0), *on_curve, (0.0, 6000.0)]
    chords = [math.dist(a, b) for a, b in pairwise(chain)]
    assert chords == pytest.approx([chords[0]] * len(chords))
    # Quarter of a circle of this radius: no point of it lies farther than 10 mm from its chord.
    radius = 9000.0 / math.sqrt(2)
    assert radius - math.sqrt(radius**2 - (chords[0] / 2) ** 2) <= 10.0
    assert radius - math.sqrt(radius**2 - chords[0] ** 2) > 10.0


def test_joints_that_cross_rows_of_columns():
    columns = tuple(
        Column(id=f"C{n}", at=at)
        for n, at in enumerate([(2000.0, 2000.0), (7000.0, 2010.0), (7000.0, 5000.0)], start=1)
    )
    slab = Slab(outline=SQUARE, thickness=100.0, columns=columns)
    points = named(
        slab, layout_of(((4000.0, 0.0), (4000.0, 6000.0)), ((0, 4000.0), (9000, 4000.0)))
    )
    assert points["COL-C2"] == ((7000.0, 2010.0), "column C2 centre")
    assert points["J1-ROWA"][0] == pytest.approx((4000.0, 2004.0))
    assert points["J2-ROW1"][0] == pytest.approx((7000.0, 4000.0))
    assert "J1-ROW1" not in points


def test_a_joint_that_ends_on_a_column_row_needs_no_second_point():
    columns = (Column(id="C1", at=(2000.0, 2000.0)), Column(id="C2", at=(7000.0, 2000.0)))
    slab = Slab(outline=SQUARE, thickness=100.0, columns=columns)
    points = named(slab, layout_of(((4000.0, 0.0), (4000.0, 2000.0))))
    assert not any("ROW" in name for name in points)
