"""A run replaces its whole set; files of somebody else stay."""

import json
from pathlib import Path

import pytest

from kerfline.files.set_record import list_name, read_list, write_set

PLAN = {"shed-joint-plan.svg": b"1", "shed-joint-plan-2.svg": b"2", "shed-layout.json": b"{}"}
FEWER = {"shed-joint-plan.svg": b"only", "shed-layout.json": b"{ }"}


def names(folder):
    return sorted(path.name for path in folder.glob("[!.]*"))


def test_what_a_run_no_longer_makes_goes(tmp_path):
    write_set(tmp_path, "shed", "layout", "aa", PLAN)
    written = write_set(tmp_path, "shed", "layout", "bb", FEWER)
    assert names(tmp_path) == sorted(FEWER)
    assert written.removed == ("shed-joint-plan-2.svg",)
    assert written.edited == written.older == ()
    assert written.files == tuple(tmp_path / name for name in FEWER)


def test_files_that_were_not_written_by_us_are_never_touched(tmp_path):
    """Not even those that are called as ours are."""
    mine = {"shed-joint-plan-3.svg": b"mine", "notes.txt": b"mine"}
    for name, data in mine.items():
        (tmp_path / name).write_bytes(data)
    write_set(tmp_path, "shed", "layout", "aa", PLAN)
    write_set(tmp_path, "shed", "layout", "bb", FEWER)
    assert names(tmp_path) == sorted({*FEWER, *mine})
    assert all((tmp_path / name).read_bytes() == data for name, data in mine.items())


def test_a_sheet_that_somebody_marked_up_stays_and_is_told(tmp_path):
    write_set(tmp_path, "shed", "layout", "aa", PLAN)
    (tmp_path / "shed-joint-plan-2.svg").write_bytes(b"with red lines")
    written = write_set(tmp_path, "shed", "layout", "bb", FEWER)
    assert written.removed == ()
    assert written.edited == ("shed-joint-plan-2.svg",)
    assert (tmp_path / "shed-joint-plan-2.svg").read_bytes() == b"with red lines"


def test_another_command_replaces_its_own_files_and_those_of_the_same_kind(tmp_path):
    """The day parts the slab: the cut sheet of the whole slab goes, the joint plan stays."""
    write_set(tmp_path, "shed", "layout", "aa", {**PLAN, "shed-cut-sheet-2.svg": b"whole"})
    placed = {"shed-cut-sheet-placement-1-2.svg": b"first", "shed-day.txt": b"day"}
    written = write_set(tmp_path, "shed", "day", "aa", placed)
    assert written.removed == ("shed-cut-sheet-2.svg",)
    assert names(tmp_path) == sorted({*PLAN, *placed})
    assert write_set(tmp_path, "shed", "layout", "aa", PLAN).removed == ()


def test_sheets_of_another_layout_are_told_and_left(tmp_path):
    write_set(tmp_path, "shed", "layout", "aa", PLAN)
    written = write_set(tmp_path, "shed", "day", "bb", {"shed-day.txt": b"day"})
    assert written.older == tuple(sorted(PLAN))
    assert write_set(tmp_path, "shed", "layout", "bb", PLAN).older == ()


def test_jobs_that_share_a_folder_keep_apart(tmp_path):
    write_set(tmp_path, "shed", "layout", "aa", PLAN)
    write_set(tmp_path, "barn", "layout", "bb", {"barn-layout.json": b"{}"})
    assert names(tmp_path) == sorted([*PLAN, "barn-layout.json"])


@pytest.mark.parametrize(
    "text",
    [b"", b"[]", b"{}", b'{"schema": "kerfline-files/1"}', b'{"schema": "x", "files": {}}',
     b'{"schema": "kerfline-files/1", "files": {"a": 1}}', b"\xff", b"[" * 100_000],
)  # fmt: skip
def test_a_list_that_cannot_be_read_lists_nothing(tmp_path, text):
    (tmp_path / list_name("shed")).write_bytes(text)
    assert read_list(tmp_path, "shed") == {}
    write_set(tmp_path, "shed", "layout", "aa", PLAN)
    assert set(read_list(tmp_path, "shed")) == set(PLAN)


def test_a_name_that_leads_out_of_the_folder_is_not_believed(tmp_path):
    outside = tmp_path / "mine.txt"
    outside.write_bytes(b"mine")
    folder = tmp_path / "out"
    write_set(folder, "shed", "layout", "aa", PLAN)
    path = folder / list_name("shed")
    data = json.loads(path.read_bytes())
    entry = {**data["files"].pop("shed-layout.json")}
    data["files"]["../mine.txt"] = entry
    path.write_text(json.dumps(data))
    write_set(folder, "shed", "layout", "bb", FEWER)
    assert outside.read_bytes() == b"mine"


def test_the_list_is_written_with_the_set_or_not_at_all(tmp_path, monkeypatch):
    write_set(tmp_path, "shed", "layout", "aa", PLAN)
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    monkeypatch.setattr(Path, "rename", _fails)
    with pytest.raises(Exception, match="cannot be written"):
        write_set(tmp_path, "shed", "layout", "bb", FEWER)
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == before


def _fails(self, target):
    raise OSError(5, "Input/output error")
