"""The page from nothing: the outline drawn or typed, walls, columns, drains; laid out and saved."""

import tomllib

import pytest
from selenium.webdriver.common.keys import Keys

from browsing import at, panels, settled, tap
from kerfline.app.demo import demo_job
from kerfline.app.open_job import open_job

pytestmark = pytest.mark.browser

FT = 304.8


def begin(page, name="Garage", thickness="4"):
    page.one("#start-name").send_keys(name)
    page.one("#start-thickness").send_keys(thickness)


def begun(page):
    page.wait(lambda: page.all(".slab") and page.text("#totals"))


@pytest.mark.parametrize("width", [360, 1440])
def test_an_outline_is_tapped_closed_and_laid_out(empty, tmp_path, width):
    page = empty(width, 800)
    begin(page)
    if width < 900:
        page.click("#grip")
        page.click("#grip")
        settled(page)
    for place in ((2, 2), (26, 2), (26, 22), (2, 22)):
        tap(page, at(page, *place))
    page.click("#entry-close")
    begun(page)
    page.click("#complete")
    page.idle()
    page.wait(lambda: panels(page) > 1)
    page.click("#save")
    page.wait(lambda: page.text("#saved") == "Saved in garage.toml")
    saved = open_job(tmp_path / "garage.toml")
    assert saved.slab.thickness == pytest.approx(4 * 25.4)
    x0, y0, x1, y1 = saved.slab.outline.polygon.bounds
    assert (x1 - x0, y1 - y0) == pytest.approx((24 * FT, 20 * FT), abs=300)


def test_by_keyboard_alone(empty, tmp_path):
    """Name, thickness, legs typed one after the other; a wall and columns; laid out and saved."""
    page = empty()

    def keys(*said):
        page.driver.switch_to.active_element.send_keys(*said)

    keys("Shop", Keys.TAB, Keys.TAB, "5", Keys.TAB)
    keys("right 40, up 28, left 12, down 8, left 28", Keys.ENTER)
    begun(page)
    assert panels(page) == 1
    keys("w")
    page.one("#entry-text").send_keys("right 28", Keys.ENTER)
    page.wait(lambda: page.all(".wall"))
    page.one("body").send_keys(Keys.ESCAPE)
    page.click("#more")
    page.one("#column-grid").send_keys(Keys.ENTER)
    for text in ("10", "10", "10", "3", "", "1"):
        keys(Keys.CONTROL, "a", Keys.NULL)
        keys(*([text] if text else []), Keys.TAB)
    page.one("#dialog .main").send_keys(Keys.ENTER)
    page.wait(lambda: len(page.all(".column")) == 3)
    page.one("#complete").send_keys(Keys.ENTER)
    page.idle()
    page.wait(lambda: panels(page) > 4)
    page.one("body").send_keys(Keys.CONTROL, "s")
    page.wait(lambda: "Saved in shop.toml" in page.text("#saved"))
    saved = tomllib.loads((tmp_path / "shop.toml").read_text())
    assert len(saved["slab"]["outline"]) == 6
    assert len(saved["column"]) == 3


KINDS = {"wall": "w", "opening": "h", "column": "c", "penetration": "d"}
"""What the demo's slab carries, and the key of the tool for each."""


def places_of(slab):
    """The points of each thing on a slab, in feet from its lower left."""
    x0, y0, _, _ = slab.gross.bounds
    points = {
        "wall": [(w.path[0], w.path[-1]) for w in slab.walls],
        "opening": [(o.polygon.bounds[:2], o.polygon.bounds[2:]) for o in slab.openings],
        "column": [(c.at,) for c in slab.columns],
        "penetration": [(n.at,) for n in slab.penetrations],
    }
    return {
        kind: [tuple(((x - x0) / FT, (y - y0) / FT) for x, y in one) for one in things]
        for kind, things in points.items()
    }


def held_against_the_demo(path, slack):
    """What was saved is the demo's slab: every part, each of its points within the slack (ft)."""
    saved, demo = open_job(path).slab, demo_job().slab
    wished, found = places_of(demo), places_of(saved)
    assert saved.thickness == pytest.approx(demo.thickness)
    for kind, things in wished.items():
        assert len(found[kind]) == len(things), kind
        for one in things:
            near = tuple(pytest.approx(p, abs=slack) for p in one)
            assert any(near == other for other in found[kind]), (kind, one)
    assert float(saved.concrete.area) == pytest.approx(float(demo.concrete.area), rel=slack / 10)


