"""Planted faults are all found, none is invented, and the way a layout is drawn changes no verdict."""

import math
from collections import Counter
from dataclasses import dataclass, replace
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, affinity
from shapely import Point as ShapelyPoint

from checked import broken, feet, findings, grid_joints, grid_slab, joint, rules
from kerfline.checks.given import given_layout
from kerfline.checks.verdict import verdicts
from kerfline.geometry.ring import Ring
from kerfline.model.finding import Rule, Severity
from kerfline.model.slab import Column, KeepOut, Penetration, Wall
from kerfline.units import MM_PER_FOOT, MM_PER_INCH

WIDE, DEEP = 6, 4
BAY = 10.0
"""A grid of 6 x 4 bays of 10 ft, in feet: a fault is planted in a bay of its own."""


@dataclass(frozen=True)
class Fault:
    """Something wrong that is done to a clean grid.

    Attributes:
        rule: The rule that must find it.
        plant: Does it to a slab in the bay at a column and row; returns the slab and the place in feet
            where the finding must lie, within half a bay.
    """

    rule: Rule
    plant: object
    severity: Severity


def _sliver(slab, i, j):
    x = i * BAY + 1.5
    return _joints(slab, joint(f"s{i}{j}", (x, j * BAY), (x, (j + 1) * BAY))), (x, (j + 0.5) * BAY)


def _dead_end(slab, i, j):
    x = i * BAY + 5
    return _joints(slab, joint(f"d{i}{j}", (x, j * BAY), (x, j * BAY + 4))), (x, j * BAY + 4)


def _sharp(slab, i, j):
    at = (i * BAY, j * BAY + 5)
    line = joint(f"a{i}{j}", at, (i * BAY + 3, (j + 1) * BAY))
    return _joints(slab, line), at


def _twice(slab, i, j):
    at = (i * BAY + 5, (j + 1) * BAY) if j + 1 < DEEP else (i * BAY + 5, j * BAY)
    line = joint(f"t{i}{j}", (at[0] - 2, at[1]), (at[0] + 2, at[1]))
    return _joints(slab, line), at


def _missed_diamond(slab, i, j):
    at = (i * BAY + 5, j * BAY + 5)
    column = Column(id=f"C{i}{j}", at=feet(at)[0], size=609.6)
    return replace(slab, columns=(*slab.columns, column)), at


def _missed_pipe(slab, i, j):
    x = i * BAY + 0.5 if i else (i + 1) * BAY - 0.5
    at = (x, j * BAY + 5)
    pipe = Penetration(id=f"N{i}{j}", at=feet(at)[0], diameter=101.6)
    return replace(slab, penetrations=(*slab.penetrations, pipe)), at


def _tubing(slab, i, j):
    y = (j + 1) * BAY if j + 1 < DEEP else j * BAY
    x = i * BAY + 5
    ring = Ring(feet((x - 2, y - 2), (x + 2, y - 2), (x + 2, y + 2), (x - 2, y + 2)))
    area = KeepOut(id=f"K{i}{j}", outline=ring)
    return replace(slab, keep_outs=(*slab.keep_outs, area)), (x, y)


def _bare_wall(slab, i, j):
    y = j * BAY + 5
    wall = Wall(id=f"W{i}{j}", path=feet((i * BAY + 1, y), ((i + 1) * BAY - 1, y)))
    return replace(slab, walls=(*slab.walls, wall)), (i * BAY + 5, y)


def _bearing(slab, i, j):
    y = (j + 1) * BAY if j + 1 < DEEP else j * BAY
    wall = Wall(id=f"B{i}{j}", path=feet((i * BAY + 1, y), ((i + 1) * BAY - 1, y)), bearing=True)
    return replace(slab, walls=(*slab.walls, wall)), (i * BAY + 5, y)


def _shallow(slab, i, j):
    x = i * BAY + 5
    line = joint(f"c{i}{j}", (x, j * BAY), (x, (j + 1) * BAY), depth=0.6 * MM_PER_INCH)
    return _joints(slab, line), (x, j * BAY + 5)


def _bare_pit(slab, i, j):
    x, y = i * BAY + 5, j * BAY + 5
    ring = Ring(feet((x - 1, y - 1), (x + 1, y - 1), (x + 1, y + 1), (x - 1, y + 1)))
    return replace(slab, openings=(*slab.openings, ring)), (x, y)


def _joints(slab, *added):
    return replace(slab, joints=(*slab.joints, *added))


