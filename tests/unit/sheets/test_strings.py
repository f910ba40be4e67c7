"""Dimension strings stand beside what they measure, close, and cross neither concrete nor more empty paper than they must."""

import re
from itertools import pairwise

import pytest
import shapely
from shapely import LineString

from kerfline.geometry.ring import Ring
from kerfline.model.job import Job
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.baselines import baselines
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.marks import Layer, Path
from kerfline.sheets.stations import departure, stations
from kerfline.sheets.strings import Shown, dimension_strings
from kerfline.units import Unit, parse_length
from shapes import feet, layout_of
from sheet_checks import assert_clean, grid_lines

RULES = SlabRules(rule_set=load("floor"))
OUTLINES = {
    "ell": ((0, 0), (60, 0), (60, 24), (36, 24), (36, 40), (0, 40)),
    "ell, its notch below": ((0, 16), (24, 16), (24, 0), (60, 0), (60, 40), (0, 40)),
    "u": ((0, 0), (80, 0), (80, 50), (60, 50), (60, 16), (20, 16), (20, 50), (0, 50)),
    "aitch": (
        (0, 0), (20, 0), (20, 18), (60, 18), (60, 0), (80, 0), (80, 50), (60, 50), (60, 32), (20, 32),
        (20, 50), (0, 50),
    ),
}  # fmt: skip


def walk():
    """A walk 5 ft wide with a quarter turn."""
    points = feet((0, 0), (5, 0), (5, 20), (20, 35), (60, 35), (60, 40), (20, 40), (0, 20))
    bend = 0.41421356
    return Slab(outline=Ring(points, (0, 0, -bend, 0, 0, 0, bend, 0)), thickness=100.0)


def slab_named(name):
    if name == "walk":
        return walk()
    return Slab(outline=Ring(feet(*OUTLINES[name])), thickness=100.0)


def gridded(slab, spacing=3048.0):
    lines = [(JointKind.CONTROL, Reason.SPAN, list(g.coords)) for g in grid_lines(slab, spacing)]
    return layout_of(slab, lines)


@pytest.fixture(scope="module", params=[*OUTLINES, "walk"])
def drawn(request):
    slab = slab_named(request.param)
    layout = gridded(slab)
    return slab, layout, joint_plan(Job(name="S", units=Unit.FT, slab=slab), layout, (), RULES)


def dimension_lines(sheet):
    return [
        LineString(leg)
        for m in sheet.marks
        if isinstance(m, Path) and m.layer is Layer.DIMENSION and not m.in_plan
        for leg in pairwise(m.points)
    ]


def test_no_dimension_line_crosses_concrete(drawn):
    slab, _, sheets = drawn
    for sheet in (s for s in sheets if s.view):
        inside = sheet.view.shape(slab.outline.polygon).buffer(-0.3)
        crossing = [line.intersection(inside).length for line in dimension_lines(sheet)]
        assert max(crossing) < 1.6  # half the tick at a face that the string ends on


def test_no_line_runs_through_the_void_from_one_side_of_it_to_the_other(drawn):
    """What is farther than 42 mm of paper from the slab is empty: a string stands beside what it measures."""
    slab, _, sheets = drawn
    for sheet in (s for s in sheets if s.view):
        near = sheet.view.shape(slab.outline.polygon).buffer(42.0)
        x0, y0, x1, y1 = near.bounds
        for line in dimension_lines(sheet):
            off = line.intersection(shapely.box(x0, y0, x1, y1)).difference(near)
            assert off.length < 1e-6


def test_sheets_with_strings_in_notches_are_clean(drawn):
    assert_clean(drawn[2])


def strings_of(slab, layout):
    base = baselines(slab)
    along, across = stations(slab, layout, base)
    scale = 48.0
    outline = shapely.affinity.scale(slab.outline.polygon, 1 / scale, 1 / scale, origin=(0, 0))
    shown = Shown(outline, outline.bounds, (0.0, 0.0), scale)
    return dimension_strings(shown, along, across)


@pytest.mark.parametrize("name", OUTLINES)
def test_every_chain_goes_from_end_to_end_of_its_edge(name):
    slab = slab_named(name)
    for string in strings_of(slab, gridded(slab)):
        offsets = [s.offset / 48.0 for s in string.stations]
        assert offsets == sorted(offsets)
        assert offsets[0] == pytest.approx(string.stretch.low, abs=0.4)
        assert offsets[-1] == pytest.approx(string.stretch.high, abs=0.4)


