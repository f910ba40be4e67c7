"""What a designer does on the page, in a real browser, from the first look to the sheets."""

import tomllib
from pathlib import Path

import pytest
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.keys import Keys

from browsing import HOSTILE, at, drag, joints, near, panels, retype, settled, tap
from paged import HOUSE, house

pytestmark = pytest.mark.browser

DEMO = Path(__file__).parents[2] / "src" / "kerfline" / "app" / "demo_data"


@pytest.fixture
def demo(tmp_path):
    """The demo's job file and drawing in a folder of their own."""
    for part in DEMO.iterdir():
        if part.suffix in (".toml", ".dxf", ".csv"):
            (tmp_path / part.name).write_bytes(part.read_bytes())
    return tmp_path / "community-workshop.toml"


def span_findings(page):
    """Texts of the findings on span."""
    return page.script(
        "return [...document.querySelectorAll('#list-findings details')]"
        ".filter((n) => n.querySelector('summary').textContent.includes('Span'))"
        ".flatMap((n) => [...n.querySelectorAll('li')].map((row) => row.textContent))"
    )


def test_from_the_first_look_to_the_sheets(page, serve, demo):
    """Open, drag a joint until a panel breaks the span, undo, pin, complete, save, reopen, export."""
    address, _ = serve(demo)
    page.open(address, patience=180)
    page.idle()
    first = joints(page)
    assert panels(page) > 20
    assert not [f for f in span_findings(page) if f.startswith("Error")]

    # the leftmost joint that runs upright through the hall, well inside
    name, spot = next(
        (n, page.joint_spot(n))
        for n, d in sorted(first.items())
        if upright(d) and page.joint_spot(n)
    )
    drag(page, spot, (10, 0), (30, 0), (45, 0), (20, 0))
    page.wait(lambda: [f for f in span_findings(page) if f.startswith("Error")])
    assert joints(page)[name] != first[name]

    page.click("#undo")
    page.wait(lambda: joints(page) == first)
    assert not [f for f in span_findings(page) if f.startswith("Error")]

    spot = page.joint_spot(name)
    drag(page, spot, (8, 0), (6, 0))  # further than a line under a wall holds it
    page.wait(lambda: joints(page)[name] != first[name])
    pinned = joints(page)[name]
    page.wait(lambda: page.all(".joint.pinned"))
    page.click("#complete")
    page.idle()
    page.wait(lambda: page.one("#saved").text.startswith("Draft kept"))
    assert near(pinned) in [near(d) for d in joints(page).values()]
    last = joints(page)

    page.click("#save")
    page.wait(lambda: page.one("#saved").text.startswith("Saved in"))
    saved = tomllib.loads(demo.read_text())
    assert len(saved["joint"]) == len(last)
    assert "# A community workshop" in demo.read_text()

    again, _ = serve(demo)
    page.open(again)
    page.idle()
    assert sorted(map(near, joints(page).values())) == sorted(map(near, last.values()))

    page.click("#more")
    page.click("#export")
    page.wait(lambda: "community-workshop-joint-plan.pdf" in page.text("#dialog"))
    assert (
        demo.parent / "out" / "community-workshop" / "community-workshop-joint-plan.pdf"
    ).is_file()


def upright(d):
    """Whether a path's two points stand one over the other."""
    points = near(d)
    return len(points) == 2 and points[0][0] == points[1][0]


def test_findings_sizes_and_totals_follow_while_the_pointer_moves(page, serve, tmp_path):
    address, _ = serve(house(tmp_path))
    page.open(address)
    spot = page.joint_spot("J2")
    chain = ActionChains(page.driver, duration=20)
    chain.w3c_actions.pointer_action.move_to_location(*map(round, spot))
    chain.w3c_actions.pointer_action.pointer_down()
    chain.w3c_actions.pointer_action.move_by(40, 0)
    chain.w3c_actions.pointer_action.move_by(40, 0)
    chain.perform()

    page.wait(lambda: "error" in page.text("#totals"))
    assert "from the left" in page.text("#hint")

    release = ActionChains(page.driver)
    release.w3c_actions.pointer_action.pointer_up()
    release.perform()
    page.wait(lambda: page.one("#undo").is_enabled())
    assert "error" in page.text("#totals")


