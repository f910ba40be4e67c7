"""What the page opens with and goes back to."""

import pytest

from kerfline.errors import InputRefused
from kerfline.web.desk import Desk
from kerfline.web.draft import draft_path
from paged import FT, HOUSE, at_x, ends, house, moved, opened


def test_a_kept_layout_opens_as_it_was_saved(tmp_path):
    _, answer = opened(tmp_path)

    assert [j["reason"] for j in answer["state"]["joints"]] == ["wall", "span", "span"]
    assert answer["state"] == answer["saved"]
    assert answer["picture"]["joints"][0]["note"] == "under wall W1"


def test_going_back_reads_the_file_again(tmp_path):
    desk, answer = opened(tmp_path)
    kept = desk.keeping.keep_draft(
        {"state": moved(desk, answer["state"]), "revision": answer["revision"]}
    )

    back = desk.discard({"revision": kept["revision"]})

    assert back["state"] == answer["state"]
    assert not draft_path(desk.disk.path).exists()


def test_a_file_that_is_not_there_is_refused(tmp_path):
    with pytest.raises(InputRefused, match="no such file"):
        Desk(tmp_path / "nothing.toml")


def test_a_job_that_is_laid_out_now_keeps_hand_drawn_joints(tmp_path):
    """Joints without a reason are the user's: the engine completes around them."""
    text = HOUSE[: HOUSE.index("[[joint]]")] + '[[joint]]\nid = "G1"\npath = [[20, 0], [20, 20]]\n'
    answer = Desk(house(tmp_path, text)).open({})

    assert answer["saved"] is None
    assert answer["picture"]["totals"]["errors"] == 0
    assert ends(answer["state"]) == [at_x(20)]


def test_an_empty_page_begins_blank_and_then_with_what_was_drawn(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    desk = Desk(None)
    assert desk.open({})["blank"] is True
    begun = desk.begin(
        {"name": "Shed", "units": "ft", "thickness": "4 in", "size": "20 ft x 10 ft"}
    )
    assert begun["picture"]["bounds"] == pytest.approx([0, 0, 20 * FT, 10 * FT])
    assert begun["file"] == "shed.toml"
    with pytest.raises(InputRefused, match="a slab is begun already"):
        desk.begin({"name": "Barn", "units": "ft", "thickness": "4 in", "size": "20 ft x 10 ft"})


def test_typed_legs_lead_on_from_a_point(tmp_path):
    desk, _ = opened(tmp_path)
    said = {"from": [0, 0], "origin": [0, 0], "units": "ft", "text": "right 10 ft, up 5 ft"}
    assert desk.walk(said)["points"] == [
        pytest.approx(p) for p in ([0, 0], [10 * FT, 0], [10 * FT, 5 * FT])
    ]


def test_work_that_nobody_knows_is_at_nothing(tmp_path):
    desk, _ = opened(tmp_path)
    assert desk.progress({"work": "unknown"}) == {"words": ""}
    assert desk.stop({"work": "unknown"}) == {}
