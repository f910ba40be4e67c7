"""Ties: what a crew tapes from lettered corners finds every slanting line again."""

import math
import re

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString

from kerfline.geometry.ring import Ring
from kerfline.model.job import Job, SheetChoice
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.baselines import baselines
from kerfline.sheets.cut.areas import named_area
from kerfline.sheets.cut.lines import Saw, cut_lines
from kerfline.sheets.cut.passes import passes_along
from kerfline.sheets.cut.sheet import cut_sheet
from kerfline.sheets.cut.words import cut_table
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.marks import Layer
from kerfline.sheets.paper import SIZES
from kerfline.sheets.tie_marks import READING
from kerfline.sheets.ties import AT_CORNER, ties
from kerfline.units import Display, Unit
from shapes import layout_of
from sheet_checks import assert_clean
from strategies import convex_plans

RULES = SlabRules(rule_set=load("floor"))
A_TAPE = 3.0
"""What a tape is read to (mm): 1/8 in."""


def slab_of(*points, openings=()):
    return Slab(outline=Ring(tuple(points)), thickness=100.0, openings=tuple(openings))


def laid(slab, *paths):
    return layout_of(slab, [(JointKind.CONTROL, Reason.SPAN, list(path)) for path in paths])


def ties_of(slab, *paths):
    lines = [(f"J{n}", LineString(path)) for n, path in enumerate(paths, 1)]
    return ties(slab.concrete, lines, baselines(slab))


def tapes(found):
    return [[(peg.letter, round(mm, 3)) for peg, mm in tie.tapes] for tie in found.points]


TRIANGLE = slab_of((0, 0), (4000, 0), (0, 3000))
HEXAGON = slab_of(
    *(
        (5500 * math.cos(math.radians(60 * k)), 5500 * math.sin(math.radians(60 * k)))
        for k in range(6)
    )
)


APOTHEM = 5500 * math.sqrt(3) / 2


def spoke(degrees, start=0.0, end=APOTHEM):
    way = (math.cos(math.radians(degrees)), math.sin(math.radians(degrees)))
    return [(start * way[0], start * way[1]), (end * way[0], end * way[1])]


SPOKES = (spoke(30, -APOTHEM), spoke(90, -APOTHEM), spoke(150, -APOTHEM))


def test_a_line_that_meets_the_slope_is_taped_along_it_from_a_corner():
    """Sides of 3, 4 and 5 m: 2 m up the slope from the corner at 4 m lies the point (2.4, 1.2)."""
    found = ties_of(TRIANGLE, [(2400, 1200), (1200, 0)])
    assert tapes(found) == [[("B", 2000.0)]]
    assert found.pegs[0].at == (4000.0, 0.0)


def test_ends_at_corners_and_on_the_running_dimensions_want_no_tape():
    found = ties_of(TRIANGLE, [(0, 0), (1920, 1440)], [(0, 1000), (1200, 0)])
    assert [tie.at for tie in found.points] == [(1920.0, 1440.0)]


def test_square_lines_are_held_by_the_running_dimensions():
    slab = slab_of((0, 0), (9000, 0), (9000, 6000), (0, 6000))
    assert ties_of(slab, [(3000, 0), (3000, 6000)], [(0, 3000), (9000, 3000)]).points == ()


def test_square_lines_want_tapes_where_no_edge_lies_on_the_baseline():
    """The left end of the hexagon is a corner: nothing can be squared off it."""
    found = ties_of(HEXAGON, [(1000, -APOTHEM), (1000, APOTHEM)])
    assert len(found.points) == 2
    assert all(len(tie.tapes) == 1 for tie in found.points)


def test_an_end_on_another_line_has_one_tape_that_does_not_only_touch_it():
    found = ties_of(HEXAGON, *SPOKES[:1], spoke(120, 0.0))
    inner = next(tie for tie in found.points if math.hypot(*tie.at) < 1.0)
    ((peg, length),) = inner.tapes
    lean = abs(peg.at[0] * math.cos(math.radians(30)) + peg.at[1] * math.sin(math.radians(30)))
    assert length == pytest.approx(5500.0)
    assert lean / length >= math.cos(math.radians(55))


def test_a_free_end_has_two_tapes_that_cross():
    found = ties_of(TRIANGLE, [(700, 500), (1920, 1440)])
    free = next(tie for tie in found.points if tie.at == (700.0, 500.0))
    (one, first), (other, second) = free.tapes
    assert math.dist(one.at, free.at) == pytest.approx(first)
    assert math.dist(other.at, free.at) == pytest.approx(second)


def test_the_knee_of_a_bent_line_is_taped_along_its_square_leg():
    slab = slab_of((0, 0), (9000, 0), (7000, 6000), (0, 6000))
    end = (8000.0, 3000.0)
    knee = (end[0] - 600 * 3 / math.sqrt(10), end[1] - 600 / math.sqrt(10))
    found = ties_of(slab, [(0, knee[1]), knee, end])
    assert [len(tie.tapes) for tie in found.points] == [1, 1]
    assert {tie.at for tie in found.points} == {knee, end}


