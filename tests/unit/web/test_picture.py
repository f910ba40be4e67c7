"""What the page draws agrees with what the program writes elsewhere."""

import json
from dataclasses import replace

import pytest

from kerfline.app.live import kept_outcome
from kerfline.app.open_job import open_job
from kerfline.files.layout_json import layout_json
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job
from kerfline.model.slab import Column, Edge, EdgeKind, GivenJoint, KeepOut, Slab, Zone
from kerfline.units import Unit
from kerfline.web.picture import picture
from paged import HOUSE, house
from shapes import feet

FT = 304.8


def seen(tmp_path, text=HOUSE):
    outcome = kept_outcome(open_job(house(tmp_path, text)))
    return outcome, picture(outcome)


def test_panels_totals_and_findings_are_those_of_the_layout_file(tmp_path):
    """The page and the JSON for programs say the same of every panel."""
    outcome, drawn = seen(tmp_path, HOUSE.replace("[20, 0], [20, 20]", "[23, 0], [23, 20]"))
    written = json.loads(layout_json(outcome.job, outcome.layout, outcome.findings))

    for mine, theirs in zip(drawn["panels"], written["panels"], strict=True):
        assert mine["id"] == theirs["id"]
        assert mine["mm"]["length"] == pytest.approx(theirs["length"], abs=0.01)
        assert mine["mm"]["width"] == pytest.approx(theirs["width"], abs=0.01)
        assert mine["mm"]["area"] == pytest.approx(theirs["area"], rel=1e-6)
    assert drawn["totals"]["tees"] == written["totals"]["tee_ends"]
    assert drawn["totals"]["free"] == written["totals"]["free_ends"]
    assert drawn["totals"]["lines"] == written["totals"]["lines"]
    assert [f["message"] for f in drawn["findings"]] == [f["message"] for f in written["findings"]]


def test_a_panel_says_its_share_of_the_limit_and_how_it_stands(tmp_path):
    _, drawn = seen(tmp_path, HOUSE.replace("[20, 0], [20, 20]", "[23, 0], [23, 20]"))

    shares = {p["id"]: (p["length"], p["share"], p["status"]) for p in drawn["panels"]}
    # 30 t = 10 ft advised and 36 t = 12 ft at most for 4 in (rule set ``floor``)
    assert shares["P1"] == ("10'-0\"", 1.0, "ok")
    assert shares["P2"] == ("13'-0\"", 1.3, "error")
    assert shares["P3"] == ("10'-0\"", 1.0, "warning")


def test_dimension_strings_measure_from_the_lower_left(tmp_path):
    _, drawn = seen(tmp_path)
    level, upright = drawn["dimensions"]

    assert level["stops"] == pytest.approx([0, 10 * FT, 20 * FT, 30 * FT])
    assert level["texts"] == ["10'-0\""] * 3
    assert level["running"] == ["0'-0\"", "10'-0\"", "20'-0\"", "30'-0\""]
    assert level["whole"] == "30'-0\""
    assert upright["texts"] == ["10'-0\""] * 2


def test_everything_that_stands_on_a_slab_is_drawn(tmp_path):
    slab = Slab(
        outline=Ring(feet((0, 0), (30, 0), (30, 20), (0, 20))),
        thickness=101.6,
        openings=(Ring(feet((2, 2), (4, 2), (4, 4), (2, 4))),),
        columns=(Column(id="C1", at=feet((10, 10))[0]),),
        zones=(
            Zone(id="Z1", outline=Ring(feet((20, 0), (30, 0), (30, 5), (20, 5))), thickness=203.2),
        ),
        keep_outs=(KeepOut(id="K1", outline=Ring(feet((6, 6), (8, 6), (8, 8)))),),
        edges=(Edge(ring=1, segment=3, kind=EdgeKind.ISOLATED),),
        joints=(
            GivenJoint(id="J1", path=feet((15, 0), (15, 20))),
            GivenJoint(id="F1", path=feet((5, 0), (5, 20)), forbidden=True),
        ),
    )
    drawn = picture(kept_outcome(Job(name="x", units=Unit.FT, slab=slab)))["slab"]

    assert len(drawn["openings"]) == 1
    assert len(drawn["columns"][0]["outline"]) == 4
    assert drawn["zones"][0]["thickness"] == '8"'
    assert drawn["keepOuts"][0]["what"] == "keep-out"
    assert drawn["edges"] == [{"kind": "isolated", "path": [[2 * FT, 4 * FT], [2 * FT, 2 * FT]]}]
    assert drawn["forbidden"][0]["id"] == "F1"


def test_metric_jobs_are_written_in_millimetres(tmp_path):
    outcome, _ = seen(tmp_path)
    metric = kept_outcome(replace(outcome.job, units=Unit.MM))

    drawn = picture(metric)

    assert drawn["panels"][0]["length"] == "3048 mm"
    assert drawn["grid"] == 10.0