FAULTS = {
    "sliver": Fault(Rule.WIDTH, _sliver, Severity.ERROR),
    "dead end": Fault(Rule.FREE_END, _dead_end, Severity.ERROR),
    "sharp angle": Fault(Rule.ANGLE, _sharp, Severity.ERROR),
    "drawn twice": Fault(Rule.EDGE, _twice, Severity.WARNING),
    "missed diamond": Fault(Rule.COLUMN, _missed_diamond, Severity.WARNING),
    "missed pipe": Fault(Rule.PENETRATION, _missed_pipe, Severity.WARNING),
    "tubing": Fault(Rule.KEEP_OUT, _tubing, Severity.ERROR),
    "bare wall": Fault(Rule.WALL, _bare_wall, Severity.WARNING),
    "bearing wall": Fault(Rule.BEARING_WALL, _bearing, Severity.WARNING),
    "shallow cut": Fault(Rule.DEPTH, _shallow, Severity.ERROR),
    "bare pit": Fault(Rule.CORNER, _bare_pit, Severity.WARNING),
    "pit in a panel": Fault(Rule.SHAPE, _bare_pit, Severity.WARNING),
}

FOLLOWS = {
    "sliver": {Rule.ASPECT},
    "sharp angle": {Rule.ANGLE, Rule.ASPECT, Rule.WIDTH},
    "bare pit": {Rule.SHAPE},
    "pit in a panel": {Rule.CORNER},
    "shallow cut": {Rule.ASPECT},
}
"""Other rules that a fault breaks as well, by its nature."""

bays = st.tuples(st.integers(0, WIDE - 1), st.integers(0, DEEP - 1))


@st.composite
def faulty_slabs(draw, most=4):
    """A clean grid with faults planted in bays that do not touch, and what was planted where."""
    names = draw(st.lists(st.sampled_from(sorted(FAULTS)), min_size=1, max_size=most))
    even = [(i, j) for i in range(0, WIDE, 2) for j in range(0, DEEP, 2)]
    places = draw(st.permutations(even))[: len(names)]
    slab, planted = grid_slab(WIDE, DEEP), []
    for name, (i, j) in zip(names, places, strict=True):
        slab, at = FAULTS[name].plant(slab, i, j)
        planted.append((name, at))
    return slab, tuple(planted)


@settings(max_examples=40)
@given(st.integers(1, 7), st.integers(1, 7), st.floats(8.01, 10.0), st.floats(8.01, 10.0))
def test_nothing_is_found_on_a_clean_grid(wide, deep, bay, aside):
    assert findings(grid_slab(wide, deep, bay=bay, aside=aside)) == ()


@settings(max_examples=80)
@given(faulty_slabs())
def test_every_planted_fault_is_found_where_it_is(case):
    slab, planted = case
    found = findings(slab)
    for name, at in planted:
        fault, spot = FAULTS[name], ShapelyPoint(feet(at)[0])
        near = [
            f
            for f in found
            if f.rule is fault.rule
            and f.severity is fault.severity
            and spot.distance(ShapelyPoint(f.at)) <= BAY / 2 * MM_PER_FOOT
        ]
        assert near, f"{name} at {at} was not found"


@settings(max_examples=60)
@given(faulty_slabs())
def test_no_fault_is_invented_beside_those_planted(case):
    slab, planted = case
    allowed = {FAULTS[name].rule for name, _ in planted}
    for name, _ in planted:
        allowed |= FOLLOWS.get(name, set())
    assert broken(findings(slab)) <= allowed


@settings(max_examples=30)
@given(st.integers(1, WIDE - 1), st.sampled_from([0.6, 2.0, 14.0, 100.0, 1500.0]))
def test_a_joint_that_stops_short_by_more_than_the_tolerance_is_always_found(number, gap):
    slab = grid_slab(WIDE, DEEP)
    short = joint(f"V{number}", (number * BAY, 0), (number * BAY, DEEP * BAY - gap / MM_PER_FOOT))
    kept = tuple(j for j in slab.joints if j.id != short.id)
    found = [f for f in findings(replace(slab, joints=(*kept, short))) if f.rule is Rule.FREE_END]
    assert [f.subject for f in found] == [short.id]
    assert found[0].measured == pytest.approx(gap, abs=0.02)


@settings(max_examples=30)
@given(st.sets(st.sampled_from([j.id for j in grid_joints(WIDE, DEEP)]), min_size=1, max_size=3))
def test_joints_left_out_leave_panels_too_long(left_out):
    slab = grid_slab(WIDE, DEEP)
    kept = tuple(j for j in slab.joints if j.id not in left_out)
    found = findings(replace(slab, joints=kept))
    assert Rule.SPAN in broken(found)
    assert broken(found) <= {Rule.SPAN, Rule.ASPECT}


def signature(slab):
    """What the checks say without the places: rule, severity, measure, and each rule's verdict."""
    layout = given_layout(slab)
    found = findings(slab, layout=layout)
    told = Counter((f.rule, f.severity, f.subject.split()[0], _rounded(f.measured)) for f in found)
    return told, ruled(slab, layout, found)


def ruled(slab, layout, found):
    """The verdict on each rule and its worst value."""
    return [(v.rule, v.ruling, _rounded(v.worst)) for v in verdicts(found, slab, layout, rules())]


