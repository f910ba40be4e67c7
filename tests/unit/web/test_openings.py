"""Openings and corners, asked as the page asks for them: joints and findings follow, the file keeps them."""

import pytest

from kerfline.app.open_job import open_job
from kerfline.web.desk import Desk
from paged import FT, PITTED, client, house


@pytest.fixture
def desk(tmp_path):
    """The house with a pit, and words on two edges."""
    return Desk(house(tmp_path, PITTED))


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
    assert len(answer.json()["refused"]) == 1
    return answer.json()["refused"][0]


def ring(answer, number=0):
    slab = answer["state"]["slab"]
    points = (slab["outline"], *slab["openings"])[number]["points"]
    return [(round(x / FT, 3), round(y / FT, 3)) for x, y in points]


def path(answer, name):
    found = next(j["path"] for j in answer["state"]["joints"] if j["id"] == name)
    return [(round(x / FT, 3), round(y / FT, 3)) for x, y in found]


def rules(answer):
    return {f["rule"] for f in answer["picture"]["findings"]}


def test_an_opening_comes_moves_takes_a_size_and_goes(begun):
    page, state = begun

    added = do(
        page, state, do="add", what="opening", points=[[24 * FT, 15 * FT], [22 * FT, 13 * FT]]
    )
    assert ring(added, 2) == [(22, 13), (24, 13), (24, 15), (22, 15)]
    moved = do(page, added["state"], do="move", what="opening", id="2", by=[FT, -FT])
    assert ring(moved, 2)[0] == (23, 12)
    wide = do(
        page, moved["state"], do="set", what="opening", id="2", field="across", value="2'-6\""
    )
    assert ring(wide, 2)[1] == (25.5, 12)
    placed = do(page, wide["state"], do="set", what="opening", id="2", field="left", value="21")
    assert ring(placed, 2)[0] == (21, 12)
    seen = placed["picture"]["slab"]["rings"][2]
    assert [(s["words"], s["text"]) for s in seen["sizes"]] == [
        ("Left to right", "2'-6\""), ("Bottom to top", "2'-0\""),
    ]  # fmt: skip
    assert (seen["left"], seen["bottom"]) == ("21'-0\"", "12'-0\"")
    gone = do(page, placed["state"], do="delete", what="opening", id="1")
    assert ring(gone, 1)[0] == (21, 12)
    assert [(e["ring"], e["segment"]) for e in gone["state"]["slab"]["edges"]] == [(0, 1)]


def test_joints_end_on_an_opening_and_its_corners_are_found_bare(begun):
    page, state = begun

    cut = do(page, state, do="add", what="opening", points=[[19 * FT, 13 * FT], [21 * FT, 15 * FT]])

    assert path(cut, "J2") == [(20, 0), (20, 13)]
    assert path(cut, "J4") == [(20, 15), (20, 20)]
    assert "corner" in rules(cut)
    corners = [f for f in cut["picture"]["findings"] if f["rule"] == "corner"]
    assert len(corners) == 8  # four of the pit, four of the new one


def test_joints_follow_the_edge_of_the_outline(begun):
    """Where the slab grows they run on to the new edge; where it shrinks they are cut back to it."""
    page, state = begun

    larger = do(
        page, state, do="vertex", what="outline", id="outline", index=2, to=[30 * FT, 26 * FT]
    )
    assert path(larger, "J1") == [(10, 0), (10, 22)]
    assert path(larger, "J2") == [(20, 0), (20, 24)]
    assert "span" in rules(larger)
    smaller = do(
        page,
        larger["state"],
        do="vertex",
        what="outline",
        id="outline",
        index=2,
        to=[24 * FT, 20 * FT],
    )
    assert path(smaller, "J3") == [(0, 10), (27, 10)]
    assert path(smaller, "J2") == [(20, 0), (20, 20)]
    assert sum(p["mm"]["area"] for p in smaller["picture"]["panels"]) == pytest.approx(
        (540 - 6) * FT**2, rel=1e-6
    )


def test_a_corner_is_written_in_the_jobs_own_coordinates(begun):
    page, state = begun

    answer = do(
        page, state, do="place-vertex", what="outline", id="outline", index=0, axis="x", text="-2"
    )

    assert ring(answer)[0] == (-2, 0)
    corner = answer["picture"]["slab"]["rings"][0]["corners"][0]
    assert (corner["x"], corner["y"]) == ("-2'-0\"", "0'-0\"")
    assert path(answer, "J3")[0] == (-1, 10)


