"""The routes, and the page's own files."""

import pytest

from drawn_plans import plan_dxf
from kerfline.web.desk import Desk
from kerfline.web.server import static_files
from paged import client, house


@pytest.fixture
def page(tmp_path):
    return client(Desk(house(tmp_path)))


def test_the_page_and_its_own_files_are_served(page):
    first = page.get("")

    assert first.status_code == 200
    assert first.headers["content-type"] == "text/html; charset=utf-8"
    for name in static_files():
        assert page.get(name).status_code == 200


def test_the_page_names_nothing_from_elsewhere():
    for name, body in static_files().items():
        text = body.decode().replace("http://www.w3.org/2000/svg", "")
        assert "http:" not in text, name
        assert "https:" not in text, name
        assert "innerHTML" not in text, name
        assert "insertAdjacent" not in text, name
        assert " style=" not in text, name


def test_static_files_are_those_that_a_browser_asks_for():
    served = static_files()
    assert {"index.html", "page.js"} <= set(served)
    assert {name.rpartition(".")[2] for name in served} <= {"html", "css", "js", "svg"}


def test_the_crews_page_is_a_file_to_keep(page):
    state = page.post("open", json={}).json()["state"]
    answer = page.post("one-file", json={"state": state})
    assert (
        answer.headers["content-disposition"] == "attachment; filename*=UTF-8''boathouse-page.html"
    )
    assert answer.content.startswith(b"<!doctype html>")


@pytest.mark.parametrize("number", ["x", "1", "", "-1"])
def test_a_page_number_that_is_none_is_not_said(page, tmp_path, number):
    content = plan_dxf(tmp_path / "plan.dxf").read_bytes()
    assert page.post(f"import/look?page={number}", content=content).status_code == 200