def test_the_legs_of_a_bent_line_have_running_dimensions():
    slab = slab_of((0, 0), (9000, 0), (7000, 6000), (0, 6000))
    layout = laid(slab, [(0, 2800), (7400, 2800), (7952.4, 3142.8)])
    job = Job(name="Bent", units=Unit.MM, slab=slab)
    words = {t.text for s in cut_sheet(job, layout, RULES) for t in s.texts}
    assert "2800" in words


def test_an_end_on_a_round_opening_has_two_tapes():
    hole = Ring(((3000.0, 3000.0), (5000.0, 3000.0)), (1.0, 1.0))
    slab = slab_of((0, 0), (9000, 0), (9000, 6000), (0, 6000), openings=[hole])
    foot = (4000 + 1000 * math.cos(math.radians(30)), 3000 + 1000 * math.sin(math.radians(30)))
    found = ties_of(slab, [foot, (9000, foot[1] + (9000 - foot[0]) * math.tan(math.radians(30)))])
    assert [len(tie.tapes) for tie in found.points] == [2, 1]


def test_a_round_slab_has_no_corner_to_tape_from():
    slab = Slab(outline=Ring(((-5000.0, 0.0), (5000.0, 0.0)), (1.0, 1.0)), thickness=100.0)
    assert ties_of(slab, [(-3000, -4000), (3000, 4000)]).points == ()


def test_an_end_on_a_curve_is_taped_straight_from_the_nearer_corner():
    """A chord of 60 degrees is as long as the radius."""
    quarter = Ring(((0.0, 0.0), (6000.0, 0.0), (0.0, 6000.0)), (0.0, math.tan(math.pi / 8), 0.0))
    slab = Slab(outline=quarter, thickness=100.0)
    end = (6000 * math.cos(math.radians(60)), 6000 * math.sin(math.radians(60)))
    other = (6000 * math.cos(math.radians(20)), 6000 * math.sin(math.radians(20)))
    found = ties_of(slab, [(0, 0), end], [(0, 0), other])
    lengths = [mm for tie in found.points for _, mm in tie.tapes]
    assert lengths == pytest.approx(
        [2 * 6000 * math.sin(math.radians(15)), 2 * 6000 * math.sin(math.radians(10))]
    )


@settings(max_examples=25)
@given(convex_plans(), st.floats(5.0, 80.0))
def test_tapes_find_every_slanting_line_again(plan, degrees):
    """Held at its corner, the tape meets the edge, the line or the other tape where the line ends."""
    slab = Slab(outline=Ring.of(plan), thickness=100.0)
    x, y = slab.concrete.centroid.coords[0]
    way = (1e6 * math.cos(math.radians(degrees)), 1e6 * math.sin(math.radians(degrees)))
    whole = LineString([(x - way[0], y - way[1]), (x + way[0], y + way[1])])
    cut = whole.intersection(slab.concrete)
    branch = LineString([(x, y), (x - way[1], y + way[0])]).intersection(slab.concrete)
    found = ties_of(slab, cut.coords, branch.coords)
    base = baselines(slab)
    corners = shapely.MultiPoint(slab.outline.coordinates)
    for line in (cut, branch):
        for end in (line.coords[0], line.coords[-1]):
            tie = next((t for t in found.points if math.dist(t.at, end) < 1.0), None)
            u, v = base.local(end)
            known = (
                corners.distance(shapely.Point(end)) <= AT_CORNER
                or (base.corner and min(abs(u), abs(v)) <= 0.5)
                or _is_square(base, line)
            )
            assert tie or known
            if tie:
                _found_again(tie, slab, (cut, branch))


def _is_square(base, line):
    x0, y0, x1, y1 = base.line(line.coords).bounds
    return min(x1 - x0, y1 - y0) <= 6.0


def _found_again(tie, slab, lines):
    arcs = [shapely.Point(peg.at).buffer(mm, quad_segs=4096).boundary for peg, mm in tie.tapes]
    if len(arcs) == 2:
        places = arcs[0].intersection(arcs[1])
    else:
        others = [line for line in lines if line.boundary.distance(shapely.Point(tie.at)) > 1.0]
        places = arcs[0].intersection(shapely.union_all([slab.concrete.boundary, *others]))
    assert places.distance(shapely.Point(tie.at)) <= A_TAPE


@pytest.fixture(scope="module", params=sorted(SIZES))
def hexagon_sets(request):
    unit = Unit.FT if SIZES[request.param].display is Display.FEET_INCHES else Unit.MM
    job = Job(name="Six", units=unit, slab=HEXAGON, sheet=SheetChoice(size=request.param))
    layout = laid(HEXAGON, *SPOKES)
    return job, layout, cut_sheet(job, layout, RULES), joint_plan(job, layout, (), RULES)


