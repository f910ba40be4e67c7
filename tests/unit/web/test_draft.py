"""The draft beside the job file."""

import json

import pytest

from kerfline.web import draft
from kerfline.web.desk import Desk
from kerfline.web.draft import (
    Conflict,
    Draft,
    digest_of,
    draft_path,
    drop_draft,
    keep_draft,
    read_draft,
    set_aside,
)
from paged import house, opened


@pytest.mark.parametrize(
    "rubbish", [b"", b"{", b"[]", b'{"schema": "kerfline-draft/1"}', b"\xff" * 9]
)
def test_a_broken_draft_stops_nobody(tmp_path, rubbish):
    path = house(tmp_path)
    draft_path(path).write_bytes(rubbish)

    assert Desk(path).open({})["state"]["joints"]


def test_a_link_in_place_of_the_draft_is_not_followed(tmp_path):
    desk, answer = opened(tmp_path)
    secret = tmp_path / "elsewhere.json"
    secret.write_text('{"schema": "kerfline-draft/1", "revision": 1, "digest": "", "state": {}}')
    draft_path(desk.disk.path).symlink_to(secret)

    assert read_draft(desk.disk.path) is None
    desk.keeping.keep_draft({"state": answer["state"], "revision": desk.keeping.revision})
    assert secret.read_text().endswith('"state": {}}')


KEPT = Draft(revision=3, digest=digest_of(b"job"), state={"name": "Shed"})


def test_a_draft_comes_back_as_it_was_kept_until_it_is_dropped(tmp_path):
    job = tmp_path / "shed.toml"
    assert read_draft(job) is None
    keep_draft(job, KEPT)
    assert draft_path(job) == tmp_path / ".shed.toml.draft"
    assert read_draft(job) == KEPT
    drop_draft(job)
    drop_draft(job)
    assert read_draft(job) is None


def test_a_draft_that_is_set_aside_lies_beside(tmp_path):
    job = tmp_path / "shed.toml"
    keep_draft(job, KEPT)
    aside = set_aside(job)
    assert aside.name == ".shed.toml.draft-old"
    assert aside.is_file()
    assert read_draft(job) is None


@pytest.mark.parametrize(
    "change",
    [{"schema": "other/1"}, {"state": []}, {"revision": "x"}, {"digest": None, "revision": []}],
)
def test_what_is_no_draft_of_ours_is_none(tmp_path, change):
    job = tmp_path / "shed.toml"
    keep_draft(job, KEPT)
    data = json.loads(draft_path(job).read_text()) | change
    draft_path(job).write_text(json.dumps(data))
    assert read_draft(job) is None


@pytest.mark.parametrize(("more", "read"), [(0, True), (1, False)])
def test_a_draft_without_end_is_none_of_ours(tmp_path, monkeypatch, more, read):
    job = tmp_path / "shed.toml"
    keep_draft(job, KEPT)
    monkeypatch.setattr(draft, "LARGEST", draft_path(job).stat().st_size - more)
    assert (read_draft(job) == KEPT) is read


def test_two_states_of_a_file_differ():
    assert digest_of(b"a") != digest_of(b"b")
    assert digest_of(b"a") == digest_of(b"a")
    assert Conflict("file", "words").which == "file"
