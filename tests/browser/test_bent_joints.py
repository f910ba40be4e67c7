"""A bent joint on the page: moved whole, by its bends and ends, with pointer, finger and keys."""

import pytest
from selenium.webdriver.common.keys import Keys

from browsing import at, focused, joints, named, near, retype, settled, take_hold, tap
from kerfline.app.open_job import open_job
from paged import BENT, HOUSE, house

pytestmark = pytest.mark.browser

FT = 304.8


INCH = 1 / 12
"""A pointer hits a place within a pixel, about half an inch here, so a drag may rest an inch beside it."""


def feet(page, name="J4"):
    """A joint's points in feet, to a hundredth."""
    return [(round(x / FT, 2), round(-y / FT, 2)) for x, y in near(joints(page)[name])]


def about(*points):
    """Points as nearly as a pointer hits them."""
    return [pytest.approx(p, abs=1.2 * INCH) for p in points]


def choose(page, name="J4", handles=4, **more):
    tap(page, page.joint_spot(name), **more)
    page.wait(lambda: len(page.all(".handle")) == handles)


def test_a_bent_joint_is_moved_bent_and_saved(page, serve, tmp_path):
    path = house(tmp_path, HOUSE + BENT)
    page.open(serve(path)[0])
    choose(page)
    take_hold(page, ((25, 1.5), (24, 1.5)))
    page.wait(lambda: feet(page) == about((24, 0), (24, 4), (25, 6), (25, 10)))
    left = feet(page)[0][0]

    # a bend comes to rest square over the point beside it; what is measured follows
    take_hold(page, ((24, 4), (23, 3)))
    page.wait(lambda: feet(page)[1] == about((23, 3))[0])
    take_hold(page, ((23, 3), (left + 0.08, 4)))
    page.wait(lambda: feet(page)[1] == about((left, 4))[0])
    assert feet(page)[1][0] == left
    page.wait(lambda: named(page, ".handle.picked").startswith("Bend 1 of joint J4"))

    # the upper end goes along the joint that it ends on, the bend beside it is typed
    take_hold(page, ((25, 10), (26, 10)))
    page.wait(lambda: feet(page)[-1] == about((26, 10))[0])
    assert feet(page)[-1][1] == 10
    tap(page, at(page, 25, 6))
    page.wait(lambda: len(page.all("#details input")) == 2)
    retype(page.all("#details input")[0], "26'")
    page.wait(lambda: feet(page)[2][0] == 26)
    last = feet(page)

    for _ in range(5):
        page.click("#undo")
    page.wait(lambda: feet(page) == [(25, 0), (25, 4), (26, 6), (26, 10)])
    for _ in range(5):
        page.click("#redo")
    page.wait(lambda: feet(page) == last)
    page.click("#save")
    page.wait(lambda: page.one("#saved").text.startswith("Saved in"))
    saved = next(j for j in open_job(path).slab.joints if j.id == "J4")
    assert [(round(x / FT, 2), round(y / FT, 2)) for x, y in saved.path] == last


def test_a_bend_comes_and_goes_without_a_pointer(page, serve, tmp_path):
    """Tab to the handles, arrows, Delete and Escape; the tool that splits gives a tapped joint a bend."""
    page.open(serve(house(tmp_path))[0])
    page.click("#tool-split")
    tap(page, at(page, 20, 5))
    page.wait(lambda: feet(page, "J2") == about((20, 0), (20, 5), (20, 20)))
    retype(page.all("#details input")[1], "5")
    page.wait(lambda: feet(page, "J2")[1] == (20, 5))
    page.wait(lambda: page.all(".handle.picked[aria-pressed=true]"))
    page.click("#tool-choose")

    board = page.one("#drawing")
    page.script("document.querySelector('#drawing').focus()")
    board.send_keys(Keys.TAB, Keys.TAB)
    page.wait(lambda: focused(page).startswith("Bend 1 of joint J2, 20'-0\" from the left"))
    page.driver.switch_to.active_element.send_keys(Keys.SHIFT, Keys.ARROW_RIGHT, Keys.NULL)
    page.wait(lambda: feet(page, "J2")[1] == (21, 5))
    page.wait(lambda: focused(page).startswith("Bend 1 of joint J2, 21'-0\" from the left"))
    page.driver.switch_to.active_element.send_keys(Keys.TAB)
    page.wait(lambda: focused(page).startswith("End of joint J2"))
    page.driver.switch_to.active_element.send_keys(Keys.ARROW_DOWN)
    page.wait(lambda: feet(page, "J2")[-1][1] == 10)
    page.driver.switch_to.active_element.send_keys(Keys.SHIFT, Keys.TAB, Keys.NULL)
    page.driver.switch_to.active_element.send_keys(Keys.DELETE)
    page.wait(lambda: len(feet(page, "J2")) == 2)
    page.driver.switch_to.active_element.send_keys(Keys.ESCAPE)
    page.wait(lambda: not page.all(".handle"))
    assert "J2" in joints(page)


def test_a_finger_finds_the_bends(page, serve, tmp_path):
    """Handles take 24 by 24 CSS pixels at least: WCAG 2.2, success criterion 2.5.8 (level AA)."""
    page.size(390, 844).open(serve(house(tmp_path, HOUSE + BENT))[0])
    choose(page, kind="touch")
    settled(page)
    sizes = page.script(
        "return [...document.querySelectorAll('.handle .reach')].map((n) => n.getBoundingClientRect().width)"
    )
    assert min(sizes) >= 24

    take_hold(page, ((25, 4), (23, 3)), kind="touch")
    page.wait(lambda: page.one("#undo").is_enabled())
    assert feet(page)[1] == pytest.approx((23, 3), abs=0.3)
