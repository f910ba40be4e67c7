"""A choice of layouts along the trade-offs."""

import pytest

from kerfline.engine.alternatives import _apart, _is_outdone, alternatives
from kerfline.engine.options import EngineOptions
from unit.engine.plans import EL, RULES, box, ring, slab, wall


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
