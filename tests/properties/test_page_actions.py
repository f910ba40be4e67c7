"""Thirty actions of the page in any order, then save, close and reopen: the same job, or a sentence."""

import contextlib
import tempfile
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings

from kerfline.app.rules_of import rules_of
from kerfline.app.save_job import same_slab
from kerfline.app.working import Working, job_of
from kerfline.errors import InputRefused
from kerfline.web.acting import apply
from kerfline.web.actions import read_action
from kerfline.web.desk import Desk
from kerfline.web.wire import read_state, state_data
from page_actions import named, sequences, texts
from paged import house


def hold(text: str, said: list[dict[str, Any]]) -> int:
    """Does what is said as the server would, saves, reopens and compares; the actions that were done."""
    with tempfile.TemporaryDirectory() as folder:
        path = house(Path(folder), text)
        desk = Desk(path)
        seen = desk.open({})
        working, done = read_state(seen["state"]), 0
        for action in said:
            with contextlib.suppress(InputRefused):
                after = apply(read_action(named(action, working)), working)
                rules_of(
                    job_of(desk.disk.base, after, only_pinned=False)
                )  # as the page measures it
                working = read_state(state_data(after))
                done += 1
        desk.keeping.save({"state": state_data(working), "revision": seen["revision"]})
        again = Desk(path)
        reopened = read_state(again.open({})["state"])
        assert same_slab(reopened.slab, working.slab)
        if working.joints:  # a job without any is laid out anew
            assert _joints(reopened) == _joints(working)
        assert (reopened.rule_set, reopened.to_maximum) == (working.rule_set, working.to_maximum)
        assert [p.name for p in Path(folder).iterdir()] == [path.name]
    return done


def _joints(working: Working) -> list[tuple[Any, ...]]:
    return sorted(
        (j.id, j.kind, tuple((round(x, 2), round(y, 2)) for x, y in j.path)) for j in working.joints
    )


def test_a_point_that_is_tapped_twice_counts_once(tmp_path: Path) -> None:
    """A double tap left a zone on the page that no job file can hold."""
    desk = Desk(house(tmp_path))
    working = read_state(desk.open({})["state"])
    spots = [[300, 300], [900, 300], [900, 300], [900, 900], [300, 300]]
    zone = {"do": "add", "what": "zone", "points": spots}
    wall = {"do": "add", "what": "wall", "points": [spots[0], spots[1], spots[2]]}
    for action in (zone, wall):
        working = apply(read_action(action), working)
    assert [len(z.outline.points) for z in working.slab.zones] == [3]
    assert len(working.slab.walls[-1].path) == 2
    for what, least in (("zone", 3), ("wall", 2)):
        with pytest.raises(InputRefused, match=f"a {what} needs {least} different points or more"):
            apply(read_action({"do": "add", "what": what, "points": [spots[0]] * 4}), working)


@settings(max_examples=10, deadline=None, suppress_health_check=list(HealthCheck))
@given(texts, sequences)
def test_what_was_done_on_the_page_is_saved(text: str, said: list[dict[str, Any]]) -> None:
    hold(text, said)


@pytest.mark.long
@settings(max_examples=2000, deadline=None, suppress_health_check=list(HealthCheck))
@given(texts, sequences)
def test_what_was_done_on_the_page_is_saved_long(text: str, said: list[dict[str, Any]]) -> None:
    hold(text, said)
