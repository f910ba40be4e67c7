"""Everything that the page can do, asked as the page asks it; what is not one of these is refused."""

import copy
import json

import pytest

from paged import FT, client, opened


@pytest.fixture
def begun(tmp_path):
    """The page's client, and the state it was given."""
    desk, answer = opened(tmp_path)
    return client(desk), answer["state"]


def do(page, state, **action):
    answer = page.post("change", json={"state": state, "action": action})
    assert answer.status_code == 200, answer.text
    return answer.json()


def refused(page, state, **action):
    answer = page.post("change", json={"state": state, "action": action})
    assert answer.status_code == 422, answer.text
    return answer.json()["refused"][0]


def joint(answer, name):
    return next(j for j in answer["state"]["joints"] if j["id"] == name)


def test_a_moved_joint_breaks_the_span_and_the_finding_says_so(begun):
    page, state = begun

    answer = do(page, state, do="slide", id="J2", by=[3 * FT, 0])

    spans = [f for f in answer["picture"]["findings"] if f["rule"] == "span"]
    assert {f["severity"] for f in spans} == {"error"}
    assert "13'-0\"" in spans[0]["message"]
    assert joint(answer, "J2")["pinned"]


def test_moving_there_and_back_gives_the_same_measures(begun):
    page, state = begun
    before = page.post("change", json={"state": state}).json()["picture"]["panels"]

    there = do(page, state, do="slide", id="J2", by=[3 * FT, 0])
    back = do(page, there["state"], do="slide", id="J2", by=[-3 * FT, 0])

    assert [p["mm"] for p in back["picture"]["panels"]] == [p["mm"] for p in before]


def test_a_joint_is_put_at_a_written_distance(begun):
    page, state = begun

    answer = do(page, state, do="place", id="J2", text="19'-6\"")

    (x0, y0), (x1, y1) = joint(answer, "J2")["path"]
    assert (x0, y0, x1, y1) == pytest.approx((19.5 * FT, 0, 19.5 * FT, 20 * FT))


def test_a_bare_number_is_in_the_jobs_unit(begun):
    page, state = begun

    answer = do(page, state, do="place", id="J3", text="9")

    assert joint(answer, "J3")["path"][0][1] == pytest.approx(9 * FT)


def test_split_draw_end_delete_and_kind(begun):
    page, state = begun

    split = do(page, state, do="split", id="P1")
    assert split["picture"]["totals"]["panels"] == 7
    drawn = do(page, state, do="draw", start=[15 * FT, 2 * FT], end=[15 * FT, 8 * FT])
    assert joint(drawn, "J4")["path"] == [[15 * FT, 0.0], [15 * FT, 10 * FT]]
    shorter = do(page, state, do="end", id="J3", end=1, to=[21 * FT, 0])
    assert joint(shorter, "J3")["path"] == [[0.0, 10 * FT], [20 * FT, 10 * FT]]
    left = do(page, state, do="delete", what="joint", id="J3")
    assert left["picture"]["totals"]["panels"] == 3
    other = do(page, state, do="kind", id="J1", kind="construction")
    assert other["picture"]["joints"][0]["kind"] == "construction"


def test_pin_and_unpin_one_or_all(begun):
    page, state = begun

    pinned = do(page, state, do="pin", id="J1", pinned=True)
    assert [j["pinned"] for j in pinned["state"]["joints"]] == [True, False, False]
    loose = do(page, pinned["state"], do="pin", pinned=False)
    assert not any(j["pinned"] for j in loose["state"]["joints"])


def test_a_forbidden_joint_leaves_a_line_that_none_may_lie_on(begun):
    page, state = begun

    answer = do(page, state, do="forbid", id="J2")

    assert [j["id"] for j in answer["state"]["joints"]] == ["J1", "J3"]
    assert answer["picture"]["slab"]["forbidden"][0]["path"] == [[20 * FT, 0.0], [20 * FT, 20 * FT]]


@pytest.mark.parametrize(
    ("what", "points", "listed"),
    [
        ("wall", [[0, 3000], [3000, 3000]], "walls"),
        ("column", [[4500, 4500]], "columns"),
        ("penetration", [[4500, 1500]], "penetrations"),
        ("keep-out", [[100, 100], [900, 100], [900, 900]], "keepOuts"),
        ("forbidden", [[0, 1000], [3000, 1000]], "forbidden"),
        ("zone", [[100, 100], [1900, 100], [1900, 1900]], "zones"),
    ],
)
def test_what_stands_on_the_slab_is_added_moved_and_taken_away(begun, what, points, listed):
    page, state = begun
    count = len(do(page, state, do="pin", pinned=False)["picture"]["slab"][listed])

    added = do(page, state, do="add", what=what, points=points)
    made = added["picture"]["slab"][listed][-1]
    assert len(added["picture"]["slab"][listed]) == count + 1
    moved = do(page, added["state"], do="move", what=what, id=made["id"], by=[25.4, 0])
    place = "at" if "at" in made else "path" if "path" in made else "outline"
    first = made[place] if place == "at" else made[place][0]
    later = moved["picture"]["slab"][listed][-1][place]
    later = later if place == "at" else later[0]
    assert later == pytest.approx([first[0] + 25.4, first[1]])
    gone = do(page, moved["state"], do="delete", what=what, id=made["id"])
    assert len(gone["picture"]["slab"][listed]) == count


