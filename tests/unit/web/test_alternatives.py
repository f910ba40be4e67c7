"""Layouts side by side for the page."""

import json
from dataclasses import replace

import pytest

from boathouses import FT
from kerfline.app.open_job import open_job
from kerfline.geometry.tolerance import TOUCH
from kerfline.web.alternatives import MOST, alternatives_data
from paged import HOUSE, house, opened


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


def test_alternatives_are_distinct_and_keep_what_is_pinned(tmp_path):
    desk, answer = opened(tmp_path)
    state = moved(desk, answer["state"], -2 * FT)

    layouts = desk.alternatives({"state": state})["layouts"]

    assert len(layouts) >= 1
    shapes = [json.dumps([j["path"] for j in one["state"]["joints"]]) for one in layouts]
    assert len(set(shapes)) == len(shapes)
    for one in layouts:
        assert ends(one["state"]) == [at_x(18)]


def test_each_has_a_name_its_words_its_state_and_its_picture(tmp_path):
    job = open_job(house(tmp_path, HOUSE.split("[[joint]]")[0]))
    heard = []
    layouts = alternatives_data(replace(job, effort=1.0), heard.append)
    assert 1 <= len(layouts) <= MOST
    for layout in layouts:
        assert layout["name"][0].isupper()
        assert layout["words"] == layout["picture"]["totals"]["words"]
        assert len(layout["state"]["joints"]) == len(layout["picture"]["joints"])
    assert heard
