"""Only this computer's own browser, from this page, with the token, gets an answer."""

import socket

import pytest

from kerfline.errors import InputRefused
from kerfline.web.desk import Desk
from kerfline.web.running import LOOPBACK, listen
from kerfline.web.server import static_files
from paged import HOST, ORIGIN, TOKEN, client, house, stranger


@pytest.fixture
def page(tmp_path):
    return client(Desk(house(tmp_path)))


@pytest.fixture
def bare(tmp_path):
    """A client without the page's own headers."""
    return stranger(Desk(house(tmp_path)))


def test_the_page_and_its_own_files_are_served(page):
    first = page.get("")

    assert first.status_code == 200
    assert first.headers["content-type"] == "text/html; charset=utf-8"
    for name in static_files():
        assert page.get(name).status_code == 200


def test_every_answer_forbids_foreign_and_inline_content(page):
    for answer in (page.get(""), page.get("page.js"), page.get("nothing")):
        policy = answer.headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "script-src 'self'" in policy
        assert "unsafe" not in policy
        assert "frame-ancestors 'none'" in policy
        assert answer.headers["x-content-type-options"] == "nosniff"
        assert answer.headers["referrer-policy"] == "no-referrer"


def test_the_page_names_nothing_from_elsewhere():
    for name, body in static_files().items():
        text = body.decode().replace("http://www.w3.org/2000/svg", "")
        assert "http:" not in text, name
        assert "https:" not in text, name
        assert "innerHTML" not in text, name
        assert "insertAdjacent" not in text, name
        assert " style=" not in text, name


@pytest.mark.parametrize(
    "host", ["attacker.example", "127.0.0.1", f"{HOST}0", "localhost:1", "[::1]:8765"]
)
def test_another_host_name_is_turned_away(bare, host):
    answer = bare.get(f"/{TOKEN}/", headers={"host": host})

    assert answer.status_code == 421
    assert "kerfline" not in answer.text


@pytest.mark.parametrize("origin", ["http://attacker.example", "null", "http://127.0.0.1:80", ""])
def test_a_page_from_elsewhere_is_turned_away(bare, origin):
    answer = bare.post(f"/{TOKEN}/open", json={}, headers={"origin": origin})

    assert answer.status_code == 403


def test_without_an_origin_nothing_is_changed(bare):
    assert bare.post(f"/{TOKEN}/save", json={}).status_code == 403


@pytest.mark.parametrize("site", ["cross-site", "same-site"])
def test_a_link_from_elsewhere_is_turned_away(bare, site):
    answer = bare.get(f"/{TOKEN}/", headers={"sec-fetch-site": site})

    assert answer.status_code == 403


@pytest.mark.parametrize("path", ["/", "/page.js", f"/{TOKEN}", f"/{TOKEN[:-1]}/", f"/{TOKEN}x/"])
def test_without_the_token_there_is_nothing(bare, path):
    assert bare.get(path, headers={"origin": ORIGIN}).status_code == 404


@pytest.mark.parametrize(
    "path",
    [
        "../boathouse.toml",
        "..%2fboathouse.toml",
        "%2e%2e/%2e%2e/etc/passwd",
        "static/../boathouse.toml",
        "boathouse.toml",
        "/etc/passwd",
        "page.js/../../boathouse.toml",
        "..\\boathouse.toml",
        "page.js%00.html",
    ],
)
def test_no_path_leads_to_a_file_on_the_disk(bare, path):
    answer = bare.get(f"/{TOKEN}/{path}", headers={"origin": ORIGIN})

    assert answer.status_code == 404
    assert "Boathouse" not in answer.text
    assert "root:" not in answer.text


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "OPTIONS"])
def test_other_methods_are_not_asked_here(page, method):
    assert page.request(method, "open").status_code == 405


def test_a_body_beyond_the_bound_is_refused_and_never_held(page, monkeypatch):
    monkeypatch.setattr("kerfline.web.guard.LARGEST_BODY", 1000)

    answer = page.post("change", content=b"x" * 1001, headers={"content-type": "application/json"})

    assert answer.status_code == 413


def test_a_drawing_may_be_larger_but_not_endless(page, monkeypatch):
    monkeypatch.setattr("kerfline.web.guard.LARGEST_BODY", 1000)
    monkeypatch.setattr("kerfline.web.guard.LARGEST_PLAN", 2000)

    assert page.post("import/look", content=b"x" * 1500).status_code == 422
    assert page.post("import/look", content=b"x" * 2500).status_code == 413


@pytest.mark.parametrize(
    ("content", "kind"),
    [
        (b"{}", "text/plain"),
        (b"{", "application/json"),
        (b"[]", "application/json"),
        (b"\xff\xfe", "application/json"),
        (b"[" * 100_000, "application/json"),
        (b"", "application/json"),
    ],
)
def test_what_is_no_json_object_is_refused_in_words(page, content, kind):
    answer = page.post("change", content=content, headers={"content-type": kind})

    assert answer.status_code == 422
    assert "JSON" in answer.json()["refused"][0]


def test_the_server_listens_on_this_computer_only():
    with listen(0) as listener:
        assert listener.getsockname()[0] == LOOPBACK
        assert listener.getsockname()[1] > 0


@pytest.mark.parametrize("port", [-1, 65536, 10**9])
def test_a_port_that_there_is_not_is_refused(port):
    with pytest.raises(InputRefused, match="no such port"):
        listen(port)


def test_a_port_that_is_taken_is_refused_in_words():
    with socket.socket() as other:
        other.bind((LOOPBACK, 0))
        other.listen()
        with pytest.raises(InputRefused, match="port cannot be used"):
            listen(other.getsockname()[1])
