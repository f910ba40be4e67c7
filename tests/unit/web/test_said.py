"""What stands in a request of the page, and how a refusal is answered."""

import json

import pytest

from kerfline.errors import InputRefused, KerflineError, Mistake, OutputRefused
from kerfline.web.desk import Desk
from kerfline.web.draft import Conflict
from kerfline.web.long_work import Stopped
from kerfline.web.said import refusal
from paged import client, house


@pytest.fixture
def page(tmp_path):
    return client(Desk(house(tmp_path)))


@pytest.mark.parametrize(
    ("content", "kind"),
    [
        (b"{}", "text/plain"),
        (b"{", "application/json"),
        (b"[]", "application/json"),
        (b"\xff\xfe", "application/json"),
        (b"[" * 100_000, "application/json"),
        (b"", "application/json"),
    ],
)
def test_what_is_no_json_object_is_refused_in_words(page, content, kind):
    answer = page.post("change", content=content, headers={"content-type": kind})

    assert answer.status_code == 422
    assert "JSON" in answer.json()["refused"][0]


@pytest.mark.parametrize(
    ("error", "status", "body"),
    [
        (Conflict("file", "changed"), 409, {"conflict": "changed", "which": "file"}),
        (
            InputRefused(Mistake(what="one"), Mistake(what="two")),
            422,
            {"refused": ["one.", "two."]},
        ),
        (OutputRefused(Mistake(what="full")), 507, {"refused": ["full."]}),
        (Stopped("stopped"), 422, {"refused": ["stopped"]}),
    ],
)
def test_each_refusal_has_its_status(error, status, body):
    answer = refusal(error)
    assert (answer.status_code, json.loads(answer.body)) == (status, body)


def test_any_other_is_told_as_it_is():
    answer = refusal(KerflineError("odd"))
    assert (answer.status_code, answer.body) == (500, b"odd")
