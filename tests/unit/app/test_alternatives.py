"""Several layouts of one job, each divided and held against the rules."""

import pytest

from depots import DEPOT
from kerfline.app.alternatives import choices
from kerfline.app.open_job import open_job
from kerfline.model.finding import Severity
from kerfline.model.slab import JointKind


@pytest.fixture(scope="module")
def path(tmp_path_factory):
    file = tmp_path_factory.mktemp("job") / "depot.toml"
    file.write_text(DEPOT, encoding="utf-8")
    return file


def formed(layout):
    return [j for j in layout.joints if j.kind is JointKind.CONSTRUCTION]


def test_the_layout_and_every_alternative_are_divided(path):
    """And the checks are held against the divided layout."""
    for choice in choices(open_job(path), 2):
        assert len(formed(choice.outcome.layout)) >= 2


def test_the_best_comes_first_and_no_two_are_called_the_same(path):
    found = choices(open_job(path), 3)
    assert 1 <= len(found) <= 3
    assert len({choice.name for choice in found}) == len(found)
    errors = [choice.outcome.count(Severity.ERROR) for choice in found]
    assert errors[0] == min(errors)


def test_one_is_the_layout_alone_and_progress_is_told_in_words(path):
    heard = []
    (only,) = choices(open_job(path), 1, heard.append)
    names = [joint.id for joint in only.outcome.layout.joints]
    formed_ = [name for name in names if name.startswith("CNTJ")]
    sawn = [name for name in names if name not in formed_]
    assert formed_ == [f"CNTJ{n}" for n in range(1, len(formed_) + 1)]
    assert sawn == [f"J{n}" for n in range(1, len(sawn) + 1)], "numbered after the division"
    assert heard
    assert all(isinstance(words, str) and words for words in heard)
