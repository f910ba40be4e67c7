"""The routes of the picture under the drawing."""

import pytest

from kerfline.web import guard
from paged import client, opened, stranger
from traced import traced


@pytest.fixture
def desk(tmp_path):
    return opened(tmp_path)[0]


def test_only_the_page_itself_is_shown_it(desk):
    told = traced(desk)["picture"]["tracing"]
    assert stranger(desk).get("/" + told["source"]).status_code == 404


@pytest.mark.parametrize(
    "of",
    ["", "{}", "[]", '{"file":"../secret.png","page":0,"size":[1,1]}', '{"file":"a.png","page":0,"size":[]}',
     '{"file":".boathouse.toml.draft","page":0,"size":[9,9]}', '{"file":"a.png","page":0,"size":[1e9,1]}',
     '{"file":"a.png","page":0,"size":[9,9],"plan":[[0,0]]}', "[" * 20_000],
)  # fmt: skip
def test_no_address_asks_for_anything_else(desk, of):
    told = client(desk).get("tracing/picture", params={"of": of})
    assert told.status_code in (422, 431)


def test_a_file_without_end_is_not_taken_in(desk, monkeypatch):
    monkeypatch.setattr(guard, "LARGEST_PLAN", 1000)
    told = client(desk).post("tracing/bring", content=bytes(2000))
    assert told.status_code == 413


@pytest.mark.parametrize(
    "said", [{}, {"file": "../x.png", "page": 0}, {"file": "x.png", "page": "0"}]
)
def test_a_page_of_a_file_is_named_plainly(desk, said):
    answer = client(desk).post("tracing/look", json=said)
    assert answer.status_code == 422
    assert answer.json()["refused"] == ["say which page of which file."]
