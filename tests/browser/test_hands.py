"""Gestures that do what they mean: what is touched is chosen, keys act on it from anywhere, words say what was done."""

import random
import re

import pytest
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.keys import Keys

from browsing import (
    at,
    drag,
    joints,
    near,
    panels,
    retype,
    settled,
    speaks_devtools,
    take_hold,
    tap,
)
from kerfline.app.open_job import open_job
from paged import BENT, HOUSE, PITTED, house

pytestmark = pytest.mark.browser

FT = 304.8


def chosen(page):
    """Kind and name of everything that the drawing shows as chosen."""
    return page.script(
        "return [...document.querySelectorAll('#drawing [data-what].chosen')].map((n) => `${n.dataset.what} ${n.dataset.id}`).sort()"
    )


def press(page, *keys):
    """Keys, wherever the focus is."""
    page.driver.switch_to.active_element.send_keys(*keys)


def zone_of(page, *places):
    page.click("#tool-zone")
    for place in places:
        tap(page, at(page, *place))


def test_what_is_dragged_is_chosen_and_delete_takes_that(page, serve, tmp_path):
    page.open(serve(house(tmp_path, HOUSE + '\n[[column]]\nat = [15, 5]\nsize = "16 in"\n'))[0])
    page.click("#tab-joints")
    page.click("#list-joints [data-key='joint J3']")
    take_hold(page, ((15, 5), (16, 6)))
    page.wait(lambda: chosen(page) == ["column C1"])

    page.one("#tab-panels").click()
    press(page, Keys.DELETE)
    page.wait(lambda: not page.all(".column"))
    assert sorted(joints(page)) == ["J1", "J2", "J3"]
    assert page.one("#undo").get_attribute("aria-label") == "Undo: delete column C1"


def test_delete_in_a_field_edits_the_field(page, serve, tmp_path):
    page.open(serve(house(tmp_path))[0])
    page.click("#tab-joints")
    page.click("#list-joints [data-key='joint J2']")
    page.one("#thickness").send_keys(Keys.HOME, Keys.DELETE, "6")
    assert sorted(joints(page)) == ["J1", "J2", "J3"]
    press(page, Keys.TAB)
    # a bare number is in the unit that the label names: six inches, not six feet
    page.wait(lambda: page.one("#thickness").get_attribute("value") == '6"')


def test_escape_leaves_tool_and_choice_from_anywhere(page, serve, tmp_path):
    page.open(serve(house(tmp_path))[0])
    page.click("#tab-joints")
    page.click("#list-joints [data-key='joint J2']")
    page.click("#tool-wall")
    press(page, Keys.ESCAPE)

    page.wait(lambda: not chosen(page))
    assert page.one("#tool-choose").get_attribute("aria-pressed") == "true"


@pytest.mark.parametrize("ending", ["enter", "double tap"])
def test_a_shape_is_closed_and_asks_what_it_needs(page, serve, tmp_path, ending):
    page.open(serve(house(tmp_path))[0])
    last = (28, 18)
    zone_of(page, (22, 14), (28, 14), last)
    if ending == "enter":
        press(page, Keys.ENTER)
    else:
        spot = at(page, *last)
        tap(page, spot)
    page.wait(lambda: "Zone Z1" in page.text("#details"))
    focus = page.driver.switch_to.active_element
    assert focus.get_attribute("data-key") == "do Thickness (in)"
    focus.send_keys("6", Keys.TAB)
    page.wait(lambda: "change the thickness of zone Z1" in page.text("#undo"))
    assert len(page.all(".handle")) == 3  # a repeated point is one point
    page.click("#save")
    page.wait(lambda: "Saved in" in page.text("#saved"))


