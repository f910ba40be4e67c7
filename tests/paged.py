"""What the tests of the page work on: a small invented house whose joints are kept in its job file."""

import asyncio
from pathlib import Path

import httpx
import pytest

from kerfline.geometry.tolerance import TOUCH
from kerfline.web.desk import Desk
from kerfline.web.server import make_app

FT = 304.8
TOKEN = "a-long-word-that-nobody-guesses"
HOST = "127.0.0.1:8765"
ORIGIN = f"http://{HOST}"

HOUSE = """\
# The boathouse of a rowing club that we made up.
[job]
name = "Boathouse"
units = "ft"                 # of bare numbers

# measured on site
[slab]
outline = [[0, 0], [30, 0], [30, 20], [0, 20]]   # inside of the forms
thickness = "4 in"           # cores: 4 to 4 1/4 in

[[wall]]                     # between boats and kitchen
path = [[10, 0], [10, 20]]
id = "W1"
thickness = "4 1/2 in"

[[penetration]]
at = [20, 5]
diameter = "4 in"
kind = "drain"

[rules]
set = "floor"                # agreed with the engineer

[[joint]]
id = "J1"
path = [[10, 0], [10, 20]]
reason = "wall"
note = "under wall W1"

[[joint]]
id = "J2"
path = [[20, 0], [20, 20]]
reason = "span"
note = "keeps panels within the span"

[[joint]]
id = "J3"                    # straight through
path = [[0, 10], [30, 10]]
reason = "span"
note = "keeps panels within the span"
"""


PITTED = HOUSE.replace(
    "# inside of the forms\n",
    """# inside of the forms
openings = [[[3, 3], [6, 3], [6, 5], [3, 5]]]   # the pit
""",
).replace(
    "[rules]",
    """[[edge]]
ring = 0
segment = 1
kind = "isolated"            # against the old wall

[[edge]]
ring = 1
segment = 2
kind = "turndown"
depth = "12 in"

[rules]""",
)
"""The house with an opening, and what two of its edges are."""

BENT = """
[[joint]]
id = "J4"                    # knees left and right of the drain's trench
path = [[25, 0], [25, 4], [26, 6], [26, 10]]
reason = "span"
note = "bends"
"""
"""A joint with two knees, for the house."""


def house(folder: Path, text: str = HOUSE) -> Path:
    """The job file of the house in a folder."""
    path = folder / "boathouse.toml"
    path.write_text(text, encoding="utf-8")
    return path


class Page:
    """Asks the server's application as a browser would, without a socket."""

    def __init__(self, desk: Desk, base: str, headers: dict[str, str]) -> None:
        self.app = make_app(desk, TOKEN, (HOST,))
        self.base = base
        self.headers = headers

    def request(self, method: str, path: str, **more) -> httpx.Response:
        """One request."""
        return asyncio.run(self._request(method, path, more))

    async def _request(self, method, path, more):
        transport = httpx.ASGITransport(app=self.app)
        headers = {**self.headers, **more.pop("headers", {})}
        async with httpx.AsyncClient(transport=transport) as asker:
            return await asker.request(method, self.base + path, headers=headers, **more)

    def get(self, path: str, **more) -> httpx.Response:
        """Reads."""
        return self.request("GET", path, **more)

    def post(self, path: str, **more) -> httpx.Response:
        """Asks for something to be done."""
        return self.request("POST", path, **more)


def client(desk: Desk) -> Page:
    """A browser on the page: right host, right origin, right token."""
    return Page(desk, f"{ORIGIN}/{TOKEN}/", {"origin": ORIGIN})


def stranger(desk: Desk) -> Page:
    """Somebody who knows the server's address and nothing else."""
    return Page(desk, ORIGIN, {})


def opened(folder: Path) -> tuple[Desk, dict]:
    """The house's desk and what it answers to ``open``."""
    desk = Desk(house(folder))
    return desk, desk.open({})


def moved(desk, state, by=0.5 * FT):
    """The state with joint J2 moved."""
    return desk.looks.change(
        {"state": state, "action": {"do": "slide", "id": "J2", "by": [by, 0]}}
    )["state"]


def ends(state):
    """The ends of every pinned joint, one flat list a joint."""
    return [[c for p in j["path"] for c in p] for j in state["joints"] if j["pinned"]]


def at_x(feet):
    """The ends of a joint from edge to edge, as closely as a panel is closed."""
    return pytest.approx([feet * FT, 0, feet * FT, 20 * FT], abs=TOUCH)


def look(page, path, units=""):
    """What the page is shown of a drawing that is dropped on it."""
    return page.post(f"import/look?units={units}", content=path.read_bytes())


def take(page, seen, **changes):
    """The drawing taken as it was seen, but for some changes."""
    said = {
        "name": seen["name"],
        "unit": seen["unit"],
        "thickness": "5 in",
        "roles": {"SLAB": "outline", "A-WALL": "walls"},
    }
    return page.post("import/take", json=said | changes)
