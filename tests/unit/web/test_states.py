"""The last working states that pages look at."""

import pytest

from kerfline.app.live import kept_outcome
from kerfline.app.open_job import open_job
from kerfline.app.working import working_of
from kerfline.web.picture import Shown, picture
from kerfline.web.states import KEPT, States
from paged import house


@pytest.fixture
def parts(tmp_path):
    outcome = kept_outcome(open_job(house(tmp_path)))
    return working_of(outcome), Shown(outcome, picture(outcome)), {}


def test_the_oldest_that_nobody_asked_for_goes(parts):
    states = States()
    assert states.last() is None
    first, second, *_ = [states.keep(*parts) for _ in range(KEPT)]
    assert states.find(first.name) is first, "used now"
    newest = states.keep(*parts)
    assert states.last() is newest
    assert states.find(second.name) is None
    assert states.find(first.name) is first
    assert states.last() is first, "asked for last"


@pytest.mark.parametrize("name", [None, 3, "nothing", ["x"]])
def test_a_name_that_is_none_finds_nothing(parts, name):
    states = States()
    states.keep(*parts)
    assert states.find(name) is None
