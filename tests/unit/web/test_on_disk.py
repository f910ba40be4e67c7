"""What the page was opened on: a job file, a drawing with or without one, a size, or nothing."""

from dataclasses import replace
from pathlib import Path

import pytest

from kerfline.app.open_job import open_job
from kerfline.app.wishes import Wishes
from kerfline.errors import InputRefused
from kerfline.web.on_disk import OnDisk
from paged import house


def begun_at(folder: Path, name="Boathouse"):
    """An empty board on which a slab of that name was begun."""
    disk = OnDisk(None, Wishes())
    disk.begin(replace(open_job(house(folder)), name=name))
    return disk


def test_a_job_file_that_another_hand_changed_is_read_again(tmp_path):
    path = house(tmp_path)
    disk = OnDisk(path, Wishes())
    first = disk.base
    assert (disk.path, disk.job_file, disk.changed()) == (path, path, False)
    disk.read_if_changed()
    assert disk.base is first
    path.write_text(path.read_text().replace("Boathouse", "Quay"))
    assert disk.changed()
    disk.read_if_changed()
    assert (disk.base.name, disk.changed()) == ("Quay", False)


def test_an_empty_board_takes_one_slab(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(InputRefused, match="of that name already"):
        begun_at(tmp_path)
    disk = begun_at(tmp_path, "Second quay")
    assert disk.where() == {"file": "second-quay.toml", "folder": str(tmp_path)}
    assert (disk.blank, disk.begun, disk.digest) == (False, True, "")
    with pytest.raises(InputRefused, match="begun already"):
        disk.begin(disk.base)


def test_what_is_begun_is_not_read_from_the_disk_until_it_is_saved(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    disk = begun_at(tmp_path, "Second quay")
    disk.read()
    assert disk.base.name == "Second quay"
    (tmp_path / "boathouse.toml").rename(disk.job_file)
    disk.saved(disk.job_file)
    assert (disk.begun, disk.changed(), disk.base.name) == (False, False, "Boathouse")


def test_a_drawing_waits_for_what_the_user_says_unless_it_has_a_job_file(tmp_path):
    drawing = tmp_path / "boathouse.dxf"
    drawing.write_text("0\nSECTION\n2\nENTITIES\n0\nENDSEC\n0\nEOF\n")
    alone = OnDisk(drawing, Wishes())
    assert (alone.undrawn, alone.path, alone.words) == (True, drawing, "")
    assert alone.base.slab.outline.points == ()
    beside = OnDisk(drawing, Wishes()) if house(tmp_path) else None
    assert (beside.undrawn, beside.path) == (False, tmp_path / "boathouse.toml")
    assert "boathouse.toml beside the drawing" in beside.words


def test_a_size_is_a_slab_that_is_begun(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    disk = OnDisk(Path("40 ft x 28 ft"), Wishes(thickness="4 in"))
    assert disk.begun
    assert disk.base.slab.outline.polygon.area == pytest.approx(40 * 28 * 304.8**2)
    disk.job_file.write_text("")
    with pytest.raises(InputRefused, match="of that size already"):
        OnDisk(Path("40 ft x 28 ft"), Wishes(thickness="4 in"))
