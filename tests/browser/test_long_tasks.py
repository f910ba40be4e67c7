"""In the browser: long work says what it is at and can be stopped; a job is saved under another name."""

import os
import time
from pathlib import Path

import pytest
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.keys import Keys

from browsing import PATIENCE, joints
from paged import HOUSE, house

pytestmark = pytest.mark.browser

LONG = """\
[job]
name = "Long"
units = "ft"
[slab]
thickness = "4 in"
outline = [[0, 0], [137, 11], [150, 83], [98, 120], [31, 101], [-12, 60]]
[rules]
set = "floor"
"""
"""A slab whose sides run every way: other good layouts of it take the engine a long while."""


def children(process):
    """The processes that a process has started, by what they have used of the processor (ticks)."""
    found = {}
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            words = stat.read_text().rpartition(")")[2].split()
        except OSError:
            continue
        if int(words[1]) == process.pid:
            found[int(stat.parent.name)] = int(words[11]) + int(words[12])
    return found


def burns(process):
    """Whether a process or one that it started uses the processor."""
    tick = os.sysconf("SC_CLK_TCK")
    before = children(process)
    time.sleep(0.5)
    return any(used - before.get(pid, used) > 0.1 * tick for pid, used in children(process).items())


def test_long_work_says_what_it_is_at_and_is_stopped(page, serve, tmp_path):
    path = house(tmp_path, LONG)
    address, process = serve(path)
    page.driver.get(address)
    page.wait(lambda: "Laying out part 1" in page.text("#busy"), 6 * PATIENCE)
    page.click("#stop")
    page.wait(lambda: page.all(".slab") and page.text("#totals"))
    assert joints(page) == {}
    page.wait(lambda: not burns(process))
    page.click("#complete")
    page.wait(lambda: "Laying out part 1" in page.text("#busy"), 6 * PATIENCE)
    page.wait(lambda: burns(process))
    page.forgive("422")
    page.click("#stop")
    page.wait(lambda: page.text("#message").startswith("Stopped."))
    page.wait(lambda: not burns(process))
    assert joints(page) == {}
    assert page.text("#busy") == "" or not page.one("#busy").is_displayed()


def test_a_job_is_saved_under_another_name_by_keys(page, serve, tmp_path):
    path = house(tmp_path, HOUSE)
    page.open(serve(path)[0])
    keys = ActionChains(page.driver)
    keys.key_down(Keys.CONTROL).key_down(Keys.SHIFT).send_keys("s").key_up(Keys.SHIFT).key_up(
        Keys.CONTROL
    ).perform()
    page.wait(lambda: page.one("#new-name").is_displayed())
    assert str(tmp_path) in page.text("#dialog")
    ActionChains(page.driver).send_keys("Second way", Keys.ENTER).perform()
    page.wait(lambda: "Saved in second-way.toml" in page.text("#message"))
    assert page.text("#saved") == "Saved in second-way.toml"
    assert page.text("#job-name") == "Second way"
    assert path.read_text() == HOUSE
    assert 'name = "Second way"' in (tmp_path / "second-way.toml").read_text()