def test_corners_of_a_zone_move_like_those_of_the_slab(page, serve, tmp_path):
    page.open(serve(house(tmp_path))[0])
    zone_of(page, (22, 14), (28, 14), (28, 18))
    press(page, Keys.ENTER)
    page.wait(lambda: len(page.all(".handle")) == 3)
    page.click("#tool-choose")
    take_hold(page, ((28, 18), (26, 17)))
    border = "return document.querySelector('.zone .border').getAttribute('d')"
    page.wait(
        lambda: near(page.script(border)[:-1])[2] == pytest.approx((26 * FT, -17 * FT), abs=40)
    )


def test_several_are_chosen_moved_copied_and_deleted_as_one_step(page, serve, tmp_path):
    page.open(serve(house(tmp_path))[0])
    page.click("#tool-column")
    tap(page, at(page, 14, 4))
    page.wait(lambda: len(page.all(".column")) == 1)
    tap(page, at(page, 14, 7))
    page.wait(lambda: len(page.all(".column")) == 2)
    page.click("#tool-several")
    drag(
        page,
        at(page, 12, 2),
        [round(b - a) for a, b in zip(at(page, 12, 2), at(page, 17, 9), strict=True)],
    )
    page.wait(lambda: chosen(page) == ["column C1", "column C2"])

    press(page, Keys.CONTROL, "c", Keys.NULL)
    press(page, Keys.CONTROL, "v", Keys.NULL)
    page.wait(lambda: chosen(page) == ["column C3", "column C4"])
    page.script(
        "[...document.querySelectorAll('#details button')].find((n) => n.textContent === 'Repeat').click()"
    )
    page.one("#repeat-step").send_keys("3")
    page.one("#repeat-times").send_keys(Keys.CONTROL, "a")
    page.one("#repeat-times").send_keys("2", Keys.ENTER)
    page.wait(lambda: len(page.all(".column")) == 8)
    assert "copy 2 columns" in page.text("#undo")
    press(page, Keys.DELETE)
    page.wait(lambda: len(page.all(".column")) == 4)
    page.click("#undo")
    page.wait(lambda: len(page.all(".column")) == 8)


def test_the_menu_shows_what_can_be_done_there(page, serve, tmp_path):
    page.open(serve(house(tmp_path))[0])
    x, y = map(round, page.joint_spot("J2"))
    chain = ActionChains(page.driver)
    chain.w3c_actions.pointer_action.move_to_location(x, y)
    chain.w3c_actions.pointer_action.click(button=2)
    chain.perform()
    page.wait(lambda: "Forbid here" in page.text("#menu"))
    assert chosen(page) == ["joint J2"]
    page.script(
        "[...document.querySelectorAll('#menu button')].find((n) => n.textContent === 'Pin').click()"
    )
    page.wait(lambda: page.all(".joint.pinned[data-id=J2]"))

    page.one("body").send_keys(Keys.SHIFT, Keys.F10, Keys.NULL)
    page.wait(lambda: "Unpin" in page.text("#menu"))
    press(page, Keys.ESCAPE)
    page.wait(lambda: not page.one("#menu").is_displayed())


def test_words_are_the_trades(page, serve, tmp_path):
    """No word of ours that a saw crew would not say; rule sets by their titles."""
    page.open(serve(house(tmp_path, HOUSE + BENT))[0])
    tap(page, page.joint_spot("J4"))
    page.wait(lambda: "Joint J4" in page.text("#details"))
    page.click("#more")
    page.click("#keys")
    words = page.script("return document.body.innerHTML")
    assert not re.search(r"\bknee|taken hold|>Complete<|documented cost", words, re.IGNORECASE)
    options = page.script(
        "return [...document.querySelectorAll('#rule-set option')].map((n) => n.textContent)"
    )
    assert "floor" not in options


TROUBLED = HOUSE.replace("[20, 0], [20, 20]", "[23, 0], [23, 20]")


def test_findings_are_gathered_by_rule_and_filtered(page, serve, tmp_path):
    page.open(serve(house(tmp_path, TROUBLED))[0])
    groups = [node.text.split()[1] for node in page.all("#list-findings summary")]
    assert groups == ["Span", "Aspect"]
    page.click("[data-key='filter error']")
    page.wait(lambda: [n.text.split()[1] for n in page.all("#list-findings summary")] == ["Aspect"])


