"""A choice of layouts along the trade-offs."""

from dataclasses import replace

import pytest
from shapely import LineString
from shapely import box as mm_box

from kerfline.engine.alternatives import (
    FINE,
    LEANINGS,
    PAIRS,
    Leaning,
    Made,
    _apart,
    _both,
    _is_outdone,
    _leaning_options,
    _lies_between_equals,
    _named,
    _rules_broken,
    alternatives,
)
from kerfline.engine.options import EngineOptions
from kerfline.geometry.faces import faces
from kerfline.model.layout import Panel, WorkingLimits
from unit.engine.plans import EL, MM_PER_FOOT, RULES, box, feet, layout, ring, slab, wall


def offered(given, count=6):
    return alternatives(given, RULES, EngineOptions(), count)


def test_the_first_is_the_best_and_all_differ():
    found = offered(slab(EL))
    assert found[0].name.startswith("best overall")
    shapes = [tuple(j.path for j in a.layout.joints) for a in found]
    assert len(set(shapes)) == len(shapes) >= 3


def test_a_corner_floor_has_six_and_each_its_own_name():
    found = offered(slab(EL))
    assert len({a.name for a in found}) == len(found) == 6


@pytest.mark.parametrize(
    ("measures", "left"),
    [
        ([(1, 3), (2, 2), (3, 1)], [0, 1, 2]),
        ([(1, 1), (2, 2)], [0]),
        ([(0, 3), (1, 1), (1, 1), (3, 0)], [0, 1, 3]),
        ([(1, 1), (1, 2)], [0]),
    ],
)
def test_what_another_equals_or_betters_at_everything_is_no_choice(measures, left):
    assert [n for n in range(len(measures)) if not _is_outdone(measures, n)] == left


def test_names_that_are_alike_are_numbered():
    assert [_apart("even", ()), _apart("even", ("even",)), _apart("even", ("even", "even"))] == [
        "even",
        "even 2",
        "even 3",
    ]


def test_each_is_the_best_of_all_at_what_it_is_named_for():
    found = offered(slab(EL))
    lengths = {a.name: a.layout.joint_length for a in found}
    shortest = next(name for name in lengths if "fewest feet of joint" in name)
    assert lengths[shortest] == min(lengths.values())
    finest = next(a.layout for a in found if "smallest panels" in a.name.split(", "))
    assert max(p.length for p in finest.panels) <= 0.75 * 1.05 * RULES.working(101.6).span + 0.5
    assert len(finest.panels) == max(len(a.layout.panels) for a in found)


def test_no_more_are_given_than_there_are_or_were_asked_for():
    assert len(offered(slab(EL), count=2)) <= 2
    assert len(offered(slab(box(6, 6)), count=6)) == 1


def test_as_many_are_given_as_were_asked_for_where_trade_offs_lead_to_the_same_layout():
    corners = ring((0, 0), (40, 0), (40, 24), (24, 24), (24, 30), (0, 30))
    given = slab(corners, walls=(wall("W1", (0, 12), (24, 12)),))
    assert [len(offered(given, count)) for count in (1, 2, 3)] == [1, 2, 3]


def test_all_keep_the_joint_under_the_wall():
    given = slab(box(30, 20), walls=(wall("W1", (0, 9), (30, 9)),))
    assert all(not a.layout.walls_left for a in offered(given))


def test_none_leaves_a_wall_bare_that_has_its_joint_in_the_best():
    """Walls 3 in out of line: the squarest panels would leave one of them without a joint."""
    walls = (
        wall("W1", (0, 14), (20, 14)),
        wall("W2", (20, 14.25), (40, 14.25)),
        wall("W3", (18, 0), (18, 14)),
        wall("W4", (18.25, 14.25), (18.25, 28)),
    )
    found = offered(slab(box(40, 28), walls=walls))
    assert len(found) >= 4
    assert all(a.layout.walls_left.keys() <= found[0].layout.walls_left.keys() for a in found)