def test_unsaved_work_survives_a_closed_tab_and_a_killed_server(page, serve, tmp_path):
    path = house(tmp_path)
    address, server = serve(path)
    page.open(address)
    drag(page, page.joint_spot("J2"), (20, 0), (10, 0))
    page.wait(lambda: "Draft kept" in page.text("#saved"))
    moved = joints(page)["J2"]
    page.driver.get("about:blank")
    server.kill()

    again, _ = serve(path)
    page.open(again)

    assert joints(page)["J2"] == moved
    assert "back" in page.text("#message")
    assert path.read_text() == HOUSE


def test_a_stopped_server_is_said_in_words(page, serve, tmp_path):
    address, server = serve(house(tmp_path))
    page.open(address)
    server.kill()
    server.wait()
    page.forgive("ERR_CONNECTION_REFUSED")
    drag(page, page.joint_spot("J2"), (20, 0), (10, 0))

    page.wait(lambda: "has stopped" in page.text("#message"))


def test_two_windows_do_not_write_over_each_other(page, serve, tmp_path):
    path = house(tmp_path)
    address, _ = serve(path)
    page.open(address)
    first = page.driver.current_window_handle
    page.driver.switch_to.new_window("tab")
    page.size(1200, 800).open(address)
    drag(page, page.joint_spot("J2"), (20, 0), (10, 0))
    page.wait(lambda: "Draft kept" in page.text("#saved"))
    theirs = joints(page)["J2"]
    page.driver.close()
    page.driver.switch_to.window(first)

    page.forgive("409")
    drag(page, page.joint_spot("J2"), (-20, 0), (-10, 0))
    page.wait(lambda: "Another window" in page.text("#message"))
    page.script("document.querySelector('#message button').click()")
    page.wait(lambda: joints(page)["J2"] == theirs)


def test_each_tool_does_what_it_says(page, serve, tmp_path):
    address, _ = serve(house(tmp_path))
    page.open(address)

    def counts():
        kinds = (
            ".joint[data-what=joint]",
            ".wall",
            ".column",
            ".penetration",
            ".keep-out",
            ".forbidden",
            ".zone",
        )
        return [len(page.all(f"#drawing {kind}")) for kind in kinds]

    def taken(name):
        """Whether the tool is in hand; a click that missed because the page was moving is made again."""
        button = f"#tool-{name}"
        if page.one(button).get_attribute("aria-pressed") != "true":
            page.click(button)
        return page.one(button).get_attribute("aria-pressed") == "true"

    def with_tool(name, *places):
        page.idle()
        page.wait(lambda: taken(name))
        before = counts()
        for place in places:
            tap(page, at(page, *place))
        page.wait(lambda: counts() != before)

    with_tool("joint", (15, 2), (15, 6))
    with_tool("split", (5, 15))
    with_tool("wall", (22, 12), (28, 12))
    with_tool("column", (25, 5))
    with_tool("penetration", (3, 3))
    with_tool("forbid", (12, 17), (18, 17))
    with_tool("keep-out", (12, 12), (17, 12), (17, 16), (12.05, 12.05))
    with_tool("zone", (22, 14), (28, 14), (28, 18), (22.05, 14.05))
    assert counts()[1:] == [2, 1, 2, 1, 1, 1]

    for _ in range(8):
        page.click("#undo")
    page.wait(lambda: counts() == [3, 1, 0, 1, 0, 0, 0])
    assert not page.one("#undo").is_enabled()
    for _ in range(8):
        page.click("#redo")
    page.wait(lambda: counts()[2] == 1)
    assert not page.one("#redo").is_enabled()


