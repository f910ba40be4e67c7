"""Which walls only wish for a joint, and which of a crowd can have one."""

from dataclasses import replace

import pytest

from kerfline.engine.large.blocks import blocks
from kerfline.engine.options import EngineOptions
from kerfline.engine.regions import placing
from kerfline.engine.regions.frames import regions_of
from kerfline.engine.regions.walls import DOORWAY, short_walls, why_left, without_crowd
from kerfline.units import MM_PER_FOOT
from unit.engine.plans import RULES, all_settled, box, layout, slab, wall

SPAN = 10 * MM_PER_FOOT
DOOR = DOORWAY / MM_PER_FOOT


def test_half_a_span_is_long_enough_and_less_is_not():
    walls = [wall("long", (0, 0), (5, 0)), wall("short", (0, 8), (4.9, 8))]
    assert short_walls(walls, SPAN) == {"short"}


@pytest.mark.parametrize(
    ("start", "end", "short"),
    [
        ((3 + DOOR - 0.1, 0), (5.5 + DOOR, 0), set()),
        ((3 + DOOR + 0.1, 0), (5.7 + DOOR, 0), {"A", "B"}),
        ((4, 1), (6.5, 1), {"A", "B"}),
        ((4, 0), (4, 2.5), {"A", "B"}),
    ],
    ids=["a doorway apart", "farther apart", "out of line", "square to it"],
)
def test_pieces_in_line_with_a_doorway_between_them_are_one_wall(start, end, short):
    assert short_walls([wall("A", (0, 0), (3, 0)), wall("B", start, end)], SPAN) == short


ROWS = [
    wall(f"W{n}", (1 + 0.2 * (n % 5), 0.4 + 0.4 * n), (28 - 0.1 * n, 0.4 + 0.4 * n))
    for n in range(48)
]
"""Walls 0.4 ft apart, five times closer than the least width of a panel allows; the first are the longest."""


def region_of(walls):
    return regions_of(slab(box(30, 20), walls=tuple(walls)), RULES, EngineOptions())[0].region


def test_walls_keep_their_joints_while_there_is_room():
    roomy = region_of(ROWS[:3])
    assert without_crowd(roomy) == (roomy, {})


def test_the_longest_walls_are_held_and_the_others_told():
    region = region_of(ROWS)
    kept, left = without_crowd(region)
    names = {w.id for w in kept.walls}
    assert names | set(left) == {w.id for w in ROWS}
    assert not names & set(left)
    most = region.concrete.area / region.working.width
    assert sum(w.line.length for w in kept.walls) <= most
    shortest = min(w.line.length for w in kept.walls)
    longest = max(w.line.length for w in region.walls if w.id in left)
    assert shortest >= longest - 0.5
    assert sum(w.line.length for w in kept.walls) + longest > most


@pytest.mark.parametrize("joints", [False, True])
def test_a_layout_says_which_walls_had_no_room(joints):
    found = layout(slab(box(30, 20), walls=tuple(ROWS)))
    told = [name for name, why in found.walls_left.items() if "no room for panels" in why]
    assert bool(found.joints if joints else told)


def test_a_short_wall_aslant_is_a_wish_that_no_joint_is_settled_for():
    """Its joint would run on across the floor: a long one's does."""
    pier = wall("W1", (10, 8), (12, 9))
    long = wall("W1", (6, 6), (20, 13))
    none, one = (all_settled(region_of([w])) for w in (pier, long))
    assert not none.cuts
    assert "aslant" in none.walls_left["W1"]
    assert one.cuts
    forced = replace(region_of([pier]), wishes=frozenset())
    assert all_settled(forced).cuts


def test_work_on_walls_grows_with_their_number_alone(monkeypatch):
    """What is looked at for a block of a large floor does not grow with the walls elsewhere."""
    seen = []
    within = placing._within
    monkeypatch.setattr(placing, "_within", lambda *given: seen.append(1) or within(*given))
    walls = [wall(f"W{n}", (5 + 10 * n, 4), (14 + 10 * n, 4)) for n in range(60)]
    region = regions_of(slab(box(620, 40), walls=tuple(walls)), RULES, EngineOptions())[0].region
    parts = list(blocks(region, ([z * 304.8 for z in range(31, 620, 31)], [])))
    assert len(parts) == 20
    assert sum(len(p.walls) for p in parts) >= 60
    assert len(seen) < 4 * len(walls)


def test_a_bearing_wall_without_a_joint_beside_it_is_told_so():
    bearing = wall("W1", (10, 5), (10, 15), bearing=True, strip_width=600.0)
    assert why_left(region_of([bearing]), bearing) == (
        "no joint fits beside its strip within the limits"
    )