def test_every_end_of_a_slanting_line_stands_on_the_plan(hexagon_sets):
    job, layout, *both = hexagon_sets
    lines = [(j.id, j.line) for j in layout.joints]
    wanted = len(ties(job.slab.concrete, lines, baselines(job.slab)).points)
    assert wanted == 6
    for sheets in both:
        assert_clean(sheets)
        shown = [t.ref for s in sheets for t in s.texts if t.ref.startswith("tie ")]
        assert len(shown) == wanted


def test_the_letters_that_are_named_stand_at_their_corners(hexagon_sets):
    job, _, *both = hexagon_sets
    for sheets in both:
        for sheet in sheets:
            named = {t.text.split()[0] for t in sheet.texts if t.ref.startswith("tie ")}
            letters = {
                t.text: t
                for t in sheet.texts
                if t.ref.startswith("corner ") and t.layer is Layer.SYMBOL
            }
            assert named <= set(letters)
            for letter in letters.values():
                at = sheet.view.to_world(letter.at)
                corner = min(job.slab.outline.points, key=lambda c: math.dist(c, at))
                assert math.dist(corner, at) / sheet.view.scale < 40.0


def test_the_sheets_say_how_ties_are_read(hexagon_sets):
    _, _, *both = hexagon_sets
    for sheets in both:
        words = " ".join(t.text for s in sheets for t in s.texts)
        assert READING[:40] in words.replace("  ", " ")
    assert "point A, where both" in " ".join(t.text for s in both[0] for t in s.texts)


def test_a_plan_without_slanting_lines_says_nothing_of_ties():
    slab = slab_of((0, 0), (9000, 0), (9000, 6000), (0, 6000))
    job = Job(name="Square", units=Unit.MM, slab=slab)
    sheets = cut_sheet(job, laid(slab, [(3000, 0), (3000, 6000)]), RULES)
    assert READING[:20] not in " ".join(t.text for s in sheets for t in s.texts)


def test_a_crowded_plan_is_drawn_larger_until_its_ties_find_room():
    """Every line leans by a hair, and half of them stop short of the edge: many tapes, little room."""
    slab = slab_of((0, 0), (18000, 0), (17900, 12000), (100, 12100))
    lean = 40.0
    paths = [
        *([(x, 0.0), (x + lean, 12000.0)] for x in range(1500, 17000, 1500)),
        *([(0.0, y), (18000.0, y + lean)] for y in range(1500, 11000, 1500)),
    ]
    inside = [LineString(path).intersection(slab.concrete).coords for path in paths]
    job = Job(name="Crowd", units=Unit.FT, slab=slab)
    sheets = cut_sheet(job, laid(slab, *inside), RULES)
    assert_clean(sheets)
    wanted = len(ties_of(slab, *inside).points)
    shown = {t.text for s in sheets for t in s.texts if t.ref.startswith("tie ")}
    assert wanted > 20
    assert len(shown) >= wanted - 4


def test_the_corners_of_a_named_area_carry_its_number():
    job = Job(name="Six", units=Unit.FT, slab=HEXAGON)
    layout = laid(HEXAGON, *SPOKES)
    half = HEXAGON.concrete.intersection(shapely.box(-6000, 0, 6000, 6000))
    passes = passes_along(layout, baselines(HEXAGON))
    area = named_area("2", "north half", half, passes)
    sheets = cut_sheet(job, layout, RULES, area=area)
    named = {t.text.split()[0] for s in sheets for t in s.texts if t.ref.startswith("tie ")}
    assert named
    assert all(re.fullmatch(r"[A-Z]+2", letter) for letter in named)


def test_a_bent_cut_says_in_the_table_where_it_bends():
    slab = slab_of((0, 0), (9000, 0), (7000, 6000), (0, 6000))
    job = Job(name="Bent", units=Unit.MM, slab=slab)
    layout = laid(slab, [(0, 2800), (7400, 2800), (7952.4, 3142.8)])
    base = baselines(slab)
    table = cut_table(job, cut_lines(job, passes_along(layout, base), base), Saw.usual(job), 2.5)
    row = [cell.replace("\u00a0", " ") for cell in table.rows[0]]
    assert row[2] == "bent"
    assert "bends at 7400 right, 2800 up" in row[9]


@pytest.mark.parametrize(("out", "word"), [(18.0, "3009 right"), (20.0, "slanting")])
def test_a_line_is_square_where_one_mark_holds_it_within_half_of_3_4_in(out, word):
    slab = slab_of((0, 0), (9000, 0), (9000, 30000), (0, 30000))
    job = Job(name="Lean", units=Unit.MM, slab=slab)
    base = baselines(slab)
    layout = laid(slab, [(3000, 0), (3000 + out, 30000)])
    table = cut_table(job, cut_lines(job, passes_along(layout, base), base), Saw.usual(job), 2.5)
    assert table.rows[0][2] == word


def test_offsets_are_not_said_to_start_at_a_corner_that_the_slab_has_not(hexagon_sets):
    words = " ".join(t.text for s in hexagon_sets[2] for t in s.texts)
    assert "offsets from point A" in words
    assert "corner A" not in words