def test_corners_come_and_go_and_the_words_on_edges_stay_with_them(begun):
    page, state = begun

    more = do(page, state, do="add-vertex", what="outline", id="outline", at=[15 * FT, 0])
    assert ring(more) == [(0, 0), (15, 0), (30, 0), (30, 20), (0, 20)]
    assert more["picture"]["slab"]["edges"][0]["path"] == [[30 * FT, 0], [30 * FT, 20 * FT]]
    half = do(page, more["state"], do="add-vertex", what="opening", id="1", after=2)
    assert [(e["ring"], e["segment"]) for e in half["state"]["slab"]["edges"]] == [
        (0, 2),
        (1, 2),
        (1, 3),
    ]
    back = do(page, half["state"], do="remove-vertex", what="outline", id="outline", index=1)
    assert ring(back) == [(0, 0), (30, 0), (30, 20), (0, 20)]
    assert back["state"]["slab"]["edges"][0] == state["slab"]["edges"][0]


@pytest.mark.parametrize(
    ("action", "says"),
    [
        ({"do": "vertex", "what": "outline", "id": "outline", "index": 2, "to": [15 * FT, -5 * FT]}, "outline: the line crosses or touches itself"),
        ({"do": "vertex", "what": "outline", "id": "outline", "index": 2, "to": [0, 20 * FT]}, "a corner already"),
        ({"do": "vertex", "what": "outline", "id": "outline", "index": 2, "to": [30 * FT, 14 * FT]}, "wall W1 lies outside"),
        ({"do": "vertex", "what": "opening", "id": "1", "index": 0, "to": [-FT, 3 * FT]}, "opening 1: the opening crosses"),
        ({"do": "vertex", "what": "opening", "id": "2", "index": 0, "to": [0, 0]}, "no such opening"),
        ({"do": "vertex", "what": "opening", "id": "one", "index": 0, "to": [0, 0]}, "no such opening"),
        ({"do": "place-vertex", "what": "outline", "id": "outline", "index": 7, "axis": "x", "text": "1"}, "no such corner"),
        ({"do": "place-vertex", "what": "outline", "id": "outline", "index": 1, "axis": "x", "text": "wide"}, "not a length"),
        ({"do": "add", "what": "opening", "points": [[FT, FT]]}, "two opposite corners"),
        ({"do": "add", "what": "opening", "points": [[4 * FT, 4 * FT], [8 * FT, 8 * FT]]}, "overlaps"),
        ({"do": "move", "what": "opening", "id": "1", "by": [-9 * FT, 0]}, "crosses or touches the slab's edge"),
        ({"do": "set", "what": "opening", "id": "1", "field": "across", "value": "0 ft"}, "above zero"),
        ({"do": "set", "what": "opening", "id": "1", "field": "diameter", "value": "2 ft"}, "no such size"),
        ({"do": "set", "what": "opening", "id": "1", "field": "across", "value": "90 ft"}, "crosses or touches"),
        ({"do": "delete", "what": "opening", "id": "9"}, "no such opening"),
    ],
)  # fmt: skip
def test_what_cannot_be_done_is_refused_in_one_sentence(begun, action, says):
    page, state = begun

    assert says in refused(page, state, **action)


def test_what_was_changed_is_saved_and_comments_stay(desk, begun):
    page, state = begun
    for action in (
        {"do": "vertex", "what": "outline", "id": "outline", "index": 2, "to": [9000.5, 6500.25]},
        {"do": "add-vertex", "what": "outline", "id": "outline", "after": 0},
        {"do": "add", "what": "opening", "points": [[24 * FT, 15 * FT], [22 * FT, 13 * FT]]},
        {"do": "set", "what": "opening", "id": "1", "field": "up", "value": "30 in"},
        {"do": "move", "what": "opening", "id": "2", "by": [10.1, 0]},
    ):
        state = do(page, state, **action)["state"]

    desk.keeping.save({"state": state, "revision": desk.keeping.revision})
    text = desk.disk.path.read_text()

    assert Desk(desk.disk.path).open({})["state"] == state
    for comment in ("# inside of the forms", "# the pit", "# cores", "# straight through"):
        assert comment in text


def test_the_last_opening_is_taken_out_of_the_file(desk, begun):
    page, state = begun
    state = do(page, state, do="delete", what="opening", id="1")["state"]

    desk.keeping.save({"state": state, "revision": desk.keeping.revision})

    assert open_job(desk.disk.path).slab.openings == ()
    assert (
        "# against the old wall" not in desk.disk.path.read_text()
    )  # edges have no names: told anew
    assert "# between boats and kitchen" in desk.disk.path.read_text()
    assert [(e.ring, e.segment) for e in open_job(desk.disk.path).slab.edges] == [(0, 1)]
