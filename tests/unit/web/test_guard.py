"""Only this computer's own browser, from this page, with the token, gets an answer."""

import pytest

from kerfline.web.desk import Desk
from paged import HOST, ORIGIN, TOKEN, client, house, stranger


@pytest.fixture
def page(tmp_path):
    return client(Desk(house(tmp_path)))


@pytest.fixture
def bare(tmp_path):
    """A client without the page's own headers."""
    return stranger(Desk(house(tmp_path)))


def test_every_answer_forbids_foreign_and_inline_content(page):
    for answer in (page.get(""), page.get("page.js"), page.get("nothing")):
        policy = answer.headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "script-src 'self'" in policy
        assert "unsafe" not in policy
        assert "frame-ancestors 'none'" in policy
        assert answer.headers["x-content-type-options"] == "nosniff"
        assert answer.headers["referrer-policy"] == "no-referrer"


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
