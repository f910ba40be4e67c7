"""What is checked again after a change, and what is kept, is together what the whole check finds."""

import contextlib
import random
import tempfile
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import shapely
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from kerfline.app.live import measured
from kerfline.app.outcome import Outcome
from kerfline.app.working import DrawnJoint, Working
from kerfline.errors import InputRefused
from kerfline.geometry.ring import Ring
from kerfline.web.acting import apply
from kerfline.web.actions import read_action
from kerfline.web.desk import Desk
from kerfline.web.picture import Shown, picture
from kerfline.web.wire import read_state
from page_actions import named, sequences, texts
from paged import FT, house

BAYS = 5
"""Bays each way of the floor that has more than a house, so that most of it stays as it is."""

CURVED = """
[[column]]
at = [20, 20]
boxout = "circle"
size = "3 ft"

[[column]]
at = [30, 30]
boxout = "diamond"
size = "2 ft"
"""


def floor(*, curved: bool) -> str:
    """The job of a floor of even bays of 10 ft; curved with a round end and with columns on its joints."""
    lines = [((10 * k, 0), (10 * k, 50)) for k in range(1, BAYS)]
    lines += [((0, 10 * k), (50, 10 * k)) for k in range(1, BAYS)]
    joints = "".join(
        f'[[joint]]\nid = "J{n}"\npath = {[list(p) for p in line]}\nreason = "span"\nnote = "even bays"\n'
        for n, line in enumerate(lines, 1)
    )
    end = "[50, 0, 0.2]" if curved else "[50, 0]"
    return (
        f'[job]\nname = "Floor"\nunits = "ft"\n[slab]\nthickness = "4 in"\n'
        f"outline = [[0, 0], {end}, [50, 50], [0, 50]]\n"
        f'{CURVED if curved else ""}[rules]\nset = "floor"\n{joints}'
    )


def seen(outcome: Outcome) -> tuple[Any, ...]:
    """All that anybody is told of a layout that was held against the rules, to the last bit."""
    panels = [(p.id, shapely.to_wkb(p.polygon)) for p in outcome.layout.panels]
    return outcome.findings, panels, outcome.layout.joints, picture(outcome)


def net(outcome: Outcome) -> tuple[list[Any], list[Any]]:
    """Where joints and edges meet: every piece with its owner, every node with its arms, in order of place."""
    assert outcome.held
    found = outcome.held.measures.net
    pieces = zip(shapely.to_wkb(list(found.pieces)), found.owners, strict=True)
    nodes = [
        (node.at, [(arm.joint, arm.way, shapely.to_wkb(arm.piece)) for arm in node.arms])
        for node in found.nodes
    ]
    return sorted(pieces), sorted(nodes)


def hold(text: str, said: list[dict[str, Any]], *, whole: bool = True) -> int:
    """Does what is said, each step measured from the one before and anew; how many pieces of concrete were kept.

    Args:
        text: A job file.
        said: Actions of the page.
        whole: Whether the net too must be the same to the last bit, and not only what is said of it. Where a
            ring of edges is begun to be drawn an edge may be parted, which no rule reads.
    """
    with tempfile.TemporaryDirectory() as folder:
        desk = Desk(house(Path(folder), text))
        working = read_state(desk.open({})["state"])
    outcome = measured(desk.disk.base, working)
    shown, kept = Shown(outcome, picture(outcome)), 0
    for action in said:
        with contextlib.suppress(InputRefused):
            working = _done(desk, working, action)
            outcome = measured(desk.disk.base, working, shown.outcome)
            again = picture(outcome, shown)
            assert seen(outcome) == seen(measured(desk.disk.base, working))
            assert again == picture(outcome)
            if whole:
                assert net(outcome) == net(measured(desk.disk.base, working))
            kept += len(_own(outcome) & _own(shown.outcome))
            shown = Shown(outcome, again)
    return kept