def test_none_breaks_a_rule_that_the_best_keeps():
    """A walk of 60 x 3 ft: the fewest chalk lines alone would be panels of more than one and a half times their width."""
    found = offered(slab(box(60, 3)))
    assert len(found) >= 5
    assert max(p.aspect for a in found for p in a.layout.panels) <= 1.5 + 1e-6


@pytest.mark.parametrize(
    ("high", "broken"),
    [(2000.0, 0), (1333.0, 1), (599.0, 2)],
)
def test_rules_on_the_aspect_and_the_width_are_counted_and_that_of_the_span_is_not(high, broken):
    limits = WorkingLimits(span=1500.0, aspect=1.5, width=600.0, angle=60.0)
    given = slab(box(6, 6))
    made = layout(given)
    panel = replace(made.panels[0], polygon=mm_box(0, 0, 2000, high))
    assert _rules_broken(given, replace(made, panels=(panel,)), limits) == broken


def test_two_trade_offs_at_a_time_change_what_each_changes_and_twice_what_both_do():
    """A tee weighs 5 by default: one asks 10, the other 20, both 40."""
    one = Leaning(name="few", measure=len, weights={"tee": 10.0, "line": 2.0}, span_share=0.5)
    two = Leaning(name="calm", measure=len, weights={"tee": 20.0, "square": 3.0}, span_share=0.8)
    pair = _both(one, two)
    assert pair.name == "few and calm"
    assert pair.weights == {"tee": 40.0, "line": 2.0, "square": 3.0}
    assert pair.span_share == pytest.approx(0.4)
    assert _both(two, one).weights == pair.weights


def test_pairs_are_of_single_trade_offs_and_each_has_its_own_name():
    names = {each.name for each in LEANINGS}
    assert all(set(pair.name.split(" and ")) <= names for pair in PAIRS)
    assert len({pair.name for pair in PAIRS}) == len(PAIRS)


SHORT = Leaning(name="short", measure=lambda _, pair: pair[0])
FEW = Leaning(name="few", measure=lambda _, pair: pair[1])


@pytest.mark.parametrize(
    ("made", "names"),
    [
        ([((5, 5), None)], ["best overall, short, few"]),
        ([((5, 5), None), ((4, 6), SHORT)], ["best overall, few", "short"]),
        ([((5, 5), None), ((5, 4), SHORT)], ["best overall, short", "few"]),
        ([((5, 5), None), ((5, 5), FEW)], ["best overall, short, few"]),
        ([((5, 5), None), ((6, 6), FEW)], ["best overall, short, few"]),
        (
            [((5, 5), None), ((3, 9), SHORT), ((4, 6), SHORT), ((9, 3), FEW)],
            ["best overall", "short", "towards short", "few"],
        ),
        (
            [((8, 8), None), ((3, 9), SHORT), ((4, 7), FEW), ((5, 6), FEW), ((9, 3), FEW)],
            ["best overall", "short", "towards few", "towards few 2", "few"],
        ),
    ],
)
def test_each_layout_is_named_for_what_it_is_best_at_and_others_for_what_they_lean_to(made, names):
    found = [Made(layout=pair, leaning=leaning) for pair, leaning in made]
    named = _named(slab(EL), found, [SHORT, FEW])
    assert [a.name for a in named] == names
    assert named[0].layout == made[0][0]


def leaning_of(name):
    return next(each for each in LEANINGS if each.name == name)


@pytest.mark.parametrize(
    ("strength", "line", "tee"),
    [(1.0, 20.0, 10.0), (2.0, 400.0, 20.0), (0.5, 20.0**0.5, 5.0 * 2**0.5)],
)
def test_a_trade_off_raises_its_weights_by_so_many_times(strength, line, tee):
    """A chalk line weighs 1 and a tee 5 by default; the layout of the fewest lines asks 20 and 10."""
    made = _leaning_options(EngineOptions(), leaning_of("fewest chalk lines"), strength)
    assert made.weights == pytest.approx({"line": line, "tee": tee})
    assert made.span_share == 1.0


