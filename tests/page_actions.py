"""Any message that the page may send, drawn by chance, for the tests that do many of them."""

from collections.abc import Iterator
from typing import Any

from hypothesis import strategies as st

from kerfline.app.working import Working
from paged import BENT, FT, HOUSE, PITTED

ACTIONS = 30
KINDS = ("wall", "column", "penetration", "keep-out", "forbidden", "zone")
RULES = ("floor", "parking", "pca-table", "nobody's")
LENGTHS = ("4 in", "12", "5'-6 1/2\"", "0", "-3 ft", "2 m", "a cubit", "1e9", "")
FIELDS = (
    ("wall", "bearing", (True, False)),
    ("wall", "thickness", LENGTHS),
    ("wall", "strip_width", LENGTHS),
    ("column", "boxout", ("diamond", "square", "circle", "star")),
    ("column", "size", LENGTHS),
    ("penetration", "kind", ("drain", "pipe", "ghost")),
    ("penetration", "diameter", LENGTHS),
    ("keep-out", "what", ("heating", "  ", "# not a comment \\ \" ''' \x7f \u2028 é")),
    ("zone", "thickness", LENGTHS),
)

number = st.one_of(
    st.integers(-4, 34).map(lambda n: n * FT),
    st.floats(-2 * FT, 32 * FT, allow_nan=False),
    st.sampled_from([0.0, 0.1 + 0.2, 1e-9, 1e7, 30 * FT, 20 * FT, 10 * FT]),
)
spot = st.tuples(number, number).map(list)


@st.composite
def taps(draw: Any) -> list[list[float]]:
    """Points as fingers give them: some of them twice."""
    points = draw(st.lists(spot, min_size=1, max_size=6))
    twice = draw(st.lists(st.integers(0, len(points) - 1), max_size=2))
    for at in sorted(twice, reverse=True):
        points.insert(at, list(points[at]))
    return points


@st.composite
def actions(draw: Any) -> dict[str, Any]:
    """Any message of the page; names are told by their place among those that there are."""
    kind, text = draw(st.sampled_from(KINDS)), draw(st.sampled_from(LENGTHS))
    pick, index = draw(st.integers(0, 9)), draw(st.integers(0, 5))
    bent = draw(st.sampled_from(["joint", "outline", "opening"]))
    what, field, values = draw(st.sampled_from(FIELDS))
    return draw(
        st.sampled_from(
            [
                {"do": "slide", "id": ("joint", pick), "by": draw(spot)},
                {"do": "place", "id": ("joint", pick), "text": text},
                {"do": "end", "id": ("joint", pick), "end": pick % 2, "to": draw(spot)},
                {"do": "step-end", "id": ("joint", pick), "end": pick % 2, "by": draw(spot)},
                {"do": "vertex", "what": bent, "id": (bent, pick), "index": index, "to": draw(spot)},
                {"do": "place-vertex", "what": bent, "id": (bent, pick), "index": index,
                 "axis": "xy"[pick % 2], "text": text},
                {"do": "add-vertex", "what": bent, "id": (bent, pick), "at": draw(spot)},
                {"do": "add-vertex", "what": bent, "id": (bent, pick), "after": index},
                {"do": "remove-vertex", "what": bent, "id": (bent, pick), "index": index},
                {"do": "draw", "start": draw(spot), "end": draw(spot)},
                {"do": "split", "id": f"P{pick + 1}", "turned": bool(pick % 2)},
                {"do": "delete", "what": "joint", "id": ("joint", pick)},
                {"do": "pin", "id": ("joint", pick), "pinned": bool(index % 2)},
                {"do": "pin", "pinned": bool(index % 2)},
                {"do": "kind", "id": ("joint", pick), "kind": "construction"},
                {"do": "forbid", "id": ("joint", pick)},
                {"do": "add", "what": kind, "points": draw(taps())},
                {"do": "add", "what": "opening", "points": draw(taps())},
                {"do": "move", "what": kind, "id": (kind, pick), "by": draw(spot)},
                {"do": "move", "what": "opening", "id": ("opening", pick), "by": draw(spot)},
                {"do": "delete", "what": kind, "id": (kind, pick)},
                {"do": "delete", "what": "opening", "id": ("opening", pick)},
                {"do": "set", "what": what, "id": (what, pick), "field": field,
                 "value": draw(st.sampled_from(values))},
                {"do": "thickness", "text": text},
                {"do": "rules", "set": draw(st.sampled_from(RULES)), "to_maximum": bool(pick % 2)},
            ]
        )
    )  # fmt: skip


def named(action: dict[str, Any], working: Working) -> dict[str, Any]:
    """The action with a name in place of what it points to."""
    if not isinstance(action.get("id"), tuple):
        return action
    kind, pick = action["id"]
    names = list(_names(kind, working)) or ["nothing"]
    return {**action, "id": names[pick % len(names)]}


def _names(kind: str, working: Working) -> Iterator[str]:
    slab = working.slab
    if kind == "joint":
        yield from (j.id for j in working.joints)
    elif kind == "opening":
        yield from map(str, range(1, len(slab.openings) + 1))
    elif kind == "outline":
        yield "0"
    else:
        field = {"keep-out": "keep_outs", "forbidden": "joints"}.get(kind, f"{kind}s")
        yield from (thing.id for thing in getattr(slab, field))


sequences = st.lists(actions(), min_size=ACTIONS, max_size=ACTIONS)
texts = st.sampled_from([HOUSE, PITTED, HOUSE + BENT])
