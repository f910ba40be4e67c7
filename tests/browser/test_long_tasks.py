"""In the browser: long work says what it is at and can be stopped; a job is saved under another name."""

import re
import time
import tomllib
from pathlib import Path

import ezdxf
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


LAYING_OUT = re.compile(r"Laying out (part|piece|block) \d+ of \d+")
"""What the engine says that it is at, of the whole or of what it has divided that into."""

RESTING = 1
"""Ticks that a process which waits may use in half a second."""


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
    """Whether a process that this one started uses the processor; it may get little of it."""
    before = children(process)
    time.sleep(0.5)
    return any(used - before.get(pid, used) > RESTING for pid, used in children(process).items())


def test_long_work_says_what_it_is_at_and_is_stopped(page, serve, tmp_path):
    path = house(tmp_path, LONG)
    address, process = serve(path)
    page.driver.get(address)
    page.wait(lambda: LAYING_OUT.search(page.text("#busy")), 6 * PATIENCE)
    page.click("#stop")
    page.wait(lambda: page.all(".slab") and page.text("#totals"))
    assert joints(page) == {}
    page.wait(lambda: not burns(process))
    page.click("#complete")
    page.wait(lambda: LAYING_OUT.search(page.text("#busy")), 6 * PATIENCE)
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


def test_a_drawing_that_is_taken_says_what_it_is_at_and_is_stopped(page, serve, tmp_path):
    address, process = serve(house(tmp_path, HOUSE))
    page.open(address)
    document = ezdxf.new()
    document.header["$INSUNITS"] = 2
    outline = tomllib.loads(LONG)["slab"]["outline"]
    document.modelspace().add_lwpolyline(outline, close=True, dxfattribs={"layer": "SLAB"})
    document.saveas(tmp_path / "plan.dxf")
    before = joints(page)
    page.one("#file").send_keys(str(tmp_path / "plan.dxf"))
    page.wait(lambda: "SLAB" in page.text("#dialog"))
    page.click("#dialog .main")
    page.wait(lambda: LAYING_OUT.search(page.text("#dialog .wait")), 6 * PATIENCE)
    assert not page.one("#dialog .main").is_enabled()
    page.wait(lambda: burns(process))
    page.forgive("422")
    page.click("#dialog .wait button")
    page.wait(lambda: page.text("#dialog .trouble") == "Stopped.")
    page.wait(lambda: not burns(process))
    assert sorted(p.suffix for p in tmp_path.iterdir()) == [".dxf", ".page", ".toml"]
    page.click("#dialog .main")
    page.wait(lambda: LAYING_OUT.search(page.text("#dialog .wait")), 6 * PATIENCE)
    page.one("body").send_keys(Keys.ESCAPE)
    page.wait(lambda: not page.one("#dialog").is_displayed())
    page.wait(lambda: not burns(process))
    assert joints(page) == before


def test_a_building_model_asks_which_floor(page, serve, tmp_path):
    pytest.importorskip("ifcopenshell")
    from models import ModelWriter, rectangle

    model = ModelWriter()
    model.prism("IfcSlab", rectangle(0, 0, 9000, 6000), -200, 0, predefined="FLOOR")
    annexe = {"predefined": "FLOOR", "storey": "Annexe"}
    model.prism("IfcSlab", rectangle(9000, 0, 6000, 5000), -150, 0, **annexe)
    model.save(tmp_path / "plan.ifc")
    page.open(serve(house(tmp_path, HOUSE))[0])
    page.one("#file").send_keys(str(tmp_path / "plan.ifc"))
    page.wait(lambda: "2 slabs that can be meant" in page.text("#dialog"), 2 * PATIENCE)
    assert not page.one("#dialog .main").is_enabled()
    page.click("#dialog input[name=floor][value='2']")
    page.wait(lambda: page.one("#dialog .main").is_enabled(), 2 * PATIENCE)
    assert page.one("#import-thickness").get_attribute("value") == "150 mm"
    page.script("document.querySelector('#storey').value = 'Ground floor'")
    page.script("document.querySelector('#storey').dispatchEvent(new Event('change'))")
    page.wait(lambda: "9000 mm x 6000 mm" in page.text("#dialog"), 2 * PATIENCE)
    page.wait(lambda: page.one("#import-thickness").get_attribute("value") == "200 mm")
    page.click("#dialog .main")
    page.wait(lambda: "How the drawing was read" in page.text("#dialog"), 2 * PATIENCE)
    assert page.one("#thickness").get_attribute("value") == '7 7/8"'
