"""What a change sends is enough to make the new answer from the old one, and no more than changed."""

import json
import shutil
import subprocess
from importlib.resources import files

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.web.differences import difference, patched
from paged import opened

WORDS = st.text("abc", min_size=1, max_size=2)
LEAVES = st.one_of(st.none(), st.booleans(), st.integers(-3, 3), WORDS)
THINGS = st.dictionaries(WORDS, st.integers(0, 3), max_size=4).map(
    lambda d: [{"id": key, "n": value} for key, value in d.items()]
)
VALUES = st.recursive(
    st.one_of(LEAVES, THINGS),
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(WORDS, inner, max_size=4)),
    max_leaves=12,
)


@given(VALUES, VALUES)
def test_a_difference_gives_the_new_value(old, new):
    change = json.loads(json.dumps(difference(old, new)))

    assert patched(old, change) == new
    assert (change is None) == (old == new)


@pytest.mark.skipif(not shutil.which("node"), reason="node is not installed")
def test_the_page_reads_differences_alike(tmp_path):
    """``patch.js`` on a run of values gives what ``patched`` gives."""
    pairs = [
        ({"a": 1, "b": [1, 2]}, {"b": [2], "c": {"d": None}}),
        ([{"id": "x", "n": 1}, {"id": "y", "n": 1}], [{"id": "y", "n": 2}, {"id": "z", "n": 0}]),
        ([{"id": "x"}], [{"id": "x"}, {"id": "x"}]),
        ({"k": [{"id": "x", "n": 1}]}, {"k": [{"id": "x", "n": 2}]}),
        ([1], {"a": 1}),
        ([], [{"id": "q"}]),
    ]
    cases = [[old, difference(old, new), new] for old, new in pairs]
    script = tmp_path / "run.mjs"
    source = (files("kerfline.web") / "static" / "patch.js").read_text()
    script.write_text(
        f"{source}\nconst cases = {json.dumps(cases)};\n"
        "console.log(JSON.stringify(cases.map(([old, change]) => patched(old, change))));"
    )
    told = subprocess.run(["node", str(script)], capture_output=True, text=True, check=True).stdout

    assert json.loads(told) == [new for _, _, new in cases]


def test_a_drag_sends_what_it_moves_and_is_the_same_as_the_whole(tmp_path):
    desk, first = opened(tmp_path)
    action = {"do": "slide", "id": "J2", "by": [304.8, 0]}
    part = desk.looks.change({"at": first["at"], "action": action})
    whole = desk.looks.change({"state": first["state"], "action": action})
    old = {"state": first["state"], "picture": first["picture"]}
    made = patched(old, json.loads(json.dumps(part["difference"])))

    assert made == {"state": whole["state"], "picture": whole["picture"]}
    assert len(json.dumps(part)) < len(json.dumps(whole)) / 2
    again = desk.looks.change({"at": first["at"], "action": action})
    assert again == part


def test_a_state_that_is_gone_is_asked_for(tmp_path):
    desk, _ = opened(tmp_path)

    assert desk.looks.change({"at": "nowhere", "action": {"do": "pin", "pinned": True}}) == {
        "unknown": True
    }
