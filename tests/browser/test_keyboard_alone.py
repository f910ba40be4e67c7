"""The whole main job without a pointer and without sight: keys alone, told by words that a reader speaks."""

import pytest
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.keys import Keys

from browsing import focused, joints, panels
from kerfline.app.open_job import open_job
from paged import HOUSE, house

pytestmark = pytest.mark.browser

MOST_TABS = 120
"""Nothing on the page is farther than this many presses of Tab."""


def press(page, *keys):
    """Presses keys where the focus is."""
    ActionChains(page.driver).send_keys(*keys).perform()


def held(page, modifier, key):
    """Presses a key while another is held."""
    ActionChains(page.driver).key_down(modifier).send_keys(key).key_up(modifier).perform()


def tab_to(page, selector, *, back=False):
    """Goes by Tab, or back by Shift and Tab, until what is asked for has the focus."""
    for _ in range(MOST_TABS):
        if page.script("return document.activeElement.matches(arguments[0])", selector):
            return
        if back:
            held(page, Keys.SHIFT, Keys.TAB)
        else:
            press(page, Keys.TAB)
    message = f"Tab never came to {selector}; it is at {focused(page)}"
    raise AssertionError(message)


def said(page, words):
    """Waits until a screen reader has been told this."""
    page.wait(lambda: words in page.text("#said"))


def test_a_layout_is_read_changed_saved_and_issued_by_keys_alone(page, serve, tmp_path):
    """Read it, draw a joint, move it, hear what is found, mend it, save, issue the sheets."""
    path = house(tmp_path, HOUSE.replace("[20, 0], [20, 20]", "[23, 0], [23, 20]"))
    page.open(serve(path)[0])
    tab_to(page, "#tab-findings")
    press(page, Keys.ARROW_LEFT)
    page.wait(lambda: "6 panels in 2 rows" in page.text("#list-account"))
    assert (
        "Row 1 from below, 3 panels: P1 10'-0\" by 10'-0\"; P2 13'-0\" by 10'-0\", error"
        in page.text("#list-account")
    )
    assert "J2, control, 20'-0\" long, from 23'-0\" from the left" in page.text("#list-account")

    press(page, Keys.ARROW_LEFT, Keys.ARROW_LEFT)
    page.wait(lambda: page.one("#list-joints").is_displayed())
    tab_to(page, '#list-joints [data-key="joint J2"]')
    press(page, Keys.ENTER)
    page.wait(lambda: page.text("#details h2") == "Joint J2")
    for _ in range(3):
        held(page, Keys.SHIFT, Keys.ARROW_LEFT)
    page.wait(lambda: joints(page)["J2"].startswith("M6096 "))
    said(page, "0 errors")
    held(page, Keys.CONTROL, "z")
    said(page, "Undo")
    held(page, Keys.CONTROL, "y")
    page.wait(lambda: joints(page)["J2"].startswith("M6096 "))
    held(page, Keys.CONTROL, "s")
    page.wait(lambda: page.text("#saved") == "Saved in boathouse.toml")
    saved = {j.id: j.path[0][0] for j in open_job(path).slab.pinned}
    assert saved["J2"] == pytest.approx(20 * 304.8)
    assert panels(page) == 6

    tab_to(page, "#more", back=True)
    press(page, Keys.ENTER)
    tab_to(page, "#export")
    press(page, Keys.ENTER)
    page.wait(lambda: "Sheets written" in page.text("#dialog"), 120)
    press(page, Keys.ESCAPE)
    assert (tmp_path / "out" / "boathouse" / "boathouse-joint-plan.pdf").is_file()
