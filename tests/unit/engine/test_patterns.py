"""Patterns that the user wishes for: held inside the area, legal along its border, priced in words."""

import itertools
import math

import pytest

from kerfline.checks.check import check
from kerfline.engine import bending, patterns
from kerfline.engine.lay_out import lay_out
from kerfline.engine.patterns import MOST_SQUARES, too_fine
from kerfline.geometry.tolerance import MEASURE
from kerfline.model.finding import Severity
from kerfline.model.slab import Pattern, PatternKind
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.units import Display
from unit.engine.slabs import feet, ring, slab

RULES = SlabRules(rule_set=load("floor"))
HALL = ((0, 0), (44, 0), (44, 30), (0, 30))


def hall_with(kind, **more):
    area = ring((12, 0), (44, 0), (44, 30), (12, 30))
    return slab(*HALL, patterns=(Pattern(id="A1", area=area, kind=kind, **more),))


def angles_inside(layout):
    """Directions modulo 90 degrees of the stretches of joint in the area, to a tenth of a degree."""
    border = feet((12, 0))[0][0]
    return {
        round(math.degrees(math.atan2(y1 - y0, x1 - x0)) % 90, 1)
        for joint in layout.joints
        for (x0, y0), (x1, y1) in itertools.pairwise(joint.path)
        if max(x0, x1) > border + 1.0
    }


@pytest.mark.parametrize(
    ("kind", "more"),
    [
        (PatternKind.SQUARE, {}),
        (PatternKind.DIAGONAL, {}),
        (PatternKind.ALIGNED, {"along": feet((0, 0), (10, 3))}),
    ],
)
def test_pattern_keeps_the_span_and_says_what_it_costs(kind, more):
    layout = lay_out(hall_with(kind, **more), RULES)
    assert max(p.length for p in layout.panels) <= 1.05 * layout.limits.span + MEASURE
    assert min(p.width for p in layout.panels) >= layout.limits.width
    assert sum(p.area for p in layout.panels) == pytest.approx(
        math.prod(feet((44, 30))[0]), rel=1e-6
    )
    assert any(note.startswith("Pattern A1 takes") for note in layout.notes)


def test_diagonal_pattern_runs_at_45_degrees():
    assert 45.0 in angles_inside(lay_out(hall_with(PatternKind.DIAGONAL), RULES))


def test_aligned_pattern_runs_along_its_line():
    layout = lay_out(hall_with(PatternKind.ALIGNED, along=feet((0, 0), (10, 3))), RULES)
    assert round(math.degrees(math.atan2(3, 10)), 1) in angles_inside(layout)


def test_square_pattern_has_equal_squares_of_the_wished_spacing():
    layout = lay_out(hall_with(PatternKind.SQUARE, spacing=feet((8, 0))[0][0]), RULES)
    eights = [p for p in layout.panels if p.length == pytest.approx(feet((8, 0))[0][0], abs=1.0)]
    assert len(eights) >= 8


@pytest.mark.parametrize(("width", "depth"), [(3700, 3700), (3700, 12), (700, 200)])
def test_pattern_on_too_large_an_area_is_given_up_in_a_sentence(width, depth):
    area = ring((0, 0), (width, 0), (width, depth), (0, depth))
    wish = Pattern(id="A1", area=area, kind=PatternKind.DIAGONAL)
    assert too_fine(wish, area.polygon, 3048.0).startswith("Pattern A1 is given up: its area")


@pytest.mark.parametrize("kind", list(PatternKind))
@pytest.mark.parametrize(("more", "given_up"), [(0.99, False), (1.01, True)])
def test_pattern_is_given_up_beyond_its_number_of_squares(kind, more, given_up):
    side = more * math.sqrt(MOST_SQUARES[kind])
    area = ring((0, 0), (20 * side, 0), (20 * side, 20 * side), (0, 20 * side))
    wish = Pattern(id="A1", area=area, kind=kind, spacing=20 * 304.8, along=feet((0, 0), (1, 0)))
    assert bool(too_fine(wish, area.polygon, 20 * 304.8)) is given_up


def test_slab_whose_pattern_is_given_up_is_laid_out_without_and_says_so():
    corners = ((0, 0), (440, 0), (440, 100), (0, 100))
    wish = Pattern(id="A1", area=ring(*corners), kind=PatternKind.DIAGONAL)
    layout = lay_out(slab(*corners, patterns=(wish,)), RULES)
    plain = lay_out(slab(*corners), RULES)
    assert layout.joints == plain.joints
    (note,) = (n for n in layout.notes if "A1" in n)
    assert "would take about 1,348 squares, and 1,300 are the most" in note


def test_a_pattern_that_finds_no_layout_is_told(monkeypatch):
    monkeypatch.setattr("kerfline.engine.general.patterned", lambda *_: None)
    layout = lay_out(hall_with(PatternKind.DIAGONAL), RULES)
    assert any("is given up on a part of its area" in note for note in layout.notes)


def test_each_panel_is_measured_once_while_joints_are_bent(monkeypatch):
    """Bending the joints of a diagonal grid tries dozens of layouts that differ in a few panels."""
    seen = []
    measured = bending.shape_of

    def watched(panel, angle, knees):
        seen.append((panel.wkb, tuple(knees)))
        return measured(panel, angle, knees)

    monkeypatch.setattr(bending, "shape_of", watched)
    whole = []
    bent = patterns.bent
    monkeypatch.setattr(
        patterns, "bent", lambda *given: (seen.clear(), bent(*given), whole.append(list(seen)))[1]
    )
    layout = lay_out(hall_with(PatternKind.DIAGONAL), RULES)
    assert any(len(j.path) > 2 for j in layout.joints)
    assert whole
    for once in whole:
        assert len(once) == len(set(once))
        assert len(once) < 12 * len(layout.panels)


def test_squares_that_could_not_be_bent_are_given_up_where_that_breaks_fewer_rules(monkeypatch):
    """A triangle in squares at 45 degrees: along its sides some come to a point, and other panels do not."""
    triangle = ((0, 0), (34, 0), (0, 28))
    wish = Pattern(id="A1", area=ring(*triangle), kind=PatternKind.DIAGONAL)
    given = slab(*triangle, patterns=(wish,))
    again = errors(given)
    monkeypatch.setattr(patterns, "TRIES", 1)
    assert again < errors(given)


def errors(given):
    found = check(given, lay_out(given, RULES), RULES, Display.FEET_INCHES)
    return sum(f.severity is Severity.ERROR for f in found)


def test_small_squares_inside_are_panels_and_none_of_them_two():
    """Of squares of 3 ft a panel of 10 ft would hold nine."""
    area = ring((0, 0), (12, 0), (12, 9), (0, 9))
    wish = Pattern(id="A1", area=area, kind=PatternKind.SQUARE, spacing=feet((3, 0))[0][0])
    found = lay_out(slab((0, 0), (12, 0), (12, 9), (0, 9), patterns=(wish,)), RULES)
    assert len(found.panels) == 12
