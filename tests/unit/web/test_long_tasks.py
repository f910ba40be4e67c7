"""What the page asks for that may take long."""

import json
import pickle

from kerfline.app.open_job import open_job
from kerfline.app.working import working_of
from kerfline.web.long_tasks import exported, first_layout, laid_out, page_for_the_crew
from paged import FT, at_x, ends, house, moved, opened


def test_what_is_exported_lies_beside_the_job(tmp_path):
    desk, answer = opened(tmp_path)

    written = desk.export({"state": answer["state"]})

    folder = tmp_path / written["folder"]
    assert folder == tmp_path / "out" / "boathouse"
    assert sorted(p.name for p in folder.glob("[!.]*")) == sorted(written["files"])
    assert "boathouse-layout.json" in written["files"]


def test_a_jobs_name_leads_no_file_out_of_the_folder(tmp_path):
    desk, answer = opened(tmp_path)
    state = json.loads(json.dumps(answer["state"])) | {"name": "../../../etc/<script>"}

    written = desk.export({"state": state})

    assert written["folder"] == "out/etc-script"
    assert (tmp_path / written["folder"]).is_dir()


def test_completing_keeps_what_is_pinned_and_lays_out_the_rest(tmp_path):
    desk, answer = opened(tmp_path)
    state = moved(desk, answer["state"], -2 * FT)
    done = desk.complete({"state": state})

    assert ends(done["state"]) == [at_x(18)]
    assert done["picture"]["totals"]["errors"] == 0


def test_work_says_what_it_is_at(tmp_path):
    job = open_job(house(tmp_path))
    state, heard = working_of(first_layout(job)), []
    told = exported(job, state, tmp_path / "boathouse.toml", heard.append)
    assert heard == [
        "Holding the layout against the rules",
        "Planning the placement day",
        "Drawing the sheets",
    ]
    assert told["folder"] == "out/boathouse"
    assert all((tmp_path / told["folder"] / name).is_file() for name in told["files"])


def test_what_goes_to_another_process_holds_nothing_that_cannot(tmp_path):
    job = open_job(house(tmp_path))
    for outcome in (first_layout(job), laid_out(job)):
        assert outcome.held is None
        assert pickle.loads(pickle.dumps(outcome)).layout.joint_length > 0


def test_the_crews_page_is_named_after_the_job(tmp_path):
    job = open_job(house(tmp_path))
    name, page = page_for_the_crew(job, working_of(first_layout(job)), tmp_path / "boathouse.toml")
    assert name == "boathouse-page.html"
    assert page.startswith(b"<!doctype html>")
