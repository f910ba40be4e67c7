"""The working state travels whole, and nothing that comes in can make the server stumble."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kerfline.app.working import DrawnJoint, Working
from kerfline.units import Unit
from kerfline.web.desk import Desk
from kerfline.web.wire import read_state, state_data
from paged import BENT, FT, PITTED, client, house
from strategies import slabs


@settings(max_examples=25)
@given(slab=slabs(), unit=st.sampled_from(Unit))
def test_every_slab_comes_back_as_it_was_sent(slab, unit):
    joint = DrawnJoint(id="J1", path=slab.outline.points[:2], note="«½» <b> \u2028")
    working = Working(name="x", units=unit, slab=slab, joints=(joint,), rule_set="floor")
    sent = json.loads(json.dumps(state_data(working)))

    assert read_state(sent) == working


def places(data, path=()):
    """The path of every value in nested data."""
    yield path
    items = (
        data.items()
        if isinstance(data, dict)
        else enumerate(data)
        if isinstance(data, list)
        else ()
    )
    for key, value in items:
        yield from places(value, (*path, key))


def changed(data, path, value):
    """A copy of nested data with one value changed."""
    if not path:
        return value
    copy = dict(data) if isinstance(data, dict) else list(data)
    copy[path[0]] = changed(copy[path[0]], path[1:], value)
    return copy


ODD = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(allow_nan=False, allow_infinity=False),
    st.floats(-1e5, 1e5),
    st.text(max_size=8),
    st.lists(st.lists(st.floats(-1e4, 1e4), min_size=2, max_size=2), max_size=5),
    st.just([]),
    st.just({}),
)


@pytest.fixture(scope="module")
def begun(tmp_path_factory):
    desk = Desk(house(tmp_path_factory.mktemp("job"), PITTED + BENT))
    return client(desk), desk.open({})["state"]


@settings(max_examples=25)
@given(data=st.data())
def test_no_change_of_the_state_makes_the_server_stumble(begun, data):
    """Any one value of the state replaced by any other: it is measured, or refused in words."""
    page, state = begun
    path = data.draw(st.sampled_from(list(places(state))))
    bad = changed(state, path, data.draw(ODD))
    action = data.draw(st.sampled_from([None, {"do": "slide", "id": "J2", "by": [FT, 0]}]))

    answer = page.post("change", json={"state": bad, "action": action})

    assert answer.status_code in (200, 422), answer.text


ACTIONS = [
    {"do": "slide", "id": "J2", "by": [FT, 0]},
    {"do": "end", "id": "J3", "end": 0, "to": [FT, 0]},
    {"do": "draw", "start": [FT, FT], "end": [5 * FT, FT]},
    {"do": "split", "id": "P1", "at": [FT, FT], "turned": False},
    {"do": "add", "what": "wall", "points": [[FT, FT], [5 * FT, FT]]},
    {"do": "add", "what": "column", "points": [[5 * FT, 5 * FT]]},
    {"do": "add", "what": "keep-out", "points": [[FT, FT], [5 * FT, FT], [FT, 5 * FT]]},
    {"do": "move", "what": "penetration", "id": "N1", "by": [FT, FT]},
    {"do": "set", "what": "wall", "id": "W1", "field": "thickness", "value": "5 in"},
    {"do": "thickness", "text": "5 in"},
    {"do": "step-end", "id": "J3", "end": 1, "by": [-25.4, 0]},
    {"do": "add-vertex", "what": "joint", "id": "J2", "at": [20 * FT, FT], "after": None},
    {"do": "vertex", "what": "joint", "id": "J4", "index": 1, "to": [25 * FT, 5 * FT]},
    {"do": "place-vertex", "what": "joint", "id": "J4", "index": 2, "axis": "x", "text": "24 ft"},
    {"do": "remove-vertex", "what": "joint", "id": "J4", "index": 1},
    {"do": "vertex", "what": "outline", "id": "outline", "index": 2, "to": [32 * FT, 22 * FT]},
    {"do": "add-vertex", "what": "opening", "id": "1", "at": [4 * FT, 2.5 * FT], "after": None},
    {"do": "remove-vertex", "what": "opening", "id": "1", "index": 1},
    {"do": "add", "what": "opening", "points": [[FT, FT], [2 * FT, 3 * FT]]},
    {"do": "set", "what": "opening", "id": "1", "field": "across", "value": "3 ft"},
    {"do": "move", "what": "opening", "id": "1", "by": [FT, 0]},
    {"do": "delete", "what": "opening", "id": "1"},
]


@settings(max_examples=25)
@given(data=st.data())
def test_no_change_of_an_action_makes_the_server_stumble(begun, data):
    page, state = begun
    action = data.draw(st.sampled_from(ACTIONS))
    bad = changed(action, data.draw(st.sampled_from(list(places(action)))), data.draw(ODD))

    answer = page.post("change", json={"state": state, "action": bad})

    assert answer.status_code in (200, 422), answer.text
