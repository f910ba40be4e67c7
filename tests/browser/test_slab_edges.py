"""The slab itself on the page: openings and corners come, move and go, and what is found follows."""

import pytest
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.keys import Keys

from browsing import at, focused, joints, named, near, panels, retype, settled, take_hold, tap
from kerfline.app.open_job import open_job
from paged import HOUSE, PITTED, house

pytestmark = pytest.mark.browser

FT = 304.8
INCH = 1 / 12


def ring(page, which="outline"):
    """The corners of the outline or of an opening as they are drawn, in feet."""
    d = page.script(
        "return document.querySelector(`.ring[data-id='${arguments[0]}'] .line`)?.getAttribute('d')",
        which,
    )
    return d and [(round(x / FT, 2), round(-y / FT, 2)) for x, y in near(d[:-1])]


def about(*points):
    """Points as nearly as a pointer hits them."""
    return [pytest.approx(p, abs=1.2 * INCH) for p in points]


def findings(page):
    return int(page.text("#tab-findings").split()[-1])


def field(page, words):
    """The field with a label."""
    return page.script(
        "return [...document.querySelectorAll('#details label')].find((n) => n.textContent === arguments[0]).querySelector('input')",
        words,
    )


def test_an_opening_is_drawn_moved_sized_and_deleted(page, serve, tmp_path):
    page.open(serve(house(tmp_path))[0])
    before = findings(page)
    page.click("#tool-opening")
    tap(page, at(page, 13, 13))
    tap(page, at(page, 16, 15))
    page.wait(lambda: ring(page, "1") and "Opening 1" in page.text("#details"))
    assert ring(page, "1") == about((13, 13), (16, 13), (16, 15), (13, 15))
    assert findings(page) > before  # its four corners have no joint

    page.click("#tool-choose")
    retype(field(page, "Left to right (ft)"), "2'")
    page.wait(lambda: ring(page, "1")[1][0] - ring(page, "1")[0][0] == pytest.approx(2))
    retype(field(page, "From the bottom (ft)"), "14")
    page.wait(lambda: ring(page, "1")[0][1] == 14)
    start = ring(page, "1")[0]
    take_hold(page, ((14, 15), (18, 15)))
    page.wait(lambda: ring(page, "1")[0] == about((start[0] + 4, 14))[0])
    page.one("#drawing").send_keys(Keys.SHIFT, *[Keys.ARROW_RIGHT] * 2, Keys.NULL)
    page.wait(lambda: ring(page, "1")[0] == about((start[0] + 6, 14))[0])
    page.wait(lambda: len(joints(page)) == 4)  # it parts the joint that ran through

    page.one("#drawing").send_keys(Keys.DELETE)
    page.wait(lambda: not ring(page, "1"))
    for _ in range(7):
        page.click("#undo")
    page.wait(lambda: findings(page) == before and len(joints(page)) == 3)
    assert not page.one("#undo").is_enabled()


def test_a_corner_of_the_slab_is_dragged_written_added_and_taken_away(page, serve, tmp_path):
    path = house(tmp_path, PITTED)
    page.open(serve(path)[0])
    tap(page, at(page, 15, 0))
    page.wait(lambda: len(page.all(".handle")) == 4)
    take_hold(page, ((30, 20), (30.1, 23)))
    page.wait(lambda: ring(page)[2] == about((30, 23))[0])
    assert ring(page)[2][0] == 30  # square over the next corner
    page.wait(lambda: near(joints(page)["J2"])[1][1] < -21.9 * FT)
    page.wait(lambda: "error" in page.text("#totals"))

    page.wait(lambda: named(page, ".handle.picked").startswith("Corner 3 of the outline"))
    retype(field(page, "y (ft)"), "20")
    page.wait(lambda: ring(page)[2] == (30, 20))
    page.wait(lambda: "No error" in page.text("#totals"))

    page.click("#tool-split")
    tap(page, at(page, 24, 0))
    page.wait(lambda: len(ring(page)) == 5)
    page.wait(lambda: named(page, ".handle.picked").startswith("Corner 2 of the outline"))
    page.click("#tool-choose")
    page.one("#drawing").send_keys(Keys.SHIFT, Keys.ARROW_DOWN, Keys.NULL)
    page.wait(lambda: ring(page)[1] == about((24, -1))[0])
    page.one("#drawing").send_keys(Keys.DELETE)
    page.wait(lambda: ring(page) == [(0, 0), (30, 0), (30, 20), (0, 20)])

    page.script("document.querySelector('#drawing').focus()")
    page.one("#drawing").send_keys(Keys.TAB)
    page.wait(lambda: focused(page).startswith("Corner 1 of the outline, x 0'-0\", y 0'-0\""))
    page.driver.switch_to.active_element.send_keys(Keys.ARROW_LEFT)
    page.wait(lambda: ring(page)[0] == (-0.08, 0))
    page.driver.switch_to.active_element.send_keys(Keys.ESCAPE)
    page.wait(lambda: not page.all(".handle"))
    page.click("#save")
    page.wait(lambda: page.one("#saved").text.startswith("Saved in"))
    assert open_job(path).slab.outline.points[0] == pytest.approx((-25.4, 0))
    assert len(open_job(path).slab.edges) == 2


def test_an_outline_that_would_cross_itself_springs_back(page, serve, tmp_path):
    page.open(serve(house(tmp_path))[0])
    tap(page, at(page, 15, 0))
    page.wait(lambda: len(page.all(".handle")) == 4)
    first, before = ring(page), panels(page)
    page.forgive("422")
    take_hold(page, ((30, 20), (15, -2)))

    page.wait(lambda: "the line crosses or touches itself" in page.text("#message"))
    assert page.text("#message .words").count(".") == 1
    assert ring(page) == first
    assert panels(page) == before
    assert not page.one("#undo").is_enabled()


def test_escape_puts_back_what_is_dragged(page, serve, tmp_path):
    page.open(serve(house(tmp_path))[0])
    tap(page, at(page, 15, 0))
    page.wait(lambda: len(page.all(".handle")) == 4)
    first, spot = ring(page), [round(c) for c in at(page, 30, 20)]
    chain = ActionChains(page.driver, duration=20)
    chain.w3c_actions.pointer_action.move_to_location(*spot)
    chain.w3c_actions.pointer_action.pointer_down()
    chain.w3c_actions.pointer_action.move_by(-40, 0)
    chain.perform()
    page.wait(lambda: ring(page) != first)

    page.one("#drawing").send_keys(Keys.ESCAPE)
    page.wait(lambda: ring(page) == first)
    release = ActionChains(page.driver)
    release.w3c_actions.pointer_action.move_by(-20, 0)
    release.w3c_actions.pointer_action.pointer_up()
    release.perform()
    assert ring(page) == first
    assert not page.one("#undo").is_enabled()
    assert page.all(".handle")


def test_a_finger_moves_a_corner_that_it_chose(page, serve, tmp_path):
    """Handles take 24 by 24 CSS pixels at least: WCAG 2.2, success criterion 2.5.8 (level AA)."""
    page.size(390, 844).open(serve(house(tmp_path, HOUSE))[0])
    tap(page, at(page, 25, 20), kind="touch")
    page.wait(lambda: "Outline" in page.text("#details"))
    settled(page)
    sizes = page.script(
        "return [...document.querySelectorAll('.handle .reach')].map((n) => n.getBoundingClientRect().width)"
    )
    assert min(sizes) >= 24

    take_hold(page, ((30, 20), (26, 20)), kind="touch")
    page.wait(lambda: page.one("#undo").is_enabled())
    assert ring(page)[2] == pytest.approx((26, 20), abs=0.3)
