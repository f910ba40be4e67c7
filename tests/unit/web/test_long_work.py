"""Long work is done apart, told of in words, and stopped at once with all that it holds."""

import os
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from kerfline.errors import InputRefused
from kerfline.web.desk import Desk
from kerfline.web.long_work import LongWork, Stopped
from long_pieces import doubled, dying, endless, reading, refused
from paged import HOUSE, client, house

TESTS = Path(__file__).parents[2]

PATIENCE = 30.0
"""Seconds that a process may take to start on a busy machine."""


@pytest.fixture
def works():
    """A place for long work, empty again after the test."""
    works = LongWork()
    yield works
    works.close()


def until(condition):
    """Waits until a condition holds."""
    end = time.monotonic() + PATIENCE
    while not condition():
        assert time.monotonic() < end
        time.sleep(0.02)


def is_gone(pid):
    """Whether a process is there no more."""
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return True
    return False


def test_work_is_done_in_a_process_that_waits_for_the_next(works):
    (four, one), (six, two) = works.do("a", doubled, 2), works.do("b", doubled, 3)
    assert (four, six) == (4, 6)
    assert one == two != os.getpid()


def test_what_is_refused_there_is_refused_here_and_costs_no_process(works):
    with pytest.raises(InputRefused, match=r"here: this is wrong\."):
        works.do("a", refused)
    assert works.do("b", doubled, 1)[0] == 2
    assert len(works.idle) == 1


def test_work_whose_process_dies_says_so(works):
    with pytest.raises(Stopped, match="ended before it was done"):
        works.do("a", dying)
    assert works.do("b", doubled, 1)[0] == 2


def test_stopped_work_frees_its_process_at_once(works, tmp_path):
    ends, mark = [], tmp_path / "begun"

    def ask():
        try:
            works.do("long", endless, mark)
        except Stopped as stopped:
            ends.append(str(stopped))

    asking = threading.Thread(target=ask)
    asking.start()
    until(lambda: works.words("long") == "Counting to the end of numbers")
    works.stop("long")
    asking.join(PATIENCE)
    assert ends == ["Stopped."]
    assert is_gone(int(mark.read_text()))
    assert works.words("long") == ""
    assert (works.pieces, works.idle) == ({}, [])
    works.stop("long")  # nothing is there to stop


def test_what_the_work_waits_for_ends_with_it(works, tmp_path):
    mark = tmp_path / "reader"

    def ask():
        with pytest.raises(Stopped):
            works.do("a", reading, mark)

    asking = threading.Thread(target=ask)
    asking.start()
    until(lambda: works.words("a") == "Reading")
    works.stop("a")
    asking.join(PATIENCE)
    until(lambda: is_gone(int(mark.read_text())))


SERVER = """
import sys
from pathlib import Path
from kerfline.web.long_work import LongWork
from long_pieces import endless
if __name__ == "__main__":
    LongWork().do("a", endless, Path(sys.argv[1]))
"""


def test_work_ends_where_the_server_is_killed(tmp_path):
    mark, program = tmp_path / "begun", tmp_path / "server.py"
    program.write_text(SERVER)
    beside = {**os.environ, "PYTHONPATH": os.pathsep.join([str(TESTS), *sys.path])}
    with subprocess.Popen([sys.executable, program, mark], env=beside) as server:
        until(lambda: mark.exists() and mark.read_text())
        server.kill()
    until(lambda: is_gone(int(mark.read_text())))


def test_the_page_is_answered_the_same_by_work_that_is_named(tmp_path):
    text = HOUSE.split("[[joint]]")[0]
    desk = Desk(house(tmp_path, text))
    page = client(desk)
    state = page.post("open", json={}).json()["state"]
    try:
        here = page.post("complete", json={"state": state}).json()
        apart = page.post("complete", json={"state": state, "work": "one"}).json()
        assert {**apart, "at": ""} == {**here, "at": ""}
        assert page.post("progress", json={"work": "one"}).json() == {"words": ""}
        assert page.post("stop", json={"work": "one"}).json() == {}
        files = page.post("export", json={"state": state, "work": "two"}).json()
        assert (tmp_path / files["folder"] / files["files"][0]).is_file()
    finally:
        desk.works.close()


def test_a_page_whose_layout_was_stopped_gets_the_bare_slab(tmp_path: Path):
    page = client(Desk(house(tmp_path, HOUSE.split("[[joint]]")[0])))
    assert page.post("open", json={"bare": True}).json()["picture"]["joints"] == []
    assert page.post("open", json={}).json()["picture"]["joints"]
