"""What is on the page is never lost and never written over: drafts, saving, two windows, faults."""

import errno
import json
import os
import re
import signal
import subprocess
import sys
import textwrap
import time
import tomllib
from pathlib import Path

import pytest

from kerfline.errors import InputRefused, OutputRefused
from kerfline.web.desk import Desk
from kerfline.web.draft import draft_path, read_draft
from paged import FT, HOUSE, client, house, opened


def moved(desk, state, by=0.5 * FT):
    """The state with joint J2 moved."""
    return desk.looks.change(
        {"state": state, "action": {"do": "slide", "id": "J2", "by": [by, 0]}}
    )["state"]


def test_a_draft_comes_back_in_a_new_server(tmp_path):
    desk, answer = opened(tmp_path)
    state = moved(desk, answer["state"])

    desk.keeping.keep_draft({"state": state, "revision": answer["revision"]})
    again = Desk(desk.disk.path).open({})

    assert again["state"] == state
    assert again["saved"] == answer["state"]
    assert "back" in again["restored"]
    assert desk.disk.path.read_text() == HOUSE


def test_saving_writes_what_is_on_the_page_and_takes_the_draft_away(tmp_path):
    desk, answer = opened(tmp_path)
    state = moved(desk, answer["state"])
    kept = desk.keeping.keep_draft({"state": state, "revision": answer["revision"]})

    desk.keeping.save({"state": state, "revision": kept["revision"]})
    again = Desk(desk.disk.path).open({})

    assert again["state"] == state
    assert again["saved"] == state
    assert not draft_path(desk.disk.path).exists()


def test_comments_and_order_of_a_hand_written_file_survive_a_save(tmp_path):
    desk, answer = opened(tmp_path)
    state = moved(desk, answer["state"])
    for action in (
        {"do": "thickness", "text": "5 in"},
        {"do": "set", "what": "wall", "id": "W1", "field": "thickness", "value": "6 in"},
        {"do": "rules", "set": "floor", "to_maximum": True},
        {"do": "add", "what": "column", "points": [[5 * FT, 5 * FT]]},
        {"do": "delete", "what": "joint", "id": "J1"},
    ):
        state = desk.looks.change({"state": state, "action": action})["state"]

    desk.keeping.save({"state": state, "revision": answer["revision"]})
    text = desk.disk.path.read_text()

    comments = re.findall(r"#.*", HOUSE)
    assert [c for c in comments if c in text] == comments
    assert re.findall(r"^\[.*?\]+", text, re.MULTILINE)[:5] == [
        "[job]", "[slab]", "[[wall]]", "[[penetration]]", "[rules]",
    ]  # fmt: skip
    assert text.index("outline") < text.index("thickness")
    saved = tomllib.loads(text)
    assert saved["slab"]["thickness"] == "5 in"
    assert saved["wall"][0] == {"path": [[10, 0], [10, 20]], "id": "W1", "thickness": "6 in"}
    assert saved["rules"]["to_maximum"] is True
    assert len(saved["column"]) == 1
    assert {j["id"]: j["reason"] for j in saved["joint"]}["J2"] == "pinned"


def test_a_save_without_a_change_leaves_the_file_as_it_is(tmp_path):
    desk, answer = opened(tmp_path)

    desk.keeping.save({"state": answer["state"], "revision": answer["revision"]})

    assert desk.disk.path.read_text() == HOUSE


def test_a_second_window_is_told_and_nothing_of_either_is_lost(tmp_path):
    desk, answer = opened(tmp_path)
    page = client(desk)
    mine, theirs = moved(desk, answer["state"]), moved(desk, answer["state"], FT)

    first = page.post("draft", json={"state": theirs, "revision": answer["revision"]})
    second = page.post("draft", json={"state": mine, "revision": answer["revision"]})
    saving = page.post("save", json={"state": mine, "revision": answer["revision"]})

    assert first.status_code == 200
    assert second.status_code == saving.status_code == 409
    assert second.json()["which"] == "draft"
    assert read_draft(desk.disk.path).state == theirs
    assert desk.disk.path.read_text() == HOUSE
    over = page.post("draft", json={"state": mine, "revision": answer["revision"], "over": True})
    assert over.status_code == 200
    assert read_draft(desk.disk.path).state == mine


def test_two_servers_on_one_job_do_not_write_over_each_other(tmp_path):
    desk, answer = opened(tmp_path)
    other = Desk(desk.disk.path)
    there = other.open({})

    desk.keeping.keep_draft({"state": moved(desk, answer["state"]), "revision": answer["revision"]})
    late = client(other).post(
        "draft", json={"state": there["state"], "revision": there["revision"]}
    )

    assert late.status_code == 409


def test_a_file_that_was_changed_by_hand_is_not_written_over(tmp_path):
    desk, answer = opened(tmp_path)
    page = client(desk)
    desk.disk.path.write_text(HOUSE.replace("4 in", "6 in", 1))

    late = page.post("save", json={"state": answer["state"], "revision": answer["revision"]})

    assert late.status_code == 409
    assert late.json()["which"] == "file"
    assert '"6 in"' in desk.disk.path.read_text()


def test_a_draft_of_another_state_of_the_file_is_set_aside(tmp_path):
    desk, answer = opened(tmp_path)
    desk.keeping.keep_draft({"state": moved(desk, answer["state"]), "revision": answer["revision"]})
    desk.disk.path.write_text(HOUSE.replace("4 in", "6 in", 1))

    again = Desk(desk.disk.path).open({})

    assert "set aside" in again["restored"]
    assert again["state"]["slab"]["thickness"] == pytest.approx(152.4)
    assert list(tmp_path.glob(".boathouse.toml.draft-old"))


