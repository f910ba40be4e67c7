"""The local page and the crew's page, as a user starts them."""

import pytest

from commands import boathouse, flowing, run
from kerfline.library import Options


@pytest.fixture
def served(monkeypatch):
    """What the server would be started with."""
    asked = []
    monkeypatch.setattr("kerfline.web.serve", lambda *words, **more: asked.append((words, more)))
    return asked


def test_a_page_is_served_with_what_was_said(served, tmp_path):
    result = run("view", tmp_path / "a.dxf", "--thickness", "4 in", "--port", "8123", "--no-open")
    assert result.exit_code == 0, result.output
    ((words, more),) = served
    assert words == (tmp_path / "a.dxf", 8123)
    assert more["open_browser"] is False
    assert more["options"] == Options(thickness="4 in", layers={})


def test_without_a_source_the_page_begins_empty_and_the_browser_opens(served):
    assert run("view").exit_code == 0
    ((words, more),) = served
    assert words == (None, 0)
    assert more["open_browser"] is True


def test_the_crews_page_is_one_file(tmp_path):
    result = run("page", boathouse(tmp_path), "--out", tmp_path / "out")
    assert result.exit_code == 0, result.output
    (page,) = [p for p in (tmp_path / "out").iterdir() if not p.name.startswith(".")]
    assert flowing(result) == f"wrote {page}"
    text = page.read_text()
    assert text.startswith("<!doctype html>")
    assert "Boathouse" in text