def _done(desk: Desk, working: Working, action: dict[str, Any]) -> Working:
    """The state after an action, where the page could measure it."""
    after = apply(read_action(named(action, working)), working)
    measured(desk.disk.base, after)
    return after


def _own(outcome: Outcome) -> set[int]:
    assert outcome.held
    return {id(face) for face in outcome.held.measures.parted.faces}


def test_a_joint_that_moves_leaves_the_far_panels_as_they_were() -> None:
    """Nothing is proven about what is kept where nothing is kept."""
    moves = [{"do": "slide", "id": "J1", "by": [step * FT, 0.0]} for step in (1, -2, 0.5)]
    assert hold(floor(curved=False), moves) == 3 * (BAYS - 2) * BAYS


def test_a_joint_aslant_leaves_the_far_panels_as_they_were() -> None:
    """Of 25 bays it crosses 6, drawn, moved and taken away; where it is cut off is rounded, aslant of everything."""
    moves = [
        {"do": "draw", "start": [3 * FT, 0], "end": [17 * FT, 50 * FT]},
        {"do": "slide", "id": ("joint", 8), "by": [400.0, 0.0]},
        {"do": "delete", "what": "joint", "id": ("joint", 8)},
    ]
    assert hold(floor(curved=False), moves) == 3 * (BAYS * BAYS - 6)


def test_a_side_that_moves_leaves_the_far_panels_as_they_were() -> None:
    """Each joint that ends on it becomes longer or shorter, and stays the joint that it was where it is crossed."""
    corner = {"do": "vertex", "what": "outline", "id": "0"}
    moves = [
        {**corner, "index": 1, "to": [51 * FT, 0.0]},
        {**corner, "index": 2, "to": [51 * FT, 50 * FT]},
        {**corner, "index": 2, "to": [49 * FT, 50 * FT]},
        {**corner, "index": 0, "to": [-1 * FT, 0.0]},
    ]
    assert hold(floor(curved=False), moves) >= 4 * (BAYS - 1) ** 2


@pytest.mark.parametrize("seed", range(4))
def test_joints_aslant_that_come_and_go(seed: int) -> None:
    """Where they are cut off is rounded to the grid, so that a piece beside one may miss it by a hair's breadth."""
    chance = random.Random(seed)

    def spot() -> list[float]:
        return [chance.uniform(1, 49) * FT, chance.uniform(1, 49) * FT]

    moves = [{"do": "draw", "start": spot(), "end": spot()} for _ in range(4)]
    moves += [{"do": "delete", "what": "joint", "id": ("joint", 8)} for _ in moves]
    assert hold(floor(curved=False), moves) > 0


def test_what_joints_are_called_is_read_anew_where_another_takes_a_place() -> None:
    """A joint that becomes longer is known by its line, not by its name; of two that begin alike none is known."""
    far = {
        "do": "add",
        "what": "opening",
        "points": [[42 * FT, 2 * FT], [44 * FT, 2 * FT], [44 * FT, 4 * FT]],
    }
    longer = {"do": "end", "id": "J9", "end": 1, "to": [20 * FT, 25 * FT]}
    moves = [
        {"do": "draw", "start": [0, 25 * FT], "end": [10 * FT, 25 * FT]},
        {"do": "many", "actions": [far, longer]},
        {"do": "draw", "start": [30 * FT, 25 * FT], "end": [50 * FT, 25 * FT]},
        {"do": "end", "id": ("joint", 8), "end": 1, "to": [30 * FT, 25 * FT]},
        {"do": "end", "id": ("joint", 8), "end": 1, "to": [10 * FT, 25 * FT]},
        {"do": "draw", "start": [10 * FT, 25 * FT], "end": [30 * FT, 25 * FT]},
        {"do": "draw", "start": [10 * FT, 25 * FT], "end": [20 * FT, 25 * FT]},
        {"do": "end", "id": ("joint", 11), "end": 1, "to": [30 * FT, 25 * FT]},
        {"do": "delete", "what": "joint", "id": ("joint", 8)},
    ]
    assert hold(floor(curved=False), moves) > 0