def test_dimensions_and_names_of_joints_stay_in_sight(page, serve, tmp_path):
    page.open(serve(house(tmp_path))[0])
    assert {n.text for n in page.all("#drawing .joint-name")} == {"J1", "J2", "J3"}
    for _ in range(4):
        page.click("#zoom-in")
    settled(page)
    frame = page.script("return document.querySelector('#sheet').getBoundingClientRect().toJSON()")
    spans = page.script(
        "return [...document.querySelectorAll('#drawing .span text')].map((n) => n.getBoundingClientRect().toJSON())"
    )
    seen = [
        s
        for s in spans
        if frame["left"] <= s["left"]
        and s["right"] <= frame["right"]
        and frame["top"] <= s["top"]
        and s["bottom"] <= frame["bottom"]
    ]
    assert len(seen) >= 2


def test_a_notice_never_covers_the_drawing_and_takes_two_lines_at_most(page, serve, tmp_path):
    page.size(360, 800).open(serve(house(tmp_path))[0])
    page.forgive("422")
    page.click("#more")
    retype(page.one("#thickness"), "a lot " * 30)
    page.wait(lambda: "length" in page.text("#message"))
    box = page.script(
        "return ['#message', '#sheet', '#message .words'].map((s) => document.querySelector(s).getBoundingClientRect().toJSON())"
    )
    assert box[0]["top"] >= box[1]["bottom"] - 1
    assert box[2]["height"] <= 2.1 * 1.45 * 14 + 1


def test_a_lost_server_stays_said_and_a_new_one_takes_the_page_up(page, serve, tmp_path):
    path = house(tmp_path)
    address, server = serve(path)
    page.open(address)
    drag(page, page.joint_spot("J2"), (20, 0), (10, 0))
    page.wait(lambda: "Draft kept" in page.text("#saved"))
    server.kill()
    server.wait()
    page.forgive("ERR_CONNECTION_REFUSED")
    page.forgive("ERR_EMPTY_RESPONSE")
    page.forgive("ERR_CONNECTION_RESET")
    drag(page, page.joint_spot("J3"), (0, 20), (0, 10))
    page.wait(lambda: "has stopped" in page.text("#message"))

    again, _ = serve(path)
    assert again == address
    page.wait(lambda: not page.one("#message").is_displayed())
    before = joints(page)["J3"]
    drag(page, page.joint_spot("J3"), (0, 20), (0, 10))
    page.wait(lambda: joints(page)["J3"] != before)
    page.wait(lambda: "Draft kept" in page.text("#saved"))


def test_on_a_phone_details_come_from_below_and_every_target_holds_a_finger(page, serve, tmp_path):
    """44 by 44 CSS pixels: WCAG 2.2, success criterion 2.5.5 (level AAA)."""
    page.size(360, 800).open(serve(house(tmp_path, PITTED))[0])
    assert page.script("return document.querySelector('.side').getBoundingClientRect().height") < 60
    tap(page, page.joint_spot("J2"), kind="touch")
    page.wait(lambda: "Joint J2" in page.text("#details"))
    settled(page)
    side, sheet = (
        page.script(
            "return document.querySelector(arguments[0]).getBoundingClientRect().toJSON()", s
        )
        for s in (".side", "#sheet")
    )
    assert side["height"] > 250
    assert sheet["bottom"] <= side["top"]
    assert sheet["height"] > 200
    small = page.script(
        """
        const all = [...document.querySelectorAll("button, select, input:not([type=checkbox]), summary")];
        const boxes = all.filter((n) => n.offsetParent !== null).map((n) => [n.id || n.textContent, n.getBoundingClientRect()]);
        return boxes.filter(([, box]) => Math.min(box.width, box.height) < 43.5).map(([id]) => id);
        """
    )
    assert small == []


