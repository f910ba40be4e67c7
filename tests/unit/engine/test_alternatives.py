"""A choice of layouts along the trade-offs."""

from kerfline.engine.alternatives import alternatives
from kerfline.engine.options import EngineOptions
from unit.engine.plans import EL, RULES, box, ring, slab, wall


def offered(given, count=6):
    return alternatives(given, RULES, EngineOptions(), count)


def test_the_first_is_the_best_and_all_differ():
    found = offered(slab(EL))
    assert found[0].name.startswith("best overall")
    shapes = [tuple(j.path for j in a.layout.joints) for a in found]
    assert len(set(shapes)) == len(shapes) >= 3


def test_each_is_the_best_of_all_at_what_it_is_named_for():
    found = offered(slab(EL))
    lengths = {a.name: a.layout.joint_length for a in found}
    shortest = next(name for name in lengths if "fewest feet of joint" in name)
    assert lengths[shortest] == min(lengths.values())
    finest = next(a.layout for a in found if "smallest panels" in a.name)
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
