"""Many slabs at once, as a user runs them: alone or together, the same; what fails stops no other."""

import csv
import json
import shutil
import signal
import subprocess
import sys
import time

import psutil
import pytest

from commands import flowing, run
from houses import HOUSE, house
from kerfline.cli import many as cli_many
from kerfline.library.many import LIMIT


@pytest.fixture
def plans(tmp_path):
    """Three houses, two of one plan, and one that cannot be read."""
    folder = tmp_path / "plans"
    house(folder, "oak", 40)
    house(folder, "elm", 30)
    house(folder, "yew", 30)
    house(folder, "bad", 30, HOUSE.replace("thickness", "thikness"))
    return folder


def rows(folder):
    with (folder / "summary.csv").open(newline="") as file:
        return {row["slab"]: row for row in csv.DictReader(file)}


def figures(folder, name):
    """The figures of a slab's own record, in metres: an oracle for its row."""
    data = json.loads((folder / name / f"{name}-layout.json").read_text())
    return {
        "panels": len(data["panels"]),
        "joints_m": round(data["totals"]["joint_length"] / 1000, 2),
        "area_m2": round(sum(p["area"] for p in data["panels"]) / 1e6, 2),
        "run": data["run"],
    }


def test_many_are_laid_out_as_each_alone_and_summed_up(plans, tmp_path):
    out, alone = tmp_path / "out", tmp_path / "alone"
    result = run("layout", plans, "--out", out, "--workers", "2")
    assert result.exit_code == 2, "the worst of all"
    assert "bad.toml line 6" in flowing(result)
    table = rows(out)
    assert [table[n]["state"] for n in ("Oak", "Elm", "Yew", "bad")] == ["done"] * 3 + ["refused"]
    for name in ("oak", "elm", "yew"):
        run("layout", plans / f"{name}.toml", "--out", alone / name)
        for path in (alone / name).glob("[!.]*"):
            assert (out / name / path.name).read_bytes() == path.read_bytes(), path.name
        own = figures(out, name)
        row = table[name.title()]
        assert {key: type(own[key])(row[key]) for key in own} == own
        assert float(row["concrete_m3"]) == pytest.approx(float(row["area_m2"]) * 0.1016, abs=0.01)
    total = next(line for line in result.output.splitlines() if line.startswith("concrete"))
    assert total.split()[1:] == ["24.69", "yd3"], "100 ft x 20 ft x 4 in / 27"
    assert (out / "summary.pdf").is_file()
    assert not (out / "bad").exists()


def test_what_has_not_changed_is_left(plans, tmp_path):
    (plans / "bad.toml").unlink()
    out = tmp_path / "out"
    assert run("layout", plans, "--out", out).exit_code == 0
    before = {p: p.stat().st_mtime_ns for p in out.glob("*/*")}
    house(plans, "elm", 32)
    (out / "yew" / "yew-joints.csv").unlink()
    result = run("layout", plans, "--out", out)
    assert {n: row["state"] for n, row in rows(out).items()} == {
        "Oak": "unchanged", "Elm": "done", "Yew": "done",
    }  # fmt: skip
    assert result.exit_code == 0
    after = {p: p.stat().st_mtime_ns for p in out.glob("oak/*")}
    assert after == {p: t for p, t in before.items() if p.parent.name == "oak"}
    run("layout", plans, "--out", out, "--again")
    assert {row["state"] for row in rows(out).values()} == {"done"}


def test_equal_files_are_drawn_once_and_one_name_is_not_written_twice(tmp_path):
    first = house(tmp_path / "a", "oak", 40)
    same = tmp_path / "b" / "copy.toml"
    same.parent.mkdir()
    shutil.copy(first, same)
    other = house(tmp_path / "c", "oak", 30)
    result = run("layout", first, same, other, "--out", tmp_path / "out")
    assert result.exit_code == 2
    with (tmp_path / "out" / "summary.csv").open(newline="") as file:
        states = [row["state"] for row in csv.DictReader(file)]
    assert states == ["done", "same plan", "refused"]
    assert "have one name" in flowing(result)


def test_check_and_day_take_many_too(tmp_path):
    jointed = HOUSE + "\n[[joint]]\npath = [[10, 0], [10, 20]]\n"
    folder = tmp_path / "plans"
    house(folder, "oak", 20, jointed)
    house(folder, "elm", 40, jointed)
    checked = run("check", folder, "--out", tmp_path / "checked")
    assert checked.exit_code == 1, checked.output
    table = rows(tmp_path / "checked")
    assert table["Elm"]["errors"] != "0"
    assert (tmp_path / "checked" / "elm" / "elm-check.csv").is_file()
    assert run("day", folder, "--out", tmp_path / "day").exit_code in (0, 1)
    assert (tmp_path / "day" / "oak" / "oak-day.txt").is_file()
    refused = run("check", folder, "--mend")
    assert refused.exit_code == 2
    assert "--mend is for one slab" in refused.output


def started(plans, out):
    """A run in a process of its own, and its workers once they are at work."""
    command = [sys.executable, "-m", "kerfline", "layout", plans, "--out", out, "--workers", "2"]
    begun = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    deadline = time.monotonic() + 60
    while not list(out.glob("*")) and time.monotonic() < deadline:
        time.sleep(0.02)
    return begun, [p for p in psutil.Process(begun.pid).children(recursive=True) if _works(p)]


def _works(process):
    return "forkserver" not in " ".join(process.cmdline()) or process.parent().pid != process.pid


@pytest.fixture
def tract(tmp_path):
    for number in range(8):
        house(tmp_path / "plans", f"house{number}", 40 + number)
    return tmp_path / "plans"


def test_a_stop_ends_all_of_it_in_one_line(tract, tmp_path):
    out = tmp_path / "out"
    begun, workers = started(tract, out)
    for process in [psutil.Process(begun.pid), *workers]:  # as a terminal sends it to all
        process.send_signal(signal.SIGINT)
    _, told = begun.communicate(timeout=60)
    assert begun.returncode == 130, told
    assert told == "stopped; no file is left half written\n"
    _, alive = psutil.wait_procs(workers, timeout=20)
    assert not [p for p in alive if p.status() != psutil.STATUS_ZOMBIE]
    for folder in out.iterdir():
        written = {p.suffix for p in folder.glob("[!.]*")}
        assert not written or written >= {".dxf", ".pdf", ".json"}, "a set is whole or not there"


def test_a_worker_that_is_killed_is_survived(tract, tmp_path):
    out = tmp_path / "out"
    begun, workers = started(tract, out)
    victim = max(workers, key=lambda p: p.memory_info().rss)
    victim.kill()
    said, _ = begun.communicate(timeout=120)
    assert begun.returncode == 0, said
    assert {row["state"] for row in rows(out).values()} == {"done"}
    assert len(rows(out)) == 8


def test_the_time_that_one_may_take_is_that_of_the_library():
    """The command line keeps its own figure so that ``--help`` loads no library."""
    assert cli_many.LIMIT == LIMIT


@pytest.mark.parametrize("terminal", [True, False])
def test_one_line_of_progress_is_written_over_and_over_on_a_terminal_alone(
    terminal, monkeypatch, capsys
):
    monkeypatch.setattr(cli_many.sys.stderr, "isatty", lambda: terminal, raising=False)
    tell = cli_many._progress()
    tell(1, 2, "x" * 200)
    tell(2, 2, "Elm")
    told = capsys.readouterr().err
    if not terminal:
        assert told == ""
        return
    first, second = told.split("\r")[1:]
    assert len(first) == 78
    assert second == f"{'  2 of 2: Elm':<78}\n"