def test_two_fingers_move_and_stretch_the_view_and_nothing_else(page, serve, tmp_path):
    if not speaks_devtools(page.driver):
        pytest.skip("two fingers are asked of chromium's own protocol")
    page.size(360, 800).open(serve(house(tmp_path))[0])
    before, first = settled(page), joints(page)
    middle = page.script(
        "const b = document.querySelector('#sheet').getBoundingClientRect(); return [b.left + b.width / 2, b.top + b.height / 2]"
    )
    points = [[middle[0] - 30, middle[1]], [middle[0] + 30, middle[1]]]

    def touch(kind, spread):
        spots = zip((-1, 1), points, strict=True) if kind != "touchEnd" else ()
        fingers = [{"x": x + s * spread, "y": y, "id": s + 1} for s, (x, y) in spots]
        page.driver.execute_cdp_cmd(
            "Input.dispatchTouchEvent", {"type": kind, "touchPoints": fingers}
        )

    touch("touchStart", 0)
    for step in range(1, 6):
        touch("touchMove", 10 * step)
    touch("touchEnd", 0)
    page.wait(lambda: settled(page) != before)
    scale = float(settled(page).split("scale(")[1].rstrip(")")) / float(
        before.split("scale(")[1].rstrip(")")
    )
    assert scale == pytest.approx(80 / 30, rel=0.1)
    assert joints(page) == first


def test_the_present_layout_stands_among_the_alternatives(page, serve, tmp_path):
    page.open(serve(house(tmp_path))[0])
    page.click("#more")
    page.click("#alternatives")
    page.wait(lambda: page.all("#dialog .card .slab"), 120)
    cards = page.all("#dialog .card")
    assert cards[0].text.startswith("As it is now")
    assert len(page.all("#dialog .card .compared path")) == len(cards) - 1


def test_the_layout_can_be_read_in_words(page, serve, tmp_path):
    page.open(serve(house(tmp_path))[0])
    page.click("#tab-account")
    words = page.text("#list-account")
    assert words.startswith("6 panels in 2 rows, 3 joints")
    assert "Row 1 from below, 3 panels: P1 10'-0\" by 10'-0\"; P2" in words
    assert (
        "J2, control, 20'-0\" long, from 20'-0\" from the left and 0'-0\" from the bottom" in words
    )
    assert panels(page) == 6


def test_a_pinned_joint_comes_back_pinned_and_for_its_own_reason(page, serve, tmp_path):
    path = house(tmp_path)
    page.open(serve(path)[0])
    tap(page, page.joint_spot("J1"))
    page.wait(lambda: "Joint J1" in page.text("#details"))
    press(page, "p")
    page.wait(lambda: "pin joint J1" in page.text("#undo"))
    page.click("#save")
    page.wait(lambda: "Saved in" in page.text("#saved"))
    page.open(serve(path)[0])
    page.click("#tab-joints")
    page.click("#list-joints [data-key='joint J1']")
    page.wait(lambda: "under wall W1" in page.text("#details"))
    facts = [node.text for node in page.all("#details .facts dd")]
    assert facts[-1] == "yes"
    assert page.all(".joint.pinned[data-id=J1]")