def test_the_keyboard_reaches_and_moves_everything(page, serve, tmp_path):
    """Without a pointer: choose a joint in the list, move it, pin it, delete it, undo."""
    address, _ = serve(house(tmp_path))
    page.open(address)
    page.one("#tab-findings").send_keys(Keys.ARROW_RIGHT, Keys.ARROW_RIGHT)
    assert page.one("#tab-joints").get_attribute("aria-selected") == "true"
    page.one("#list-joints [data-key='joint J2']").send_keys(Keys.ENTER)
    page.wait(lambda: "Joint J2" in page.text("#details"))
    before = joints(page)["J2"]

    page.one("#drawing").send_keys(Keys.ARROW_RIGHT)
    page.wait(lambda: joints(page)["J2"] != before)
    page.one("#drawing").send_keys("p")
    page.wait(lambda: not page.all(".joint.pinned"))
    page.one("#drawing").send_keys(Keys.DELETE)
    page.wait(lambda: "J2" not in joints(page))
    page.one("#drawing").send_keys(Keys.CONTROL, "z")
    page.wait(lambda: "J2" in joints(page))
    page.one("body").send_keys(Keys.CONTROL, "s")
    page.wait(lambda: "Saved in" in page.text("#saved"))


def test_a_distance_is_typed(page, serve, tmp_path):
    address, _ = serve(house(tmp_path))
    page.open(address)
    page.click("#tab-joints")
    page.click("#list-joints [data-key='joint J2']")
    page.wait(lambda: page.all("#details input"))
    retype(page.one("#details input"), "18' 6\"")

    page.wait(lambda: near(joints(page)["J2"])[0][0] == round(18.5 * 304.8))


def test_a_thickness_that_is_none_is_refused_and_put_back(page, serve, tmp_path):
    address, _ = serve(house(tmp_path))
    page.open(address)
    page.forgive("422")
    retype(page.one("#thickness"), "a lot")

    page.wait(lambda: "not a length" in page.text("#message"))
    assert page.one("#thickness").get_attribute("value") == '4"'


def test_a_finding_in_the_list_goes_to_its_place(page, serve, tmp_path):
    address, _ = serve(house(tmp_path, HOUSE.replace("[20, 0], [20, 20]", "[23, 0], [23, 20]")))
    page.open(address)
    before = page.script("return document.querySelector('.world').getAttribute('transform')")
    page.click("#list-findings li button")

    assert (
        page.script("return document.querySelector('.world').getAttribute('transform')") != before
    )
    assert page.all("#drawing .finding.chosen")
    assert "span" in page.text("#details")


def test_text_of_a_job_never_becomes_markup(page, serve, tmp_path):
    text = HOUSE.replace('"Boathouse"', f'"{HOSTILE}"').replace("under wall W1", HOSTILE)
    text = text.replace('id = "W1"', f'id = "{HOSTILE}"')
    address, _ = serve(house(tmp_path, text))
    page.open(address)
    page.click("#tab-joints")
    page.click("#tab-slab")

    assert page.one("#job-name").text == HOSTILE
    assert page.text("#list-joints small") == HOSTILE
    assert HOSTILE in page.text("#list-slab")
    assert page.script("return document.querySelectorAll('img, script:not([src])').length") == 0
    assert "broken" not in page.driver.title[:6]


def test_a_dragged_joint_rests_in_line_with_another(page, serve, tmp_path):
    """Brought near the line of a neighbour it lies on that line exactly."""
    text = (
        HOUSE.replace("[20, 0], [20, 20]", "[20, 0], [20, 10]")
        + """
[[joint]]
id = "J4"
path = [[21.04, 10], [21.04, 20]]
reason = "span"
note = "not in line"
"""
    )
    page.open(serve(house(tmp_path, text))[0])
    spot, goal = page.joint_spot("J4"), at(page, 20, 15)
    drag(page, spot, (round(goal[0] - spot[0]) + 3, 0))

    page.wait(lambda: near(joints(page)["J4"])[0][0] == 20 * 304.8)


def test_a_column_is_dragged_and_its_boxout_goes_with_it(page, serve, tmp_path):
    text = HOUSE + '\n[[column]]\nat = [15, 5]\nsize = "16 in"\n'
    page.open(serve(house(tmp_path, text))[0])
    shape = "return document.querySelector('.boxout').getAttribute('d')"
    before = page.script(shape)
    drag(page, at(page, 15, 5), (20, 0), (10, -10))

    page.wait(lambda: page.script(shape) != before)
    assert "Column C1" not in page.text("#message")
    page.click("#undo")
    page.wait(lambda: page.script(shape) == before)


