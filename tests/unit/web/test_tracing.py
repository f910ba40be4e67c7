"""The picture under the drawing as the page asks for it: brought, kept beside the job, shown, found again."""

import io
import json
from pathlib import Path

import pytest
from PIL import Image

from kerfline.app.open_job import open_job
from kerfline.web.desk import Desk
from paged import FT, HOUSE, client, house, opened
from traced import brought, lay, picture, traced

FADED = {"do": "show-tracing", "fade": 0.25}


@pytest.fixture
def desk(tmp_path):
    return opened(tmp_path)[0]


def test_a_file_is_named_after_itself_and_what_is_in_it(desk, tmp_path):
    seen = brought(client(desk))
    assert seen["file"].startswith("img-2041-")
    assert seen["file"].endswith(".png")
    assert seen["size"] == [300, 200]
    assert brought(client(desk), data=picture(colour="black"))["file"] != seen["file"]
    # Nothing is written before something is kept.
    assert [p.name for p in tmp_path.iterdir()] == ["boathouse.toml"]


@pytest.mark.parametrize("name", ["../../x.png", "a%2Fb.png", "", "%00", "con.png", "." * 50])
def test_no_name_leads_elsewhere(desk, name):
    file = brought(client(desk), name)["file"]
    assert file == Path(file).name
    assert not file.startswith(".")


def test_it_is_laid_shown_and_kept(desk, tmp_path):
    answer = traced(desk, FADED)
    told = answer["picture"]["tracing"]
    assert (told["fade"], told["shown"], told["locked"], told["squared"]) == (
        0.25,
        True,
        False,
        False,
    )
    # 300 by 200 in a view of 30 by 20 ft: a pixel is a tenth of a foot, y down.
    assert told["box"] == [0.0, 0.0, 300.0, 200.0]
    assert told["matrix"] == pytest.approx([FT / 10, 0, 0, FT / 10, 0, -20 * FT])
    desk.keeping.keep_draft({"state": answer["state"], "revision": 0})
    file = answer["state"]["tracing"]["file"]
    assert (tmp_path / file).read_bytes() == picture()

    again = Desk(tmp_path / "boathouse.toml").open({})
    assert again["state"]["tracing"] == answer["state"]["tracing"]


def test_it_is_saved_in_the_job_and_found_by_another_server(desk, tmp_path):
    answer = traced(desk, FADED)
    desk.keeping.save({"state": answer["state"], "revision": 0})
    job = open_job(tmp_path / "boathouse.toml")
    assert (job.tracing.file, job.tracing.fade) == (answer["state"]["tracing"]["file"], 0.25)

    other = Desk(tmp_path / "boathouse.toml")
    told = other.open({})["picture"]["tracing"]
    shown = client(other).get(told["source"])
    assert shown.status_code == 200
    assert shown.headers["content-type"] == "image/jpeg"
    assert Image.open(io.BytesIO(shown.content)).size == (300, 200)


def test_what_the_layout_measures_stays_while_the_picture_changes(desk):
    """Nothing is measured anew: the very same joints and findings, and the picture's own part differs."""
    seen, first = brought(client(desk)), desk.open({})
    laid = desk.looks.change({"at": first["at"], "action": lay(seen)})
    kind, changed, gone = laid["difference"]
    assert (kind, gone, set(changed)) == ("{", [], {"state", "picture"})
    assert set(changed["picture"][1]) == {"tracing"}
    assert set(changed["state"][1]) == {"tracing"}


