"""Knees of joints, asked as the page asks for them, with findings, and kept in the job file."""

import pytest

from kerfline.geometry.tolerance import SAME
from kerfline.web.desk import Desk
from paged import BENT, FT, HOUSE, client, house


@pytest.fixture
def desk(tmp_path):
    """The house with a bent joint."""
    return Desk(house(tmp_path, HOUSE + BENT))


@pytest.fixture
def begun(desk):
    """The page's client, and the state it was given."""
    return client(desk), desk.open({})["state"]


def do(page, state, **action):
    answer = page.post("change", json={"state": state, "action": action})
    assert answer.status_code == 200, answer.text
    return answer.json()


def refused(page, state, **action):
    answer = page.post("change", json={"state": state, "action": action})
    assert answer.status_code == 422, answer.text
    return answer.json()["refused"][0]


def path(answer, name="J4"):
    found = next(j["path"] for j in answer["state"]["joints"] if j["id"] == name)
    return [(x / FT, y / FT) for x, y in found]


def close(*points):
    return [pytest.approx(p, abs=SAME / FT) for p in points]


def test_a_bent_joint_is_moved_as_straight_ones_are(begun):
    page, state = begun

    answer = do(page, state, do="slide", id="J4", by=[FT, 0])

    assert path(answer) == close((26, 0), (26, 4), (27, 6), (27, 10))
    assert next(j for j in answer["picture"]["joints"] if j["id"] == "J4")["bends"] == [1, 2]


def test_a_knee_is_dragged_written_added_and_taken_away(begun):
    page, state = begun
    knee = {"what": "joint", "id": "J4", "index": 1}

    dragged = do(page, state, do="vertex", to=[24 * FT, 3 * FT], **knee)
    assert path(dragged) == close((25, 0), (24, 3), (26, 6), (26, 10))
    written = do(page, state, do="place-vertex", axis="y", text="3'-6\"", **knee)
    assert path(written) == close((25, 0), (25, 3.5), (26, 6), (26, 10))
    more = do(page, state, do="add-vertex", what="joint", id="J4", after=2)
    assert path(more) == close((25, 0), (25, 4), (26, 6), (26, 8), (26, 10))
    fewer = do(page, state, do="remove-vertex", **knee)
    assert path(fewer) == close((25, 0), (26, 6), (26, 10))
    end = do(page, state, do="end", id="J4", end=0, to=[27 * FT, 0.2 * FT], near=25)
    assert path(end)[0] == pytest.approx((27, 0), abs=SAME / FT)
    step = do(page, state, do="step-end", id="J4", end=0, by=[25.4, 0])
    assert path(step)[0] == pytest.approx((25 + 1 / 12, 0), abs=SAME / FT)


def test_the_findings_follow_a_knee(begun):
    """A stretch bent flat onto the edge breaks the rule on angles (floor: least angle 60 degrees)."""
    page, state = begun
    assert not angles(page.post("change", json={"state": state}).json())

    answer = do(page, state, do="vertex", what="joint", id="J4", index=1, to=[27 * FT, 0.5 * FT])

    assert angles(answer)


def angles(answer):
    """The angles that are too flat, at the foot of the bent joint."""
    found = answer["picture"]["findings"]
    return [f for f in found if f["rule"] == "angle" and f["at"][1] < FT and f["at"][0] > 24 * FT]


@pytest.mark.parametrize(
    ("action", "says"),
    [
        ({"do": "vertex", "what": "joint", "id": "J4", "index": 0, "to": [0, 0]}, "no such bend"),
        ({"do": "vertex", "what": "joint", "id": "J4", "index": 1, "to": [-9, 0]}, "on the conc"),
        ({"do": "vertex", "what": "joint", "id": "J4", "index": -1, "to": [0, 0]}, ""),
        ({"do": "vertex", "what": "wall", "id": "W1", "index": 1, "to": [0, 0]}, ""),
        ({"do": "place-vertex", "what": "joint", "id": "J4", "index": 9, "axis": "x", "text": "1"}, "no such bend"),
        ({"do": "place-vertex", "what": "joint", "id": "J4", "index": 1, "axis": "x", "text": "far"}, "not a length"),
        ({"do": "add-vertex", "what": "joint", "id": "J4", "at": [25 * FT, 0]}, "already"),
        ({"do": "add-vertex", "what": "joint", "id": "J9"}, "no such joint"),
        ({"do": "remove-vertex", "what": "joint", "id": "J1", "index": 0}, "no such bend"),
        ({"do": "step-end", "id": "J4", "end": 0, "by": [0, -25]}, "nothing further"),
    ],
)  # fmt: skip
def test_what_cannot_be_done_to_a_knee_is_refused_in_words(begun, action, says):
    page, state = begun

    assert says in refused(page, state, **action)


def test_a_saved_bent_joint_reads_back_exactly(desk, begun):
    page, state = begun
    for action in (
        {"do": "slide", "id": "J4", "by": [-7.3, 0]},
        {"do": "vertex", "what": "joint", "id": "J4", "index": 1, "to": [7300.123, 1111.1]},
        {"do": "add-vertex", "what": "joint", "id": "J2", "at": [20 * FT, 3 * FT]},
        {"do": "vertex", "what": "joint", "id": "J2", "index": 1, "to": [20.5 * FT, 3 * FT]},
    ):
        state = do(page, state, **action)["state"]

    desk.keeping.save({"state": state, "revision": desk.keeping.revision})

    assert Desk(desk.disk.path).open({})["state"] == state
    assert "# knees left and right of the drain's trench" in desk.disk.path.read_text()