def test_a_columns_boxout_cuts_the_joints_that_run_through_it(begun):
    page, state = begun

    answer = do(page, state, do="add", what="column", points=[[20 * FT, 10 * FT]])

    assert len(answer["state"]["joints"]) == 5


def test_values_are_set_as_they_are_written(begun):
    page, state = begun

    thicker = do(page, state, do="set", what="wall", id="W1", field="thickness", value="6 in")
    assert thicker["picture"]["slab"]["walls"][0]["thickness"] == '6"'
    zone = do(page, state, do="add", what="zone", points=[[0, 0], [3000, 0], [3000, 3000]])
    assert zone["picture"]["slab"]["zones"][0]["thickness"] == '4"'
    deep = do(page, zone["state"], do="set", what="zone", id="Z1", field="thickness", value="6 in")
    assert deep["picture"]["slab"]["zones"][0]["thickness"] == '6"'
    bearing = do(page, state, do="set", what="wall", id="W1", field="bearing", value=True)
    assert bearing["picture"]["slab"]["walls"][0]["bearing"] is True
    slab = do(page, state, do="thickness", text="150 mm")
    assert slab["state"]["slab"]["thickness"] == 150
    rules = do(page, state, do="rules", set="floor", to_maximum=True)
    assert rules["picture"]["rules"]["toMaximum"] is True


@pytest.mark.parametrize(
    ("action", "says"),
    [
        ({"do": "slide", "id": "J9", "by": [1, 0]}, "no such joint"),
        ({"do": "slide", "id": "J2", "by": [99999, 0]}, "no concrete"),
        ({"do": "slide", "id": "J2", "by": [1e308, 1e308]}, ""),
        ({"do": "thickness", "text": "thick"}, "not a length"),
        ({"do": "thickness", "text": "-4 in"}, "above zero"),
        ({"do": "thickness", "text": "4000 ft"}, "a slab on ground does not have this thickness"),
        ({"do": "rules", "set": "nobody's"}, "no such rule set"),
        ({"do": "set", "what": "wall", "id": "W1", "field": "id", "value": "W9"}, "cannot be set"),
        (
            {"do": "set", "what": "wall", "id": "W1", "field": "thickness", "value": True},
            "cannot be",
        ),
        (
            {"do": "set", "what": "wall", "id": "W8", "field": "thickness", "value": "1 in"},
            "no such",
        ),
        ({"do": "move", "what": "wall", "id": "W1", "by": [1e6, 0]}, "outside the slab"),
        ({"do": "add", "what": "keep-out", "points": [[0, 0], [1, 1]]}, "3 different points"),
        ({"do": "add", "what": "house", "points": [[0, 0]]}, ""),
        ({"do": "split", "id": "P99"}, "no such panel"),
        ({"do": "explode"}, ""),
        ({"do": "pin", "id": "J1"}, "required"),
        ({"do": "pin", "id": "J1", "pinned": True, "more": 1}, ""),
        ({"do": "slide", "id": "J2", "by": ["nan", 0]}, "finite"),
        ({"do": "draw", "start": [0, 0], "end": [0, 0]}, "no length"),
        ("slide", ""),
        ([], ""),
    ],
)
def test_what_cannot_be_done_is_refused_in_words(begun, action, says):
    page, state = begun

    answer = page.post("change", json={"state": state, "action": action})

    assert answer.status_code == 422, answer.text
    assert says in answer.json()["refused"][0]


def bad_states(state):
    """States that no page of ours sends."""
    for change in (
        lambda s: s.pop("slab"),
        lambda s: s.update(more=1),
        lambda s: s["slab"]["walls"][0].update(colour="red"),
        lambda s: s["slab"].update(thickness="thick"),
        lambda s: s["slab"]["outline"].update(points=[]),
        lambda s: s["slab"]["outline"].update(points=[[0, 0], [1, 1], [1, 0], [0, 1]]),
        lambda s: s["slab"]["outline"].update(points=[[0, 0], [1e12, 0], [1e12, 1e12]]),
        lambda s: s["joints"][0].update(path=[]),
        lambda s: s["joints"][0].update(path=[[0, 0]]),
        lambda s: s["joints"][0].update(reason="because"),
        lambda s: s["joints"][0].update(note="x" * 5000),
        lambda s: s["joints"][1].update(id="J1"),
        lambda s: s.update(rule_set="../../floor"),
    ):
        bad = copy.deepcopy(state)
        change(bad)
        yield bad


def test_a_state_that_is_none_is_refused_in_words(begun):
    page, state = begun
    for bad in [*bad_states(state), None, 3, "state", []]:
        answer = page.post("change", json={"state": bad})
        assert answer.status_code == 422, json.dumps(bad)[:200]
        assert answer.json()["refused"]


def test_refused_text_is_told_and_nothing_changes(begun):
    page, state = begun

    assert "not a length" in refused(page, state, do="place", id="J2", text="<b>here</b>")