def test_with_a_finger_a_drag_pans_until_a_joint_is_chosen(page, serve, tmp_path):
    page.size(360, 800).open(serve(house(tmp_path))[0])
    place = "return document.querySelector('.world').getAttribute('transform')"
    first, before = joints(page), page.script(place)

    drag(page, page.joint_spot("J2"), (25, 0), (10, 0), kind="touch")
    page.wait(lambda: page.script(place) != before)
    assert joints(page) == first

    page.click("#fit")
    tap(page, page.joint_spot("J2"), kind="touch")
    page.wait(lambda: "Joint J2" in page.text("#details"))
    settled(page)
    drag(page, page.joint_spot("J2"), (15, 0), (10, 0), kind="touch")
    page.wait(lambda: joints(page)["J2"] != first["J2"])


def test_alternatives_stand_side_by_side_and_one_can_be_taken_and_undone(page, serve, tmp_path):
    page.open(serve(house(tmp_path))[0])
    page.click("#more")
    page.click("#alternatives")
    page.wait(lambda: page.all("#dialog .card .slab"), 120)
    assert "chalk line" in page.text("#dialog .card p")
    page.click("#dialog .card button")
    page.wait(lambda: page.one("#undo").is_enabled())
    page.click("#undo")
    page.wait(lambda: sorted(joints(page)) == ["J1", "J2", "J3"])


def test_a_change_by_another_hand_is_told_before_it_is_written_over(page, serve, tmp_path):
    path = house(tmp_path)
    page.open(serve(path)[0])
    path.write_text(HOUSE.replace("4 in", "6 in", 1))
    page.forgive("409")
    page.click("#save")

    page.wait(lambda: "another hand" in page.text("#message"))
    assert path.read_text() == HOUSE.replace("4 in", "6 in", 1)
    page.script("document.querySelectorAll('#message button')[1].click()")
    page.wait(lambda: path.read_text() != HOUSE.replace("4 in", "6 in", 1))
    assert tomllib.loads(path.read_text())["slab"]["thickness"] == "4 in"


def test_the_end_of_a_chosen_joint_is_dragged_to_another_joint(page, serve, tmp_path):
    page.open(serve(house(tmp_path))[0])
    tap(page, page.joint_spot("J3"))
    page.wait(lambda: len(page.all(".handle")) == 2)
    goal = at(page, 20.5, 10)
    spot = at(page, 30, 10)
    drag(page, spot, (round((goal[0] - spot[0]) / 2), 0), (round((goal[0] - spot[0]) / 2), 0))

    page.wait(lambda: near(joints(page)["J3"])[1] == (round(20 * 304.8), -round(10 * 304.8)))


def test_a_column_and_a_joint_are_placed_without_a_pointer(page, serve, tmp_path):
    page.open(serve(house(tmp_path))[0])
    board = page.one("#drawing")
    board.send_keys("c", Keys.ARROW_RIGHT, Keys.ARROW_UP)
    assert "15'-1\" from the left, 10'-1\" from the bottom" in page.text("#hint")
    board.send_keys(Keys.ENTER)
    page.wait(lambda: page.all(".column"))

    before = joints(page)
    board.send_keys("j")
    board.send_keys(Keys.SHIFT, Keys.ARROW_DOWN, Keys.ARROW_DOWN, Keys.NULL)
    board.send_keys(Keys.ENTER, Keys.SHIFT, Keys.ARROW_RIGHT, Keys.NULL, Keys.ENTER)
    page.wait(lambda: len(joints(page)) == len(before) + 1)
    board.send_keys("s", Keys.ARROW_UP)
    board.send_keys(Keys.SHIFT, *[Keys.ARROW_RIGHT] * 12, Keys.NULL, Keys.ENTER)
    page.wait(lambda: len(joints(page)) == len(before) + 2)