def _rounded(value):
    return None if value is None else round(value, 1)


def _unnamed(told):
    """The same without subjects, whose numbers follow reading order."""
    counted = Counter()
    for (rule, severity, _, measured), times in told.items():
        counted[rule, severity, measured] += times
    return counted


@settings(max_examples=30)
@given(
    faulty_slabs(),
    st.sampled_from([(1, 0, 0, 1), (0, -1, 1, 0), (-1, 0, 0, -1), (-1, 0, 0, 1), (0, 1, 1, 0)]),
    st.floats(-1e7, 1e7),
    st.floats(-1e7, 1e7),
)
def test_moving_quarter_turning_and_mirroring_change_nothing(case, matrix, dx, dy):
    slab, _ = case
    told, ruling = signature(slab)
    changed, again = signature(transformed(slab, (*matrix, dx, dy)))
    assert _unnamed(changed) == _unnamed(told)
    assert again == ruling


@settings(max_examples=25)
@given(faulty_slabs(), st.floats(1.0, 89.0))
def test_turning_by_any_angle_changes_no_verdict(case, degrees):
    slab, _ = case
    told, ruling = signature(slab)
    turned = affinity.rotate(ShapelyPoint(1, 0), degrees, origin=(0, 0))
    cos, sin = turned.x, turned.y
    changed, again = signature(transformed(slab, (cos, -sin, sin, cos, 0.0, 0.0)))
    assert {(r, s) for r, s, _, _ in changed} == {(r, s) for r, s, _, _ in told}
    assert [row[:2] for row in again] == [row[:2] for row in ruling]


@settings(max_examples=25)
@given(faulty_slabs(), st.data())
def test_cutting_the_lines_into_pieces_changes_no_verdict(case, data):
    slab, planted = case
    assume(all(name != "drawn twice" for name, _ in planted))
    pieces = tuple(p for j in slab.joints for p in _recut(j, data.draw))
    layout, split = given_layout(slab), replace(slab, joints=pieces)
    again = given_layout(split)
    found, refound = findings(slab, layout=layout), findings(split, layout=again)
    assert ruled(split, again, refound) == ruled(slab, layout, found)
    per_panel = {Rule.SPAN, Rule.ASPECT, Rule.WIDTH, Rule.AREA, Rule.SHAPE, Rule.CORNER, Rule.ANGLE}
    per_panel |= {Rule.FREE_END, Rule.TEE_END, Rule.WALL, Rule.COLUMN, Rule.PENETRATION}
    count = Counter((f.rule, f.severity) for f in found if f.rule in per_panel)
    assert Counter((f.rule, f.severity) for f in refound if f.rule in per_panel) == count


@settings(max_examples=15)
@given(faulty_slabs())
def test_the_same_layout_gives_the_same_findings_in_the_same_order(case):
    slab, _ = case
    assert findings(slab) == findings(slab)
    shuffled = replace(slab, joints=tuple(reversed(slab.joints)))
    assert Counter((f.rule, f.severity, f.at) for f in findings(shuffled)) == Counter(
        (f.rule, f.severity, f.at) for f in findings(slab)
    )


def _recut(line, draw):
    """A joint in up to four pieces, cut anywhere but within 100 mm of each other."""
    length = LineString(line.path).length
    cuts = sorted(draw(st.lists(st.floats(200, max(201, length - 200)), max_size=3)))
    stops = [0.0]
    for cut in cuts:
        if cut - stops[-1] > 100 and length - cut > 100:
            stops.append(cut)
    stops.append(length)
    whole = LineString(line.path)
    spots = [whole.interpolate(s) for s in stops]
    return [
        replace(line, id=f"{line.id}.{n}", path=((a.x, a.y), (b.x, b.y)))
        for n, (a, b) in enumerate(pairwise(spots))
    ]


def transformed(slab, matrix):
    """A slab with everything on it under a map of the plane that keeps lengths."""
    a, b, c, d, dx, dy = matrix

    def point(p):
        return (a * p[0] + b * p[1] + dx, c * p[0] + d * p[1] + dy)

    def path(points):
        return tuple(point(p) for p in points)

    def ring(r):
        return Ring(path(r.points), r.bulges)

    return replace(
        slab,
        outline=ring(slab.outline),
        openings=tuple(ring(o) for o in slab.openings),
        walls=tuple(replace(w, path=path(w.path)) for w in slab.walls),
        columns=tuple(replace(k, at=point(k.at), turn=_turn(a, c)) for k in slab.columns),
        penetrations=tuple(replace(p, at=point(p.at)) for p in slab.penetrations),
        keep_outs=tuple(replace(k, outline=ring(k.outline)) for k in slab.keep_outs),
        joints=tuple(replace(j, path=path(j.path)) for j in slab.joints),
    )


def _turn(a, c):
    return math.degrees(math.atan2(c, a))