@pytest.mark.parametrize("name", OUTLINES)
def test_a_string_holds_only_what_reaches_its_edge_and_every_joint_stands_on_one(name):
    slab = slab_named(name)
    layout = gridded(slab)
    held = set()
    for string in strings_of(slab, layout):
        if string.running:
            continue
        edge = string.side.level * 48.0
        for station in string.stations:
            ends = [v for span in station.spans for v in span]
            assert not ends or min(abs(v - edge) for v in ends) <= 40.0
    for string in strings_of(slab, layout):
        held |= {(string.side.upright, round(s.offset)) for s in string.stations}
    for joint in layout.joints:
        (x0, y0), (x1, _) = joint.path
        upright = abs(x0 - x1) < 1.0
        assert (not upright, round(x0 if upright else y0)) in held


def test_the_strings_of_a_part_tell_nothing_of_joints_on_other_parts():
    """Of two halves side by side the right one has joints of its own across, in the same stretch of the left edge."""
    slab = Slab(outline=Ring(feet((0, 0), (80, 0), (80, 40), (0, 40))), thickness=100.0)
    lines = [((40, 0), (40, 40)), ((10, 20), (30, 20)), ((50, 12), (80, 12)), ((50, 28), (70, 28))]
    joints = [(JointKind.CONTROL, Reason.SPAN, feet(*line)) for line in lines]
    along, across = stations(slab, layout_of(slab, joints), baselines(slab))
    for part, own in ((shapely.box(0, 0, 40, 40), {20}), (shapely.box(40, 0, 80, 40), {12, 28})):
        drawn = shapely.affinity.scale(part, 304.8 / 48, 304.8 / 48, origin=(0, 0))
        found = dimension_strings(Shown(drawn, drawn.bounds, (0.0, 0.0), 48.0), along, across)
        upright = [station for s in found if s.side.upright for station in s.stations]
        assert {round(station.offset / 304.8) for station in upright} == {0, 40} | own


def test_equal_bays_are_told_as_one_and_their_sum_is_true(drawn):
    words = [t.text for s in drawn[2] for t in s.texts if " @ " in t.text]
    for text in words:
        count, one, total = re.fullmatch(r"(\d+) @ (.+) = (.+)", text).groups()
        each, whole = parse_length(one, Unit.IN), parse_length(total, Unit.IN)
        assert int(count) * each == pytest.approx(whole, abs=1e-6)


def test_a_surveyed_outline_is_dimensioned_by_the_lines_that_were_meant():
    """Corners a few mm off a rectangle of 12 x 7.2 m, between them points on its sides: 0 and the far edge alone."""
    points = (
        (0, 2), (4000, -3), (8003, 1), (12004, 0), (11998, 3600), (12001, 7203), (6000, 7198), (-2, 7200),
        (3, 3000),
    )  # fmt: skip
    slab = Slab(outline=Ring(tuple((float(x), float(y)) for x, y in points)), thickness=100.0)
    layout = layout_of(slab, [])
    along, across = stations(slab, layout, baselines(slab))
    assert [s.offset for s in along] == pytest.approx([0.0, 12000.0], abs=8.0)
    assert [s.offset for s in across] == pytest.approx([0.0, 7200.0], abs=8.0)
    assert 1.0 < departure(slab, layout, baselines(slab)) < 10.0


def test_a_curve_tells_its_radius_and_centre_once_each():
    """A walk 5 ft wide round a quarter of a circle: radii of 15 and 20 ft about one centre, 20 ft right and up."""
    slab = walk()
    layout = gridded(slab)
    sheets = joint_plan(Job(name="S", units=Unit.FT, slab=slab), layout, (), RULES)
    words = [t.text for s in sheets for t in s.texts if " = " in t.text and t.text.startswith("R")]
    assert sorted(w.split(" = ")[1].split(",")[0] for w in words) == ["15'-0\"", "20'-0\""]
    centres = {w.partition(", ")[2] for w in words} - {""}
    assert centres == {"centre 20'-0\" right, 20'-0\" up"}


def test_a_surveyed_edge_says_once_how_far_it_lies_off_its_dimensions():
    points = ((0.0, 2.0), (12004.0, 0.0), (11996.0, 7203.0), (-2.0, 7196.0))
    slab = Slab(outline=Ring(points), thickness=100.0)
    sheets = joint_plan(Job(name="S", units=Unit.M, slab=slab), layout_of(slab, []), (), RULES)
    words = " ".join(t.text for s in sheets for t in s.texts)
    assert words.count("off the lines that are dimensioned") == 1