def saved_as(page, name):
    page.click("#save")
    page.wait(lambda: page.text("#saved") == f"Saved in {name}")


@pytest.mark.parametrize("width", [360, 1440])
def test_the_slab_of_the_demo_by_pointer_in_under_sixty_actions(empty, tmp_path, width):
    """Its outline typed, everything on it tapped: each field, button and tap counts."""
    page = empty(width, 800)
    demo = demo_job().slab
    count = Counter(page)
    count.type("#start-name", "Workshop")
    count.type("#start-thickness", "5")
    count.type("#start-size", way_round(demo.outline.points), Keys.ENTER)
    begun(page)
    page.wait(lambda: not page.all(".blank"))
    settled(page)
    for kind, things in places_of(demo).items():
        count.click(f"#tool-{kind}")
        settled(page)
        for number, one in enumerate(things, start=1):
            for place in one:
                count.tap(place)
            page.wait(lambda k=kind, n=number: len(page.all(f"#drawing .{k}")) == n)

    assert count.actions < 60
    saved_as(page, "workshop.toml")
    # A pixel of a narrow screen is a quarter of a foot, and a tap is drawn to what is near it.
    held_against_the_demo(tmp_path / "workshop.toml", 0.5)


@pytest.mark.parametrize("width", [360, 1440])
def test_the_slab_of_the_demo_by_keyboard_alone_in_under_sixty_actions(empty, tmp_path, width):
    """Each field filled and each key pressed counts; what is typed is to the last digit."""
    page = empty(width, 800)
    demo = demo_job().slab
    count = Counter(page)
    count.keys("Workshop", Keys.TAB, Keys.TAB)
    count.keys("5", Keys.TAB)
    count.keys(way_round(demo.outline.points), Keys.ENTER)
    begun(page)
    page.wait(lambda: not page.all(".blank"))
    for kind, things in places_of(demo).items():
        count.keys(KINDS[kind])
        count.keys("e")
        for number, one in enumerate(things, start=1):
            count.keys(written(one), Keys.ENTER)
            page.wait(lambda k=kind, n=number: len(page.all(f"#drawing .{k}")) == n)
            page.wait(lambda: page.script("return document.activeElement.id") == "entry-text")
        count.keys(Keys.ESCAPE)
    count.keys(Keys.CONTROL, "s", Keys.NULL)
    page.wait(lambda: page.text("#saved") == "Saved in workshop.toml")
    assert count.actions < 60
    held_against_the_demo(tmp_path / "workshop.toml", 1e-4)


def written(points):
    """A thing as it is typed: where it begins, and how far its other end is from there."""
    (x, y), *more = points
    text = f"at {x:.6f}, {y:.6f}"
    for bx, by in more:
        across = f" {'right' if bx > x else 'left'} {abs(bx - x):.6f}" if abs(bx - x) > 1e-6 else ""
        up = f" {'up' if by > y else 'down'} {abs(by - y):.6f}" if abs(by - y) > 1e-6 else ""
        text += across + up
    return text


class Counter:
    """Does and counts: one field filled, one button pressed, one key, one tap."""

    def __init__(self, page):
        self.page, self.actions = page, 0

    def type(self, selector, *said):
        self.page.one(selector).send_keys(*said)
        self.actions += 1

    def keys(self, *said):
        self.page.driver.switch_to.active_element.send_keys(*said)
        self.actions += 1

    def click(self, selector):
        self.page.click(selector)
        self.actions += 1

    def tap(self, place):
        settled(self.page)
        tap(self.page, at(self.page, *place))
        self.actions += 1


def way_round(points):
    """An outline as typed legs, in feet."""
    legs = []
    for (ax, ay), (bx, by) in zip(points, (*points[1:], points[0]), strict=True):
        words = []
        if abs(bx - ax) > 0.1:
            words.append(f"{'right' if bx > ax else 'left'} {feet(abs(bx - ax))}")
        if abs(by - ay) > 0.1:
            words.append(f"{'up' if by > ay else 'down'} {feet(abs(by - ay))}")
        legs.append(" ".join(words))
    return ", ".join(legs)


def feet(mm):
    return f"{mm / FT:.6f} ft"


def test_what_is_no_slab_is_said_where_it_is_typed(empty):
    page = empty()
    page.forgive("422")
    begin(page)
    page.one("#start-size").send_keys("right 40, up 28, left 12", Keys.ENTER)
    page.wait(lambda: "do not close" in page.text("#start-trouble"))
