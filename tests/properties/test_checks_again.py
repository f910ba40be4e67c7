"""What is checked again after a change, and what is kept, is together what the whole check finds."""

import contextlib
import tempfile
from pathlib import Path
from typing import Any

import pytest
import shapely
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from kerfline.app.live import measured
from kerfline.app.outcome import Outcome
from kerfline.app.working import Working
from kerfline.errors import InputRefused
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


def hold(text: str, said: list[dict[str, Any]]) -> int:
    """Does what is said, each step measured from the one before and anew; how many panels were kept."""
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
            kept += len({id(p) for p in outcome.layout.panels} & _own(shown.outcome))
            shown = Shown(outcome, again)
    return kept


def _done(desk: Desk, working: Working, action: dict[str, Any]) -> Working:
    """The state after an action, where the page could measure it."""
    after = apply(read_action(named(action, working)), working)
    measured(desk.disk.base, after)
    return after


def _own(outcome: Outcome) -> set[int]:
    return {id(panel) for panel in outcome.layout.panels}


def test_a_joint_that_moves_leaves_the_far_panels_as_they_were() -> None:
    """Nothing is proven about what is kept where nothing is kept."""
    moves = [{"do": "slide", "id": "J1", "by": [step * FT, 0.0]} for step in (1, -2, 0.5)]
    assert hold(floor(curved=False), moves) == 3 * (BAYS - 2) * BAYS


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
    hold(text, said)


@pytest.mark.long
@settings(max_examples=1500, deadline=None, suppress_health_check=list(HealthCheck))
@given(floors, sequences)
def test_checked_again_is_checked_anew_long(text: str, said: list[dict[str, Any]]) -> None:
    hold(text, said)
