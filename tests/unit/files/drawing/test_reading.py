"""What is read does not depend on how the drawing lies, or into how many pieces its lines are cut."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, affinity

from kerfline.files.drawing.curves import Curve
from kerfline.files.drawing.joints import read_joints
from kerfline.files.drawing.outline import read_outline
from kerfline.files.drawing.walls import read_walls
from kerfline.geometry.paths import Path
from kerfline.geometry.regions import EVEN_OUT
from kerfline.model.slab import JointKind
from kerfline.units import Display

METRIC = Display.METRIC
SLAB = Polygon([(0, 0), (12000, 0), (12000, 6000), (6000, 6000), (6000, 9000), (0, 9000)])
WALLS = [((0, 3000), (5000, 3000)), ((5000, 3000), (5000, 9000)), ((8000, 0), (8000, 6000))]
JOINTS = [((3000, 0), (3000, 9000)), ((0, 4500), (12000, 4500)), ((9000, 0), (9000, 6000))]


@st.composite
def placings(draw):
    """A motion: turn, mirror, move; far out at times."""
    turn = draw(st.sampled_from([0, 90, 180, 270, 30, 45]) | st.floats(0, 360))
    mirror = draw(st.booleans())
    x, y = (draw(st.sampled_from([0, 3.3e6, -4.1e9]) | st.floats(-1e5, 1e5)) for _ in "xy")

    def place(shape):
        shape = affinity.scale(shape, -1 if mirror else 1, 1, origin=(0, 0))
        shape = affinity.rotate(shape, turn, origin=(0, 0))
        return affinity.translate(shape, x, y)

    return place


@st.composite
def cuts(draw):
    """Where a line from 0 to 1 is cut, and whether pieces are turned round, mixed and overlapped."""
    places = sorted(draw(st.lists(st.integers(1, 99), max_size=5, unique=True)))
    return [0.0, *(p / 100 for p in places), 1.0], draw(st.booleans()), draw(st.booleans())


def pieces(a, b, how):
    shares, turned, overlapped = how
    points = [(a[0] + (b[0] - a[0]) * s, a[1] + (b[1] - a[1]) * s) for s in shares]
    rows = list(pairwise(points))
    if overlapped and len(rows) > 1:
        rows.append((points[0], points[2]))
    return [(q, p) if turned and i % 2 else (p, q) for i, (p, q) in enumerate(rows)]


def curves(rows, layer):
    return [Curve(layer=layer, kind="LINE", path=Path((p, q))) for p, q in rows]


def edges(polygon):
    return list(pairwise(polygon.exterior.coords))


@given(placings(), cuts())
def test_the_outline(place, how):
    rows = [r for a, b in edges(place(SLAB)) for r in pieces(a, b, how)]
    ring = read_outline("plan", curves(rows, "SLAB"), METRIC).outline
    # pieces that overlap are evened out on a fine grid
    assert ring.polygon.symmetric_difference(place(SLAB)).area < EVEN_OUT * SLAB.length


@given(placings(), cuts(), st.sampled_from([100.0, 150.0]))
def test_the_walls(place, how, thickness):
    from shapely import LineString

    from kerfline.geometry.ring import Ring

    slab = place(SLAB)
    rows = []
    for wall in WALLS:
        line = LineString(wall)
        for side in (1, -1):
            face = place(line.offset_curve(side * thickness / 2))
            rows += pieces(*face.coords, how)
    found, _ = read_walls(curves(rows, "WALL"), Ring.of(slab), METRIC)
    assert len(found) == 3
    assert all(w.thickness == pytest.approx(thickness, rel=1e-6) for w in found)
    drawn = sorted(math.dist(*w) for w in WALLS)
    assert sorted(w.line.length for w in found) == pytest.approx(drawn, abs=thickness)
    for wall in found:
        nearest = min(place(LineString(w)).hausdorff_distance(wall.line) for w in WALLS)
        assert nearest <= thickness


@given(placings(), cuts(), st.sampled_from([0.0, 20.0, -20.0]))
def test_the_joints_and_their_repairs(place, how, miss):
    """Each joint misses its edge by as much as is put right; the same joints come out, told as many times."""
    from shapely import LineString

    rows = []
    for (x0, y0), (x1, y1) in JOINTS:
        size = math.dist((x0, y0), (x1, y1))
        ux, uy = (x1 - x0) / size, (y1 - y0) / size
        line = LineString([(x0 + ux * miss, y0 + uy * miss), (x1, y1)])
        rows += pieces(*place(line).coords, how)
    concrete = place(SLAB)
    drawn = [(JointKind.CONTROL, curves(rows, "JNTS"))]
    found, notes = read_joints(drawn, concrete, METRIC)
    lengths = sorted(LineString(j.path).length for j in found)
    # the second joint runs out of the slab's short wing: 12 m of which all lies on concrete
    assert lengths == pytest.approx(sorted([9000, 12000, 6000]), abs=0.05)
    repairs = [n for n in notes if n.startswith("G")]
    assert len(repairs) == (3 if miss else 0)
    assert sorted(j.id for j in found) == ["G1", "G2", "G3"]


@settings(max_examples=30)
@given(placings(), st.sampled_from([(300, 150), (100, 100), (600, 300), (50, 20)]))
def test_dashed_joints(place, pattern):
    from shapely import LineString

    dash, gap = pattern
    rows = []
    for (x0, y0), (x1, y1) in JOINTS:
        size = math.dist((x0, y0), (x1, y1))
        at = 0.0
        while at < size:
            ends = [at / size, min(at + dash, size) / size]
            line = place(LineString([(x0 + (x1 - x0) * s, y0 + (y1 - y0) * s) for s in ends]))
            rows.append(tuple(line.coords))
            at += dash + gap
    found, _ = read_joints([(JointKind.CONTROL, curves(rows, "JNTS"))], place(SLAB), METRIC)
    lengths = sorted(LineString(j.path).length for j in found)
    assert lengths == pytest.approx(sorted([9000, 12000, 6000]), abs=0.05)