def run_of_gestures(page, serve, tmp_path, seed, count):
    """Taps, drags, keys and tools by chance; then it saves and reads back."""
    path = house(tmp_path, PITTED)
    page.open(serve(path)[0])
    page.forgive("422")
    chance = random.Random(seed)
    frame = page.script("return document.querySelector('#sheet').getBoundingClientRect().toJSON()")
    tools = [n.get_attribute("id") for n in page.all("#tools button") if n.is_displayed()]
    keys = [
        Keys.DELETE,
        Keys.ESCAPE,
        Keys.ENTER,
        Keys.ARROW_LEFT,
        Keys.ARROW_UP,
        "p",
        "f",
        "+",
        "-",
    ]

    def spot():
        return [
            chance.uniform(frame["left"] + 5, frame["right"] - 80),
            chance.uniform(frame["top"] + 5, frame["bottom"] - 60),
        ]

    for _ in range(count):
        match chance.randrange(6):
            case 0 | 1:
                tap(page, spot())
            case 2:
                drag(page, spot(), [chance.randint(-60, 60), chance.randint(-60, 60)])
            case 3:
                page.script("document.getElementById(arguments[0]).click()", chance.choice(tools))
            case 4:
                page.one("body").send_keys(chance.choice(keys))
            case 5:
                key = chance.choice("zyacv")
                page.one("body").send_keys(Keys.CONTROL, key, Keys.NULL)
    page.one("body").send_keys(Keys.ESCAPE, Keys.ESCAPE)
    page.wait(lambda: "Keeping" not in page.text("#saved"))
    page.one("body").send_keys(Keys.CONTROL, "s", Keys.NULL)
    page.wait(lambda: "Saved in" in page.text("#saved"))
    shown = joints(page)
    again = open_job(path)
    assert sorted(j.id for j in again.slab.pinned) == sorted(shown)


def test_a_run_of_random_gestures_never_loses_the_job(page, serve, tmp_path):
    run_of_gestures(page, serve, tmp_path, seed=19, count=200)


@pytest.mark.long
@pytest.mark.parametrize("seed", range(5))
def test_long_runs_of_random_gestures_never_lose_the_job(page, serve, tmp_path, seed):
    run_of_gestures(page, serve, tmp_path, seed, count=1000)


OVERLAPS = """
    const boxes = [...document.querySelectorAll("#drawing .label, #drawing .joint-name")].map((node) => [node.textContent, node.getBoundingClientRect()]);
    const found = [];
    boxes.forEach(([one, a], i) => boxes.slice(i + 1).forEach(([two, b]) => {
      const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      if (wide > 4 && high > 4) found.push([one, two]);
    }));
    return [boxes.length, found];
"""


def test_names_of_many_small_panels_do_not_lie_on_each_other(page, serve, tmp_path):
    """1,150 panels of some 25 points on the screen: a name of four letters and more is wider than that."""
    lines = [((9 * k, 0), (9 * k, 225)) for k in range(1, 46)]
    lines += [((0, 9 * k), (414, 9 * k)) for k in range(1, 25)]
    joints_of = "".join(f"[[joint]]\npath = {[list(p) for p in line]}\n" for line in lines)
    text = '[job]\nname = "Hall"\nunits = "ft"\n[slab]\nthickness = "4 in"\n'
    text += f"outline = [[0, 0], [414, 0], [414, 225], [0, 225]]\n{joints_of}"
    page.open(serve(house(tmp_path, text))[0], 60)
    page.size(1600, 1000)
    page.click("#fit")
    settled(page)
    count, overlaps = page.script(OVERLAPS)
    assert overlaps == []
    assert count > 0


@pytest.mark.parametrize("width", [360, 1200])
def test_names_of_joints_do_not_lie_on_those_of_panels(page, serve, tmp_path, width):
    lines = [((9 * k, 0), (9 * k, 50)) for k in range(1, 10)]
    lines += [((0, 9.5 * k), (90, 9.5 * k)) for k in range(1, 6)]
    joints_of = "".join(f"[[joint]]\npath = {[list(p) for p in line]}\n" for line in lines)
    text = '[job]\nname = "Hall"\nunits = "ft"\n[slab]\nthickness = "4 in"\n'
    text += f"outline = [[0, 0], [90, 0], [90, 50], [0, 50]]\n{joints_of}"
    page.open(serve(house(tmp_path, text))[0])
    page.size(width, 800)
    page.click("#fit")
    settled(page)
    count, overlaps = page.script(OVERLAPS)
    assert overlaps == []
    assert count > 40
