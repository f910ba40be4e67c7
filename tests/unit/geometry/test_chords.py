"""Runs of even chords become the arc that they were made of; corners and uneven lines stay."""

import math

import pytest

from kerfline.geometry.chords import with_arcs

RADIUS = 3000.0


def on_circle(start, stop, chords, radius=RADIUS, middle=(0.0, 0.0)):
    """Points of an arc, both ends among them; angles in degrees."""
    angles = [math.radians(start + (stop - start) * i / chords) for i in range(chords + 1)]
    return [(middle[0] + radius * math.cos(a), middle[1] + radius * math.sin(a)) for a in angles]


@pytest.mark.parametrize("shift", [0, 5, 20])
@pytest.mark.parametrize("way", [1, -1])
def test_a_rounded_end(shift, way):
    points = [(-5000.0, -RADIUS), *on_circle(-90, 90, 40), (-5000.0, RADIUS)][::way]
    ring = with_arcs([*points[shift:], *points[:shift]])
    assert len(ring.points) == 4
    assert sorted(map(abs, ring.bulges)) == pytest.approx([0, 0, 0, 1])
    area = 2 * RADIUS * 5000 + math.pi * RADIUS**2 / 2
    assert ring.polygon.area == pytest.approx(area, rel=1e-4)


def test_a_whole_circle_is_two_halves():
    ring = with_arcs(on_circle(0, 360, 60)[:-1])
    assert ring.bulges == pytest.approx((1.0, 1.0))


def test_a_hollow_side():
    ring = with_arcs(
        [*on_circle(160, 20, 30, middle=(0, -2000)), (6000.0, 6000.0), (-6000.0, 6000.0)]
    )
    assert len(ring.points) == 4
    assert min(ring.bulges) == pytest.approx(-math.tan(math.radians(140) / 4))


def test_two_arcs_of_one_line():
    first, second = on_circle(180, 90, 20), on_circle(90, 0, 30, radius=1000.0, middle=(0, 2000))
    ring = with_arcs([*first, *second[1:], (1000.0, -500.0), (-3000.0, -500.0)])
    assert sum(b != 0 for b in ring.bulges) == 2


@pytest.mark.parametrize(
    "points",
    [
        [(0, 0), (9000, 0), (9000, 6000), (0, 6000)],
        on_circle(0, 360, 12)[:-1],
        [(0, 0), *on_circle(0, 30, 3, radius=9000)],
        [(0, 0), (9000, 0), (9100, 1000), (9150, 2500), (9160, 3000), (9100, 5000), (0, 5000)],
    ],
    ids=["rectangle", "twelve corners", "bay window", "surveyed"],
)
def test_what_is_no_arc_stays(points):
    ring = with_arcs(points)
    assert not any(ring.bulges)
    assert sorted(ring.points) == sorted(points)
