"""Layouts side by side for the page."""

import json
from dataclasses import replace

from boathouses import FT
from kerfline.app.open_job import open_job
from kerfline.web.alternatives import MOST, alternatives_data
from paged import HOUSE, at_x, ends, house, moved, opened


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
