"""Thirty actions of the page in any order, then save, close and reopen: the same job, or a sentence."""

import contextlib
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from kerfline.app.rules_of import rules_of
from kerfline.app.save_job import same_slab
from kerfline.app.working import Working, job_of
from kerfline.errors import InputRefused
from kerfline.web.acting import apply
from kerfline.web.actions import read_action
from kerfline.web.desk import Desk
from kerfline.web.wire import read_state, state_data
from paged import BENT, FT, HOUSE, PITTED, house

ACTIONS = 30
KINDS = ("wall", "column", "penetration", "keep-out", "forbidden", "zone")
RULES = ("floor", "parking", "pca-table", "nobody's")
LENGTHS = ("4 in", "12", "5'-6 1/2\"", "0", "-3 ft", "2 m", "a cubit", "1e9", "")
FIELDS = (
    ("wall", "bearing", (True, False)),
    ("wall", "thickness", LENGTHS),
    ("wall", "strip_width", LENGTHS),
    ("column", "boxout", ("diamond", "square", "circle", "star")),
    ("column", "size", LENGTHS),
    ("penetration", "kind", ("drain", "pipe", "ghost")),
    ("penetration", "diameter", LENGTHS),
    ("keep-out", "what", ("heating", "  ", "# not a comment \\ \" ''' \x7f \u2028 é")),
    ("zone", "thickness", LENGTHS),
)

number = st.one_of(
    st.integers(-4, 34).map(lambda n: n * FT),
    st.floats(-2 * FT, 32 * FT, allow_nan=False),
    st.sampled_from([0.0, 0.1 + 0.2, 1e-9, 1e7, 30 * FT, 20 * FT, 10 * FT]),
)
spot = st.tuples(number, number).map(list)


@st.composite
def taps(draw: Any) -> list[list[float]]:
    """Points as fingers give them: some of them twice."""
    points = draw(st.lists(spot, min_size=1, max_size=6))
    twice = draw(st.lists(st.integers(0, len(points) - 1), max_size=2))
    for at in sorted(twice, reverse=True):
        points.insert(at, list(points[at]))
    return points


@st.composite
def actions(draw: Any) -> dict[str, Any]:
    """Any message of the page; names are told by their place among those that there are."""
    kind, text = draw(st.sampled_from(KINDS)), draw(st.sampled_from(LENGTHS))
    pick, index = draw(st.integers(0, 9)), draw(st.integers(0, 5))
    bent = draw(st.sampled_from(["joint", "outline", "opening"]))
    what, field, values = draw(st.sampled_from(FIELDS))
    return draw(
        st.sampled_from(
            [
                {"do": "slide", "id": ("joint", pick), "by": draw(spot)},
                {"do": "place", "id": ("joint", pick), "text": text},
                {"do": "end", "id": ("joint", pick), "end": pick % 2, "to": draw(spot)},
                {"do": "step-end", "id": ("joint", pick), "end": pick % 2, "by": draw(spot)},
                {"do": "vertex", "what": bent, "id": (bent, pick), "index": index, "to": draw(spot)},
                {"do": "place-vertex", "what": bent, "id": (bent, pick), "index": index,
                 "axis": "xy"[pick % 2], "text": text},
                {"do": "add-vertex", "what": bent, "id": (bent, pick), "at": draw(spot)},
                {"do": "add-vertex", "what": bent, "id": (bent, pick), "after": index},
                {"do": "remove-vertex", "what": bent, "id": (bent, pick), "index": index},
                {"do": "draw", "start": draw(spot), "end": draw(spot)},
                {"do": "split", "id": f"P{pick + 1}", "turned": bool(pick % 2)},
                {"do": "delete", "what": "joint", "id": ("joint", pick)},
                {"do": "pin", "id": ("joint", pick), "pinned": bool(index % 2)},
                {"do": "pin", "pinned": bool(index % 2)},
                {"do": "kind", "id": ("joint", pick), "kind": "construction"},
                {"do": "forbid", "id": ("joint", pick)},
                {"do": "add", "what": kind, "points": draw(taps())},
                {"do": "add", "what": "opening", "points": draw(taps())},
                {"do": "move", "what": kind, "id": (kind, pick), "by": draw(spot)},
                {"do": "move", "what": "opening", "id": ("opening", pick), "by": draw(spot)},
                {"do": "delete", "what": kind, "id": (kind, pick)},
                {"do": "delete", "what": "opening", "id": ("opening", pick)},
                {"do": "set", "what": what, "id": (what, pick), "field": field,
                 "value": draw(st.sampled_from(values))},
                {"do": "thickness", "text": text},
                {"do": "rules", "set": draw(st.sampled_from(RULES)), "to_maximum": bool(pick % 2)},
            ]
        )
    )  # fmt: skip


def named(action: dict[str, Any], working: Working) -> dict[str, Any]:
    """The action with a name in place of what it points to."""
    if not isinstance(action.get("id"), tuple):
        return action
    kind, pick = action["id"]
    names = list(_names(kind, working)) or ["nothing"]
    return {**action, "id": names[pick % len(names)]}


def _names(kind: str, working: Working) -> Iterator[str]:
    slab = working.slab
    if kind == "joint":
        yield from (j.id for j in working.joints)
    elif kind == "opening":
        yield from map(str, range(1, len(slab.openings) + 1))
    elif kind == "outline":
        yield "0"
    else:
        field = {"keep-out": "keep_outs", "forbidden": "joints"}.get(kind, f"{kind}s")
        yield from (thing.id for thing in getattr(slab, field))


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
                rules_of(job_of(desk.base, after, only_pinned=False))  # as the page measures it
                working = read_state(state_data(after))
                done += 1
        desk.save({"state": state_data(working), "revision": seen["revision"]})
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


sequences = st.lists(actions(), min_size=ACTIONS, max_size=ACTIONS)
texts = st.sampled_from([HOUSE, PITTED, HOUSE + BENT])


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