def test_a_draft_that_makes_no_sense_is_set_aside(tmp_path):
    desk, answer = opened(tmp_path)
    desk.keeping.keep_draft({"state": answer["state"], "revision": answer["revision"]})
    draft = json.loads(draft_path(desk.disk.path).read_text())
    draft["state"]["slab"]["outline"]["points"] = [[0, 0], [1, 1]]
    draft_path(desk.disk.path).write_text(json.dumps(draft))

    again = Desk(desk.disk.path).open({})

    assert "cannot be used" in again["restored"]
    assert again["state"] == answer["state"]


@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EACCES, errno.EROFS, errno.EIO])
def test_a_full_disk_is_told_and_the_old_file_stays(tmp_path, monkeypatch, code):
    desk, answer = opened(tmp_path)
    page = client(desk)
    state = moved(desk, answer["state"])

    def full(*_, **__):
        raise OSError(code, os.strerror(code))

    monkeypatch.setattr("tempfile.mkstemp", full)
    keeping = page.post("draft", json={"state": state, "revision": answer["revision"]})
    saving = page.post("save", json={"state": state, "revision": answer["revision"]})

    assert keeping.status_code == saving.status_code == 507
    assert os.strerror(code).lower() in saving.json()["refused"][0].lower()
    assert desk.disk.path.read_text() == HOUSE
    assert [p.name for p in tmp_path.iterdir()] == ["boathouse.toml"]


def test_a_disk_that_fills_while_writing_leaves_no_half_file(tmp_path, monkeypatch):
    desk, answer = opened(tmp_path)
    state = moved(desk, answer["state"])
    desk.keeping.keep_draft({"state": state, "revision": answer["revision"]})
    before = draft_path(desk.disk.path).read_bytes()

    def full(_):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(OutputRefused):
        desk.keeping.keep_draft({"state": answer["state"], "revision": desk.keeping.revision})

    assert draft_path(desk.disk.path).read_bytes() == before
    assert len(list(tmp_path.iterdir())) == 2


SAVES_FOR_EVER = """
    import sys
    from pathlib import Path
    from kerfline.web.desk import Desk
    desk = Desk(Path(sys.argv[1]))
    answer = desk.open({})
    states = [answer["state"]]
    for inches in range(1, 4):
        action = {"do": "slide", "id": "J2", "by": [inches * 25.4, 0]}
        states.append(desk.looks.change({"state": answer["state"], "action": action})["state"])
    print("ready", flush=True)
    while True:
        for state in states:
            desk.keeping.keep_draft({"state": state, "revision": desk.keeping.revision})
            desk.keeping.save({"state": state, "revision": desk.keeping.revision})
"""


def test_a_server_killed_in_mid_save_leaves_a_whole_file_or_the_old_one(tmp_path):
    """Killed without warning at different moments while it keeps and saves without end."""
    path = house(tmp_path)
    for delay in range(1, 3):
        with subprocess.Popen(
            [sys.executable, "-c", textwrap.dedent(SAVES_FOR_EVER), str(path)],
            stdout=subprocess.PIPE,
            text=True,
        ) as server:
            assert server.stdout.readline() == "ready\n"
            time.sleep(0.011 + 0.037 * delay)
            server.send_signal(signal.SIGKILL)
        names = {j["id"] for j in tomllib.loads(path.read_text())["joint"]}
        assert names == {"J1", "J2", "J3"}
        assert Desk(path).open({})["state"]["joints"]


def test_the_folder_holds_only_the_job_and_its_draft(tmp_path):
    desk, answer = opened(tmp_path)
    desk.keeping.keep_draft({"state": answer["state"], "revision": answer["revision"]})

    assert sorted(p.name for p in Path(tmp_path).iterdir()) == [
        ".boathouse.toml.draft", "boathouse.toml",
    ]  # fmt: skip


def test_saved_under_another_name_the_old_file_stays(tmp_path):
    """The new file takes the comments over, and work goes on there."""
    desk, seen = opened(tmp_path)
    old = desk.disk.job_file.read_text()
    moved = desk.looks.change(
        {"state": seen["state"], "action": {"do": "delete", "what": "wall", "id": "W1"}}
    )
    desk.keeping.keep_draft({"state": moved["state"], "revision": 0})
    answer = desk.save_as({"state": moved["state"], "name": "Boathouse, second way", "revision": 1})
    assert (answer["file"], answer["folder"]) == ("boathouse-second-way.toml", str(tmp_path))
    assert answer["picture"]["job"] == "Boathouse, second way"
    assert (tmp_path / "boathouse.toml").read_text() == old
    new = (tmp_path / "boathouse-second-way.toml").read_text()
    assert "# cores: 4 to 4 1/4 in" in new
    assert "[[wall]]" not in new
    assert [p.name for p in tmp_path.glob(".*.draft")] == []
    assert desk.open({})["saved"] == answer["state"]
    assert Desk(tmp_path / "boathouse-second-way.toml").open({})["state"] == answer["state"]


@pytest.mark.parametrize("name", ["", "   ", "x" * 121, "Boathouse"])
def test_no_name_and_a_name_that_is_taken_are_refused(tmp_path, name):
    desk, seen = opened(tmp_path)
    before = {p: p.read_bytes() for p in tmp_path.iterdir()}
    with pytest.raises(InputRefused, match=r"needs a name|of that name already"):
        desk.save_as({"state": seen["state"], "name": name, "revision": 0})
    assert {p: p.read_bytes() for p in tmp_path.iterdir()} == before
    assert desk.disk.job_file.name == "boathouse.toml"