def test_the_users_own_weights_hold_beside_those_of_a_trade_off_and_are_scaled_by_it():
    """The user's 3 for a line is raised by the same 20 times; the square one is none of its business."""
    given = EngineOptions(weights={"line": 3.0, "square": 7.0}, span_share=0.9)
    made = _leaning_options(given, leaning_of("fewest chalk lines"), 1.0)
    assert made.weights == pytest.approx({"line": 60.0, "tee": 10.0, "square": 7.0})
    assert made.span_share == 0.9


@pytest.mark.parametrize(
    ("strength", "power"), [(0.5, 0.5), (1.0, 1.0), (1.5, 1.5), (1.6, 1.6), (2.0, 1.6)]
)
def test_panels_are_made_smaller_by_strength_but_not_under_six_tenths_of_the_span(strength, power):
    given = EngineOptions(span_share=0.8)
    made = _leaning_options(given, leaning_of("smallest panels"), strength)
    assert made.span_share == pytest.approx(0.8 * FINE**power)
    assert made.weights == {}


def test_trade_offs_are_measured_on_the_joints_and_panels():
    """20 x 30 ft in six squares of 10 ft, one joint of 30 and two of 20 ft.

    Under the wall of 4 1/2 in lie the 30 ft along it and twice its thickness of those that cross it.
    """
    given = slab(box(20, 30), walls=(wall("W1", (10, 0), (10, 30)),))
    found = layout(given)
    told = {each.name: each.measure(given, found) for each in LEANINGS}
    foot = MM_PER_FOOT
    assert told == {
        "fewest feet of joint": round(70 * foot),
        "fewest chalk lines": 3,
        "smallest panels": round(100 * foot**2),
        "most joint under walls": -round(30 * foot + 2 * 114.3),
        "squarest panels": 1.0,
        "fewest tee ends": 0,
        "most even panels": 0.0,
    }


def test_tees_and_unlike_panels_are_counted():
    """20 x 20 ft in a panel of 10 x 20 ft and two of 10 x 10: one joint ends on the other."""
    given = slab(box(20, 20))
    cuts = [LineString(feet(*path)) for path in (((10, 0), (10, 20)), ((10, 10), (20, 10)))]
    made = replace(
        layout(given),
        joints=tuple(
            replace(joint, path=tuple(cut.coords))
            for joint, cut in zip(layout(given).joints, cuts, strict=True)
        ),
        panels=tuple(
            Panel(id=f"P{n}", polygon=piece) for n, piece in enumerate(faces(given.concrete, cuts))
        ),
    )
    told = {each.name: each.measure(given, made) for each in LEANINGS}
    assert told["fewest tee ends"] == 1
    assert told["most even panels"] == pytest.approx(2**0.5 / 4, abs=5e-4)


@pytest.mark.parametrize(
    ("known", "strength", "between"),
    [
        ({0.0: "a", 1.0: "a"}, 0.5, True),
        ({0.0: "a", 1.0: "b"}, 0.5, False),
        ({0.0: "a", 0.5: "b", 1.0: "b"}, 0.75, True),
        ({0.0: "a", 0.5: "b", 1.0: "b"}, 0.25, False),
        ({0.0: "a", 1.0: "a"}, 2.0, False),
    ],
)
def test_what_lies_between_two_strengths_with_the_same_layout_is_not_tried(
    known, strength, between
):
    assert _lies_between_equals(known, strength) is between


def test_a_hall_of_even_bays_is_offered_in_several_sizes_of_bay():
    """36 x 26 ft in 4 x 3 bays: the next finer divisions are 5 x 3, 4 x 4 and 5 x 4. One trade-off at a time leads to five."""
    found = offered(slab(box(36, 26)))
    assert len(found) == 6
    assert {12, 15, 20} < {len(a.layout.panels) for a in found}
    assert len(found[0].layout.panels) == 12


def test_a_tapered_drive_has_six_too():
    found = offered(slab(ring((0, 0), (24, 0), (18, 50), (6, 50))))
    assert len({round(a.layout.joint_length) for a in found}) == len(found) == 6
