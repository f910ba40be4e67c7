"""A window on the page in a real browser, and what the tests do in it."""

import pytest
from selenium.common.exceptions import NoSuchElementException, StaleElementReferenceException
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.actions.pointer_input import PointerInput
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.ui import WebDriverWait

PATIENCE = 30
"""Seconds that a browser may take for one thing on a busy machine."""

HOSTILE = "<img src=x onerror=document.title='broken'><script>document.title='broken'</script>"


def speaks_devtools(driver):
    """Whether a browser is chromium, which can be asked more than the standard's questions."""
    return driver.capabilities["browserName"] == "chrome"


class Page:
    """A window on the page, with the few things that the tests do in it."""

    def __init__(self, driver):
        self.driver = driver
        self.forgiven = []

    def open(self, address, patience=PATIENCE):
        """Loads the page and waits for the drawing."""
        self.driver.get(address)
        self.wait(lambda: self.all(".slab") and self.text("#totals"), patience)
        return self

    def size(self, width, height, *, dark=False):
        """Sets the size of the window, and light or dark."""
        if not speaks_devtools(self.driver):
            if dark:
                pytest.skip("this browser cannot be made dark while it runs")
            frame = self.script("return [outerWidth - innerWidth, outerHeight - innerHeight]")
            self.driver.set_window_size(width + frame[0], height + frame[1])
            return self
        shape = {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 500}
        self.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", shape)
        scheme = [{"name": "prefers-color-scheme", "value": "dark" if dark else "light"}]
        self.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": scheme})
        return self

    def wait(self, condition, patience=PATIENCE):
        """Waits until a condition holds, and gives back what it gave; an element drawn anew meanwhile is asked again."""
        waiting = WebDriverWait(
            self.driver, patience, 0.05, (NoSuchElementException, StaleElementReferenceException)
        )
        return waiting.until(lambda _: condition())

    def one(self, selector):
        """The first element."""
        return self.driver.find_element(By.CSS_SELECTOR, selector)

    def all(self, selector):
        """Every element."""
        return self.driver.find_elements(By.CSS_SELECTOR, selector)

    def text(self, selector):
        """An element's text; empty where it is not there now."""
        return self.script(
            "return document.querySelector(arguments[0])?.textContent ?? ''", selector
        )

    def script(self, text, *values):
        """Runs a script in the page."""
        return self.driver.execute_script(text, *values)

    def click(self, selector):
        """Clicks an element when it can be clicked."""
        self.wait(lambda: self.one(selector).is_enabled() and self.one(selector).is_displayed())
        self.one(selector).click()

    def idle(self):
        """Waits until the page is busy with nothing."""
        self.wait(lambda: not self.one("#busy").is_displayed(), 6 * PATIENCE)

    def joint_spot(self, name):
        """A place on the screen where a joint can be taken hold of."""
        return self.script(TAKE_HOLD, name)

    def errors(self):
        """What the browser complained of, but for what the test said it would; Firefox tells nobody."""
        if not speaks_devtools(self.driver):
            return []
        found = [entry["message"] for entry in self.driver.get_log("browser")]
        return [words for words in found if not any(f in words for f in self.forgiven)]

    def forgive(self, words):
        """The browser is going to complain of this, and should."""
        self.forgiven.append(words)


TAKE_HOLD = """
    const path = document.querySelector(`.joint[data-id="${arguments[0]}"] .line`);
    const size = path.getTotalLength();
    for (let share = 0.05; share < 1; share += 0.05) {
      const at = path.getPointAtLength(size * share).matrixTransform(path.getScreenCTM());
      const hit = document.elementFromPoint(at.x, at.y)?.closest("[data-id]");
      if (hit?.dataset.id === arguments[0]) return [at.x, at.y];
    }
    return null;
"""


def drag(page, start, *steps, kind="mouse"):
    """Presses at a place of the screen, moves by steps, and lets go."""
    pointer = PointerInput(kind, kind)
    chain = ActionChains(page.driver, duration=20, devices=[pointer])
    chain.w3c_actions.pointer_action.move_to_location(*map(round, start))
    chain.w3c_actions.pointer_action.pointer_down()
    for step in steps:
        chain.w3c_actions.pointer_action.move_by(*step)
    chain.w3c_actions.pointer_action.pointer_up()
    chain.perform()


def tap(page, place, kind="mouse"):
    """Presses and lets go at a place of the screen."""
    drag(page, place, kind=kind)


def at(page, x, y):
    """The place on the screen of a point in feet."""
    return page.script(
        """
        const world = document.querySelector("#drawing .world");
        const spot = new DOMPoint(arguments[0] * 304.8, -arguments[1] * 304.8);
        const seen = spot.matrixTransform(world.getScreenCTM());
        return [seen.x, seen.y];
        """,
        x,
        y,
    )


def joints(page):
    """Every joint's path as it is drawn, by name."""
    return page.script(
        """
        const all = document.querySelectorAll("#drawing .joint[data-what=joint]");
        return Object.fromEntries([...all].map((n) => [n.dataset.id, n.querySelector(".line").getAttribute("d")]));
        """
    )


def panels(page):
    """How many panels there are now."""
    return int(page.text("#totals b").split()[0])


def settled(page):
    """Waits until the drawing rests where the eye is, and gives where that is."""
    moving = "return document.querySelector('#drawing').style.transform"
    page.wait(lambda: not page.script(moving))
    page.driver.execute_async_script(
        "const done = arguments[0]; requestAnimationFrame(() => requestAnimationFrame(() => done()));"
    )
    return page.script("return document.querySelector('.world').getAttribute('transform')")


def near(d):
    """A path's points in whole mm."""
    return [tuple(round(float(c)) for c in part.split()) for part in d[1:].split("L")]


def retype(field, text):
    """Types over what stands in a field, and leaves it."""
    field.send_keys(Keys.CONTROL, "a")
    field.send_keys(text, Keys.TAB)


def take_hold(page, place, **more):
    """Drags from one place on the slab (ft) to another."""
    start, goal = at(page, *place[0]), at(page, *place[1])
    half = [round((g - s) / 2) for s, g in zip(start, goal, strict=True)]
    drag(
        page,
        start,
        half,
        [round(g - s) - h for s, g, h in zip(start, goal, half, strict=True)],
        **more,
    )


def focused(page):
    """The name of what has the focus."""
    return named(page, ":focus")


def named(page, selector):
    """What a screen reader calls an element."""
    return page.script(
        "return document.querySelector(arguments[0])?.getAttribute('aria-label') ?? ''", selector
    )