def test_moving_a_squared_picture_does_not_draw_it_anew(desk):
    corners = [[900, 900], [6000, 700], [5600, 4000], [1100, 4100]]
    squared = traced(desk, {"do": "square-tracing", "corners": corners, "texts": ["16", "11 ft"]})
    moved = desk.looks.change(
        {"state": squared["state"], "action": {"do": "move-tracing", "by": [250, -90]}}
    )
    one, other = squared["picture"]["tracing"], moved["picture"]["tracing"]
    assert (one["source"], one["box"]) == (other["source"], other["box"])
    assert one["squared"]
    assert other["matrix"][4:] == pytest.approx([one["matrix"][4] + 250, one["matrix"][5] + 90])
    shown = Image.open(io.BytesIO(client(desk).get(one["source"]).content))
    assert shown.mode == "RGBA"
    assert shown.width / shown.height == pytest.approx(one["box"][2] / one["box"][3], rel=0.01)


def test_it_is_removed_and_its_file_stays(desk, tmp_path):
    answer = traced(desk)
    desk.keeping.keep_draft({"state": answer["state"], "revision": 0})
    gone = desk.looks.change({"state": answer["state"], "action": {"do": "remove-tracing"}})
    assert gone["picture"]["tracing"] is None
    desk.keeping.save({"state": gone["state"], "revision": 1})
    assert (tmp_path / "boathouse.toml").read_text() == HOUSE
    assert (tmp_path / answer["state"]["tracing"]["file"]).exists()


def test_a_file_that_is_gone_is_missed_in_plain_words(desk, tmp_path):
    answer = traced(desk)
    other = Desk(house(tmp_path))
    told = client(other).get(answer["picture"]["tracing"]["source"])
    assert told.status_code == 422
    assert "not beside the job any more" in told.json()["refused"][0]


def test_a_link_is_not_followed(desk, tmp_path):
    (tmp_path / "secret").write_bytes(picture())
    (tmp_path / "link.png").symlink_to(tmp_path / "secret")
    of = json.dumps({"file": "link.png", "page": 0, "size": [9, 9]})
    assert client(desk).get("tracing/picture", params={"of": of}).status_code == 422


def test_a_job_is_no_picture(desk):
    of = json.dumps({"file": "boathouse.toml", "page": 0, "size": [9, 9]})
    told = client(desk).get("tracing/picture", params={"of": of})
    assert "cannot be traced from" in told.json()["refused"][0]


def test_nothing_can_be_done_to_no_picture(desk):
    told = client(desk).post("change", json={"state": desk.open({})["state"], "action": FADED})
    assert "no picture under the drawing" in told.json()["refused"][0]


@pytest.mark.parametrize(
    "change", [{"file": "../a.png"}, {"size": [0, 1]}, {"picture": [[0, 0]]}, {"fade": "x"}]
)
def test_a_state_with_a_senseless_picture_is_refused(desk, change):
    state = traced(desk)["state"]
    state["tracing"] |= change
    assert client(desk).post("change", json={"state": state, "action": None}).status_code == 422


def test_on_an_empty_board_it_is_laid_before_there_is_a_slab(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    desk = Desk(None)
    page = client(desk)
    seen = brought(page)
    answer = page.post(
        "tracing/lay", json={"tracing": None, "units": "ft", "action": lay(seen)}
    ).json()
    scale = {"do": "scale-tracing", "ends": [[0, 0], [30 * FT, 0]], "text": "60", "way": ""}
    answer = page.post(
        "tracing/lay", json={"tracing": answer["state"], "units": "ft", "action": scale}
    ).json()
    assert answer["shown"]["matrix"][0] == pytest.approx(FT / 5)
    assert answer["state"]["locked"]
    begun = desk.begin(
        {
            "name": "Shed",
            "thickness": "4",
            "units": "ft",
            "size": "60 x 40",
            "tracing": answer["state"],
        }
    )
    assert begun["picture"]["tracing"] == answer["shown"]
    desk.keeping.keep_draft({"state": begun["state"], "revision": 0})
    assert (tmp_path / seen["file"]).exists()


def test_the_empty_board_does_nothing_else(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    said = {"tracing": None, "units": "ft", "action": {"do": "thickness", "text": "4"}}
    told = client(Desk(None)).post("tracing/lay", json=said)
    assert "there is no slab yet" in told.json()["refused"][0]