def test_the_same_concrete_with_its_arc_drawn_as_chords() -> None:
    """Nothing is cut anew, but a joint is held against the tangent of an arc and not against a chord of it."""
    with tempfile.TemporaryDirectory() as folder:
        desk = Desk(house(Path(folder), floor(curved=True)))
        working = read_state(desk.open({})["state"])
    (ax, ay), (bx, by) = working.slab.outline.coordinates[5:7]
    at = (0.9 * ax + 0.1 * bx, 0.9 * ay + 0.1 * by)
    lean = DrawnJoint(id="J1", path=((45 * FT, 0.0), at))
    arc = replace(working, slab=replace(working.slab, columns=()), joints=(lean,))
    outline = Ring(arc.slab.outline.coordinates)
    chords = replace(arc, slab=replace(arc.slab, outline=outline))
    assert arc.slab.concrete.equals_exact(chords.slab.concrete)
    for one, two in ((arc, chords), (chords, arc)):
        before = measured(desk.disk.base, one)
        after = measured(desk.disk.base, two, before)
        assert seen(after) == seen(measured(desk.disk.base, two))
        assert after.held.nodes.by.keys() == before.held.nodes.by.keys()
        assert after.findings != before.findings


def test_a_joint_that_comes_to_lie_on_another_and_leaves_it_again() -> None:
    """Equal lines change owners where one of them comes or goes."""
    moves = [
        {"do": "slide", "id": "J2", "by": [10 * FT, 0.0]},
        {"do": "slide", "id": "J3", "by": [3 * FT, 0.0]},
        {"do": "slide", "id": "J2", "by": [-10 * FT, 0.0]},
        {"do": "slide", "id": "J3", "by": [-3 * FT, 0.0]},
        {"do": "slide", "id": "J3", "by": [-10 * FT, 0.0]},
        {"do": "delete", "what": "joint", "id": "J2"},
        {"do": "delete", "what": "joint", "id": "J8"},
    ]
    assert hold(floor(curved=False), moves) > 0
    assert hold(floor(curved=True), moves) > 0


def test_what_a_rule_reads_beside_a_panel_or_a_joint_counts_too() -> None:
    """A tee end on an isolation joint is none; limits turn on the thickness, the zones and the rule set."""
    zone = [[1 * FT, 1 * FT], [19 * FT, 1 * FT], [19 * FT, 19 * FT], [1 * FT, 19 * FT]]
    moves = [
        {"do": "draw", "start": [5 * FT, 1 * FT], "end": [5 * FT, 9 * FT]},
        {"do": "kind", "id": "J5", "kind": "isolation"},
        {"do": "kind", "id": "J5", "kind": "control"},
        {"do": "thickness", "text": "3 in"},
        {"do": "thickness", "text": "4 in"},
        {"do": "add", "what": "zone", "points": zone},
        {"do": "set", "what": "zone", "id": "Z1", "field": "thickness", "value": "2 in"},
        {"do": "delete", "what": "zone", "id": "Z1"},
        {"do": "rules", "set": "parking", "to_maximum": True},
    ]
    assert hold(floor(curved=False), moves) > 0


floors = st.one_of(texts, st.booleans().map(lambda curved: floor(curved=curved)))


@settings(max_examples=5, deadline=None, suppress_health_check=list(HealthCheck))
@given(floors, sequences)
def test_checked_again_is_checked_anew(text: str, said: list[dict[str, Any]]) -> None:
    hold(text, said, whole=False)


@pytest.mark.long
@settings(max_examples=1500, deadline=None, suppress_health_check=list(HealthCheck))
@given(floors, sequences)
def test_checked_again_is_checked_anew_long(text: str, said: list[dict[str, Any]]) -> None:
    hold(text, said, whole=False)
